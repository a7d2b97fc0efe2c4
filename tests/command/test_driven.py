# SPDX-License-Identifier: MIT
"""A vehicle file that names a drive: what `check` says is drawn as that drive makes likely."""
import json

import pytest

from command import drives
from file import plain

VEHICLE = (plain.ROOT / "tests" / "vehicles" / "minimal-afternoon.ini").read_text(encoding="utf-8")
FORCES = (60, 75, 90)  # N
PER_FORCE = 0.0251  # [m/s2 per N] what drivelog predicts for it, over the force


def write(folder, name, share, more="", said="", day=""):
    """A vehicle driven with a share of what its lines predict; the log stands beside it."""
    stops = [drives.Stop(14, share * PER_FORCE * force, force=force) for force in FORCES]
    log = drives.text(drives.rows(stops, 10, noise=0.03, seed=8))
    (folder / f"{name}.csv").write_text(said + log, encoding="utf-8")
    path = folder / f"{name}.ini"
    path.write_text(f"{VEHICLE}\n{more}\n[drive]\nlog = {name}.csv\n{day}", encoding="utf-8")
    return path


def check(path, *options):
    done = plain.run("check", str(path), *options)
    return done.returncode, done.stdout.decode()


def drive_of(path, *options):
    return json.loads(check(path, "--json", *options)[1])["drive"]


def test_a_drive_that_agrees_is_told_on_the_first_screen(tmp_path):
    """Given stops at nine tenths of what the lines predict, when the vehicle is checked, then the
    screen says so, keeps its 24 lines, and the numbers rest on 1,024 samples or more."""
    path = write(tmp_path, "fair", 0.9)
    _, text = check(path)
    assert "Drive     0.9" in text
    assert "drawn by 3 stops." in text
    assert len(text.splitlines()) <= 24
    drive = drive_of(path)
    assert drive["agreement"] == "agrees"
    assert drive["effective_samples"] >= 1024


def test_brakes_worse_than_their_parts_fall_short(tmp_path):
    """Given stops at half of what the lines predict, when the vehicle is checked, then it falls
    short and is not to be driven."""
    status, text = check(write(tmp_path, "weak", 0.5))
    words = " ".join(text.split())
    assert status == 1
    assert "It brakes worse than its parts should" in words
    assert "find out why, do not drive" in words


def test_brakes_better_than_their_lines_make_no_row_better(tmp_path):
    """Given stops at one and three quarters of what the lines predict, when the vehicle is checked,
    then lines are named, and every requirement has the P that it has without the drive."""
    path = write(tmp_path, "much", 1.75)
    alone = tmp_path / "alone.ini"
    alone.write_text(VEHICLE, encoding="utf-8")
    answer, without = (json.loads(check(p, "--json")[1]) for p in (path, alone))
    assert answer["drive"]["agreement"] == "more"
    told = " ".join(check(path)[1].split())
    assert "look again at" in told
    pairs = zip(answer["criteria"], without["criteria"])
    assert all(a["p_meets"] == b["p_meets"] for a, b in pairs)


@pytest.mark.parametrize("given", ["option", "line"])
def test_a_drive_before_the_change_tells_of_what_has_not_changed(tmp_path, given):
    """Given a drive of the vehicle before, and only bigger tyres since, when the changed vehicle is
    checked, then it is drawn by that drive."""
    before = write(tmp_path, "before", 0.9)
    after = tmp_path / "after.ini"
    text = VEHICLE.replace("33x10.50R15", "35x12.50R15")
    if given == "line":
        text = text.replace("[vehicle]", "[vehicle]\nbefore = before.ini", 1)
    after.write_text(text, encoding="utf-8")
    options = ("--before", str(before)) if given == "option" else ()
    _, told = check(after, *options)
    assert "3 stops before the change" in " ".join(told.split())


def test_a_log_that_is_not_there_is_refused(tmp_path):
    """Given a file whose drive names no file, when it is checked, then it is refused by name."""
    path = write(tmp_path, "lost", 0.9)
    (tmp_path / "lost.csv").unlink()
    done = plain.run("check", str(path))
    assert done.returncode == 2
    assert b"lost.csv" in done.stderr


# ---- the day, and the vehicle as it was driven ---------------------------------------------------

TYRE = "front.tyre.marking"


def drivelog(path, log, *options):
    done = plain.run("drivelog", str(path), str(log), "--json", *options)
    return json.loads(done.stdout)


def predicted(answer):
    return [stop["predicted_deceleration"] for stop in answer["stops"]]


def test_lines_of_the_drive_say_what_the_day_was_off_by(tmp_path):
    """Given grade, lag and gauge as lines, when the log is held against the prediction, then that
    is what the options give: a tolerance is two standard deviations, a half 1.645 (90 of 100)."""
    day = "grade = 3 % +- 0.5 %\nlag = 0.05 s +- 0.02 s\ngauge = 1.05 +- 0.01\n"
    path = write(tmp_path, "day", 0.9, day=day)
    halves = ("3%+-0.41125%", "0.05s+-0.01645s", "1.05+-0.008225")
    options = [w for pair in zip(("--grade", "--lag", "--gauge"), halves) for w in pair]
    plain_day = write(tmp_path, "plain", 0.9)
    log = tmp_path / "day.csv"
    lines, told = drivelog(path, log), drivelog(plain_day, log, *options)
    for ours, theirs in zip(lines["stops"], told["stops"]):
        for key, value in theirs["developed_deceleration"].items():
            assert ours["developed_deceleration"][key] == pytest.approx(value, rel=1e-9)
    assert drive_of(path)["ratio"] < 0.9 * drive_of(plain_day)["ratio"]


@pytest.mark.parametrize("more", ["", ",,,"])
def test_comments_of_a_log_say_how_it_was_driven(tmp_path, more):
    """Given a log that says other tyres and load, then it is held against the vehicle on those, and
    what it tells is told of before the change; comments of another kind are none of it."""
    said = f"# by hand, 9 May = dry\n# {TYRE} = 31x10.50R15LT{more}\n# drive.load = full\n"
    path = write(tmp_path, "said", 0.9, said=said)
    write(tmp_path, "bare", 0.9)
    bare = tmp_path / "bare.csv"
    options = ("--set", f"{TYRE}=31x10.50R15LT", "--load", "full")
    ours, theirs = drivelog(path, tmp_path / "said.csv"), drivelog(path, bare, *options)
    assert predicted(ours) == predicted(theirs)
    assert "drawn by 3 stops before the change" in " ".join(check(path)[1].split())


def test_a_log_of_the_same_tyres_is_no_other_vehicle(tmp_path):
    same = write(tmp_path, "same", 0.9, said=f"# {TYRE} = 33x10.50R15\n")
    assert drive_of(same) == drive_of(write(tmp_path, "bare", 0.9))
    assert "before the change" not in check(same)[1]


def test_a_part_that_is_another_since_is_not_known_by_the_drive(tmp_path):
    """Given a log that names other pads, other cylinders and another master cylinder, then the
    lines of those brakes are drawn as without a drive: the spread of a brake's own row says so."""
    parts = ("front.disc.pads.mu = 0.5", "rear.drum.brake_factor = 3", "master.bore = 1.05 in",
             "booster.gain = 3", "pedal.ratio = 5")  # fmt: skip
    path = write(tmp_path, "other", 0.9, said="".join(f"# {one}\n" for one in parts))
    alone = tmp_path / "alone.ini"
    alone.write_text(VEHICLE, encoding="utf-8")

    def chance(file):
        rows = json.loads(check(file, "--json")[1])["criteria"]
        return {r["id"]: r["margin_p05"] for r in rows}["hazard.circuit"]

    known = chance(write(tmp_path, "same", 0.9))
    assert abs(chance(path) - chance(alone)) < 0.25 * abs(known - chance(alone))


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("# front.tyre.markng = 31x10.50R15LT\n", b"did you mean front.tyre.marking?"),
        ("# front.tyre.marking = a wheel\n", b"front.tyre.marking"),
        ("# drive.load = half\n", b"empty, full"),
        (33 * "# drive.load = full\n", b"more than 32 comments"),
        ("# vehicle.name = " + 200 * "x" + "\n", b"up to 159 bytes"),
    ],
)
def test_a_wrong_line_in_a_log_is_refused_where_it_stands(tmp_path, said, words):
    done = plain.run("check", str(write(tmp_path, "wrong", 0.9, said=said)))
    assert done.returncode == 2
    assert b"wrong.csv" in done.stderr and words in done.stderr


def test_a_size_says_that_a_drive_moved_its_lines(tmp_path):
    """Given a drive at nine tenths, then a piston must be bigger than without it."""
    by = ("--by", "front.disc.piston_diameter", "--for", "full.deceleration.at_pedal_force=3m/s2")
    found = {}
    for name, file in (("with", write(tmp_path, "fair", 0.9)), ("without", tmp_path / "no.ini")):
        (tmp_path / "no.ini").write_text(VEHICLE, encoding="utf-8")
        done = plain.run("size", str(file), *by, "--json")
        found[name] = json.loads(done.stdout)
        assert ("drive" in found[name]) == (name == "with")
    assert found["with"]["answers"][0]["value"] > found["without"]["answers"][0]["value"]
    text = plain.run("size", str(tmp_path / "fair.ini"), *by).stdout.decode()
    assert "at the middle of what that drive makes likely" in " ".join(text.split())


# ---- the page ------------------------------------------------------------------------------------


def test_a_page_carries_the_drives_and_the_list_of_parts(tmp_path):
    """Given a page away from every file that its vehicles name, when it is checked, then it is
    judged as they are."""
    there = tmp_path / "there"
    there.mkdir()
    write(there, "before", 0.9)
    (there / "mine.csv").write_text("part,size\nmaster.bore,13/16 in\n", encoding="utf-8")
    named = "[vehicle]\nbefore = before.ini\nparts = mine.csv"
    after = there / "after.ini"
    after.write_text(VEHICLE.replace("[vehicle]", named, 1), encoding="utf-8")
    driven = write(there, "driven", 0.95)
    for file in (after, driven):
        page = tmp_path / f"{file.stem}.html"
        assert plain.run("report", str(file), "-o", str(page)).returncode in (0, 1, 3)
        told = plain.run("check", str(page), "--units", "us")
        assert "its vehicle is as it was printed" in told.stderr.decode()
        assert told.stdout.decode() == check(file, "--units", "us")[1]


# ---- a tester ----------------------------------------------------------------------------------

TESTER = """
[tester]
front_left = {0} N, measured
front_right = {0} N, measured
rear_left = {1} N, measured
rear_right = {1} N, measured
pedal_force = 75 N, measured
"""


def on_rollers(folder, name, *forces):
    path = folder / f"{name}.ini"
    path.write_text(VEHICLE + TESTER.format(*forces), encoding="utf-8")
    return path


def test_forces_of_a_tester_are_drawn_by_as_a_drive_is(tmp_path):
    """Given the forces of both axles on a tester, when the vehicle is checked, then the screen says
    so, and side differences and what the forces tell stand in the answer."""
    path = on_rollers(tmp_path, "fair", 1600, 900)
    _, text = check(path)
    assert "drawn by both axles of a tester." in " ".join(text.split())
    answer = json.loads(check(path, "--json")[1])
    assert (answer["drive"]["forces"], answer["drive"]["stops"]) == (2, 0)
    assert answer["drive"]["effective_samples"] >= 1024
    assert answer["vehicle"]["front.axle.side_difference"]["value"] == 0.0


def test_a_weak_tester_falls_short(tmp_path):
    """Given forces far below what the lines allow, when the vehicle is checked, then it falls
    short as after a weak drive."""
    status, text = check(on_rollers(tmp_path, "weak", 400, 150))
    assert status == 1
    assert "It brakes worse than its parts should" in " ".join(text.split())


def test_drive_and_tester_are_told_together(tmp_path):
    path = write(tmp_path, "both", 0.95, TESTER.format(1600, 900))
    drive = drive_of(path)
    assert (drive["forces"], drive["stops"]) == (2, 3)
    assert "both axles of a tester and 3 stops." in " ".join(check(path)[1].split())
