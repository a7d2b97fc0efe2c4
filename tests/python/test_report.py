# SPDX-License-Identifier: MIT
"""The report for inspection from Python is that of the command, byte for byte."""
import datetime
import os
import pathlib
import pickle
import re
import subprocess

import pytest

import libbrake
from file import plain
from libbrake import errors

ROOT = pathlib.Path(__file__).resolve().parents[2]
HERON, BEFORE, DRIVE = (
    str(ROOT / "examples" / name) for name in ("heron.ini", "heron-before.ini", "heron-drive.csv")
)
COMMAND = os.environ.get("STOPMARGIN", str(ROOT / "build" / "stopmargin"))
beside_the_command = pytest.mark.skipif(not os.path.exists(COMMAND), reason="no command built")


def said(*words):
    """Output of the command on the second of January 1970; 0, 1 and 3 are answers."""
    run = subprocess.run([COMMAND, "report", *words], text=True, stdout=subprocess.PIPE,
                         env={**os.environ, "SOURCE_DATE_EPOCH": "86400"})  # fmt: skip
    assert run.returncode in (0, 1, 3)
    return run.stdout


@beside_the_command
@pytest.mark.parametrize(
    "given, words",
    [
        ({}, []),
        ({"load": "empty", "rules": "us"}, ["--load", "empty", "--rules", "us"]),
        ({"rules": "un", "drivelog": DRIVE, "driven": "full"},
         ["--rules", "un", "--drivelog", DRIVE, "--driven", "full"]),
        ({"before": BEFORE, "drivelog": DRIVE, "columns": "time=s"},
         ["--before", BEFORE, "--drivelog", DRIVE, "--columns", "time=s"]),
    ],
    ids=["plain", "load", "drive", "before"],
)  # fmt: skip
def test_a_report_is_that_of_the_command(heron, given, words):
    given = dict(given)
    if "before" in given:
        given.update(before=libbrake.load(BEFORE), before_file=BEFORE)
    found = heron.report(date=datetime.date(1970, 1, 2), file=HERON, **given)
    assert found.html == said(HERON, "-o", "-", *words)
    assert found.text == str(found) == said(HERON, "--text", *words)


@beside_the_command
def test_a_vehicle_that_heat_cannot_be_said_of_is_reported_as_the_command_does(tmp_path):
    path = tmp_path / "new.ini"
    kept = [
        line
        for line in pathlib.Path(BEFORE).read_text().splitlines()
        if not line.startswith("rotor_mass")
    ]
    path.write_text("\n".join(kept))
    found = libbrake.load(path).report(date="1970-01-02", file=str(path))
    assert "Cannot be said" in found.text
    assert found.text == said(str(path), "--text")
    assert found.html == said(str(path), "-o", "-")


def test_what_is_left_out_is_today_and_no_name(heron):
    found = heron.report()
    assert re.search(rf"^  Date +{datetime.date.today()}$", found.text, re.MULTILINE)
    assert "Vehicle file" not in found.text and "Vehicle file" not in found.html
    assert pickle.loads(pickle.dumps(found)).html == found.html
    assert found.html.count("qualified inspector") >= 2


@pytest.mark.parametrize("date", ["", 19700102, 0.5, [1970, 1, 2]])
def test_what_is_no_date_is_refused(heron, date):
    with pytest.raises(TypeError, match="^date: got .*; accepts a date, its text, or None: today"):
        heron.report(date=date)


def test_the_drive_may_be_arrays(heron):
    time = [0.05 * i for i in range(200)]
    speed = [max(0.0, 20.0 - 4.0 * max(0.0, t - 1.0)) for t in time]
    found = heron.report(drivelog={"time": time, "speed": speed})
    assert "Drive log" not in found.text and "stop by stop" in found.text.lower()


@pytest.mark.parametrize(
    "given, kind, words",
    [
        ({"load": "half"}, ValueError, "load: got 'half'"),
        ({"driven": "half"}, ValueError, "driven: got 'half'"),
        ({"rules": "mars"}, ValueError, plain.ACCEPTED),
        ({"drivelog": {"time": [0.0, 1.0], "speed": [1.0, 1.0]}}, errors.RefusedMissing, "no stop"),
        ({"file": 3}, TypeError, "str"),
        ({"drivelog": "no-such.csv"}, FileNotFoundError, "no-such"),
    ],
)
def test_a_wrong_question_is_refused_in_words(heron, given, kind, words):
    with pytest.raises(kind, match=words):
        heron.report(**given)
