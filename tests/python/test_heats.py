# SPDX-License-Identifier: MIT
"""Heat over axes of lines and of the duty. Expected: what heat(...) gives of each case alone, to
the bit, and of its history at its own times."""
import math
import os
import pathlib
import pickle

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import libbrake
from libbrake import errors

ROOT = pathlib.Path(__file__).resolve().parents[2]
MASS, FALL = "front.disc.rotor_mass", "fall"
DESCENT = {"descent": ("8 %", "600 m", "50 km/h"), "cool": "1 min"}
OUT = ["heat.front_face", "heat.rear_fluid", "front_face", "rear_torque", "distance"]


def alone(vehicle, mass, fall):
    """The same by itself."""
    other = vehicle.copy()
    other.front.disc.rotor_mass = float(mass)
    return other.heat(descent=(float(fall), "600 m", "50 km/h"), cool="1 min")


def test_each_case_is_what_it_is_alone_to_the_bit(heron):
    axes = {FALL: [0.05, 0.08], MASS: [8.0, 9.5]}
    found = heron.heat.over(axes, out=OUT, times=[0.0, 10.0, 44.2], **DESCENT)
    assert found.axes == (MASS, FALL, "time"), "lines first, then the duty's own, then time"
    assert found.dims(OUT[0]) == (MASS, FALL) and found.dims("distance") == (MASS, FALL, "time")
    for i, mass in enumerate(axes[MASS]):
        for k, fall in enumerate(axes[FALL]):
            one = alone(heron, mass, fall)
            assert found["heat.front_face"][i, k] == one.heat.front_face
            assert found["heat.rear_fluid"][i, k] == one.heat.rear_fluid
            rows = {round(t, 9): at for at, t in enumerate(one.history["time"])}
            for name in OUT[2:]:  # a row a second, so that each time is one of its own
                told = [one.history[name][rows[t]] for t in found["time"]]
                assert found[name][i, k] == pytest.approx(told, rel=1e-5, abs=1e-6)


def test_times_are_the_models_own_and_end_with_the_duty(heron):
    found = heron.heat.over({"speed": ["80 km/h", "100 km/h"]}, stop="50 km/h",
                            times=np.arange(0, 12, 0.5), out=["speed", "heat.duration"])  # fmt: skip
    for speed, ended in zip(found["speed"], found["heat.duration"]):
        assert np.isnan(speed[found["time"] > ended]).all()
        assert not np.isnan(speed[found["time"] <= ended]).any()
    assert found["speed"][1, 0] == 100 / 3.6
    assert list(found.units.items())[:2] == [("speed", "m/s"), ("heat.duration", "s")]


def test_numbers_of_every_kind_of_duty_may_be_axes(heron):
    snubs = (3, "80 km/h", "40 km/h", "40 s", "3 m/s2")
    cycle = ([0, 10, 60], [20, 10, 10], [0, -0.08, 0])
    asked = [({"count": [1, 3], "interval": [40, 60]}, {"snubs": snubs}),
             ({"first_speed": ["60 km/h", "80 km/h"], "deceleration": [3.0]}, {"snubs": snubs}),
             ({"pedal_force": [200, 300]}, {"stop": "80 km/h"}),
             ({"length": ["300 m", "600 m"], "engine": [0.0, 0.5]}, DESCENT),
             ({"cool": ["1 min", "2 min"], "cool_speed": [0, 10]}, {"cycle": cycle}),
             ({"cool": [60, 120]}, {"snubs": "un.13.fade"})]  # fmt: skip
    for axes, duty in asked:
        found = heron.heat.over(axes, out=["heat.front_fluid", "heat.front_face_last"], **duty)
        assert not found.notes.any() and not np.isnan(found["heat.front_face_last"]).any()
        assert len(np.unique(found["heat.front_fluid"])) > 1, f"{axes} moves nothing"
    held = heron.heat.over({"pedal_force": [300.0]}, stop="80 km/h", out="heat.front_face")
    assert held["heat.front_face"][0] == heron.heat(stop=("80 km/h", "300 N")).heat.front_face
    many = heron.heat.over({"count": [3]}, snubs=snubs, out="heat.front_energy")
    assert many["heat.front_energy"][0] == heron.heat(snubs=snubs).heat.front_energy


def test_the_most_that_a_driver_gives_follows_its_line(heron):
    most = "driver.pedal_force_most"
    found = heron.heat.over({most: [300.0, 500.0]}, out="heat.pedal_force_most", stop="120 km/h")
    for at, force in enumerate(found[most]):
        other = heron.copy()
        other.driver.pedal_force_most = float(force)
        one = other.heat(stop="120 km/h").heat.pedal_force_most
        assert found["heat.pedal_force_most"][at] == one


def test_what_cannot_be_is_nan_and_told(heron):
    axes = {"front.disc.pads.inner_radius": [0.1, 0.16, 9.0], FALL: [0.05, 0.7]}
    found = heron.heat.over(axes, out=["heat.front_face", "speed"], times=[1.0], **DESCENT)
    assert (found.notes == "").tolist() == [[True, False], [False, False], [False, False]]
    assert found.notes[0, 1] == found.refusal(0, 1)
    assert "fall must be 0 to 50 %" in found.notes[0, 1]
    assert "it must be larger" in found.refusal(1, 0) and "accepts 0.03 to" in found.refusal(-1, 0)
    refused = found.notes != ""
    assert (np.isnan(found["heat.front_face"]) == refused).all()
    assert (np.isnan(found["speed"][..., 0]) == refused).all()
    bare = libbrake.loads("\n".join(line for line in heron.to_text().split("\n")
                                    if not line.startswith("rotor_mass")))  # fmt: skip
    lacks = bare.heat.over({FALL: [0.05]}, out="heat.front_face", **DESCENT)
    assert "heat cannot be said without front.disc.rotor_mass" in lacks.notes[0]


@pytest.mark.parametrize(
    "axes, more, kind, words",
    [
        ({}, {}, ValueError, "axes: got none"),
        ({"grade": [0.1]}, {}, ValueError, "grade: is no line and no number of descent; .*fall"),
        ({"count": [1]}, {}, ValueError, "count: is no line and no number of descent"),
        ({FALL: []}, {}, ValueError, "fall: got"),
        ({FALL: ["8 m"]}, {}, errors.RefusedUnit, "fall"),
        ({FALL: [0.1]}, {"out": "front_face"}, ValueError, "times: got none"),
        ({FALL: [0.1]}, {"out": "heat.front_fase"}, errors.RefusedUnknown, "did you mean"),
        ({FALL: [0.1]}, {"out": "time"}, errors.RefusedUnknown, "no column"),
        ({FALL: [0.1]}, {"times": [2.0, 1.0]}, errors.RefusedRange, "must rise"),
        ({FALL: [0.1]}, {"threads": 0}, ValueError, "threads"),
        ({"pedal.ratioo": [4.0]}, {}, errors.RefusedUnknown, "pedal.ratio"),
        ({"pedal.ratio": [400.0]}, {}, errors.RefusedRange, "pedal.ratio"),
    ],
)
def test_a_wrong_question_is_refused_in_words(heron, axes, more, kind, words):
    with pytest.raises(kind, match=words):
        heron.heat.over(axes, **DESCENT, **more)


def test_a_count_is_whole(heron):
    with pytest.raises(errors.RefusedRange, match="whole numbers"):
        heron.heat.over({"count": [1.5]}, snubs=(3, 20, 10, 40, 3))


def test_a_published_sequence_has_no_numbers_to_set_and_follows_the_top_speed(heron):
    with pytest.raises(ValueError, match="first_speed: .* no number of snubs"):
        heron.heat.over({"first_speed": [20]}, snubs="us.135.fade")
    with pytest.raises(ValueError, match="vehicle.top_speed"):
        heron.heat.over({"vehicle.top_speed": [40, 50]}, snubs="us.135.fade")


@settings(max_examples=6, deadline=None)
@given(st.lists(st.floats(0.02, 0.2), min_size=1, max_size=5, unique=True), st.integers(1, 4))
def test_any_axis_of_any_kind_and_number_of_threads_is_the_same(falls, threads):
    pandas, xarray = pytest.importorskip("pandas"), pytest.importorskip("xarray")
    vehicle = libbrake.load(ROOT / "examples" / "heron.ini")

    def ask(values, **more):
        return vehicle.heat.over({FALL: values}, descent=(0.1, 200.0, 10.0), cool=0.0,
                                 out=["heat.front_face", "front_fluid"], times=(0, 5), **more)  # fmt: skip

    plain = ask(falls, threads=1)
    series = pandas.Series(falls, index=range(10, 10 + len(falls)))
    for same in (tuple(falls), np.array(falls), series, pandas.Index(falls), (x for x in falls),
                 xarray.DataArray(falls, dims=["x"]), dict.fromkeys(falls).keys()):  # fmt: skip
        found = ask(same, threads=threads)
        for name in plain:
            assert np.array_equal(found[name], plain[name]), name


def test_a_dataset_has_time_and_is_looked_up_by_it(heron):
    pytest.importorskip("xarray")
    found = heron.heat.over({FALL: [0.05, 0.08]}, times=[0, 30, 60], **DESCENT)
    data = found.to_xarray()
    assert data["front_fluid"].dims == (FALL, "time") and data["heat.front_face"].dims == (FALL,)
    assert data.front_fluid.sel(time=30, fall=0.08) == found["front_fluid"][1, 1]
    assert data["front_fluid"].attrs["units"] == "K" and data["fall"].attrs["units"] == "1"
    assert "fluid" in data["front_fluid"].attrs["long_name"]
    assert data.attrs["vehicle"] == heron.digest() and "inspector" in data.attrs["caution"]
    assert len(found) == 1 + 33 + 21 + 1, "an axis, the results of heat, the columns, time"


def test_a_frame_has_a_row_a_time(heron):
    pytest.importorskip("pandas")
    found = heron.heat.over({FALL: [0.05, 0.08]}, out=OUT[:3], times=[0, 30], **DESCENT)
    frame = found.to_pandas()
    assert frame.index.names == [FALL, "time"] and len(frame) == 4
    assert frame.loc[(0.08, 30), "front_face"] == found["front_face"][1, 1]
    assert list(frame["heat.front_face"]) == list(np.repeat(found["heat.front_face"], 2))
    assert pickle.loads(pickle.dumps(found)).refusal(0) == ""


def test_it_needs_no_numpy(python):
    script = (
        "import libbrake\n"
        "v = libbrake.load('examples/heron.ini')\n"
        "t = v.heat.over({'fall': [0.05, 0.7], 'pedal.ratio': [4.0, 99.0, 4.1]}, cool=0.0,\n"
        "                descent=(0.1, 200.0, 10.0), times=[0, 5],\n"
        "                out=['heat.front_face', 'speed', 'distance'])\n"
        "print(*t['heat.front_face'], *t['distance'], *[bool(n) for n in t.notes])\n"
    )
    flat = [word for word in python(script, blocked=["numpy"]).split()]
    whole = python(script.replace("*t['heat.front_face']", "*t['heat.front_face'].ravel()")
                   .replace("*t['distance']", "*t['distance'].ravel()")
                   .replace("t.notes", "t.notes.ravel()")).split()  # fmt: skip
    assert flat == whole and flat.count("nan") == 4 * 3 and flat.count("True") == 4


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no fork")
def test_a_forked_child_runs_it_after_its_parent_did(python):
    python(
        "import concurrent.futures as f, multiprocessing as m, libbrake\n"
        "v = libbrake.load('examples/heron.ini')\n"
        "def job(fall):\n"
        "    t = v.heat.over({'fall': [fall]}, descent=(0.1, 200.0, 10.0), cool=0.0,\n"
        "                    out='heat.front_face', threads=2)\n"
        "    return float(t['heat.front_face'][0])\n"
        "here = [job(0.05), job(0.1)]\n"
        "with f.ProcessPoolExecutor(2, mp_context=m.get_context('fork')) as pool:\n"
        "    assert list(pool.map(job, [0.05, 0.1], timeout=60)) == here\n"
    )


def test_progress_is_told_and_ends_it(heron):
    told = []
    heron.heat.over({FALL: np.linspace(0.02, 0.1, 40)}, descent=(0.1, 200.0, 10.0), cool=0.0,
                    out="heat.front_face", threads=1, progress=lambda *at: told.append(at))  # fmt: skip
    assert told[-1] == (40.0, 40.0) and all(math.isfinite(done) for done, _ in told)

    def end(done, total):
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        heron.heat.over({FALL: np.linspace(0.02, 0.1, 400)}, descent=(0.1, 2000.0, 10.0),
                        out="heat.front_face", threads=1, progress=end)  # fmt: skip
