# SPDX-License-Identifier: MIT
"""The numbers with units that a report tells, part by part: {heading: Counter of (number, unit)}.
Standard gravities are left out: where the two systems of units stand one below the other, there is
no third."""
import collections
import re

import html5lib

UNITS = [
    "%", "mm", "m", "in", "ft", "cm2", "in2", "m2", "ft2", "cm3", "in3", "s", "min", "km",
    "km/h", "mph", "m/s2", "ft/s2", "kg", "lb", "N", "lbf", "bar", "kPa", "MPa", "psi", "inHg",
    "N*m", "lbf*ft", "kJ", "MJ", "ft*lbf", "kg*m2", "lb*ft2", "N/mm", "lbf/in", "bar/kg",
    "psi/lb", "N*m/bar", "lbf*ft/psi", "deg", "K", "degC", "degF rise", "degF",
]  # fmt: skip
UNIT = rf"(?:{'|'.join(map(re.escape, sorted(UNITS, key=len, reverse=True)))})(?![\w*/])"
NUMBER = r"[-+]?\d[\d.]*(?:e[-+]?\d+)?"
RANGED = rf"(?<![\w.+-]){NUMBER}(?:(?:, | to | \+-){NUMBER})*"
AMOUNT = re.compile(rf"({RANGED}) ({UNIT})")
BARE = re.compile(rf"{RANGED}(?=  |$)")
UNITS_ALONE = re.compile(rf" +{UNIT}(?: +{UNIT})*")
SKETCH = re.compile(r"\nRubbed face over time.*?(?=\n\n)", re.DOTALL)
HEADINGS = ("h2", "h3")
BLOCKS = {"th", "td", "dt", "dd", "p", "li", "caption"}


def amounts(text):
    return collections.Counter(AMOUNT.findall(" ".join(text.split())))


def in_page(page):
    """Of the parts of a page, each without the parts and pictures within it."""

    def own(element):
        if element.tag in BLOCKS:
            return amounts(" ".join(element.itertext()))
        within = (own(child) for child in element if child.tag not in ("section", "figure"))
        return sum(within, collections.Counter())

    parts = html5lib.parse(page, namespaceHTMLElements=False).iter("section")
    return {next(e.text for e in part if e.tag in HEADINGS): own(part) for part in parts}


def below_units(part):
    """Numbers in columns whose unit stands alone below the head: those that end where the unit
    ends. Below two lines of units, the lines of a row take turns."""
    told, ends, row, head = collections.Counter(), [], 0, ""
    for line in part.splitlines():
        if UNITS_ALONE.fullmatch(line) and not re.search(r"\d", head):
            ends = ends if row == 0 else []
            ends.append({found.end(): found[0] for found in re.finditer(UNIT, line)})
            row = 0
            continue
        if ends and line.strip():
            unit = ends[row % len(ends)]
            told.update((n[0], unit[n.end()]) for n in BARE.finditer(line) if n.end() in unit)
            row += 1
        head = line
    return told


def in_text(text, headings):
    """Of the parts of a text that have these headings."""
    body = SKETCH.sub("", text).split("\nCaution ")[0]
    names = "|".join(map(re.escape, headings))
    _, *parts = re.split(rf"\n\n({names})(?=\n)", body)
    return {name: amounts(part) + below_units(part) for name, part in zip(parts[::2], parts[1::2])}
