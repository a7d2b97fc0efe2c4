# SPDX-License-Identifier: MIT
"""The example in C, as C and as C++, against the library as it is installed."""
import os
import re
import shlex
import subprocess

import pytest

from install.built import BUILD, C, CPLUSPLUS, ROOT, make, run

CHECK = ROOT / "examples" / "check.c"
HERON, BEFORE = ROOT / "examples" / "heron.ini", ROOT / "examples" / "heron-before.ini"
STRICT = ["-Wall", "-Wextra", "-Wpedantic", "-Werror"]
LANGUAGES = [f"{C} -std=c99", f"{C} -std=c11", f"{CPLUSPLUS} -x c++ -std=c++11",
             f"{CPLUSPLUS} -x c++ -std=c++17"]  # fmt: skip
VERSION = re.search(r"^Version: (.*)$", (BUILD / "libbrake.pc").read_text(), re.MULTILINE)[1]


@pytest.fixture(name="stage", scope="module")
def _stage(tmp_path_factory):
    """Where the library is installed; what pkg-config says of it; what a program needs to run."""
    stage = tmp_path_factory.mktemp("installed")
    make("install", f"DESTDIR={stage}", "PREFIX=/usr")
    library = stage / "usr" / "lib"
    return {
        **os.environ,
        "PKG_CONFIG_PATH": str(library / "pkgconfig"),
        "LD_LIBRARY_PATH": str(library),
    }


def compiled(compiler, source, program, stage, *how):
    flags = shlex.split(run("pkg-config", *how, "--cflags", "--libs", "libbrake", env=stage))
    run(*compiler.split(), *STRICT, "-o", program, source, *flags)
    return program


@pytest.mark.parametrize("compiler", LANGUAGES)
def test_it_says_what_the_command_says(compiler, stage, tmp_path):
    program = compiled(compiler, CHECK, tmp_path / "check", stage)
    names = {HERON: "Heron (invented), after refit", BEFORE: "Heron (invented), before refit"}
    for vehicle, name in names.items():
        command = [BUILD / "stopmargin", "check", vehicle]
        status = subprocess.run(command, stdout=subprocess.DEVNULL, check=False).returncode
        verdict = {0: "meets", 1: "falls short", 3: "cannot say"}[status]
        assert run(program, vehicle, env=stage) == f"{name}: {verdict}\n"


def test_it_tells_what_a_wrong_file_lacks(stage, tmp_path):
    program = compiled(f"{C} -std=c11", CHECK, tmp_path / "check", stage)
    (tmp_path / "wrong.ini").write_text("[vehicle]\nmass = 12 furlong\n")
    done = subprocess.run([program, tmp_path / "wrong.ini"], env=stage, capture_output=True,
                          text=True, check=False)  # fmt: skip
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("line 2: vehicle.mass: ")


def test_the_library_that_runs_tells_its_version(stage, tmp_path):
    """Given a library of another minor version, a program asks for one of its own: the soname
    differs."""
    source = tmp_path / "version.c"
    source.write_text(
        "#include <stdio.h>\n#include <brake/version.h>\n"
        "int main(void) { return puts(brake_version()) < 0; }\n"
    )
    program = compiled(f"{C} -std=c11", source, tmp_path / "version", stage)
    assert run(program, env=stage) == VERSION + "\n"
    minor = ".".join(VERSION.split(".")[:2])
    assert f"[libbrake.so.{minor}]" in run("readelf", "-d", program)
