#!/usr/bin/env python3
"""Print what the tests reached, file by file; refuse a physics layer that is not fully tested.

usage: coverage.py FOLDER   (a build with --coverage, in which the tests have run)
"""
import json
import pathlib
import subprocess
import sys

MODEL = "libbrake/model/"
LEAST_LINES, LEAST_BRANCHES = 100.0, 95.0


def percent(files, what):
    """Share of the lines or branches of some files that was reached; all of none is 100."""
    total = sum(file[f"{what}_total"] for file in files)
    return 100.0 * sum(file[f"{what}_covered"] for file in files) / total if total else 100.0


def row(name, files):
    print(f"{name:36} {percent(files, 'line'):7.1f} {percent(files, 'branch'):9.1f}")


def main(folder):
    root = pathlib.Path(__file__).resolve().parents[1]
    command = ["gcovr", "--root", root, "--filter", f"{root}/libbrake/", "--json-summary", "-"]
    report = subprocess.run([*command, folder], check=True, stdout=subprocess.PIPE)
    files = json.loads(report.stdout)["files"]
    print(f"{'file':36} {'lines %':>7} {'branches %':>9}")
    for file in files:
        row(file["filename"], [file])
    model = [file for file in files if file["filename"].startswith(MODEL)]
    lines, branches = percent(model, "line"), percent(model, "branch")
    enough = bool(model) and lines >= LEAST_LINES and branches >= LEAST_BRANCHES
    print(
        f"coverage: {percent(files, 'line'):.1f} % of lines, {percent(files, 'branch'):.1f} % of "
        f"branches; {MODEL} {lines:.1f} % and {branches:.1f} %, "
        f"{'enough' if enough else 'too little'} "
        f"({LEAST_LINES:g} % and {LEAST_BRANCHES:g} % wanted)"
    )
    return 0 if enough else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
