# SPDX-License-Identifier: MIT
"""Every number that people read is the number of the same name that programs read, rounded: text
beside JSON, the page of the plan beside its text. The report's page is held to the JSON in
`browser/test_numbers.py` and to its text in `test_report.py`; US units to SI in
`test_units_beside.py`."""
import functools
import json
import re

import pytest

from browser.test_numbers import UNITS, ZERO
from command import told
from file import plain

HERON, BEFORE = (str(plain.ROOT / "examples" / name) for name in ("heron.ini", "heron-before.ini"))
DRIVE = str(plain.ROOT / "examples" / "heron-drive.csv")
BORE = ("--by", "front.disc.piston_diameter", "--for", "us.135.cold")
NUMBER = r"[-+]?\d[\d.]*(?:e[-+]?\d+)?"
UNIT = "|".join(re.escape(name) for name in sorted({*UNITS, *ZERO} - {""}, key=len, reverse=True))
CELL = re.compile(rf"({NUMBER})(?: \+-({NUMBER}))?(?: ({UNIT}))?")
GROUP = re.compile(rf"(\w[\w ]*) ({NUMBER})(?: ({UNIT})(?: \({NUMBER} g\))?)?(?=;|$)")


@functools.cache
def for_programs(*words):
    return json.loads(plain.run(*words, "--json").stdout)


@functools.cache
def for_people(*words):
    """In SI units alone."""
    return plain.run(*words, "--units", "si").stdout.decode()


def faces(*words):
    return for_people(*words), for_programs(*words)


def flat(text):
    return " ".join(text.split())


def without_g(cell):
    """A deceleration has its share of free fall behind it."""
    return re.sub(r" \([^()]* g\)", "", cell)


def part(text, heading):
    """The lines below a heading, up to the next one."""
    return text.split(f"\n{heading}\n")[1].split("\n\n")[0]


def rows(lines):
    """Rows of the tables among some lines: their cells, each number with the unit that stands
    behind it, at the end of the row or in the head above it, and the line below when it is what the
    row is made up of. A caption has no row."""
    heads, found = {}, []
    for line in lines.splitlines():
        cells = [(one.end(), one[0]) for one in re.finditer(r"\S+(?: \S+)*", line)]
        words = [cell for _, cell in cells]
        goes_on = found and re.match(r" {6}\S", line)
        if not goes_on and all(word in UNITS or word in ZERO for word in words):
            heads = dict(cells)
        elif goes_on or (line.startswith("      ") and found):
            found[-1][-1] += " " + line.strip()
        elif len(cells) > 1:
            last = words.pop() if words[-1] in {*UNITS, *ZERO} else None
            units = [last or heads.get(end) for end, _ in cells]
            named = [f"{word} {unit}" if unit and re.fullmatch(rf"{NUMBER}(?: \+-{NUMBER})?", word)
                     else word for word, unit in zip(words, units)]  # fmt: skip
            found.append([*named, ""])
    return found


def assert_number(number, unit, value, where, difference=False):
    """A number told is this value in SI, as far as its digits go."""
    factor, zero = ZERO.get(unit) or (UNITS[unit or ""], 0)
    figures, _, power = number.lstrip("+-").partition("e")
    digit = 10.0 ** (int(power or 0) - len(figures.partition(".")[2])) * factor
    if "." not in figures and len(figures) > 4:
        digit = factor
    shown = float(number) * factor + (0 if difference else zero)
    assert abs(shown - value) <= 0.5001 * digit, (where, number, unit, value)


def is_rise(result, name):
    return result["unit"] == "K" and re.search("rise|margin", name) is not None


def assert_cell(cell, value, where, difference=False, half=None):
    """A cell of a text is this value; "-" is none."""
    if value is None:
        assert cell == "-", where
        return
    number, around, unit = CELL.fullmatch(cell).groups()
    assert_number(number, unit, value, where, difference)
    if around is not None:
        assert_number(around, unit, half, where, difference=True)


def assert_figure(cell, figure, where):
    """The same of a value that has a range, in JSON as its ends."""
    ranged = figure["value"] is not None and figure["p05"] is not None
    half = (figure["p95"] - figure["p05"]) / 2 if ranged else None
    assert_cell(cell, figure["value"], where, half=half)


def assert_shares(words, shares, where):
    """Shares by group; what did next to nothing is left out."""
    found = GROUP.findall(words)
    assert (found != []) == (words != "" and "no shares" not in words), where
    for group, number, unit in found:
        key = group.replace(" ", "_")
        assert_number(number, unit, shares[key], (where, group), difference=True)
    return len(found)


# ---- check ---------------------------------------------------------------------------------------

REQUIREMENT = re.compile(
    rf"(falls short|meets|cannot say) (?:(?!falls short|meets  |cannot say ).)*?"
    rf"; value ({NUMBER})(?: ({UNIT}))?(?: \({NUMBER} g\))?"
    rf"; limit (at most|at least) ({NUMBER})(?: ({UNIT}))?(?: \({NUMBER} g\))?"
    rf"; margin ({NUMBER}) %(?:; 90 of 100 within ({NUMBER}) to ({NUMBER}) %)?"
    rf"(?:; met by (?:over |under )?(\d+) of 100)?; \[([\w.]+), "
)


def test_requirements_of_check():
    text, found = for_people("check", HERON, "--full"), for_programs("check", HERON)
    judged = {one["id"]: one for one in found["criteria"] if one["value"]}
    told_of = REQUIREMENT.findall(flat(part(text, "Requirements")))
    assert [one[-1] for one in told_of] and {one[-1] for one in told_of} == judged.keys()
    for verdict, *amounts, margin, low, high, met, name in told_of:
        value, unit, side, limit, limit_unit = amounts
        one = judged[name]
        assert (verdict, side) == (one["verdict"], one["limit_is"])
        assert_number(value, unit, one["value"], name)
        assert_number(limit, limit_unit, one["limit"], name)
        assert_number(margin, "%", one["margin"], name)
        if low:
            assert_number(low, "%", one["margin_p05"], name)
            assert_number(high, "%", one["margin_p95"], name)
        assert bool(met) == (one["p_meets"] is not None)
        if met:
            assert float(met) / 100 == pytest.approx(one["p_meets"], abs=0.011), name


def test_first_screen_of_check():
    text, found = faces("check", HERON)
    by_name = {one["id"]: one for one in found["criteria"]}
    assert flat(found["summary"]["verdict"]) in flat(text)
    row = (
        r"^  (falls short|cannot say) +(?:yardstick )?([\w., ]+): "
        r"(?:([-+]\d+) %, met by (\d+) of 100)?"
    )
    told_of = re.findall(row, text, re.MULTILINE)
    assert len(told_of) > 3
    for verdict, names, margin, met in told_of:
        for name in names.split(", "):
            one = by_name[name]
            assert verdict == one["verdict"]
            assert bool(met) == (one["p_meets"] is not None)
            if met:
                assert_number(margin, "%", one["margin"], name)
                assert met == f"{100 * one['p_meets']:.0f}"


def test_results_of_check():
    text, found = for_people("check", HERON, "--full"), for_programs("check", HERON)
    count = 0
    for name, *cells, _ in rows(part(text, "Results")):
        loads = ("empty.", "full.") if len(cells) == 2 else ("",)
        for load, cell in zip(loads, cells):
            if name == "result":
                continue
            result = found["results"][load + name]
            assert_cell(without_g(cell), result["value"], load + name, is_rise(result, name))
            count += 1
    assert count == sum(one["value"] is not None for one in found["results"].values())


def test_lines_of_check():
    text, found = for_people("check", HERON, "--full"), for_programs("check", HERON)
    words = flat(part(text, "Lines of the vehicle file"))
    told_of = re.findall(rf"- ([\w.]+) = ({NUMBER})(?: ({UNIT}))?(?: \({NUMBER} g\))? \(", words)
    assert len(told_of) > 20
    for path, number, unit in told_of:
        assert_number(number, unit, found["vehicle"][path]["value"], path)


# ---- compare -------------------------------------------------------------------------------------


def test_like_for_like_of_compare():
    text, found = faces("compare", BEFORE, HERON)
    pairs = [(load, axle) for load in ("empty", "full") for axle in ("front", "rear", "both")]
    told_of = [row for row in rows(part(text, "Like for like")) if row[0] != "axle"]
    assert [row[0] for row in told_of] == [axle for _, axle in pairs]
    for (load, axle), (_, before, now, less, shares) in zip(pairs, told_of):
        one = found["like_for_like"][load][axle]
        for cell, key in ((before, "before"), (now, "after"), (less, "missing")):
            assert_cell(cell, one[key], (load, axle, key))
        assert assert_shares(shares, one["shares"], (load, axle)) > 0


def test_margins_of_compare():
    text, found = faces("compare", BEFORE, HERON, "--rules", "all")
    lines = part(text, "Margins, and what each change did to them")
    margins = {one["id"]: one for one in found["margins"]}
    results = {one["path"]: one for one in found["shared_results"]}
    told_of = [row for row in rows(lines) if row[0] in margins or row[0] in results]
    assert [row[0] for row in told_of] == [*margins, *results]
    shared = 0
    for name, *cells, shares in told_of:
        one = margins.get(name) or results[name]
        if name in margins:
            assert cells[1::2][:2] == [one["verdict_before"], one["verdict_after"]]
            cells = [cells[0], cells[2], cells[4]]
        for cell, key in zip(cells, ("before", "after", "difference")):
            assert_cell(cell, one[key], (name, key), key == "difference")
        shared += assert_shares(shares, one["shares"], name)
    assert shared > 200


def test_results_of_compare():
    text, found = faces("compare", BEFORE, HERON)
    results = {one["path"]: one for one in found["results"]}
    load, count = "", 0
    for line in part(text, "Results that differ").splitlines():
        load = {"  Empty:": "empty.", "  Full:": "full."}.get(line, load)
        for name, *cells, _ in rows(line):
            one = results.get(load + name)
            for cell, key in zip(cells, ("before", "after", "difference")):
                if one:
                    risen = key == "difference" or is_rise(one, name)
                    assert_cell(cell, one[key], (name, key), risen)
                    count += 1
    assert count == 3 * sum(one["before"] != one["after"] for one in results.values())


def test_lines_of_compare():
    text, found = faces("compare", BEFORE, HERON)
    words = flat(text.split("\nLines that")[1])
    for one in found["lines"]:
        for key, word in (("before", "before"), ("after", "now")):
            if isinstance(one[key], float):
                row = rf"{re.escape(one['path'])} {one['group']};(?:(?! [a-z]\w*\.).)*?"
                told_of = re.search(rf"{row}{word} ({NUMBER})(?: ({UNIT}))?", words)
                assert told_of, one
                assert_number(*told_of.groups(), one[key], one["path"])


# ---- heat ----------------------------------------------------------------------------------------

# What a head of the table of axles, or a line below it, is in JSON.
AXLE = {"rubbed face": "face", "rotor or drum": "rotor", "pads or linings": "pad", "fluid": "fluid"}
ALONE = {
    "stress of the face": "stress", "heat into both brakes": "energy",
    "rise of rotor or drum": "rotor_rise",
}  # fmt: skip
WHOLE = {
    "pedal force, first": "pedal_force_first", "pedal force, last": "pedal_force_last",
    "pedal force, largest": "pedal_force_most", "distance of the last stop": "distance",
    "mean fully developed deceleration": "developed_deceleration",
    "fluid below its wet boiling point": "fluid_margin",
    "stress over tensile strength": "stress_share", "time, rest aside": "duration",
    "deceleration that was missing": "shortfall",
}  # fmt: skip
DUTIES = {
    "stop": ("--stop", "100km/h"), "snubs": ("--snubs", "us.135.fade"),
    "descent": ("--descent", "8%,6km,50km/h"), "cycle": ("--cycle", DRIVE),
}  # fmt: skip


def without_us(sentence):
    """The text in SI alone has no amounts in brackets."""
    return re.sub(rf" \({NUMBER} (?:{UNIT})\)", "", sentence)


def assert_verdict_of_heat(verdict, found):
    """What the sentence says is held, how far the fluid is from boiling and where it boils are the
    results, and its force is the driver's, in kelvins, degrees and newtons told whole."""
    short, force, held, way, margin, side, boiling = re.fullmatch(
        rf"(FALLS SHORT: )?({NUMBER}) N (hold|do not hold) the deceleration asked for; the fluid "
        rf"(stays|gets) ({NUMBER}) K (below|above) its wet boiling point, ({NUMBER}) degC", verdict
    ).groups()
    driver = for_programs("check", HERON)["vehicle"]["driver.pedal_force_most"]["value"]
    left = found["results"]["heat.fluid_margin"]["value"]
    assert (short is None, held == "hold") == (found["summary"]["stood"], found["summary"]["held"])
    assert (way, side) == (("gets", "above") if left < 0 else ("stays", "below"))
    assert_number(force, "N", driver, "force of the verdict")
    assert_number(margin, "K", abs(left), "margin of the verdict", difference=True)
    assert_number(boiling, "degC", found["results"]["heat.fluid_boiling"]["value"], "boiling")


@pytest.mark.parametrize("duty", DUTIES.values(), ids=DUTIES)
def test_heat(duty):
    text, found = faces("heat", HERON, *duty)
    results = found["results"]
    verdict = without_us(found["summary"]["verdict"])
    assert f"Verdict {verdict} Duty" in flat(text)
    assert_verdict_of_heat(verdict, found)
    seen = 0
    for label, *cells, _ in rows(part(text, "Heat")):
        what, _, when = label.partition(", ")
        if len(cells) == 2 and cells[0] != "front":
            key = ALONE.get(label) or AXLE[what] + ("_last" if when == "at the end" else "")
            for axle, cell in zip(("front", "rear"), cells):
                name = f"heat.{axle}_{key}"
                assert_cell(cell, results[name]["value"], name, "rise" in key)
                seen += 1
        elif len(cells) == 1:
            name = f"heat.{WHOLE[label]}"
            assert_cell(without_g(cells[0]), results[name]["value"], name, "margin" in name)
            seen += 1
    assert seen > 22


# ---- size, spread, drivelog, shakedown, explain --------------------------------------------------


def test_size():
    # Where it is not known what binds, every requirement is looked at.
    text, found = faces("size", HERON, *BORE, "--set", "vehicle.country=unstated")
    for answer in found["answers"]:
        number, unit = answer["shown"].split(" (")[0].split()
        assert f"{number} {unit}" in flat(text)
        # Rounded towards the side that answers: up to a whole unit of its last digit.
        assert float(number) * UNITS[unit] == pytest.approx(answer["value"], rel=1e-3)
        assert (float(number) * UNITS[unit] >= answer["value"]) == (answer["side"] == "or more")
    (by,), (wanted,) = found["by"], found["for"]
    now = re.search(rf"Now ({NUMBER}) (\S+?): us\.135\.cold margin ({NUMBER}) %", flat(text))
    assert_number(now[1], now[2], by["now"], "now")
    assert_number(now[3], "%", wanted["now"], "margin now")
    changes = re.findall(
        rf"  ({NUMBER}) (mm)  .*?\[([\w.]+),.*?margin ({NUMBER}) %",
        re.sub(r"\n {10,}", " ", part(text, "Verdicts that change there, hot performance aside")),
        re.DOTALL,
    )
    assert len(changes) == len(found["changes"]) > 10
    for (at, unit, name, margin), one in zip(changes, found["changes"]):
        assert name == one["id"]
        assert_number(at, unit, one["at"], name)
        assert_number(margin, "%", one["margin"], name)


def test_spread():
    text, found = faces("spread", HERON, "--samples", "1024")
    by_name = {one["id"]: one for one in found["criteria"]}
    count = 0
    for name, met, error, *percentiles, _ in rows(part(text, "Requirements")):
        if name in by_name:
            one = by_name[name]
            assert_cell(met, one["probability"], name)
            assert_cell(error, one["probability_error"], name)
            for cell, key in zip(percentiles, ("p05", "p25", "p50", "p75", "p95")):
                assert_cell(cell, one["percentiles"] and one["percentiles"][key], (name, key))
            count += 1
    assert count == len(by_name)
    decided = re.findall(r"\n  (\S+) +(.*?)(?=\n  \S|\Z)", part(text, "What decides"), re.DOTALL)
    decided = [(name, flat(words)) for name, words in decided if name in by_name]
    assert len(decided) == len(found["sensitivity"])
    for name, words in decided:
        for line, total, alone in re.findall(rf"([\w.]+) ({NUMBER}) \(alone ({NUMBER})\)", words):
            index = found["sensitivity"][name][line]
            assert_number(total, "%", index["total"], (name, line))
            assert_number(alone, "%", index["first"], (name, line))
    told_of = [row for row in rows(part(text, "Results")) if "." in row[0] and len(row) > 6]
    assert [row[0] for row in told_of] == [one["path"] for one in found["results"]]
    for (name, *cells, _), one in zip(told_of, found["results"]):
        for cell, key in zip(cells, ("p05", "p25", "p50", "p75", "p95")):
            assert_cell(cell, one["percentiles"][key], (name, key))


def test_drivelog():
    text, found = faces("drivelog", HERON, DRIVE)
    stops = [row for row in rows(part(text, "Stop by stop")) if row[0].isdigit()]
    assert len(stops) == len(found["stops"]) == 6
    for row, stop in zip(stops, found["stops"]):
        _, line, speed, distance, corrected, developed, force, predicted, _ = row
        assert line == str(stop["line"])
        assert_cell(speed, stop["initial_speed"]["value"], "speed")
        assert_figure(distance, stop["distance"], "distance")
        assert_cell(corrected, stop["corrected_distance"]["value"], "at nominal")
        assert_figure(developed, stop["developed_deceleration"], "developed")
        assert_cell(force, stop["pedal_force"], "pedal")
        assert_figure(predicted, stop["predicted_deceleration"], "predicted")
    alike = [row for row in rows(part(text, "Repeatability")) if row[0][0].isdigit()]
    keys = {"deceleration": "developed_deceleration", "distance": "corrected_distance"}
    expected = [(one, what) for one in found["repeatability"] for what in keys]
    assert len(alike) == len(expected) > 0
    for (speed, count, what, *cells, _), (one, named) in zip(alike, expected):
        assert (what, count) == (named, str(one["stops"]))
        assert_cell(speed, one["nominal_speed"], "from")
        for cell, key in zip(cells, ("mean", "standard_deviation", "least", "most")):
            assert_cell(cell, one[keys[what]][key], (what, key))


def test_shakedown():
    text, found = for_people("shakedown", HERON, "--text"), for_programs("shakedown", HERON)
    stages = [row for row in rows(part(text, "3. Stages")) if row[0][0].isdigit()]
    assert len(stages) == len(found["stages"]) == 3
    for row, stage in zip(stages, found["stages"]):
        speed, force, deceleration, distance, below, cone, above, _ = row
        assert_cell(speed, stage["speed"], "from")
        assert_cell(force, stage["pedal_force"], "pedal")
        assert_figure(deceleration, stage["deceleration"], "expect")
        assert_figure(distance, stage["distance"], "distance")
        assert_cell(below, stage["least"], "break off below")
        assert_cell(cone, stage["cone"], "cone")
        assert_cell(above, stage["most_travel"], "above")
    standing = found["standing"]
    travel = re.search(rf"expect: ({NUMBER}) \+-({NUMBER}) (mm) of ({NUMBER}) mm", flat(text))
    assert_figure(f"{travel[1]} +-{travel[2]} {travel[3]}", standing["travel"], "travel")
    assert_number(travel[4], "mm", standing["travel_to_floor"], "to the floor")
    press = re.search(rf"press with ({NUMBER}) N .* about ({NUMBER}) bar in", flat(text))
    assert_number(press[1], "N", standing["pedal_force"], "force")
    assert_number(press[2], "bar", standing["pressure"], "pressure")


def test_page_of_the_plan_tells_the_numbers_of_its_text():
    """Part by part, as often: none lost, none told by one of them only."""
    page = told.in_page(plain.run("shakedown", HERON).stdout.decode())
    text = told.in_text(plain.run("shakedown", HERON, "--text").stdout.decode(), page)
    assert text == page
    assert sum(page["3. Stages"].values()) > 3 * 7 * 2


@pytest.mark.parametrize(
    "name", ["full.stop.distance", "circuits.air_volume", "front.tyre.rollout"])
def test_explain(name):
    text = plain.run("explain", name, HERON, "--units", "si").stdout.decode()
    checked = for_programs("check", HERON)
    cell = re.search(rf"\n  value +({NUMBER}(?: (?:{UNIT}))?)", text)[1]
    assert_cell(cell, (checked["results"] | checked["vehicle"])[name]["value"], name)
    depends = [row for row in rows(text) if row[0] in checked["vehicle"] and len(row) == 5]
    assert (depends != []) == (name in checked["results"])
    for path, origin, value, *_ in depends:
        assert origin == checked["vehicle"][path]["from"]
        assert_cell(without_g(value), checked["vehicle"][path]["value"], path)
