# SPDX-License-Identifier: MIT
"""The parts fitted since the weighing: sections with names of their own."""
import os
from collections.abc import Mapping

from libbrake import _core
from libbrake.errors import Refused
from libbrake.fields import Child, Section


class PartSection(Section):
    """A part; where its lines stand depends on the vehicle."""

    __slots__ = ()


class PartList(Mapping):
    """Parts by name: `v.part.winch` or `v.part["winch"]`. `v.part["rack"] = {"mass": "30 kg",
    "behind_front_axle": 1.4, "height": 1.9}` fits one, `del v.part["rack"]` takes it away.
    """

    __slots__ = ("_vehicle", "_kind")

    def __init__(self, vehicle, kind):
        self._vehicle, self._kind = vehicle, kind

    def __iter__(self):
        return iter(_core.sheet_parts(self._vehicle._sheet).split("\n")[:-1])

    def __len__(self):
        return len(list(iter(self)))

    def __getitem__(self, name):
        name, _, line = name.partition(".")
        if line:
            return self[name][line]
        path = f"part.{name}"
        first = _core.sheet_find(self._vehicle._sheet, f"{path}.mass")
        if name not in list(self):
            raise KeyError(name)
        return self._kind(self._vehicle, path, first - self._kind.mass.row)

    def __setitem__(self, name, lines):
        self._vehicle._fit(name, {line: one for line, one in lines.items() if one == one})

    def __delitem__(self, name):
        if name not in list(self):
            raise KeyError(name)
        self._vehicle._fit(name, None)

    def __eq__(self, other):
        if not isinstance(other, PartList):
            return NotImplemented
        return list(self) == list(other) and all(self[name] == other[name] for name in self)

    __hash__ = None

    def __reduce__(self):
        from libbrake.kept import section

        return section, (self._vehicle, "part")

    def __getattr__(self, name):
        if name.startswith("_"):
            raise AttributeError(name)
        try:
            return self[name]
        except KeyError:
            raise AttributeError(f"no part '{name}'; parts are {', '.join(self)}") from None

    def __dir__(self):
        return list(self)

    def __repr__(self):
        return "\n".join(repr(part) for part in self.values())


class Parts(Child):
    """All parts of a vehicle."""

    def __get__(self, owner, kind=None):
        return self if owner is None else PartList(owner, self.kind)

    def paths(self, owner):
        """Paths of the lines of all parts."""
        return [f"part.{name}.{line}" for name, part in self.__get__(owner).items()
                for line in part]  # fmt: skip


def _row(path, size):
    """A row of a list of parts; a number is in SI."""
    from libbrake.vehicle import Vehicle

    unit = "" if isinstance(size, str) else getattr(Vehicle._line(path), "unit", "")
    return f"{path},{size} {unit}\n"


def take(sheet, parts):
    """See Vehicle.take_parts."""
    if parts is None:
        _core.sheet_without_sizes(sheet)
    elif hasattr(parts, "items"):
        rows = (_row(path, size) for path, sizes in parts.items() for size in sizes)
        _core.sheet_take_parts(("part,size\n" + "".join(rows)).encode(), sheet)
    else:
        with open(os.fspath(parts), "rb") as stream:
            text = stream.read()
        try:
            _core.sheet_take_parts(text, sheet)
        except Refused as refusal:
            refusal.file = str(parts)
            raise
