# SPDX-License-Identifier: MIT
"""`stopmargin size` as a user meets it: answers, lists, tyres, refusals, exit status."""
import json
import math

import pytest

from file import plain

CAUTION = (
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a"
    " qualified inspector before the vehicle is driven on the road."
)
BEFORE = str(plain.ROOT / "examples" / "heron-before.ini")
HERON = str(plain.ROOT / "examples" / "heron.ini")
COLD = plain.without_heat("heron.ini")
PISTON = ("--by", "front.disc.piston_diameter")
TYRES = "35x12.50R17LT,LT285/75R16,33x12.50R17LT,LT305/70R17"
KEYS = {
    "libbrake",
    "caution",
    "by",
    "for",
    "within",
    "answers",
    "limits",
    "changes",
    "combinations",
}


def size(*options, file=HERON):
    done = plain.run("size", file, *options)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def told(*options, file=HERON):
    status, text, error = size(*options, "--json", file=file)
    assert error == ""
    return status, json.loads(text, parse_constant=plain.refuse_constant)


def words(text):
    return " ".join(text.split())


def checked(*settings, rules="all", file=COLD):
    options = [word for setting in settings for word in ("--set", setting)]
    done = plain.run("check", file, "--json", "--rules", rules, *options)
    return json.loads(done.stdout)


# ---- one quantity --------------------------------------------------------------------------------


def test_the_command_of_the_manual():
    status, found = told(*PISTON, "--for", "decel at 300 N = 7.0 m/s2")
    assert KEYS <= found.keys()
    assert found["caution"] == CAUTION
    by = {"path": PISTON[1], "unit": "m", "now": 0.048, "sizes": None, "note": None}
    assert found["by"] == [by]
    wanted = found["for"][0]
    assert (wanted["name"], wanted["relation"]) == ("full.deceleration.at_pedal_force", "=")
    assert (wanted["value"], wanted["unit"]) == (7.0, "m/s2")
    # Heron cannot: its pedal or its tyres come to their end first
    assert status == 1
    assert found["answers"] == []
    limits = found["limits"]
    assert limits["answered"] is False and limits["moves"] is True
    assert wanted["now"] <= limits["nearest"] < 7.0
    assert "road.adhesion" in [held["path"] for held in limits["held_by"]]


def test_the_shorthand_is_the_path_with_the_force_set():
    short = told(*PISTON, "--for", "decel at 250 N = 5.5 m/s2")
    long = told(
        *PISTON,
        "--for",
        "full.deceleration.at_pedal_force = 5.5 m/s2",
        "--set",
        "driver.pedal_force=250 N",
    )
    assert short == long
    assert short[0] == 0


def test_us_units_give_the_same():
    _, si = told(*PISTON, "--for", "decel at 200 N = 4.572 m/s2", "--within", "25.4 mm,76.2 mm")
    _, us = told(*PISTON, "--for", "decel at 44.961789 lbf = 15 ft/s2", "--within", "1 in,3 in")
    assert len(si["answers"]) == len(us["answers"]) > 0
    for one, other in zip(si["answers"], us["answers"]):
        assert one["value"] == pytest.approx(other["value"], rel=1e-7)


def test_an_answer_is_what_check_says_of_it():
    status, found = told(*PISTON, "--for", "decel at 250 N = 5 m/s2", "--within", "30mm,50mm")
    assert status == 0
    (answer,) = found["answers"]
    assert (answer["unit"], answer["side"], answer["kind"]) == ("m", "or more", "crossing")
    for factor, compare in ((1.0, math.isclose), (0.999, float.__gt__), (1.001, float.__lt__)):
        got = checked(
            "driver.pedal_force=250 N", f"{PISTON[1]}={answer['value'] * factor:.17g} m"
        )["results"]["full.deceleration.at_pedal_force"]["value"]
        assert compare(5.0, got)


def test_a_figure_of_the_fade_procedure_is_an_answer_like_any_other():
    """The fade procedure is good to 0.1 K, so is the answer."""
    status, found = told(
        "--by", "front.disc.rotor_mass", "--for", "fade.front_face = 500 degC",
        "--within", "7kg,14kg",
    )
    assert status == 0
    (answer,) = found["answers"]
    got = checked(f"front.disc.rotor_mass={answer['value']:.17g} kg", file=HERON)
    assert got["results"]["fade.front_face"]["value"] == pytest.approx(773.15, abs=0.1)


def test_a_criterion_is_at_its_limit_at_the_figure_that_is_read_off():
    status, text, _ = size("--by", "front.tyre.rollout", "--for", "us.135.cold")
    assert status == 0
    sentence = "Answer front.tyre.rollout of 3.323 m (10.9 ft) or less reaches the limit of"
    assert sentence + " us.135.cold." in words(text)
    for rollout, reached in (("3.323 m", True), ("3.325 m", False), ("10.9 ft", True)):
        criteria = {c["id"]: c for c in checked(f"front.tyre.rollout={rollout}")["criteria"]}
        assert (criteria["us.135.cold"]["margin"] >= 0) == reached


def test_a_margin_can_be_wanted():
    _, met = told("--by", "front.tyre.rollout", "--for", "us.135.cold")
    _, more = told("--by", "front.tyre.rollout", "--for", "us.135.cold = 3 %")
    assert more["answers"][-1]["value"] < met["answers"][-1]["value"]
    rollout = more["answers"][-1]["value"]
    criteria = {c["id"]: c for c in checked(f"front.tyre.rollout={rollout:.17g} m")["criteria"]}
    assert criteria["us.135.cold"]["margin"] == pytest.approx(0.03, abs=1e-9)


def test_what_was_lost_is_regained_at_its_answer():
    """`compare` works the same ratio out with shares: now over before is 1 at the answer."""
    options = ("--before", BEFORE, *PISTON, "--for", "regained")
    status, found = told(*options)
    assert status == 0
    assert (found["for"][0]["name"], found["for"][0]["relation"]) == ("regained", ">=")
    (answer,) = found["answers"]
    at = f"{PISTON[1]}={answer['value']:.17g} m"
    done = plain.run("check", HERON, "--before", BEFORE, "--set", at, "--json")
    compared = json.loads(done.stdout)
    both = compared["changes"]["torque_per_need"][-1]
    assert both["axle"] == "both axles"
    assert both["ratio"] == pytest.approx(1.0, abs=1e-9)
    _, text, _ = size(*options)
    assert "or more reaches the brake torque per need of the vehicle before." in words(text)
    _, most = told("--before", BEFORE, "--by", "tyre=" + TYRES, "--for", "regained")
    assert most["answers"][0]["marking"] == "LT305/70R17"


def test_sizes_may_come_from_the_persons_own_list(tmp_path):
    parts = tmp_path / "mine.csv"
    parts.write_text('part,size\nmaster.bore,1 in\nmaster.bore,"7/8"""\nmaster.bore,22.2 mm\n')
    options = ("--by", "master.bore", "--for", "un.13h.type0")
    listed = told(*options, "--parts", str(parts))
    assert listed == told("--by", "master.bore=1 in,7/8 in,22.2 mm", *options[2:])
    status, _, error = size("--by", "pedal.ratio", *options[2:], "--parts", str(parts))
    assert status == 2 and "--parts has no size of it" in error


def test_what_was_lost_wants_the_vehicle_before():
    status, _, error = size(*PISTON, "--for", "regained")
    assert status == 2
    assert "--before FILE, or [vehicle] before = FILE" in words(error)


def test_rules_say_whose_requirements_are_wanted():
    """The least margin of `all` is that of the rows that check judges by the same rules."""
    for rules in ("own", "us", "un"):
        _, found = told(*PISTON, "--for", "all", "--rules", rules)
        rows = checked(rules=rules)["criteria"]
        asked = [r for r in rows if r["scope"] not in ("outside", "screen")]
        least = min(r["margin"] for r in asked if r["margin"] is not None and not hot(r["id"]))
        assert found["for"][0]["now"] == pytest.approx(least, rel=1e-12)


def hot(name):
    return any(word in name for word in ("hot", "recovery", "hazard.fluid"))


def test_verdicts_that_change_are_listed():
    status, found = told("--by", "master.bore", "--for", "full.pedal.travel_used <= 70 %")
    assert status == 0
    at = found["answers"][0]["value"]
    before = {c["id"]: c["verdict"] for c in checked(rules="own")["criteria"]}
    after = {c["id"]: c for c in checked(f"master.bore={at:.17g} m", rules="own")["criteria"]}
    expected = [
        (name, before[name], c["verdict"])
        for name, c in after.items()
        if before.get(name, c["verdict"]) != c["verdict"] and not hot(name)
    ]
    assert sorted((c["id"], c["from"], c["to"]) for c in found["changes"]) == sorted(expected)
    assert expected  # a larger bore asks for more force
    text = words(size("--by", "master.bore", "--for", "full.pedal.travel_used <= 70 %")[1])
    assert "Verdicts that change there" in text
    assert all(f"[{name}," in text for name, _, _ in expected)


def test_without_an_answer_the_nearest_value_stands_in_the_sentence():
    status, text, _ = size(*PISTON, "--for", "decel at 300 N = 7.0 m/s2")
    assert status == 1
    lines = text.splitlines()
    assert lines[0] == "Heron (invented), after refit"
    assert lines[2].startswith("Answer    none: no front.disc.piston_diameter")
    assert "the best value is" in words(text)
    assert "with road.adhesion a tenth higher" in words(text)


def test_the_tyres_may_be_what_limits():
    status, found = told(
        "--by", "booster.gain", "--for", "empty.deceleration.most = 9 m/s2", "--within", "2,8"
    )
    assert status == 1
    assert found["limits"]["held_by"][0]["path"] == "road.adhesion"


def test_the_range_may_be_what_limits():
    status, text, _ = size(*PISTON, "--for", "decel at 250 N = 5.5 m/s2", "--within", "20mm,30mm")
    assert status == 1
    assert "at 30 mm (1.181 in)" in words(text)
    assert "the range: the best value stands at its end (--within)" in words(text)


def test_what_does_not_matter_is_told():
    status, text, _ = size("--by", "stop.reaction_time", "--for", "full.stop.distance = 60 m")
    assert status == 1
    assert "it does not move it" in words(text)


def test_any_value_may_do():
    status, text, _ = size("--by", "stop.reaction_time", "--for", "full.stop.distance <= 100 m")
    assert status == 0
    assert "stop.reaction_time of any value of the range gives" in words(text)


def test_what_cannot_be_said_ends_with_3():
    status, found = told("--by", "road.adhesion", "--for", "us.570.sides")
    assert status == 3
    assert found["within"]["cannot_say"] == [[0.05, 1.3]]
    assert found["limits"]["nearest"] is None


def test_shoes_that_grab_are_passed_over_and_told():
    status, found = told("--by", "rear.drum.lining.mu", "--for", "full.stop.distance = 65 m",
                         "--within", "0.05,0.9")
    assert status == 0
    assert len(found["answers"]) > 0
    (stretch,) = found["within"]["cannot_say"]
    assert stretch[1] == 0.9 and stretch[0] > found["answers"][-1]["value"]


# ---- lists ---------------------------------------------------------------------------------------

LISTS = (
    "--by=front.disc.piston_diameter=45 mm,48 mm,51 mm",
    "--by=master.bore=22.2 mm,23.8 mm,1 in",
)
TARGETS = ("--for", "full.pedal.travel_used <= 60 %", "--for", "us.135.cold >= 5 %")


def test_combinations_are_those_that_check_accepts():
    status, found = told(*LISTS, *TARGETS)
    assert status == 0
    expected = []
    for piston in (45, 48, 51):
        for bore in (22.2, 23.8, 25.4):
            results = checked(
                f"front.disc.piston_diameter={piston} mm", f"master.bore={bore} mm"
            )
            used = results["results"]["full.pedal.travel_used"]["value"]
            margin = next(c for c in results["criteria"] if c["id"] == "us.135.cold")["margin"]
            least = min(1 - used / 0.60, margin - 0.05)
            if least >= 0:
                expected.append((least, [piston / 1000, bore / 1000]))
    expected.sort(reverse=True)
    assert 0 < len(expected) < 9
    assert len(found["combinations"]) == len(expected)
    for one, (margin, sizes) in zip(found["combinations"], expected):
        assert one["value"] == pytest.approx(sizes, rel=1e-12)
        assert one["margin"] == pytest.approx(margin, abs=1e-12)
    count = found["count"]
    assert count["cases"] == 9
    assert count["work"] == len(expected)
    assert max(count["fall_short_of"]) <= 9 - len(expected) <= sum(count["fall_short_of"])


def test_combinations_in_words():
    status, text, _ = size(*LISTS, *TARGETS)
    assert status == 0
    answer = "of 9 combinations meet what was asked; most margin has front.disc.piston_diameter"
    assert answer in words(text)
    assert "fall short of full.pedal.travel_used 60 % or less" in text


def test_no_combination_ends_with_1():
    status, text, _ = size(*LISTS, "--for", "full.pedal.travel_used <= 10 %")
    assert status == 1
    assert "none of the 9 combinations meets what was asked" in text
    assert "9 fall short of full.pedal.travel_used 10 % or less" in words(text)


# ---- tyres ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("form", [(f"--by=tyre={TYRES}",), ("--by", "tyre", "--within", TYRES)])
def test_the_largest_tyre_that_the_brakes_carry(form):
    status, found = told(*form, "--for", "un.13h.circuit >= -5 %")
    assert status == 0
    diameters = [tyre["diameter"] for tyre in found["tyres"]]
    assert diameters == sorted(diameters) and len(diameters) == 4
    carried = [tyre for tyre in found["tyres"] if tyre["margin"] >= 0]
    assert 0 < len(carried) < 4
    assert found["answers"][0]["marking"] == carried[-1]["marking"] == "LT305/70R17"
    assert found["answers"][0]["value"] == pytest.approx(0.859)  # 432 mm + 2 x 305 mm x 0.70
    assert "not a measured one" in found["by"][0]["note"]


def test_tyres_in_words():
    status, text, _ = size("--by", f"tyre={TYRES}", "--for", "us.135.cold")
    assert status == 0
    assert (
        "Answer 35x12.50R17LT is the largest of these tyres that reaches the limit of us.135.cold."
        " Other"
        " requirements were not looked at" in words(text)
    )
    assert "not a measured one" in words(text)


def test_no_tyre_ends_with_1():
    status, text, _ = size("--by", f"tyre={TYRES}", "--for", "all")
    assert status == 1
    assert "none of these tyres reaches the limit of every requirement that can be said" in words(
        text
    )


# ---- what all have -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "options",
    [
        (*PISTON, "--for", "decel at 300 N = 7.0 m/s2"),
        ("--by", "master.bore", "--for", "us.135.engine_off"),
        ("--by", "vehicle.cg_height", "--for", "empty.balance.lock_deceleration = 7 m/s2"),
        (*LISTS, *TARGETS),
        ("--by", f"tyre={TYRES}", "--for", "us.135.cold"),
        ("--by", "road.adhesion", "--for", "us.570.sides"),
    ],
    ids=range(6),
)
def test_text_has_80_columns_and_the_caution(options):
    _, text, error = size(*options)
    assert error == ""
    assert max(map(len, text.splitlines())) <= 80
    assert all(line == line.rstrip() for line in text.splitlines())
    assert words(text).count(CAUTION) == 1 and text.splitlines()[1].startswith("CAUTION: ")
    assert text.splitlines()[2].startswith("Answer    ")
    assert text.isascii()


# ---- refusals ------------------------------------------------------------------------------------

FOR = ("--for", "us.135.cold")


@pytest.mark.parametrize(
    ("options", "message"),
    [
        ((), "size wants --by"),
        (PISTON, "size wants --for"),
        ((*PISTON, *FOR, "--fast"), "unknown option '--fast'; accepts --by, --for, --within"),
        ((*PISTON, *FOR, "other.ini"), "one file at a time"),
        (("--by", "front.disc.piston_diametre", *FOR), "did you mean front.disc.piston_diameter?"),
        (("--by", "zzzz", *FOR), "unknown path 'zzzz'; `stopmargin explain` lists all"),
        (("--by", "front.disc.pistons", *FOR), "accepts front.disc.piston_diameter"),
        (("--by", "valve.kind", *FOR), "--by valve.kind: not a number"),
        (("--by", "front.drum.diameter", *FOR), "this axle has a disc"),
        ((*PISTON, "--for", "us.135.colt"), "did you mean us.135.cold?"),
        ((*PISTON, "--for", "stop.distance = 60 m"), "did you mean full.stop.distance?"),
        ((*PISTON, "--for", "nothing of the kind"), "unknown result or criterion"),
        ((*PISTON, "--for", ""), "unknown result or criterion ''"),
        ((*PISTON, "--for", "full.stop.distance"), "a result wants a value"),
        ((*PISTON, "--for", "full.stop.distance = 60"), "has no unit"),
        ((*PISTON, "--for", "full.stop.distance = 60 kg"), "a length is wanted"),
        ((*PISTON, "--for", "full.stop.distance = far"), "number is wanted"),
        ((*PISTON, "--for", "full.stop.distance = nan m"), "number is wanted"),
        ((*PISTON, "--for", "full.stop.distance ="), "number is wanted"),
        ((*PISTON, "--for", "decel at 300 mm = 7 m/s2"), "a force is wanted"),
        ((*PISTON, "--for", "decel at = 7 m/s2"), "unknown result or criterion 'decel at'"),
        ((*PISTON, "--for", "decel at 300 N"), "a result wants a value"),
        ((*PISTON, *FOR, "--within", "48 mm"), "accepts LOW,HIGH"),
        ((*PISTON, *FOR, "--within", "60 mm,40 mm"), "accepts LOW,HIGH with LOW below HIGH"),
        ((*PISTON, *FOR, "--within", "1 mm,40 mm"), "got 1 mm; accepts 12 to 100 mm"),
        ((*PISTON, *FOR, "--within", "40 kg,50 kg"), "a length is wanted"),
        ((*PISTON, *FOR, "--within", ""), "number is wanted"),
        ((*PISTON, *FOR, *FOR), "one target for one --by PATH"),
        ((*PISTON, "--by", "master.bore", *FOR), "more than one quantity wants a list"),
        (("--by", "master.bore=22 mm", *PISTON, *FOR), "each wants a list of sizes"),
        (("--by", "master.bore=22 mm", "--by", "master.bore=23 mm", *FOR), "same quantity twice"),
        (("--by", "master.bore=22 mm,", *FOR), "number is wanted"),
        (("--by", "master.bore=22 mm", *FOR, "--within", "1 mm,2 mm"), "without a list"),
        ((*LISTS, "--for", "full.stop.distance = 60 m"), "accepts >= and <="),
        (("--by", "tyre", *FOR), "--by tyre wants one list of markings"),
        (("--by", "tyre=", *FOR), "got ''; accepts markings such as LT305/70R17"),
        (("--by", "tyre=LT305/70R17,big", *FOR), "got 'big'; accepts markings"),
        (("--by", "tyre=LT305/70R17", "--by", "master.bore=22 mm", *FOR), "nothing beside it"),
        (("--by", "tyre=" + "LT305/70R17," * 100, *FOR), "longer than"),
        ((*PISTON, *FOR, "--set", "master.bore=2 km"), "accepts"),
        ((*LISTS, "--for", "decel at 100 N >= 2 m/s2", "--for", "decel at 200 N >= 4 m/s2"),
         "one force"),
    ],
)
def test_wrong_words_are_refused(options, message):
    status, out, error = size(*options)
    assert (status, out) == (2, "")
    assert message in error


@pytest.mark.parametrize(
    ("text", "message"), [("", "holds no [section]"), ("[vehicle]\nmass = 1 kg\n", "1 kg")]
)
def test_wrong_files_are_refused(tmp_path, text, message):
    path = tmp_path / "vehicle.ini"
    path.write_text(text)
    status, out, error = size(*PISTON, *FOR, file=str(path))
    assert (status, out) == (2, "")
    assert message in error


def test_the_help_names_it_and_its_shorthand():
    text = " ".join(plain.run("size", "--help").stdout.decode().split())
    assert "stopmargin size FILE" in text
    assert "decel at 300 N" in text and "full.deceleration.at_pedal_force" in text
