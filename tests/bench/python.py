#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""What Python costs: a call, an element of an array, the import, a million cases of a sweep.

"""
import importlib.util
import math
import os
import pathlib
import subprocess
import sys
import time
import timeit

import numpy as np

BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", "build"))
HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(BUILD / "python"))
import libbrake  # noqa: E402
from libbrake import disc, stop  # noqa: E402

COUNT = 1_000_000
BRAKE = disc.Disc(0.0036, 0.126, 0.38, 0.95, 5e4)


def least(action, number, repeat=15):
    """Seconds of the processor for one call, the least of some runs."""
    return (
        min(timeit.repeat(action, number=number, repeat=repeat, timer=time.process_time)) / number
    )


def elements():
    """An element of an array against one of the loop in C."""
    numbers = np.linspace(10.0, 50.0, COUNT)
    text = subprocess.run([BUILD / "tests/bench/python_helper"], check=True, text=True,
                          stdout=subprocess.PIPE).stdout  # fmt: skip
    loops = dict(zip(("disc.torque", "stop.distance"), map(float, text.split())))
    calls = {
        "disc.torque": lambda: disc.torque(BRAKE, numbers),
        "stop.distance": lambda: stop.distance(numbers, 6.5, 0.1, 0.3),
    }
    for name, call in calls.items():
        spent = 1e9 * least(call, 1) / COUNT
        print(f"bench python: {name} over an array takes {spent / loops[name]:.2f} x the loop in C "
              f"({spent:.2f} and {loops[name]:.2f} ns an element)")  # fmt: skip


def one_call():
    """A call with numbers against one of a function in C that does next to nothing."""
    trivial = least(lambda: math.hypot(3.0, 4.0), 100_000)
    for name, call in (("disc.torque", lambda: disc.torque(BRAKE, 8e6)),
                       ("stop.energy", lambda: stop.energy(1500.0, 20.0))):  # fmt: skip
        beyond = 1e6 * (least(call, 100_000) - trivial)
        print(f"bench python: a call of {name} takes {beyond:.2f} us "
              f"beyond one of math.hypot")  # fmt: skip


def importing():
    """The package's import against an empty Python."""
    def started(script):
        command = [sys.executable, "-S", "-c", script]
        child = subprocess.Popen(command, env={"PYTHONPATH": str(BUILD / "python")})
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        return used.ru_utime + used.ru_stime

    empty, full = (min(started(script) for _ in range(15))
                   for script in ("pass", "import libbrake; libbrake.Vehicle"))  # fmt: skip
    print(f"bench python: import and the vehicle's classes take {1e3 * (full - empty):.1f} ms")


def million_cases():
    """A sweep of a million cases against the NumPy script of the same results."""
    spec = importlib.util.spec_from_file_location("sweep", HERE / "sweep.py")
    peer = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(peer)
    values = 16
    lines = ("front.tyre.rollout", "vehicle.mass", "front.disc.pads.mu", "booster.gain",
             "rear.drum.lining.mu")  # fmt: skip
    grid = peer.axes(values)
    axes = {line: np.unique(column) for line, column in zip(lines, grid)}
    out = list(peer.OUTPUTS)
    vehicle, known = libbrake.load(peer.VEHICLE), peer.numbers()
    expected = peer.script(known, *grid)
    found = vehicle.sweep(axes, out=out, threads=1)
    script = least(lambda: peer.script(known, *grid), 1, 3)
    own = least(lambda: vehicle.sweep(axes, out=out, threads=1), 1, 3)
    for at, name in enumerate(out):
        if not np.allclose(found[name].ravel(), expected[:, at], rtol=1e-9, atol=0):
            sys.exit("bench python: the NumPy script and the library differ")
    print(f"bench python: {values ** 5:,d} cases take NumPy {script / own:.2f} x the time of "
          f"v.sweep on one thread ({script:.3f} and {own:.3f} s of the processor)")  # fmt: skip


if __name__ == "__main__":
    elements()
    one_call()
    importing()
    if (HERE / "sweep.py").exists():
        million_cases()
