# SPDX-License-Identifier: MIT
"""The command as a user meets it: words in, text or JSON out, exit status."""
import json
import random
import re
import subprocess

import pytest

from file import plain

CAUTION = (
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a"
    " qualified inspector before the vehicle is driven on the road."
)
CAUTION_LINE = "CAUTION: a calculation is not an approval; an inspector must check the brakes."
EXAMPLES = pytest.mark.parametrize("example", plain.EXAMPLES, ids=lambda path: path.stem)
VERSION = re.search(
    r'^#define BRAKE_VERSION "(.*)"$',
    (plain.ROOT / "libbrake" / "include" / "brake" / "version.h").read_text(),
    re.MULTILINE,
)[1]


def text_of(example, *options):
    done = plain.run("check", str(example), "--full", *options)
    assert done.returncode in (0, 1, 3) and done.stderr == b""
    return done.stdout.decode()


def json_of(example, *options):
    return plain.check(example.read_bytes(), *options)


def words(text):
    """Text without its line breaks."""
    return " ".join(text.split())


# ---- what `check` says ---------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["heron", "heron-before"])
def test_the_first_screen_answers_in_one_look(name):
    """Given any vehicle, when it is checked, then one screen holds the caution, the verdict, what
    limits, what to do and what is not met for sure; the whole answer says all of it too."""
    done = plain.run("check", str(plain.ROOT / "examples" / f"{name}.ini"))
    lines = done.stdout.decode().splitlines()
    report = json_of(plain.ROOT / "examples" / f"{name}.ini")
    assert len(lines) <= 24 and max(map(len, lines)) <= 80
    assert lines[1] == CAUTION_LINE
    heads = [line.split()[0] for line in lines if line[:1].strip()]
    assert [head for head in heads if head in ("Verdict", "Limits", "Do", "Measure", "More")] == [
        "Verdict", "Limits", "Do", "Measure", "More",
    ]  # fmt: skip
    text = words("\n".join(lines))
    assert f"[{report['summary']['limiting']}]" in text and CAUTION in text
    hazards = [
        c["id"]
        for c in report["criteria"]
        if c["id"].startswith("hazard.") and c["verdict"] == "falls short"
    ]
    assert all(name in text for name in hazards)
    assert ("Do not drive it on the road as it is" in text) == bool(hazards)


def test_the_vehicle_as_it_was_is_asked_for_where_nothing_else_tells(tmp_path):
    """Given no country and no vehicle before, then a changed vehicle reads as one as it was built:
    the first sentence asks for the latter. With either of both it does not."""
    vehicles = plain.ROOT / "tests" / "vehicles"
    text = (vehicles / "mule-after.ini").read_text()
    bare = tmp_path / "bare.ini"
    bare.write_text(text.replace("country = US\n", ""))
    before = ("--before", str(vehicles / "mule-before.ini"))

    def told(*words):
        lines = plain.run("check", *words).stdout.decode().splitlines()
        assert len(lines) <= 24
        return "name the vehicle as it was" in " ".join(lines[2:4])

    assert told(str(bare))
    assert not told(str(bare), *before)
    assert not told(str(vehicles / "mule-after.ini"))


@pytest.mark.parametrize(
    "name", ["minimal-afternoon", "gnat-after", "mule-after", "ibex-grabbing", "lynx-rear-heavy"]
)
def test_the_first_screen_is_one_whatever_there_is_to_say(name):
    """Given vehicles of which much is missing or short, then the screen stays one."""
    done = plain.run("check", str(plain.ROOT / "tests" / "vehicles" / f"{name}.ini"))
    assert len(done.stdout.decode().splitlines()) <= 24


@EXAMPLES
def test_check_begins_with_name_verdict_and_limiting_item(example):
    lines = text_of(example).splitlines()
    report = json_of(example)
    heads = [line.split()[0] for line in lines[:20] if line[:1].strip()]
    assert lines[0] == report["vehicle"]["vehicle.name"]["value"]
    assert lines[1] == CAUTION_LINE
    assert heads[2:5] == ["Verdict", "Limiting", "Together"] and "Measure" in heads
    start = words("\n".join(lines[1:20]))
    assert report["summary"]["limiting"] in start
    following = words("\n".join(lines[1:40]))
    assert report["summary"]["measure_next"] in following


@EXAMPLES
def test_check_names_both_load_cases_and_the_caution(example):
    text = text_of(example)
    assert re.search(r"^  result +empty +full$", text, re.MULTILINE)
    assert text.splitlines()[1] == CAUTION_LINE and words(text).count(CAUTION) == 1


@EXAMPLES
@pytest.mark.parametrize("rules", ["us", "un", "eu", "all"])
def test_exit_status_follows_from_the_criteria(example, rules):
    done = plain.run("check", str(example), "--json", "--rules", rules)
    report = json.loads(done.stdout)
    verdicts = [c["verdict"] for c in report["criteria"] if c["scope"] in ("hazard", "binds")]
    short, unsaid = verdicts.count("falls short"), verdicts.count("cannot say")
    binds = any(c["scope"] == "binds" for c in report["criteria"])
    assert done.returncode == (1 if short else 3 if unsaid or not binds else 0)
    assert report["summary"]["falls_short"] == short
    assert report["summary"]["cannot_say"] == unsaid
    assert report["summary"]["meets"] == verdicts.count("meets")


@EXAMPLES
def test_text_and_json_end_with_the_same_status(example):
    assert (
        plain.run("check", str(example)).returncode
        == plain.run("check", str(example), "--json").returncode
    )


@EXAMPLES
def test_json_is_one_object_with_everything(example):
    report = json_of(example)
    assert {"libbrake", "vehicle", "results", "criteria", "warnings", "caution"} <= report.keys()
    assert report["libbrake"] == VERSION
    assert report["caution"] == CAUTION
    for path, value in report["vehicle"].items():
        assert {"value", "unit", "tolerance", "from"} <= value.keys(), path
        assert value["from"] in ("measured", "catalogue", "estimated", "default"), path
    for path, result in report["results"].items():
        assert result.keys() == {"value", "unit"}, path
    for warning in report["warnings"]:
        assert warning["id"] and warning["text"]


@EXAMPLES
def test_json_criteria_have_their_figures(example):
    """margin: what it has over what it needs, less 1; so 0 is the verge."""
    for criterion in json_of(example)["criteria"]:
        assert {
            "id", "clause", "verdict", "value", "limit", "margin", "margin_p05", "margin_p95"
        } <= criterion.keys()
        margin = criterion["margin"]
        if margin is None:
            assert criterion["verdict"] == "cannot say" and criterion["reason"]
            assert criterion["p_meets"] is None and criterion["samples"] == 0
            continue
        # the rule of reference/method.md: by the least that P may be
        least = criterion["p_low"]
        word = "meets" if least >= 0.95 else "cannot say" if least >= 0.5 else "falls short"
        assert criterion["verdict"] == word
        assert 0 <= least <= criterion["p_meets"] + 1e-12 <= criterion["p_high"] + 2e-12
        hot = re.search("hot|recovery|hazard.fluid", criterion["id"])
        assert (
            criterion["samples"] == 128
            if hot
            else criterion["samples"] in (256, 512, 1024, 2048, 4096)
        )
        if None not in (criterion["margin_p05"], criterion["margin_p95"]):
            assert criterion["margin_p05"] <= criterion["margin_p95"]


@EXAMPLES
def test_limiting_item_is_the_one_least_often_met(example):
    report = json_of(example)
    counts = ("hazard", "binds")
    judged = [c for c in report["criteria"] if c["scope"] in counts and c["margin"] is not None]
    assert report["summary"]["limiting"] == min(
        judged, key=lambda c: (c["p_meets"], c["margin"])
    )["id"]


@EXAMPLES
def test_rules_divide_the_criteria(example):
    """Each criterion belongs to one family, or is a hazard, which stands in each; together they are
    all."""
    everything = json_of(example, "--rules", "all")["criteria"]
    hazards = {c["id"] for c in everything if c["id"].startswith("hazard.")}
    families = []
    for rules in plain.RULES[1:-1]:
        found = json_of(example, "--rules", rules)["criteria"]
        assert hazards <= {c["id"] for c in found}
        families.append([c for c in found if c["id"] not in hazards])
    everything = [c for c in everything if c["id"] not in hazards]
    assert sorted(c["id"] for family in families for c in family) == sorted(
        c["id"] for c in everything
    )
    assert all(family for family in families)
    by_id = {c["id"]: c for c in everything}
    # more may be drawn when another family is open: the figures at face value are the same
    drawn = {"p_meets", "p_low", "p_high", "samples", "not_worked_out", "verdict"}
    ends = {"margin_p05", "margin_p95"}
    for family in families:
        for c in family:
            other = by_id[c["id"]]
            told = c.keys() - drawn - (ends if other["samples"] != c["samples"] else set())
            assert all(other[key] == c[key] for key in told)


SHOWN = {"kg": 1, "m/s2": 1, "mm": 1e-3, "m": 1, "N": 1, "bar": 1e5, "cm3": 1e-6, "kJ": 1e3, "s": 1,
         "K": 1, "%": 0.01, "": 1, "N*m": 1}  # fmt: skip


@EXAMPLES
def test_numbers_of_the_text_are_those_of_the_json(example):
    report = json_of(example)["results"]
    found = re.findall(
        r"^  ([a-z_]+\.[a-z_]+) +([-0-9.e+]+)(?: (\S+))? +([-0-9.e+]+)(?: (\S+))?$",
        text_of(example),
        re.MULTILINE,
    )
    assert len(found) > 40
    for path, empty, empty_unit, full, full_unit in found:
        for load, shown, unit in (("empty", empty, empty_unit), ("full", full, full_unit)):
            value = report[f"{load}.{path}"]["value"]
            if shown == "-":
                assert value is None, path
            else:
                assert float(shown) == pytest.approx(value / SHOWN[unit], rel=6e-4, abs=1e-12), path


@EXAMPLES
def test_text_fits_80_columns_without_escape_codes(example):
    for done in (
        plain.run("check", str(example)),
        plain.run("--help"),
        plain.run("explain"),
        plain.run("explain", "circuits.split"),
    ):
        text = done.stdout.decode()
        assert max(map(len, text.splitlines())) <= 80
        assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]", text)


@EXAMPLES
@pytest.mark.parametrize("options", [(), ("--json",)], ids=["text", "json"])
def test_every_run_gives_the_same_bytes(example, options):
    first = plain.run("check", str(example), *options).stdout
    assert all(plain.run("check", str(example), *options).stdout == first for _ in range(3))


# ---- --set ---------------------------------------------------------------------------------------


@EXAMPLES
def test_a_bigger_tyre_costs_deceleration_in_proportion(example):
    """While no wheel locks, torque = deceleration x effective mass x radius, and the torque is that
    of the pressure: it stays. Follows from the definition; no valve moves with the body."""
    level = ("--set", "vehicle.rolling_resistance=0", "--set", "valve.anti_lift=1")
    before = json_of(example, *level)
    after = json_of(example, *level, "--set", "front.tyre.rollout=2.70 m")
    old = before["vehicle"]["front.tyre.rollout"]["value"]
    assert after["vehicle"]["front.tyre.rollout"]["value"] == 2.7
    assert after["vehicle"]["rear.tyre.rollout"]["value"] == 2.7
    for load in ("empty", "full"):
        for path in ("at_pedal_force", "brakes_alone"):
            path = f"{load}.deceleration.{path}"
            mass = f"{load}.mass.effective"
            was = before["results"][path]["value"] * before["results"][mass]["value"] * old
            now = after["results"][path]["value"] * after["results"][mass]["value"] * 2.7
            assert now == pytest.approx(was, rel=1e-9), path
            assert after["results"][path]["value"] < before["results"][path]["value"], path
        most = f"{load}.deceleration.most"
        assert after["results"][most]["value"] <= before["results"][most]["value"] * 1.01


@EXAMPLES
def test_settings_may_be_repeated(example):
    """Given two, both hold; given one twice, the later holds; with = or without it."""
    report = json_of(
        example,
        "--set", "vehicle.wheelbase=2.5 m",
        "--set=vehicle.wheelbase=2.6 m, measured",
        "--set", "road.adhesion = 0.5",
    )["vehicle"]  # fmt: skip
    assert report["vehicle.wheelbase"]["value"] == 2.6
    assert report["vehicle.wheelbase"]["from"] == "measured"
    assert report["road.adhesion"]["value"] == 0.5


@EXAMPLES
def test_setting_what_the_file_says_changes_nothing(example):
    wheelbase = "vehicle.wheelbase=2420 mm +- 4 mm, measured"
    assert json_of(example, "--set", wheelbase) == json_of(example)


def test_a_setting_wins_over_the_scales():
    heron = next(path for path in plain.EXAMPLES if path.stem == "heron")
    report = json_of(heron, "--set", "vehicle.mass=2.1 t")["vehicle"]
    assert report["vehicle.mass"]["value"] == 2100
    share = json_of(heron)["vehicle"]["vehicle.front_share"]["value"]
    assert report["vehicle.front_share"]["value"] == share


# ---- refusals ------------------------------------------------------------------------------------


def test_standard_input_that_is_no_vehicle_file():
    """printf 'x' | stopmargin check /dev/stdin"""
    done = plain.run("check", "/dev/stdin", given="x")
    assert done.returncode == 2
    assert done.stdout == b""
    assert done.stderr == (
        b"/dev/stdin:1: is none of [section], name = value, and comment (; or #)\n"
    )


@pytest.mark.parametrize(
    "line, complaint",
    [
        ((), "a verb is wanted"),
        (("chek", "a.ini"), "unknown verb 'chek'; did you mean check? It accepts new, check,"),
        (("check",), "check wants a vehicle file"),
        (
            ("check", "--jason", "a.ini"),
            "unknown option '--jason'; did you mean --json? It accepts --before, --parts,",
        ),
        (("check", "-j"), "unknown option '-j'"),
        (
            ("check", "--rules", "uk", "a.ini"),
            f"--rules 'uk'; did you mean us? It {plain.ACCEPTED}",
        ),
        (("check", "a.ini", "--rules"), f"--rules ''; {plain.ACCEPTED}"),
        (("check", "a.ini", "b.ini"), "one file at a time; got 'a.ini' and 'b.ini'"),
        (("check", "a.ini", *("--set", "a=b") * 65), "accepts up to 64 times --set"),
        (("explain", "a", "b", "c"), "one file at a time; got 'b' and 'c'"),
        (("explain", "nothing.at.all"), "unknown path 'nothing.at.all'"),
        (("explain", "vehicle.mas"), "unknown path 'vehicle.mas'; did you mean vehicle.mass?"),
        (("new", "a.ini", "b.ini"), "one file at a time"),
    ],
    ids=" ".join,
)
def test_misuse(line, complaint):
    done = plain.run(*line)
    first, second = done.stderr.decode().splitlines()
    assert (done.returncode, done.stdout) == (2, b"")
    assert first.startswith(f"stopmargin: {complaint}")
    # What is no verb has no help of its own.
    verb = f" {line[0]}" if line and line[0] in ("check", "explain", "new") else ""
    assert second == f"stopmargin: try `stopmargin help{verb}`"


@pytest.mark.parametrize(
    "line", [("--help",), ("--version",), ("explain",), ("new",), ("check", plain.EXAMPLES[0])]
)
def test_full_disk(line):
    with open("/dev/full", "wb") as full:
        done = subprocess.run([plain.PROGRAM, *line], stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 4
    assert b"could not be written" in done.stderr


# ---- the rest ------------------------------------------------------------------------------------


def test_version():
    done = plain.run("--version")
    assert (done.returncode, done.stdout.decode()) == (0, f"stopmargin {VERSION}\n")


WEAK = "[front.disc.pads] mu = 0.1"
UNTESTED = "[front.axle] side_difference"


@pytest.mark.parametrize(
    "status, changes",
    [
        (0, []),
        (1, [WEAK]),
        (2, ["[front.disc.pads] mu = 9"]),
        (3, [UNTESTED]),
        (1, [WEAK, UNTESTED]),  # what falls short counts before what cannot be said
    ],
    ids=["meets", "falls short", "refused", "cannot say", "both"],
)
def test_every_exit_status(status, changes):
    text = plain.changed(*changes, text=plain.MEETS)
    assert plain.run("check", "/dev/stdin", given=text).returncode == status


EXTREMES = """\
[vehicle] cg_height = 2 m
[vehicle] rolling_resistance = 0.05
[vehicle] antilock = fitted
[front.disc] threshold = 20 bar
[rear.drum] threshold = 20 bar
[rear.drum] brake_factor = 0.2
[circuits] split = one
[pedal] free_play = 50 mm
[driver] pedal_force_most = 10 N
[driveline] centre = locked
[parking] torque = 0 N*m
[trailer] mass = 8 t
[stop] speed = 1 m/s
[road] adhesion = 0.05
""".splitlines()


@pytest.mark.parametrize("change", EXTREMES)
def test_extreme_vehicles_give_json_without_nan(change):
    """plain.check refuses NaN and Infinity; a value that is never reached, such as the deceleration
    at which the rear locks first behind a locked centre drive, is null, and its margin too."""
    for criterion in plain.check(plain.changed(change))["criteria"]:
        if criterion["margin"] is None:
            assert criterion["value"] is None
            assert criterion["verdict"] != "meets" or criterion["unit"] == ""
        elif criterion["margin"] == -1:
            assert criterion["verdict"] == "falls short"


def mutated(text, chance):
    """The bytes with 1 to 8 of them changed, put in or taken out."""
    text = bytearray(text)
    for _ in range(chance.randint(1, 8)):
        at = chance.randrange(len(text))
        how = chance.randrange(4)
        if how == 0:
            text[at] = chance.randrange(256)
        elif how == 1:
            text.insert(at, chance.choice(b"0123456789.,+-=[](); \n\t%xek"))
        elif how == 2:
            del text[at : at + chance.randint(1, 20)]
        else:
            text[at:at] = text[at : at + chance.randint(1, 60)]
    return bytes(text)


@pytest.mark.parametrize("seed", range(10))
def test_damaged_files_never_crash(seed):
    """30 damaged files of one seed: a verdict or a refusal, and never half of each."""
    chance = random.Random(seed)
    heron = next(path for path in plain.EXAMPLES if path.stem == "heron").read_bytes()
    for _ in range(30):
        text = mutated(heron, chance)
        done = plain.run("check", "/dev/stdin", given=text)
        assert done.returncode in (0, 1, 2, 3), text
        if done.returncode == 2:
            assert done.stdout == b"" and done.stderr.startswith(b"/dev/stdin:"), text
            assert done.stderr.count(b"\n") == 1, text
        else:
            assert done.stderr == b"" and done.stdout, text
