# SPDX-License-Identifier: MIT
"""What `check` says is to be done and to be measured, held to what comes of doing it."""
import json

import pytest

from file import plain

VEHICLES = plain.ROOT / "tests" / "vehicles"


def check(name, *options):
    done = plain.run("check", str(VEHICLES / f"{name}.ini"), "--json", *options)
    return json.loads(done.stdout)


def counted(answer):
    return [c for c in answer["criteria"] if c["scope"] in ("hazard", "binds")]


def fitted(lines):
    """Options that fit a repair, as a person would type it."""
    for line in lines:
        value = line["value"]
        yield from ("--set", f"{line['line']}={value} {line['unit'] or ''}".strip())


@pytest.mark.parametrize(
    "name", ["marten-stock", "lynx-no-leverage", "marten-long-pedal", "tapir-one-circuit"]
)
def test_a_repair_does_what_it_says(name):
    """Given a vehicle that falls short, or may, when the repair is fitted and the vehicle judged
    anew, then nothing that counts falls short, all is met where that was said, and nothing that was
    met is lost."""
    first = check(name)
    repair = first["repair"]
    assert repair["lines"] and repair["reach"] in ("nothing_falls_short", "all_met")
    met = {c["id"] for c in counted(first) if c["verdict"] == "meets"}
    then = counted(check(name, *fitted(repair["lines"])))
    judged = [c for c in then if c["p_meets"] is not None]
    assert not [c["id"] for c in judged if c["verdict"] == "falls short"]
    assert met <= {c["id"] for c in then if c["verdict"] == "meets"}
    if repair["reach"] == "all_met":
        assert {c["verdict"] for c in judged} == {"meets"}


def test_fluid_alone_is_chosen_where_fluid_alone_is_wanted():
    """Given a vehicle whose only open row is the boiling of its fluid, its pedal being long enough,
    then no part is offered that costs more than fluid."""
    first = check("marten-stock", "--set", "pedal.travel=160 mm")
    assert [c["id"] for c in counted(first) if c["verdict"] != "meets" and c["p_meets"]] == [
        "hazard.fluid"
    ]
    assert [line["line"] for line in first["repair"]["lines"]] == ["heat.fluid"]


def test_the_persons_own_list_takes_the_place_of_customary_sizes(tmp_path):
    """Given a vehicle that a customary 25.4 mm master cylinder mends, and a list with 26 mm, then
    26 mm is offered; where the list has only one that is too small, nothing is. A file that names
    the list is judged alike."""
    parts = tmp_path / "mine.csv"
    parts.write_text("# shelf 3\npart;size;where\nmaster.bore;26 mm;in a box\n")
    listed = ("--parts", str(parts))

    def bores(answer):
        return [r["value"] for r in answer["repair"]["lines"] if r["line"] == "master.bore"]

    assert bores(check("tapir-stock")) == pytest.approx([0.0254], abs=1e-12)
    first = check("tapir-stock", *listed)
    assert bores(first) == pytest.approx([0.026], abs=1e-12)
    file = tmp_path / "named.ini"
    text = (VEHICLES / "tapir-stock.ini").read_text()
    file.write_text(text.replace("[vehicle]\n", "[vehicle]\nparts = mine.csv\n", 1))
    named = json.loads(plain.run("check", str(file), "--json").stdout)
    assert named["repair"] == first["repair"]
    parts.write_text("part,size\nmaster.bore,21 mm\n")
    assert check("tapir-stock", *listed)["repair"]["lines"] == []


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "begins with the row 'part,size'"),
        ("master.bore,1 in\n", "begins with the row 'part,size'"),
        ("part,size\n", "no row below its head"),
        ("part,size\nmaster.bor,1 in\n", "did you mean 'master.bore'?"),
        ("part,size\nvehicle.mass,900 kg\n", "accepts front.disc.piston_diameter"),
        ("part,size\nmaster.bore\n", "wants a part and a size"),
        ("part,size\nmaster.bore,25\n", "has no unit"),
        ("part,size\nmaster.bore,2 m\n", "accepts 12 to 50 mm"),
        ("part,size\n" + 41 * "master.bore,1 in\n", "more than 40 sizes"),
    ],
)
def test_a_wrong_list_is_refused_in_words(text, told, tmp_path):
    parts = tmp_path / "mine.csv"
    parts.write_text(text)
    done = plain.run("check", str(VEHICLES / "tapir-stock.ini"), "--parts", str(parts))
    assert done.returncode == 2 and done.stdout == b""
    error = done.stderr.decode()
    assert told in error and str(parts) in error


def test_no_brake_mends_what_carries_too_much():
    """Given an overloaded vehicle, then it is told to carry less."""
    assert "Carry less" in check("stoat-overloaded")["summary"]["do"]
    assert "tyres that carry more" in check("tapir-light-tyres")["summary"]["do"]


def test_a_value_that_is_hidden_is_asked_for():
    """Given a vehicle that is settled by what its valve lets through, when that line is hidden,
    then it heads what to measure, and an answer settles the row."""
    shown = {
        word: check("badger-kit", "--set", f"valve.bypass={word}") for word in ("none", "fitted")
    }
    hidden = check("badger-kit")
    row = "hazard.circuit"
    verdict = {c["id"]: c["verdict"] for c in hidden["criteria"]}[row]
    assert verdict == "cannot say"
    assert hidden["summary"]["measure_next"] == "valve.bypass"
    changed = [
        {c["id"]: c["verdict"] for c in answer["criteria"]}[row] != verdict
        for answer in shown.values()
    ]
    assert any(changed)


def test_each_line_to_measure_says_how_and_by_what():
    for line in check("badger-after")["measure"]["lines"]:
        assert line["how"].endswith(".") and line["means"] in (
            "look", "papers", "tape", "scale", "gauge", "workshop", "maker",
        )  # fmt: skip
