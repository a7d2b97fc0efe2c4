# SPDX-License-Identifier: MIT
"""Builds the extension from the sources of the library, and the modules made from its tables."""
import concurrent.futures
import importlib.machinery
import importlib.util
import itertools
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import sysconfig

from setuptools import Extension, setup
from setuptools.command.build_ext import build_ext
from setuptools.command.sdist import sdist

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))
import generator  # noqa: E402

# In a source archive the library stands inside; in a checkout, two folders up.
INSIDE = HERE / "library"
LIBRARY = INSIDE if INSIDE.exists() else HERE.parents[1] / "libbrake"
NOT_WANTED = {"command"}


def version():
    """The version, which stands in the library's header only."""
    text = (LIBRARY / "include" / "brake" / "version.h").read_text(encoding="utf-8")
    return re.search(r'#define BRAKE_VERSION "(.*)"', text).group(1)


def library_sources():
    """The sources of the library, as paths that setuptools takes."""
    return [
        os.path.relpath(path, HERE)
        for path in sorted(LIBRARY.glob("*/*.c"))
        if path.parent.name not in NOT_WANTED
    ]


def load(path):
    """The extension at a path, before it is installed."""
    loader = importlib.machinery.ExtensionFileLoader("_core", str(path))
    module = importlib.util.module_from_spec(importlib.util.spec_from_loader("_core", loader))
    loader.exec_module(module)
    return module


def _lacking(compiler):
    """(what is not installed, Debian's package of it) of what building takes."""
    if not shutil.which("swig"):
        yield "the program swig, which writes a part of the package", "swig"
    if not shutil.which(compiler):
        yield f"the C compiler {compiler}", "gcc"
    if not pathlib.Path(sysconfig.get_paths()["include"], "Python.h").exists():
        yield "Python.h, Python's own header", "python3-dev"


def ask_for_tools(compiler):
    """Ends with what is not installed, all of it, in words."""
    lacking = list(_lacking(compiler))
    if lacking:
        what = "; ".join(thing for thing, _ in lacking)
        packages = " ".join(package for _, package in lacking)
        sys.exit(f"libbrake: not installed: {what}; on Debian: apt-get install {packages}")


class Build(build_ext):
    """Makes the C sources, compiles, then makes the Python modules."""

    def build_extension(self, ext):
        """Compiles; what is made goes to the folder of the objects."""
        ask_for_tools(self.compiler.compiler_so[0])
        made = pathlib.Path(self.build_temp)
        made.mkdir(parents=True, exist_ok=True)
        wrapper, kernels = made / "core_wrap.c", made / "kernels.c"
        subprocess.run(
            ["swig", "-python", f"-I{HERE}", "-outdir", made, "-o", wrapper, HERE / "libbrake.i"],
            check=True,
        )
        generator.write_kernels(LIBRARY, kernels)
        sources, outside = ext.sources, [str(wrapper), str(kernels)]
        ext.sources = sources + outside
        # Sources above this folder would have their objects above the folder for objects.
        objects = self.compiler.object_filenames
        self.compiler.object_filenames = lambda names, strip_dir=0, output_dir="": objects(
            [str(name).replace(os.pardir + os.sep, "") for name in names], strip_dir, output_dir
        )
        one = self.compiler.compile
        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
            self.compiler.compile = lambda names, **how: list(
                itertools.chain.from_iterable(pool.map(lambda name: one([name], **how), names))
            )
            super().build_extension(ext)
        self.make_modules(pathlib.Path(self.get_ext_fullpath(ext.name)))

    def make_modules(self, path):
        """The modules beside the extension."""
        # Built for another machine it cannot be loaded: the same from a build for this one.
        known = os.environ.get("LIBBRAKE_CATALOGUE")
        told = pathlib.Path(known).read_text("utf-8") if known else load(path).catalogue_json()
        catalogue = json.loads(told)
        stub = HERE / "libbrake" / "__init__.pyi"
        shutil.copyfile(stub, path.parent / stub.name)
        generator.write_package(LIBRARY, catalogue, path.parent)


class SourceArchive(sdist):
    """Takes the library along, so that the archive builds anywhere."""

    def make_release_tree(self, base_dir, files):
        # The library's sources would be copied to where their paths lead: out of the archive.
        inside = [name for name in files if not name.startswith(os.pardir)]
        super().make_release_tree(base_dir, inside)
        shutil.copytree(LIBRARY, pathlib.Path(base_dir) / INSIDE.name, dirs_exist_ok=True)


setup(
    version=version(),
    packages=["libbrake"],
    package_data={"libbrake": ["*.pyi", "py.typed"]},
    zip_safe=False,
    ext_modules=[
        Extension(
            "libbrake._core",
            [*sorted(path.name for path in HERE.glob("*.c")), *library_sources()],
            include_dirs=[str(HERE), str(LIBRARY / "include"), str(LIBRARY)],
            libraries=["m"],
            extra_link_args=["-fopenmp", "-Wl,-z,relro", "-Wl,-z,now"],
            # As in the Makefile.
            extra_compile_args=["-std=c11", "-O3", "-fno-math-errno", "-fno-trapping-math",
                                "-ffp-contract=off", "-fvisibility=hidden", "-fopenmp",
                                "-fstack-protector-strong",
                                f"-ffile-prefix-map={HERE.parents[1]}=."],
        )
    ],
    cmdclass={"build_ext": Build, "sdist": SourceArchive},
)
