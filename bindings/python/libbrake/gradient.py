# SPDX-License-Identifier: MIT
"""Derivatives of outputs by lines."""
from array import array

from libbrake import _core
from libbrake.arrays import numpy, rows
from libbrake.grid import not_known
from libbrake.study import axis, output, units_of
from libbrake.taken import names
from libbrake.tree import same_numbers


class Gradient:
    """Derivatives: `g["full.stop.distance", "front.tyre.rollout"]`, `g.value[i][k]` of output i by
    line k, in SI of the one over SI of the other.

    `error` is what each may be off by; at a `kink` the slopes to both sides differ, the value is
    their mean and the error half of what they differ by. NaN where there is no derivative.
    """

    def __init__(self, outputs, lines, value, error, kink, about=None):
        self.about = {"libbrake": _core.library_version(), **(about or {})}
        self.outputs, self.lines = tuple(outputs), tuple(lines)
        self.output_units, self.line_units = tuple(outputs.values()), tuple(lines.values())
        self.value, self.error, self.kink = value, error, kink
        self.caution = _core.caution_text()

    def __getitem__(self, place):
        if isinstance(place, str):
            return self.value[self.outputs.index(place)]
        name, line = place
        return float(self.value[self.outputs.index(name)][self.lines.index(line)])

    def __eq__(self, other):
        if not isinstance(other, Gradient):
            return NotImplemented
        names = (self.outputs, self.lines) == (other.outputs, other.lines)
        arrays = ("value", "error", "kink")
        return names and all(same_numbers(getattr(self, a), getattr(other, a)) for a in arrays)

    __hash__ = None

    def to_pandas(self):
        """A DataFrame of the values, outputs down, lines across."""
        import pandas

        frame = pandas.DataFrame(self.value, list(self.outputs), list(self.lines))
        frame.attrs.update(self.about, caution=self.caution)
        return frame

    def to_xarray(self):
        """A Dataset of value, error and kink over output and line."""
        import xarray

        dims = ("output", "line")
        coords = {"output": list(self.outputs), "line": list(self.lines),
                  "output_unit": ("output", list(self.output_units)),
                  "line_unit": ("line", list(self.line_units))}  # fmt: skip
        data = {"value": (dims, self.value), "error": (dims, self.error), "kink": (dims, self.kink)}
        return xarray.Dataset(data, coords, {**self.about, "caution": self.caution})

    def __repr__(self):
        rows = [f"{name} by {line}: {self.value[i][k]:.6g} +- {self.error[i][k]:.1g}"
                + (" (kink)" if self.kink[i][k] else "")
                for i, name in enumerate(self.outputs)
                for k, line in enumerate(self.lines)]  # fmt: skip
        return "\n".join([*rows, f"Caution. {self.caution}"])


def gradient(vehicle, outputs, lines):
    """See Vehicle.gradient."""
    found = {name: output(name) for name in names("outputs", outputs)}
    paths = names("lines", lines)
    if not found or not paths:
        raise ValueError("a gradient wants one or more outputs, and one or more lines")
    taken = {path: axis(vehicle, path, [0.0]) for path in paths}
    size = len(found), len(taken)
    value, error, kink = (not_known(size) for _ in range(3))
    _core.gradient_run(vehicle._sheet, array("d", found.values()),
                       array("d", (index for index, _, _ in taken.values())),
                       [value, error, kink])  # fmt: skip
    kinks = [[one == 1.0 for one in row] for row in rows(kink, *size)]
    return Gradient(units_of(found), {path: unit for path, (_, unit, _) in taken.items()},
                    rows(value, *size), rows(error, *size),
                    kinks if numpy() is None else numpy().array(kinks),
                    {"vehicle": vehicle.digest()})  # fmt: skip
