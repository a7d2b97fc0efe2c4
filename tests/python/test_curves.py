# SPDX-License-Identifier: MIT
"""Curves along pedal force and deceleration. Expected: the results of a check at the same point,
outputs of a sweep, and what forces must sum to."""
import math

import numpy as np
import pytest

import libbrake


def test_adhesion_at_the_target_is_that_of_the_check(heron):
    target, check = heron.driver.target, heron.check()
    for load in ("empty", "full"):
        found = heron.curves(deceleration=[target], load=load)
        result = getattr(check, load).balance.front_adhesion_used
        assert found["front_adhesion"][0] == result
        force = getattr(check, load).pedal.force_for_target
        assert found["pedal_force"][0] == pytest.approx(force, rel=1e-12)


def test_along_pedal_force_deceleration_is_that_of_a_sweep(heron):
    forces = np.linspace(50, 450, 9)
    for load in ("empty", "full"):
        name = f"{load}.deceleration.at_pedal_force"
        swept = heron.sweep({"driver.pedal_force": forces}, out=name)[name]
        assert np.array_equal(heron.curves(pedal_force=forces, load=load)["deceleration"], swept)


def test_forces_are_what_slows_the_mass_and_loads_are_its_weight(heron):
    """Newton: m a = F_1 + F_2 + f m g, N_1 + N_2 = m g on the level (balance.h)."""
    found = heron.curves(pedal_force=np.linspace(10, 500, 40))
    mass = heron.check().full.mass.total
    rolling = heron.vehicle.rolling_resistance * mass * 9.80665
    both = found["front_force"] + found["rear_force"] + rolling
    assert both == pytest.approx(mass * found["deceleration"], rel=1e-12)
    assert found["front_load"] + found["rear_load"] == pytest.approx([mass * 9.80665] * 40)
    used = (found["front_force"] / found["front_load"]) + heron.vehicle.rolling_resistance
    assert found["front_adhesion"] == pytest.approx(used, rel=1e-12)
    assert (found["rear_brake_pressure"] <= found["pressure"] * (1 + 1e-12)).all()
    assert (found["rear_brake_pressure"] < 0.95 * found["pressure"])[-1], "the valve holds it back"


def test_torque_is_gain_times_pressure_of_each_brake(heron):
    found, check = heron.curves(pedal_force=[100, 200, 300]), heron.check()
    for axle in ("front", "rear"):
        gain = getattr(check.brakes, f"{axle}_torque_gain")
        threshold = getattr(heron, axle).disc.threshold if axle == "front" else (
            heron.rear.drum.threshold)  # fmt: skip
        over = found[f"{axle}_brake_pressure"] - threshold
        assert found[f"{axle}_torque"] == pytest.approx(gain * over, rel=1e-9)


def test_a_circuit_that_is_lost_has_no_pressure(heron):
    found = heron.curves(pedal_force=[200.0], failure="first_circuit")
    pressures = sorted([found["front_brake_pressure"][0], found["rear_brake_pressure"][0]])
    assert pressures[0] == 0 < pressures[1]
    lost = "front" if found["front_brake_pressure"][0] == 0 else "rear"
    assert found[f"{lost}_torque"][0] == 0
    weak = heron.curves(pedal_force=[200.0], failure="no_assist")
    assert weak["deceleration"][0] < heron.curves(pedal_force=[200.0])["deceleration"][0]


def test_what_nothing_gives_is_nan_and_what_is_wrong_is_refused(heron):
    assert math.isnan(heron.curves(pedal_force=[-1.0])["deceleration"][0])
    found = heron.curves(deceleration=["0.5 m/s2", "1e9 m/s2"])
    assert not math.isnan(found["pressure"][0])
    for wrong in ({}, {"pedal_force": [1], "deceleration": [1]}, {"pedal_force": []},
                  {"pedal_force": [1], "failure": "x"}, {"pedal_force": [1], "load": "x"}):  # fmt: skip
        with pytest.raises(ValueError):
            heron.curves(**wrong)


def test_curves_are_data(heron):
    pytest.importorskip("xarray")
    data = heron.curves(deceleration=np.linspace(0.5, 8, 16)).to_xarray()
    assert data["rear_adhesion"].dims == ("deceleration",)
    assert data["front_torque"].attrs["units"] == "N*m" and data.sizes["deceleration"] == 16
    assert data.attrs["libbrake"] == libbrake.__version__


def test_a_braking_over_time_has_its_distance_forces_and_pressures(heron):
    """A stop at one pedal force: distance is the integral of speed, force its torque's."""
    rows = heron.heat(stop=("80 km/h", "200 N")).history
    way = np.sum(0.5 * (rows["speed"][1:] + rows["speed"][:-1]) * np.diff(rows["time"]))
    assert rows["distance"][-1] == pytest.approx(way, abs=0.02)
    held = rows["pedal_force"] == 200.0
    cold = heron.curves(pedal_force=[200.0])
    assert held.any() and rows["pressure"][held] == pytest.approx(cold["pressure"][0], rel=1e-9)
    for name in ("front_torque", "rear_brake_pressure"):
        assert rows[name][held][0] == pytest.approx(cold[name][0], rel=0.1)
