"""Studies of a vehicle that give arrays."""
import itertools
import math
import operator
import os
from array import array

from libbrake import _core
from libbrake.arrays import doubles, numpy
from libbrake.errors import RefusedUnknown
from libbrake.fields import Real
from libbrake.table import Table
from libbrake.taken import amounts, names, whole

# Numbers of one table: 4 GB.
_MOST = 1 << 29


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
    return index, line.unit, amounts(path, values, line.unit)


def outputs(vehicle, names):
    """See Vehicle.outputs."""
    room = array("d", bytes(8 * len(names)))
    _core.outputs_of(vehicle._sheet, array("d", map(output, names)), [room])
    return dict(zip(names, room))


def not_known(lengths):
    """Numbers for every position along some axes, not known yet."""
    count = math.prod(lengths)
    if count > _MOST:
        raise ValueError(f"got {count:.4g} numbers to work out; accepts up to {_MOST:.4g} at once")
    np = numpy()
    return array("d", [math.nan]) * count if np is None else np.full(count, math.nan)


def _spread_out(values, kept, lengths):
    """Numbers at the places that were kept of every axis; NaN at the others."""
    room, np = not_known(lengths), numpy()
    if np is not None:
        room.reshape(lengths)[np.ix_(*kept)] = values.reshape([len(at) for at in kept])
        return room
    steps = [math.prod(lengths[at + 1 :]) for at in range(len(lengths))]
    for place, value in zip(itertools.product(*kept), values):
        room[sum(map(operator.mul, place, steps))] = value
    return room


def _inside(index, values):
    """Places of the values that are inside the range of a line."""
    if _core.quantity_takes(index, values):
        return range(len(values))
    return [at for at, one in enumerate(values) if _core.quantity_takes(index, array("d", [one]))]


def _run(sheet, axes, outputs, threads, progress, together=False):
    """The outputs case by case, of axes that go together value by value. A value outside its range
    is not worked out, unless none is inside: then the library says why.
    """
    kept = [_inside(index, values) for index, _, values in axes]
    lengths = [len(values) for _, _, values in axes]
    if together and [len(at) for at in kept] != lengths:
        kept = [sorted(set(kept[0]).intersection(*kept[1:]))] * len(axes)
    complete = [len(at) for at in kept] == lengths or not all(kept)
    taken = [values if complete else doubles([values[at] for at in places])
             for (_, _, values), places in zip(axes, kept)]  # fmt: skip
    dimensions = slice(1) if together else slice(None)
    room = not_known([*map(len, taken[dimensions]), len(outputs)])
    lines = array("d", (index for index, _, _ in axes))
    _core.sweep_run(sheet, lines, taken, together, array("d", outputs), threads, progress, [room])
    if complete:
        return room
    every = range(len(outputs))
    return _spread_out(room, [*kept[dimensions], every], [*lengths[dimensions], len(every)])


def _taken(vehicle, lines, out, threads):
    """Lines with their values, outputs and threads that a study over arrays is asked for."""
    names_ = names("out", out)
    found = {path: axis(vehicle, path, values) for path, values in lines.items()}
    if not names_ or not found:
        raise ValueError("a study wants one or more axes, and one or more outputs")
    threads = min(os.cpu_count() or 1, 1024) if threads is None else whole(
        "threads", threads, 1, 1024)  # fmt: skip
    return found, {name: output(name) for name in names_}, threads


def columns(values, shape, outputs):
    """Arrays by name of numbers that stand side by side, case by case."""
    np, count = numpy(), len(outputs)
    return {name: values[at::count] if np is None else values.reshape(*shape, count)[..., at]
            for at, name in enumerate(outputs)}  # fmt: skip


def units_of(outputs):
    """SI units of outputs by name."""
    return {name: _core.output_unit(number) for name, number in outputs.items()}


def _of_lines(found):
    """Arrays and units of the lines that were taken."""
    arrays = {path: values for path, (_, _, values) in found.items()}
    return arrays, {path: unit for path, (_, unit, _) in found.items()}


def sweep(vehicle, axes, out, threads, progress):
    """See Vehicle.sweep."""
    found, outputs, threads = _taken(vehicle, axes, out, threads)
    room = _run(vehicle._sheet, list(found.values()), list(outputs.values()), threads, progress)
    lengths = [len(values) for _, _, values in found.values()]
    arrays, units = _of_lines(found)
    arrays.update(columns(room, lengths, outputs))
    about = {"vehicle": vehicle.digest()}
    return Table(arrays, {**units, **units_of(outputs)}, tuple(found), vehicle.copy(), about)


def cases(vehicle, lines, out, threads, progress):
    """See Vehicle.cases."""
    found, outputs, threads = _taken(vehicle, lines, out, threads)
    (first, (_, _, one)), *others = found.items()
    for path, (_, _, values) in others:
        if len(values) != len(one):
            raise ValueError(f"{path}: got {len(values)} values; accepts {len(one)}, as {first}")
    wanted = list(outputs.values())
    room = _run(vehicle._sheet, list(found.values()), wanted, threads, progress, together=True)
    arrays, units = _of_lines(found)
    arrays.update(columns(room, [len(one)], outputs))
    return Table(arrays, {**units, **units_of(outputs)}, about={"vehicle": vehicle.digest()})
