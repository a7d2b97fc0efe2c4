"""The parts fitted since the weighing: sections with names of their own."""
from collections.abc import Mapping

from libbrake import _core
from libbrake.fields import Child, Section


class PartSection(Section):
    """A part; where its lines stand depends on the vehicle."""

    __slots__ = ()


class PartList(Mapping):
    """Parts by name: `v.part.winch` or `v.part["winch"]`."""

    __slots__ = ("_vehicle", "_kind")

    def __init__(self, vehicle, kind):
        self._vehicle, self._kind = vehicle, kind

    def __iter__(self):
        return iter(_core.sheet_parts(self._vehicle._sheet).split("\n")[:-1])

    def __len__(self):
        return len(list(iter(self)))

    def __getitem__(self, name):
        path = f"part.{name}"
        first = _core.sheet_find(self._vehicle._sheet, f"{path}.mass")
        if name not in list(self):
            raise KeyError(name)
        return self._kind(self._vehicle, path, first - self._kind.mass.row)

    def __getattr__(self, name):
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
