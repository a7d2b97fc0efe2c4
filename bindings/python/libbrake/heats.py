# SPDX-License-Identifier: MIT
"""Heat of many cases: a duty over lines of the vehicle and over its own numbers."""
import difflib
import itertools
import math
from array import array

from libbrake import _core
from libbrake.arrays import numpy
from libbrake.errors import Refused, RefusedUnknown
from libbrake.grid import Cases, Grid, not_known
from libbrake.made import HISTORY
from libbrake.outcomes import RESULTS
from libbrake.study import axis, columns, threads_of
from libbrake.taken import amounts, names

_RESULT = {path: at for at, path in enumerate(RESULTS) if path.startswith("heat.")}
_COLUMN = {name: at for at, (name, _) in enumerate(HISTORY) if name != "time"}
_UNITS = {**{path: RESULTS[path]["unit"] for path in _RESULT}, **dict(HISTORY)}
_MOST = "driver.pedal_force_most"


def _outputs(out, times):
    """Names of results, and of columns of the history."""
    offered = list(_RESULT) if times is None else [*_RESULT, *_COLUMN]
    wanted = offered if out is None else names("out", out)
    for name in wanted:
        if name not in _RESULT and name not in _COLUMN:
            near = difflib.get_close_matches(name, [*_RESULT, *_COLUMN], 1)
            hint = f"; did you mean {near[0]}?" if near else ""
            raise RefusedUnknown(f"no result of heat and no column of a history{hint}", field=name)
    told = [name for name in wanted if name in _COLUMN]
    if told and times is None:
        raise ValueError(f"times: got none; {told[0]} is a history, and told at times you give")
    return [name for name in wanted if name in _RESULT], told


class Request:
    """Vehicles by the values of lines, duties by the values of their own numbers, and what is asked
    of each."""

    def __init__(self, vehicle, axes, duty, full):
        lines = {name: axis(vehicle, name, axes[name]) for name in axes if "." in name}
        own = {name: duty.axis(name) for name in axes if "." not in name}
        if duty.sequence and "vehicle.top_speed" in lines:
            raise ValueError("vehicle.top_speed: the speeds of a published sequence follow it")
        values = {name: amounts(name, axes[name], unit) for name, (_, unit) in own.items()}
        self.grid, self.full, self.duty = Grid(vehicle, lines, values), full, duty
        self.units = {name: unit for name, (_, unit, _) in lines.items()}
        self.units.update((name, unit) for name, (_, unit) in own.items())
        if _MOST in lines and duty.at_most():
            duty.fields["force"] = math.nan  # each vehicle's own
        fields = [field for field, _ in own.values()]
        every = [dict(zip(fields, at)) for at in itertools.product(*values.values())]
        self.duties = array("d", itertools.chain(*(duty.numbers(**one) for one in every)))

    def ask(self, out, times):
        """Take what is wanted of each case."""
        self.results, self.columns = _outputs(out, times)
        self.times = array("d") if times is None else amounts("times", times, "s")

    def asked(self):
        """What the core takes: the vehicle, its load, a sequence, what is asked, the values."""
        numbers = [self.grid.lines, self.duties, self.duty.points,
                   array("d", map(_RESULT.get, self.results)),
                   array("d", map(_COLUMN.get, self.columns)), self.times]  # fmt: skip
        return (self.grid.vehicle._sheet, self.full, self.duty.sequence, numbers, self.grid.taken())

    def run(self, threads, progress):
        """Results, histories and status of all cases."""
        sizes = [len(self.results)], [len(self.columns), len(self.times)], []
        room = [not_known([*self.grid.inner(), *size]) for size in sizes]
        _core.heats_run(*self.asked(), threads, progress, room)
        return [self.grid.spread_out(one, size) for one, size in zip(room, sizes)]


class HeatTable(Cases):
    """What came of a duty over axes; histories go along `time` too."""

    def __init__(self, request, results, histories, status):
        grid, axes = request.grid, tuple(request.grid.values)
        arrays = {**grid.values, **columns(results, grid.lengths(), request.results)}
        along = {}
        if request.columns:
            along = dict.fromkeys(request.results, axes)
            axes = (*axes, "time")
            arrays.update(_histories(histories, request), time=request.times)
        units = {name: request.units.get(name, _UNITS.get(name)) for name in arrays}
        super().__init__(arrays, units, axes, grid, along)
        self._request, self._status = request, status

    def _refused(self):
        return (at for at, status in enumerate(self._status) if not status >= 0)

    def _why(self, numbers):
        return list(map(self._why_one, numbers))

    def _why_one(self, number):
        try:
            _core.heats_refusal(*self._request.asked(), number)
        except Refused as refusal:
            return str(refusal)
        return ""


def _histories(values, request):
    """Arrays by name of histories that stand one after the other, case by case."""
    lengths, times, count = request.grid.lengths(), len(request.times), len(request.columns)
    if numpy() is not None:
        rows = values.reshape(*lengths, count, times)
        return {name: rows[..., at, :] for at, name in enumerate(request.columns)}
    starts = range(0, math.prod(lengths) * count * times, count * times)
    return {name: array("d", itertools.chain(*(
                values[start + at * times : start + (at + 1) * times] for start in starts)))
            for at, name in enumerate(request.columns)}  # fmt: skip


def over(vehicle, axes, duty, full, wanted, threads, progress):
    """See HeatSection.over; `wanted`: outputs and times."""
    if not axes:
        raise ValueError("axes: got none; accepts lines and numbers of the duty, with their values")
    request = Request(vehicle, axes, duty, full)
    request.ask(*wanted)
    return HeatTable(request, *request.run(threads_of(threads), progress))
