# SPDX-License-Identifier: MIT
"""Abstract interpretation of the model, part by part: make prove.

Ends with 1 when the analysis of a part has an alarm: what may read or write outside an object, read
what was not set, overflow, shift or divide by nothing, whatever numbers it is given.
"""
import os
import pathlib
import re
import subprocess
import sys

from lint import functions, source
from trust import record

BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", source.ROOT / "build"))
HERE = source.ROOT / "tests" / "prove"
MODEL = source.LIBRARY / "model"
# Sources of each part. At less precision the first has false alarms, at more the loops of the
# second take hours.
CLOSED = "disc", "drum", "fit", "load", "pedal", "status", "tyre"
AXLES = ("balance", "braked_axles", "braking", "course", "drum", "friction", "gain", "lanes",
         "load", "parking", "passage", "pedal", "stop", "thermal", "tow")  # fmt: skip
TEMPERATURES = "convection", "friction", "heat"
BRAKINGS = ("balance", "braked_axles", "course", "drum", "friction", "gain", "load", "passage",
            "pedal", "stop", "tow")  # fmt: skip
OVER_TIME = "thermal", "thermal_lanes", "advance", "convection"
PRECISE = "-eva-precision", "6"
QUICK = "-eva-precision", "0", "-eva-slevel", "16"
# Cells of the wall and points of the material: loops over them are unrolled one by one.
GRIDS = ((1, 1), (3, 2), (8, 4))


def part(entry, names, *how, defined=""):
    """Sources, with what calls them; how they are looked at."""
    files = [HERE / f"{entry}.c", *(MODEL / f"{n}.c" for n in names)]
    return files, how, defined


def parts():
    """{name: part} of all."""
    yield "closed", part("model", CLOSED, *PRECISE)
    yield "axles", part("axles", AXLES, *QUICK, "-eva-auto-loop-unroll", "64")
    yield "brakings", part(
        "brakings", BRAKINGS, *QUICK, "-eva-auto-loop-unroll", "16", "-no-warn-invalid-bool",
        "-c11", "-cpp-frama-c-compliant", "-cpp-command", f"{HERE / 'sizes'} %1 %2 %args")  # fmt: skip
    yield "temperatures", part("temperatures", TEMPERATURES, *PRECISE)
    for cells, points in GRIDS:
        yield f"heat-{cells}-{points}", part(
            "heat", OVER_TIME, *QUICK, "-eva-auto-loop-unroll", "80", "-eva-split-return", "auto",
            "-no-warn-invalid-bool", defined=f" -DCELLS={cells} -DPOINTS={points}")  # fmt: skip


def analyse(name, files, how, defined):
    """Alarms of a part, None when it could not be looked at; the functions it went through."""
    seen = f"-Ilibbrake/include -Ilibbrake -U__x86_64__{defined}"
    command = ["frama-c", "-eva", *how, "-warn-special-float", "none", "-eva-show-progress",
               "-eva-msg-key=-initial-state,-final-states", f"-cpp-extra-args={seen}", *files]
    done = subprocess.run(command, cwd=source.ROOT, capture_output=True, encoding="utf-8")
    told = done.stdout + done.stderr
    (BUILD / f"prove-{name}.txt").write_text(told, encoding="utf-8")
    print("\n".join(re.findall(r"\[eva:alarm\].*\n.*|.*User Error.*", told)), end="")
    alarms = re.search(r"(\d+) alarms? generated", told)
    # A static function that several sources have gets a number behind its name.
    through = re.findall(r"computing for function (\w+?)(?:_\d+)? <-", told)
    return alarms and int(alarms[1]), set(through)


def share(reached):
    """Those of the model's functions that were gone through, of how many."""
    texts = [path.read_text(encoding="utf-8") for path in MODEL.glob("*.[ch]")]
    names = {name for text in texts for name, *_ in functions.defined(text)} - {"__attribute__"}
    return len(names & reached), len(names)


def main():
    """All parts, one after the other."""
    alarms, reached = 0, set()
    for name, looked_at in parts():
        found, through = analyse(name, *looked_at)
        said = "not analysed" if found is None else f"{found} alarms"
        print(f"prove: {name}: {said}", flush=True)
        alarms += 1 if found is None else found
        reached |= through
    count, there = share(reached)
    print(f"prove: {alarms} alarms; {count} of the model's {there} functions, {count / there:.0%}")
    record.record("prove", "Proved of the model", {
        "alarms": f"{alarms}", "functions analysed": f"{count} of {there}, {count / there:.0%}",
    }, RESTS, LEFT)  # fmt: skip
    return 1 if alarms else 0


RESTS = (
    "Abstract interpretation (Frama-C, Eva) from `tests/prove`, with any numbers at all, NaN and "
    "infinities too: no alarm means that no run reads or writes outside an object, reads what was "
    "not set, overflows an integer or shifts it out of range, or divides one by zero. Every closed "
    "formula; the steps of heat over time, every index of them, in walls of "
    + ", ".join(f"{cells}" for cells, _ in GRIDS)
    + " cells; the steps of a braking over time, each of its functions from any numbers that the "
    "one before may have left."
)
LEFT = (
    "Walls of other numbers of cells; the list of brakings that go on side by side; several brakes "
    "side by side, whose types the analyser cannot read: they are the same source; tyre markings, "
    "read by functions of the C library that it does not know. Those it knows are taken to do what "
    "they are for. The sanitizers watch all of these."
)

if __name__ == "__main__":
    sys.exit(main())
