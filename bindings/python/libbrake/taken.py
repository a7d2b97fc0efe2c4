# SPDX-License-Identifier: MIT
"""What a caller hands over: taken, or refused in words that name it."""
import operator
from array import array
from collections.abc import Iterator, KeysView, ValuesView

from libbrake import _core
from libbrake.arrays import doubles, numpy


def whole(name, value, low, high):
    """A whole number; NumPy's are such, a truth is none."""
    accepts = f"accepts whole numbers from {low} to {high}"
    try:
        number = operator.index(value)
    except TypeError:
        raise TypeError(f"{name}: got {value!r:.60}; {accepts}") from None
    if isinstance(value, bool):
        raise TypeError(f"{name}: got {value!r}; {accepts}")
    if not low <= number <= high:
        raise ValueError(f"{name}: got {value!r:.60}; {accepts}")
    return number


def truth(name, value):
    """A truth, NumPy's included, and nothing else that Python would take for one."""
    if isinstance(value, bool) or getattr(getattr(value, "dtype", None), "kind", "") == "b":
        return bool(value)
    raise TypeError(f"{name}: got {value!r:.60}; accepts True or False")


def names(what, value):
    """One name or several, each once."""
    found = list(dict.fromkeys([value] if isinstance(value, str) else value))
    for one in found:
        if not isinstance(one, str):
            raise TypeError(f"{what}: got {one!r:.60}; accepts names of results and criteria")
    return found


def row(what, values):
    """Numbers in a row, as a copy: no change of the caller's array reaches it."""
    np = numpy()
    found = doubles(values)
    if isinstance(found, float) or memoryview(found).ndim != 1 or not len(found):
        raise ValueError(f"{what}: got {values!r:.60}; accepts one or more values in a row")
    return array("d", found) if np is None else np.array(found)


def _is_row(values):
    """Whether something has a length and holds more than letters."""
    if isinstance(values, (str, bytes)) or getattr(values, "shape", None) == ():
        return False
    return hasattr(values, "__len__") and len(values) > 0


def _is_passed_through(values):
    """Whether something gives one number after the other and cannot be indexed."""
    ordered = isinstance(values, (Iterator, KeysView, ValuesView))
    return ordered and not hasattr(values, "__getitem__")


def amounts(what, values, unit):
    """Numbers in a row, in SI, as a copy; texts among them have units of their own. What can only
    be gone through, as a generator, is gone through once; a set has no order."""
    if _is_passed_through(values):
        values = list(values)
    if not _is_row(values):
        raise ValueError(f"{what}: got {values!r:.60}; accepts one or more values in a row")
    if getattr(getattr(values, "dtype", None), "kind", "f") not in "fiub":
        values = numpy().asarray(values).tolist()  # texts, or a mixture
    if isinstance(values, (list, tuple)) and any(isinstance(one, str) for one in values):
        values = [_core.amount_read(what, one, unit) if isinstance(one, str) else one
                  for one in values]  # fmt: skip
    return row(what, values)
