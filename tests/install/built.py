# SPDX-License-Identifier: MIT
"""What was built, how to make more of it, and the compilers that link with it."""
import os
import pathlib
import re
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD = pathlib.Path(os.environ["LIBBRAKE_BUILD"])
# What a program needs besides the static library, as installed.
PRIVATE = re.search(r"^Libs.private: (.*)$", (BUILD / "libbrake.pc").read_text(), re.MULTILINE)[1]


def run(*words, **more):
    """Output of a program that must succeed."""
    found = subprocess.run([*map(str, words)], text=True, stdout=subprocess.PIPE,
                           stderr=subprocess.STDOUT, **more)  # fmt: skip
    assert found.returncode == 0, found.stdout
    return found.stdout


def make(*words):
    # Not as a part of the make that runs this test: its options are not ours.
    calm = {name: value for name, value in os.environ.items() if not name.startswith("MAKE")}
    return run("make", f"BUILD={BUILD}", *words, cwd=ROOT, env=calm)


# The threads are those of the compiler that it was built with.
_NEEDED = run("readelf", "-d", BUILD / "libbrake.so")
C, CPLUSPLUS = ("clang", "clang++") if "[libomp.so" in _NEEDED else ("gcc", "g++")
