# SPDX-License-Identifier: MIT
"""Brakes and tyres apart, as properties over random vehicles: whatever the vehicle, a row of a
requirement does not know the user's road, and an anti-lock that works is never worse than one that
failed.

SURFACE_CASES vehicles (400) from ORACLE_SEED (1).
"""
import math
import os

import pytest

from oracle import compare, test_oracle, vehicles

CASES = int(os.environ.get("SURFACE_CASES", "400"))
ROUNDING = 1e-12  # relative


def with_line(text, section, name, value):
    """A vehicle file in which a line says something else, or says it at all."""
    out, here, put = [], "", False
    for line in [*text.splitlines(), "[end]"]:
        if line.startswith("["):
            if here == section and not put:
                out.append(f"{name} = {value}")
                put = True
            here = line.strip("[] ")
        if not (here == section and line.split("=")[0].strip() == name):
            out.append(line)
    out.pop()
    return "\n".join(out if put else [*out, f"[{section}]", f"{name} = {value}"])


@pytest.fixture(scope="module")
def texts():
    if not test_oracle.DRIVER.exists():
        pytest.fail(f"{test_oracle.DRIVER} is not built")
    return [vehicles.vehicle(number, test_oracle.SEED)[0] for number in range(CASES)]


def answered(texts):
    """Answers of the vehicles that are accepted."""
    replies = compare.answers(test_oracle.DRIVER, range(len(texts)), texts)
    return [reply for reply in replies if reply["error"] is None]


def test_a_better_road_changes_no_row_of_a_requirement(texts):
    # Given random vehicles, when only the road of their user changes, then no row does.
    slippery = answered([with_line(text, "road", "adhesion", "0.3") for text in texts])
    gripping = answered([with_line(text, "road", "adhesion", "1.2") for text in texts])
    assert len(slippery) == len(gripping) > 0.9 * CASES
    for worse, better in zip(slippery, gripping):
        assert worse["criteria"] == better["criteria"], worse["case"]
    moved = [
        worse["results"]["empty.deceleration.most"]["value"]
        != better["results"]["empty.deceleration.most"]["value"]
        for worse, better in zip(slippery, gripping)
    ]
    assert sum(moved) > 0.5 * CASES  # what the tyres give there is an answer of its own, and moves


def test_an_anti_lock_that_works_is_never_worse_than_one_that_failed(texts):
    # Given random vehicles with anti-lock, when it fails, then no stop is shorter. Electronic
    # distribution fails with it, and what that kept from a rear brake that is strong beside the
    # front's is there again: a longer stop was its price for the order of locking.
    fitted = [with_line(text, "vehicle", "antilock", "fitted") for text in texts]
    shorter = 0
    for number, reply in enumerate(answered(fitted)):
        for load in ("empty", "full") if "kind = ebd" not in fitted[number] else ():
            results = reply["results"]
            works = results[f"{load}.deceleration.most"]["value"]
            failed = results[f"{load}.failed.no_antilock"]["value"]
            if works is None or failed is None:
                continue
            assert works >= failed * (1 - ROUNDING), (number, load)
            shorter += works > failed * (1 + ROUNDING)
    assert shorter > 0.2 * CASES


def test_wheels_that_slide_as_they_grip_lose_nothing_by_locking(texts):
    # Given wheels that slide as well as they grip, then locking them costs nothing: a foot that
    # does not ease off stops no later than a driver who keeps all of the adhesion.
    slid = [with_line(text, "road", "sliding", "1") for text in texts]
    slid = [with_line(text, "driver", "modulation", "1") for text in slid]
    slid = [with_line(text, "vehicle", "antilock", "none") for text in slid]
    for number, reply in enumerate(answered(slid)):
        for load in ("empty", "full"):
            most = reply["results"][f"{load}.deceleration.most"]["value"]
            locked = reply["results"][f"{load}.failed.wheels_locked"]["value"]
            if most is None or locked is None or math.isinf(most):
                continue
            assert locked >= most * (1 - ROUNDING), (number, load)
