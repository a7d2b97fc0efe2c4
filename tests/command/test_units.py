# SPDX-License-Identifier: MIT
"""--units: what people read is in the units that they asked for, and the numbers are the same."""
import functools
import re

import pytest

from command.test_units_beside import ANSWERS, BEFORE, CLAUSES, END, HERON, NUMBER, US, digit, si
from file import plain

DRIVE = str(plain.ROOT / "examples" / "heron-drive.csv")
ALL = {
    **{name: words for name, words in ANSWERS.items() if name != "compare with fade"},
    "descent": ("heat", HERON, "--descent", "8%,6km,50km/h", "--cool", "10min,30km/h"),
    "snubs": ("heat", HERON, "--snubs", "us.135.fade"),
    "explain": ("explain", "driver.target"),
    "explain in a file": ("explain", "full.stop.distance", HERON),
    "drivelog": ("drivelog", HERON, DRIVE),
    "shakedown": ("shakedown", HERON, "--text"),
    "shakedown as a page": ("shakedown", HERON),
    "report": ("report", HERON, "--before", BEFORE, "--drivelog", DRIVE, "--text"),
    "report as a page": ("report", HERON, "--before", BEFORE, "--drivelog", DRIVE, "-o", "-"),
}
SI = "|".join(
    re.escape(name)
    for name in ("N*m/bar", "N*m", "N/mm", "MPa", "kPa", "bar/kg", "bar", "cm2", "cm3", "mm2", "mm",
                 "km/h", "km", "kg*m2", "kg", "kJ", "MJ", "kN", "kW", "m/s2", "m/s", "m2", "m", "N",
                 "K", "degC")
)  # fmt: skip
# Titles of clauses have the units of their clause; "0.38 in place of 0.40" is no length.
TITLES = re.compile(r"from 100 km/h|from 20 mph|at 50 lbf|in place of")


@pytest.fixture(scope="module", params=ALL.values(), ids=ALL)
def words(request):
    return request.param


@functools.lru_cache(maxsize=None)
def told(words, *units):
    done = plain.run(*words, *units)
    assert done.stderr == b""
    unseen = r"<style.*?</style>|<pre hidden.*?</pre>|<[^>]*>"
    page = re.sub(unseen, " ", done.stdout.decode(), flags=re.DOTALL)
    return " ".join(page.replace("&#39;", "'").split())


def alone(words, units):
    """What is told in one trade. A chart has a scale of its own."""
    return re.sub(r"Rubbed face over time.* 0 s [\d.]+ s", "", told(words, "--units", units))


def amounts(text, names):
    """Each with its unit, which a range, "1 to 6 mm", has behind its second number."""
    one = rf"(?<![\w.+-])({NUMBER})(?=(?: to {NUMBER})? ({names}){END})"
    return set(re.findall(one, TITLES.sub("", text)))


def same(one, other):
    """Whether two amounts are one, as far as their digits go; a rise has no zero of a scale."""
    rise = other[1] == "K"
    apart = abs(si(*one, rise) - si(*other, rise))
    return (one[1] == "degF rise") == rise and apart <= digit(*one) + digit(*other)


def test_both_is_what_is_told_unasked(words):
    assert told(words, "--units", "both") == told(words)


def test_one_trade_has_no_number_of_the_other(words):
    """Given --units us, then no number in a unit of the SI trade is left, and the other way round,
    but for what the titles of clauses say."""
    assert not amounts(told(words, "--units", "si"), US) - CLAUSES
    assert not amounts(told(words, "--units", "us"), SI)


def test_the_si_numbers_are_those_of_both(words):
    """Given an amount in SI alone, when both trades are told, then its number is there."""
    missing = [
        (number, unit) for number, unit in amounts(alone(words, "si"), SI)
        if not re.search(rf"(?<![\d.]){re.escape(number)}(?![\d.])", told(words))
    ]  # fmt: skip
    assert missing == []


def test_each_us_number_is_that_of_both_or_the_si_number_converted(words):
    """Given an amount in US units alone, then its number stands beside the SI one where both are
    told (which test_units_beside.py converts); or, where the words are those of the file, it is the
    SI amount.
    """
    known = amounts(told(words, "--units", "si"), SI)
    for number, unit in amounts(alone(words, "us"), US) - CLAUSES:
        beside = re.search(rf"(?<![\d.]){re.escape(number)}(?![\d.])", told(words))
        assert beside or any(same((number, unit), one) for one in known), (number, unit)


@pytest.mark.parametrize("units", ["us", "si", "both"])
def test_programs_read_si_whatever_people_read(units):
    whole = ("check", HERON, "--full")
    for words in (whole, ("heat", HERON, "--stop", "100km/h"), ("shakedown", HERON)):
        assert (
            plain.run(*words, "--json", "--units", units).stdout
            == plain.run(*words, "--json").stdout
        )
    words = ("heat", HERON, "--stop", "100km/h", "--csv")
    assert plain.run(*words, "--units", units).stdout == plain.run(*words).stdout


@pytest.mark.parametrize("units, unit, other", [("us", "ft/s2", "m/s2"), ("si", "m/s2", "ft/s2")])
def test_an_axis_of_a_picture_has_the_units_that_were_asked_for(units, unit, other):
    """Given a report, when one trade is asked for, then its pictures have one row of numbers, in
    round steps of that unit."""
    page = plain.run("report", HERON, "-o", "-", "--units", units).stdout.decode()
    pictures = re.findall(r"<svg.*?</svg>", page, re.DOTALL)
    texts = [re.findall(r"<text[^>]*>([^<]*)</text>", picture) for picture in pictures]
    (pedal,) = [text for text in texts if "pedal force" in text and "Deceleration" in text][:1]
    assert unit in pedal and other not in pedal
    numbers = [float(word) for word in pedal if re.fullmatch(r"[\d.]+", word)]
    assert all(
        len(f"{number:g}".strip("0").replace(".", "").lstrip("0")) <= 2 for number in numbers
    )


def test_a_deceleration_is_told_in_g_beside_any_unit():
    for units, unit in (("us", "ft/s2"), ("si", "m/s2")):
        assert re.search(
            rf"{NUMBER} {unit} \({NUMBER} g\)", told(("check", HERON, "--full"), "--units", units)
        )


def test_a_wrong_trade_is_refused():
    done = plain.run("check", HERON, "--units", "usa")
    assert done.returncode == 2
    assert done.stderr.startswith(
        b"stopmargin: --units 'usa'; did you mean us? It accepts us, si, both\n"
    )


IN_US = {"mm": (1 / 25.4, "in"), "kg": (1 / 0.45359237, "lb"), "m": (1 / 0.0254, "in"),
         "bar": (1 / 0.06894757293168, "psi"), "cm3": (1 / 16.387064, "in3"),
         "N": (1 / 4.4482216152605, "lbf")}  # fmt: skip


def in_us_units(text):
    """The same vehicle as an American would write it. Source of the factors: NIST SP 811, appendix
    B.8."""
    return re.sub(
        r"(?<![\w.])([\d.]+) (mm|kg|m|bar|cm3|N)\b(?![\w*/])",
        lambda found: f"{float(found[1]) * IN_US[found[2]][0]:.12g} {IN_US[found[2]][1]}", text,
    )  # fmt: skip


def leading(given, *more):
    """The unit that the first mass of `check` is told in."""
    text = plain.run("check", "-", "--full", *more, given=given).stdout.decode()
    return re.search(r"^  mass\.total.* (\S+)$", text, re.MULTILINE)[1]


def test_the_trade_of_the_file_leads():
    """Given a file in US units, when nothing is asked for, or both, then they lead, and the numbers
    are those of the same vehicle in SI; given one line in the other trade, then it changes
    nothing."""
    us = in_us_units(plain.VEHICLE)
    assert (leading(plain.VEHICLE), leading(us)) == ("kg", "lb")
    assert leading(us, "--units", "both") == "lb"
    assert leading(us, "--units", "si") == "kg"
    assert leading(us, "--set", "vehicle.wheelbase=2.5 m") == "lb"
    assert leading(plain.VEHICLE, "--set", "vehicle.wheelbase=98 in") == "kg"
    before = plain.check(plain.VEHICLE)["results"]
    for name, result in plain.check(us)["results"].items():
        assert result["value"] == pytest.approx(before[name]["value"], rel=1e-9, nan_ok=True), name


def test_of_two_vehicles_the_one_after_the_change_says_which_trade_leads(tmp_path):
    (tmp_path / "us.ini").write_text(in_us_units(plain.changed("[front.tyre] rollout = 2.2 m")))
    (tmp_path / "si.ini").write_text(plain.VEHICLE)
    for files, units in (
        (("si.ini", "us.ini"), {("lbf", "N")}),
        (("us.ini", "si.ini"), {("N", "lbf")}),
    ):
        text = plain.run("compare", *files, folder=tmp_path).stdout.decode()
        assert set(re.findall(r"tyre [-+][\d.]+ (lbf|N) \([-+][\d.]+ (lbf|N)\)", text)) == units
