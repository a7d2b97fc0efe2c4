# SPDX-License-Identifier: MIT
"""Lines of a vehicle told by the logs of its drives."""
import math
import os
from array import array

from libbrake import _core
from libbrake.arrays import numpy, rows
from libbrake.check import is_full
from libbrake.drive import read
from libbrake.errors import Refused
from libbrake.grid import not_known
from libbrake.study import axis
from libbrake.taken import names
from libbrake.tree import same_numbers

# As knowledge.h has them.
_WORDS = ("none", "agrees", "less", "more")
_HOLDS = 1.96  # a tolerance holds 95 of 100


class Identified:
    """What logs tell of some lines, `lines`, in SI, in their order.

    `value` and `half`: of each, 95 of 100 within value -+ half; `before` and `half_before`: by the
    file alone. `covariance`, `correlation`: of the values. `learnt`: share of the variance of each
    that the logs took away. `shares`, falling, and `combinations`, a row each: how much was taken
    of which combination of the lines, in their standard deviations; `condition`, 1 and up, is
    infinite where nothing is told of one: then the logs do not tell the lines apart, and only what
    they do together is known. `word`: agrees, less or more than the file allows.

    `vehicle` is a copy that every study draws as the logs make likely. tolerances() is one that has
    the values as lines of its file.
    """

    def __init__(self, vehicle, lines, room):
        count = len(lines)
        self.vehicle, self.lines, self.units = vehicle, tuple(lines), tuple(lines.values())
        self.before, self.value, self.learnt, self.shares = room[:4]
        before, after, combinations = (rows(one, count, count) for one in room[4:7])
        self.covariance, self.combinations = after, combinations
        self.half_before, self.half = _halves(before), _halves(after)
        self.correlation = _over_halves(after, self.half)
        self.condition, self.stops, self.forces, self.effective, word, self.likely = room[7]
        self.stops, self.forces = int(self.stops), int(self.forces)
        self.word = _WORDS[int(word)]
        self.about = {"libbrake": _core.library_version(), "vehicle": vehicle.digest()}
        self.caution = _core.caution_text()

    def tolerances(self):
        """A copy of the vehicle whose lines have these values, with their tolerances, estimated.
        What the logs tell of other lines, and how these hang together, is let go: where the
        correlations are large, keep `vehicle`."""
        sheet = bytearray(self.vehicle._sheet)
        _core.sheet_forget(sheet)
        plain = type(self.vehicle)(sheet)
        columns = zip(self.lines, map(float, self.value), map(float, self.half), self.units)
        given = {path: f"{value!r} {unit} +- {half!r} {unit}, estimated"
                 for path, value, half, unit in columns}  # fmt: skip
        plain.set({**given, "drive.log": None})  # or load() would learn of it once more
        return plain

    def to_pandas(self):
        """A DataFrame, a line a row."""
        import pandas

        columns = {name: list(getattr(self, name))
                   for name in ("value", "half", "before", "half_before", "learnt")}  # fmt: skip
        frame = pandas.DataFrame({**columns, "unit": self.units}, index=list(self.lines))
        frame.attrs.update(self.about, condition=self.condition, caution=self.caution)
        return frame

    def to_xarray(self):
        """A Dataset over line, and over combination."""
        import xarray

        of_lines = {name: ("line", getattr(self, name))
                    for name in ("value", "half", "before", "half_before", "learnt")}  # fmt: skip
        coords = {"line": list(self.lines), "other": list(self.lines),
                  "unit": ("line", list(self.units))}  # fmt: skip
        data = {**of_lines, "covariance": (("line", "other"), self.covariance),
                "correlation": (("line", "other"), self.correlation),
                "shares": ("combination", self.shares),
                "combinations": (("combination", "line"), self.combinations)}  # fmt: skip
        about = {**self.about, "condition": self.condition, "caution": self.caution}
        return xarray.Dataset(data, coords, about)

    def __eq__(self, other):
        if not isinstance(other, Identified) or self.lines != other.lines:
            return NotImplemented
        return self.vehicle == other.vehicle and all(
            same_numbers(getattr(self, name), getattr(other, name))
            for name in ("value", "covariance", "combinations")
        )

    __hash__ = None

    def __repr__(self):
        columns = zip(self.lines, self.value, self.half, self.units, self.learnt)
        lines = [f"{path}: {value:.5g} +- {half:.2g} {unit}".rstrip() + f", {learnt:.0%} learnt"
                 for path, value, half, unit, learnt in columns]  # fmt: skip
        apart = "are not told apart" if math.isinf(self.condition) else "are told apart"
        lines.append(f"{self.stops} stops, {self.word}; the lines {apart}, "
                     f"condition {self.condition:.3g}")  # fmt: skip
        return "\n".join([*lines, f"Caution. {self.caution}"])


def _halves(covariance):
    found = [_HOLDS * math.sqrt(row[at]) for at, row in enumerate(covariance)]
    np = numpy()
    return found if np is None else np.array(found)


def _over_halves(covariance, half):
    found = [[_HOLDS**2 * one / (half[i] * half[k]) if half[i] * half[k] else math.nan
              for k, one in enumerate(row)] for i, row in enumerate(covariance)]  # fmt: skip
    np = numpy()
    return found if np is None else np.array(found)


def _listed(logs):
    """One log or several."""
    if isinstance(logs, (str, os.PathLike)) or hasattr(logs, "keys"):
        return [logs]
    return list(logs)


def _loads(load, count):
    """The load of each log; None: as the log or the vehicle says."""
    loads = [load] * count if load is None or isinstance(load, str) else list(load)
    if len(loads) != count:
        raise ValueError(f"load: got {len(loads)}; accepts one, or one of each of {count} logs")
    for one in loads:
        if one is not None:
            is_full(one)
    return loads


def _text(log, load):
    """The bytes of a log, which say how it was driven, and its name."""
    text, name = read(log)
    return text + (f"\n# drive.load = {load}\n".encode() if load else b""), name


def _name(refusal, files):
    """Tells the file of a log where it is one."""
    place, _, field = refusal.field.partition(": ")
    for number, file in enumerate(files):
        if file and place == f"logs[{number}]":
            refusal.file, refusal.field = file, field


def identify(vehicle, logs, lines, load=None, columns=None):
    """What the logs of drives tell of some lines of a vehicle, together with everything else about
    it that is uncertain, and with what its brake tester read.

    `logs`: one or several, each as Vehicle.drivelog takes it, all of the vehicle as it is; what a
    day of measuring is off by belongs to one log. `lines`: 1 to 12 that have a tolerance. `load`:
    empty or full, as it was driven, one word or one for each log; as the log, or [drive], says when
    it is left out. `columns`: units that the heads of logs lack, as of Vehicle.drivelog.

    Gives an Identified: value, half, covariance, learnt, condition; `vehicle` and tolerances() for
    what follows.

    >>> told = libbrake.identify(v, "examples/heron-drive.csv", ["front.disc.pads.mu"])
    >>> told.half[0] < told.half_before[0], told.word
    (True, 'agrees')
    """
    listed = _listed(logs)
    paths = names("lines", lines)
    if not listed or not paths:
        raise ValueError("identify wants one or more logs, and one or more lines")
    taken = {path: axis(vehicle, path, [0.0]) for path in paths}
    texts = [_text(log, one) for log, one in zip(listed, _loads(load, len(listed)))]
    count, sheet = len(taken), bytearray(vehicle._sheet)
    room = [not_known([n]) for n in (*[count] * 4, *[count * count] * 3, 6)]
    try:
        numbers = array("d", (index for index, _, _ in taken.values()))
        logs = tuple(text for text, _ in texts)
        _core.identify_run(sheet, logs, columns or "", numbers, room)
    except Refused as refusal:
        _name(refusal, [name for _, name in texts])
        raise
    known = type(vehicle)(bytes(sheet))
    return Identified(known, {path: unit for path, (_, unit, _) in taken.items()}, room)
