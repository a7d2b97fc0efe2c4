#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Print what the tests reached, file by file; refuse layers that are not fully tested.

usage: coverage.py BUILD   (a build by clang with -fcoverage-mapping, in which the tests have run)

Of what is pure (model, vehicle, criteria) every line must be reached, and every condition must
have been true and false, but for those that tests/uncovered.txt lists: each with the reason why
none brings it about, or under the last heading, of those whose test is still to be written.
"""
import collections
import json
import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[1]
LISTED = ROOT / "tests" / "uncovered.txt"
NOT_YET = "# Not yet tested"  # heading of the rows that a test is still to bring about
LAYERS = "model", "vehicle", "criteria"


def export(build):
    """{file of the library: what llvm-cov says of it, once for each object that it is part of}."""
    profile = build / "coverage.profdata"
    raw = sorted(build.glob("profile/*.profraw"))
    subprocess.run(["llvm-profdata", "merge", "-sparse", "-o", profile, *raw], check=True)
    files = collections.defaultdict(list)
    # One by one: of several at a time llvm-cov 14 forgets some.
    for path in sorted(build.glob("libbrake/*/*.o")):
        if b"__llvm_covmap" not in path.read_bytes():  # nothing but tables
            continue
        command = ["llvm-cov", "export", f"-instr-profile={profile}", path, ROOT / "libbrake"]
        told = subprocess.run(command, check=True, stdout=subprocess.PIPE)
        for file in json.loads(told.stdout)["data"][0]["files"]:
            name = pathlib.Path(file["filename"]).resolve().relative_to(ROOT)
            files[str(name)].append(file)
    return dict(sorted(files.items()))


def counts_of(segments):
    """{line: how often it was run} as llvm-cov counts: the most of what a line begins in and of the
    regions that begin in it."""
    of, wrapped, counts = collections.defaultdict(list), None, {}
    for segment in segments:
        of[segment[0]].append(segment)
    for line in range(min(of, default=1), max(of, default=0) + 1):
        begun = [count for _, _, count, counted, entry, gap in of[line] if counted and entry > gap]
        if wrapped is not None or begun:
            counts[line] = max([wrapped or 0, *begun])
        for _, _, count, counted, *_ in of[line]:
            wrapped = count if counted else None
    return counts


def lines(parts):
    """(lines of code, those never run) of a file."""
    most = collections.Counter()
    for file in parts:
        counts = counts_of(file["segments"]).items()
        most |= collections.Counter({line: count + 1 for line, count in counts})
    return len(most), [line for line, count in sorted(most.items()) if count == 1]


def words_at(text, begin, left, end, right):
    """What stands in a text between two places, on one line."""
    words = text[begin - 1 : end]
    words[-1] = words[-1][: right - 1]
    words[0] = words[0][left - 1 :]
    return " ".join(" ".join(words).split())


def conditions(name, parts):
    """(outcomes of conditions, those that never came) of a file."""
    text = (ROOT / name).read_text(encoding="utf-8").splitlines()
    came = collections.Counter()
    for file in parts:
        for begin, left, end, right, true, false, *_ in file["branches"]:
            if true or false:  # else it is settled by the compiler, or on a line never reached
                came[begin, left, words_at(text, begin, left, end, right), "true"] += true
                came[begin, left, words_at(text, begin, left, end, right), "false"] += false
    never = [f"{name}: {words}: never {way}" for (*_, words, way), n in came.items() if not n]
    return len(came), never


def layer(name):
    """Layer of a file: `libbrake/model/heat.c` is of the model."""
    return name.split("/")[1]


def rows_of(text):
    """Outcomes that never come, and lines, of a part of the list."""
    return {row for row in text.splitlines() if row[:1] not in ("", "#")}


def listed():
    """Those of the whole list."""
    return rows_of(LISTED.read_text(encoding="utf-8"))


def not_yet():
    """Those without a reason but that nobody has written the test."""
    return rows_of(LISTED.read_text(encoding="utf-8").partition(NOT_YET)[2])


def sizes():
    """How many are listed, in words."""
    later = not_yet()
    return f"{len(listed() - later)} rows with a reason, {len(later)} not yet tested"


def complaints(files):
    """What is not as it must be."""
    never = set()
    for name, parts in files.items():
        if layer(name) not in LAYERS:
            continue
        text = (ROOT / name).read_text(encoding="utf-8").splitlines()
        never.update(f"{name}: {text[line - 1].strip()}: not reached" for line in lines(parts)[1])
        never.update(conditions(name, parts)[1])
    for outcome in sorted(never - listed()):
        yield f"{outcome}: neither tested nor in tests/uncovered.txt"
    for outcome in sorted(listed() - never):
        yield f"{outcome}: came, or is gone: take it out of tests/uncovered.txt"


def percent(parts):
    """Share of what is there that was reached, from (there, list of the others)."""
    there = sum(count for count, _ in parts)
    return 100.0 * (1 - sum(len(left) for _, left in parts) / there) if there else 100.0


def shares(files):
    """Lines and outcomes of some files that came, in words."""
    of_lines = percent([lines(parts) for parts in files.values()])
    of_outcomes = percent([conditions(name, parts) for name, parts in files.items()])
    return f"{of_lines:.1f} % of lines, {of_outcomes:.1f} % of outcomes"


def main(folder):
    """The table, the complaints, the sum."""
    files = export(pathlib.Path(folder).resolve())
    for name, parts in files.items():
        print(f"{name:36} {shares({name: parts})}")
    found = list(complaints(files))
    print("".join(f"coverage: {complaint}\n" for complaint in found), end="")
    figures = {}
    for part in (*LAYERS, "study", "file", "answer"):
        inside = {name: parts for name, parts in files.items() if layer(name) == part}
        figures[part] = shares(inside)
        print(f"coverage: {part}: {figures[part]}")
    keep(figures)
    print(f"coverage: {len(found)} complaints; tests/uncovered.txt lists {sizes()}")
    return 1 if found else 0


def keep(figures):
    """For `make trust`."""
    sys.path.insert(0, str(ROOT / "tests"))
    from trust import record

    record.record(
        "coverage", "What the tests reach", figures,
        "The C tests and those of the command, run on a build by clang that counts each region and "
        "each outcome of each condition.",
        "What no test brings about of model, vehicle, criteria stands in `tests/uncovered.txt`: "
        f"{sizes()}. That a line was run says nothing of whether its number was looked at: that "
        "is what `make mutate` measures.")  # fmt: skip


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
