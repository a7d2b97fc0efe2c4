# SPDX-License-Identifier: MIT
"""Named arrays: what studies give."""
from collections.abc import Mapping

from libbrake import _core
from libbrake.tree import same_numbers


class Table(Mapping):
    """Arrays by name. `axes` names those that the others are spread along, dims(name) those of one
    that goes along some of them only; none: all are columns.

    `units` has the SI unit of each; `about` says what came of which vehicle and version; `caution`
    stands beside every result.
    """

    def __init__(self, arrays, units, axes=(), about=None, along=None):
        self._along = dict(along or {})
        self.about = {"libbrake": _core.library_version(), **(about or {})}
        self._arrays, self.units, self.axes = dict(arrays), dict(units), tuple(axes)
        self.caution = _core.caution_text()

    def __getitem__(self, name):
        return self._arrays[name]

    def __iter__(self):
        return iter(self._arrays)

    def __len__(self):
        return len(self._arrays)

    def __eq__(self, other):
        """The same names, axes, units and numbers; what is not known is alike."""
        if not isinstance(other, Table):
            return NotImplemented
        if (self.axes, self.units, list(self)) != (other.axes, other.units, list(other)):
            return False
        return all(same_numbers(self[name], other[name]) for name in self)

    __hash__ = None

    def dims(self, name):
        """The axes that an array is spread along."""
        return self._along.get(name, self.axes)

    def to_pandas(self):
        """A DataFrame; the axes are its index. Its `attrs` are what the table is `about`, units and
        caution."""
        import pandas

        frame = self._frame(pandas)
        frame.attrs.update(self.about, units=dict(self.units), caution=self.caution)
        return frame

    def _frame(self, pandas):
        columns = {name: self[name] for name in self if name not in self.axes}
        if not self.axes:
            return pandas.DataFrame(columns)
        index = pandas.MultiIndex.from_product([self[n] for n in self.axes], names=self.axes)
        if len(self.axes) == 1:
            index = pandas.Index(self[self.axes[0]], name=self.axes[0])
        rows = {name: _flat(one, len(index)) for name, one in columns.items()}
        return pandas.DataFrame(rows, index=index)

    def to_xarray(self):
        """A Dataset whose dimensions are the axes; of columns `time` where there is such, else
        `row`. Each array has its unit and, as its long name, what it means.
        """
        import xarray

        known = self.axes or (("time",) if "time" in self else ())
        data = {name: (self._along.get(name, known or ("row",)), self[name], self._attributes(name))
                for name in self if name not in known}  # fmt: skip
        coords = {name: (name, self[name], self._attributes(name)) for name in known}
        return xarray.Dataset(data, coords, {**self.about, "caution": self.caution})

    def _attributes(self, name):
        """Unit and meaning, as those who draw pictures look for them; 1: a plain number."""
        from libbrake.made import HISTORY_MEANINGS
        from libbrake.meaning import explain

        found = {"units": self.units[name] or "1"}
        try:
            told = explain(name)
            return {**found, "long_name": told.get("title") or told.meaning}
        except ValueError:  # a column of a history, or a number of a duty
            return {**found, "long_name": HISTORY_MEANINGS.get(name, name.replace("_", " "))}

    def __repr__(self):
        lines = []
        for name, one in self.items():
            role = "axis" if name in self.axes else "    "
            span = _span(one)
            lines.append(f"{name:36} {role} {_size(one):>12}  {span} {self.units[name]}".rstrip())
        return "\n".join([*lines, f"Caution. {self.caution}"])


def _size(one):
    return " x ".join(str(n) for n in getattr(one, "shape", (len(one),)))


def _flat(one, count=None):
    """All numbers in one row; each as often as makes `count`, where the last axis is not its."""
    row = one.ravel() if hasattr(one, "ravel") else one
    if count is None or len(row) == count:
        return row
    return [number for number in row for _ in range(count // len(row))]


def _span(one):
    """From the least to the largest; what cannot be said is left out."""
    numbers = [x for x in _flat(one) if x == x]
    return f"{min(numbers):.6g} to {max(numbers):.6g}" if numbers else "cannot be said"
