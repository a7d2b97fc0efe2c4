# SPDX-License-Identifier: MIT
"""The schemas of reference/schema: as the tables and the answers have it, and true of every answer.
The validator is python3-jsonschema, which is not ours."""
import copy
import json

import jsonschema
import pytest

from file import plain
from schema import __main__ as writer, answers, shape

VERBS = sorted(path.stem for path in writer.FOLDER.iterdir())


def schema(verb):
    return json.loads((writer.FOLDER / f"{verb}.json").read_text(encoding="utf-8"))


def complaint(verb, answer):
    """What the validator says; None when it is content."""
    errors = jsonschema.Draft202012Validator(schema(verb)).iter_errors(answer)
    return next((f"{list(error.absolute_path)}: {error.message[:300]}" for error in errors), None)


def test_each_verb_with_json_has_its_schema_and_no_other_is_there():
    """Given the help, which names the verbs that answer as JSON."""
    usage = plain.run("help", "--usage").stdout.decode()
    verbs = {
        line.split()[1]
        for line in usage.replace("\n      ", " ").splitlines()
        if "[--json]" in line
    }
    assert VERBS == sorted(answers.answers())
    assert verbs == {form.partition("-")[0] for form in VERBS}


def test_the_schemas_are_those_that_make_schema_writes():
    for path, text in writer.texts():
        assert path.read_text(encoding="utf-8") == text, f"{path.name}: make schema writes it anew"


@pytest.mark.parametrize("verb", VERBS)
def test_a_schema_is_one_and_names_its_form(verb):
    found = schema(verb)
    jsonschema.Draft202012Validator.check_schema(found)
    header = (plain.ROOT / "libbrake/include/brake/version.h").read_text(encoding="utf-8")
    form = found["properties"]["format"]["const"]
    assert f"#define BRAKE_FORMAT_VERSION {form}\n" in header
    assert found["$id"] == f"urn:libbrake:format:{form}:{verb}"
    assert {"libbrake", "format", "caution"} <= set(found["required"])


@pytest.mark.parametrize("verb", VERBS)
def test_every_answer_is_what_its_schema_says(verb):
    for words, answer in answers.answers()[verb]:
        assert complaint(verb, answer) is None, words


OTHERS = {
    "plain": plain.VEHICLE,
    "lorry": plain.changed("[vehicle] category = N1", "[vehicle] rated_mass = 2600 kg"),
    "light": plain.changed("[vehicle] mass = 900 kg", "[vehicle] antilock = fitted"),
    "part": plain.changed(
        "[part.winch] mass = 45 kg",
        "[part.winch] height = 0.6 m",
        "[part.winch] behind_front_axle = -0.4 m",
    ),
    "trailer": plain.changed("[trailer] mass = 700 kg"),
    "curve": plain.changed(
        "[front.disc.pads] friction = (50 degC, 0.38) (200 degC, 0.38) (400 degC, 0.3)"
    ),
}


@pytest.mark.parametrize("name", OTHERS)
def test_vehicles_that_were_not_asked_when_it_was_written_are_in_it_too(name, tmp_path):
    path = tmp_path / "vehicle.ini"
    path.write_text(OTHERS[name])
    asked = {"check": [], "shakedown": ["--despite", "no-reserve,rear-first,one-circuit"],
             "spread": ["--samples", "1024"],
             "size": ["--by", "master.bore", "--for", "us.135.cold"]}  # fmt: skip
    for verb, words in asked.items():
        done = plain.run(verb, str(path), *words, "--json")
        assert done.stdout, done.stderr
        assert complaint(verb, json.loads(done.stdout)) is None, verb


def changed(answer, *place, to):
    """The answer with one member changed; `to` of shape.Unshown: taken away."""
    other = copy.deepcopy(answer)
    inner = other
    for step in place[:-1]:
        inner = inner[step]
    if to is shape.Unshown:
        del inner[place[-1]]
    else:
        inner[place[-1]] = to
    return other


@pytest.mark.parametrize(
    ("place", "to"),
    [
        (("format",), 2),
        (("caution",), "It is safe."),
        (("summary", "meets"), "26"),
        (("summary", "limiting"), "us.135.no_such"),
        (("summary", "more"), 1),
        (("summary", "verdict"), shape.Unshown),
        (("criteria", 0, "verdict"), "meets it"),
        (("criteria", 0, "scope"), None),
        (("criteria", 0, "unit"), "furlong"),
        (("results", "full.no_such"), {"value": 1, "unit": ""}),
        (("vehicle", "front.no_such"), None),
        (("warnings",), {}),
    ],
)
def test_what_an_answer_may_not_be_is_refused(place, to):
    answer = next(
        answer for words, answer in answers.answers()["check"] if words == [answers.HERON]
    )
    assert complaint("check", answer) is None
    assert complaint("check", changed(answer, *place, to=to)) is not None
