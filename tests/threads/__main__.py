# SPDX-License-Identifier: MIT
"""Looks for races between threads: make check-threads.

usage: PYTHONPATH=tests python3 -m threads BUILD   (a build by clang with -fsanitize=thread)

clang's OpenMP tells ThreadSanitizer of its barriers by archer, which comes with it; gcc's tells
nothing, and every loop would look like a race. What is within OpenMP's own library is not looked
at. A program that must be seen to race, and one that must not, go before all others.
"""
import glob
import os
import pathlib
import subprocess
import sys

from lint import source
from trust import record

FOLDERS = "study", "answer", "locale"  # whose C tests begin threads
HERON, BEFORE = "examples/heron.ini", "examples/heron-before.ini"
VERBS = (
    ("check", HERON, "--before", BEFORE),
    ("check", "tests/vehicles/gnat-after.ini", "--json"),
    ("compare", BEFORE, HERON, "--fade"),
    ("spread", HERON, "--samples", "1024"),
    ("size", HERON, "--for", "full.deceleration.at_pedal_force=6m/s2",
     "--by", "front.disc.piston_diameter"),
    ("sweep", HERON, "--axis", "front.disc.pads.mu=0.3:0.5:0.01",
     "--axis", "vehicle.wheelbase=2.2m:2.9m:0.1m", "--threads", "4"),
    ("sweep", HERON, "--axis", "front.disc.pads.mu=0.3:0.5:0.05",
     "--out", "hazard.fluid,un.13h.hot", "--threads", "4"),
    ("drivelog", HERON, "examples/heron-drive.csv"),
    ("shakedown", HERON, "--text"),
    ("report", HERON, "--drivelog", "examples/heron-drive.csv", "-o", os.devnull),
    ("explain", "full.stop.distance", HERON),
)  # fmt: skip
RACE = 99  # status of a program that raced
ARCHER = sorted(glob.glob("/usr/lib/llvm-*/lib/libarcher.so"))
LEFT = (
    "Orders of threads that did not come up in these runs; waiting for one another without end; "
    "OpenMP's own library; Python's threads."
)


def watched(command):
    """Status of a command under the watcher, and what it told."""
    environment = {
        **os.environ,
        "OMP_NUM_THREADS": "4",
        "OMP_TOOL_LIBRARIES": ARCHER[-1],
        "TSAN_OPTIONS": f"ignore_noninstrumented_modules=1 exitcode={RACE}",
    }
    done = subprocess.run([*map(str, command)], cwd=source.ROOT, env=environment,
                          stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
                          encoding="utf-8", errors="replace")  # fmt: skip
    return done.returncode, done.stderr


def controlled(build):
    """Whether the watcher sees the one race and no other."""
    statuses = []
    for define in "-DRACE", "-DNONE":
        program = build / f"control{define}"
        subprocess.run(["clang", "-fopenmp", "-O1", "-g", "-fsanitize=thread", define,
                        "-o", program, source.ROOT / "tests/threads/control.c"],
                       check=True)  # fmt: skip
        statuses.append(watched([program])[0])
    return statuses == [RACE, 0]


def main(folder):
    """Each program; what raced is told."""
    build = pathlib.Path(folder).resolve()
    if not ARCHER:
        print("check-threads: skipped, there is no libarcher.so; install the package libomp-dev")
        return 0
    if not controlled(build):
        print("check-threads: a race that is there was not seen, or one that is not there was")
        return 1
    tests = [build / path.relative_to(source.ROOT).with_suffix("")
             for name in FOLDERS for path in sorted(source.ROOT.glob(f"tests/{name}/test_*.c"))]
    failed = []
    for command in [*([test] for test in tests), *([build / "stopmargin", *v] for v in VERBS)]:
        status, told = watched(command)
        # A verb ends with 1 or 3 of what it found; 2 is a fault of these words.
        faulty = status not in ((0, 1, 3) if len(command) > 1 else (0,))
        name = " ".join(map(str, command)).replace(f"{build}/", "")
        print(f"{name}: {'FAILED, status ' + str(status) if faulty else 'no race'}", flush=True)
        if faulty:
            failed.append(name)
            print(told[-4000:])
    keep(len(tests), failed)
    print(f"{len(tests) + len(VERBS) - len(failed)} passed, {len(failed)} failed")
    return 1 if failed else 0


def keep(tests, failed):
    """For `make trust`."""
    record.record("check-threads", "Races between threads", {
        "programs and runs with a race": f"{len(failed)} of {tests} C test programs and "
        f"{len(VERBS)} runs of verbs, four threads",
    }, "ThreadSanitizer (clang), OpenMP's barriers told to it by archer: every C test program of "
       f"{', '.join(FOLDERS)} and a run of each verb that begins threads. A program with a race "
       "is seen, the same without it is not: asked before the others.", LEFT)  # fmt: skip


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
