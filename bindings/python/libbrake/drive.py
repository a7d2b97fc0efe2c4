# SPDX-License-Identifier: MIT
"""The log of a drive held against the prediction."""
import math
import os
from array import array

from libbrake import _core
from libbrake.answers import Answer
from libbrake.arrays import doubles
from libbrake.check import is_full
from libbrake.duty import amounts
from libbrake.errors import Refused

_UNITS = {"time": "s", "speed": "m/s", "pedal_force": "N", "pressure": "Pa", "deceleration": "m/s2",
          "front_temperature": "K", "rear_temperature": "K", "grade": "",
          "heading": "rad"}  # fmt: skip
# Most speeds, as drivelog.h has them.
_SPEEDS = [("speed", "m/s")] * 16


def _cells(values):
    """The cells of a column."""
    found = doubles(values)
    numbers = [found] if isinstance(found, float) else found.tolist()
    return ["" if number != number else repr(number) for number in numbers]


def _head(name):
    """A cell of the header."""
    if not name.isprintable() or set(name) & set(',;"#'):
        raise ValueError(f"log: got a column {name!r}; accepts {', '.join(_UNITS)}")
    return f"{name} [{_UNITS[name]}]" if name in _UNITS else name


def _written(arrays):
    """Arrays as the file that holds the same: one reader refuses what is wrong in either."""
    columns = {_head(name): _cells(arrays[name]) for name in arrays.keys()}
    lengths = {len(cells) for cells in columns.values()}
    if len(lengths) != 1:
        raise ValueError(f"log: columns of {sorted(lengths)} rows do not go together")
    return "\n".join(map(",".join, [columns, *zip(*columns.values())])).encode()


def read(log):
    """The bytes of a log, and its name: empty for arrays."""
    if hasattr(log, "keys"):
        return _written(log), ""
    with open(os.fspath(log), "rb") as stream:
        return stream.read(), str(log)


def _measured(what, given, unit, least, most):
    """Value and half width of what a day of measuring was off by; None: as is usual."""
    if given is None:
        return math.nan, math.nan
    value, half = (*amounts(what, given, [("value", unit), ("half", unit)], 1), 0.0)[:2]
    if not (half >= 0.0 and least <= value - half and value + half <= most):
        raise ValueError(f"{what}: got {given!r}; accepts {least:g} to {most:g} {unit}".rstrip())
    return value, half


def as_usual():
    """A day of measuring of which nothing is known."""
    return day(None, None, None)


def day(grade, lag, gauge):
    """What a day of measuring was off by, as the library takes it."""
    return (
        _measured("grade", grade, "", -0.3, 0.3),
        _measured("lag", lag, "s", 0.0, 1.0),
        _measured("gauge", gauge, "", 0.5, 2.0),
    )


def was_full(load, name="load"):
    """1 when it was driven full, 0 empty, -1 as the vehicle or the log says."""
    return -1 if load is None else int(is_full(load, name))


def learn(sheet, log, columns):
    """See Vehicle.learn."""
    text, name = read(log)
    try:
        _core.sheet_learn(text, columns or "", sheet)
    except Refused as refusal:
        refusal.file = name
        raise


def drivelog(vehicle, log, columns, nominal, load, off):
    """See Vehicle.drivelog; `off`: its grade, lag and gauge."""
    speeds = [] if nominal is None else amounts("nominal", nominal, _SPEEDS, 1)
    if not all(1.0 < speed < 100.0 for speed in speeds):
        raise ValueError(f"nominal: got {nominal!r}; accepts 3.6 to 360 km/h")
    text, name = read(log)
    try:
        driven = text, columns, was_full(load), *day(*off)
        return Answer(*_core.drive_run(vehicle._sheet, driven, array("d", speeds)))
    except Refused as refusal:
        refusal.file = name
        raise


def cooldown(vehicle, log, columns):
    """See Vehicle.cooldown."""
    text, name = read(log)
    try:
        return Answer(*_core.cooldown_run(vehicle._sheet, text, columns or ""))
    except Refused as refusal:
        refusal.file = name
        raise
