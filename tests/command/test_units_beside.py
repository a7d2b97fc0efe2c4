# SPDX-License-Identifier: MIT
"""Every number in a US unit is the SI number beside it, converted."""
import re
from collections import Counter

import pytest

from browser.test_numbers import UNITS, ZERO
from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")
BEFORE = str(plain.ROOT / "examples" / "heron-before.ini")
DRIVE = str(plain.ROOT / "examples" / "heron-drive.csv")
NUMBER = r"[-+]?\d[\d.]*(?:e[-+]\d+)?"
NAMES = "|".join(re.escape(name) for name in sorted({*UNITS, *ZERO} - {""}, key=len, reverse=True))
US = "|".join(
    re.escape(name)
    for name in ("degF rise", "degF", "lbf*ft/psi", "lbf*ft", "lbf/in", "lbf", "lb*ft2", "lb",
                 "psi/lb", "psi", "ft*lbf", "ft/s2", "ft2", "ft", "inHg", "in2", "in3", "in",
                 "mph", "mi")
)  # fmt: skip
END = r"(?![\w*/]| place)"
# A deceleration is told in g as well. What is not known exactly has its width behind it.
WIDTH = rf"(?: \+-({NUMBER}))?"
BESIDE = re.compile(
    rf"({NUMBER}){WIDTH} ({NAMES}) \(({NUMBER}){WIDTH} ({NAMES})(?:, ({NUMBER}) g)?\)"
)
CELLS = re.compile(rf"({NUMBER}){WIDTH}(?: ({NAMES}))?")
CELL = rf"(?:{NUMBER}|-|no end|without limit)"
# A row with its unit at the end, one with a unit in each cell, and one whose units stand in the
# heads.
AT_END = re.compile(rf"(?:  \S+)?((?: +{CELL})+) +({NAMES})")
IN_CELLS = re.compile(rf"  (?:\S.*?  )??((?: +(?:{NUMBER} (?:{NAMES})|-))+)")
IN_HEADS = re.compile(rf" +(?:{NAMES})(?: +(?:{NAMES}))*")
# What the titles of clauses say, and what was typed.
CLAUSES = {("20", "mph"), ("50", "lbf"), ("15", "ft/s2")}

ANSWERS = {
    "check": ("check", HERON),
    "check in full": ("check", HERON, "--full"),
    "compare": ("compare", BEFORE, HERON),
    "compare with fade": ("compare", BEFORE, HERON, "--fade"),
    "size": ("size", HERON, "--by", "stop.speed", "--for", "full.stop.front_rise <= 100 K"),
    "size in decelerations": ("size", HERON, "--by", "front.disc.piston_diameter", "--for",
                              "decel at 300 N = 7.0 m/s2"),
    "tyres": ("size", HERON, "--by", "tyre=35x12.50R17LT,LT285/75R16", "--for", "us.135.cold"),
    "spread": ("spread", HERON, "--samples", "1024"),
    "heat": ("heat", HERON, "--stop", "100km/h"),
    "heat of snubs": ("heat", HERON, "--snubs", "us.135.fade"),
    "heat of a drive": ("heat", HERON, "--cycle", DRIVE),
    "drivelog": ("drivelog", HERON, DRIVE),
    "shakedown": ("shakedown", HERON, "--text"),
    "a line explained": ("explain", "front.tyre.rollout", HERON),
    "a vacuum explained": ("explain", "booster.vacuum", HERON),
    "an area explained": ("explain", "heat.drag_area", HERON),
    "a result explained": ("explain", "full.stop.distance", HERON),
}  # fmt: skip


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


def numbers_at_end(first, second):
    """Of two lines whose last word is the unit of all their numbers."""
    one, other = AT_END.fullmatch(first), AT_END.fullmatch(second)
    if not one or not other:
        return None
    numbers, us_numbers = (re.findall(rf"(?<!\S){NUMBER}", found[1]) for found in (one, other))
    assert len(numbers) == len(us_numbers), (first, second)
    return [((x, one[2]), (y, other[2])) for x, y in zip(numbers, us_numbers)]


def numbers_in_cells(first, second):
    """Of two lines with a unit behind every number."""
    one, other = IN_CELLS.fullmatch(first), IN_CELLS.fullmatch(second)
    if not one or not other:
        return None
    cells, us_cells = (
        re.findall(rf"({NUMBER}) ({NAMES}){END}", found[1]) for found in (one, other)
    )
    assert len(cells) == len(us_cells), (first, second)
    return list(zip(cells, us_cells))


def amounts(cell, head):
    """A cell's number and the width behind it, as a change: both in the unit of the cell, or of
    the head above it."""
    number, width, unit = CELLS.fullmatch(cell).groups()
    return [(text, unit or head) for text in (number, width and f"-{width}") if text]


def numbers_by_ends(first, second, heads):
    """Of two lines whose cells end below each other, and below the units in their heads."""
    one, other = ({found.end(): found[0] for found in re.finditer(r"\S+(?: \S+)*", line)}
                  for line in (first, second))  # fmt: skip
    found = []
    for end, cell in other.items():
        if cell != "-":
            pair = (amounts(one[end], heads[0].get(end)), amounts(cell, heads[1].get(end)))
            assert len(pair[0]) == len(pair[1]), (first, second)
            found += zip(*pair)
    return found


def pairs_of_lines(text):
    """Numbers of the rows of a table whose next line has the same ones in the other unit: of every
    row below two lines of units."""
    lines = text.splitlines()
    heads = None
    while len(lines) > 1:
        first, second, *rest = lines
        paired = second[:4].isspace() or IN_HEADS.fullmatch(second)
        if IN_HEADS.fullmatch(first) and paired:
            heads = [{unit.end(): unit[0] for unit in re.finditer(NAMES, line)}
                     for line in (first, second)]  # fmt: skip
        elif heads and paired:
            yield from numbers_by_ends(first, second, heads)
        elif first[2:3].strip() and second[:6].isspace():
            yield from numbers_at_end(first, second) or numbers_in_cells(first, second) or []
        heads = heads if paired else None
        lines = rest if heads else lines[1:]


def pairs_beside(text):
    """Numbers with the same ones in brackets behind them."""
    for x, width, unit, y, us_width, us, in_g in BESIDE.findall(text):
        yield (x, unit), (y, us)
        assert (width == "") == (us_width == "")
        if width:
            yield (f"-{width}", unit), (f"-{us_width}", us)
        assert (unit == "m/s2") == (in_g != "") == (us == "ft/s2")
        if in_g:
            # Source: NIST SP 811, appendix B.8, standard acceleration of free fall.
            assert float(in_g) * 9.80665 == pytest.approx(float(x), rel=1e-2, abs=1e-3), (x, in_g)


def all_pairs(text):
    """Bare texts of the two numbers of every amount."""
    return [*pairs_beside(" ".join(text.split())), *pairs_of_lines(text)]


@pytest.fixture(scope="module", params=ANSWERS.values(), ids=ANSWERS)
def text(request):
    return plain.run(*request.param).stdout.decode()


def test_a_us_number_is_its_si_neighbour(text):
    """Given answers, when each number and its neighbour in the other trade are read, then both are
    one amount. A change stands with its sign in both, and has no zero of a scale; no temperature of
    these answers is below zero."""
    for one, other in all_pairs(text):
        changed = one[0][0] in "+-"
        assert not changed or other[0][0] == one[0][0], (one, other)
        assert_same(one, other, changed, (one, other))


def test_no_us_number_goes_unread(text):
    """Given answers, when their amounts are read, then no number in a US unit is left that was not
    one of them, but for those of the clauses' titles: else the test above would pass over it."""
    told = Counter(re.findall(rf"(?<![\w.])({NUMBER}) ({US}){END}", " ".join(text.split())))
    read = Counter(us for _, us in all_pairs(text))
    first_screen = "--full. How: " in text  # it tells the limiting requirement alone
    assert len(all_pairs(text)) > (1 if first_screen else 2)
    assert set(told - read) <= CLAUSES


@pytest.mark.parametrize("bound, speed", [("100 K", "180 degF rise"), ("180 degF rise", "100 K")])
def test_a_rise_can_be_typed_in_the_unit_that_is_printed(bound, speed):
    """Given a rise in degF rise, which has a blank, when asked for, then it is that of its
    kelvins."""
    def asked(rise):
        return plain.run("size", HERON, "--by", "stop.speed", "--for",
                         f"full.stop.front_rise <= {rise}")  # fmt: skip

    assert (asked(bound).returncode, asked(bound).stderr) == (0, b"")
    assert asked(bound).stdout == asked(speed).stdout


def test_the_width_of_a_temperature_is_a_rise():
    """5 degC more is 5 K, 9 degF rise; 5 degC of a thermometer is 41 degF."""
    words = ("--set", "heat.ambient=35 degC +- 5 degC", "--text")
    paper = " ".join(plain.run("report", HERON, *words).stdout.decode().split())
    assert "heat.ambient 35 degC (95 degF); May be off by 5 K (9 degF rise);" in paper


def test_a_temperature_is_no_rise():
    done = plain.run(
        "size", HERON, "--by", "stop.speed", "--for", "full.stop.front_rise <= 180 degF"
    )
    assert done.returncode == 2
    assert b"a difference of temperature is wanted; accepts K, degF rise" in done.stderr


@pytest.mark.parametrize("name, unit", [("front.tyre.rollout", "m, or ft"),
                                        ("full.stop.front_rise", "K, or degF rise"),
                                        ("full.stop.distance", "m, or ft")])  # fmt: skip
def test_explain_has_the_us_unit_of_the_other_answers(name, unit):
    assert f"Unit      {unit}" in plain.run("explain", name).stdout.decode()
