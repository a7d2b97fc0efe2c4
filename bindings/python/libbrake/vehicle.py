# SPDX-License-Identifier: MIT
"""A vehicle: the lines of its file as attributes, and what can be asked of it."""
import os

from libbrake import _core
from libbrake.errors import Refused
from libbrake.fields import Child, Line, short
from libbrake.parts import Parts
from libbrake.sections import Sections


class Vehicle(Sections):
    """A vehicle. `v.front.tyre.rollout = 2.52` or `= "99 in"`; `v.check()`; `v.heat(...)`.

    Numbers are SI. Every change works the vehicle out anew, and is refused as a whole when a value
    is out of range or contradicts another. Vehicles can be copied, pickled and compared.
    """

    __slots__ = ("_sheet", "__weakref__")
    __hash__ = None
    _path = ""
    _vehicle = property(lambda self: self)

    def __init__(self, sheet):
        """Of its bytes in this version; load(path) and loads(text) read what people write."""
        if not isinstance(sheet, (bytes, bytearray)):
            raise TypeError(
                f"got {sheet!r:.60}; libbrake.load(path) and loads(text) give a Vehicle"
            )
        if len(sheet) != _core.sheet_size():
            raise ValueError(f"got {len(sheet)} bytes; a vehicle has {_core.sheet_size()}")
        _core.sheet_check(sheet)
        object.__setattr__(self, "_sheet", bytes(sheet))

    # ---- its lines

    def __dir__(self):
        return [name for name in dir(type(self)) if not name.startswith("_")]

    def __getattr__(self, name):
        if name.startswith("_"):
            raise AttributeError(name)
        raise AttributeError(f"a vehicle has no '{name}'; it has {', '.join(dir(self))}")

    def __setattr__(self, name, value):
        getattr(self, name)
        raise AttributeError(f"'{name}' is not a line; set lines of a section, v.pedal.ratio = 4.2")

    @classmethod
    def _line(cls, path):
        """The line of a path, as its class has it."""
        at = cls
        for name in path.split("."):
            if isinstance(at, Parts):
                at = at.kind  # and the name is that of the part
                continue
            at = getattr(at, name, None)
            at = at.kind if isinstance(at, Child) and not isinstance(at, Parts) else at
        return at if isinstance(at, Line) else None

    def _put(self, sheet, lines):
        """Takes a sheet that some lines are set in, worked out anew."""
        for path, value in lines.items():
            line, index = self._line(path), _core.sheet_find(sheet, path)
            if value is None and index >= 0:
                _core.sheet_unset(sheet, index)
                continue
            text = line.words(value) if line else str(value)  # the library names what is near
            _core.sheet_set(sheet, f"{path}={text}")
        _core.sheet_complete(sheet)
        object.__setattr__(self, "_sheet", bytes(sheet))

    def _fit(self, name, lines):
        """Fits a part, or takes it away when it has no lines."""
        sheet = bytearray(self._sheet)
        _core.sheet_remove_part(sheet, name)
        if lines is not None:
            _core.sheet_fit_part(sheet, name)
        self._put(sheet, {f"part.{name}.{line}": one for line, one in (lines or {}).items()})

    def set(self, lines):
        """Set lines by path, all of them or none: `v.set({"front.tyre.rollout": 2.52, ...})`; None
        leaves a line out, as if the file did not have it.

        >>> v.set({"front.tyre.rollout": "2500 mm", "pedal.ratio": 4})
        >>> v.front.tyre.rollout
        2.5
        """
        self._put(bytearray(self._sheet), lines)

    def get(self, path):
        """The value of a path.

        >>> v.get("part.winch.mass")
        38.0
        """
        at = self
        for name in path.split("."):
            at = getattr(at, name)
        return at

    def known(self):
        """Every line that is known: {path: {"text", "from", "tolerance"}}.

        >>> v.known()["vehicle.wheelbase"]["text"]
        '2420 mm'
        """
        import json

        return json.loads(_core.sheet_json(self._sheet))["lines"]

    def to_text(self):
        """The vehicle as a file, every line explained.

        >>> libbrake.loads(v.to_text()) == v
        True
        """
        return _core.sheet_file(self._sheet)

    def learn(self, log, columns=None):
        """Learn what a drive tells, as load(path) does of the log that `[drive] log` names: every
        study draws the vehicle as that drive makes likely. `log`, `columns`: as for drivelog().

        >>> v.learn("examples/heron-drive.csv")
        """
        from libbrake.drive import learn

        sheet = bytearray(self._sheet)
        learn(sheet, log, columns)
        object.__setattr__(self, "_sheet", bytes(sheet))

    def save(self, path):
        """Write the vehicle's file, every line explained; load(path) reads it back.

        >>> v.save("fitted.ini")
        >>> libbrake.load("fitted.ini") == v
        True
        """
        with open(os.fspath(path), "w", encoding="utf-8") as stream:
            stream.write(self.to_text())

    def digest(self):
        """What tells this vehicle from others: SHA-256 of its values (FIPS 180-4).

        >>> len(v.digest())
        64
        """
        return _core.sheet_digest(self._sheet)

    # ---- what can be asked

    def check(self, rules="own", before=None):
        """Results, criteria and warnings; `rules`: own, us, un, eu, gb, nl or all; `before`: the
        vehicle before it was changed, held against this one in `changes`.

        >>> v.check().full.stop.distance < 80
        True
        """
        from libbrake.check import check, fitted

        return check(self._sheet, rules, fitted(before, self))

    def outputs(self, names):
        """Results and margins of criteria by name, as a dict: quicker than a check.

        >>> sorted(v.outputs(["full.stop.distance", "hazard.circuit"]))
        ['full.stop.distance', 'hazard.circuit']
        """
        from libbrake import taken
        from libbrake.study import outputs

        return outputs(self, taken.names("names", names))

    def sweep(self, axes, out, threads=None, progress=None):
        """The outputs at every combination of values: `v.sweep({"front.tyre.rollout": [2.4, 2.5]},
        out=["full.stop.distance"])`. An output is a result, or a criterion for its margin.

        Gives a Table whose arrays have a dimension an axis; NaN where a combination is refused, or
        a value is outside its range: `t.notes`, an array of words along the same axes, and
        `t.refusal(3, 0)` say why. An axis is anything with an order, as a list, range, generator,
        array, Series or Index; a value may be a text with its unit. What comes out does not depend
        on the number of `threads`, 1 to 1024; None: one a processor. `progress`: called with (done,
        total) now and then; what it raises ends the sweep, as Ctrl-C does.

        >>> t = v.sweep({"front.tyre.rollout": ["96 in", 2.5]}, out="full.stop.distance")
        >>> len(t["full.stop.distance"])
        2
        """
        from libbrake.study import sweep

        return sweep(self, axes, out, threads, progress)

    def cases(self, lines, out, threads=None, progress=None):
        """The outputs of cases of your own, each with its own value of every line: draws of any
        distribution, points of an optimiser, rows of a table. `v.cases({"front.disc.pads.mu": mu,
        "rear.drum.lining.mu": nu}, out=["full.stop.distance"])`, arrays of one length, of up to 32
        lines. Distributions and correlations that samples() has no shape for are drawn by whoever
        asks, and worked out here. `threads`, `progress`, what is refused: as of sweep.

        Gives a Table of columns.

        >>> t = v.cases({"front.disc.pads.mu": [0.35, 0.4], "booster.gain": [4, 4.4]},
        ...             out="full.pedal.force_for_target")
        >>> t["full.pedal.force_for_target"][1] < t["full.pedal.force_for_target"][0]
        True
        """
        from libbrake.study import cases

        return cases(self, lines, out, threads, progress)

    def samples(
        self, samples=16384, out=(), rules="own", seed=1, shape="normal", progress=None
    ):
        """Samples as data: every line that is uncertain and every output in `out`, a column each, a
        row a sample; shared causes, and what a drive has told, are in them. They are those that
        spread() draws with the same `samples`, `seed` and `shape`. A criterion gives its margin,
        the model's own error in it: infinite where it does not apply, those of hot performance by
        a fade procedure a sample. A choice that was left out is its number.

        Gives a Table of columns.

        >>> t = v.samples(1024, out="hazard.circuit")
        >>> len(t["front.disc.pads.mu"])
        1024
        """
        from libbrake.samples import samples as draw

        return draw(self, samples, out, rules, seed, shape, progress)

    def curves(self, pedal_force=None, deceleration=None, load="full", failure="intact"):
        """What the brakes do along one of both, cold: `v.curves(pedal_force=range(0, 500, 10))`,
        wheels kept from locking; `v.curves(deceleration=[1, 2, 3])`, whatever the tyres can hold,
        so that `front_adhesion` and `rear_adhesion` are the curves of adhesion utilisation.
        `failure`: intact, first_circuit, second_circuit, no_assist, low_vacuum, engine_off,
        valve_open, valve_shut, no_antilock, in_gear. What moves over time is in
        `v.heat(stop=...).history`.

        Gives a Table along that axis: pedal force, pressure at the master cylinder, deceleration;
        pressure, torque, force at the tyres, load and adhesion used of each axle; NaN where nothing
        gives it.

        >>> t = v.curves(deceleration=[2, 4])
        >>> t["front_adhesion"][1] > t["front_adhesion"][0]
        True
        """
        from libbrake.curves import curves

        return curves(self, pedal_force, deceleration, load, failure)

    def gradient(self, outputs, lines):
        """Derivatives of outputs by lines, `v.gradient(["full.stop.distance"],
        ["front.tyre.rollout", "front.disc.pads.mu"])`: what a sweep would give around the vehicle,
        extrapolated to steps of nothing, with an error of each; kinks are told.

        Gives a Gradient: `g["full.stop.distance", "front.tyre.rollout"]`, arrays `value`, `error`,
        `kink`, to_pandas(), to_xarray().

        >>> g = v.gradient("full.stop.distance", "front.tyre.rollout")
        >>> g["full.stop.distance", "front.tyre.rollout"] > 0
        True
        """
        from libbrake.gradient import gradient

        return gradient(self, outputs, lines)

    def spread(
        self, samples=16384, rules="own", seed=1, shape="normal", fade=False, progress=None
    ):
        """All tolerances drawn at once: how probably each requirement is met, and which input's
        uncertainty decides it. `shape`: normal, uniform or triangular, or a dict of them by path.
        `fade`: hot performance too, which takes minutes. `progress`: as of sweep.

        Gives an Answer: summary, criteria, results, sensitivity, inputs, causes.

        >>> v.spread(samples=1024).criteria[0].id in libbrake.criteria()
        True
        """
        from libbrake.answers import spread

        return spread(self, samples, rules, seed, shape, fade, progress)

    def size(self, by, target, within=None, rules="own", before=None, progress=None):
        """What must be fitted: the values of a line that give a target, `v.size(
        "front.disc.piston_diameter", "us.135.cold", within=("40 mm", "60 mm"))`; the sizes of parts
        that work together, by={path: sizes, ...}, or by=[path, ...] of the vehicle's list of parts;
        the tyres that these brakes carry, by={"tyre": markings}. A target is a criterion, `all` of
        those of `rules`, `regained` (the brake torque per need of the vehicle `before`), or
        `full.stop.distance <= 60 m`. `progress`: as of sweep.

        Gives an Answer: answers, limits, changes, combinations.

        >>> v.size("pedal.ratio", "hazard.assist", within=(3, 6)).answers[0].side
        'or more'
        """
        from libbrake.answers import size

        return size(self, by, target, within, rules, before, progress)

    def take_parts(self, parts):
        """Take a list of the sizes that can be had, as load() does of the one that [vehicle] parts
        names: a file, or `v.take_parts({"master.bore": ["7/8 in", "1 in"]})`. Repairs and size()
        keep to them; no list: customary sizes.

        >>> v.take_parts({"master.bore": ["7/8 in", 0.0254]})
        """
        from libbrake.parts import take

        sheet = bytearray(self._sheet)
        take(sheet, parts)
        object.__setattr__(self, "_sheet", bytes(sheet))

    def cooldown(self, log, columns=None):
        """A cool-down, measured, and the factor on the cooling by air that it tells: a log as
        drivelog() takes it, with time, speed, and front_temperature, rear_temperature or both, the
        brakes off. heat.ambient must be stated, the air of that day.

        Gives an Answer: summary, axles, line.

        >>> v.heat.ambient = "18 degC"
        >>> hot = v.heat(descent=("8 %", "3 km", "50 km/h"), cool=("20 min", "60 km/h")).history
        >>> off = len(hot["time"]) - 900
        >>> log = {"time": hot["time"][off:], "speed": hot["speed"][off:],
        ...        "front_temperature": hot["front_mean"][off:]}
        >>> told = v.cooldown(log).summary.cooling
        >>> told.p05 < v.heat.cooling < told.p95
        True
        """
        from libbrake.drive import cooldown

        return cooldown(self, log, columns)

    def drivelog(
        self, log, columns=None, nominal=None, load=None, grade=None, lag=None, gauge=None
    ):
        """The log of a drive held against the prediction: `v.drivelog("log.csv")`, or arrays by
        name, `v.drivelog({"time": t, "speed": v, "pedal_force": f})`, in SI unless the name has a
        unit as in "speed [km/h]". Columns: time, speed; pedal_force, pressure, deceleration,
        front_temperature, rear_temperature, grade (positive uphill), heading where there are such;
        NaN for a reading that is missing.
        `columns`: units that the header of a file lacks, "time=s,speed=mph". `nominal`: speeds that
        distances are brought to, "80 km/h" or a list. `load`: as it was driven; the lines of
        [drive], and of the log's comments, say it where it is left out, and so of what follows.
        What the day of measuring was off by, in all stops alike, a value or (value, half):
        `grade` of a road that the log has none of, the way of the first stop, (0, 0.01) when left
        out; `lag` of the speed behind the pedal, (0.1, 0.1) s; `gauge`, true pedal force over what
        the log says, (1, 0.02).

        Gives an Answer: summary, results, stops, repeatability, notes. Refused when there is no
        stop; the first row of arrays counts as line 2.

        >>> v.drivelog("examples/heron-drive.csv").summary.stops
        6
        """
        from libbrake.drive import drivelog

        return drivelog(self, log, columns, nominal, load, (grade, lag, gauge))

    def shakedown(self, load="empty", despite=()):
        """The first drive after a change, planned: what falls short, what to expect at each stage
        and where to break off. `load`: as it will be driven. Refused when the pedal has no reserve,
        the rear wheels lock first or there is one circuit, unless `despite` says so: "no-reserve",
        "rear-first", "one-circuit", or several.

        Gives a Plan: stages (`plan.stages.column("least")`), standing, bedding, by_calculation;
        `measuring_only` when the pedal force is not known well enough for more; `text` and `html`
        for print.

        >>> v.shakedown().stages.column("least")[0] > 0
        True
        """
        from libbrake.answers import shakedown

        return shakedown(self, load, despite)

    def report(
        self, before=None, load="full", rules="own", drivelog=None, columns=None, driven=None,
        date=None, file=None, before_file=None,
    ):
        """The report for inspection. `before`: the vehicle before it was changed, for what each
        change gave or took. `load`: load case of its duties. `drivelog`, `columns`, `driven`: the
        log of a drive, as drivelog() takes it. `date`: of the report, today when left out. `file`,
        `before_file`: names of the vehicle files, which are left out else.

        Gives a Report: `html` and `text`.

        >>> "qualified inspector" in v.report(date="2026-01-02").html
        True
        """
        from libbrake.report import report

        names, drive = (file, before_file), (drivelog, columns, driven)
        return report(self, before, names, drive, rules, load, date)

    # ---- copies

    def copy(self):
        """Another vehicle with the same lines.

        >>> v.copy() == v
        True
        """
        other = type(self).__new__(type(self))
        object.__setattr__(other, "_sheet", self._sheet)
        return other

    def __copy__(self):
        return self.copy()

    def __deepcopy__(self, memo):
        return self.copy()

    def __reduce__(self):
        from libbrake.kept import FORM, kept, restore

        return restore, (FORM, kept(self), type(self))

    def __eq__(self, other):
        if not isinstance(other, Vehicle):
            return NotImplemented
        return _core.sheet_same(self._sheet, other._sheet)

    # ---- words

    def __repr__(self):
        import textwrap

        sections = {}
        for path, one in self.known().items():
            section, _, name = path.rpartition(".")
            if one["from"] != "default" and path != "vehicle.name":
                sections.setdefault(section, []).append(f"{name} {short(one['text'])}")
        lines = [f"Vehicle {self.vehicle.name or 'without a name'}"]
        for section, given in sections.items():
            text = f"{section}: {'; '.join(given)}"
            lines.append(textwrap.fill(text, 79, initial_indent="  ", subsequent_indent="      "))
        return "\n".join([*lines, textwrap.fill(f"Caution. {_core.caution_text()}", 79)])

    def _repr_html_(self):
        from libbrake.html import vehicle

        return vehicle(self)


def loads(text):
    """A vehicle from the text of its file.

    >>> libbrake.loads(v.to_text()).front.tyre.rollout == v.front.tyre.rollout
    True
    """
    sheet = bytearray(_core.sheet_size())
    _core.sheet_read(text.encode() if isinstance(text, str) else bytes(text), sheet)
    return Vehicle(bytes(sheet))


def load(path):
    """A vehicle from its file, or from the page of a report; the drive and the list of parts that
    it names are read too.

    >>> libbrake.load("examples/heron.ini").front.axle.brake
    'disc'
    """
    with open(os.fspath(path), "rb") as stream:  # the number of an open file is no path
        text = stream.read()
    at = path
    try:
        vehicle = loads(text)
        sheet = bytearray(vehicle._sheet)
        for name, take, at in _named(vehicle, path):
            table = _core.page_table(text, _TABLES[name])
            take(_beside(at) if table is None else table.encode(), sheet)
        return Vehicle(bytes(sheet))
    except Refused as refusal:
        refusal.file = str(at)
        raise


# Tables that a page carries in place of the files that its vehicle names.
_TABLES = {"drive.log": "rows-of-drive", "vehicle.parts": "rows-of-parts"}


def _named(vehicle, path):
    """The files that a vehicle's own file names: line, what takes one, and path."""
    folder = os.path.dirname(os.fspath(path))
    takes = {"drive.log": lambda log, sheet: _core.sheet_learn(log, "", sheet),
             "vehicle.parts": _core.sheet_take_parts}  # fmt: skip
    for line, take in takes.items():
        if vehicle.get(line):
            yield line, take, os.path.join(folder, vehicle.get(line))


def _beside(path):
    with open(path, "rb") as stream:
        return stream.read()
