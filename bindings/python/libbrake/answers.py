# SPDX-License-Identifier: MIT
"""Studies that answer in words: spread, compare, shakedown, size."""
import math
import re
import warnings
from array import array

from libbrake import _core
from libbrake.arrays import doubles
from libbrake.check import fitted, is_full, rules_bits
from libbrake.errors import RefusedRange
from libbrake.study import axis, output
from libbrake.taken import truth, whole
from libbrake.tree import Named

_TARGET = re.compile(
    r"\s*(?P<name>[^<>=]+?)\s*(?:(?P<relation>[<>]?=)\s*(?P<value>.+))?", re.DOTALL
)
_OBSTACLES = []
while word := _core.obstacle_word(len(_OBSTACLES)):
    _OBSTACLES.append(word)
# As size.h has them.
_RELATIONS = {"=": 0, ">=": 1, "<=": 2}


class Rows(list):
    """Rows of one kind: `rows.column("margin")` is an array, `rows.to_pandas()` a DataFrame."""

    def column(self, name):
        """The numbers of one name, of names inside names with dots:
        `stops.column("distance.value")`; NaN where there is none.
        """
        values = self
        for one in name.split("."):
            values = [None if row is None else row.get(one) for row in values]
        return doubles([math.nan if value is None else float(value) for value in values])

    def to_pandas(self):
        """A DataFrame; names inside names become columns with dots."""
        import pandas

        return pandas.json_normalize(list(self))


def _named(value):
    """Names as attributes, all the way down."""
    if isinstance(value, dict):
        return Named((name, _named(one)) for name, one in value.items())
    if isinstance(value, list):
        return Rows(map(_named, value))
    return value


class Answer(Named):
    """The object that the command prints with --json, its keys as attributes; printed, its
    report."""

    def __init__(self, text, report):
        import json

        super().__init__(_named(json.loads(text)))
        self.__dict__.update(_text=text, _report=report)

    def to_dict(self):
        """The object as plain dicts and lists."""
        import json

        return json.loads(self._text)

    def __repr__(self):
        return self._report

    def __reduce__(self):
        return Answer, (self._text, self._report)


class Plan(Answer):
    """A plan: an Answer with `text` and `html`, as the command writes it for the screen and for
    print."""

    def __init__(self, text, report, html):
        super().__init__(text, report)
        self.__dict__.update(text=report, html=html)

    def __reduce__(self):
        return Plan, (self._text, self.text, self.html)


def shapes_of(vehicle, shape):
    """Shape of every quantity, by its number."""
    words = list(iter(lambda at=iter(range(99)): _core.shape_word(next(at)), ""))
    given = shape if isinstance(shape, dict) else {}
    for word in given.values() if given else [shape]:
        if word not in words:
            raise ValueError(f"shape: got {word!r}; accepts {', '.join(words)}, or a dict of them")
    found = array("d", [0.0 if given else words.index(shape)]) * _core.quantity_count()
    for path, word in given.items():
        found[axis(vehicle, path, [0.0])[0]] = words.index(word)
    return found


def spread(vehicle, samples, rules, seed, shape, fade, progress):
    """See Vehicle.spread."""
    bits, shapes = rules_bits(rules), shapes_of(vehicle, shape)
    samples = whole("samples", samples, 1, 1 << 31)
    seed = whole("seed", seed, 0, (1 << 64) - 1)
    return Answer(
        *_core.spread_run(
            vehicle._sheet, bits, samples, seed, shapes, truth("fade", fade), progress
        )
    )


def compare(before, after, rules="own", fade=False, progress=None):
    """What each change between two vehicles took or gave, shares that add up exactly. `fade`: of
    hot performance too, which takes a minute. `progress`: called with (done, total) now and then;
    with `fade` first of the two vehicles, then of the choices of changes.

    Gives an Answer: verdict, groups, like_for_like, margins, results, lines.

    >>> libbrake.compare(libbrake.load("examples/heron-before.ini"), v).verdict.took_most
    'tyre'
    """
    bits = rules_bits(rules)
    return Answer(
        *_core.compare_run(fitted(before, after), after._sheet, bits, truth("fade", fade), progress)
    )


def shakedown(vehicle, load, despite):
    """See Vehicle.shakedown."""
    words = [despite] if isinstance(despite, str) else list(despite)
    for word in words:
        if word not in _OBSTACLES:
            raise ValueError(f"despite: got {word!r}; accepts {', '.join(_OBSTACLES)}")
    return Plan(*_core.shakedown_run(vehicle._sheet, is_full(load), ",".join(words)))


# What is no output.
_WISHES = {"all": -1, "regained": -2}


def _target(text, bits):
    """Number of the output, relation, value and rules of `NAME >= VALUE`, a criterion, `all` or
    `regained`."""
    found = _TARGET.fullmatch(text)
    if not found:
        raise ValueError(f"target: got {text!r}; accepts a criterion, or NAME >= VALUE, <=, =")
    wish = _WISHES.get(found["name"])
    number = output(found["name"]) if wish is None else wish
    if found["value"] is None:
        if number >= 0 and number < _core.result_count():
            raise ValueError(f"target: {found['name']} is a result; accepts NAME >= VALUE, <=, =")
        return [number, _RELATIONS[">="], 0.0, bits]
    value = _core.output_amount(max(number, -1), f"target: {found['name']}", found["value"])
    return [number, _RELATIONS[found["relation"]], value, bits]


def _sizes_of_parts(vehicle, path):
    """The sizes that the vehicle's list of parts has of a line."""
    rows = [row.rpartition(",") for row in _core.sheet_sizes(vehicle._sheet).split("\n")[1:-1]]
    sizes = [size for part, _, size in rows if part == path]
    if not sizes:
        raise ValueError(f"by: the list of parts has no size of {path}")
    return sizes


def _listed(vehicle, by):
    """Lines and their sizes; of names alone those of the vehicle's list of parts."""
    given = by if hasattr(by, "items") else dict.fromkeys(by)
    return {path: _sizes_of_parts(vehicle, path) if sizes is None else sizes
            for path, sizes in given.items()}  # fmt: skip


def size(vehicle, by, target, within, rules, before, progress):
    """See Vehicle.size."""
    bits, was = rules_bits(rules), fitted(before, vehicle)
    texts = [target] if isinstance(target, str) else list(target)
    if not 1 <= len(texts) <= 8:
        raise ValueError(f"target: got {len(texts)}; accepts 1 to 8 targets")
    targets = array("d", (number for text in texts for number in _target(text, bits)))
    if was is None and _WISHES["regained"] in targets[::4]:
        raise ValueError("target: regained wants before=, the vehicle before the change")
    if isinstance(by, str):
        if len(texts) > 1:
            raise ValueError("target: one for one line; sizes of lines take several")
        number, _, ends = axis(vehicle, by, within or [-math.inf, math.inf])
        low, high = _core.quantity_low(number), _core.quantity_high(number)
        if within is not None and not (len(ends) == 2 and low <= ends[0] < ends[1] <= high):
            raise ValueError(f"within: accepts (low, high) between {low:g} and {high:g}")
        low, high = (low, high) if within is None else ends
        return Answer(*_core.size_range(vehicle._sheet, number, low, high, targets, was, progress))
    if within is not None or 0 in targets[1::4]:
        raise ValueError("sizes to choose from: accepts no within, and targets with >= or <=")
    if set(by) == {"tyre"}:
        return _tyres(vehicle, by["tyre"], targets, was, progress)
    by = _listed(vehicle, by)
    found = [axis(vehicle, path, sizes) for path, sizes in by.items()]
    if not 1 <= len(found) <= 4 or math.prod(len(sizes) for _, _, sizes in found) > 10_000:
        raise ValueError("by: accepts 1 to 4 lines, and up to 10,000 combinations")
    for path, (number, unit, sizes) in zip(by, found):
        low, high = _core.quantity_low(number), _core.quantity_high(number)
        wrong = [one for one in sizes if not low <= one <= high]
        if wrong:
            raise RefusedRange(f"got {wrong[0]:g} {unit}; accepts {low:g} to {high:g}", field=path)
    lines = array("d", (number for number, _, _ in found))
    sizes = [sizes for _, _, sizes in found]
    return Answer(*_core.size_lists(vehicle._sheet, lines, sizes, targets, was, progress))


def _tyres(vehicle, markings, targets, was, progress):
    from libbrake.tyre import marking_read

    markings = [markings] if isinstance(markings, str) else list(markings)
    if not 1 <= len(markings) <= 64 or any("\n" in one for one in markings):
        raise ValueError("tyre: accepts 1 to 64 markings")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # what is nominal stands in the answer
        for marking in markings:
            marking_read(marking)
    return Answer(*_core.size_tyres(vehicle._sheet, "\n".join(markings), targets, was, progress))
