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
    for name in ("N*m/bar", "N*m", "N/mm", "MPa", "bar/kg", "bar", "cm2", "cm3", "mm2", "mm", "km/h", "km",
                 "kg*m2", "kg", "kJ", "MJ", "kN", "kW", "m/s2", "m/s", "m", "N", "K", "degC")
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
    page = re.sub(r"<style.*?</style>|<[^>]*>", " ", done.stdout.decode(), flags=re.DOTALL)
    return " ".join(page.replace("&#39;", "'").split())


def alone(words, units):
    """What is told in one trade. A chart has a scale of its own."""
    return re.sub(r"Rubbed face over time.* 0 s [\d.]+ s", "", told(words, "--units", units))


def amounts(text, names):
    return set(re.findall(rf"(?<![\w.+-])({NUMBER}) ({names}){END}", TITLES.sub("", text)))


def same(one, other):
    """Whether two amounts are one, as far as their digits go; a rise has no zero of a scale."""
    rise = other[1] == "K"
    apart = abs(si(*one, rise) - si(*other, rise))
    return (one[1] == "degF rise") == rise and apart <= digit(*one) + digit(*other)


def test_both_is_what_is_told_unasked(words):
    assert told(words, "--units", "both") == told(words)


def test_one_trade_has_no_number_of_the_other(words):
    """Given --units us, then no number in a unit of the SI trade is left, and the other way round, but for
    what the titles of clauses say."""
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
    """Given an amount in US units alone, then its number stands beside the SI one where both are told (which
    test_units_beside.py converts); or, where the words are those of the file, it is the SI amount."""
    known = amounts(told(words, "--units", "si"), SI)
    for number, unit in amounts(alone(words, "us"), US) - CLAUSES:
        beside = re.search(rf"(?<![\d.]){re.escape(number)}(?![\d.])", told(words))
        assert beside or any(same((number, unit), one) for one in known), (number, unit)


@pytest.mark.parametrize("units", ["us", "si", "both"])
def test_programs_read_si_whatever_people_read(units):
    for words in (("check", HERON), ("heat", HERON, "--stop", "100km/h"), ("shakedown", HERON)):
        assert plain.run(*words, "--json", "--units", units).stdout == plain.run(*words, "--json").stdout
    words = ("heat", HERON, "--stop", "100km/h", "--csv")
    assert plain.run(*words, "--units", units).stdout == plain.run(*words).stdout


@pytest.mark.parametrize("units, unit, other", [("us", "ft/s2", "m/s2"), ("si", "m/s2", "ft/s2")])
def test_an_axis_of_a_picture_has_the_units_that_were_asked_for(units, unit, other):
    """Given a report, when one trade is asked for, then its pictures have one row of numbers, in round
    steps of that unit."""
    page = plain.run("report", HERON, "-o", "-", "--units", units).stdout.decode()
    pictures = re.findall(r"<svg.*?</svg>", page, re.DOTALL)
    texts = [re.findall(r"<text[^>]*>([^<]*)</text>", picture) for picture in pictures]
    (pedal,) = [text for text in texts if "pedal force" in text and "Deceleration" in text][:1]
    assert unit in pedal and other not in pedal
    numbers = [float(word) for word in pedal if re.fullmatch(r"[\d.]+", word)]
    assert all(len(f"{number:g}".strip("0").replace(".", "").lstrip("0")) <= 2 for number in numbers)


def test_a_deceleration_is_told_in_g_beside_any_unit():
    for units, unit in (("us", "ft/s2"), ("si", "m/s2")):
        assert re.search(rf"{NUMBER} {unit} \({NUMBER} g\)", told(("check", HERON), "--units", units))


def test_a_wrong_trade_is_refused():
    done = plain.run("check", HERON, "--units", "usa")
    assert done.returncode == 2
    assert done.stderr.startswith(b"stopmargin: --units 'usa'; did you mean us? It accepts us, si, both\n")
