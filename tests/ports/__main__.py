# SPDX-License-Identifier: MIT
"""Builds the library in every way that can be had here; each passes the C tests and answers alike.

usage: PYTHONPATH=tests python3 -m ports --build FOLDER [--root FOLDER] [WORD...]

Only ports whose name holds one of the words, when there are any. The last line counts.
"""
import argparse
import collections
import json
import math
import os
import pathlib
import re
import subprocess
import sys

from lint import source
from ports import answers, toolchains
from trust import record

RESTS_ON = (
    "The C tests, and the answers to {} questions over all example and test vehicles, of each "
    "build held against those of gcc 12 -O3: words equal, numbers of JSON and CSV within 1e-9 "
    "(musl: 1e-6, its pow is another), numbers in text within one unit of their last digit."
)
NOT_COVERED = (
    "On emulated machines: C tests of heat over time, locales, studies; answers that draw. Real "
    "hardware of another kind, other C libraries but musl, 32 bits, macOS. Windows but compiling."
)
# Folders of C tests that an emulated machine ends in minutes, but for those of heat over time and
# those that want locales, which are made for the machine that emulates.
EMULATED = "model", "vehicle", "criteria", "file"
LEFT_OUT = "braking", "thermal", "text"


def said(command, **more):
    """Status and output of a command of the tree."""
    done = subprocess.run([*map(str, command)], cwd=source.ROOT, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, encoding="utf-8", **more)  # fmt: skip
    return done.returncode, done.stdout


def answered(command, questions):
    """What a program says to each question."""
    for words in questions:
        done = subprocess.run([*command, *words], cwd=source.ROOT, stdout=subprocess.PIPE,
                              stderr=subprocess.DEVNULL, encoding="utf-8")  # fmt: skip
        yield done.returncode, done.stdout


class Run:
    """The questions, what the build that all are held against answers, where others are built."""

    def __init__(self, build):
        self.folder = pathlib.Path(build) / "ports"
        program = pathlib.Path(build) / "stopmargin"
        (_, first), = answered([program], [("check", answers.EXAMPLES[0], "--json")])
        self.questions = list(answers.questions(json.loads(first)["results"]))
        self.expected = list(answered([program], self.questions))

    def build(self, port):
        """Words of faults; builds the program and, where they can run, the tests."""
        made = f"BUILD={self.made(port)}"
        status, text = said([*port.inside, "make", "-s", made, *port.make, port.target])
        return [f"does not build:\n{text[-2000:]}"] if status else []

    def made(self, port):
        """Folder of a port, from the root of the tree."""
        folder = re.sub(r"[^\w.-]+", "-", port.name)
        return f"build/ports/{folder}" if port.inside else self.folder / folder

    def tests(self, port):
        """Number of C tests that passed, and words of faults."""
        files = sorted(source.ROOT.glob("tests/*/test_*.c"))
        if port.emulated:
            files = [file for file in files if file.parent.name in EMULATED
                     and not any(word in file.name for word in LEFT_OUT)]  # fmt: skip
        built = [f"{self.made(port)}/{file.relative_to(source.ROOT).with_suffix('')}"
                 for file in files]  # fmt: skip
        before = " ".join([*port.inside, *port.wrapper])
        words = ["tests/run-tests", *(["--wrapper", before] if before else []), *built]
        status, text = said([sys.executable, *words])
        passed, failed = re.search(r"^(\d+) passed, (\d+) failed$", text, re.MULTILINE).groups()
        return int(passed), [f"{failed} C tests fail:\n{text[-2000:]}"] if status else []

    def answers(self, port):
        """How far the answers are apart at most, as a share of what is allowed; faults."""
        program = [*port.inside, *port.wrapper, f"{self.made(port)}/stopmargin"]
        farthest, faults = 0.0, []
        asked = len(self.questions) - (len(answers.OTHERS) if port.emulated else 0)
        for words, one, other in zip(
            self.questions, self.expected, answered(program, self.questions[:asked])
        ):
            people = words[0] != "sweep" and "--json" not in words
            far = answers.apart(one[1], other[1], people, port.relative)
            if one[0] != other[0]:
                far = math.inf
            farthest = max(farthest, far)
            if far > 1:
                faults.append(f"answers otherwise ({far:.3g}): {' '.join(words)[:100]}")
        return farthest, faults

    def whole(self, port):
        """(tests passed, how far answers are apart, faults) of a port."""
        faults = self.build(port)
        if faults or port.target == "portable":
            return 0, 0.0, faults
        passed, failed = self.tests(port) if port.target == "programs" else (0, [])
        farthest, differing = self.answers(port)
        return passed, farthest, failed + differing


def figures(rows):
    """{compiler: figure}, from {(compiler, level): (tests passed, how far apart)}."""
    grouped = collections.defaultdict(dict)
    for (compiler, level), row in rows.items():
        grouped[compiler][level] = row
    for compiler, levels in grouped.items():
        passed = min(row[0] for row in levels.values())
        farthest = max(row[1] for row in levels.values()) * 100
        tests = f"{passed} C tests pass" if passed else "compiles"
        far = f"; answers differ by {farthest:.2g} % of what is allowed"
        yield " ".join([compiler, *levels]).strip(), tests + (far if passed or farthest else "")


def main():
    """Runs the ports and records what came out."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--build", required=True)
    parser.add_argument("--root", type=pathlib.Path)
    parser.add_argument("words", nargs="*")
    told = parser.parse_args()
    run = Run(told.build)
    if told.root:
        toolchains.copy_tree(told.root)
    rows, failed, skipped = {}, 0, 0
    for port in toolchains.ports(run.folder, told.root):
        if told.words and not any(word in port.name for word in told.words):
            continue
        if port.lacking:
            skipped += 1
            print(f"{port.name}: skipped, {port.lacking}")
            continue
        passed, farthest, faults = run.whole(port)
        failed += bool(faults)
        print(f"{port.name}: {passed} tests, {farthest:.2g} of what is allowed")
        print("".join(f"{port.name}: {fault}\n" for fault in faults), end="", flush=True)
        if not faults:
            compiler, _, level = port.name.partition(" -")
            rows[compiler, f"-{level}" if level else ""] = passed, farthest
    if rows:
        record.record("check-ports", "Compilers and machines", dict(figures(rows)),
                      RESTS_ON.format(len(run.questions)), NOT_COVERED)  # fmt: skip
    print(f"{len(rows)} passed, {failed} failed, {skipped} skipped")
    return 1 if failed or not rows else 0


if __name__ == "__main__":
    os.environ["PYTHONDONTWRITEBYTECODE"] = "1"
    sys.exit(main())
