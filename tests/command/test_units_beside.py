"""Every number in a US unit is the SI number beside it, converted."""
import re

import pytest

from browser.test_numbers import UNITS, ZERO
from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")
BEFORE = str(plain.ROOT / "examples" / "heron-before.ini")
NUMBER = r"[-+]?\d[\d.]*(?:e[-+]\d+)?"
NAMES = "|".join(re.escape(name) for name in sorted({*UNITS, *ZERO} - {""}, key=len, reverse=True))
BESIDE = re.compile(rf"({NUMBER}) ({NAMES}) \(({NUMBER}) ({NAMES})\)")
ROW = re.compile(rf"(?:  \S+)?((?: +(?:{NUMBER}|-|no end))+) {{1,2}}({NAMES})")

ANSWERS = {
    "check": ("check", HERON),
    "compare": ("compare", BEFORE, HERON),
    "compare with fade": ("compare", BEFORE, HERON, "--fade"),
    "size": ("size", HERON, "--by", "stop.speed", "--for", "full.stop.front_rise <= 100 K"),
    "spread": ("spread", HERON, "--samples", "1024"),
    "heat": ("heat", HERON, "--stop", "100km/h"),
}


def si(number, unit, difference):
    factor, zero = ZERO.get(unit) or (UNITS[unit], 0)
    return float(number) * factor + (0 if difference else zero)


def digit(number, unit):
    """Half a unit of the last digit that a number shows, in SI."""
    figures, _, power = number.lstrip("+-").partition("e")
    decimals = len(figures.partition(".")[2])
    return 0.5001 * 10.0 ** (int(power or 0) - decimals) * (ZERO.get(unit) or (UNITS[unit], 0))[0]


def assert_same(one, other, difference, where):
    """Two numbers with their units are the same amount, as far as their digits go. Kelvins are told
    of differences only: 100 K is 180 degF of rise, and -279.7 degF of nothing that was asked."""
    assert (one[1] == "K") == (other[1] == "degF rise"), where
    assert abs(si(*one, difference) - si(*other, difference)) <= digit(*one) + digit(*other), where


def pairs_of_lines(text):
    """Rows of a table whose next line has the same numbers in the US unit."""
    lines = text.splitlines()
    for first, second in zip(lines, lines[1:]):
        one, other = ROW.fullmatch(first), ROW.fullmatch(second)
        if one and other and first[2] != " " and second[:4].isspace():
            yield first, second, one, other


@pytest.fixture(scope="module", params=ANSWERS.values(), ids=ANSWERS)
def text(request):
    return plain.run(*request.param).stdout.decode()


def test_a_us_number_is_its_si_neighbour(text):
    """Given answers, when each `x unit (y unit)` is read, then both are one amount. A change stands
    with its sign, and has no zero of a scale."""
    one_line = " ".join(text.split())
    for x, unit, y, us in BESIDE.findall(one_line):
        assert_same((x, unit), (y, us), x[0] == "+", f"{x} {unit} ({y} {us})")
    for first, second, one, other in pairs_of_lines(text):
        numbers, us_numbers = one[1].split(), other[1].split()
        assert len(numbers) == len(us_numbers)
        for x, y in zip(numbers, us_numbers):
            if "-" != x and x not in ("no", "end"):
                changed = "before" in text and x is numbers[-1] and len(numbers) == 3
                assert_same((x, one[2]), (y, other[2]), changed, (first, second))


def test_numbers_were_found(text):
    assert len(BESIDE.findall(" ".join(text.split()))) + len(list(pairs_of_lines(text))) > 2


@pytest.mark.parametrize("bound, speed", [("100 K", "180 degF rise"), ("180 degF rise", "100 K")])
def test_a_rise_can_be_typed_in_the_unit_that_is_printed(bound, speed):
    """Given a rise in degF rise, which has a blank, when asked for, then it is that of its kelvins."""
    def asked(rise):
        return plain.run("size", HERON, "--by", "stop.speed", "--for",
                         f"full.stop.front_rise <= {rise}")  # fmt: skip

    assert (asked(bound).returncode, asked(bound).stderr) == (0, b"")
    assert asked(bound).stdout == asked(speed).stdout


def test_a_temperature_is_no_rise():
    done = plain.run("size", HERON, "--by", "stop.speed", "--for", "full.stop.front_rise <= 180 degF")
    assert done.returncode == 2
    assert b"a difference of temperature is wanted; accepts K, degF rise" in done.stderr


@pytest.mark.parametrize("name, unit", [("front.tyre.rollout", "m, or ft"),
                                        ("full.stop.front_rise", "K, or degF rise"),
                                        ("full.stop.distance", "m, or ft")])  # fmt: skip
def test_explain_has_the_us_unit_of_the_other_answers(name, unit):
    assert f"  unit      {unit}" in plain.run("explain", name).stdout.decode()
