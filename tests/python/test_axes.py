# SPDX-License-Identifier: MIT
"""Sweeps over axes of any kind and number, on any number of threads. Expected: the cases one
by one, by lists on one thread."""
import itertools
import pathlib

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import libbrake

ROOT = pathlib.Path(__file__).resolve().parents[2]
OUT = ["full.stop.distance", "empty.balance.front_share"]
# Lines with values of which some are out of range, or contradict the outer radius of the pads.
LINES = {"front.tyre.rollout": st.floats(0.5, 4.5), "front.disc.pads.mu": st.floats(0.2, 0.6),
         "front.disc.pads.inner_radius": st.floats(0.08, 0.17),
         "driver.pedal_force": st.floats(0.0, 600.0)}  # fmt: skip
VEHICLE = []


def vehicle():
    """Heron, read once."""
    if not VEHICLE:
        VEHICLE.append(libbrake.load(ROOT / "examples" / "heron.ini"))
    return VEHICLE[0]


def kinds():
    """Ways in which a list of numbers can be handed over."""
    pandas, xarray = pytest.importorskip("pandas"), pytest.importorskip("xarray")
    return [tuple, list, np.array, lambda x: np.repeat(x, 2)[::2], iter, pandas.Index,
            lambda x: pandas.Series(x, index=[f"row {n}" for n in range(len(x))]),
            lambda x: xarray.DataArray(x, dims=["any"]), lambda x: np.ma.array(x),
            lambda x: [f"{one!r}" for one in x], lambda x: np.array(x, dtype=object)]  # fmt: skip


@st.composite
def questions(draw):
    """Some lines with values."""
    names = draw(st.lists(st.sampled_from(sorted(LINES)), min_size=1, max_size=3, unique=True))
    return {name: draw(st.lists(LINES[name], min_size=1, max_size=3)) for name in names}


@settings(max_examples=40, deadline=None)
@given(questions(), st.integers(0, 10), st.integers(1, 4))
def test_any_axes_are_what_their_cases_are_one_by_one(axes, kind, threads):
    one = vehicle()
    handed = {name: kinds()[(kind + at) % 11](values)
              for at, (name, values) in enumerate(axes.items())}  # fmt: skip
    try:
        found = one.sweep(handed, OUT, threads=threads)
    except libbrake.errors.Refused as refusal:
        assert any(refusal.field == name for name in axes), "no value of it is inside its range"
        return
    grid = list(itertools.product(*axes.values()))
    for at, case in zip(itertools.product(*(range(len(v)) for v in axes.values())), grid):
        same = one.copy()
        try:
            same.set(dict(zip(axes, case)))
            expected, words = list(same.outputs(OUT).values()), ""
        except libbrake.errors.Refused as refusal:
            expected, words = [np.nan] * len(OUT), str(refusal)
        assert np.array_equal([found[name][at] for name in OUT], expected, equal_nan=True)
        assert (found.notes[at] == "") == (words == "") and found.refusal(*at) == found.notes[at]


def test_a_note_is_what_setting_the_case_says(heron):
    axes = {"front.disc.pads.inner_radius": [0.10, 0.16], "front.tyre.rollout": [2.5, 50.0]}
    found = heron.sweep(axes, OUT)
    for at, words in np.ndenumerate(found.notes):
        case = {name: float(values[place]) for (name, values), place in zip(axes.items(), at)}
        try:
            heron.copy().set(case)
            assert words == ""
        except libbrake.errors.Refused as refusal:
            assert words == f"{refusal.field}: {refusal.text}" or at == (1, 1)
    assert found.notes.shape == (2, 2) and (found.notes != "").sum() == 3
    assert "accepts 1 to 4.5 m" in found.notes[1, 1], "what is out of its range is told first"


def test_notes_of_a_hundred_thousand_cases_are_quick(heron):
    """Those that are refused are worked out again, and no others."""
    radii = np.linspace(0.10, 0.17, 1000)
    found = heron.sweep({"front.disc.pads.inner_radius": radii,
                         "front.tyre.rollout": np.linspace(2.2, 2.9, 100)}, OUT[0])  # fmt: skip
    refused = np.isnan(found[OUT[0]])
    assert ((found.notes != "") == refused).all() and 10_000 < refused.sum() < 50_000


def test_what_has_no_order_is_no_axis(heron):
    for wrong in ({2.4, 2.5}, {2.4: 1}, None, 2.4, "2.4 m", [], iter([])):
        with pytest.raises((TypeError, ValueError)):
            heron.sweep({"front.tyre.rollout": wrong}, OUT)
