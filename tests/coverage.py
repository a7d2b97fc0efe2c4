#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Print what the tests reached, file by file; refuse layers that are not fully tested.

usage: coverage.py BUILD   (a build by clang with -fcoverage-mapping, in which the tests have run)

Of what is pure (model, vehicle, criteria) every line must be reached, and every condition must have
been true and false, but for those that tests/uncovered.txt lists, each with its reason.
"""
import collections
import json
import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[1]
LISTED = ROOT / "tests" / "uncovered.txt"
LAYERS = "model", "vehicle", "criteria"


def export(build):
    """What llvm-cov says of each file of the library."""
    profile = build / "coverage.profdata"
    raw = sorted(build.glob("profile/*.profraw"))
    subprocess.run(["llvm-profdata", "merge", "-sparse", "-o", profile, *raw], check=True)
    command = ["llvm-cov", "export", f"-instr-profile={profile}", build / "libbrake.so"]
    told = subprocess.run([*command, ROOT / "libbrake"], check=True, stdout=subprocess.PIPE)
    return {
        str(pathlib.Path(file["filename"]).resolve().relative_to(ROOT)): file
        for file in json.loads(told.stdout)["data"][0]["files"]
    }


def lines(file):
    """(lines of code, those never run) from the segments of a file."""
    counts, now, last = {}, None, 0
    for line, _, count, counted, *_ in file["segments"]:
        for between in range(last + 1, line):
            if now is not None:
                counts[between] = max(counts.get(between, 0), now)
        now, last = (count if counted else None), line
        if now is not None:
            counts[line] = max(counts.get(line, 0), now)
    return len(counts), [line for line, count in sorted(counts.items()) if not count]


def conditions(name, file):
    """(conditions' outcomes, those that never came) as `file: condition: never true`."""
    text = (ROOT / name).read_text(encoding="utf-8").splitlines()
    came = collections.Counter()
    for begin, left, end, right, true, false, *_ in file["branches"]:
        words = [*text[begin - 1 : end]]
        words[-1] = words[-1][: right - 1]
        words[0] = words[0][left - 1 :]
        condition = " ".join(" ".join(words).split())
        if true or false:  # else it is settled by the compiler, or on a line that was not reached
            came[begin, left, condition, "true"] += true
            came[begin, left, condition, "false"] += false
    never = [f"{name}: {words}: never {way}" for (*_, words, way), n in came.items() if not n]
    return len(came), never


def layer(name):
    """Layer of a file: `libbrake/model/heat.c` is of the model."""
    return name.split("/")[1]


def listed():
    """{outcome that never comes: reason}."""
    rows = LISTED.read_text(encoding="utf-8").splitlines()
    return dict(row.split(" ; ") for row in rows if row[:1] not in ("", "#"))


def complaints(files):
    """What is not as it must be."""
    allowed, never = listed(), set()
    for name, file in files.items():
        if layer(name) not in LAYERS:
            continue
        for line in lines(file)[1]:
            yield f"{name}:{line}: not reached"
        never.update(conditions(name, file)[1])
    for outcome in sorted(never - set(allowed)):
        yield f"{outcome}: neither tested nor in tests/uncovered.txt"
    for outcome in sorted(set(allowed) - never):
        yield f"{outcome}: came, or is gone: take it out of tests/uncovered.txt"


def percent(parts):
    """Share of what is there that was reached, from (there, list of the others)."""
    there = sum(count for count, _ in parts)
    return 100.0 * (1 - sum(len(left) for _, left in parts) / there) if there else 100.0


def shares(files):
    """Lines and outcomes of some files that came, in words."""
    return (f"{percent([lines(file) for file in files.values()]):.1f} % of lines, "
            f"{percent([conditions(*file) for file in files.items()]):.1f} % of outcomes")  # fmt: skip


def main(folder):
    """The table, the complaints, the sum."""
    files = export(pathlib.Path(folder).resolve())
    for name, file in files.items():
        print(f"{name:36} {shares({name: file})}")
    found = list(complaints(files))
    print("".join(f"coverage: {complaint}\n" for complaint in found), end="")
    figures = {}
    for part in (*LAYERS, "study", "file", "answer"):
        inside = {name: file for name, file in files.items() if layer(name) == part}
        figures[part] = shares(inside)
        print(f"coverage: {part}: {figures[part]}")
    keep(figures)
    print(f"coverage: {len(found)} complaints, {len(listed())} outcomes listed with their reason")
    return 1 if found else 0


def keep(figures):
    """For `make trust`."""
    sys.path.insert(0, str(ROOT / "tests"))
    from trust import record

    record.record(
        "coverage", "What the tests reach", figures,
        "The C tests and those of the command, run on a build by clang that counts each region and "
        "each outcome of each condition.",
        f"{len(listed())} outcomes that no test brings about stand in `tests/uncovered.txt` with "
        "their reason. That a line was run says nothing of whether its number was looked at: that "
        "is what `make mutate` measures.")  # fmt: skip


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
