# SPDX-License-Identifier: MIT
"""The transient heat model against SciPy's stiff solvers on the same equations, random brakes.

THERMAL_CASES brakes (60) from THERMAL_SEED (1); LIBBRAKE_BUILD says where the driver is.
"""
import os
import pathlib
import subprocess

import numpy as np
import pytest

from thermal import model

ROOT = pathlib.Path(__file__).parents[2]
BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", ROOT / "build"))
DRIVER = BUILD / "tests" / "thermal-driver"
CASES = int(os.environ.get("THERMAL_CASES", "60"))
SEED = int(os.environ.get("THERMAL_SEED", "1"))
WITHIN = 0.1  # K
TOLERANCE = 1e-3  # K a step


def any_cooling(any_of, area):
    law = int(any_of.integers(0, 7))
    factor = any_of.uniform(5.0, 200.0) if law == model.FIXED else any_of.uniform(0.2, 1.0)
    if law == model.POWER:
        factor *= 10.0
    inner = any_of.uniform(0.07, 0.1)
    return model.Cooling(
        law=law,
        area=area * any_of.uniform(0.3, 1.5) if any_of.random() < 0.8 else 0.0,
        emissivity=any_of.uniform(0.0, 1.0),
        still=any_of.uniform(2.0, 8.0),
        factor=factor,
        exponent=any_of.uniform(0.5, 1.0),
        diameter=any_of.uniform(0.15, 0.38),
        rolling_radius=any_of.uniform(0.3, 0.45),
        vanes=(inner, inner + any_of.uniform(0.03, 0.08), any_of.uniform(0.003, 0.01),
               any_of.uniform(0.005, 0.015), any_of.uniform(0.006, 0.02)),
    )


def any_brake(any_of):
    points = int(any_of.integers(1, 7))
    temperature = 273.15 + np.cumsum(any_of.uniform(30.0, 180.0, points))
    table = np.column_stack(
        [
            temperature,
            any_of.uniform(25.0, 60.0) + any_of.uniform(-5.0, 5.0, points),
            any_of.uniform(430.0, 500.0) + np.cumsum(any_of.uniform(0.0, 60.0, points)),
        ]
    )
    area, thickness = any_of.uniform(0.03, 0.14), any_of.uniform(0.004, 0.014)
    cells = int(any_of.integers(1, 25))
    capacity = any_of.uniform(1.0, 3.0, 7) * [
        1200.0, 60.0, 80.0, 150.0, 250.0, 600.0, 600.0,
    ]  # fmt: skip
    capacity[any_of.random(7) < 0.1] = 0.0
    contact = any_of.uniform(5.0, 500.0) if any_of.random() < 0.4 else 0.0
    share = 1.0 if contact > 0.0 else any_of.uniform(0.8, 1.0)
    if capacity[model.PAD] == 0.0:
        contact, share = 0.0, 1.0
    uneven = any_of.random() < 0.3 and contact == 0.0
    return model.Brake(
        density=any_of.uniform(7000.0, 7400.0),
        table=table,
        area=area,
        thickness=thickness,
        cells=cells,
        first_cell=thickness / cells * any_of.uniform(0.1, 1.0) if any_of.random() < 0.5 else 0.0,
        ratio=any_of.uniform(1.0, 1.3),
        back_share=any_of.uniform(0.1, 0.9) if uneven else 0.0,
        share=share,
        contact=contact,
        front=any_cooling(any_of, area),
        back=any_cooling(any_of, area),
        capacity=list(capacity),
        link=list(any_of.uniform(0.5, 15.0, 7)),
        part=[any_cooling(any_of, 0.03) for _ in range(model.PARTS)],
        pressure=any_of.uniform(6e4, 1.05e5),
        start=any_of.uniform(260.0, 380.0),
    )


def any_legs(any_of):
    """Two or three times: braking, then driving on or standing."""
    for _ in range(int(any_of.integers(2, 4))):
        fast, slow = any_of.uniform(15.0, 55.0), any_of.uniform(0.0, 15.0)
        air = any_of.uniform(253.0, 318.0)
        if any_of.random() < 0.3:
            power = any_of.uniform(2e3, 1.2e4)
            yield model.Leg((power, power), (slow, slow), air, any_of.uniform(60.0, 600.0))
        else:
            power = any_of.uniform(2e4, 1.3e5)
            duration = any_of.uniform(2.0, 8.0)
            yield model.Leg((power, power * slow / fast), (fast, slow), air, duration)
        speed = (0.0, 0.0) if any_of.random() < 0.2 else (slow, fast)
        yield model.Leg((0.0, 0.0), speed, air, any_of.uniform(10.0, 300.0))


@pytest.fixture(scope="module")
def cases():
    any_of = np.random.default_rng(SEED)
    return [(any_brake(any_of), list(any_legs(any_of))) for _ in range(CASES)]


@pytest.fixture(scope="module")
def answers(cases):
    text = "\n".join(
        " ".join(f"{number:.17g}" for number in brake.numbers(TOLERANCE, legs))
        for brake, legs in cases
    )
    run = subprocess.run([DRIVER], input=text, check=True, stdout=subprocess.PIPE, text=True)
    lines = iter(run.stdout.splitlines())
    return [[[float(word) for word in next(lines).split()] for _ in legs] for _, legs in cases]


def test_temperatures_are_those_of_a_stiff_solver(cases, answers):
    worst = hottest = 0.0
    for index, ((brake, legs), lines) in enumerate(zip(cases, answers)):
        method = ("BDF", "Radau")[index % 8 == 0]
        mine = brake.run(legs, method=method, rtol=1e-6, atol=1e-4)
        for leg, ((face, temperature), line) in enumerate(zip(mine, lines)):
            assert line[0] == 0, f"case {index}, leg {leg}: refused"
            assert line[1] <= 1e-9, f"case {index}, leg {leg}: energy residual {line[1]}"
            present = np.array([True] * (brake.cells + model.PARTS))
            for part in range(model.PARTS):
                present[brake.node(part)] = brake.present[part]
            apart = np.abs(temperature - line[3:])[present].max()
            apart = max(apart, abs(face - line[2]))
            assert apart <= WITHIN, f"case {index}, leg {leg}: {apart:.3g} K apart"
            worst, hottest = max(worst, apart), max(hottest, face)
    assert hottest > 450.0  # the cases are not all cold
    print(f"thermal oracle: {len(cases)} brakes, at most {worst:.2g} K apart")


def test_the_tolerance_bounds_the_error(cases, answers):
    """A hundred times looser tolerance changes no end temperature by more than a few of it."""
    text = "\n".join(
        " ".join(f"{number:.17g}" for number in brake.numbers(TOLERANCE, legs))
        for brake, legs in cases
    )
    run = subprocess.run([DRIVER, "0.1"], input=text, check=True, stdout=subprocess.PIPE, text=True)
    lines = [[float(word) for word in line.split()] for line in run.stdout.splitlines()]
    tight = [line for case in answers for line in case]
    apart = max(np.abs(np.subtract(a[2:], b[2:])).max() for a, b in zip(tight, lines))
    assert len(tight) == len(lines) and apart <= 0.3
