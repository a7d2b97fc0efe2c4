# SPDX-License-Identifier: MIT
"""What a public header declares outside the model is what some program needs."""
import re

from lint import headers, layers, source

# What programs need that are not ours: ours ask the same of an answer, or of their tables.
FOR_OTHERS = {
    "brake_assessed", "brake_evaluate", "brake_sheet_set", "brake_result_find",
    # words of enums and units
    "brake_axle_word", "brake_failure_words", "brake_load_word", "brake_unit_at",
    "brake_unit_names", "brake_unit_of_us_trade", "brake_unit_us",
    "brake_warning_id", "brake_warning_meaning",
}  # fmt: skip


def programs():
    """The code of all programs: the command, the Python package, the page, the examples."""
    folders = "libbrake/command", "bindings/python", "bindings/web", "examples"
    paths = (path for name in folders for path in sorted((source.ROOT / name).glob("*.[chi]")))
    return "\n".join(source.code_only(path.read_text()) for path in paths)


def findings_in(text, shown, code):
    """Functions that the text of a header declares and the code does not name."""
    for offset, name, _, _ in headers.functions(text):
        if name not in FOR_OTHERS and not re.search(rf"\b{name}\b", code):
            line = source.line_of(text, offset)
            yield f"{shown}:{line}: {name}: no program needs it; declare it beside its source"


def findings():
    """Findings in all public headers but those of the model, which is for everybody."""
    code = programs()
    for header in sorted(source.INCLUDE.glob("*.h")):
        if layers.layer_of(header) != "model":
            yield from findings_in(header.read_text(), source.name(header), code)
