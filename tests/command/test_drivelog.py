# SPDX-License-Identifier: MIT
"""`stopmargin drivelog` as a user meets it: what is measured, what it is held against, what is
refused."""
import json
import random

import pytest

from command import drives, heron_drive
from file import plain

CAUTION = (
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a"
    " qualified inspector before the vehicle is driven on the road."
)
HERON = str(plain.ROOT / "examples" / "heron.ini")
DRIVE = plain.ROOT / "examples" / "heron-drive.csv"
HEAD = "time [s],speed [km/h],pedal_force [N]\n"


def words(text):
    return " ".join(text.split())


@pytest.fixture(name="drivelog")
def _drivelog(tmp_path):
    """Runs the command on the text, or the bytes, of a log."""

    def run(log, *options, vehicle=HERON):
        path = tmp_path / "log.csv"
        path.write_bytes(log if isinstance(log, bytes) else log.encode())
        done = plain.run("drivelog", vehicle, str(path), *options)
        return done.returncode, done.stdout.decode(), done.stderr.decode().replace(str(path), "log")

    return run


@pytest.fixture(name="report")
def _report(drivelog):
    """The JSON of a log that is accepted, with the exit status."""

    def run(log, *options, vehicle=HERON):
        status, text, error = drivelog(log, "--json", *options, vehicle=vehicle)
        assert error == ""
        return json.loads(text, parse_constant=plain.refuse_constant) | {"status": status}

    return run


def within(figure, truth):
    return figure["p05"] <= truth <= figure["p95"]


# ---- the example ---------------------------------------------------------------------------------


def test_the_example_is_what_its_script_writes_and_says_that_it_is_invented():
    assert DRIVE.read_text() == heron_drive.log()
    assert DRIVE.read_text().startswith("# Invented")


def test_the_example_agrees_with_the_prediction():
    done = plain.run("drivelog", HERON, str(DRIVE))
    text = done.stdout.decode()
    assert (done.returncode, done.stderr) == (0, b"")
    assert words(text).count(CAUTION) == 1 and text.splitlines()[1].startswith("CAUTION: ")
    assert max(map(len, text.splitlines())) <= 80
    assert all(line == line.rstrip() for line in text.splitlines())
    assert "agrees with the prediction in 6 of 6 stops" in words(text)
    assert "That is not to say that the brakes are enough." in words(text)
    # made with 3 % less than predicted: heron_drive.py
    assert "0.97 times that of the file" in words(text)


def test_a_drive_that_agrees_does_not_hide_that_the_vehicle_falls_short():
    """Given a vehicle that check says falls short, and a drive that agrees with its file, then
    drivelog says it too, with the hazards that check counts but those of heat."""
    now = json.loads(plain.run("drivelog", HERON, str(DRIVE), "--json").stdout)["now"]["verdict"]
    check = json.loads(plain.run("check", HERON, "--json").stdout)["summary"]["verdict"]
    assert now == "falls short" and check.startswith("FALLS SHORT")
    text = words(plain.run("drivelog", HERON, str(DRIVE)).stdout.decode())
    assert "Now FALLS SHORT." in text and "(cold; hot: stopmargin check)" in text


def test_the_time_model_of_heat_agrees_with_the_closed_form(report):
    """Heat integrates the stop in time with thermal friction; the prediction is the closed form."""
    done = plain.run("heat", HERON, "--stop", "80km/h,150N", "--load", "empty", "--csv")
    found = report(done.stdout)
    stop = found["stops"][0]
    assert (found["status"], found["summary"]["agreement"]) == (0, "agrees")
    predicted = stop["predicted_deceleration"]["value"]
    assert stop["developed_deceleration"]["value"] == pytest.approx(predicted, rel=0.02)
    # its own column of the deceleration
    assert stop["indicated_deceleration"] == pytest.approx(
        stop["developed_deceleration"]["value"], rel=0.01
    )


# ---- known truth ---------------------------------------------------------------------------------


@pytest.mark.parametrize("pedal", [True, False], ids=["pedal", "speed-only"])
@pytest.mark.parametrize(
    ("rate", "noise", "speed", "deceleration"),
    [(1, 0.05, 30, 2), (2, 0.05, 27, 3), (5, 0.05, 22, 4), (10, 0.1, 22, 5), (50, 0.15, 22, 6)],
)
def test_the_truth_lies_in_nine_of_ten_intervals(
    report, rate, noise, speed, deceleration, pedal
):
    """100 stops of one log, each with noise of its own. The truth is the closed form of kinematics;
    without a pedal the distance from where the developed deceleration, carried on, begins: v^2/2a.
    """
    chance = random.Random(rate)
    stops = [
        drives.Stop(speed * chance.uniform(0.97, 1.03), deceleration * chance.uniform(0.9, 1.1))
        for _ in range(100)
    ]
    table = drives.rows(stops, rate, noise, seed=rate)
    found = report(drives.text(table, pedal), "--lag", "0s")["stops"]
    assert len(found) == 100 and all(stop["counts"] for stop in found)
    least, most = drives.quantile_checks(100)
    for figure, truth in (
        ("initial_speed", lambda stop: stop.speed),
        ("developed_deceleration", lambda stop: stop.deceleration),
        (
            "distance",
            lambda stop: stop.distance() if pedal else stop.speed**2 / 2 / stop.deceleration,
        ),
    ):
        hits = sum(within(one[figure], truth(stop)) for one, stop in zip(found, stops))
        # the moment of the foot within an interval is evenly spread, so its interval is wide
        assert least <= hits and (hits <= most or (figure == "distance" and pedal)), figure


def test_without_noise_the_published_definition_is_met(report):
    """d_m of a constant deceleration is that deceleration; s (v_n / v_0)^2 = 61.2 x (80/78)^2."""
    stop = drives.Stop(78 / 3.6, 4.0, force=140)
    found = report(drives.text(drives.rows([stop], 50)), "--lag", "0s")["stops"][0]
    assert found["developed_deceleration"]["value"] == pytest.approx(4.0, rel=2e-4)
    assert found["nominal_speed"] == pytest.approx(80 / 3.6)
    assert found["corrected_distance"]["value"] == pytest.approx(
        found["distance"]["value"] * (80 / 78) ** 2, rel=1e-3
    )
    assert found["distance"]["value"] == pytest.approx(stop.distance(), abs=78 / 3.6 * 0.02)
    assert found["pedal_force"] == pytest.approx(140)


def test_half_the_rate_makes_the_interval_wider(report):
    stop = [drives.Stop(22, 5)]
    halves = []
    for rate in (5, 10, 50):
        log = drives.text(drives.rows(stop, rate, 0.1))
        figure = report(log, "--lag", "0s")["stops"][0]["distance"]
        halves.append(figure["p95"] - figure["p05"])
    assert halves[0] > halves[1] > halves[2]


# ---- measured stopping distances of the open literature ------------------------------------------

# `cars` of R's package datasets: speed [mph], stopping distance [ft]; M. Ezekiel (1930), Methods of
# Correlation Analysis. Rows as in a public copy of the data set, which agree with memory.
CARS = [
    (4, 2), (4, 10), (7, 4), (7, 22), (8, 16), (9, 10), (10, 18), (10, 26), (10, 34), (11, 17),
    (11, 28), (12, 14), (12, 20), (12, 24), (12, 28), (13, 26), (13, 34), (13, 34), (13, 46),
    (14, 26), (14, 36), (14, 60), (14, 80), (15, 20), (15, 26), (15, 54), (16, 32), (16, 40),
    (17, 32), (17, 40), (17, 50), (18, 42), (18, 56), (18, 76), (18, 84), (19, 36), (19, 46),
    (19, 68), (20, 32), (20, 48), (20, 52), (20, 56), (20, 64), (22, 66), (23, 54), (24, 70),
    (24, 92), (24, 93), (24, 120), (25, 85),
]  # fmt: skip
MPH, FOOT = 0.44704, 0.3048


def test_stops_of_the_measured_distances_are_given_back(report):
    """Cars of the 1920s from 18 mph up, put into a log as what a constant deceleration over the
    measured distance would be: distance and deceleration come back, and the decelerations are those
    of brakes and drivers of the time, 1.2 to 8 m/s2."""
    cars = [(speed * MPH, dist * FOOT) for speed, dist in CARS if speed >= 18]
    stops = [drives.Stop(v, v * v / 2 / s, dead_time=0.0, build_up=1e-9) for v, s in cars]
    found = report(drives.text(drives.rows(stops, 50), pedal=False))["stops"]
    assert len(CARS) == 50 and len(found) == len(cars) == 19
    for one, (v, s) in zip(found, cars):
        assert one["distance"]["value"] == pytest.approx(s, rel=0.01)
        assert one["developed_deceleration"]["value"] == pytest.approx(v * v / 2 / s, rel=0.01)
        assert 1.2 < one["developed_deceleration"]["value"] < 8


# ---- against the prediction ----------------------------------------------------------------------


def made(share, count=4, noise=0.03):
    """Stops of Heron, empty, at a share of what is predicted (line of heron_drive.py)."""
    forces = [150 + 10 * i for i in range(count)]
    stops = [drives.Stop(22.2, share * heron_drive.predicted(f, 22.2), force=f) for f in forces]
    return drives.text(drives.rows(stops, 10, noise))


def test_brakes_that_do_less_than_the_file_says_are_not_to_be_driven(tmp_path):
    """Given stops at 0.7 of what is predicted, then the answer says what follows."""
    log = tmp_path / "less.csv"
    log.write_text(made(0.7))
    done = plain.run("drivelog", HERON, str(log))
    text = words(done.stdout.decode())
    assert done.returncode == 1 and "Verdict MEASURED BELOW the prediction" in text
    assert "Do It brakes worse than its parts should: find out why, do not drive it on" in text


@pytest.mark.parametrize(
    ("share", "agreement", "status"), [(1.0, "agrees", 0), (0.7, "below", 1), (1.3, "above", 3)]
)
def test_the_verdict_follows_the_intervals(report, share, agreement, status):
    found = report(made(share))
    assert (found["summary"]["agreement"], found["status"]) == (agreement, status)
    measured, predicted = (
        found["results"][f"drive.{which}_deceleration"] for which in ("measured", "predicted")
    )
    apart = measured["p95"] < predicted["p05"] or measured["p05"] > predicted["p95"]
    assert apart == (agreement != "agrees")


def test_the_friction_that_explains_it_gives_it(report):
    """Put into the file, the friction found makes prediction and measurement the same."""
    factor = report(made(0.8))["results"]["drive.friction_factor"]
    assert factor["p05"] < factor["value"] < factor["p95"] < 1
    again = report(
        made(0.8),
        "--set", f"front.disc.pads.mu={0.38 * factor['value']:.9f}",
        "--set", f"rear.drum.lining.mu={0.39 * factor['value']:.9f}",
    )["results"]  # fmt: skip
    measured = again["drive.measured_deceleration"]["value"]
    assert again["drive.predicted_deceleration"]["value"] == pytest.approx(measured, rel=1e-6)
    assert again["drive.friction_factor"]["value"] == pytest.approx(1, abs=1e-6)


def test_the_other_load_is_predicted_lower(report):
    empty, full = (
        report(made(1.0), "--load", load)["results"]["drive.predicted_deceleration"]["value"]
        for load in ("empty", "full")
    )
    assert full < empty


def test_line_pressure_serves_when_there_is_no_pedal_force(report):
    head = "time [s],speed [km/h],pressure [bar]"
    log = drives.text(drives.rows([drives.Stop(22, 4, force=30)], 10), head=head)
    stop = report(log)["stops"][0]
    assert stop["pressure"] == pytest.approx(30e5)
    assert stop["predicted_deceleration"]["value"] > 1


def test_without_pedal_and_pressure_only_the_bound_is_held_against(report):
    found = report(drives.text(drives.rows([drives.Stop(22, 4)], 10), pedal=False))
    assert (found["status"], found["summary"]["agreement"]) == (3, "cannot say")
    assert "neither pedal force nor pressure" in found["summary"]["verdict"]
    assert not found["summary"]["distance_from_pedal"]
    above = report(drives.text(drives.rows([drives.Stop(22, 10)], 50), pedal=False))
    assert (above["status"], above["summary"]["agreement"]) == (3, "above")


def test_fade_is_found_and_steady_brakes_have_none(report):
    fading = [drives.Stop(22.2, a, force=180) for a in (5.0, 4.8, 4.7, 4.5, 4.35, 4.2)]
    fade = report(drives.text(drives.rows(fading, 10, 0.03)))["results"]["drive.fade"]
    assert fade["value"] == pytest.approx(-0.16, abs=0.01)
    assert fade["p95"] < 0
    assert within(report(made(1.0, count=6))["results"]["drive.fade"], 0)


def test_repeatability_is_that_of_the_stops(report):
    decelerations = (4.0, 4.2, 4.4)
    stops = [drives.Stop(80 / 3.6, a) for a in decelerations]
    (group,) = report(drives.text(drives.rows(stops, 50)))["repeatability"]
    figure = group["developed_deceleration"]
    assert group["stops"] == 3
    assert figure["mean"] == pytest.approx(4.2, abs=1e-3)
    assert figure["standard_deviation"] == pytest.approx(0.2, abs=2e-3)
    assert [figure["least"], figure["most"]] == pytest.approx([4.0, 4.4], abs=2e-3)


def test_a_heavier_foot_is_no_scatter_of_the_brakes(report):
    """Decelerations that follow the pedal force of each stop: they differ by half, the ratio by 1
    %."""
    found = report(DRIVE.read_text())
    assert found["repeatability"][0]["developed_deceleration"]["standard_deviation"] > 0.5
    assert 0.0 < found["results"]["drive.scatter"]["value"] < 0.02
    one = report(drives.text(drives.rows([drives.Stop(22.0, 4)], 10)))
    assert one["results"]["drive.scatter"]["value"] is None


def test_nominal_speeds_can_be_given(report):
    log = drives.text(drives.rows([drives.Stop(22.0, 4)], 10))
    stop = report(log, "--nominal", "100km/h, 50 mph")["stops"][0]
    assert stop["nominal_speed"] == pytest.approx(50 * MPH)


# ---- a day of measuring --------------------------------------------------------------------------


def drive_of(found, what):
    """A result of the drive, and its half width."""
    figure = found["results"][f"drive.{what}"]
    return figure["value"], (figure["p95"] - figure["p05"]) / 2


def on_a_grade(slope, back=lambda number: False, heads=""):
    """Heron's stops on a road that rises by `slope` the way of the first; the pull of g counts for
    2027 kg over 2138 kg that the brakes slow."""
    signs, pull = [-1 if back(i) else 1 for i in range(4)], 9.807 * 2027 / 2138
    stops = [
        drives.Stop(22.2, heron_drive.predicted(200, 22.2) + sign * slope * pull, force=200)
        for sign in signs
    ]
    table = drives.rows(stops, 10, 0.03)
    lines = drives.text(table).splitlines()
    number, moving = -1, False
    rows = [lines[0] + heads]
    for line, (_, speed, _) in zip(lines[1:], table):
        number += speed > 1 and not moving
        moving = speed > 1 or (moving and speed > 0)
        sign = signs[max(0, number)]
        more = {"": "", ",grade [%]": f",{100 * sign * slope}", ",heading [deg]": f",{90 * sign}"}
        rows.append(line + more[heads])
    return "\n".join(rows)


def test_a_grade_is_no_friction(report):
    """3 % uphill looks like brakes that are 0.28 m/s2 better, so long as the log does not tell."""
    column = report(on_a_grade(0.03, heads=",grade [%]"))
    told = report(on_a_grade(0.03), "--grade", "3%")
    silent = report(on_a_grade(0.03), "--grade", "0%")
    assert drive_of(column, "friction_factor")[0] == pytest.approx(1, abs=0.005)
    assert drive_of(told, "friction_factor")[0] == pytest.approx(1, abs=0.005)
    assert drive_of(silent, "friction_factor")[0] > 1.04


def test_a_road_driven_both_ways_needs_no_grade(report):
    """The mean of each way counts the same, though three went up and one down."""
    found = report(on_a_grade(0.03, lambda number: number == 2, ",heading [deg]"))
    assert drive_of(found, "friction_factor")[0] == pytest.approx(1, abs=0.005)
    one_way = report(on_a_grade(0.0))
    half, half_one_way = (drive_of(one, "measured_deceleration")[1] for one in (found, one_way))
    assert half < half_one_way
    assert found["summary"]["both_ways"] and not one_way["summary"]["both_ways"]


def test_the_air_is_no_friction(report):
    """Without the air of 100 km/h, 0.09 m/s2 of 4.6, the pads would look 2 % better."""
    stops = [drives.Stop(27.8, heron_drive.predicted(160, 27.8), force=160) for _ in range(3)]
    log = drives.text(drives.rows(stops, 10, 0.01))
    assert drive_of(report(log), "friction_factor")[0] == pytest.approx(1, abs=0.005)
    bare = report(log, "--set", "heat.drag_area=0m2")
    assert drive_of(bare, "friction_factor")[0] > 1.015


def test_what_is_off_all_day_does_not_average_out(report):
    """Eight stops with a gauge within 2 %, or a grade within 1 %, are no surer than that."""
    many = made(1.0, count=8, noise=0.01)
    gauge = report(many, "--gauge", "1 +- 0.02", "--grade", "0%")
    grade = report(many, "--gauge", "1", "--grade", "0 % +- 1 %")
    measured, half = drive_of(gauge, "measured_deceleration")
    assert half == pytest.approx(0.02 * (measured - 0.491), rel=0.2)
    assert drive_of(grade, "measured_deceleration")[1] == pytest.approx(0.093, rel=0.1)


def test_a_receiver_that_tells_late_makes_no_stop_longer(report):
    """The speed 0.15 s late, as it is said to be, or as receivers are."""
    stop = drives.Stop(22, 5)
    table = drives.rows([stop], 20)
    late = [[t, table[max(0, i - 3)][1], f] for i, (t, _, f) in enumerate(table)]
    found = report(drives.text(late), "--lag", "0.15s")["stops"][0]["distance"]
    assert found["value"] == pytest.approx(stop.distance(), abs=22 * 0.05)
    usual = report(drives.text(late))["stops"][0]["distance"]
    assert within(usual, stop.distance())


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (("--lag", "2s"), "--lag 2s; accepts 0 to 1 s"),
        (("--lag", "0.1"), "has no unit"),
        (("--lag", "0.1s +- 0.2s"), "accepts 0 to 1 s"),
        (("--grade", "80%"), "accepts -30 to 30 %"),
        (("--gauge", "3"), "accepts 0.5 to 2"),
        (("--gauge", "1 +- x"), "gauge"),
    ],
)
def test_a_day_that_cannot_be_is_refused(drivelog, options, message):
    status, out, error = drivelog(GOOD, *options)
    assert (status, out) == (2, "") and message in error


# ---- what goes wrong on the road -----------------------------------------------------------------


@pytest.mark.parametrize("share", [0.3, 0.0])
@pytest.mark.parametrize("rate", [5, 10, 50])
def test_a_wheel_that_locks_is_told_and_its_stop_left_out(report, rate, share):
    table = drives.rows([drives.Stop(22, 5.5), drives.Stop(22, 5.5)], rate, 0.05)
    begun = next(time for time, _, force in table if force > 0)
    found = report(drives.text(drives.wheel_locks(table, begun + 1.5, 0.6, share)))
    assert [stop["flags"] for stop in found["stops"]] == [["wheel_lock"], []]
    assert found["summary"]["counted"] == 1
    locked = found["stops"][0]
    assert locked["initial_speed"]["value"] == pytest.approx(22, abs=0.2)
    assert table[locked["flagged_line"] - 2][0] == pytest.approx(begun + 1.5, abs=1.5 / rate + 0.1)


def test_a_wheel_that_locks_to_the_end_is_told(report):
    table = drives.rows([drives.Stop(22, 5.5)], 10)
    begun = next(time for time, _, force in table if force > 0)
    log = [[t, v if t < begun + 2 else 0.0, f] for t, v, f in table]
    found = report(drives.text(log))
    assert found["stops"][0]["flags"] == ["jump"]
    assert found["status"] == 3


def test_missing_rows_are_told_and_the_stop_left_out(report):
    table = drives.rows([drives.Stop(22, 5), drives.Stop(22, 5)], 10, 0.03)
    begun = next(time for time, _, force in table if force > 0)
    kept = [row for row in table if not begun + 1 < row[0] < begun + 2]
    found = report(drives.text(kept))
    assert [stop["flags"] for stop in found["stops"]] == [["gap"], []]
    assert kept[found["stops"][0]["flagged_line"] - 2][0] == pytest.approx(begun + 2, abs=0.11)


def test_a_jump_of_the_clock_between_stops_harms_nothing(report):
    table = drives.rows([drives.Stop(22, 5), drives.Stop(22, 5)], 10, 0.03)
    begun = next(time for time, _, force in table if force > 0)
    half = next(i for i, row in enumerate(table) if row[0] > begun + 6)
    assert table[half][1] == 0
    late = table[:half] + [[t + 3600, v, f] for t, v, f in table[half:]]
    assert [stop["flags"] for stop in report(drives.text(late))["stops"]] == [[], []]


def test_brakes_that_were_on_when_the_log_began_give_no_distance(report):
    table = drives.rows([drives.Stop(25, 5)], 10)
    begun = next(time for time, _, force in table if force > 0)
    stop = report(drives.text([row for row in table if row[0] > begun + 0.5]))["stops"][0]
    assert (stop["flags"], stop["counts"], stop["distance"]["value"]) == (["begun"], True, None)
    assert stop["developed_deceleration"]["value"] == pytest.approx(5, rel=1e-3)


def test_rolling_to_rest_is_no_stop(report):
    stops = [drives.Stop(15, 0.6), drives.Stop(22, 5)]
    found = report(drives.text(drives.rows(stops, 10)))
    assert (found["summary"]["gentle"], found["summary"]["stops"]) == (1, 1)


@pytest.mark.parametrize(
    ("rate", "speed", "deceleration", "noise", "message"),
    [
        (1, 22, 6, 0.0, "one row every 1 s leaves"),
        (2, 14, 6, 0.0, "5 are needed"),
        (5, 14, 4, 2.0, "not known within 20 %"),
    ],
)
def test_a_log_that_is_too_coarse_is_refused_and_told_how(
    drivelog, rate, speed, deceleration, noise, message
):
    log = drives.text(drives.rows([drives.Stop(speed, deceleration)], rate, noise, seed=3))
    status, out, error = drivelog(log)
    assert (status, out) == (2, "")
    assert "too coarse" in error and message in error


def test_a_log_without_a_stop_cannot_say(drivelog):
    log = HEAD + "".join(f"{t},80,0\n" for t in range(100))
    status, out, error = drivelog(log)
    assert (status, out) == (3, "")
    assert "no stop" in error


# ---- forms of a log ------------------------------------------------------------------------------

GOOD = drives.text(drives.rows([drives.Stop(22, 5)], 10))


def figures(found):
    return [stop["developed_deceleration"]["value"] for stop in found["stops"]]


def test_other_forms_mean_the_same(report):
    lines = GOOD.splitlines()
    cells = [line.split(",") for line in lines[1:]]
    turned = "pedal force [N],note,speed [km/h],time [s]\n" + "".join(
        f"{force},x,{speed},{time}\n" for time, speed, force in cells
    )
    other = {
        "byte order mark and CR LF": "\ufeff" + GOOD.replace("\n", "\r\n"),
        "comments and empty lines": "# ours\n\n" + GOOD.replace("\n", "\n# on the way\n", 3),
        "quotes": GOOD.replace("speed [km/h]", '"speed [km/h]"').replace("time [s]", '"time [s]"'),
        "no last line end": GOOD.rstrip("\n"),
        "exponents": GOOD.replace("\n0.100,", "\n1.00e-1,"),
        "order and a column more": turned,
    }
    expected = figures(report(GOOD))
    for form, log in other.items():
        assert figures(report(log)) == expected, form
    assert "'note' is not known and left aside" in report(turned)["notes"][0]


@pytest.mark.parametrize("length", [65_530, 65_534, 65_535, 65_536, 200_000])
def test_it_does_not_matter_where_a_line_stands_in_the_file(report, length):
    """A comment ahead of all, longer than what is read at a time, moves every line."""
    log = DRIVE.read_text()
    beside = report("# short\n" + log)
    assert beside["stops"]
    assert report("#" + "-" * (length - 2) + "\n" + log) == beside


def test_units_may_be_given_apart(report):
    cells = [line.split(",") for line in GOOD.splitlines()[1:]]
    bare = "time,speed,pedal_force [N]\n" + "".join(
        f"{t},{float(v) / 1.609344:.6f},{f}\n" for t, v, f in cells
    )
    found = report(bare, "--columns", "time=s,speed=mph")
    assert figures(found) == pytest.approx(figures(report(GOOD)), rel=1e-4)


def test_a_repeated_row_and_empty_cells_are_told_with_their_line(report):
    lines = GOOD.splitlines()
    lines.insert(11, lines[10])
    lines[20] = lines[20].split(",")[0] + ",,0"
    notes = report("\n".join(lines))["notes"]
    assert notes == ["line 12: repeats the row before it", "line 21: no speed; the row is left out"]


@pytest.mark.parametrize(
    ("log", "message"),
    [
        ("", "the file is empty; a log begins with"),
        ("# nothing\n\n", "the file is empty"),
        (HEAD, "two rows or more; this one has 0"),
        (HEAD + "0,80,0\n", "two rows or more; this one has 1"),
        ("0,80,0\n1,80,0\n", "log:1: time: no such column"),
        ("time [s],force [N]\n0,1\n", "log:1: speed: no such column"),
        ("time [s],speed\n0,80\n", "log:1: speed: has no unit"),
        ("time [s],speed [kg]\n0,80\n", "log:1: speed: got the unit 'kg'; accepts m/s"),
        ("time [s],speed [km/h],speed [mph]\n0,80,50\n", "log:1: speed: two columns"),
        ("time [s],speed [km/h]\n0,0,80,1\n", "log:2: has 4 cells, the header has 2"),
        (HEAD + "0,80\n", "log:2: has 2 cells, the header has 3"),
        (HEAD + "0,80,0\n1,nan,0\n", "log:3: speed: got 'nan'"),
        (HEAD + "0,80,0\n1,80,inf\n", "log:3: pedal_force: got 'inf'"),
        (HEAD + "0,80,0\n1,1e999,0\n", "log:3: speed: got '1e999'"),
        (HEAD + "0,0x50,0\n", "log:2: speed: got '0x50'"),
        (HEAD + "0,--5,0\n", "log:2: speed: got '--5'"),
        (HEAD + "0,8 0,0\n", "log:2: speed: got '8 0'"),
        (HEAD + "0,900,0\n", "log:2: speed: got 900 km/h; accepts -2 to 150 m/s"),
        (HEAD + "0,80,9999\n", "log:2: pedal_force: got 9999 N; accepts"),
        (HEAD + "0,80,0\n2,80,0\n1,80,0\n", "log:4: time: 1 s, less than in line 3"),
        (HEAD + "0,80,0\n0,79,0\n", "log:3: time: 0 s stands in line 2 too"),
        (b"time [s],speed [km/h]\n0,80\n1,\x0080\n", "log:3: a NUL byte in cell 2"),
        (b"\x00" * 1000, "log:1: a NUL byte"),
        (b"\xff\xfet\x00i\x00", "a NUL byte"),
        ("time [s]," + "x," * 300 + "speed [km/h]\n", "log:1: more than 256 cells"),
        (HEAD + "0,80," + "9" * 10_000_000 + "\n", "log:2: is longer than 1048576 bytes"),
        (HEAD + "0,80" + ",1" * 5_000_000 + "\n", "log:2: is longer than 1048576 bytes"),
    ],
    ids=lambda value: str(value)[:60],
)
def test_a_wrong_log_is_refused_with_its_line(drivelog, log, message):
    status, out, error = drivelog(log)
    assert (status, out) == (2, "")
    assert message in error and len(error) < 400


@pytest.mark.parametrize("seed", range(40))
def test_a_damaged_log_ends_in_words(drivelog, seed):
    chance = random.Random(seed)
    log = bytearray(GOOD.encode())
    for _ in range(chance.randint(1, 20)):
        at = chance.randrange(len(log))
        log[at : at + chance.randint(0, 3)] = bytes(
            chance.choice(b"\x00\xff,;.-+eE09\n\r#\"[] ") for _ in range(chance.randint(0, 3))
        )
    status, out, error = drivelog(bytes(log))
    assert status in (0, 1, 2, 3)
    assert (status == 2) == (error != "" and out == "") or (status == 3 and "no stop" in error)


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (("--columns", "speed"), "accepts such as time=s"),
        (("--columns", "sped=mph"), "got 'sped'"),
        (("--columns", "speed=kg"), "got the unit 'kg'"),
        (("--columns", "speed=mph"), "the header says km/h, --columns says mph"),
        (("--nominal", "80"), "has no unit"),
        (("--nominal", "0km/h"), "accepts 3.6 to 360 km/h"),
        (("--load", "half"), "empty, full"),
        (("--csv",), "unknown option"),
        (("more.csv",), "one vehicle file and one log"),
        (("--set", "nothing=1"), "nothing"),
    ],
)
def test_wrong_words_are_refused(drivelog, options, message):
    status, out, error = drivelog(GOOD, *options)
    assert (status, out) == (2, "")
    assert message in error


def test_files_that_are_not_there_are_told(drivelog):
    done = plain.run("drivelog", HERON, "/nonexistent.csv")
    assert (done.returncode, done.stdout) == (2, b"")
    assert b"cannot be opened" in done.stderr
    assert plain.run("drivelog", HERON).returncode == 2
    done = plain.run("drivelog", HERON, "/")
    assert (done.returncode, done.stdout) == (2, b"") and b"cannot be read" in done.stderr
    assert plain.run("drivelog", HERON, "/dev/null").returncode == 2
    assert drivelog(GOOD, vehicle="/nonexistent.ini")[0] == 2
