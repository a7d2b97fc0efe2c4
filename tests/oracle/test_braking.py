# SPDX-License-Identifier: MIT
"""A braking in time against SciPy on the same equations, random vehicles cold and hot.

BRAKING_CASES cold vehicles (60) and BRAKING_HOT_CASES hot ones (20) from BRAKING_SEED (1);
LIBBRAKE_BUILD says where the driver is.
"""
import concurrent.futures
import math
import multiprocessing
import os
import pathlib
import subprocess

import numpy as np
import pytest

from braking import model

ROOT = pathlib.Path(__file__).parents[2]
BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", ROOT / "build"))
DRIVER = BUILD / "tests" / "braking-driver"
COLD = int(os.environ.get("BRAKING_CASES", "60"))
HOT = int(os.environ.get("BRAKING_HOT_CASES", "20"))
SEED = int(os.environ.get("BRAKING_SEED", "1"))


def any_axle(any_of, mass):
    radius = any_of.uniform(0.28, 0.45)
    return model.Axle(
        gain=mass * any_of.uniform(2.0, 6.0) * radius / 10e6,
        threshold=any_of.uniform(0.0, 0.4e6),
        radius=radius,
        inertia=any_of.uniform(0.0, 8.0),
        wheels=0.5 if any_of.random() < 0.1 else 1.0,
    )


def any_hold(any_of, axles, most):
    """A chamber that ends first, of splits II and HI; None: none."""
    if any_of.random() < 0.7 or most < 8e6 or any(axle.wheels < 1.0 for axle in axles):
        return 0.0, 0.0
    shares = ((1.0, 0.0), (0.0, 1.0), (0.5, 1.0), (0.5, 0.0))[int(any_of.integers(0, 4))]
    for axle, share in zip(axles, shares):
        axle.held, axle.held_wheels = share, 1.0 if share else 0.0
    return any_of.uniform(2e6, 7e6), most


def any_hot(any_of, axle):
    """A disc or a drum of usual size with friction that rises first and then fades."""
    drum = any_of.random() < 0.4
    mu = any_of.uniform(0.32, 0.42)
    kelvin = 273.15 + np.cumsum([20.0, *any_of.uniform(60.0, 150.0, 4)])
    values = mu * np.array([0.9, 1.0, *any_of.uniform(0.6, 1.05, 3)])
    return model.Hot(
        mu=mu,
        power=1.0 if any_of.random() < 0.7 else any_of.uniform(1.0, 2.0),
        shoes=int(any_of.integers(0, 3)) if drum else None,
        shoe=(0.125, 0.1, 0.2, 0.3, 2.2, 0.25, 2.3, 0.9),
        rubbing=any_of.uniform(0.3, 0.45),
        lining=any_of.uniform(0.2, 0.5),
        friction=list(zip(kelvin, values)),
        over_speed=[(0.0, 1.0), (30.0, any_of.uniform(0.85, 1.0))],
        over_pressure=[(0.0, 1.0), (20e6, any_of.uniform(0.85, 1.0))],
        cells=int(any_of.integers(1, 6)),
        area=any_of.uniform(0.05, 0.12),
        thickness=any_of.uniform(0.006, 0.015),
        density=7200.0,
        conductivity=any_of.uniform(40.0, 55.0),
        heat_capacity=any_of.uniform(450.0, 560.0),
        cooled=any_of.uniform(0.0, 0.1),
        coefficient=any_of.uniform(10.0, 120.0),
    )


def any_rig(any_of, hot):
    mass, wheelbase = any_of.uniform(800.0, 4000.0), any_of.uniform(2.2, 3.6)
    axles = any_axle(any_of, mass), any_axle(any_of, mass)
    sloped = any_of.uniform(1e6, 5e6), any_of.uniform(0.2, 1.0)
    most = math.inf if any_of.random() < 0.7 else any_of.uniform(6e6, 15e6)
    hold = any_hold(any_of, axles, most)
    deceleration = any_of.uniform(3.0, 6.0)
    start = any_of.uniform(12.0, 45.0)
    return model.Rig(
        mass=mass,
        behind=any_of.uniform(0.42, 0.58) * wheelbase,
        height=any_of.uniform(0.15, 0.28) * wheelbase,
        wheelbase=wheelbase,
        rolling=any_of.uniform(0.0, 0.02),
        grade=any_of.uniform(-0.08, 0.12),
        locked=any_of.random() < 0.1,
        axles=axles,
        valve=sloped if any_of.random() < 0.4 else (math.inf, 1.0),
        hold=hold,
        pedal=(
            any_of.uniform(3.5, 5.0), any_of.uniform(0.7, 1.0), any_of.uniform(1.0, 6.0),
            any_of.uniform(500.0, 3000.0), any_of.uniform(3e-4, 6e-4), any_of.uniform(0.85, 1.0),
        ),
        pressure_most=most,
        adhesion=any_of.uniform(0.6, 1.0),
        antilock=any_of.uniform(0.75, 1.0) if any_of.random() < 0.4 else 0.0,
        air_drag=any_of.uniform(0.0, 1.0),
        dead_time=any_of.uniform(0.0, 0.4),
        rise_time=any_of.uniform(0.05, 0.5) if any_of.random() < 0.8 else 0.0,
        lag=any_of.uniform(0.01, 0.1) if any_of.random() < 0.5 else 0.0,
        air=any_of.uniform(263.0, 313.0),
        step=0.005 if hot else 0.01,
        manner=int(any_of.choice([model.FORCE, model.FORCE, model.DECELERATION, model.VERGE])),
        force=any_of.uniform(300.0, 900.0),
        deceleration=deceleration,
        start=start,
        end=0.0 if any_of.random() < 0.8 else any_of.uniform(0.3, 0.7) * start,
        hot=tuple(any_hot(any_of, axle) for axle in axles) if hot else (),
    )


def any_that_stops(any_of, hot):
    """Its brakes must be able to: at half their gain, 2 m/s2 at 30 m/s at least."""
    while True:
        rig = any_rig(any_of, hot)
        if rig.instant(1.0, [0.5, 0.5], 0.0, rig.law(rig.force))[0] > 2.0:
            return rig


def asked(rigs):
    text = "\n".join(
        "= " + " ".join(f"{float(number):.17g}" for number in rig.numbers()) for rig in rigs
    )
    run = subprocess.run([DRIVER], input=text, check=True, stdout=subprocess.PIPE, text=True)
    return [[float(word) for word in line.split()] for line in run.stdout.splitlines()]


def solve(rig):
    return rig.run(1e-9 if rig.hot else 1e-11)


@pytest.fixture(scope="module")
def pairs():
    """By kind: rig, answer of SciPy, answer of the library."""
    any_of = np.random.default_rng(SEED)
    rigs = [any_that_stops(any_of, index >= COLD) for index in range(COLD + HOT)]
    with concurrent.futures.ProcessPoolExecutor(
        os.cpu_count(), mp_context=multiprocessing.get_context("fork")
    ) as pool:
        mine = list(pool.map(solve, rigs))
    theirs = asked(rigs)
    assert len(theirs) == len(rigs)
    return list(zip(rigs, mine, theirs))


def check(pairs, hot):
    worst = [0.0] * 4
    for index, (rig, mine, theirs) in enumerate(pairs):
        if bool(rig.hot) != hot:
            continue
        distance, time, developed, work, faces = mine
        assert theirs[0] == 0, f"case {index}: refused"
        apart = [
            abs(distance - theirs[1]),
            0.0 if rig.end > 0.0 else abs(developed - theirs[3]),
            max((abs(a - b) for a, b in zip(faces, theirs[8:])), default=0.0),
            abs(time - theirs[2]),
        ]
        limits = 1e-3, 1e-4, 0.1, 1e-4
        assert all(a <= limit for a, limit in zip(apart, limits)), f"case {index}: {apart}\n{rig}"
        assert math.isnan(theirs[3]) == (rig.end > 0.0)
        assert theirs[4] <= 1e-9, f"case {index}: energy residual {theirs[4]}"
        assert theirs[5] <= rig.force * (1.0 + 1e-12)
        energy = rig.effective * rig.start**2 / 2.0
        assert np.allclose(work, theirs[6:8], rtol=0.0, atol=1e-5 * energy)
        worst = [max(a, b) for a, b in zip(worst, apart)]
    print("worst: %.2g m, %.2g m/s2, %.2g K, %.2g s" % tuple(worst))


def test_cold_vehicles_stop_where_a_second_solver_says(pairs):
    check(pairs, hot=False)


def test_hot_vehicles_stop_where_a_second_solver_says(pairs):
    check(pairs, hot=True)
