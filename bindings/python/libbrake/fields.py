# SPDX-License-Identifier: MIT
"""Lines of the vehicle file as attributes: read as SI numbers, set as numbers or words."""
from array import array

from libbrake import _core
from libbrake.tree import same_items


def short(text):
    """A value in words with no more digits than a person reads."""
    import re

    text = re.sub(r"\d+\.\d{5,}", lambda number: f"{float(number.group()):.6g}", text)
    return " ".join(text.split())


def _is_number(value):
    """Whether a value is one real number, NumPy's included; a truth is none."""
    from numbers import Real as Number

    return isinstance(value, Number) and not isinstance(value, bool)


def _with_unit(number, unit):
    return f"{float(number)!r} {unit}".rstrip()


class Line:
    """A line of the vehicle file."""

    def __init__(self, row, doc, unit="", second=""):
        self.row, self.unit, self.second = row, unit, second
        self.__doc__ = doc

    def __set_name__(self, owner, name):
        self.name = name

    def __get__(self, section, owner=None):
        if section is None:
            return self
        return self.read(section._vehicle._sheet, section._first + self.row)

    def __set__(self, section, value):
        section[self.name] = value

    def __delete__(self, section):
        del section[self.name]

    def words(self, value):
        """A value as a vehicle file has it."""
        if not isinstance(value, str):
            raise TypeError(f"{self.name}: got {value!r:.60}; accepts {self.accepts}")
        return value


class Real(Line):
    """A number: read in SI, NaN when not known; set in SI, or with a unit as "99 in"."""

    accepts = "a number in SI units, or a text with its unit"

    def read(self, sheet, index):
        """The number."""
        return _core.sheet_number(sheet, index)

    def words(self, value):
        """The number with its SI unit."""
        if getattr(value, "shape", None) == ():
            value = value.item()  # an array of no dimension is a number
        if _is_number(value):
            return _with_unit(value, self.unit)
        return super().words(value)


class Choice(Line):
    """One of a list of words; empty when not known."""

    accepts = "one of its words"

    def read(self, sheet, index):
        """The word."""
        return _core.sheet_word(sheet, index)


class Text(Choice):
    """A name or a marking; empty when not given."""

    accepts = "a text"


class Pairs(Line):
    """A list of pairs; empty when not given."""

    accepts = "a list of pairs of numbers in SI units, or a text with units"

    def read(self, sheet, index):
        """The pairs, in SI."""
        numbers = array("d", bytes(8 * _core.BRAKE_PAIR_NUMBERS))
        count = _core.sheet_pairs(sheet, index, numbers)
        return [(numbers[2 * i], numbers[2 * i + 1]) for i in range(count)]

    def words(self, value):
        """The pairs with their SI units."""
        return value if isinstance(value, str) else self.joined(value)


class Pistons(Pairs):
    """Pistons on one side of the rotor, as pairs (count, diameter)."""

    def joined(self, pairs):
        """As `2 x 0.048 m + 1 x 0.04 m`."""
        return " + ".join(f"{count:g} x {_with_unit(size, 'm')}" for count, size in pairs)


class Curve(Pairs):
    """Points of a curve or corners of an outline, as pairs (x, y)."""

    def joined(self, pairs):
        """As `(20 bar, 18 bar) (60 bar, 35 bar)`."""
        return " ".join(
            f"({_with_unit(x, self.unit)}, {_with_unit(y, self.second)})" for x, y in pairs
        )


class Section:
    """A section of the vehicle file; its lines are attributes, and by path: `s["rollout"]`,
    `s.items()`. `s.rollout = None`, or `del`, leaves a line out.
    """

    __slots__ = ("_vehicle", "_path", "_first")

    def __init__(self, vehicle, path, first):
        object.__setattr__(self, "_vehicle", vehicle)
        object.__setattr__(self, "_path", path)
        object.__setattr__(self, "_first", first)

    def _inside(self):
        """Names of its lines and sections, in the order of the file."""
        for kind in type(self).__mro__:
            for name, one in vars(kind).items():
                if isinstance(one, (Line, Child)):
                    yield name

    def _full(self, path):
        """A path from here on as one of the vehicle."""
        return f"{self._path}.{path}" if self._path else path

    def __getitem__(self, path):
        head, _, rest = path.partition(".")
        if not isinstance(getattr(type(self), head, None), (Line, Child)):
            raise KeyError(path)
        at = getattr(self, head)
        return at[rest] if rest else at

    def __setitem__(self, path, value):
        self._vehicle.set({self._full(path): value})

    def __delitem__(self, path):
        self._vehicle.set({self._full(path): None})

    def __iter__(self):
        for name in self._inside():
            one = getattr(type(self), name)
            inside = [name] if isinstance(one, Line) else one.paths(self)
            yield from inside

    def __len__(self):
        return sum(1 for _ in self)

    def __bool__(self):
        return True  # without its lines being counted

    def __contains__(self, path):
        return path in list(self)

    def keys(self):
        """Paths of its lines, from here on.

        >>> v.pedal.keys()[0], "front.tyre.rollout" in v.keys()
        ('ratio', True)
        """
        return list(self)

    def items(self):
        """Path and value of each of its lines, as attributes have them.

        >>> dict(v.items())["vehicle.wheelbase"] == v.vehicle.wheelbase
        True
        """
        return [(path, self[path]) for path in self]

    def __eq__(self, other):
        if not isinstance(other, Section) or self._path != other._path:
            return NotImplemented
        return same_items(dict(self.items()), dict(other.items()))

    __hash__ = None

    def __reduce__(self):
        from libbrake.kept import section

        return section, (self._vehicle, self._path)

    def __dir__(self):
        return [name for name in dir(type(self)) if not name.startswith("_")]

    def __getattr__(self, name):
        if name.startswith("_"):
            raise AttributeError(name)
        raise AttributeError(
            f"{self._path} has no line '{name}'; it has {', '.join(dir(self))}"
        )

    def __setattr__(self, name, value):
        if not isinstance(getattr(type(self), name, None), Line):
            getattr(self, name)
            raise AttributeError(f"{self._path}.{name} is a section; set its lines")
        super().__setattr__(name, value)

    def __repr__(self):
        known = self._vehicle.known()
        inside = {path: one for path, one in known.items() if path.startswith(self._path + ".")}
        lines = [f"{path:32} = {short(one['text'])}, {one['from']}" for path, one in inside.items()]
        return "\n".join([f"[{self._path}]", *lines])


class Child:
    """A section inside another, or inside the vehicle."""

    def __init__(self, kind, path, first):
        self.kind, self.path, self.first = kind, path, first
        self.__doc__ = kind.__doc__
        asked = vars(kind.__mro__[1]).get("__call__")
        if asked is not None:  # help() tells what it is called with too
            self.__doc__ += f"\n\n{asked.__doc__}"

    def __get__(self, owner, kind=None):
        if owner is None:
            return self
        return self.kind(owner._vehicle, self.path, self.first)

    def paths(self, owner):
        """Paths of the lines in it, from its owner on."""
        name = self.path.rpartition(".")[2]
        return [f"{name}.{path}" for path in self.__get__(owner)]

    def __set__(self, owner, value):
        raise AttributeError(f"{self.path} is a section; set its lines")
