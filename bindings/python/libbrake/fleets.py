# SPDX-License-Identifier: MIT
"""Many vehicles checked in one call: a folder of files, or a table with a vehicle a row."""
import csv
import difflib
import math
import os
import re
from array import array
from concurrent.futures import ThreadPoolExecutor

from libbrake import _core
from libbrake.answers import Rows
from libbrake.arrays import doubles
from libbrake.check import rules_bits
from libbrake.errors import Refused, RefusedUnknown
from libbrake.fields import Real
from libbrake.meaning import lines as all_lines
from libbrake.study import output, units_of
from libbrake.taken import names, truth, whole
from libbrake.tree import Named
from libbrake.vehicle import Vehicle, load

_HEAD = re.compile(r"\s*(?P<path>[^\[\]]+?)\s*(?:\[(?P<unit>.*)\])?\s*")
# Of the summary of a check.
_SUMMARY = ("verdict", "meets", "falls_short", "cannot_say", "lacking", "limiting", "p_all",
            "measure_next", "do")  # fmt: skip


class Fleet(Rows):
    """What came of many vehicles, a row each: `name`, `file`, `refused` (why it is no vehicle, else
    empty), the outputs that were asked for, and of a check its `verdict`, how many rows are met,
    fall short or cannot be said, and what limits. `fleet.column("p_all")` is an array.
    """

    def __init__(self, rows, units):
        super().__init__(rows)
        self.units = dict(units)
        self.about = {"libbrake": _core.library_version()}
        self.caution = _core.caution_text()

    def column(self, name):
        """The numbers of one column; NaN where there is none."""
        values = [row.get(name) for row in self]
        return doubles([math.nan if value is None else float(value) for value in values])

    def to_pandas(self):
        """A DataFrame, a vehicle a row; `attrs` has units and caution."""
        import pandas

        frame = pandas.DataFrame([dict(row) for row in self])
        frame.attrs.update(self.about, units=self.units, caution=self.caution)
        return frame

    def to_csv(self, path):
        """Write a table, the caution in its first line, a comment."""
        heads = list(self[0]) if self else []
        titles = [f"{name} [{self.units[name]}]" if self.units.get(name) else name
                  for name in heads]  # fmt: skip
        with open(os.fspath(path), "w", encoding="utf-8", newline="") as stream:
            stream.write(f"# {self.caution}\r\n")
            writer = csv.writer(stream)
            writer.writerow(titles)
            writer.writerows([_cell(row[name]) for name in heads] for row in self)

    def to_parquet(self, path):
        """Write a Parquet file, by the engine that pandas finds."""
        frame = self.to_pandas()
        frame.attrs.clear()  # not every engine writes them: the caution goes as a column
        frame["caution"] = self.caution
        try:
            frame.to_parquet(os.fspath(path))
        except ImportError:
            raise ImportError("Parquet wants one of the packages pyarrow and fastparquet, and none "
                              "is installed; to_csv() writes the same table") from None  # fmt: skip

    def __repr__(self):
        lines = [f"{row.name}: {row.refused or row.get('verdict', '')}".rstrip(": ")
                 for row in self]  # fmt: skip
        return "\n".join([*lines, f"Caution. {self.caution}"])


def _cell(value):
    if value is None or value != value:
        return ""
    return repr(float(value)) if isinstance(value, float) else value


# ---- the vehicles --------------------------------------------------------------------------------


class _One:
    """A vehicle of a fleet: its base, the lines in which it is another, or why it is none."""

    def __init__(self, file, base, lines=None, refused=""):
        self.file, self.base, self.lines, self.refused = file, base, dict(lines or {}), refused
        self.name = self.lines.pop("vehicle.name", "" if base is None else base.vehicle.name)

    def vehicle(self):
        """The vehicle; None, with the reason kept, when it is refused."""
        if self.refused:
            return None
        try:
            found = self.base.copy()
            found.set({**self.lines, "vehicle.name": self.name})
        except Refused as refusal:
            self.refused = str(refusal)
            return None
        return found

    def key(self):
        """What vehicles must have in common to be worked out side by side; None: it is alone."""
        numbers = all(isinstance(one, float) for one in self.lines.values())
        return (id(self.base), *self.lines) if self.lines and numbers else None


class _Files:
    """Vehicle files, each read once."""

    def __init__(self, folder):
        self.folder, self.read = folder, {}

    def one(self, file, lines=None):
        """A vehicle by its file."""
        path = os.path.join(self.folder, os.fspath(file))
        if path not in self.read:
            try:
                self.read[path] = load(path), ""
            except Refused as refusal:
                self.read[path] = None, str(refusal)
        base, refused = self.read[path]
        return _One(str(file), base, lines, refused)


def _heads(columns):
    """Path and unit of the line of each column; the path `file` is the file."""
    heads = {}
    for name in columns:
        found = _HEAD.fullmatch(name) if isinstance(name, str) else None
        path, unit = (found["path"], found["unit"]) if found else (name, None)
        if path != "file" and (not found or Vehicle._line(path) is None):
            near = difflib.get_close_matches(str(path), ["file", *all_lines()], 1)
            hint = f"did you mean {near[0]}?" if near else "accepts file, and lines of a vehicle"
            raise RefusedUnknown(f"unknown column; {hint}", field=f"vehicles: {name!s:.60}")
        if path in (one for one, _ in heads.values()):
            raise ValueError(f"vehicles: two columns of {path}; accepts one")
        heads[name] = path, unit
    return heads


def _value(value, unit):
    """A cell as a line takes it; None where it is empty: the line is as in the file."""
    if isinstance(value, str):
        text = value.strip()
        try:
            value = float(text)
        except ValueError:
            return text or None
    if value is None or value != value:
        return None
    return f"{float(value)!r} {unit}" if unit else float(value)


def _of_row(row, heads, files, base):
    """The vehicle of a row of a table."""
    lines, file = {}, ""
    for name, (path, unit) in heads.items():
        if path == "file":
            file = row[name] or ""
            continue
        value = _value(row[name], unit)
        if value is not None:
            lines[path] = value
    if file:
        return files.one(file, lines)
    if base is None:
        raise ValueError("vehicles: a row has no file; give base=, the vehicle that they are")
    return _One("", base, lines)


def _of_table(columns, folder, base):
    """The vehicles of a table, by column."""
    heads, files = _heads(columns), _Files(folder)
    rows = zip(*columns.values())
    return [_of_row(dict(zip(columns, row)), heads, files, base) for row in rows]


def _csv(path):
    """Columns of a table in a file; comments begin with #."""
    with open(path, encoding="utf-8-sig", newline="") as stream:
        head, *rows = csv.reader(line for line in stream if not line.startswith("#"))
    if len(set(head)) < len(head):
        raise ValueError(f"{path}: two columns of one name")
    for number, row in enumerate(rows):
        if len(row) != len(head):
            raise ValueError(f"{path}: row {number + 1} has {len(row)} cells; its head {len(head)}")
    return {name: [row[at] for row in rows] for at, name in enumerate(head)}


def _listed(vehicles, base):
    """The vehicles of whatever was handed over."""
    if isinstance(vehicles, (str, os.PathLike)):
        path = os.fspath(vehicles)
        if os.path.isdir(path):
            files = _Files(path)
            return [files.one(name) for name in sorted(os.listdir(path)) if name.endswith(".ini")]
        return _of_table(_csv(path), os.path.dirname(path), base)
    if hasattr(vehicles, "to_dict") and hasattr(vehicles, "columns"):
        return _of_table(vehicles.to_dict("list"), "", base)
    if hasattr(vehicles, "keys"):
        return _of_table({name: list(vehicles[name]) for name in vehicles.keys()}, "", base)
    files = _Files("")
    return [_One("", one) if isinstance(one, Vehicle) else files.one(one) for one in vehicles]


# ---- what is asked of them -----------------------------------------------------------------------


def _groups(ones):
    """Vehicles that go side by side, those that do not each alone."""
    groups = {}
    for at, one in enumerate(ones):
        groups.setdefault(one.key() or at, []).append(one)
    return groups.values()


def _together(group, out, threads):
    """Outputs of vehicles that differ in numbers of the same lines."""
    base, paths = group[0].base, list(group[0].lines)
    lines = {path: array("d", [one.lines[path] for one in group]) for path in paths}
    found = base.cases(lines, out, threads)
    for at, one in enumerate(group):
        one.found = {name: float(found[name][at]) for name in out}
        if all(math.isnan(value) for value in one.found.values()):
            one.vehicle()  # which says why it is refused


def _outputs(ones, out, threads):
    """Fills what was asked for of each."""
    for one in ones:
        one.found = dict.fromkeys(out, math.nan)
    for group in _groups(ones):
        swept = len(group) > 1 and all(isinstance(group[0].base._line(path), Real)
                                       for path in group[0].lines)  # fmt: skip
        if swept:
            try:
                _together(group, out, threads)
                continue
            except Refused:  # none of them is inside its ranges
                pass
        for one in group:
            vehicle = one.vehicle()
            if vehicle is not None:
                one.found = vehicle.outputs(out)


def _check(one, bits):
    """The summary of a check; nothing for what is no vehicle."""
    vehicle = one.vehicle()
    if vehicle is None:
        return dict.fromkeys(_SUMMARY)
    from libbrake.check import Check

    summary = Check(vehicle._sheet, bits).summary
    return {name: summary[name] for name in _SUMMARY}


def _checks(ones, bits, threads, progress):
    """Summaries in the order of the vehicles, some at a time, each on one thread."""
    found = []
    with ThreadPoolExecutor(threads, initializer=_core.threads_alone) as pool:
        try:
            for summary in pool.map(lambda one: _check(one, bits), ones):
                found.append(summary)
                if progress is not None:
                    progress(float(len(found)), float(len(ones)))
        except BaseException:
            pool.shutdown(cancel_futures=True)
            raise
    return found


def _row(one, summary):
    names_ = {"name": one.name or one.file, "file": one.file, "refused": one.refused}
    return Named(**names_, **one.found, **summary)


def fleet(vehicles, out=(), check=True, rules="own", base=None, threads=None, progress=None):
    """Many vehicles checked in one call.

    `vehicles`: a folder of files (.ini); files and vehicles in a list; or a table, a vehicle a row:
    a CSV, a DataFrame, a dict of columns. A column `file` names what each is but for the lines in
    the other columns, front.tyre.rollout or front.tyre.rollout [in]; without it all are `base`. An
    empty cell leaves a line as it is. A row that is refused says so, and ends nothing.

    `out`: results, and criteria for their margin; vehicles that differ in numbers alone are worked
    out side by side. `check`: the whole check too, some vehicles at a time, half a second each.
    `rules`, `threads`, `progress`: as of check and sweep; progress counts vehicles checked.

    Gives a Fleet: to_pandas(), to_csv(path), to_parquet(path), column(name).

    >>> found = libbrake.fleet("examples/heron-fleet.csv", "full.stop.distance", check=False)
    >>> found[1].name, found[1]["full.stop.distance"] < found[0]["full.stop.distance"]
    ('Heron 2, smaller tyres', True)
    """
    bits, wanted = rules_bits(rules), names("out", out)
    if not wanted and not truth("check", check):
        raise ValueError("a fleet wants a check, or one or more outputs in out")
    threads = min(os.cpu_count() or 1, 1024) if threads is None else whole(
        "threads", threads, 1, 1024)  # fmt: skip
    units = units_of({name: output(name) for name in wanted})
    ones = _listed(vehicles, base)
    if not ones:
        raise ValueError("vehicles: got none; accepts a folder, a table or a list of vehicles")
    _outputs(ones, wanted, threads)
    checked = _checks(ones, bits, threads, progress) if check else [{}] * len(ones)
    return Fleet(map(_row, ones, checked), units)
