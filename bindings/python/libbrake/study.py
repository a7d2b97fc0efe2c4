# SPDX-License-Identifier: MIT
"""Studies of a vehicle that give arrays."""
import os
from array import array

from libbrake import _core
from libbrake.arrays import numpy
from libbrake.errors import RefusedUnknown
from libbrake.fields import Real
from libbrake.grid import Cases, Grid, not_known
from libbrake.taken import amounts, names, whole


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


def threads_of(threads):
    """A number of threads; None: one a processor."""
    if threads is None:
        return min(os.cpu_count() or 1, 1024)
    return whole("threads", threads, 1, 1024)


def _taken(vehicle, lines, out, threads):
    """Lines with their values, outputs and threads that a study over arrays is asked for."""
    names_ = names("out", out)
    found = {path: axis(vehicle, path, values) for path, values in lines.items()}
    if not names_ or not found:
        raise ValueError("a study wants one or more axes, and one or more outputs")
    return found, {name: output(name) for name in names_}, threads_of(threads)


def columns(values, shape, outputs):
    """Arrays by name of numbers that stand side by side, case by case."""
    np, count = numpy(), len(outputs)
    return {name: values[at::count] if np is None else values.reshape(*shape, count)[..., at]
            for at, name in enumerate(outputs)}  # fmt: skip


def units_of(outputs):
    """SI units of outputs by name."""
    return {name: _core.output_unit(number) for name, number in outputs.items()}


class Sweep(Cases):
    """What came of a sweep, or of cases of one's own."""

    def __init__(self, grid, units, outputs, values):
        shape = grid.lengths()
        arrays = {**grid.values, **columns(values, shape, outputs)}
        axes = () if grid.together else tuple(grid.values)
        super().__init__(arrays, {**units, **units_of(outputs)}, axes, grid)
        self._outputs = list(outputs)

    def _refused(self):
        np, first = numpy(), [self[name] for name in self._outputs]
        if np is not None:
            return map(int, np.flatnonzero(np.all([np.isnan(one) for one in first], axis=0)))
        return (at for at, row in enumerate(zip(*first)) if all(one != one for one in row))

    def _why(self, numbers):
        grid = self._grid
        words = _core.sweep_notes(grid.vehicle._sheet, grid.lines, grid.taken(), grid.together,
                                  array("d", numbers))  # fmt: skip
        return words.split("\n")[:-1]


def _run(vehicle, lines, out, threads, progress, together=False):
    found, outputs, threads = _taken(vehicle, lines, out, threads)
    grid = Grid(vehicle, found, together=together)
    if together:
        _of_one_length(grid.values)
    room = not_known([*grid.inner(), len(outputs)])
    _core.sweep_run(vehicle._sheet, grid.lines, grid.taken(), together,
                    array("d", outputs.values()), threads, progress, [room])  # fmt: skip
    units = {path: unit for path, (_, unit, _) in found.items()}
    return Sweep(grid, units, outputs, grid.spread_out(room, [len(outputs)]))


def _of_one_length(values):
    (first, one), *others = values.items()
    for path, other in others:
        if len(other) != len(one):
            raise ValueError(f"{path}: got {len(other)} values; accepts {len(one)}, as {first}")


def sweep(vehicle, axes, out, threads, progress):
    """See Vehicle.sweep."""
    return _run(vehicle, axes, out, threads, progress)


def cases(vehicle, lines, out, threads, progress):
    """See Vehicle.cases."""
    return _run(vehicle, lines, out, threads, progress, together=True)
