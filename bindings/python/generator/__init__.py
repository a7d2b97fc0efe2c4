# SPDX-License-Identifier: MIT
"""What is made from the headers and the tables of the library, so that nothing stands twice."""
from generator import headers, kernels, model, modules, tables

# Their types are used by the headers of the model.
_BESIDE = {"constants"}
# `libbrake.load` reads a vehicle file.
_RENAMED = {"load": "mass"}


def read_model(library):
    """The headers of the model: those that a source of libbrake/model stands behind."""
    paths = sorted((library / "include" / "brake").glob("*.h"))
    wanted = [
        headers.read(path)
        for path in paths
        if path.stem in _BESIDE or (library / "model" / f"{path.stem}.c").exists()
    ]
    for header in wanted:
        header.stem = _RENAMED.get(header.stem, header.stem)
    return model.Model(wanted)


def _write(path, lines):
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def write_kernels(library, path):
    """The loops in C."""
    path.write_text(kernels.source(read_model(library)), encoding="utf-8")


def write_package(library, catalogue, folder):
    """Modules and types beside those that are written by hand."""
    found = read_model(library)
    for header in found.headers:
        if modules.used(found, header) or any(c.stem == header.stem for c in found.calls):
            _write(folder / f"{header.stem}.py", modules.module(found, header))
            _write(folder / f"{header.stem}.pyi", modules.stub(found, header))
    _write(folder / "sections.py", tables.sections(catalogue))
    _write(folder / "sections.pyi", tables.sections_stub(catalogue))
    _write(folder / "outcomes.py", tables.outcomes(catalogue))
    _write(folder / "outcomes.pyi", tables.outcomes_stub(catalogue))
    _write(folder / "errors.pyi", tables.errors_stub(catalogue))
    subjects = sorted({call.stem for call in found.calls})
    duty = headers.read(library / "include" / "brake" / "duty.h")
    _write(folder / "made.py", tables.made(catalogue, subjects, duty.structs["brake_duty_row"]))
    stub = (folder / "__init__.pyi").read_text(encoding="utf-8")
    imports = "".join(f"from libbrake import {name} as {name}\n" for name in subjects)
    _write(folder / "__init__.pyi", [imports + stub])
