"""Named arrays: what studies give."""
from collections.abc import Mapping

from libbrake import _core
from libbrake.errors import Refused
from libbrake.tree import same_numbers


class Table(Mapping):
    """Arrays by name. `axes` names those that the others are spread along; none: all are columns.

    `units` has the SI unit of each; `about` says what came of which vehicle and version; `caution`
    stands beside every result.
    """

    def __init__(self, arrays, units, axes=(), vehicle=None, about=None):
        self._vehicle = vehicle
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

    def refusal(self, *at):
        """Why a case of a sweep was refused, in words; empty when it was not. `at`: its place along
        each axis, `t.refusal(3, 0)`.
        """
        if self._vehicle is None or len(at) != len(self.axes):
            raise ValueError(
                f"got {len(at)} places; accepts one along each of {len(self.axes)} axes"
            )
        case = {name: float(self[name][place]) for name, place in zip(self.axes, at)}
        try:
            self._vehicle.copy().set(case)
        except Refused as refusal:
            return str(refusal)
        return ""

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
        return pandas.DataFrame({name: _flat(one) for name, one in columns.items()}, index=index)

    def to_xarray(self):
        """A Dataset whose dimensions are the axes; of columns `time` where there is such, else
        `row`. Each array has its unit and, as its long name, what it means.
        """
        import xarray

        known = self.axes or (("time",) if "time" in self else ())
        data = {name: (known or ("row",), self[name], self._attributes(name))
                for name in self if name not in known}  # fmt: skip
        coords = {name: (name, self[name], self._attributes(name)) for name in known}
        return xarray.Dataset(data, coords, {**self.about, "caution": self.caution})

    def _attributes(self, name):
        """Unit and meaning, as those who draw pictures look for them; 1: a plain number."""
        from libbrake.meaning import explain

        found = {"units": self.units[name] or "1"}
        try:
            told = explain(name)
        except ValueError:  # a column of a history
            return found
        return {**found, "long_name": told.get("title") or told.meaning}

    def __repr__(self):
        lines = []
        for name, one in self.items():
            role = "axis" if name in self.axes else "    "
            span = _span(one)
            lines.append(f"{name:36} {role} {_size(one):>12}  {span} {self.units[name]}".rstrip())
        return "\n".join([*lines, f"Caution. {self.caution}"])


def _size(one):
    return " x ".join(str(n) for n in getattr(one, "shape", (len(one),)))


def _flat(one):
    """All numbers in one row."""
    return one.ravel() if hasattr(one, "ravel") else one


def _span(one):
    """From the least to the largest; what cannot be said is left out."""
    numbers = [x for x in _flat(one) if x == x]
    return f"{min(numbers):.6g} to {max(numbers):.6g}" if numbers else "cannot be said"
