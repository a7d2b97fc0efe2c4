#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""`stopmargin drivelog` on an hour at 50 Hz, beside the csv module that only reads the same
file."""
import csv
import os
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", "build"))
RUNS = 9
GOAL = 0.100  # [s]

sys.path[0] = str(ROOT / "tests")  # in place of this folder, which has a command.py too
from command import drives  # noqa: E402


def seconds(work):
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def read(log):
    with open(log, newline="", encoding="utf-8") as stream:
        rows = csv.reader(stream)
        next(rows)
        return [[float(cell) for cell in row] for row in rows]


def main():
    stops = [drives.Stop(22.2, 5.5, force=200) for _ in range(60)]
    with tempfile.TemporaryDirectory() as folder:
        log = pathlib.Path(folder) / "hour.csv"
        log.write_text(drives.text(drives.rows(stops, 50, 0.05, lead=30, rest=15)))
        command = [BUILD / "stopmargin", "drivelog", ROOT / "examples" / "heron.ini", log]
        ours, theirs = [], []
        for _ in range(RUNS):
            ours.append(seconds(lambda: subprocess.run(command, capture_output=True, check=False)))
            theirs.append(seconds(lambda: read(log)))
        rows = log.read_text().count("\n") - 1
    own, other = statistics.median(ours), statistics.median(theirs)
    print(
        f"bench drivelog: {1e3 * own:.0f} ms for {rows} rows as a whole process, "
        f"{other / own:.1f} x as fast as Python's csv module reads them; "
        f"{own / GOAL:.2f} x the goal of {1e3 * GOAL:.0f} ms (median of {RUNS} runs)"
    )


if __name__ == "__main__":
    main()
