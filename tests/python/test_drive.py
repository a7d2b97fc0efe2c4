# SPDX-License-Identifier: MIT
"""The log of a drive from Python is that of the command; arrays are as good as a file."""
import csv
import json
import math
import os
import pathlib
import pickle
import subprocess

import pytest

import libbrake
from libbrake import errors

ROOT = pathlib.Path(__file__).resolve().parents[2]
HERON, DRIVE = ROOT / "examples/heron.ini", ROOT / "examples/heron-drive.csv"
COMMAND = os.environ.get("STOPMARGIN", str(ROOT / "build" / "stopmargin"))
beside_the_command = pytest.mark.skipif(not os.path.exists(COMMAND), reason="no command built")


def said(*words):
    """Output of the command; 0, 1 and 3 are answers."""
    run = subprocess.run([COMMAND, *map(str, words)], text=True, stdout=subprocess.PIPE)
    assert run.returncode in (0, 1, 3)
    return run.stdout


def columns():
    """The example as arrays, each under the name and unit of its column."""
    lines = [line for line in DRIVE.read_text().splitlines() if not line.startswith("#")]
    head, *rows = csv.reader(lines)
    return {name: [float(cell or "nan") for cell in column] for name, *column in zip(head, *rows)}


@beside_the_command
@pytest.mark.parametrize(
    "given, words",
    [
        ({}, []),
        ({"nominal": "60 km/h"}, ["--nominal", "60km/h"]),
        ({"nominal": [10.0, "80 km/h"]}, ["--nominal", "10m/s,80km/h"]),
        ({"load": "full"}, ["--load", "full"]),
        ({"grade": ("2 %", "0.5 %"), "lag": 0.2, "gauge": (0.98, 0.01)},
         ["--grade", "2%+-0.5%", "--lag", "0.2s", "--gauge", "0.98+-0.01"]),
    ],
)
def test_a_drive_is_that_of_the_command(heron, given, words):
    found = heron.drivelog(DRIVE, **given)
    assert found.to_dict() == json.loads(said("drivelog", HERON, DRIVE, "--json", *words))
    assert str(found) == said("drivelog", HERON, DRIVE, *words)
    assert "qualified inspector" in " ".join(str(found).split())


@beside_the_command
def test_units_that_a_header_lacks_are_given_apart(heron, tmp_path):
    path = tmp_path / "bare.csv"
    path.write_text("time,speed\n" + "".join(f"{i / 10},{max(0, 60 - 2 * i)}\n" for i in range(40)))
    units = "time=s,speed=km/h"
    found = heron.drivelog(path, columns=units)
    assert found.to_dict() == json.loads(
        said("drivelog", HERON, path, "--columns", units, "--json")
    )
    with pytest.raises(errors.RefusedUnit, match="has no unit"):
        heron.drivelog(path)


def test_arrays_give_what_their_file_gives_but_for_its_lines(heron):
    def without_lines(found):
        return [
            {k: v for k, v in one.items() if "line" not in k} for one in found.to_dict()["stops"]
        ]

    np = pytest.importorskip("numpy")
    of_file, arrays = heron.drivelog(DRIVE), columns()
    of_arrays = heron.drivelog({name: np.array(one) for name, one in arrays.items()})
    assert without_lines(of_arrays) == without_lines(of_file)
    assert of_arrays.results == of_file.results


def test_arrays_without_a_unit_are_si(heron):
    pandas = pytest.importorskip("pandas")
    time = [0.05 * i for i in range(200)]
    speed = [max(0.0, 20.0 - 4.0 * max(0.0, t - 1.0)) for t in time]
    stop = heron.drivelog(pandas.DataFrame({"time": time, "speed": speed})).stops[0]
    assert stop.initial_speed.value == pytest.approx(20.0, rel=1e-3)
    assert stop.developed_deceleration.value == pytest.approx(4.0, rel=1e-6)


def test_a_grade_of_arrays_is_a_share_and_a_heading_an_angle(heron):
    arrays = columns()
    rows = len(arrays["time [s]"])
    stop = heron.drivelog({**arrays, "grade": [0.02] * rows, "heading": [1.5] * rows}).stops[0]
    assert stop.grade == pytest.approx(0.02) and stop.heading == pytest.approx(1.5)


def test_a_day_of_measuring_that_cannot_be_is_refused(heron):
    with pytest.raises(ValueError, match="lag: got 2; accepts 0 to 1 s"):
        heron.drivelog(DRIVE, lag=2)


def test_stops_are_arrays_by_name_and_go_to_pandas(heron):
    pandas = pytest.importorskip("pandas")
    found = heron.drivelog(DRIVE)
    force, slowing = (found.stops.column(name) for name in ("pedal_force",
                                                            "developed_deceleration.value"))  # fmt: skip
    assert len(force) == len(slowing) == found.summary.stops > 1
    assert slowing[0] == found.stops[0].developed_deceleration.value
    assert all(math.isnan(one) for one in found.stops.column("no_such_name.value"))
    frame = found.stops.to_pandas()
    assert isinstance(frame, pandas.DataFrame)
    assert list(frame["developed_deceleration.value"]) == list(slowing)
    assert pickle.loads(pickle.dumps(found)) == found


TIME = [0.1 * i for i in range(20)]


@pytest.mark.parametrize(
    "log, kind, line, field, words",
    [
        ({"time": TIME}, errors.RefusedMissing, 1, "speed", "no such column"),
        ({"time": TIME, "speed": [9.0] * 20}, errors.RefusedMissing, 0, "", "no stop"),
        ({"time": TIME, "speed": [math.inf] * 20}, errors.RefusedSyntax, 2, "speed", "plain num"),
        ({"time": TIME, "speed": [900.0] * 20}, errors.RefusedRange, 2, "speed", "unit right"),
        ({"time": TIME[::-1], "speed": [9.0] * 20}, errors.RefusedConflict, 3, "time", "must rise"),
        ({"time": [0.0, 1.0, 2.0, 3.0, 4.0], "speed": [20.0, 20.0, 12.0, 4.0, 0.0]},
         errors.RefusedFit, 3, "", "too coarse"),
        ({"time": TIME, "speed [stone]": TIME}, errors.RefusedUnit, 1, "speed", "stone"),
    ],
)  # fmt: skip
def test_a_wrong_log_is_refused_with_line_field_and_text(heron, log, kind, line, field, words):
    with pytest.raises(kind, match=words) as caught:
        heron.drivelog(log)
    refusal = caught.value
    assert (refusal.line, refusal.field, refusal.file) == (line, field, "")
    assert words in refusal.text


def test_the_refusal_of_a_file_names_it(heron, tmp_path):
    path = tmp_path / "wrong.csv"
    path.write_text("time [s],speed [m/s]\n0,fast\n")
    with pytest.raises(errors.RefusedSyntax) as caught:
        heron.drivelog(path)
    assert caught.value.file == str(path) and str(caught.value).startswith(f"{path}:2: speed: got")


@pytest.mark.parametrize(
    "log, given, kind, words",
    [
        ({"time": [0.0, 1.0], "speed": [1.0]}, {}, ValueError, "do not go together"),
        ({"time": 1.0, "speed": 2.0}, {}, errors.RefusedMissing, "two rows"),
        ({}, {}, ValueError, "do not go together"),
        ({"time": TIME, "speed,x": TIME}, {}, ValueError, "accepts time, speed"),
        ({"time": TIME, "speed": ["fast"] * 20}, {}, TypeError, ""),
        (DRIVE, {"load": "half"}, ValueError, "load: got 'half'; accepts empty, full"),
        (DRIVE, {"nominal": "1 m/s"}, ValueError, "3.6 to 360"),
        (DRIVE, {"nominal": [20.0] * 17}, ValueError, "17 values"),
        (DRIVE, {"nominal": "20 kg"}, errors.RefusedUnit, "nominal"),
        (DRIVE, {"columns": "speed=stone"}, errors.RefusedUnit, "stone"),
        (DRIVE, {"columns": 3}, TypeError, ""),
        (ROOT / "no-such.csv", {}, FileNotFoundError, "no-such"),
    ],
)
def test_a_wrong_question_is_refused_in_words(heron, log, given, kind, words):
    with pytest.raises(kind, match=words):
        heron.drivelog(log, **given)


@beside_the_command
def test_the_drive_that_a_file_names_is_learned(tmp_path):
    """Given a file that names a log, when it is loaded, then its check says what the command says;
    a text has no folder, and learns when it is told to; a page carries the log."""
    path = tmp_path / "driven.ini"
    path.write_text(HERON.read_text() + "\n[drive]\nlog = drive.csv\n")
    (tmp_path / "drive.csv").write_bytes(DRIVE.read_bytes())
    told = json.loads(said("check", path, "--json"))["drive"]
    assert told["stops"] > 0
    assert libbrake.load(path).check().to_dict()["drive"] == told
    text = libbrake.loads(path.read_text())
    assert "was not read" in str(text.check())
    text.learn(tmp_path / "drive.csv")
    assert text.check().to_dict()["drive"] == told
    page = tmp_path / "driven.html"
    said("report", path, "-o", page)
    (tmp_path / "drive.csv").unlink()
    with pytest.raises(FileNotFoundError):
        libbrake.load(path)
    carried = libbrake.load(page).check().to_dict()["drive"]
    assert carried["ratio"] == pytest.approx(told["ratio"], rel=1e-9)
