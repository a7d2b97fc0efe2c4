# SPDX-License-Identifier: MIT
"""Arrays of any kind to contiguous doubles and back: NumPy where it is there, else the array
module."""
import warnings
from array import array

from libbrake import _core
from libbrake.errors import Approximate, refusal


def numpy():
    """NumPy, or None where it is not installed; nothing but arrays needs it."""
    try:
        import numpy as found
    except ImportError:
        return None
    return found


# ---- with NumPy ----------------------------------------------------------------------------------


def _doubles(np, value):
    """A number as it is; an array as contiguous doubles, copied only when it is not."""
    if isinstance(value, (int, float)):
        return float(value)
    if isinstance(value, np.ma.MaskedArray):
        value = value.astype(float).filled(np.nan)  # what is masked is not known
    found = np.asarray(value)
    if found.dtype.kind not in "fiub":
        raise TypeError(f"got {value!r:.60}, an array of {found.dtype}; accepts real numbers")
    return np.asarray(found, dtype=np.float64, order="C")


def _stretched(np, value, shape):
    """A column for the loop: one number, or as many as there are cases."""
    if isinstance(value, float):
        return value
    if value.ndim == 0:
        return float(value)
    return value if value.shape == shape else np.array(np.broadcast_to(value, shape), order="C")


def _with_numpy(np, function, series, arguments):
    from libbrake.labels import taken_off

    arguments, dress = taken_off(np, arguments)
    values = [_doubles(np, value) for value in arguments]
    shape = np.broadcast_shapes(*(v.shape for v in values if not isinstance(v, float)))
    if shape == () and not series:
        return _core.model_call(function, tuple(float(value) for value in values))
    results = [np.empty(shape) for _ in range(_core.model_outputs(function))]
    _core.model_loop(function, series, [_stretched(np, v, shape) for v in values], results)
    return results if dress is None else list(map(dress, results))


# ---- without -------------------------------------------------------------------------------------


def _plain(value):
    """A number as it is; a buffer or a list as contiguous doubles."""
    if isinstance(value, (int, float)):
        return float(value)
    try:
        view = memoryview(value)
    except TypeError:
        return array("d", value)
    if view.ndim > 1:
        raise TypeError("an array of more than one dimension needs NumPy")
    if view.format == "d" and view.c_contiguous:
        return view
    return array("d", view.tolist())


def _without_numpy(function, series, arguments):
    values = [_plain(value) for value in arguments]
    count = max(len(value) for value in values if not isinstance(value, float))
    values = [v[0] if not isinstance(v, float) and len(v) == 1 else v for v in values]
    lengths = {len(value) for value in values if not isinstance(value, float)} or {1}
    if len(lengths) > 1:
        raise ValueError(f"arrays of {sorted(lengths)} numbers do not go together")
    count = 0 if 0 in lengths else count
    results = [array("d", bytes(8 * count)) for _ in range(_core.model_outputs(function))]
    _core.model_loop(function, series, values, results)
    return results


# ---- what the modules of the model use -----------------------------------------------------------


def broadcast(function, arguments, series=()):
    """A function of the model over arrays; called from C where an argument is no number."""
    np = numpy()
    found = _without_numpy(function, series, arguments) if np is None else _with_numpy(
        np, function, series, arguments)  # fmt: skip
    return found[0] if isinstance(found, list) and len(found) == 1 else found


def pairs(points):
    """Pairs (x, y) side by side."""
    return array("d", (number for x, y in points for number in (x, y)))


def list_(numbers):
    """Numbers side by side."""
    return array("d", numbers)


def text(words):
    """A text as C wants it."""
    if "\0" in words:
        raise ValueError("got a text with a NUL character; accepts text without")
    return words.encode() + b"\0"


def over(function, series, arguments):
    """A function of the model that reads records, over numbers or arrays."""
    if all(isinstance(value, (int, float)) for value in arguments):
        return serial(function, series, arguments)
    return broadcast(function, arguments, series)


def serial(function, series, arguments):
    """A function of the model that works on a text, a list or records."""
    results = [array("d", [0.0]) for _ in range(_core.model_outputs(function))]
    status = _core.model_loop(function, series, [float(value) for value in arguments], results)
    if status < 0:
        raise refusal(status, 0, "", _core.status_message(status))
    if status > 0:
        warnings.warn(_core.status_message(status), Approximate, stacklevel=3)
    return results[0][0] if len(results) == 1 else tuple(result[0] for result in results)


def doubles(values):
    """Any array or list as contiguous doubles."""
    np = numpy()
    return _plain(values) if np is None else _doubles(np, values)


def rows(numbers, count, width):
    """Numbers as they stand, row by row."""
    if numpy() is not None:
        return numbers.reshape(count, width)
    return [list(numbers[at * width : (at + 1) * width]) for at in range(count)]
