# SPDX-License-Identifier: MIT
"""Samples of a vehicle as arrays: what its lines were, and what came out."""
from array import array

from libbrake import _core
from libbrake.answers import shapes_of
from libbrake.check import rules_bits
from libbrake.grid import not_known
from libbrake.study import columns, output, units_of
from libbrake.table import Table
from libbrake.taken import names, whole


def _lines(vehicle):
    """Path and unit of every line that is uncertain, in the order in which they are drawn."""
    found = array("d", bytes(8 * _core.quantity_count()))
    _core.samples_lines(vehicle._sheet, [found])
    paths = [_core.line_path(vehicle._sheet, int(at)) for at in found if at >= 0]
    return {path: getattr(vehicle._line(path), "unit", "") for path in paths}


def samples(vehicle, count, out, rules, seed, shape, progress):
    """See Vehicle.samples."""
    wanted = names("out", out)
    if not wanted:
        raise ValueError("out: got none; accepts results, and criteria for their margin")
    bits, shapes = rules_bits(rules), shapes_of(vehicle, shape)
    count, seed = whole("samples", count, 1, 1 << 31), whole("seed", seed, 0, (1 << 64) - 1)
    lines, outputs = _lines(vehicle), {name: output(name) for name in wanted}
    drawn, found = (not_known([count, len(one)]) for one in (lines, outputs))
    numbers = array("d", outputs.values())
    _core.samples_run(vehicle._sheet, bits, seed, shapes, numbers, progress, [drawn, found])
    arrays = {**columns(drawn, [count], lines), **columns(found, [count], outputs)}
    about = {"vehicle": vehicle.digest(), "seed": seed}
    return Table(arrays, {**lines, **units_of(outputs)}, about=about)
