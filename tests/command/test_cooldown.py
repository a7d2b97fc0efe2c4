# SPDX-License-Identifier: MIT
"""`stopmargin heat --cooldown`: what a log of the brakes as they cool tells of heat.cooling.

The logs are written by the program itself with a factor that is known, so that what is tested is
the way back; the model is held to others in tests/oracle and tests/thermal."""
import csv
import functools
import json
import random
import re

import pytest

from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")
AIR = ("--set", "heat.ambient=18degC")
HEAD = "time [s],speed [km/h],front_temperature [degC],rear_temperature [degC]"
SNUBS = ("--snubs", "us.135.fade")
DESCENT = ("--descent", "8%,6km,50km/h")
FEW = ("--snubs", "6,100km/h,50km/h,30s,4m/s2")


@functools.cache
def cooled(duty, factor, cool):
    """Time, speed and mean temperature of both rotors once the brakes are off."""
    text = plain.run(
        "heat", HERON, *duty, "--cool", cool, "--csv", *AIR, "--set", f"heat.cooling={factor}"
    ).stdout.decode()
    table = list(csv.DictReader(line for line in text.splitlines() if line[:1] != "#"))
    keys = ("time [s]", "speed [km/h]", "front mean [degC]", "rear mean [degC]")
    braked = max(float(row["time [s]"]) for row in table if float(row["pedal force [N]"]) > 0)
    return [
        [float(row[key]) for key in keys] for row in table if float(row["time [s]"]) > braked + 1
    ]


def written(rows, noise=1.0, seed=1, head=HEAD):
    dice = random.Random(seed)
    lines = [head]
    for time, speed, *heat in rows[::2]:
        heat = [f"{value + dice.gauss(0, noise):.2f}" for value in heat]
        lines.append(",".join([f"{time:.2f}", f"{speed:.2f}", *heat]))
    return "\n".join(lines) + "\n"


def told(text, *options, file=HERON, air=AIR):
    return plain.run("heat", file, "--cooldown", "-", *air, *options, given=text.encode())


def answer(text, *options):
    done = told(text, "--json", *options)
    assert done.stdout, done.stderr
    return json.loads(done.stdout)


def refused(text, **others):
    done = told(text, **others)
    assert done.stdout == b""
    return done.returncode, done.stderr.decode()


# ---- the way back --------------------------------------------------------------------------------


@pytest.mark.parametrize("factor", [0.3, 0.5, 0.9])
@pytest.mark.parametrize("duty", [SNUBS, DESCENT, FEW], ids=["snubs", "descent", "few"])
def test_a_log_gives_the_factor_that_it_was_made_with(duty, factor):
    """Each within twice its half, which 999 of 1000 are that hold 90 of 100 (normal law)."""
    found = answer(written(cooled(duty, factor, "20min,80km/h")))
    cooling = found["summary"]["cooling"]
    assert found["summary"]["tells"]
    half = (cooling["p95"] - cooling["p05"]) / 2
    assert abs(cooling["value"] - factor) < 2 * half
    assert half < 0.1 * factor


def test_nine_of_ten_intervals_hold_the_factor():
    """40 logs of one cool-down, noise alone different: by the binomial law 90 of 100 give 31 or
    more of 40 in 99 of 100; the history is the same in all, so that its share never shows."""
    rows = cooled(FEW, 0.5, "20min,80km/h")
    held = 0
    for seed in range(40):
        cooling = answer(written(rows, 4.0, seed))["summary"]["cooling"]
        held += cooling["p05"] <= 0.5 <= cooling["p95"]
    assert held >= 31


def test_the_line_can_be_written_into_the_file(tmp_path):
    text = told(written(cooled(SNUBS, 0.5, "20min,80km/h"))).stdout.decode()
    line = re.search(r"cooling = [0-9.]+ \+- [0-9.]+, measured", text).group()
    assert len(text.splitlines()) < 24 and max(map(len, text.splitlines())) <= 80
    vehicle = tmp_path / "vehicle.ini"
    heron = re.sub(r"(?m)^(cooling|before) .*\n", "", open(HERON).read())
    vehicle.write_text(heron.replace("[heat]\n", f"[heat]\n{line}\n"))
    shown = plain.run("explain", "heat.cooling", str(vehicle)).stdout.decode()
    assert "measured" in shown and line.split()[2] in shown


def test_one_axle_is_enough_and_tells_the_same():
    rows = cooled(SNUBS, 0.5, "20min,80km/h")
    both = {row["axle"]: row for row in answer(written(rows))["axles"]}
    head = "time [s],speed [km/h],rear_temperature [degC]"
    rear = answer(written([row[:2] + row[3:] for row in rows], 0.0, head=head))
    assert [row["axle"] for row in rear["axles"]] == ["rear"]
    assert rear["summary"]["cooling"]["value"] == pytest.approx(
        both["rear"]["cooling"]["value"], rel=0.02
    )


def test_what_was_logged_before_the_hottest_is_passed_over():
    rows = cooled(SNUBS, 0.5, "20min,80km/h")
    warming = [[rows[0][0] - 60 + i, 60.0, 100.0 + i, 80.0 + i] for i in range(0, 58, 2)]
    value = answer(written(rows))["summary"]["cooling"]["value"]
    longer = answer(written(warming + warming[-1:] + rows))["summary"]["cooling"]["value"]
    assert longer == pytest.approx(value, rel=0.02)


def test_at_a_standstill_air_tells_nothing():
    """Only what moves with speed has the factor; at rest there is 3 W/(m2 K) whatever it is."""
    done = told(written(cooled(SNUBS, 0.5, "40min,0km/h")))
    assert done.returncode == 3
    text = " ".join(done.stdout.decode().split())
    assert "cannot say" in text and "At a standstill air tells nothing." in text
    assert "Write in" not in text


def test_units_of_the_us_trade_give_the_same():
    rows = cooled(SNUBS, 0.5, "20min,80km/h")
    head = "time [s],speed [mph],front_temperature [degF],rear_temperature [degF]"
    imperial = [[t, v / 1.609344, 1.8 * f + 32, 1.8 * r + 32] for t, v, f, r in rows]
    one, other = (
        answer(written(rows, 0.0)),
        answer(written(imperial, 0.0, head=head)),
    )
    assert one["summary"]["cooling"]["value"] == pytest.approx(
        other["summary"]["cooling"]["value"], rel=1e-3  # hundredths of degF are not of degC
    )


def test_axles_that_differ_are_told_and_the_lesser_is_taken():
    front = cooled(SNUBS, 0.9, "20min,80km/h")
    rear = cooled(SNUBS, 0.4, "20min,80km/h")
    mixed = [f[:3] + r[3:] for f, r in zip(front, rear)]
    found = answer(written(mixed))
    rows = {row["axle"]: row["cooling"]["value"] for row in found["axles"]}
    assert found["summary"]["differ"]
    assert found["summary"]["cooling"]["value"] == rows["rear"] < rows["front"]


# ---- logs that tell nothing ----------------------------------------------------------------------


def test_an_empty_log_is_refused():
    assert refused("") == (
        2,
        "standard input: the file is empty; a log begins with a header such as"
        " time [s],speed [km/h],pedal_force [N]\n",
    )
    status, text = refused(HEAD + "\n")
    assert status == 2 and "a log needs two rows or more" in text


def test_a_log_without_a_temperature_is_refused():
    status, text = refused("time [s],speed [km/h]\n0,80\n1,80\n")
    assert status == 2 and "front_temperature: no such column, nor rear_temperature" in text
    status, text = refused(HEAD + "\n0,80,,\n1,80,,\n")
    assert status == 2 and "front_temperature: no such column, nor rear_temperature" in text


def test_the_air_of_the_day_must_be_stated(tmp_path):
    """The usual value is a hot day, which it was not."""
    vehicle = tmp_path / "vehicle.ini"
    lines = open(HERON).read()
    vehicle.write_text(re.sub(r"(?m)^(ambient|before) .*\n", "", lines))
    text = written(cooled(SNUBS, 0.5, "20min,80km/h"))
    status, complaint = refused(text, file=str(vehicle), air=())
    assert status == 3
    assert "heat.ambient: is missing: the temperature of the air on that day" in complaint


def wrong(change):
    rows = [list(row) for row in cooled(SNUBS, 0.5, "20min,80km/h")]
    return refused(written(change(rows) or rows, 0.0))


def test_a_log_that_is_too_short_is_refused():
    status, text = wrong(lambda rows: rows[:16])
    assert status == 2 and "readings from its hottest on; 12 are the least" in text
    status, text = wrong(lambda rows: rows[:60])
    assert status == 2 and "are the least: log for longer" in text


def test_brakes_that_are_not_hot_are_refused():
    def cold(rows):
        for row in rows:
            row[2:] = [18 + 0.1 * (value - 18) for value in row[2:]]

    status, text = wrong(cold)
    assert status == 2 and "over the air (heat.ambient) when it begins to fall" in text


def test_a_brake_that_is_used_is_refused():
    def braked(rows):
        for row in rows[300:]:
            row[2] += 40

    status, text = wrong(braked)
    assert status == 2
    assert re.search(r"front_temperature: rises by \d+ K while it should fall: the brakes", text)


def test_a_vehicle_that_is_stopped_is_refused():
    def stopped(rows):
        for i, row in enumerate(rows[-40:]):
            row[1] = 80.0 if i < 20 else 0.0

    status, text = wrong(stopped)
    assert status == 2 and "more than engine and air take" in text


def test_a_foot_on_the_brake_is_refused():
    rows = cooled(SNUBS, 0.5, "20min,80km/h")
    lines = written(rows).splitlines()
    pedal = [lines[0] + ",pedal_force [N]"] + [
        f"{line},{40 if i == 100 else 0}" for i, line in enumerate(lines[1:])
    ]
    status, text = refused("\n".join(pedal) + "\n")
    assert status == 2
    assert ":102: the foot is on the brake" in text


def test_a_brake_colder_than_the_air_is_refused():
    def below(rows):
        for row in rows:
            row[2] -= 60

    status, text = wrong(below)
    assert status == 2 and "falls below heat.ambient" in text


def test_a_brake_that_nothing_cools_so_is_refused():
    """Twice as fast as with the largest factor that a file may have."""
    rows = cooled(SNUBS, 1.9, "20min,80km/h")
    begin = rows[0][0]
    status, text = refused(written([[begin + (row[0] - begin) / 3, *row[1:]] for row in rows], 0.0))
    assert status == 2 and "no factor from 0.02 to 2 makes this rotor or drum cool" in text


def test_options_that_do_not_go_with_it():
    for words, complaint in (
        (("--cool", "10min"), "--cooldown goes without --cool and --csv"),
        (("--csv",), "--cooldown goes without --cool and --csv"),
        (("--stop", "50km/h"), "one duty at a time"),
    ):
        done = told(HEAD, *words)
        assert done.returncode == 2 and complaint in done.stderr.decode()
