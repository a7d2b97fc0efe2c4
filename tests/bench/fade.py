#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""What goes through fade procedures, each as a whole process on two threads, beside its goal, and
the memory as it grows. The processor's time says what a busy machine would have taken alone. Of
the Heron's own clauses none asks for a fade procedure: its hot row is a descent."""
import os
import pathlib
import resource
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", "build"))
HERON = ROOT / "examples" / "heron.ini"


def processor():
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def measure(*words):
    """Seconds, those of the processor, and peak memory [KiB]."""
    command = [BUILD / "tests" / "bench" / "launch_helper", BUILD / "stopmargin", *words]
    before = processor()
    output = subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True).stdout
    seconds, memory, status = output.splitlines()[-1].split()
    if status not in ("0", "1", "3"):  # verdicts
        sys.exit(f"bench fade: {words[0]} ended with status {status}")
    return float(seconds), processor() - before, int(memory)


def spread(samples, rules="us"):
    return "spread", HERON, "--rules", rules, "--fade", "--samples", str(samples)


def fade_map(masses):
    """So many masses by 50 temperatures of the air."""
    step = 900.0 / (masses - 1)
    return (
        "sweep", HERON, "--threads", "2", "--out", "us.135.hot",
        "--axis", f"vehicle.mass=1400kg:2300kg:{step!r}kg",
        "--axis", "heat.ambient=0degC:49degC:1degC",
    )


def main():
    os.environ["OMP_NUM_THREADS"] = "2"
    os.environ["OMP_WAIT_POLICY"] = "passive"
    goals = {
        "check, 128 samples behind hot rows": (("check", HERON), 0.3),
        "... by the clauses of a fade procedure": (("check", HERON, "--rules", "us"), 0.3),
        "spread --fade of 4,096 samples": (spread(4096, "own"), 5.0),
        "... by those clauses": (spread(4096), 5.0),
        "fade map of 50 x 50": (fade_map(50), 3.0),
    }
    memory = {}
    for name, (words, goal) in goals.items():
        seconds, used, memory[name] = measure(*words)
        print(f"{name:38} {seconds:6.2f} s (goal {goal:g}), {used:6.2f} s of the processor")
    few, small = measure(*spread(1024))[2], measure(*fade_map(6))[2]
    *_, many, large = memory.values()
    print(
        f"bench fade: four times the samples take {many / few:.2f} x the memory, eight times the"
        f" cases {large / small:.2f} x"
    )


if __name__ == "__main__":
    main()
