#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""`stopmargin report` as a whole process, beside the commands that work out the same numbers."""
import os
import pathlib
import statistics
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", "build"))
VEHICLE = ROOT / "examples" / "heron.ini"
BEFORE = ROOT / "examples" / "heron-before.ini"
RUNS = 15
GOAL = 0.050  # [s]


def seconds_of(*words):
    launcher = BUILD / "tests" / "bench" / "launch_helper"
    command = [launcher, BUILD / "stopmargin", *words]
    output = subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True).stdout
    seconds, _, status = output.splitlines()[-1].split()
    # 0, 1 and 3 are verdicts; the rest are failures.
    if status not in ("0", "1", "3"):
        sys.exit(f"bench report: {words[0]} ended with status {status}")
    return float(seconds)


def main():
    heat = ("heat", VEHICLE)
    commands = {
        "report": ("report", VEHICLE, "--before", BEFORE, "-o", "/dev/null"),
        "check": ("check", VEHICLE),
        "heat --stop": (*heat, "--stop", "100km/h"),
        "heat --snubs": (*heat, "--snubs", "us.135.fade"),
        "heat --descent": (*heat, "--descent", "8%,6km,50km/h"),
    }
    # Turn by turn, so that a busy moment of the machine strikes all alike.
    runs = {name: [] for name in commands}
    for _ in range(RUNS):
        for name, words in commands.items():
            runs[name].append(seconds_of(*words))
    medians = {name: statistics.median(measured) for name, measured in runs.items()}
    for name, seconds in medians.items():
        print(f"{name:14} {1e3 * seconds:8.1f} ms")
    parts = sum(medians.values()) - medians["report"]
    print(
        f"bench report: {medians['report'] / parts:.2f} x check and three times heat; "
        f"{medians['report'] / GOAL:.1f} x the goal of {1e3 * GOAL:.0f} ms (median of {RUNS} runs)"
    )


if __name__ == "__main__":
    main()
