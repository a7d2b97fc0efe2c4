# SPDX-License-Identifier: MIT
"""Brakes of any accepted material, size and power: what comes is possible, or is refused.

Nothing here looks like a brake: every number is drawn over its whole accepted range or several
powers of ten of it. EXTREME_CASES brakes (60) from EXTREME_SEED (1), three stretches of time each.
"""
import math
import os
import pathlib
import subprocess

import numpy as np

from thermal import model

ROOT = pathlib.Path(__file__).parents[2]
BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", ROOT / "build"))
DRIVER = BUILD / "tests" / "thermal-driver"
CASES = int(os.environ.get("EXTREME_CASES", "60"))
SEED = int(os.environ.get("EXTREME_SEED", "1"))
TOLERANCE = 0.1  # K a step
OK = 0


class Any:
    def __init__(self, seed):
        self.of = np.random.default_rng(seed)

    def size(self, low, high, count=None):
        return np.exp(self.of.uniform(np.log(low), np.log(high), count))

    def chance(self, share):
        return self.of.random() < share

    def cooling(self, area):
        return model.Cooling(
            law=int(self.of.integers(0, 7)),
            area=area * self.of.uniform(0.3, 1.5) if self.chance(0.8) else 0.0,
            emissivity=self.of.uniform(0.0, 1.0),
            still=self.size(0.1, 100.0),
            factor=self.size(0.1, 1e4),
            exponent=self.of.uniform(0.5, 1.0),
            diameter=self.size(0.05, 1.0),
            rolling_radius=self.of.uniform(0.2, 0.6),
            vanes=(0.08, 0.12, self.size(1e-4, 1e-2), self.size(1e-4, 1e-2), self.size(1e-3, 3e-2)),
        )

    def brake(self):
        points = int(self.of.integers(1, 7))
        kelvin = self.size(1.0, 100.0) + np.cumsum(self.size(0.1, 500.0, points))
        area, thickness = self.size(1e-6, 1e3), self.size(1e-5, 10.0)
        cells = int(self.of.integers(1, 30))
        capacity = self.size(1e-3, 1e9, model.PARTS)
        capacity[self.of.random(model.PARTS) < 0.2] = 0.0
        contact = self.size(1e-3, 1e9) if self.chance(0.4) else 0.0
        share = 1.0 if contact else self.of.uniform(0.0, 1.0)
        if capacity[model.PAD] == 0.0:
            contact, share = 0.0, 1.0
        first = max(1e-7, thickness / cells * self.size(1e-4, 1.0))
        return model.Brake(
            density=self.size(1.0, 1e5),
            table=np.column_stack(
                [kelvin, self.size(1e-3, 1e5, points), self.size(1.0, 1e5, points)]
            ),
            area=area,
            thickness=thickness,
            cells=cells,
            first_cell=min(first, thickness / cells) if self.chance(0.5) else 0.0,
            ratio=self.of.uniform(1.0, 10.0),
            back_share=self.of.uniform(0.0, 1.0) if self.chance(0.3) and not contact else 0.0,
            share=share,
            contact=contact,
            front=self.cooling(area),
            back=self.cooling(area),
            capacity=list(capacity),
            link=list(self.size(1e-3, 1e9, model.PARTS)),
            part=[self.cooling(self.size(1e-3, 10.0)) for _ in range(model.PARTS)],
            pressure=self.size(1e2, 1e7),
            start=self.size(1.0, 4999.0),
        )

    def leg(self):
        power = self.size(1e-3, 1e12) * self.chance(0.8)
        speed = self.size(1e-3, 1e3) * self.chance(0.8)
        return model.Leg(
            (power, self.of.choice([0.0, 1.0, self.of.random()]) * power),
            (speed, speed * self.of.random()),
            self.size(1.0, 5000.0),
            self.size(1e-3, 36e3),
        )


def answers(brake, legs):
    text = " ".join(f"{number:.17g}" for number in brake.numbers(TOLERANCE, legs))
    run = subprocess.run(
        [DRIVER], input=text, check=True, stdout=subprocess.PIPE, text=True, timeout=60
    )
    return [[float(word) for word in line.split()] for line in run.stdout.splitlines()]


def test_what_comes_of_any_accepted_brake_is_possible_or_refused():
    """Given any accepted brake, when powers act on it for a millisecond to ten hours, then a
    stretch ends with temperatures of a solid, or is refused; no call goes on for long. The energy
    balance says nothing here, where a part may hold 1e15 times what is put in: test_thermal and
    test_duty have it.
    """
    draw = Any(SEED)
    kept = refused = 0
    for case in range(CASES):
        brake, legs = draw.brake(), [draw.leg() for _ in range(3)]
        for status, residual, face, *temperatures in answers(brake, legs):
            if status != OK:
                refused += 1
                continue
            kept += 1
            assert 0.0 < face < 5000.0, f"case {case}: face {face}"
            assert all(0.0 < t < 5000.0 for t in temperatures), f"case {case}: {temperatures}"
            assert math.isfinite(residual)
    print(f"{kept} kept, {refused} refused")
    assert kept > CASES // 4 and refused > CASES // 4
