"""What was built, and the compilers that link with it."""
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


# The threads are those of the compiler that it was built with.
_NEEDED = run("readelf", "-d", BUILD / "libbrake.so")
C, CPLUSPLUS = ("clang", "clang++") if "[libomp.so" in _NEEDED else ("gcc", "g++")
