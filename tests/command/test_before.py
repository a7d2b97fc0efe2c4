# SPDX-License-Identifier: MIT
"""The vehicle before as the yardstick: what `check` says the changes did, held against a
calculation by hand; which file stands for it, and what is refused."""
import json
import pathlib
import shutil

import pytest

from file import plain

EXAMPLES = plain.ROOT / "examples"
VEHICLES = plain.ROOT / "tests" / "vehicles"
HERON, BEFORE = EXAMPLES / "heron.ini", EXAMPLES / "heron-before.ini"


def checked(*words):
    return json.loads(plain.run("check", *map(str, words), "--json").stdout)


def screen(*words):
    done = plain.run("check", *map(str, words))
    return done.returncode, done.stdout.decode(), done.stderr.decode()


# Brakes that were not touched: what they have stays, what they need grows with mass and radius.
PAIRS = [("ibex-stock", "ibex-33s"), ("badger-before", "badger-after"),
         ("mule-before", "mule-after")]  # fmt: skip


def needed(found, load):
    """Torque at the wheels for 1 m/s2: m r, and J/r for each of four wheels alike."""
    mass = found["results"][f"{load}.mass.total"]["value"]
    radius = found["vehicle"]["front.tyre.rolling_radius"]["value"]
    inertia = found["vehicle"]["front.tyre.wheel_inertia"]["value"]
    return mass * radius + 4 * inertia / radius


@pytest.mark.parametrize(("before", "after"), PAIRS)
def test_the_loss_is_that_of_mass_and_radius_by_hand(before, after):
    """Without a change of the brakes the torque per need is the need before over the need now, by
    hand within 1 %."""
    was, now = (VEHICLES / f"{name}.ini" for name in (before, after))
    found = checked(now, "--before", was)
    load = found["changes"]["load"]
    by_hand = needed(checked(was), load) / needed(found, load)
    both = found["changes"]["torque_per_need"][-1]
    assert both["ratio"] == pytest.approx(by_hand, abs=0.01)
    assert both["ratio_p05"] <= both["ratio"] <= both["ratio_p95"]
    assert sum(both["shares"].values()) == pytest.approx(both["ratio"] - 1, abs=1e-9)
    assert found["changes"]["verdict"] == "falls short" and found["changes"]["p_less"] >= 0.95


def test_it_is_the_first_line_and_counts_as_a_hazard():
    alone, with_it = checked(HERON), checked(HERON, "--before", BEFORE)
    assert "changes" not in alone
    counted = [
        sum(found["summary"][count] for count in ("meets", "falls_short", "cannot_say"))
        for found in (alone, with_it)
    ]
    assert counted[1] == counted[0] + 1
    lines = screen(HERON, "--before", BEFORE)[1].splitlines()
    assert lines[2].startswith("Changes   1 % less in brake torque per need")
    full = screen(HERON, "--before", BEFORE, "--full")[1]
    assert "Changes   1 % less in brake torque per need" in full


def test_the_loss_is_what_limits_where_fewest_meet_it():
    """Given brakes that were not touched, under a heavier vehicle on larger tyres, when it is
    checked, then the loss, which no sample is without, stands as what limits and apart from what
    is met at once; given a vehicle whose loss more samples meet than a requirement, that does."""
    pair = VEHICLES / "badger-after.ini", "--before", VEHICLES / "badger-before.ini"
    ratio = checked(*pair)["changes"]["torque_per_need"][-1]["ratio"]
    said = " ".join(screen(*pair)[1].split())
    loss = (f"Brake torque per need, of what it was before: {100 * ratio:.2f} % against at least "
            "97 %, met by 0 of 100. [torque per need of before]")  # fmt: skip
    assert f"Limits {loss}" in said and "All but the loss at once: " in said
    full = " ".join(screen(*pair, "--full")[1].split())
    assert f"Limiting {loss}" in full and "could be judged but the loss is met at once" in full
    said = " ".join(screen(HERON, "--before", BEFORE)[1].split())
    assert "Limits Deceleration with either circuit failed: " in said
    assert "All at once: " in " ".join(screen(HERON, "--before", HERON)[1].split())


def test_a_vehicle_against_itself_is_as_before():
    found = checked(HERON, "--before", HERON)["changes"]
    assert found["verdict"] == "meets" and found["p_less"] == 0
    assert screen(HERON, "--before", HERON)[1].splitlines()[2].startswith("Changes   as before")


def test_the_file_names_it_beside_itself(tmp_path):
    """Relative to the folder of the file that names it, wherever the command runs."""
    folder = tmp_path / "garage"
    folder.mkdir()
    shutil.copy(BEFORE, folder / "old.ini")
    mine = folder / "mine.ini"
    mine.write_text(HERON.read_text().replace("[vehicle]\n", "[vehicle]\nbefore = old.ini\n", 1))
    assert checked(mine)["changes"] == checked(HERON, "--before", BEFORE)["changes"]


def test_a_named_file_that_is_not_there_is_told(tmp_path):
    mine = tmp_path / "mine.ini"
    mine.write_text(HERON.read_text().replace("[vehicle]\n", "[vehicle]\nbefore = gone.ini\n", 1))
    status, text, error = screen(mine)
    assert (status, text) == (2, "")
    assert str(pathlib.Path(tmp_path) / "gone.ini") in error


def test_a_vehicle_before_names_none_itself(tmp_path):
    old = tmp_path / "old.ini"
    old.write_text(BEFORE.read_text().replace("[vehicle]\n", "[vehicle]\nbefore = older.ini\n", 1))
    status, text, error = screen(HERON, "--before", old)
    assert (status, text) == (2, "")
    assert "old.ini:" in error and "vehicle.before" in error and "leave that line out" in error


def test_a_pull_that_stands_in_both_files_is_carried_and_told():
    was, now = VEHICLES / "badger-before.ini", VEHICLES / "badger-after.ini"
    error = screen(now, "--before", was)[2]
    assert "parking.pull" in error and "the same torque" in error


def test_bigger_tyres_that_no_height_tells_of_are_named(tmp_path):
    """Given the vehicle before and the one on 33-inch tyres with one cg_height and no wheel_rise,
    the rise is named: (3.05 x 838.2 - 3.05 x 742.2) mm / 2 pi = 46.6 mm; with it, nothing is said.
    742.2 mm: 205R16, 406 + 2 x 0.82 x 205 mm (UN R30; MOT manual, section 5)."""
    stock, changed = VEHICLES / "ibex-stock.ini", VEHICLES / "ibex-33s.ini"
    said = plain.run("check", str(changed), "--before", str(stock), "--rules", "us")
    rise = 3.05 * (838.2 - (406 + 2 * 0.82 * 205)) / (2 * 3.141592653589793)
    assert f"its tyres raise it by some {rise:.0f} mm" in said.stderr.decode()
    told = tmp_path / "told.ini"
    told.write_text(
        changed.read_text().replace("suspension = 50 mm", "wheel_rise = 47 mm\nsuspension = 50 mm")
    )
    said = plain.run("check", str(told), "--before", str(stock), "--rules", "us")
    assert b"raise it by" not in said.stderr


# ---- the same part ------------------------------------------------------------------------------


def test_pads_that_were_kept_are_drawn_once(tmp_path):
    """Given new calipers with the old pads, when the file says `same as before` of their friction,
    then the ratio stays, and is known better: its friction cancels. By hand: of a torque that is
    all but proportional to it, 0.04 / 0.38 = 10.5 % twice, each 95 of 100."""
    examples = plain.ROOT / "examples"
    text = (examples / "heron.ini").read_text()
    kept = tmp_path / "kept.ini"
    mu = "0.38 +- 0.04, catalogue"
    kept.write_text(text.replace(mu, mu + ", same as before"))
    before = str(examples / "heron-before.ini")
    answers = []
    for file in (examples / "heron.ini", kept):
        done = plain.run("check", str(file), "--before", before, "--json")
        front = json.loads(done.stdout)["changes"]["torque_per_need"][0]
        assert front["axle"] == "front axle"
        answers.append(front)
    apart, same = answers
    assert apart["ratio"] == same["ratio"]

    def half(r):
        return 0.5 * (r["ratio_p95"] - r["ratio_p05"]) / r["ratio"] / 1.645

    friction = 2**0.5 * 0.5 * 0.04 / 0.38
    assert half(apart) ** 2 - half(same) ** 2 == pytest.approx(friction**2, rel=0.25)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("same as before", b"write the value as the file before has it"),
        ("0.40 +- 0.04, same as before", b"is another here"),
        ("0.38 +- 0.02, same as before", b"is another here"),
    ],
)
def test_what_is_not_the_same_is_refused(tmp_path, line, words):
    examples = plain.ROOT / "examples"
    text = (examples / "heron.ini").read_text()
    file = tmp_path / "other.ini"
    file.write_text(text.replace("0.38 +- 0.04, catalogue", line))
    done = plain.run("check", str(file), "--before", str(examples / "heron-before.ini"))
    assert done.returncode == 2 and words in done.stderr


def test_kits_are_drawn_by_the_drive_of_the_vehicle_before(tmp_path):
    """Given a drive of the vehicle before, then each kit says that it is drawn by it."""
    from command import test_driven

    before = test_driven.write(tmp_path, "before", 0.9)
    kit = tmp_path / "kit.ini"
    kit.write_text(test_driven.VEHICLE.replace("33x10.50R15", "35x12.50R15"))
    told = plain.run("compare", str(before), str(kit), str(kit)).stdout.decode()
    assert " ".join(told.split()).count("drawn by 3 stops before the change") == 2
