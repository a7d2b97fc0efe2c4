# SPDX-License-Identifier: MIT
"""Names with dots as attributes inside attributes."""
from collections.abc import Mapping


def same(one, two):
    """Whether two values are equal, or both not known."""
    return one == two or (one != one and two != two)


def same_numbers(one, two):
    """Whether arrays, or lists of lists, hold the same numbers; those that are not known are
    alike."""
    one, two = (at.tolist() if hasattr(at, "tolist") else at for at in (one, two))
    if isinstance(one, list) and isinstance(two, list):
        return len(one) == len(two) and all(map(same_numbers, one, two))
    return same(one, two)


def same_items(one, two):
    """Whether two mappings hold the same, in whatever order."""
    return one.keys() == two.keys() and all(same(one[name], two[name]) for name in one)


class Tree(Mapping):
    """Values by path: `t.full.stop.distance` is `t["full.stop.distance"]`, `t.items()` are all."""

    def __init__(self, values):
        self._values = dict(values)
        for path, value in values.items():
            head, _, rest = path.partition(".")
            if rest:
                self.__dict__.setdefault(head, {})[rest] = value
            else:
                self.__dict__[head] = value
        for name in {path.partition(".")[0] for path in values}:
            if isinstance(self.__dict__[name], dict):
                self.__dict__[name] = Tree(self.__dict__[name])

    def __getitem__(self, path):
        if path in self._values:
            return self._values[path]
        at = self
        for name in path.split("."):
            if not any(one.partition(".")[0] == name for one in at._values):
                raise KeyError(path)
            at = getattr(at, name)
        return at

    def __iter__(self):
        return iter(self._values)

    def __len__(self):
        return len(self._values)

    def __eq__(self, other):
        return type(self) is type(other) and same_items(self._values, other._values)

    __hash__ = None

    def __repr__(self):
        inside = (f"{path}={value!r}" for path, value in self._values.items())
        return f"({', '.join(inside)})"


class Named(dict):
    """A dict whose keys are attributes as well."""

    def __getattr__(self, name):
        try:
            return self[name]
        except KeyError:
            raise AttributeError(f"no '{name}'; there are {', '.join(self)}") from None

    def __dir__(self):
        return list(self)
