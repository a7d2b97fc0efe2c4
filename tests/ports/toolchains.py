# SPDX-License-Identifier: MIT
"""Compilers and machines that the library is built for, each as far as it can be had here."""
import dataclasses
import glob
import pathlib
import shutil
import subprocess

from lint import source
from ports import answers

LEVELS = "-O0", "-O1", "-O2", "-O3"
GCC, CLANG = "gcc-12", "clang-13 clang-14 clang-15 clang-16"
# clang 19 wants its own OpenMP, which Debian 12 does not have beside that of 14.
NEWER = "gcc-14", "clang-17", "clang-18", "clang-19"
FLAGS = "-fno-math-errno -fno-trapping-math"
# Debian's name of a machine: that of its compiler, of its emulator, of the emulated CPU.
MACHINES = {"arm64": ("aarch64-linux-gnu", "qemu-aarch64-static"),
            "s390x": ("s390x-linux-gnu", "qemu-s390x-static")}  # fmt: skip
# A C library that is linked into the program and knows no OpenMP: one thread.
# Its exp and pow differ in the last place, and where heat takes its steps makes more of it: 6e-7 of
# the deceleration while hot of examples/heron.ini, measured.
OTHER_LIBRARY = 1e-6
WITHOUT_OPENMP = ("LANGUAGE=-std=c11 -ffp-contract=off -Wno-unknown-pragmas -Ilibbrake/include "
                  "-Ilibbrake")  # fmt: skip


@dataclasses.dataclass
class Port:
    """A way to build: what make is given, where it runs, what stands before a program."""

    name: str
    make: tuple
    inside: tuple = ()
    wrapper: tuple = ()
    lacking: str = ""
    target: str = "programs"  # of make; "program": without C tests, "portable": only compiled
    emulated: bool = False  # slow: what draws many samples is left out
    relative: float = answers.RELATIVE


def _openmp(inside=""):
    """Where clang's OpenMP is, of whichever version is installed: it serves them all."""
    header = sorted(glob.glob(f"{inside}/usr/lib/llvm-*/lib/clang/*/include/omp.h"))
    library = sorted(glob.glob(f"{inside}/usr/lib/llvm-*/lib/libomp.so"))
    if not header or not library:
        return None
    folders = (pathlib.Path(found[-1]).parent for found in (header, library))
    header, library = (str(folder)[len(inside) :] for folder in folders)
    return f"-idirafter {header}", f"-L{library} -Wl,-rpath,{library}"


def _native(compiler, level, root=""):
    """A compiler of this machine, or of a root of another release."""
    inside = ("chroot", root, "env", "-C", "/src") if root else ()
    openmp = ("", "") if compiler.startswith("gcc") else _openmp(root)
    there = pathlib.Path(f"{root}/usr/bin/{compiler}").exists()
    lacking = "" if there else f"there is no {compiler}; install the package {compiler}"
    if there and openmp is None:
        lacking = "there is no OpenMP for clang; install the package libomp-dev"
    flags, libraries = openmp or ("", "")
    make = (f"CC={compiler}", f"CFLAGS={level} {FLAGS} {flags}", f"LDFLAGS={libraries}")
    return Port(f"{compiler} {level}", make, inside, lacking=lacking)


def _fetched(machine, folder):
    """Where the libraries of the tests are, for another machine; None when they cannot be had."""
    root = folder / machine / "root"
    if not root.exists():
        script = pathlib.Path(__file__).with_name("fetch")
        done = subprocess.run([script, machine, folder / machine, "libcmocka-dev", "libcmocka0",
                               "libcjson-dev", "libcjson1"], check=False)  # fmt: skip
        if done.returncode:
            return None
    return root


def _foreign(machine, folder):
    """Another machine, emulated."""
    triplet, emulator = MACHINES[machine]
    name = f"{machine} by gcc under qemu"
    for program in f"{triplet}-gcc", emulator:
        if not shutil.which(program):
            packages = f"gcc-{triplet} libc6-dev-{machine}-cross qemu-user-static"
            return Port(name, (), lacking=f"there is no {program}; install {packages}")
    root = _fetched(machine, folder)
    if root is None:
        return Port(name, (), lacking=f"libcmocka-dev of {machine} cannot be fetched")
    libraries = f"{root}/usr/lib/{triplet}"
    flags = f"CFLAGS=-O3 {FLAGS} -isystem {root}/usr/include"
    link = f"LDFLAGS=-L{libraries} -Wl,-rpath,{libraries}"
    return Port(name, (f"CC={triplet}-gcc", flags, link),
                wrapper=(emulator, "-L", f"/usr/{triplet}"), emulated=True)  # fmt: skip


def _static():
    """musl, linked statically: the program only, since Debian's cmocka is of another C library."""
    lacking = "" if shutil.which("musl-gcc") else "there is no musl-gcc; install musl-tools"
    make = ("CC=musl-gcc", WITHOUT_OPENMP, "LINK=musl-gcc -static", "HARDENING=", "PIE=")
    return Port("musl, static", make, lacking=lacking, target="program", relative=OTHER_LIBRARY)


def _windows():
    """MinGW: the library, but for the files that want POSIX."""
    compiler = "x86_64-w64-mingw32-gcc"
    package = "gcc-mingw-w64-x86-64"
    lacking = "" if shutil.which(compiler) else f"there is no {compiler}; install {package}"
    make = (f"CC={compiler}", f"CFLAGS=-O2 {FLAGS} -Werror=implicit-function-declaration")
    return Port("Windows by MinGW", make, lacking=lacking, target="portable")


def ports(folder, root):
    """Every port; folder is for what is fetched, root a root of the next release of Debian, or
    None."""
    for compiler in GCC, *CLANG.split():
        for level in LEVELS:
            yield _native(compiler, level)
    for compiler in NEWER:
        for level in LEVELS:
            if root:
                yield _native(compiler, level, str(root))
            else:
                yield Port(f"{compiler} {level}", (), lacking="no root of another release: ROOT=")
    for machine in MACHINES:
        yield _foreign(machine, folder)
    yield _static()
    yield _windows()


def copy_tree(root):
    """The tree, into a root of another release."""
    there = pathlib.Path(root) / "src"
    there.mkdir(exist_ok=True)
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=source.ROOT, capture_output=True,
                            check=True)  # fmt: skip
    packed = subprocess.run(["tar", "--null", "-T", "-", "-c"], cwd=source.ROOT,
                            input=listed.stdout, capture_output=True, check=True)  # fmt: skip
    subprocess.run(["tar", "-x", "-C", there], input=packed.stdout, check=True)
