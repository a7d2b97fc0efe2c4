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
_DESCENT = (("grade", ""), ("length", "m"), ("speed", "m/s"), ("share of the engine", ""))
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
    """Lines of the heat; called, it runs the brakes through a duty.

    One of: stop=speed or (speed, pedal force); snubs=(count, first speed, second speed, interval,
    deceleration) or the name of a published sequence; descent=(grade, length, speed[, share of the
    engine]), the grade positive downhill; cycle=(times, speeds, grades), three columns of one
    length, grades positive uphill. Numbers are SI, texts have units: "8 %", "50 km/h".
    cool=time or (time, speed): afterwards, half an hour unless it is a stop. load: "full" or
    "empty". progress: called with (done, total) in seconds of the duty now and then; what it raises
    ends it, as Ctrl-C does.
    Gives a Heat. Refused when a line that heat needs is left out.
    """

    __slots__ = ()

    def __call__(
        self, *, stop=None, snubs=None, descent=None, cycle=None, cool=None, load="full",
        progress=None,
    ):  # fmt: skip
        given = {"stop": stop, "snubs": snubs, "descent": descent, "cycle": cycle}
        kinds = [kind for kind, value in given.items() if value is not None]
        if len(kinds) != 1:
            raise ValueError(
                f"got {', '.join(kinds) or 'no duty'}; accepts one of {', '.join(given)}"
            )
        kind = kinds[0]
        duty = {"rest": 0.0 if kind == "stop" else _core.duty_parked(),
                "force": self._vehicle.driver.pedal_force_most, "kind": _KINDS[kind]}  # fmt: skip
        points, sequence = array("d"), ""
        if kind == "cycle":
            points = _points(cycle)
        elif kind == "snubs" and isinstance(snubs, str):
            sequence = snubs
        else:
            duty.update(_TAKE[kind](given[kind]))
        if cool is not None:
            duty.update(zip(("rest", "rest_speed"), amounts("cool", cool, _COOL, 1)))
        numbers = array("d", (duty.get(name, 0.0) for name in _core.duty_fields().split()))
        sheet, full = self._vehicle._sheet, is_full(load)
        return Heat(*_core.duty_run(sheet, full, numbers, points, sequence, progress))

    __call__.__doc__ = __doc__


def _stop(value):
    speed, *force = amounts("stop", value, _STOP, 1)
    held = {"manner": _HOLDS_FORCE, "force": force[0]} if force else {"manner": _AT_INCIPIENT_LOCK}
    return {"count": 1, "from": speed, **held}


def _snubs(value):
    names = ("count", "from", "to", "interval", "deceleration")
    numbers = amounts("snubs", value, _SNUBS, len(_SNUBS))
    return {"manner": _HOLDS_DECELERATION, **dict(zip(names, numbers))}


def _descent(value):
    return dict(zip(("grade", "length", "speed", "engine"),
                    amounts("descent", value, _DESCENT, 3)))  # fmt: skip


_TAKE = {"stop": _stop, "snubs": _snubs, "descent": _descent}
