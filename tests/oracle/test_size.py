# SPDX-License-Identifier: MIT
"""Answers of `size` against SciPy's brentq on what `sweep` says of single values.

Peer: SciPy, scipy.optimize.brentq (Brent 1973), a bracketing method of another kind than ours.
"""
import json
import subprocess

import pytest
from scipy.optimize import brentq

from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")
# by, unit, ends of the range and of Brent's brackets, output, its unit, wanted
CASES = [
    ("front.disc.rotor_mass", "kg", (3.0, 20.0), "full.stop.front_rise", "K", 120.0),
    ("front.tyre.rollout", "m", (2.0, 2.9), "full.deceleration.brakes_alone", "m/s2", 8.0),
    ("rear.drum.lining.mu", "", (0.2, 0.5), "empty.balance.rear_first_above", "m/s2", 8.5),
    ("driver.pedal_force", "N", (50.0, 480.0), "full.deceleration.at_pedal_force", "m/s2", 3.0),
    ("master.bore", "m", (0.020, 0.032), "full.pedal.travel", "m", 0.12),
    ("parking.force", "N", (100.0, 400.0), "full.parking.effort_grade", "", 0.15),
    ("booster.gain", "", (2.0, 4.0), "us.135.cold", "", -0.03),
    # rises while the front locks first, then falls: met twice
    ("vehicle.cg_height", "m", (0.5, 0.8, 1.2), "empty.balance.lock_deceleration", "m/s2", 6.6),
]


def excess(by, unit, output, wanted):
    def at(x):
        axis = f"{by}={x!r}{unit},{x!r}{unit}"
        words = [plain.PROGRAM, "sweep", HERON, "--bare", "--axis", axis, "--out", output]
        text = subprocess.run(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE).stdout
        return float(text.decode().splitlines()[1].split(",")[1]) - wanted

    return at


def answers(by, unit, ends, output, output_unit, wanted):
    within = f"{ends[0]!r}{unit},{ends[-1]!r}{unit}"
    target = f"{output} = {wanted!r} {output_unit}".strip()
    done = plain.run("size", HERON, "--by", by, "--within", within, "--for", target, "--json")
    assert done.returncode == 0, done.stderr.decode()
    return [answer["value"] for answer in json.loads(done.stdout)["answers"]]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case[0])
def test_every_answer_is_where_brent_finds_it(case):
    by, unit, ends, output, _, wanted = case
    f = excess(by, unit, output, wanted)
    expected = [brentq(f, low, high, xtol=1e-13, rtol=1e-14) for low, high in zip(ends, ends[1:])]
    assert answers(*case) == pytest.approx(expected, rel=1e-10)
