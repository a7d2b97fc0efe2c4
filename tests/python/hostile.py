# SPDX-License-Identifier: MIT
"""Calls a batch of the package with hostile arguments; see test_hostile.py."""
import array
import importlib
import functools
import inspect
import json
import signal
import sys
import threading

import libbrake
from libbrake import _core

# What a call may take; the studies are given less than nothing to do.
PATIENCE = 8  # [s]


class Raises:
    """Raises for whatever it is asked."""

    def _refuse(self, *_):
        raise RuntimeError("hostile")

    __float__ = __int__ = __index__ = __len__ = __getitem__ = __iter__ = __str__ = _refuse
    __bool__ = __call__ = __hash__ = __eq__ = __format__ = __array__ = keys = items = _refuse


class Lies:
    """Says that it is longer than it is, and a number that is none."""

    def __len__(self):
        return 5

    def __getitem__(self, at):
        if at > 1:
            raise IndexError(at)
        return 2.0

    def __float__(self):
        return "no number"

    __index__ = __int__ = __float__


class Shrinks(list):
    """Loses its items while it is read."""

    def __iter__(self):
        while self:
            yield self.pop()


def endless():
    """A list and a dict that hold themselves."""
    one, two = [1.0], {}
    one.append(one)
    two["self"] = two
    return [one, two]


def released():
    """A buffer that is gone."""
    view = memoryview(array.array("d", [1.0, 2.0]))
    view.release()
    return view


def of_numpy():
    """Arrays of the wrong type, shape, order or content."""
    try:
        import numpy as np
    except ImportError:
        return []
    read_only = np.arange(3.0)
    read_only.flags.writeable = False
    gone = np.frombuffer(bytearray(24))
    return [
        np.array(2.0), np.array([]), np.arange(3), np.arange(8.0)[::-2], np.ones((2, 2)),
        np.asfortranarray(np.ones((2, 3))), np.array([1.0, None], dtype=object),
        np.array(["a", "2.2 m"]), np.array([1j]), np.zeros(2, dtype="f4,i8"), np.float32(2.5),
        np.ma.array([1.0, 2.0], mask=[True, False]), np.array([np.nan, np.inf]), read_only, gone,
        np.array([2**63], dtype="u8"), np.array(["2020-01-01"], dtype="M8[D]"), np.bool_(True),
        np.broadcast_to(np.array(1.0), (4,)), np.ones(3, dtype=">f8"),
    ]  # fmt: skip


def battery():
    """What is handed over; made anew for each call, as some of it is used up."""
    return [
        None, True, 0, -1, 10**30, 2**31, 2**63, -(2**64), 0.0, -1.0, 1e308, 5e-324, float("nan"),
        float("inf"), -float("inf"), 1j, "", "x", "x\0y", "\ud800", "2.2 m", "é" * 300, "%s%n" * 40,
        "x" * 100_000, b"", b"\0" * 64, bytearray(8), (), [], {}, set(), [None], ["2.2 m", 2.5],
        [float("nan")] * 3, [[1.0], [1.0, 2.0]], [(1.0, 2.0)], [(1.0,)], (1.0, 2.0, 3.0),
        [1e999] * 40, {"x": 1.0}, {"vehicle.mass": [1e9]}, {1: 2}, object(), Raises(), Lies(),
        Shrinks([1.0, 2.0, 3.0]), *endless(), (x for x in (1.0, 2.0)), iter("ab"), range(3),
        array.array("f", [1.0]), array.array("d"), released(), memoryview(bytes(24)),
        lambda *_: Raises(), len, int, Ellipsis, *of_numpy(),
    ]  # fmt: skip


def late(*_):
    """A call that hangs is broken off."""
    raise TimeoutError("hangs")


class Walk:
    """Calls, counts and keeps the faults."""

    def __init__(self):
        self.calls, self.faults = 0, []

    def tell(self, name):
        """What is about to be called, for when it is the last."""
        sys.stdout.write(name[:200] + "\n")

    def call(self, name, use):
        """One call: a value or an exception with words."""
        self.calls += 1
        self.tell(name)
        signal.alarm(PATIENCE)
        try:
            use()
        except (SystemError, MemoryError, TimeoutError) as fault:
            self.faults.append(f"{name}: {type(fault).__name__}: {fault}"[:300])
        except Exception as refusal:
            self._words(name, refusal)
        finally:
            signal.alarm(0)

    def _words(self, name, refusal):
        try:
            words = str(refusal)
        except Exception as fault:
            words = ""
            name += f" ({fault!r:.60})"
        if not words or "in method '" in words:  # what SWIG says of its own functions is no answer
            self.faults.append(f"{name}: {type(refusal).__name__}: {words}"[:300])

    def function(self, name, function, good):
        """A function, each of its arguments in turn hostile and the others good; then all
        hostile."""
        size = len(battery())
        for at in range(size):
            for which in good:
                broken_off = {"progress": lambda *_: 1 / 0} if which == "fade" else {}
                self.call(f"{name}({which}=#{at})",
                          lambda: function(**{**good, **broken_off, which: battery()[at]}))  # fmt: skip
            self.call(f"{name}(all #{at})", lambda: function(**dict.fromkeys(good, battery()[at])))


def arguments(function, value):
    """A value for every argument that has no other."""
    return {name: value for name in inspect.signature(function).parameters}


def functions(module):
    """The public functions that a module has itself."""
    for name, one in vars(module).items():
        if (
            inspect.isfunction(one)
            and not name.startswith("_")
            and one.__module__ == module.__name__
        ):
            yield name, one


def subject(walk, name):
    """A module of the model."""
    module = importlib.import_module(f"libbrake.{name}")
    for called, function in functions(module):
        walk.function(f"{name}.{called}", function, arguments(function, 1.0))
        records(walk, module, f"{name}.{called}", function)


def records(walk, module, name, function):
    """Structs whose fields are hostile, by the shapes of the module."""
    for shape in [
        one for key, one in vars(module).items() if key.startswith("_") and key.isupper()
    ]:
        for number in (-1, 2**31 - 1, 10**6, float("nan"), 1e308):
            value = filled(shape, number)
            walk.call(f"{name}(records of {number})",
                      lambda: function(**arguments(function, value)))  # fmt: skip
            for which in arguments(function, None):
                walk.call(f"{name}({which}: {number})",
                          lambda: function(**{**arguments(function, 2.0), which: value}))  # fmt: skip


def filled(shape, number):
    """A struct of one number everywhere."""
    if isinstance(shape, str):
        return {"d": float(number), "?": True, "c": "x"}.get(
            shape, int(number) if number == number and abs(number) < 2**31 else 7)  # fmt: skip
    head, inner = shape
    if isinstance(head, int):
        return tuple(filled(inner, number) for _ in range(head))
    return head(*(filled(part, number) for part in inner))


def vehicle():
    """The rescue team's vehicle."""
    return libbrake.load("examples/heron.ini")


def cool():
    """The same without what heat needs: nothing of it is drawn hot, which takes a second a time."""
    with open("examples/heron.ini", encoding="utf-8") as file:
        lines = [line for line in file if not line.startswith(("rotor_mass", "drum_mass"))]
    return libbrake.loads("".join(lines))


AXES, OUT = {"vehicle.mass": [1900.0]}, ["full.stop.distance"]
# Arguments that make a call quick and good; any other keyword that a method has is found by itself.
GOOD = {
    "axes": AXES, "out": OUT, "names": OUT, "lines": {"vehicle.mass": 1900.0},
    "path": "vehicle.mass", "samples": 1024, "by": {"vehicle.mass": [1900.0]},
    "target": "us.135.cold",
    "log": {"time": [0.0, 1.0, 2.0, 3.0], "speed": [20.0, 15.0, 5.0, 0.0]}, "threads": 1,
}  # fmt: skip


def good(method):
    """Good arguments of a method: those listed, and the defaults."""
    return {
        name: GOOD.get(name, None if one.default is one.empty else one.default)
        for name, one in inspect.signature(method).parameters.items()
    }


def methods(walk, one, names):
    """Methods of a vehicle."""
    for name in names:
        method = getattr(one, name)
        walk.function(f"Vehicle.{name}", method, good(method))


STUDIES = ("sweep", "spread", "size", "drivelog", "report", "shakedown", "heat")


def of_vehicle(walk):
    """All of a vehicle but its studies, and its constructor."""
    found = [name for name, one in inspect.getmembers(libbrake.Vehicle, inspect.isfunction)
             if not name.startswith("_") and name not in (*STUDIES, "save")]  # fmt: skip
    methods(walk, vehicle(), found)
    walk.function("Vehicle", libbrake.Vehicle, {"sheet": vehicle()._sheet})
    restore, (form, state, kind) = vehicle().__reduce__()
    walk.function("unpickle", restore, {"form": form, "state": state, "kind": kind})
    for name in ("__copy__", "__repr__", "_repr_html_"):
        walk.call(name, getattr(vehicle(), name))
    for at, _ in enumerate(battery()):
        walk.call(f"== #{at}", lambda: vehicle() == battery()[at])
        walk.call(f"setattr #{at}", lambda: setattr(vehicle(), str(battery()[at])[:50], 1.0))


def of_studies(walk):
    """The studies, and their values inside good containers."""
    one = vehicle()
    methods(walk, cool(), [name for name in STUDIES if name != "heat"])
    kinds = {"stop": 20.0, "snubs": (2, 20.0, 10.0, 30.0, 3.0), "descent": (0.05, 500.0, 10.0),
             "cycle": ([0.0, 5.0], [20.0, 10.0], [0.0, 0.0])}  # fmt: skip
    for kind, value in kinds.items():
        rest = {"cool": 10.0, "load": "full", "progress": None}
        walk.function(f"heat {kind}", one.heat, {kind: value, **rest})
    for at, _ in enumerate(battery()):
        walk.call(f"axis #{at}", lambda: one.sweep({"vehicle.mass": battery()[at]}, OUT))
        walk.call(f"path #{at}", lambda: one.sweep({str(battery()[at]): [1.0]}, OUT))
        walk.call(f"output #{at}", lambda: one.outputs([battery()[at]]))
        walk.call(f"log #{at}", lambda: one.drivelog({"time": battery()[at], "speed": [1.0]}))
        for place in range(3):
            columns = [[0.0, 5.0], [20.0, 10.0], [0.0, 0.0]]
            walk.call(f"cycle {place} #{at}",
                      lambda: one.heat(cycle=[battery()[at] if i == place else c
                                              for i, c in enumerate(columns)]))  # fmt: skip


def of_package(walk):
    """The functions of the package itself, and the classes of its exceptions."""
    one = vehicle()
    walk.function("load", libbrake.load, {"path": "examples/heron.ini"})
    walk.function("loads", libbrake.loads, {"text": one.to_text()})
    walk.function(
        "compare", libbrake.compare, {**good(libbrake.compare), "before": one, "after": one}
    )
    walk.function("explain", libbrake.explain, {"name": "full.stop.distance"})
    told = {"vehicle": one, "logs": "examples/heron-drive.csv", "lines": "booster.gain"}
    walk.function("identify", libbrake.identify, told)
    # Without a check, which takes half a second each.
    walk.function("fleet", functools.partial(libbrake.fleet, check=False),
                  {"vehicles": [one], "out": OUT, "base": None, "threads": 1})  # fmt: skip
    for at, _ in enumerate(battery()):
        for column in ("file", "vehicle.mass"):
            walk.call(f"fleet {column} #{at}", lambda: libbrake.fleet(
                {column: [battery()[at]]}, OUT, check=False, base=one))  # fmt: skip
    for name, kind in list(vars(libbrake.errors).items()):
        if inspect.isclass(kind):
            walk.function(name, lambda text: str(kind(text)) or "words", {"text": "x"})


def of_lines(walk):
    """Every line set to everything; sections and parts asked for anything."""
    one, checked = vehicle(), vehicle().check()
    size = len(battery())
    for path in list(one.known()):
        for at in range(size):
            walk.call(f"{path} = #{at}", lambda: one.copy().set({path: battery()[at]}))
    for at in range(size):
        for owner in (one.front.tyre, one.part, checked, checked.full):
            walk.call(f"getattr #{at}", lambda: getattr(owner, str(battery()[at])[:50]))
        walk.call(f"part #{at}", lambda: one.part[battery()[at]])


def of_answers(walk):
    """What studies give, asked for anything."""
    one = vehicle()
    table, answer = one.sweep(AXES, OUT), one.spread(1024)
    for at, _ in enumerate(battery()):
        walk.call(f"table #{at}", lambda: table[battery()[at]])
        walk.call(f"refusal #{at}", lambda: table.refusal(battery()[at]))
        walk.call(f"column #{at}", lambda: answer.criteria.column(battery()[at]))
        walk.call(f"answer #{at}", lambda: answer[battery()[at]])


BATCHES = {"vehicle": of_vehicle, "studies": of_studies, "package": of_package, "lines": of_lines,
           "answers": of_answers}  # fmt: skip


def main(batch):
    """Runs one batch; its last line is what came of it."""
    walk = Walk()
    signal.signal(signal.SIGALRM, late)
    threading.stack_size(1 << 20)
    BATCHES[batch](walk) if batch in BATCHES else subject(walk, batch)
    assert _core.caution_text()
    print(json.dumps({"calls": walk.calls, "faults": walk.faults}))


if __name__ == "__main__":
    main(sys.argv[1])
