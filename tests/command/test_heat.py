# SPDX-License-Identifier: MIT
"""`stopmargin heat` as a user meets it: the duties, what is printed, exit status."""
import csv
import json
import re

import pytest

from file import plain

CAUTION = (
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a"
    " qualified inspector before the vehicle is driven on the road."
)
HERON = str(plain.ROOT / "examples" / "heron.ini")
SNUBS = ("--snubs", "20,120km/h,60km/h,45s,3m/s2")
DESCENT = ("--descent", "12%,6km,50km/h")
STOP = ("--stop", "100km/h")
DUTIES = pytest.mark.parametrize("duty", [SNUBS, DESCENT, STOP], ids=lambda duty: duty[0][2:])
# What heat needs beside plain.VEHICLE.
LINES = (
    "[front.disc] rotor_mass = 5 kg",
    "[rear.drum] drum_mass = 5 kg",
    "[rear.drum] width = 45 mm",
)


def heat(*options, file=HERON):
    done = plain.run("heat", file, *options)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def results(*options, file=HERON):
    status, text, _ = heat(*options, "--json", file=file)
    assert status in (0, 1), text
    return json.loads(text)["results"]


def rows(*options, file=HERON):
    status, text, _ = heat(*options, "--csv", file=file)
    assert status in (0, 1)
    return list(csv.DictReader(text.splitlines()[1:]))


def words(text):
    return " ".join(text.split())


def vehicle(tmp_path, *changes, text=None):
    path = tmp_path / "vehicle.ini"
    path.write_text(plain.changed(*(LINES if text is None else ()), *changes))
    return str(path)


# ---- the commands of the manual ------------------------------------------------------------------


def test_a_descent_as_json():
    status, text, _ = heat(*DESCENT, "--json")
    report = json.loads(text)
    found = report["results"]
    assert status == 1  # parked below, the fluid boils
    assert report["caution"] == CAUTION
    assert {"libbrake", "vehicle", "results", "warnings", "summary"} <= report.keys()
    assert 0 <= found["heat.energy_residual"]["value"] <= 1e-9
    for axle in ("front", "rear"):
        for part in ("rotor", "pad", "fluid"):
            peak = found[f"heat.{axle}_{part}"]
            final = found[f"heat.{axle}_{part}_last"]
            assert peak["unit"] == final["unit"] == "K"
            assert 308.15 <= final["value"] <= peak["value"] < 1500
    hottest = max(found[f"heat.{axle}_fluid"]["value"] for axle in ("front", "rear"))
    margin = found["heat.fluid_margin"]
    assert margin["unit"] == "K"
    # DOT 4, wet: 155 degC (FMVSS 116)
    assert margin["value"] == pytest.approx(155 + 273.15 - hottest, abs=1e-9)
    # the height of the hill, 2440 kg, less what 1.25 m2 of drag and the tyres' rolling, 0.012 by
    # default, take
    height = 6000 * 0.12 / (1 + 0.12**2) ** 0.5
    air = 0.5 * 101325 / (287.05 * 308.15) * 1.25 * (50 / 3.6) ** 2 * 6000
    energy = sum(found[f"heat.{axle}_energy"]["value"] for axle in ("front", "rear"))
    rolling = 0.012 * 2440 * 9.80665 * 6000 / (1 + 0.12**2) ** 0.5
    assert energy == pytest.approx(2440 * 9.80665 * height - air - rolling, rel=1e-6)


def test_fluid_that_boils_on_a_long_descent_boils_before_its_end():
    """Pistons and fluid are hot long before the caliper is."""
    table = rows("--descent", "12%,12km,50km/h")
    bottom = 12e3 / (50 / 3.6)
    first = min(float(row["time [s]"]) for row in table if float(row["front fluid [degC]"]) > 155)
    # As one lump with the caliper before the fluid, it passed that 48 s after the bottom.
    assert first < bottom - 60


def test_snubs_as_csv():
    status, text, error = heat(*SNUBS, "--csv")
    lines = text.splitlines()
    assert status == 1  # parked after them, the fluid boils
    assert lines.pop(0) == f"# {CAUTION}"
    head = lines[0].split(",")
    assert head[:3] == ["time [s]", "distance [m]", "speed [km/h]"]
    assert all(re.fullmatch(r"[a-z ]+ \[[^\]]+\]", name) for name in head)
    table = [[float(cell) for cell in line.split(",")] for line in lines[1:]]
    times = [row[0] for row in table]
    assert times[0] == 0 and all(b > a for a, b in zip(times, times[1:]))
    assert max(row[2] for row in table) == 120
    assert min(row[2] for row in table if row[0] < 630) == pytest.approx(60, abs=1e-3)
    # held at 3 m/s2 once the foot is down: 0.28 s of build-up
    assert [row[3] for row in table if row[4] > 0][4:9] == pytest.approx([3] * 5, abs=1e-3)


def test_rows_are_no_closer_than_promised():
    for options, least in ((SNUBS, 0.0), (DESCENT, 0.99), (STOP, 0.0)):
        times = [float(row["time [s]"]) for row in rows(*options)]
        steps = [b - a for a, b in zip(times, times[1:])]
        assert max(steps) <= 1.001
        assert min(steps[:-1]) >= least
    times = [float(row["time [s]"]) for row in rows(*STOP)]
    assert len(times) <= 10 * times[-1] + 2


def test_a_stop_in_words():
    status, text, error = heat(*STOP)
    assert (status, error) == (0, "")
    assert re.search(r"distance of the last stop +[\d.]+ m \([\d.]+ ft\)", text)
    assert re.search(
        r"mean fully developed deceleration +[\d.]+ m/s2 \([\d.]+ ft/s2, [\d.]+ g\)", text
    )
    assert re.search(r"pedal force, first +[\d.]+ N", text)
    assert re.search(
        r"rise of rotor or drum +[\d.]+ K +[\d.]+ K\n +[\d.]+ degF rise +[\d.]+ degF rise\n", text
    )


# ---- what all have -------------------------------------------------------------------------------


@DUTIES
def test_text_has_80_columns_and_the_caution_at_both_ends(duty):
    _, text, _ = heat(*duty)
    assert max(map(len, text.splitlines())) <= 80
    assert all(line == line.rstrip() for line in text.splitlines())
    assert words(text).count(CAUTION) == 1
    assert re.match("Heron \\(invented\\), after refit\nCAUTION: .*\nVerdict", text)
    assert "Rubbed face over time" in text and "F" in text
    assert text.isascii()


@DUTIES
def test_both_load_cases_can_be_asked(duty):
    full = results(*duty)["heat.front_energy"]["value"]
    assert results(*duty, "--load", "full")["heat.front_energy"]["value"] == full
    assert results(*duty, "--load=empty")["heat.front_energy"]["value"] < full


def test_warnings_hold_their_numbers():
    status, text, _ = heat("--descent", "12%,12km,50km/h", "--json")
    warnings = {w["id"]: w["text"] for w in json.loads(text)["warnings"]}
    assert status == 1
    assert {"heat.fluid_boils", "heat.iron_transforms"} <= warnings.keys()
    assert all(re.search(r"\d", text) for text in warnings.values())


def test_more_rotor_stays_cooler():
    small, large = (
        results(*SNUBS, "--set", f"front.disc.rotor_mass={mass} kg")["heat.front_face"]
        for mass in (6, 9)
    )
    assert large["value"] < small["value"] - 20


def test_cooling_down_can_be_chosen():
    none, still, moving = (
        results(*DESCENT, "--cool", time)["heat.front_fluid"]["value"]
        for time in ("0s", "30min", "30min,60km/h")
    )
    assert none < moving < still
    assert still == results(*DESCENT)["heat.front_fluid"]["value"]


def test_a_stop_at_a_pedal_force():
    weak, strong = (
        results("--stop", f"80km/h,{force}")["heat.distance"]["value"]
        for force in ("100N", "200 N")
    )
    assert weak > strong


def test_the_engine_takes_its_share():
    found = [
        sum(
            results("--descent", text)[f"heat.{axle}_energy"]["value"] for axle in ("front", "rear")
        )
        for text in ("8%,6km,50km/h", "8 %, 6000 m, 50 km/h, 40%")
    ]
    assert found[1] == pytest.approx(0.6 * found[0], rel=1e-6)


@pytest.mark.parametrize("sequence", ["us.135.fade", "un.13h.fade"])
def test_a_published_sequence_follows_the_top_speed(sequence):
    table = rows("--snubs", sequence)
    assert float(table[0]["speed [km/h]"]) == pytest.approx(0.8 * 130)  # of heron.ini
    assert "check against the current text" in words(heat("--snubs", sequence)[1])


def test_a_drive_from_a_file(tmp_path):
    drive = tmp_path / "drive.csv"
    drive.write_text("time [min],speed [km/h],grade [%]\n0,50,-12\n7.2,50,0\n")
    told = results(*DESCENT)["heat.front_face_last"]["value"]
    written = results("--cycle", str(drive))["heat.front_face_last"]["value"]
    assert written == pytest.approx(told, abs=0.5)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "the file is empty; a drive begins with a header such as"),
        ("speed [km/h],time [s],grade [%]\n", "two rows"),
        ("speed [km/h],grade [%]\n0,0\n", "time: no such column"),
        ("time [s],speed [km/h],grade [%]\n0,50\n", "has 2 cells, the header has 3"),
        ("time [s],speed [km/h],grade [%]\n0,fast,0\n", "speed"),
        ("time [s],speed [kg],grade [%]\n0,50,0\n", "speed"),
        (
            "time [s],speed [km/h],grade [%]\n0,50,0\n0,50,1\n",
            "drive.csv:3: time: 0 s stands in line 2 too",
        ),
        ("time [s],speed [km/h],grade [%]\n0,50,0,1\n", "has 4 cells, the header has 3"),
    ],
)
def test_a_wrong_drive_is_refused(tmp_path, text, message):
    drive = tmp_path / "drive.csv"
    drive.write_text(text)
    status, out, error = heat("--cycle", str(drive))
    assert (status, out) == (2, "")
    assert message in error


HEAD = b"time [s],speed [km/h],grade [%]\n"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (HEAD + b"0,50,0\n9,5\x000,0\n", ":3: a NUL byte in cell 2"),
        (HEAD + b"0,50,0\n9,5" + 70 * b" " + b"0,0\n", ":3: speed: got '5   "),
        (HEAD + b"0,50,0\n9,5" + 1000 * b"0" + b",0\n", ":3: cell 2 is longer than 1000 bytes"),
        (HEAD + b"0,50,0\n9,50,0" + 2**20 * b" " + b"\n", ":3: is longer than 1048576 bytes"),
    ],
    ids=["NUL", "number", "cell", "line"],
)
def test_what_a_drive_holds_is_never_dropped(tmp_path, text, message):
    drive = tmp_path / "drive.csv"
    drive.write_bytes(text)
    status, out, error = heat("--cycle", str(drive))
    assert (status, out) == (2, "")
    assert f"{drive}{message}" in error


def test_a_drive_that_cannot_be_read_is_told():
    status, out, error = heat("--cycle", ".")
    assert (status, out) == (2, "")
    assert error == ".: cannot be read: Is a directory\n"


def test_a_drive_without_a_grade_is_level_and_says_so(tmp_path):
    """Given a log that drivelog reads, heat takes it: what it has no use for is told."""
    level, log = tmp_path / "level.csv", tmp_path / "log.csv"
    level.write_text("time [s],speed [km/h],grade [%]\n0,80,0\n20,0,0\n")
    log.write_text("Time,Speed (mph),pedal_force [N]\n0,49.7097,5\n20,0,9\n")
    level_road = ("--set", "vehicle.rolling_resistance=0")
    told = results("--cycle", str(level), *level_road)
    found = results("--cycle", str(log), "--columns", "time=s", *level_road)
    for name, one in told.items():
        assert found[name]["value"] == pytest.approx(one["value"], rel=1e-5), name
    _, text, _ = heat("--cycle", str(log), "--columns=time=s")
    assert "on a level road: the file has no grade" in words(text)
    assert "line 1: column 'pedal_force [N]' is not known and left aside" in words(text)


def test_a_drive_as_a_spreadsheet_saves_it_is_taken(tmp_path):
    """Given a byte order mark and line ends of two bytes, the drive is the same."""
    drive = tmp_path / "drive.csv"
    text = HEAD + b"0,50,-8\n430,50,0\n"
    drive.write_bytes(text)
    told = heat("--cycle", str(drive))
    drive.write_bytes(b"\xef\xbb\xbf" + text.replace(b"\n", b"\r\n"))
    assert heat("--cycle", str(drive)) == told


# ---- refusals and what cannot be said ------------------------------------------------------------


@pytest.mark.parametrize(
    ("options", "message"),
    [
        ((), "--stop, --snubs, --descent, --cycle or --cooldown"),
        (("--stop",), "number is wanted"),
        (("--stop", "100"), "has no unit"),
        (("--stop", "100kg"), "a speed is wanted"),
        (("--stop", "fast"), "number is wanted"),
        (("--stop", "100km/h,5km"), "a force is wanted"),
        (("--stop", "100km/h,500N,1"), "more than 2 values"),
        (("--stop", "0km/h"), "first speed"),
        (("--snubs", "15,120km/h"), "lacks its second speed"),
        (("--snubs", "15,60km/h,120km/h,45s,3m/s2"), "lower than the first"),
        (("--snubs", "1.5,120km/h,60km/h,45s,3m/s2"), "whole numbers"),
        (("--snubs", "15,120km/h,60km/h,0s,3m/s2"), "need an interval"),
        (("--snubs", "15,120km/h,60km/h,5s,3m/s2"), "too short"),
        (("--snubs", "us.135.faed"), "number is wanted"),
        (("--descent", "8%,6km"), "lacks its speed"),
        (("--descent", "80%,6km,50km/h"), "0 to 50 %"),
        (("--descent", "8%,6km,50km/h,120%"), "0 to 100 %"),
        (("--cycle", "/nonexistent.csv"), "cannot be opened"),
        (("--stop", "100km/h", "--descent", "8%,6km,50km/h"), "one duty at a time"),
        (("--stop", "100km/h", "--load", "half"), "empty, full"),
        (("--stop", "100km/h", "--cool", "-1s"), "0 s to 24 h"),
        (("--stop", "100km/h", "--columns", "time=s"), "--columns is for the table of --cycle"),
        (("--stop", "100km/h", "--json", "--csv"), "one of"),
        (("--stop", "100km/h", "--fast"), "unknown option"),
        (("--stop", "100km/h", "other.ini"), "one file at a time"),
        (("--stop", "100km/h", "--set", "heat.fluid=water"), "DOT3, DOT4"),
    ],
)
def test_wrong_words_are_refused(options, message):
    status, out, error = heat(*options)
    assert (status, out) == (2, "")
    assert message in error


def test_what_is_missing_is_told(tmp_path):
    path = tmp_path / "plain.ini"
    path.write_text(plain.VEHICLE)
    status, out, error = heat(*STOP, file=str(path))
    assert (status, out) == (3, "")
    assert (
        "heat cannot be said without front.disc.rotor_mass, rear.drum.drum_mass, rear.drum.width"
        in error
    )


def test_defaults_are_enough_beside_masses_and_width(tmp_path):
    file = vehicle(tmp_path)
    status, _, error = heat(*STOP, file=file)
    assert (status, error) == (0, "")


def test_a_deceleration_that_cannot_be_held_ends_with_1(tmp_path):
    file = vehicle(tmp_path, "[driver] pedal_force_most = 60 N")
    status, text, _ = heat(*SNUBS, "--json", file=file)
    report = json.loads(text)
    assert status == 1
    assert report["summary"]["held"] is False
    assert report["results"]["heat.shortfall"]["value"] > 0.1
    assert "heat.not_held" in [w["id"] for w in report["warnings"]]


def test_a_stop_that_does_not_end_is_told():
    status, text, _ = heat("--stop", "60km/h,1N", "--set", "vehicle.rolling_resistance=0")
    assert status == 1
    assert "FALLS SHORT" in text and "not slowed to 0 km/h" in text
