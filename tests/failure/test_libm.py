# SPDX-License-Identifier: MIT
"""Another C library, whose functions differ in the last bit: the same words, text within one unit
of the last digit, JSON within 1e-9. So it is with another compiler, or in a browser."""
import decimal
import json
import os
import pathlib
import re
import subprocess

import pytest

from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")
BEFORE = str(plain.ROOT / "examples" / "heron-before.ini")
SHIM = (
    pathlib.Path(os.environ.get("LIBBRAKE_BUILD", plain.ROOT / "build"))
    / "tests/failure/libm.so"
)
ANSWERS = {
    "check": ("check", HERON, "--rules", "all"),
    "compare": ("compare", BEFORE, HERON),
    "spread": ("spread", HERON, "--samples", "1024"),
    "heat": ("heat", HERON, "--stop", "100km/h"),
    "size": ("size", HERON, "--by", "front.tyre.rollout", "--for", "full.stop.distance=60m"),
}
NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e[+-]?\d+)?")
# What is left over of sums that cancel: rounding is all there is.
ROUNDING = "residual"


def output(words, **added):
    done = subprocess.run(
        [plain.PROGRAM, *words], check=False, capture_output=True, text=True, timeout=120,
        env={**os.environ, **added},
    )
    assert done.returncode in (0, 1, 3), done.stderr
    return done.stdout


def both(words):
    if not SHIM.exists():
        pytest.skip("the library that is preloaded is not built: `make check` does")
    here, there = output(words), output(words, LD_PRELOAD=str(SHIM))
    assert here
    return here, there


def unit_of(number):
    return decimal.Decimal(1).scaleb(decimal.Decimal(number).as_tuple().exponent)


def leaves(value, path=""):
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, f"{path}/{key}")
    elif isinstance(value, list):
        for number, inner in enumerate(value):
            yield from leaves(inner, f"{path}/{number}")
    else:
        yield path, value


@pytest.mark.parametrize("words", ANSWERS.values(), ids=ANSWERS)
def test_words_are_equal_and_numbers_within_one_unit_of_the_last_digit(words):
    here, there = both(words)
    assert NUMBER.sub("#", here) == NUMBER.sub("#", there)
    for one, other in zip(NUMBER.findall(here), NUMBER.findall(there)):
        apart = abs(decimal.Decimal(one) - decimal.Decimal(other))
        assert apart <= max(unit_of(one), unit_of(other)), (one, other)


@pytest.mark.parametrize("words", ANSWERS.values(), ids=ANSWERS)
def test_json_agrees_within_1e_9(words):
    here, there = (dict(leaves(json.loads(text))) for text in both((*words, "--json")))
    assert here.keys() == there.keys()
    moved = 0
    for path, value in here.items():
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            assert there[path] == value, path
        elif ROUNDING not in path:
            assert abs(there[path] - value) <= 1e-9 * max(1.0, abs(value)), path
            moved += there[path] != value
    assert moved > 0  # the library was another one
