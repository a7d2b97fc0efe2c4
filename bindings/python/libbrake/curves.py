# SPDX-License-Identifier: MIT
"""What the brakes do along pedal force or deceleration, as arrays."""
from libbrake import _core
from libbrake.check import is_full
from libbrake.grid import not_known
from libbrake.table import Table
from libbrake.taken import amounts

# Members of struct brake_curve_point, in their order.
_SCALES = {"pedal_force": "N", "pressure": "Pa", "deceleration": "m/s2"}
_OF_AXLES = {"brake_pressure": "Pa", "torque": "N*m", "force": "N", "load": "N", "adhesion": ""}
_UNITS = {**_SCALES, **{f"{axle}_{name}": unit for name, unit in _OF_AXLES.items()
                        for axle in ("front", "rear")}}  # fmt: skip
# States of failure, as system.h has them.
_FAILURES = ("intact", "first_circuit", "second_circuit", "no_assist", "low_vacuum", "engine_off",
             "valve_open", "valve_shut", "no_antilock", "in_gear")  # fmt: skip


def curves(vehicle, pedal_force, deceleration, load, failure):
    """See Vehicle.curves."""
    if (pedal_force is None) == (deceleration is None):
        raise ValueError("accepts one of pedal_force and deceleration")
    if failure not in _FAILURES:
        raise ValueError(f"failure: got {failure!r:.60}; accepts {', '.join(_FAILURES)}")
    along = "deceleration" if pedal_force is None else "pedal_force"
    values = amounts(along, deceleration if pedal_force is None else pedal_force, _SCALES[along])
    room = not_known([len(values), len(_UNITS)])
    _core.curves_of(vehicle._sheet, is_full(load), _FAILURES.index(failure),
                    along == "pedal_force", values, [room])  # fmt: skip
    arrays = {name: room[at :: len(_UNITS)] for at, name in enumerate(_UNITS)}
    arrays[along] = values
    return Table(arrays, _UNITS, (along,), about={"vehicle": vehicle.digest()})
