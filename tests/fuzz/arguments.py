# SPDX-License-Identifier: MIT
"""Calls the Python package with arguments drawn at random.

usage: PYTHONPATH=build/python:tests python3 -m fuzz.arguments SECONDS [SEED]

Each argument is a good one, a number of any size, a list of them, or something hostile
(tests/python/hostile.py, which goes through them one at a time). A call may give a value or raise
an exception with words. The same seed makes the same calls.
"""
import faulthandler
import importlib
import random
import signal
import sys
import time

from libbrake.made import SUBJECTS
from python import hostile

# What takes long, writes files or ends up in a browser is left to the tests of its own.
QUICK = ("copy", "outputs", "set", "value", "record", "check", "sweep", "heat", "to_text")


class Walk(hostile.Walk):
    """Keeps quiet: seed and number name the call."""

    def tell(self, name):
        """Nothing."""


def number(draw):
    """A number, most often one that could be meant."""
    return draw.choice([
        draw.uniform(0.0, 2.0), 10.0 ** draw.uniform(-6.0, 9.0), -(10.0 ** draw.uniform(-3.0, 3.0)),
        float(draw.randrange(-3, 300)), draw.choice([0.0, -0.0, 5e-324, 1.8e308, float("nan")]),
    ])  # fmt: skip


def argument(draw, good):
    """One argument where `good` would do."""
    kind = draw.random()
    if kind < 0.3:
        return good
    if kind < 0.7:
        return number(draw)
    if kind < 0.9:
        return [number(draw) for _ in range(draw.choice([0, 1, 2, 2, 2, 7]))]
    return draw.choice(hostile.battery())


def called():
    """(name, function, good arguments) of all that is called."""
    for subject in SUBJECTS:
        module = importlib.import_module(f"libbrake.{subject}")
        for name, function in hostile.functions(module):
            yield f"{subject}.{name}", function, hostile.arguments(function, 1.0)
    for name in QUICK:
        method = getattr(hostile.cool(), name, None)
        if method is not None:
            yield f"Vehicle.{name}", method, hostile.good(method)


def main(seconds, seed):
    """Calls until the time is up; the last line says how many."""
    faulthandler.enable()
    signal.signal(signal.SIGALRM, hostile.late)
    draw, walk, end = random.Random(seed), Walk(), time.monotonic() + seconds
    functions = list(called())
    while time.monotonic() < end:
        name, function, good = draw.choice(functions)
        told = {which: argument(draw, value) for which, value in good.items()}
        walk.call(f"seed {seed}, call {walk.calls}: {name}({told!r:.300})",
                  lambda: function(**told))  # fmt: skip
    print("\n".join(walk.faults[:20]))
    print(f"{walk.calls} calls in {seconds} s, {len(functions)} functions")
    return 1 if walk.faults else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1))
