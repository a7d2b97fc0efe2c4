# SPDX-License-Identifier: MIT
"""Sweeps from Python: named arrays that equal one vehicle after the other."""
import math
import pathlib
import pickle

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import libbrake
from libbrake import errors

ROOT = pathlib.Path(__file__).resolve().parents[2]
OUT = ["full.stop.distance", "empty.balance.front_share", "us.135.cold"]


def values(vehicle, lines):
    """Outputs after setting lines as a person would."""
    at = vehicle.copy()
    at.set(lines)
    return list(at.outputs(OUT).values())


def test_outputs_are_those_of_a_check(heron):
    found, check = heron.outputs(OUT), heron.check(rules="us")
    assert found[OUT[0]] == check.full.stop.distance
    assert found[OUT[1]] == check.empty.balance.front_share
    assert found[OUT[2]] == pytest.approx(
        next(c.margin for c in check.criteria if c.id == OUT[2]), rel=1e-14
    )


def test_a_sweep_is_what_setting_and_checking_gives_to_the_bit(heron):
    rollouts, friction = [2.3, 2.5, 2.7], [0.30, 0.40]
    found = heron.sweep({"front.tyre.rollout": rollouts, "front.disc.pads.mu": friction}, out=OUT)
    for i, rollout in enumerate(rollouts):
        for j, mu in enumerate(friction):
            lines = {"front.tyre.rollout": rollout, "front.disc.pads.mu": mu}
            assert [found[name][i, j] for name in OUT] == values(heron, lines)


@settings(max_examples=10, deadline=None)
@given(st.lists(st.floats(1.2, 4.2), min_size=1, max_size=4))
def test_any_values_along_an_axis_equal_one_vehicle_after_the_other(rollouts):
    vehicle = libbrake.load(ROOT / "examples" / "heron.ini")
    found = vehicle.sweep({"front.tyre.rollout": rollouts}, out="full.stop.distance")
    for rollout, distance in zip(rollouts, found["full.stop.distance"]):
        assert distance == values(vehicle, {"front.tyre.rollout": rollout})[0]


def test_a_sweep_has_names_units_and_axes(heron):
    found = heron.sweep({"front.tyre.rollout": np.linspace(2.3, 2.7, 5)}, out=OUT)
    assert list(found) == ["front.tyre.rollout", *OUT] and found.axes == ("front.tyre.rollout",)
    assert [found.units[name] for name in found] == ["m", "m", "", ""]
    assert "full.stop.distance" in repr(found) and "inspector" in repr(found)


def test_values_may_have_units(heron):
    found = heron.sweep({"front.tyre.rollout": ["99 in", "104 in"]}, out="full.stop.distance")
    assert found["front.tyre.rollout"].tolist() == [99 * 0.0254, 104 * 0.0254]


def test_any_array_will_do_for_an_axis(heron):
    plain = heron.sweep({"pedal.ratio": [3.0, 4.0]}, out=OUT)
    for same in ((3, 4), np.array([3, 4]), np.array([3, 4], dtype="f4"), np.array([3, 9, 4])[::2]):
        found = heron.sweep({"pedal.ratio": same}, out=OUT)
        assert all(np.array_equal(found[name], plain[name]) for name in plain)


def test_the_vehicle_is_not_changed(heron):
    before = heron.copy()
    heron.sweep({"pedal.ratio": [3.0, 4.0]}, out=OUT)
    assert heron == before


def test_a_combination_that_contradicts_itself_is_nan(heron):
    found = heron.sweep({"front.disc.pads.inner_radius": [0.10, 0.16]}, out="full.stop.distance")
    assert not math.isnan(found["full.stop.distance"][0])
    assert math.isnan(found["full.stop.distance"][1])


@pytest.mark.parametrize(
    "axes, out, kind, words",
    [
        ({"front.tyre.rollout": [50.0, 60.0]}, OUT, errors.RefusedRange, "accepts 1 to 4.5"),
        ({"front.tyre.rollout": [math.nan]}, OUT, errors.RefusedRange, "nan"),
        ({"front.tyre.rolout": [2.5]}, OUT, errors.RefusedUnknown, "front.tyre.rollout"),
        ({"front.tyre.rollout": ["2 kg"]}, OUT, errors.RefusedUnit, "accepts m"),
        ({"front.axle.brake": [1.0]}, OUT, TypeError, "no number"),
        ({"pedal.ratio": []}, OUT, ValueError, "one or more"),
        ({"pedal.ratio": [[4.0]]}, OUT, ValueError, "in a row"),
        ({"pedal.ratio": 4.0}, OUT, ValueError, "got 4.0; accepts one or more values in a row"),
        ({}, OUT, ValueError, "one or more axes"),
        ({"pedal.ratio": [4.0]}, [], ValueError, "outputs"),
        ({"pedal.ratio": [4.0]}, ["full.stop.distanse"], errors.RefusedUnknown, "did you mean"),
    ],
)
def test_a_wrong_sweep_is_refused_in_words(heron, axes, out, kind, words):
    with pytest.raises(kind, match=words):
        heron.sweep(axes, out=out)


def test_a_sweep_goes_into_pandas_and_xarray(heron):
    pytest.importorskip("pandas")
    pytest.importorskip("xarray")
    axes = {"front.tyre.rollout": [2.3, 2.5, 2.7], "pedal.ratio": [3.0, 4.0]}
    found = heron.sweep(axes, out=OUT)
    frame = found.to_pandas()
    assert frame.index.names == list(axes) and list(frame) == OUT
    assert frame.loc[(2.5, 4.0), OUT[0]] == found[OUT[0]][1, 1]
    data = found.to_xarray()
    assert data[OUT[0]].dims == tuple(axes) and data[OUT[0]].attrs["units"] == "m"
    assert float(data[OUT[0]].sel({"pedal.ratio": 3.0})[2]) == found[OUT[0]][2, 0]
    assert pickle.loads(pickle.dumps(found)).axes == found.axes


def test_a_sweep_needs_no_numpy(python):
    python(
        "import libbrake\n"
        "v = libbrake.load('examples/heron.ini')\n"
        "t = v.sweep({'pedal.ratio': [3.0, 4.0]}, out=['full.stop.distance'])\n"
        "assert len(t['full.stop.distance']) == 2 and 'full.stop.distance' in repr(t)\n",
        blocked=["numpy"],
    )


def test_a_dataset_has_units_meanings_and_what_it_came_of(heron):
    """Conventions of xarray and the CF Metadata Conventions, 3.1 and 3.2: units, 1 for a plain
    number, and long_name."""
    pytest.importorskip("xarray")
    axes = {"front.disc.pads.mu": [0.3, 0.4]}
    data = heron.sweep(axes, out=["full.stop.distance", "us.135.cold"]).to_xarray()
    assert data["full.stop.distance"].attrs == {
        "units": "m",
        "long_name": libbrake.results()["full.stop.distance"].meaning,
    }
    assert data["us.135.cold"].attrs["units"] == data["front.disc.pads.mu"].attrs["units"] == "1"
    assert data["us.135.cold"].attrs["long_name"] == "Cold stop from 100 km/h"
    assert data.attrs["libbrake"] == libbrake.__version__
    assert data.attrs["vehicle"] == heron.digest()
    assert heron.samples(1024, "full.stop.distance", seed=7).to_xarray().attrs["seed"] == 7


def test_a_saved_vehicle_is_the_same_when_it_is_loaded(heron, tmp_path):
    heron.save(tmp_path / "kept.ini")
    again = libbrake.load(tmp_path / "kept.ini")
    assert again == heron and again.digest() == heron.digest()
    again.front.disc.pads.mu = 0.41
    assert again.digest() != heron.digest()
