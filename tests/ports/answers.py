# SPDX-License-Identifier: MIT
"""What a build answers about vehicles, and whether two builds answer alike.

Alike: words equal; numbers of JSON and CSV within 1e-9 of each other; numbers that people read
within one unit of their last digit. Common practice, no source: a C library's pow and exp differ in
the last place, and a bound is found by halving until it no longer matters.
"""
import itertools
import math
import re

from lint import source

RELATIVE, ABSOLUTE = 1e-9, 1e-12
_NUMBER = re.compile(r"(?<![\w.])-?\d+(?:\.\d+)?(?:e[+-]?\d+)?(?![\w.]*\d)")
EXAMPLES = "examples/heron.ini", "examples/heron-before.ini"
# Each of another kind: hot rows and pictures in words, a duty, shares, a size, a drive.
OTHERS = (
    ("check", EXAMPLES[0]),
    ("check", EXAMPLES[0], "--json"),
    ("check", "tests/vehicles/gnat-after.ini"),
    ("check", "tests/vehicles/badger-after.ini", "--json"),
    ("compare", EXAMPLES[1], EXAMPLES[0]),
    ("heat", EXAMPLES[0], "--descent", "8%,3km,50km/h", "--json"),
    ("size", EXAMPLES[0], "--for", "full.deceleration.at_pedal_force=6m/s2",
     "--by", "front.disc.piston_diameter"),
    ("drivelog", EXAMPLES[0], "examples/heron-drive.csv"),
    ("explain", "full.stop.distance"),
)  # fmt: skip


def questions(results):
    """Words of the command for every question: all results of every vehicle, and some verbs."""
    one = ("--bare", "--axis", "stop.reaction_time=2.5s", "--out", ",".join(results))
    folders = source.ROOT / "tests" / "vehicles", source.ROOT / "examples"
    for path in sorted(itertools.chain.from_iterable(one.glob("*.ini") for one in folders)):
        yield ("sweep", str(path.relative_to(source.ROOT)), *one)
    yield from OTHERS


def _apart(text):
    """Words between the numbers, and the numbers as they are written."""
    return _NUMBER.split(text), _NUMBER.findall(text)


def _digit(number):
    """One unit of the last digit that is written."""
    mantissa, _, exponent = number.partition("e")
    return 10.0 ** (int(exponent or 0) - len(mantissa.partition(".")[2]))


def apart(one, other, read_by_people, relative=RELATIVE):
    """How far two answers are from each other, as a share of what is allowed: 1 at most where they
    are alike, infinite where a word differs."""
    (words, numbers), (others, theirs) = _apart(one), _apart(other)
    if read_by_people:
        # A digit more or less moves the blanks beside it.
        words, others = (["".join(part.split()) for part in side] for side in (words, others))
    if words != others:
        return math.inf
    farthest = 0.0
    for mine, its in zip(numbers, theirs):
        allowed = max(relative * max(abs(float(mine)), abs(float(its))), ABSOLUTE)
        if read_by_people:
            allowed = max(_digit(mine), _digit(its)) * (1 + 1e-9)
        farthest = max(farthest, abs(float(mine) - float(its)) / allowed)
    return farthest
