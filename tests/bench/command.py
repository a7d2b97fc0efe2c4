#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""`stopmargin check` as a whole process, beside a program that only reads the same file."""
import os
import pathlib
import statistics
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", "build"))
VEHICLE = ROOT / "examples" / "heron.ini"
RUNS = 50


def run_once(command):
    """Seconds and peak memory [KiB] of one run; stops at a command that did not run."""
    launcher = BUILD / "tests" / "bench" / "launch_helper"
    output = subprocess.run(
        [launcher, *command], check=True, stdout=subprocess.PIPE, text=True
    ).stdout
    seconds, memory, status = output.split()
    # 0, 1 and 3 are verdicts of stopmargin; the rest are failures.
    if status not in ("0", "1", "3"):
        sys.exit(f"bench command: {command[0]} ended with status {status}")
    return float(seconds), int(memory)


def main():
    commands = {
        "stopmargin check": [BUILD / "stopmargin", "check", VEHICLE],
        "read the file": [BUILD / "tests" / "bench" / "read_helper", VEHICLE],
    }
    for command in commands.values():
        for needed in (command[0], VEHICLE):
            if not needed.exists():
                sys.exit(f"bench command: {needed} is not there")
    # Turn by turn, so that a busy moment of the machine strikes both alike.
    runs = {name: [] for name in commands}
    for _ in range(RUNS):
        for name, command in commands.items():
            runs[name].append(run_once(command))
    medians = []
    for name, measured in runs.items():
        seconds = statistics.median(run[0] for run in measured)
        memory = max(run[1] for run in measured)
        medians.append((seconds, memory))
        print(f"{name:18} {1e3 * seconds:8.3f} ms {memory:8d} KiB at the peak")
    (seconds, memory), (least_seconds, least_memory) = medians
    print(
        f"bench command: {seconds / least_seconds:.2f} x the time, "
        f"{memory / least_memory:.2f} x the memory of reading the file (median of {RUNS} runs)"
    )


if __name__ == "__main__":
    main()
