# SPDX-License-Identifier: MIT
"""Run every static check and print what each found; the last line sums up.

usage: PYTHONPATH=tests python3 -m lint --build FOLDER --flags FLAGS FILE.c...
"""
import argparse
import concurrent.futures
import os
import pathlib
import re
import shlex
import subprocess
import sys

from lint import (
    abi, functions, headers, layers, licences, lines, locales, needed, objects, versions, words,
)  # fmt: skip


def commands(flags, files):
    """The runs of the tools, as (name, command)."""
    # The longest first.
    yield "cppcheck", [
        "cppcheck",
        "--quiet",
        "--std=c11",
        "--enable=warning,style,performance,portability",
        "--inline-suppr",
        "--suppress=missingIncludeSystem",
        "--error-exitcode=1",
        *(flag for flag in flags if flag.startswith("-I")),
        *files,
    ]
    # One file a run: over several, the analyser of clang-tidy 14 takes a va_list for unset.
    for file in files:
        yield "clang-tidy", ["clang-tidy", "--quiet", file, "--", *flags]
    for compiler in "gcc", "clang":
        yield compiler, [compiler, "-fsyntax-only", *flags, *files]
    yield "clang-format", ["clang-format", "--dry-run", "--Werror", *map(str, lines.in_c())]


def run_tool(named_command):
    """Name of the tool, its exit status and what it said."""
    name, command = named_command
    run = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    # clang-tidy also counts what it does not show.
    said = re.sub(r"^\d+ warnings? generated\.\n", "", run.stdout, flags=re.MULTILINE)
    return name, run.returncode, said


def run_tools(flags, files):
    """Names of the tools that found something."""
    unhappy = set()
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for name, status, said in pool.map(run_tool, commands(flags, files)):
            if status:
                print(said, end="")
                unhappy.add(name)
    return sorted(unhappy)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--build", type=pathlib.Path, required=True)
    parser.add_argument("--flags", type=shlex.split, required=True)
    parser.add_argument("files", nargs="+")
    arguments = parser.parse_args()

    unhappy = run_tools(arguments.flags, arguments.files)
    found = [
        *abi.findings(arguments.build / "abi" / "libbrake.so"),
        *headers.findings(),
        *layers.findings(),
        *functions.findings(),
        *licences.findings(),
        *lines.findings(),
        *locales.findings(),
        *needed.findings(),
        *objects.findings(arguments.build),
        *versions.findings(arguments.build),
        *words.findings(),
    ]
    print("".join(f"{finding}\n" for finding in found), end="")
    median, longest, count = functions.sizes()
    print(
        f"lint: {' and '.join(unhappy) or 'no tool'} complained, {len(found)} findings measured; "
        f"{len(headers.declared())} public functions; {count} functions in all, "
        f"{median:g} code lines at the median, {longest} at most"
    )
    return 1 if unhappy or found else 0


if __name__ == "__main__":
    sys.exit(main())
