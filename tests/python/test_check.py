# SPDX-License-Identifier: MIT
"""What a vehicle says in Python is what the command says."""
import json
import math
import os
import pathlib
import pickle
import subprocess

import pytest

import libbrake
from file import plain
from libbrake import _core

ROOT = pathlib.Path(__file__).resolve().parents[2]
COMMAND = os.environ.get("STOPMARGIN", str(ROOT / "build" / "stopmargin"))
VEHICLES = sorted((ROOT / "examples").glob("*.ini"))
beside_the_command = pytest.mark.skipif(not os.path.exists(COMMAND), reason="no command built")


def said(*words):
    """Output of the command; 0, 1 and 3 are answers."""
    run = subprocess.run([COMMAND, *map(str, words)], text=True, stdout=subprocess.PIPE)
    assert run.returncode in (0, 1, 3)
    return run.stdout


@beside_the_command
@pytest.mark.parametrize("rules", ["us", "un", "eu", "all"])
@pytest.mark.parametrize("path", VEHICLES, ids=lambda path: path.stem)
def test_a_check_is_that_of_the_command(path, rules):
    found = libbrake.load(path).check(rules)
    assert found.to_dict() == json.loads(said("check", path, "--rules", rules, "--json"))
    assert str(found) == said("check", path, "--full", "--rules", rules)


def test_every_result_has_its_meaning_unit_symbol_and_section(heron):
    names = [*heron.check().to_dict()["results"], *heron.heat(stop="50 km/h").to_dict()["results"]]
    assert all(libbrake.explain(name).meaning.endswith(".") for name in names)
    share = libbrake.explain("fade.hot_share")
    # It stands by itself: "That over the cold stop's." told nobody what.
    words = "Mean fully developed deceleration of the first hot stop over that of the cold stop."
    assert share == {"meaning": words, "unit": "", "symbol": "", "section": 8}
    assert libbrake.explain("full.mass.total").symbol == "m"
    with pytest.raises(ValueError, match="no result 'mass.totl'"):
        libbrake.explain("mass.totl")


@beside_the_command
def test_a_line_that_is_set_is_that_of_the_command(heron):
    heron.front.tyre.rollout = 2.52
    command = said(
        "check", ROOT / "examples/heron.ini", "--set", "front.tyre.rollout=2.52 m", "--json"
    )
    assert heron.check().to_dict() == json.loads(command)


DUTIES = [
    ({"stop": "100 km/h"}, ["--stop", "100km/h"]),
    ({"stop": ("100 km/h", "400 N")}, ["--stop", "100km/h,400N"]),
    ({"snubs": (3, "120 km/h", "60 km/h", "45 s", "3 m/s2")},
     ["--snubs", "3,120km/h,60km/h,45s,3m/s2"]),
    ({"snubs": "un.13.fade"}, ["--snubs", "un.13.fade"]),
    ({"descent": ("8 %", "6 km", "50 km/h"), "cool": ("2 min", "30 km/h")},
     ["--descent", "8%,6km,50km/h", "--cool", "2min,30km/h"]),
    ({"descent": (0.08, 2000.0, "50 km/h", 0.2), "load": "empty"},
     ["--descent", "0.08,2000m,50km/h,0.2", "--load", "empty"]),
]  # fmt: skip


@beside_the_command
@pytest.mark.parametrize("duty, words", DUTIES, ids=lambda one: str(one)[:24])
def test_heat_is_that_of_the_command(heron, duty, words):
    found = heron.heat(**duty)
    assert found.to_dict() == json.loads(
        said("heat", ROOT / "examples/heron.ini", *words, "--json")
    )


@beside_the_command
def test_the_history_is_that_of_the_command(heron):
    caution, _, *rows = said(
        "heat", ROOT / "examples/heron.ini", "--stop", "100km/h", "--csv"
    ).splitlines()
    assert caution.startswith("# ") and "qualified inspector" in caution
    told = [float(row.split(",")[0]) for row in rows]
    assert list(heron.heat(stop="100 km/h").history["time"]) == told


@beside_the_command
def test_a_drive_is_that_of_the_command(heron, tmp_path):
    drive = tmp_path / "drive.csv"
    drive.write_text("time [s],speed [m/s],grade\n0,20,0\n10,5,-0.05\n60,20,0\n")
    found = heron.heat(cycle=([0, 10, 60], [20, 5, 20], [0, -0.05, 0]))
    assert found.to_dict() == json.loads(
        said("heat", ROOT / "examples/heron.ini", "--cycle", drive, "--json")
    )


@pytest.mark.parametrize(
    "duty, words",
    [
        ({}, "no duty"),
        ({"stop": 20.0, "descent": (0.08, 100.0, 10.0)}, "one of"),
        ({"stop": "20 kg"}, "speed"),
        ({"stop": -3.0}, "speed"),
        ({"snubs": (1.5, 30.0, 10.0, 45.0, 3.0)}, "whole"),
        ({"snubs": (math.nan, 30.0, 10.0, 45.0, 3.0)}, "whole"),
        ({"snubs": "no such sequence"}, "no such fade sequence"),
        ({"descent": (0.08, 100.0)}, "share of the engine"),
        ({"cycle": ([], [], [])}, "row"),
        ({"stop": 20.0, "load": "half"}, "accepts empty, full"),
    ],
)
def test_a_wrong_duty_is_refused_in_words(heron, duty, words):
    with pytest.raises(ValueError, match=words):
        heron.heat(**duty)


def test_heat_that_cannot_be_said_names_the_line(heron):
    text = (ROOT / "examples/heron.ini").read_text()
    bare = "\n".join(line for line in text.splitlines() if not line.startswith("rotor_mass"))
    with pytest.raises(libbrake.errors.RefusedMissing, match="front.disc.rotor_mass"):
        libbrake.loads(bare).heat(stop=20.0)


def test_every_result_is_an_attribute(heron):
    found = heron.check()
    values = found.to_dict()["results"]
    rows = [row for row in json.loads(_core.catalogue_json())["results"] if row["evaluated"]]
    assert len(rows) == len(values)
    for row in rows:
        at = found
        for name in row["path"].split("."):
            at = getattr(at, name)
        value = values[row["path"]]["value"]
        # JSON keeps all but the last bit.
        assert math.isnan(at) if value is None else at == pytest.approx(value, rel=3e-16)


def test_criteria_and_warnings_have_names(heron):
    found = heron.check()
    assert {c.verdict for c in found.criteria} <= {"meets", "falls short", "cannot say"}
    assert all(w.id and w.text for w in found.warnings)
    assert pickle.loads(pickle.dumps(found)) == found
    with pytest.raises(ValueError, match=plain.ACCEPTED):
        heron.check("mars")


def test_history_goes_into_a_data_frame(heron):
    pandas = pytest.importorskip("pandas")
    history = heron.heat(stop="100 km/h").history
    frame = history.to_pandas()
    assert isinstance(frame, pandas.DataFrame) and list(frame) == list(history)
    assert frame["speed"].iloc[0] == pytest.approx(100 / 3.6)
    assert history.units["speed"] == "m/s"


def test_history_goes_into_a_dataset(heron):
    pytest.importorskip("xarray")
    data = heron.heat(stop="100 km/h").history.to_xarray()
    assert data["front_face"].attrs["units"] == "K" and "inspector" in data.attrs["caution"]
    assert float(data["speed"].sel(time=0.0, method="nearest")) == pytest.approx(100 / 3.6, abs=0.1)
