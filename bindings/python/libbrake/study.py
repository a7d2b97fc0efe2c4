"""Studies of a vehicle that give arrays."""
import os
from array import array

from libbrake import _core
from libbrake.arrays import doubles, numpy
from libbrake.errors import RefusedUnknown
from libbrake.lines import Real
from libbrake.table import Table


def output(name):
    """Number of an output."""
    number = _core.output_number(name)
    if number < 0:
        import difflib

        names = list(iter(lambda at=iter(range(10_000)): _core.output_name(next(at)), ""))
        near = difflib.get_close_matches(name, names, 1)
        hint = f"; did you mean {near[0]}?" if near else "; accepts a result or a criterion"
        raise RefusedUnknown(f"unknown output{hint}", field=name)
    return number


def axis(vehicle, path, values):
    """Number of a line and the values along it, in SI."""
    line = vehicle._line(path)
    index = _core.sheet_find(vehicle._sheet, path)
    if index < 0:
        vehicle.set({path: 0.0})  # refused, with the name that is near
    if not isinstance(line, Real):
        raise TypeError(f"{path}: is no number, and cannot be swept")
    if not isinstance(values, str) and len(values) and isinstance(values[0], str):
        values = [_core.amount_read(path, text, line.unit) for text in values]
    found = doubles(values)
    if isinstance(found, float) or memoryview(found).ndim != 1 or len(found) == 0:
        raise ValueError(f"{path}: accepts one or more values in a row")
    return index, line.unit, found


def outputs(vehicle, names):
    """See Vehicle.outputs."""
    room = array("d", bytes(8 * len(names)))
    _core.outputs_of(vehicle._sheet, array("d", map(output, names)), [room])
    return dict(zip(names, room))


def sweep(vehicle, axes, out, threads, progress):
    """See Vehicle.sweep."""
    names = [out] if isinstance(out, str) else list(out)
    found = {path: axis(vehicle, path, values) for path, values in axes.items()}
    if not names or not found:
        raise ValueError("a sweep wants one or more axes, and one or more outputs")
    outputs = [output(name) for name in names]
    lengths = [len(values) for _, _, values in found.values()]
    cases = 1
    for length in lengths:
        cases *= length
    np = numpy()
    room = array("d", bytes(8 * cases * len(names))) if np is None else np.empty(cases * len(names))
    _core.sweep_run(
        vehicle._sheet,
        array("d", (index for index, _, _ in found.values())),
        [values for _, _, values in found.values()],
        array("d", outputs),
        threads or os.cpu_count() or 1,
        progress,
        [room],
    )
    arrays = {path: values for path, (_, _, values) in found.items()}
    units = {path: unit for path, (_, unit, _) in found.items()}
    for at, (name, number) in enumerate(zip(names, outputs)):
        arrays[name] = room[at :: len(names)] if np is None else (
            room.reshape(*lengths, len(names))[..., at])  # fmt: skip
        units[name] = _core.output_unit(number)
    return Table(arrays, units, tuple(found))
