# SPDX-License-Identifier: MIT
"""`stopmargin spread` as a user meets it: what is printed, the same bytes each time, exit
status."""
import functools
import json
import math
import os
import re
import subprocess

import pytest

from file import plain

CAUTION = (
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a"
    " qualified inspector before the vehicle is driven on the road."
)
HERON = str(plain.ROOT / "examples" / "heron.ini")
FEW = ("--samples", "1024")


@functools.cache
def spread(*options, file=HERON, threads=None):
    environment = {**os.environ, **({"OMP_NUM_THREADS": str(threads)} if threads else {})}
    done = subprocess.run(
        [plain.PROGRAM, "spread", file, *options], capture_output=True, text=True, env=environment
    )
    return done.returncode, done.stdout, done.stderr


def report(*options, rules="all", **more):
    rules = () if "--rules" in options else ("--rules", rules)
    status, text, error = spread(*options, *rules, "--json", **more)
    assert (status in (0, 1, 3), error) == (True, "")
    return json.loads(text, parse_constant=plain.refuse_constant)


def words(text):
    return " ".join(text.split())


def vehicle(tmp_path, *changes, text=plain.MEETS):
    path = tmp_path / "vehicle.ini"
    path.write_text(plain.changed(*changes, text=text))
    return str(path)


# ---- the command of the manual -------------------------------------------------------------------


def test_many_samples_as_json():
    status, text, error = spread("--samples", "65536", "--rules", "all", "--json")
    found = json.loads(text, parse_constant=plain.refuse_constant)
    assert (status, error) == (1, "")
    assert found["caution"] == CAUTION
    assert found["samples"] == 65536 and found["base_samples"] == 4096
    inputs = [one["path"] for one in found["inputs"]]
    causes = [one["id"] for one in found["causes"]]
    errors = ["model.stop", "model.balance", "model.parking", "model.stroke", "model.heat"]
    judged = [one for one in found["criteria"] if one["probability"] is not None]
    assert len(judged) > 25
    for one in judged:
        assert 0 <= one["probability"] <= 1
        assert 3 / 65536 <= one["probability_error"] < 0.02
        ordered = list(one["percentiles"].values())
        assert list(one["percentiles"]) == ["p05", "p25", "p50", "p75", "p95"]
        assert ordered == sorted(ordered)
        of = found["sensitivity"][one["id"]]
        assert list(of) == inputs + causes + errors
        # first order indices add up to no more than all, total ones to no less, but for noise:
        # twice the half width that holds it in 95 of 100
        noise = math.sqrt(sum(index["first_error"] ** 2 for index in of.values()))
        assert sum(index["first"] for index in of.values()) < 1 + 2 * noise
        assert sum(index["total"] for index in of.values()) > 0.9


def test_the_summary_names_what_decides_the_limiting_margin():
    found = report(*FEW)
    judged = [
        one for one in found["criteria"]
        if one["probability"] is not None and one["scope"] in ("hazard", "binds")
    ]  # fmt: skip
    limiting = min(judged, key=lambda one: (one["probability"], one["percentiles"]["p50"]))
    summary = found["summary"]
    assert summary["limiting"] == limiting["id"]
    of = found["sensitivity"][limiting["id"]]
    assert summary["measure_next"] == max(of, key=lambda path: of[path]["total"])
    assert summary["decides"] == of[summary["measure_next"]]["total"]
    assert summary["all_probability"] <= limiting["probability"]


def test_the_answer_comes_first_in_words():
    status, text, error = spread(*FEW)
    assert (status, error) == (1, "")
    assert max(map(len, text.splitlines())) <= 80
    assert all(line == line.rstrip() for line in text.splitlines())
    assert text.isascii()
    assert words(text).count(CAUTION) == 1 and text.splitlines()[1].startswith("CAUTION: ")
    heads = re.findall(r"^([A-Z]\w+)  +", text, re.MULTILINE)[:4]
    assert heads == ["Verdict", "Limiting", "Measure", "Samples"]
    measure = (
        r"Measure [\w.]+ better: it decides \d+ % \(\+- \d+\) of the uncertainty of that margin\."
    )
    assert re.search(measure, words(text))
    assert "m/s2" in text and "ft/s2" in text


def leading(text, requirement):
    """What the text says decides a requirement: (name, percent, percent alone)."""
    part = text.partition("\nWhat decides\n")[2].partition("\nShared causes\n")[0]
    row = re.search(rf"^  {re.escape(requirement)}  .*(?:\n {{10}}.*)*", part, re.MULTILINE)
    return row and re.findall(r"([\w.]+) (-?\d+) \(alone (-?\d+)\)", words(row[0]))


def test_what_decides_each_requirement_is_said_the_most_first():
    """Given a requirement that was judged, when what decides it is read, then it begins with what
    has the largest total index, and each has its percents; of one that was not judged nothing is
    said.
    """
    _, text, _ = spread(*FEW)
    found = report(*FEW, rules="own")
    for one in found["criteria"]:
        told = leading(text, one["id"])
        assert (told is not None) == (one["probability"] is not None)
        if told is None or not told:
            continue
        of = found["sensitivity"][one["id"]]
        order = sorted(of, key=lambda path: of[path]["total"], reverse=True)
        assert [name for name, _, _ in told] == order[: len(told)] and len(told) == 3
        for name, total, alone in told:
            assert float(total) == pytest.approx(100 * of[name]["total"], abs=0.501)
            assert float(alone) == pytest.approx(100 * of[name]["first"], abs=0.501)


def test_text_and_json_say_the_same():
    _, text, _ = spread(*FEW)
    for one in report(*FEW, rules="own")["criteria"]:
        line = re.search(rf"^  {re.escape(one['id'])} +([\d.]+) +([\d.]+)", text, re.MULTILINE)
        assert (line is not None) == (one["probability"] is not None)
        if line:
            assert float(line[1]) == pytest.approx(100 * one["probability"], abs=0.0051)
            assert float(line[2]) == pytest.approx(100 * one["probability_error"], abs=0.0051)


def test_margins_as_stated_are_those_of_check():
    stated = json.loads(plain.run("check", HERON, "--json").stdout)
    same = {other["id"]: other for other in stated["criteria"]}
    for one in report(*FEW, rules="own")["criteria"]:
        other = same[one["id"]]
        assert (one["margin"], one["reason"]) == (other["margin"], other["reason"])


def test_what_a_sample_is_not_held_to_it_does_not_miss():
    found = report("--set", "vehicle.top_speed=126 km/h +- 4 km/h", *FEW)
    one = next(one for one in found["criteria"] if one["id"] == "us.135.high_speed")
    # 1 km/h of a sigma of 4/1.96 above the 125 km/h from which the clause applies: Phi(0.49)
    assert one["probability"] >= 1 - 0.688 - 0.01


@pytest.mark.parametrize("example", ["heron", "heron-before"])
def test_spread_says_the_words_of_check(example):
    """Given one file, when check and spread judge it, then each requirement has one word: both draw
    parts of the same samples."""
    file = str(plain.ROOT / "examples" / f"{example}.ini")
    checked = plain.check(open(file, "rb").read())["criteria"]
    drawn = {one["id"]: one for one in report(*FEW, rules="own", file=file)["criteria"]}
    for one in checked:
        if one["id"] in drawn:
            assert drawn[one["id"]]["verdict"] == one["verdict"], one["id"]


# ---- the same bytes ------------------------------------------------------------------------------


@pytest.mark.parametrize("form", [(), ("--json",)])
def test_the_same_bytes_each_time_for_any_number_of_threads(form):
    first = spread(*FEW, *form)
    for threads in (1, 2, 7):
        assert spread(*FEW, *form, threads=threads) == first


# ---- options -------------------------------------------------------------------------------------


def test_shapes_for_all_and_for_one():
    shapes = {one["path"]: one["shape"] for one in report(*FEW)["inputs"]}
    assert set(shapes.values()) == {"normal"}
    found = report(*FEW, "--shape", "uniform", "--shape", "front.disc.pads.mu=triangular")
    shapes = {one["path"]: one["shape"] for one in found["inputs"]}
    assert shapes.pop("front.disc.pads.mu") == "triangular"
    assert set(shapes.values()) == {"uniform"}
    # the last word counts
    found = report(*FEW, "--shape", "front.disc.pads.mu=triangular", "--shape=uniform")
    assert {one["shape"] for one in found["inputs"]} == {"uniform"}


def test_rules_choose_the_criteria():
    ids = [one["id"] for one in report(*FEW, "--rules", "eu")["criteria"]]
    assert ids and all(one.startswith(("eu.", "hazard.")) for one in ids)


def test_a_setting_moves_the_probability():
    before, after = (
        next(one for one in report(*FEW, *options)["criteria"] if one["id"] == "us.135.parking")
        for options in ((), ("--set", "parking.factor=3"))
    )
    assert after["probability"] > before["probability"] + 0.3


@pytest.mark.parametrize(
    "options, complaint",
    [
        (("--samples", "1000"), "--samples '1000'; accepts 1024, 2048, 4096"),
        (("--samples", "0"), "--samples '0'; accepts"),
        (("--samples", "-2048"), "--samples '-2048'; accepts"),
        (("--samples", "524288"), "up to 262144"),
        (("--samples", "99999999999999999999999"), "accepts"),
        (("--samples", "2048x"), "--samples '2048x'; accepts"),
        (("--samples", "nan"), "--samples 'nan'; accepts"),
        (("--samples", ""), "--samples ''; accepts"),
        (("--samples",), "accepts 1024"),
        (("--shape", "round"), "--shape 'round'; accepts normal, uniform, triangular"),
        (("--shape", "front.disc.pads.mu=round"), "--shape 'round'"),
        (("--shape", "front.pads=uniform"), "unknown path 'front.pads'"),
        (("--shape", "front.axle.brake=uniform"), "front.axle.brake has no tolerance"),
        (("--shape", "vehicle.mass=uniform"), "vehicle.mass has no tolerance of its own"),
        (("--shape", "=uniform"), "unknown path ''"),
        (("--rules", "moon"), f"did you mean own? It {plain.ACCEPTED}"),
        (("--set", "front.disc.pads.mu=7"), "front.disc.pads.mu"),
        (
            ("--frob",),
            "unknown option '--frob'; accepts --samples, --shape, --fade, --set, --rules",
        ),
        (("another.ini",), "one file at a time"),
    ],
)
def test_wrong_options_are_refused_in_words(options, complaint):
    status, text, error = spread(*options)
    assert (status, text) == (2, "")
    assert complaint in error


def test_too_many_shapes_are_refused():
    status, _, error = spread(*["--shape=normal"] * 65)
    assert status == 2 and "accepts up to 64 times --shape" in error


def test_without_a_file():
    done = plain.run("spread")
    assert done.returncode == 2 and b"spread wants a vehicle file" in done.stderr


@pytest.mark.parametrize("file", ["/nowhere.ini", "/dev/null", "/"])
def test_files_that_are_none(file):
    status, text, error = spread(file=file)
    assert (status, text) == (2, "")
    assert error.startswith(file)


# ---- vehicles ------------------------------------------------------------------------------------


def test_a_vehicle_that_meets_each_in_95_of_100_ends_with_0(tmp_path):
    status, text, error = spread(*FEW, file=vehicle(tmp_path))
    assert (status, error) == (0, "")
    assert "Verdict   meets. Of what binds it (DE, private, 1999): " in text
    below = {
        (one["id"], one["scope"])
        for one in report(*FEW, file=vehicle(tmp_path))["criteria"]
        if one["probability"] is not None and one["probability"] < 0.95
    }
    assert below == {("au.nsw.plate_assist_out", "screen")}  # for comparison: no word follows


def test_what_cannot_be_said_ends_with_3_and_is_named(tmp_path):
    file = vehicle(tmp_path, "[rear.axle] side_difference")
    status, text, error = spread(*FEW, file=file)
    assert (status, error) == (3, "")
    assert "1 without an input" in words(text)
    reason = "cannot say: axle.side_difference must be measured"
    assert f"eu.45.sides - - - - - - - {reason}" in words(text)
    assert leading(text, "eu.45.sides") is None
    one = next(one for one in report(*FEW, file=file)["criteria"] if one["id"] == "eu.45.sides")
    assert one["probability"] is None
    assert set(one["percentiles"].values()) == {None}


def test_a_margin_without_end_is_said_in_words_and_null_in_json(tmp_path):
    # Both axles turn together: the rear never takes the lead.
    file = vehicle(tmp_path, "[driveline] centre = locked", "[vehicle] antilock = none")
    one = next(
        one for one in report(*FEW, file=file)["criteria"] if one["id"] == "us.135.lock_order"
    )
    assert one["probability"] == 1 and set(one["percentiles"].values()) == {None}
    _, text, _ = spread(*FEW, "--rules", "all", file=file)
    assert re.search(r"us\.135\.lock_order +100\.00 +\d\.\d\d( +no end){5}\n", text)


@pytest.mark.parametrize("file", plain.EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_drawn(file):
    found = report(*FEW, file=str(file))
    assert found["summary"]["measure_next"]


def test_hot_performance_is_drawn_when_asked_for(tmp_path):
    """Given a vehicle whose heat cannot be said, for want of a rotor's mass, each requirement of
    hot performance is there and says so; without --fade none is."""
    path = tmp_path / "vehicle.ini"
    path.write_text(plain.changed("[vehicle] rated_mass = 2000 kg"))
    for option, there in ((("--fade",), True), ((), False)):
        done = plain.run("spread", str(path), "--samples", "1024", "--json", *option)
        criteria = json.loads(done.stdout)["criteria"]
        hot = [one for one in criteria if one["id"] == "un.13h.hot"]
        assert bool(hot) == there
        assert all(one["judged"] == 0.0 and "heat" in one["reason"] for one in hot)
