# SPDX-License-Identifier: MIT
"""Refusals of the library as exceptions: a class for each family of its statuses.

RefusedRange, RefusedUnit, RefusedMissing and the others are all Refused, which is a ValueError.
"""
from libbrake.made import STATUSES


class Refused(ValueError):
    """An input was refused: `file`, `line`, `field`, and in `text` what came and what is
    accepted."""

    def __init__(self, text, status=0, line=0, field=""):
        super().__init__(text, status, line, field)
        self.text, self.status, self.line, self.field = text, status, line, field
        self.file = ""

    def __str__(self):
        place = self.file
        if self.line:
            place = f"{place}:{self.line}" if place else f"line {self.line}"
        return ": ".join(part for part in (place, self.field, self.text) if part)


class Approximate(UserWarning):
    """The result can be used, but is nominal or assumed."""


def _class(status):
    """`E_SELF_LOCK` is RefusedSelfLock."""
    name = "Refused" + "".join(word.capitalize() for word in status.split("_")[1:])
    bases = (Refused, MemoryError) if status == "E_MEMORY" else (Refused,)
    return type(name, bases, {"__module__": __name__, "__doc__": Refused.__doc__})


_BY_NUMBER = {number: _class(name) for name, number in STATUSES.items() if number < 0}
globals().update({refused.__name__: refused for refused in _BY_NUMBER.values()})


def refusal(status, line, field, text):
    """The exception of a refusal; called from C."""
    return _BY_NUMBER.get(status, Refused)(text, status, line, field)
