# SPDX-License-Identifier: MIT
"""The numbers of the report are those of the JSON, in the units of the trade."""
import json
import re

import html5lib
import pytest

from file import plain

HERON = plain.ROOT / "examples" / "heron.ini"
BEFORE = plain.ROOT / "examples" / "heron-before.ini"
DRIVE = plain.ROOT / "examples" / "heron-drive.csv"
# SI value of one; source: NIST SP 811, appendix B.8 (inHg: inch of mercury, conventional), and SI
# prefixes.
INCH, FOOT, POUND, POUND_FORCE = 0.0254, 0.3048, 0.45359237, 4.4482216152605
UNITS = {
    "": 1, "%": 0.01, "mm": 1e-3, "m": 1, "in": INCH, "ft": FOOT, "cm2": 1e-4, "in2": INCH**2,
    "m2": 1, "ft2": FOOT**2, "cm3": 1e-6, "in3": INCH**3, "s": 1, "km/h": 1 / 3.6,
    "mph": 1609.344 / 3600, "m/s2": 1, "ft/s2": FOOT, "kg": 1, "lb": POUND, "N": 1,
    "lbf": POUND_FORCE, "bar": 1e5, "kPa": 1e3, "inHg": 3386.389, "MPa": 1e6,
    "psi": POUND_FORCE / INCH**2, "N*m": 1, "lbf*ft": POUND_FORCE * FOOT,
    "kJ": 1e3, "MJ": 1e6, "ft*lbf": POUND_FORCE * FOOT, "kg*m2": 1, "lb*ft2": POUND * FOOT**2,
    "N/mm": 1e3, "lbf/in": POUND_FORCE / INCH, "bar/kg": 1e5,
    "psi/lb": POUND_FORCE / INCH**2 / POUND, "N*m/bar": 1e-5,
    "lbf*ft/psi": POUND_FORCE * FOOT / (POUND_FORCE / INCH**2), "deg": 3.141592653589793 / 180,
    "K": 1, "degF rise": 5 / 9, "km": 1e3, "mi": 1609.344,
}
ZERO = {"degC": (1, 273.15), "degF": (5 / 9, 459.67 * 5 / 9)}
NUMBER = r"[-+]?[\d.]+(?:e[-+]\d+)?"
AMOUNT = re.compile(
    rf"({NUMBER})(?: ([^(),]+?))?(?: \(({NUMBER}) ([^(),]+)(?:, ({NUMBER}) (g))?\))?"
)


def amounts(text):
    """The one to three SI values that a text tells; nothing else may stand in it. A deceleration is
    told in g as well, with three digits."""
    found = AMOUNT.fullmatch(text)
    assert found, text
    pairs = [(found[1], found[2] or "")] + ([(found[3], found[4])] if found[3] else [])
    told = [si(float(number), unit) for number, unit in pairs]
    if found[5]:
        # Source: NIST SP 811, appendix B.8, standard acceleration of free fall.
        assert float(found[5]) * 9.80665 == pytest.approx(told[0][0], rel=5e-3, abs=1e-3)
    return told


def si(number, unit):
    factor, zero = ZERO.get(unit) or (UNITS[unit], 0)
    return number * factor + zero, unit


def assert_says(text, value, what):
    """Four digits are shown: half a unit of the fourth is 5e-4 of the value at most."""
    for told, unit in amounts(text):
        zero = ZERO.get(unit, (1, 0))[1]
        assert told - zero == pytest.approx(value - zero, rel=5e-4, abs=1e-12), (what, text)


def json_of(*words):
    return json.loads(plain.run(*words, "--json").stdout)


ALL = ("--rules", "all")  # every requirement, whatever binds


@pytest.fixture(scope="module")
def checked():
    return json_of("check", str(HERON), *ALL)


@pytest.fixture(scope="module")
def page(tmp_path_factory):
    path = tmp_path_factory.mktemp("numbers") / "heron.html"
    plain.run("report", str(HERON), "--before", str(BEFORE), "--drivelog", str(DRIVE),
              "-o", str(path), *ALL)
    return html5lib.parse(path.read_text(), namespaceHTMLElements=False)


@pytest.fixture(scope="module")
def rows(page):
    """Rows of the tables of each part, those of the parts within it too, as lists of the cells'
    text."""
    return {
        section.get("aria-labelledby"): [
            [" ".join("".join(cell.itertext()).split()) for cell in row]
            for body in section.iter("tbody")
            for row in body
        ]
        for section in page.iter("section")
    }


def test_requirements(checked, rows):
    ids = [c["id"] for c in checked["criteria"]]
    told = {next(i for i in ids if f"{i}, " in row[0]): row for row in rows["requirements"]}
    applied = {c["id"]: c for c in checked["criteria"]}
    assert told.keys() == applied.keys()
    for name, row in told.items():
        criterion = applied[name]
        assert criterion["clause"] in row[0] and criterion["title"] in row[0]
        assert row[1] == criterion["verdict"]
        if criterion["margin"] is None:
            assert criterion["reason"] in row[0] and row[2] == "-"
            continue
        kind, limit = re.fullmatch(r"(at most|at least) (.*)", row[3]).groups()
        assert kind == criterion["limit_is"]
        assert_says(row[2], criterion["value"], name)
        assert_says(limit, criterion["limit"], name)
        assert row[4] == f"{100 * criterion['margin']:+.0f} %"
        low, high = criterion["margin_p05"], criterion["margin_p95"]
        assert row[5] == ("-" if low is None else f"{100 * low:+.0f} to {100 * high:+.0f} %")


def test_results(checked, rows):
    names = {name.removeprefix("empty.").removeprefix("full.") for name in checked["results"]}
    told = 0
    for head, *cells in rows["results"]:
        name = next(n for n in sorted(names, key=len, reverse=True) if head.startswith(n))
        for case, text in zip(["empty.", "full."] if len(cells) == 2 else [""], cells):
            value = checked["results"][case + name]["value"]
            if value is None:
                assert text == "-"
                continue
            assert_says(text, value, name)
            told += 1
    assert told == len([r for r in checked["results"].values() if r["value"] is not None])


def test_inputs(checked, rows):
    given = {p: v for p, v in checked["vehicle"].items() if v["from"] != "default"}
    told = {row[0]: row for row in rows["lines"]}
    assert told.keys() == given.keys()
    for path, row in told.items():
        line = given[path]
        assert row[3] == line["from"]
        if isinstance(line["value"], (int, float)):
            assert_says(row[1], line["value"], path)
        elif isinstance(line["value"], str):
            assert row[1] == line["value"]
        if line["tolerance"]:
            for number, unit in re.findall(r"([\d.e+-]+) ?([^\s(),]*)", row[2]):
                if unit == "g" and line["unit"] == "m/s2":
                    continue
                factor = ZERO[unit][0] if unit in ZERO else UNITS[unit]
                assert float(number) * factor == pytest.approx(line["tolerance"], rel=5e-3), path
        else:
            assert row[2] in ("0", "-") or re.match("0 ", row[2])


def test_line_numbers_are_those_of_the_file(rows):
    lines = HERON.read_text().splitlines()
    numbered = [row for row in rows["lines"] if row[4] != "-"]
    assert len(numbered) > 80
    for row in numbered:
        name = row[0].rpartition(".")[2]
        line = lines[int(row[4]) - 1]
        assert line.startswith(name) or name.startswith("piston_diameter"), (row[0], line)


def test_blanks(checked, rows):
    measured = [row for row in rows["to"]]
    assert measured and all(row[2] == "" for row in measured)
    told = [text for _, text, _ in measured if text]
    values = [r["value"] for r in checked["results"].values() if r["value"] is not None]
    for text in told:
        value = amounts(text)[0][0]
        assert any(value == pytest.approx(v, rel=5e-4) for v in values), text


def test_changes(checked, rows):
    before = {c["id"]: c["margin"] for c in json_of("check", str(BEFORE), *ALL)["criteria"]}
    now = {c["id"]: c["margin"] for c in checked["criteria"]}
    told = [row for row in rows["changes"] if len(row) == 4]
    assert told
    for what, then_words, now_words, points in told:
        name = next(n for n in sorted(now, key=len, reverse=True) if what.startswith(n))
        assert then_words == f"{100 * before[name]:+.0f} %"
        assert now_words == f"{100 * now[name]:+.0f} %"
        assert points == f"{100 * (now[name] - before[name]):+.1f}"
    lines = {row[0]: row[1:] for row in rows["changes"] if len(row) == 3}
    assert lines["front.tyre.rollout"][1] == "2.64 m (8.661 ft)"
    assert lines["part.winch.mass"] == ["not given", "38 kg (83.78 lb)"]


def test_shares_of_the_changes(rows):
    """Those of `compare`, three digits shown; they add up to the points but for those digits."""
    compared = json_of("compare", str(BEFORE), str(HERON), *ALL)["margins"]
    shares = {one["id"]: one["shares"] for one in compared if one.get("id")}
    criteria = json_of("check", str(HERON), *ALL)["criteria"]
    ids = sorted((c["id"] for c in criteria), key=len, reverse=True)
    told = {}
    for row in rows["changes"]:
        if len(row) == 4:
            name = next(i for i in ids if row[0].startswith(i))
            told[name, row[0].removeprefix(name)] = row[3]
    named = {name for (name, words), _ in told.items() if words}
    assert len(named) > 20
    assert not [name for name in named if ".hot" in name or ".recovery" in name]
    for (name, words), points in told.items():
        if not words or words.startswith("no shares"):
            continue
        found = {group.replace(" ", "_"): float(number)
                 for group, number in re.findall(r"([a-z][a-z_ ]*) ([-+][\d.e-]+) %", words)}
        expected = {group: 100 * share for group, share in shares[name].items() if group in found}
        assert found == {group: pytest.approx(share, rel=5e-3) for group, share in expected.items()}
        rest = sum(abs(share) for group, share in shares[name].items() if group not in found)
        assert rest < 1e-8
        shown = 0.05 + 5e-3 * sum(map(abs, found.values()))  # half a unit of the last digits shown
        assert sum(found.values()) == pytest.approx(float(points.split()[0]), abs=shown)


def measured(told):
    """Value and half width of "41.2 +-0.9 m (135.2 +-2.8 ft)", in the first unit."""
    return [float(number) for number in re.fullmatch(
        r"([\d.]+)(?: \+-([\d.e-]+))? [^ ]+ \(.*\)", told).groups() if number]


def test_drive(page, rows):
    driven = json_of("drivelog", str(HERON), str(DRIVE))
    # Column, and half a unit of its last digit.
    names = {"distance": (3, 0.05), "corrected_distance": (4, 0.05),
             "developed_deceleration": (5, 0.005), "predicted_deceleration": (7, 0.005)}
    told = [row for row in rows["drive"] if len(row) == 8]
    assert len(told) == len(driven["stops"]) > 0
    for stop, row in zip(driven["stops"], told):
        assert row[1] == str(stop["line"])
        assert row[2].startswith(f"{3.6 * stop['initial_speed']['value']:.1f} km/h")
        assert row[6].startswith(f"{stop['pedal_force']:.0f} N")
        for name, (column, digit) in names.items():
            figure = stop[name]
            if figure["value"] is None:
                assert row[column] == "-"
                continue
            value, *half = measured(row[column])
            assert value == pytest.approx(figure["value"], abs=digit)
            if half:
                assert half[0] == pytest.approx(figure["p95"] - figure["value"], abs=digit)
    section = next(s for s in page.iter("section") if s.get("aria-labelledby") == "drive")
    words = " ".join("".join(section.itertext()).split())
    friction = driven["results"]["drive.friction_factor"]
    assert driven["summary"]["verdict"] in words
    assert f"{friction['value']:.2f} times that of the file on both axles" in words
    assert f"{100 * driven['results']['drive.fade']['value']:+.1f} %" in words
    for alike in driven["repeatability"]:
        assert f"{alike['developed_deceleration']['mean']:.3g} m/s2" in words
        assert f"{alike['corrected_distance']['mean']:.3g} m" in words


def caption(page, picture):
    figure = next(f for f in page.iter("figure")
                  if any(n.get("id") == f"{picture}-title" for n in f.iter()))
    return " ".join("".join(figure.find("figcaption").itertext()).split())


def test_captions_of_pictures(page, checked):
    full = {p: r["value"] for p, r in checked["results"].items()}
    words = caption(page, "balance-full")
    assert f"{100 * full['full.balance.front_share']:.4g} % of the force" in words
    assert f"{100 * full['full.balance.ideal_front_share']:.4g} % would be ideal" in words
    assert f"at {full['full.balance.lock_deceleration']:.4g} m/s2" in words
    assert f"knee at {full['full.pedal.knee_force']:.4g} N" in caption(page, "pedal")
    words = caption(page, "adhesion-empty")
    assert f"the front needs {full['empty.balance.front_adhesion_used']:.4g}" in words
    limiting = checked["summary"]["limiting"]
    (least,) = [c for c in checked["criteria"] if c["id"] == limiting]
    assert f"{100 * least['margin']:+.0f} %" in caption(page, "spread")


def rated():
    """The rated mass, 2450 kg, as the fade procedure loads it (tests/command/test_results.py)."""
    light = json_of("check", str(HERON))["results"]["empty.mass.front_axle"]["value"]
    front = light + (180 - 75) / 2
    return ["--set", f"load.full.front_axle={front!r} kg",
            "--set", f"load.full.rear_axle={2450 - front!r} kg"]  # fmt: skip


@pytest.mark.parametrize("picture, duty", [
    ("fade", ("--snubs", "un.13h.fade")), ("descent", ("--descent", "8%,6km,50km/h"))])
def test_captions_of_heat(page, picture, duty):
    duty = (*duty, *(rated() if picture == "fade" else ()))
    heat = json_of("heat", str(HERON), *duty)
    margin = heat["results"]["heat.fluid_margin"]["value"]
    words = caption(page, picture)
    assert f"that less its hottest is {margin:.4g} K" in words
    duty = heat["summary"]["duty"]
    assert (duty.replace("load full", "load rated") if picture == "fade" else duty) in words
    assert heat["warnings"]
    for warning in heat["warnings"]:
        assert warning["text"] in re.sub(rf"( {NUMBER} [^(), ]+) \({NUMBER} [^()]+\)", r"\1", words)


def test_caption_of_the_stop(page):
    heat = json_of("heat", str(HERON), "--stop", "100km/h")["results"]
    words = caption(page, "stop")
    assert f"Distance {heat['heat.distance']['value']:.4g} m" in words
    assert f"deceleration {heat['heat.developed_deceleration']['value']:.4g} m/s2" in words
