# SPDX-License-Identifier: MIT
"""Spread, size and compare from Python are those of the command."""
import json
import os
import pathlib
import pickle
import subprocess

import pytest

import libbrake
from file import plain
from libbrake import errors

ROOT = pathlib.Path(__file__).resolve().parents[2]
HERON, BEFORE = ROOT / "examples/heron.ini", ROOT / "examples/heron-before.ini"
MARTEN = ROOT / "tests" / "vehicles" / "marten-long-pedal.ini"
COMMAND = os.environ.get("STOPMARGIN", str(ROOT / "build" / "stopmargin"))
beside_the_command = pytest.mark.skipif(not os.path.exists(COMMAND), reason="no command built")
PISTON, BORE = "front.disc.piston_diameter", "master.bore"


def said(*words):
    """Output of the command; 0, 1 and 3 are answers."""
    run = subprocess.run([COMMAND, *map(str, words)], text=True, stdout=subprocess.PIPE)
    assert run.returncode in (0, 1, 3)
    return run.stdout


def same(answer, *words):
    """Whether an answer is the command's, for people and as JSON."""
    assert answer.to_dict() == json.loads(said(*words, "--json"))
    assert str(answer) == said(*words)


@beside_the_command
def test_a_spread_is_that_of_the_command(heron):
    same(heron.spread(samples=1024), "spread", HERON, "--samples", 1024)
    shaped = heron.spread(samples=1024, rules="us", shape={"front.disc.pads.mu": "uniform"})
    same(shaped, "spread", HERON, "--samples", 1024, "--rules", "us",
         "--shape", "front.disc.pads.mu=uniform")  # fmt: skip


@beside_the_command
@pytest.mark.parametrize("load", ["empty", "full"])
def test_a_plan_is_that_of_the_command(heron, load):
    found = heron.shakedown(load)
    words = ["shakedown", HERON, "--load", load]
    assert found.to_dict() == json.loads(said(*words, "--json"))
    assert found.text == str(found) == said(*words, "--text")
    assert found.html == said(*words, "-o", "-")


def test_the_stages_of_a_plan_are_arrays_by_name(heron):
    pandas = pytest.importorskip("pandas")
    found = heron.shakedown()
    speed, least = (found.stages.column(name) for name in ("speed", "least"))
    assert len(speed) == len(found.stages) > 1 and list(speed) == sorted(speed)
    assert all(0.0 < one < stage.deceleration.value for one, stage in zip(least, found.stages))
    assert isinstance(found.stages.to_pandas(), pandas.DataFrame)
    again = pickle.loads(pickle.dumps(found))
    assert (again, again.text, again.html) == (found, found.text, found.html)
    with pytest.raises(ValueError, match="empty, full"):
        heron.shakedown("half")


@pytest.mark.skipif(not MARTEN.exists(), reason="not in the archive")
def test_a_vehicle_that_must_not_be_driven_gets_no_plan_unless_one_says_so():
    marten = libbrake.load(MARTEN)
    with pytest.raises(errors.Refused, match="the pedal has no reserve"):
        marten.shakedown()
    assert marten.shakedown(despite="no-reserve").measuring_only in (True, False)
    with pytest.raises(ValueError, match="despite: got 'pedal'; accepts no-reserve, rear-first"):
        marten.shakedown(despite="pedal")


def test_another_seed_draws_other_samples(heron):
    first, again, other = (heron.spread(samples=1024, seed=seed) for seed in (1, 1, 2))
    assert first == again and first.criteria != other.criteria


@beside_the_command
@pytest.mark.parametrize("rules", ["all", "un"])
def test_a_comparison_is_that_of_the_command(heron, rules):
    found = libbrake.compare(libbrake.load(BEFORE), heron, rules)
    same(found, "compare", BEFORE, HERON, "--rules", rules)


@beside_the_command
@pytest.mark.parametrize(
    "by, target, within, words",
    [
        (PISTON, "us.135.cold", None, ["--by", PISTON, "--for", "us.135.cold"]),
        (PISTON, "full.stop.distance <= 60 m", ("40 mm", "60 mm"),
         ["--by", PISTON, "--for", "full.stop.distance <= 60 m", "--within", "40mm,60mm"]),
        (PISTON, "all", None, ["--by", PISTON, "--for", "all"]),
        ({PISTON: ["45 mm", "48 mm", "51 mm"], BORE: ["22.2 mm", "23.8 mm"]},
         "us.135.cold",
         None, ["--by", f"{PISTON}=45mm,48mm,51mm", "--by", f"{BORE}=22.2mm,23.8mm", "--for",
                "us.135.cold"]),
        ({"tyre": ["LT285/75R16", "35x12.50R17LT"]}, "us.135.cold", None,
         ["--by", "tyre=LT285/75R16,35x12.50R17LT", "--for", "us.135.cold"]),
    ],
    ids=["criterion", "within", "all", "lists", "tyres"],
)  # fmt: skip
def test_a_size_is_that_of_the_command(heron, by, target, within, words):
    same(heron.size(by, target, within), "size", HERON, *words)


@pytest.mark.parametrize(
    "ask, kind, words",
    [
        (lambda v: v.spread(samples=3), errors.RefusedRange, "1024"),
        (lambda v: v.spread(samples=1024, shape="round"), ValueError, "triangular"),
        (lambda v: v.spread(samples=1024, shape={"pedal.ratoi": "normal"}),
         errors.RefusedUnknown, "pedal.ratio"),
        (lambda v: v.spread(samples=1024, rules="mars"), ValueError, plain.ACCEPTED),
        (lambda v: v.size("pedal.ratio", "us.135.colt"), errors.RefusedUnknown, "us.135.cold"),
        (lambda v: v.size("pedal.ratoi", "us.135.cold"), errors.RefusedUnknown, "pedal.ratio"),
        (lambda v: v.size("pedal.ratio", "full.stop.distance"), ValueError, "VALUE"),
        (lambda v: v.size("pedal.ratio", "full.stop.distance <= 3 kg"), errors.RefusedUnit, "m"),
        (lambda v: v.size("pedal.ratio", "all", within=(9.0, 2.0)), ValueError, "low, high"),
        (lambda v: v.size("pedal.ratio", ""), ValueError, "target"),
        (lambda v: v.size("pedal.ratio", []), ValueError, "target"),
        (lambda v: v.size({}, "all"), ValueError, "1 to 4 lines"),
        (lambda v: v.size({"pedal.ratio": [99.0]}, "all"), errors.RefusedRange, "1.5 to 10"),
        (lambda v: v.size({"tyre": ["wide"]}, "all"), errors.RefusedMarking, "form"),
        (lambda v: v.size({"tyre": []}, "all"), ValueError, "1 to 64"),
        (lambda v: v.size({"pedal.ratio": [4.0]}, "us.135.cold = 0"), ValueError, ">= or <="),
        (lambda v: v.size("front.axle.brake", "all"), TypeError, "no number"),
    ],
)  # fmt: skip
def test_a_wrong_question_is_refused_in_words(heron, ask, kind, words):
    with pytest.raises(kind, match=words):
        ask(heron)


def test_a_rise_is_asked_for_in_its_own_unit(heron):
    """Given a rise in degF, which a temperature is told in, then it is refused, not shifted by
    459.67; 180 degF of rise are 100 K."""
    with pytest.raises(errors.RefusedUnit, match="degF rise"):
        heron.size("stop.speed", "full.stop.front_rise <= 180 degF")
    asked = [f"full.stop.front_rise <= {rise}" for rise in ("180 degF rise", "100 K")]
    assert str(heron.size("stop.speed", asked[0])) == str(heron.size("stop.speed", asked[1]))


def test_a_rise_of_two_vehicles_is_no_temperature(heron):
    """A rise of about 107 K was told as -266.5 degF."""
    text = str(libbrake.compare(libbrake.load(BEFORE), heron))
    assert "degF rise" in text and "-26" not in text.partition("stop.front_rise")[2][:150]


def test_answers_have_names_columns_and_copies(heron):
    pandas = pytest.importorskip("pandas")
    found = heron.size(PISTON, "us.135.cold")
    assert found.answers[0].value == found.answers.column("value")[0]
    assert isinstance(found.changes.to_pandas(), pandas.DataFrame)
    again = pickle.loads(pickle.dumps(found))
    assert again == found and str(again) == str(found)
    assert "qualified inspector" in " ".join(str(found).split())
    with pytest.raises(AttributeError, match="answers"):
        found.answer


# The pull of the parking brake stands in both: it is carried to the tyres of before.
PULLED = (ROOT / "tests/vehicles/badger-before.ini", ROOT / "tests/vehicles/badger-after.ini")
beside_the_vehicles = pytest.mark.skipif(not PULLED[0].exists(), reason="not in the archive")


@beside_the_command
@beside_the_vehicles
def test_a_pull_that_stands_in_both_files_is_carried_as_by_the_command():
    was, now = map(libbrake.load, PULLED)
    compared = json.loads(said("compare", *PULLED, "--json"))
    assert libbrake.compare(was, now).to_dict() == compared
    checked = json.loads(said("check", PULLED[1], "--before", PULLED[0], "--json"))
    assert now.check(before=was).to_dict() == checked


@beside_the_command
@beside_the_vehicles
def test_the_report_carries_it_too(tmp_path):
    was, now = map(libbrake.load, PULLED)
    text = now.report(before=was).text
    shown = said("report", PULLED[1], "--before", PULLED[0], "--text")
    (row,) = [line for line in shown.splitlines() if line.startswith("  hazard.parking")]
    assert row in text.splitlines()


# ---- what was lost, lists of parts, a cool-down ----


@beside_the_command
def test_what_was_lost_is_regained_as_by_the_command(heron):
    before = libbrake.load(BEFORE)
    words = ["--before", BEFORE, "--for", "regained"]
    same(heron.size(PISTON, "regained", before=before), "size", HERON, "--by", PISTON, *words)
    same(heron.size({"tyre": ["LT285/75R16"]}, "regained", before=before), "size", HERON,
         "--by", "tyre=LT285/75R16", *words)  # fmt: skip
    found = heron.size(PISTON, "all", rules="us")
    same(found, "size", HERON, "--by", PISTON, "--for", "all", "--rules", "us")
    with pytest.raises(ValueError, match="target: regained wants before="):
        heron.size(PISTON, "regained")


@beside_the_command
def test_a_list_of_parts_is_a_file_or_sizes_by_line(heron, tmp_path):
    path = tmp_path / "parts.csv"
    path.write_text("part,size\nmaster.bore,7/8 in\nmaster.bore,0.0254 m\n")
    words = ["--by", BORE, "--parts", path, "--for", "hazard.floor"]
    expected = json.loads(said("size", HERON, *words, "--json"))
    for parts in (path, {BORE: ["7/8 in", 0.0254]}):
        heron.take_parts(parts)
        assert heron.size([BORE], "hazard.floor").to_dict() == expected
        assert heron.size({BORE: None}, "hazard.floor").to_dict() == expected
    with pytest.raises(ValueError, match="no size of front.disc.piston_diameter"):
        heron.size([PISTON], "all")
    heron.take_parts(None)
    with pytest.raises(ValueError, match="no size of master.bore"):
        heron.size([BORE], "all")
    path.write_text("part,size\nmaster.bor,7/8 in\n")
    with pytest.raises(errors.RefusedUnknown, match="parts.csv:2: no part 'master.bor'"):
        heron.take_parts(path)


def cooled(vehicle):
    """Both rotors after a descent, every other second, as a log: of the air 1.2 times as good."""
    vehicle.set({"heat.cooling": 1.2, "heat.ambient": "18 degC"})
    found = vehicle.heat(descent=("8 %", "3 km", "50 km/h"), cool=("20 min", "60 km/h")).history
    off = [at for at, force in enumerate(found["pedal_force"]) if force > 0][-1] + 2
    names = {"time": "time", "speed": "speed", "front_mean": "front_temperature",
             "rear_mean": "rear_temperature"}  # fmt: skip
    return {to: list(found[name][off::2]) for name, to in names.items()}


@beside_the_command
def test_a_cool_down_is_that_of_the_command_and_tells_the_air_it_was_made_of(heron, tmp_path):
    log = cooled(heron.copy())
    heron.heat.ambient = "18 degC"
    found = heron.cooldown(log)
    path = tmp_path / "log.csv"
    units = {"time": "s", "speed": "m/s", "front_temperature": "K", "rear_temperature": "K"}
    heads = {name: f"{name} [{unit}]" for name, unit in units.items()}
    rows = zip(*(map(repr, map(float, log[name])) for name in heads))
    path.write_text("\n".join(map(",".join, [heads.values(), *rows])) + "\n")
    of_file = heron.cooldown(path)
    same(of_file, "heat", HERON, "--cooldown", path, "--set", "heat.ambient=18degC")
    assert found.summary == of_file.summary
    told = found.summary.cooling
    assert told.p05 < 1.2 < told.p95 and told.value == pytest.approx(1.2, rel=0.05)
    with pytest.raises(errors.Refused, match="log.csv"):
        path.write_text("time [s],speed [m/s]\n0,1\n1,1\n")
        heron.cooldown(path)
