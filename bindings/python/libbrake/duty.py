# SPDX-License-Identifier: MIT
"""Heat over time: the section `heat` of a vehicle, which can be called."""
from array import array

from libbrake import _core
from libbrake.check import is_full
from libbrake.fields import Section
from libbrake.made import HISTORY
from libbrake.taken import row
from libbrake.tree import Named, Tree

_STOP = (("speed", "m/s"), ("pedal force", "N"))
_SNUBS = (("count", ""), ("first speed", "m/s"), ("second speed", "m/s"), ("interval", "s"),
          ("deceleration", "m/s2"))  # fmt: skip
_DESCENT = (("fall", ""), ("length", "m"), ("speed", "m/s"), ("share of the engine", ""))
_CYCLE = ("times", "speeds", "grades")
_COOL = (("time", "s"), ("speed", "m/s"))
# Kinds of duty, and how the driver brakes, as duty.h and braking.h have them.
_KINDS = {"stop": 0, "snubs": 0, "descent": 1, "cycle": 2}
_HOLDS_FORCE, _HOLDS_DECELERATION, _AT_INCIPIENT_LOCK = 0, 1, 2


def amounts(what, values, fields, needed):
    """SI numbers of numbers or of texts with units, in the order of the fields."""
    values = [values] if isinstance(values, (str, int, float)) else list(values)
    if not needed <= len(values) <= len(fields):
        names = ", ".join(name for name, _ in fields)
        raise ValueError(f"{what}: got {len(values)} values; accepts {names}")
    return [
        _core.amount_read(f"{what}: {name}", value, unit) if isinstance(value, str)
        else float(value)
        for value, (name, unit) in zip(values, fields)
    ]  # fmt: skip


class Heat(Tree):
    """What came of a duty: results by name, `warnings`, `summary`, and `history`, a table."""

    def __init__(self, text, history):
        import json

        from libbrake.table import Table

        self._text, self._rows = text, history
        found = json.loads(text)
        super().__init__({path: _number(one) for path, one in found["results"].items()})
        self.summary = Named(found["summary"])
        self.warnings = [Named(one) for one in found["warnings"]]
        self.caution = found["caution"]
        self.history = Table(_columns(history), HISTORY)

    def to_dict(self):
        """The object that `stopmargin heat --json` prints."""
        import json

        return json.loads(self._text)

    def __repr__(self):
        lines = [f"{name}: {value}" for name, value in self.summary.items()]
        lines += [f"warning: {one.text}" for one in self.warnings]
        return "\n".join([*lines, f"Caution. {self.caution}"])

    def __reduce__(self):
        return Heat, (self._text, self._rows)


def _number(one):
    value = one["value"] if isinstance(one, dict) else one
    return float("nan") if value is None else value


def _columns(history):
    """The columns of rows that stand one after the other."""
    from libbrake.arrays import numpy

    np = numpy()
    if np is not None:
        rows = np.frombuffer(history).reshape(-1, len(HISTORY))
        return {name: rows[:, at].copy() for at, (name, _) in enumerate(HISTORY)}
    flat = array("d", history)
    return {name: flat[at :: len(HISTORY)] for at, (name, _) in enumerate(HISTORY)}


def _points(cycle):
    """Times, speeds and grades, row by row."""
    if not isinstance(cycle, (tuple, list)) or len(cycle) != len(_CYCLE):
        raise ValueError(
            f"cycle: got {cycle!r:.60}; accepts three columns, (times, speeds, grades)"
        )
    columns = [row(f"cycle: {name}", column) for name, column in zip(_CYCLE, cycle)]
    lengths = [len(column) for column in columns]
    if len(set(lengths)) > 1:
        said = ", ".join(f"{count} {name}" for count, name in zip(lengths, _CYCLE))
        raise ValueError(f"cycle: got {said}; accepts as many of each")
    return array("d", (number for point in zip(*columns) for number in point))


class HeatSection(Section):
    """Lines of the heat; called, it runs the brakes through a duty; `over` through many.

    One of: stop=speed or (speed, pedal force); snubs=(count, first speed, second speed, interval,
    deceleration) or the name of a published sequence; descent=(fall, length, speed[, share of the
    engine]); cycle=(times, speeds, grades), three columns of one length. Every grade is positive
    uphill, as in drivelog(); a descent is told by its fall, which is positive downhill. Numbers are
    SI, texts have units: "8 %", "50 km/h".
    cool=time or (time, speed): afterwards, half an hour unless it is a stop. load: "full" or
    "empty". progress: called with (done, total) in seconds of the duty now and then; what it raises
    ends it, as Ctrl-C does.
    Gives a Heat. Refused when a line that heat needs is left out.

    >>> hot = v.heat(descent=("8 %", "4 km", "50 km/h")).heat
    >>> hot.front_face > v.heat.ambient
    True
    """

    __slots__ = ()

    def __call__(
        self, *, stop=None, snubs=None, descent=None, cycle=None, cool=None, load="full",
        progress=None,
    ):  # fmt: skip
        given = {"stop": stop, "snubs": snubs, "descent": descent, "cycle": cycle}
        duty = Duty(self._vehicle, given, cool)
        numbers = array("d", duty.numbers())
        return Heat(*_core.duty_run(self._vehicle._sheet, is_full(load), numbers, duty.points,
                                    duty.sequence, progress))  # fmt: skip

    __call__.__doc__ = __doc__

    def over(
        self, axes, *, stop=None, snubs=None, descent=None, cycle=None, cool=None, load="full",
        out=None, times=None, threads=None, progress=None,
    ):  # fmt: skip
        """A duty over axes: lines of the vehicle, and numbers of the duty itself, at every
        combination of their values:

            v.heat.over({"front.disc.rotor_mass": [8, 9, 10], "fall": [0.04, 0.08],
                         "speed": ["30 km/h", "50 km/h"]}, descent=("8 %", "4 km", "50 km/h"),
                        out=["heat.front_face", "front_fluid"], times=range(0, 1800, 10))

        The duty, `cool` and `load` are as of heat(...); an axis goes before what they say. Numbers
        of a duty: of a descent `fall`, `length`, `speed`, `engine`; of snubs `count`,
        `first_speed`, `second_speed`, `interval`, `deceleration`; of a stop `speed`; of each
        `pedal_force`, `cool`, `cool_speed`. The load is a line, as load.full.mass. `out`: results
        of heat, each a number a case, and columns of the history, each a number a case and time, as
        `heat(...).history` names them; left out: all that can be said. `times`: those of the
        histories in seconds; NaN once a duty is over. `threads`, `progress`, what is refused: as of
        sweep().

        Gives a Table: first the axes of lines, then those of the duty, then `time`.

        >>> t = v.heat.over({"front.disc.rotor_mass": [7, 9]}, stop="100 km/h",
        ...                 out="heat.front_face")
        >>> t["heat.front_face"][1] < t["heat.front_face"][0]
        True
        """
        from libbrake.heats import over

        given = {"stop": stop, "snubs": snubs, "descent": descent, "cycle": cycle}
        duty = Duty(self._vehicle, given, cool)
        return over(self._vehicle, axes, duty, is_full(load), (out, times), threads, progress)


def _stop(value):
    speed, *force = amounts("stop", value, _STOP, 1)
    held = {"manner": _HOLDS_FORCE, "force": force[0]} if force else {"manner": _AT_INCIPIENT_LOCK}
    return {"count": 1, "from": speed, **held}


def _snubs(value):
    names = ("count", "from", "to", "interval", "deceleration")
    numbers = amounts("snubs", value, _SNUBS, len(_SNUBS))
    return {"manner": _HOLDS_DECELERATION, **dict(zip(names, numbers))}


def _descent(value):
    return dict(zip(("fall", "length", "speed", "engine"),
                    amounts("descent", value, _DESCENT, 3)))  # fmt: skip


_TAKE = {"stop": _stop, "snubs": _snubs, "descent": _descent}
# Numbers of a duty that may be an axis: the field that each is, and its unit.
_ANY = {"pedal_force": ("force", "N"), "cool": ("rest", "s"), "cool_speed": ("rest_speed", "m/s")}
_AXES = {
    "stop": {"speed": ("from", "m/s"), **_ANY},
    "snubs": {"count": ("count", ""), "first_speed": ("from", "m/s"),
              "second_speed": ("to", "m/s"), "interval": ("interval", "s"),
              "deceleration": ("deceleration", "m/s2"), **_ANY},
    "descent": {"fall": ("fall", ""), "length": ("length", "m"), "speed": ("speed", "m/s"),
                "engine": ("engine", ""), **_ANY},
    "cycle": _ANY,
}  # fmt: skip


class Duty:
    """What the brakes go through: one of stop, snubs, descent and cycle, and how they cool after
    it.
    """

    def __init__(self, vehicle, given, cool):
        kinds = [kind for kind, value in given.items() if value is not None]
        if len(kinds) != 1:
            raise ValueError(
                f"got {', '.join(kinds) or 'no duty'}; accepts one of {', '.join(given)}"
            )
        self.kind, self.points, self.sequence = kinds[0], array("d"), ""
        value = given[self.kind]
        self.fields = {"rest": 0.0 if self.kind == "stop" else _core.duty_parked(),
                       "force": vehicle.driver.pedal_force_most,
                       "kind": _KINDS[self.kind]}  # fmt: skip
        if self.kind == "cycle":
            self.points = _points(value)
        elif self.kind == "snubs" and isinstance(value, str):
            self.sequence = value
        else:
            self.fields.update(_TAKE[self.kind](value))
        if cool is not None:
            self.fields.update(zip(("rest", "rest_speed"), amounts("cool", cool, _COOL, 1)))

    def at_most(self):
        """Whether the driver gives what he can, and no force that was said."""
        return self.fields.get("manner") != _HOLDS_FORCE

    def axis(self, name):
        """The field that an axis of this duty is, and its unit."""
        known = _ANY if self.sequence else _AXES[self.kind]
        if name not in known:
            raise ValueError(f"{name}: is no line and no number of {self.kind}; "
                             f"accepts a line, {', '.join(known)}")  # fmt: skip
        return known[name]

    def numbers(self, **other):
        """Its numbers in the order of the core, some of them others."""
        fields = {**self.fields, **other}
        if self.kind == "stop" and "force" in other:
            fields["manner"] = _HOLDS_FORCE
        return [fields.get(name, 0.0) for name in _core.duty_fields().split()]
