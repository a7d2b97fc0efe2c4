"""A vehicle file that names a drive: what `check` says is drawn as that drive makes likely."""
import json

import pytest

from command import drives
from file import plain

VEHICLE = (plain.ROOT / "tests" / "vehicles" / "minimal-afternoon.ini").read_text(encoding="utf-8")
FORCES = (60, 75, 90)  # N
PER_FORCE = 0.0251  # [m/s2 per N] what drivelog predicts for it, over the force


def write(folder, name, share, more=""):
    """A vehicle driven with a share of what its lines predict; the log stands beside it."""
    stops = [drives.Stop(14, share * PER_FORCE * force, force=force) for force in FORCES]
    log = drives.text(drives.rows(stops, 10, noise=0.03, seed=8))
    (folder / f"{name}.csv").write_text(log, encoding="utf-8")
    path = folder / f"{name}.ini"
    path.write_text(f"{VEHICLE}\n{more}\n[drive]\nlog = {name}.csv\n", encoding="utf-8")
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
