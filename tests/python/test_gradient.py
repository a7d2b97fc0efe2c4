# SPDX-License-Identifier: MIT
"""Derivatives, samples and cases of one's own from Python."""
import functools
import pathlib

import numpy as np
import pytest
from scipy import optimize, stats

import libbrake

ROOT = pathlib.Path(__file__).resolve().parents[2]
VEHICLES = sorted((ROOT / "tests" / "vehicles").glob("*.ini"))
OUT = ["full.stop.distance", "empty.pedal.force_for_target", "full.failed.no_assist",
       "empty.parking.grade_up", "full.balance.rear_first_above"]  # fmt: skip
LINES = ["front.tyre.rollout", "driver.pedal_force", "road.adhesion", "master.bore", "pedal.ratio",
         "vehicle.cg_height", "driver.target", "vehicle.wheelbase", "stop.speed"]  # fmt: skip


@functools.cache
def vehicle(path):
    return libbrake.load(path)


# ---- derivatives ---------------------------------------------------------------------------------


def stencil(v, line, at, step):
    """The five-point formula of numerical analysis (Abramowitz and Stegun, Handbook of Mathematical
    Functions, 25.3.6), over cases that are set one by one."""
    table = v.cases({line: at + step * np.array([-2, -1, 1, 2])}, OUT)
    return np.array([np.dot(table[name], [1, -8, 8, -1]) / (12 * step) for name in OUT])


def test_derivatives_are_those_of_another_formula_at_a_thousand_random_vehicles():
    """Given vehicles of tests/vehicles with lines moved at random, then the five-point formula at
    two steps, which says by itself how far it holds, gives the same. (A kink just there is told:
    tests/study/test_gradient.c.)"""
    draw = np.random.default_rng(1)
    compared = 0
    for _ in range(1000):
        v = vehicle(VEHICLES[draw.integers(len(VEHICLES))]).copy()
        line = LINES[draw.integers(len(LINES))]
        at = v.get(line)
        if not isinstance(at, float) or not np.isfinite(at):
            continue
        try:
            at *= draw.uniform(0.93, 1.07)
            v.set({line: at})
        except libbrake.errors.Refused:
            continue
        found = v.gradient(OUT, [line])
        one, other = (stencil(v, line, at, at * step) for step in (4e-4, 2e-4))
        now = np.array(list(v.outputs(OUT).values()))
        for i in range(len(OUT)):
            off = abs(one[i] - other[i]) + 1e-9 * abs(now[i] / at)
            held = not found.kink[i, 0] and off < 1e-6 * abs(now[i] / at)
            if held:
                assert found.value[i, 0] == pytest.approx(other[i], abs=10 * off), (line, OUT[i])
                assert found.error[i, 0] <= 1e-6 * max(abs(now[i] / at), abs(other[i]))
            compared += held
    assert compared > 4000


def test_an_optimiser_takes_them(heron):
    """Given the rear cylinder that brings the failed circuit back to 2.6 m/s2, when SciPy looks for
    it by Newton's method with the derivative, then it is where size() finds it."""
    name, line = "full.failed.first_circuit", "rear.drum.cylinder_diameter"

    def missing(x):
        return heron.cases({line: [x]}, name)[name][0] - 2.6

    def slope(x):
        other = heron.copy()
        other.set({line: float(x)})
        return other.gradient(name, line)[name, line]

    root = optimize.newton(missing, 0.022, fprime=slope, tol=1e-12)
    (answer,) = heron.size(line, f"{name} >= 2.6 m/s2", within=("20 mm", "30 mm")).answers
    assert root == pytest.approx(answer.value, rel=1e-6)


def test_a_gradient_is_told_by_name_and_as_arrays(heron):
    found = heron.gradient(["full.stop.distance", "us.135.cold"], ["road.adhesion", "stop.speed"])
    assert found.value.shape == found.error.shape == found.kink.shape == (2, 2)
    assert found["full.stop.distance", "stop.speed"] == found.value[0, 1]
    assert list(found["us.135.cold"]) == list(found.value[1])
    assert found.to_pandas().loc["us.135.cold", "stop.speed"] == found.value[1, 1]
    data = found.to_xarray()
    assert float(data.value.sel(output="full.stop.distance", line="stop.speed")) > 0
    assert str(data.line_unit.sel(line="stop.speed").item()) == "m/s"
    assert "inspector" in repr(found) and "inspector" in data.attrs["caution"]


def test_what_is_no_number_or_no_name_is_refused_in_words(heron):
    with pytest.raises(TypeError, match="vehicle.name: is no number"):
        heron.gradient("full.stop.distance", "vehicle.name")
    with pytest.raises(libbrake.errors.RefusedUnknown, match="did you mean full.stop.distance"):
        heron.gradient("full.stop.distanc", "road.adhesion")
    with pytest.raises(ValueError, match="one or more lines"):
        heron.gradient("full.stop.distance", [])


# ---- samples -------------------------------------------------------------------------------------


def test_samples_are_those_of_a_spread(heron):
    """Given the same number and seed, then the shares that meet, and the percentiles, are equal."""
    spread = heron.spread(samples=4096)
    names = [one.id for one in spread.criteria if one.probability is not None]
    table = heron.samples(4096, [*names, "full.stop.distance"])
    for one in spread.criteria:
        if one.id in names:
            assert np.mean(table[one.id] >= 0) == pytest.approx(one.probability, abs=1e-12)
    middle = next(one for one in spread.results if one.path == "full.stop.distance")
    assert np.median(table["full.stop.distance"]) == pytest.approx(middle.percentiles.p50, rel=1e-3)


def test_a_shared_cause_is_in_the_samples(heron):
    """Given scales that read all four wheels: what they share shows as a correlation."""
    table = heron.samples(4096, "full.stop.distance")
    wheels = [table[f"scales.{place}"] for place in ("front_left", "front_right", "rear_left")]
    for one in wheels[1:]:
        assert stats.spearmanr(wheels[0], one).statistic > 0.2


def test_another_seed_gives_other_samples_and_the_same_the_same(heron):
    one, again, other = (heron.samples(1024, "full.stop.distance", seed=seed) for seed in (1, 1, 2))
    assert np.array_equal(one["full.stop.distance"], again["full.stop.distance"])
    assert not np.array_equal(one["full.stop.distance"], other["full.stop.distance"])


def test_what_cannot_be_drawn_is_refused_in_words(heron):
    with pytest.raises(libbrake.errors.RefusedRange, match="1024, 2048, 4096"):
        heron.samples(1000, "full.stop.distance")
    with pytest.raises(ValueError, match="out: got none"):
        heron.samples(1024)


def test_whoever_is_told_may_end_the_samples(heron):
    def stop(done, total):
        raise KeyError("enough")

    with pytest.raises(KeyError, match="enough"):
        heron.samples(65536, "full.stop.distance", progress=stop)


# ---- cases ---------------------------------------------------------------------------------------


def test_cases_are_what_setting_each_gives_to_the_bit(heron):
    mu, rollout = [0.30, 0.38, 0.45], [2.3, 2.5, 2.7]
    table = heron.cases({"front.disc.pads.mu": mu, "front.tyre.rollout": rollout}, OUT)
    for i in range(3):
        other = heron.copy()
        other.set({"front.disc.pads.mu": mu[i], "front.tyre.rollout": rollout[i]})
        assert [table[name][i] for name in OUT] == list(other.outputs(OUT).values())
    assert list(table.to_pandas().columns) == ["front.disc.pads.mu", "front.tyre.rollout", *OUT]


def test_a_case_out_of_range_is_nan_and_the_others_stay(heron):
    table = heron.cases({"front.disc.pads.mu": [0.3, 7.0, 0.4]}, "full.stop.distance")
    alone = heron.cases({"front.disc.pads.mu": [0.3, 0.4]}, "full.stop.distance")
    found = table["full.stop.distance"]
    assert np.isnan(found[1]) and list(found[[0, 2]]) == list(alone["full.stop.distance"])


def test_cases_of_unequal_length_are_refused(heron):
    with pytest.raises(ValueError, match="road.adhesion: got 1 values; accepts 2, as front"):
        heron.cases({"front.disc.pads.mu": [0.3, 0.4], "road.adhesion": [0.5]}, OUT)


# ---- what there is -------------------------------------------------------------------------------


def test_lines_results_and_criteria_are_listed_with_meaning_and_unit(heron):
    assert libbrake.lines()["front.tyre.rollout"].unit == "m"
    assert "tape" in libbrake.lines()["front.tyre.rollout"].measure
    assert libbrake.results()["full.stop.distance"].unit == "m"
    assert libbrake.criteria()["us.135.cold"].clause.startswith("49 CFR 571.135")
    assert {one.id for one in heron.check(rules="all").criteria} <= set(libbrake.criteria())
    for known in (libbrake.lines(), libbrake.results(), libbrake.criteria()):
        assert all(one.meaning for one in known.values())
    assert libbrake.explain("us.135.cold").title == libbrake.criteria()["us.135.cold"].title
