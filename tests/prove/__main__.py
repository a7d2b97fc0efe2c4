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
MODEL = source.LIBRARY / "model"
OVER_TIME = ("thermal", "thermal_lanes", "advance")
# Not read by the analysis: registers of vectors; what runs over time takes it too long.
LEFT_OUT = ("braking", "advance_pair", "advance_avx2", "advance_avx512")
# Cells of the wall and points of the material: loops over them are unrolled one by one.
GRIDS = ((1, 1), (3, 2))


def closed_forms():
    """Sources, and how they are looked at: at less precision there are false alarms."""
    rest = [path for path in sorted(MODEL.glob("*.c")) if path.stem not in OVER_TIME + LEFT_OUT]
    return [source.ROOT / "tests" / "prove" / "model.c", *rest], ["-eva-precision", "6"], ""


def heat(cells, points):
    """The same for heat over time in a wall of some cells."""
    files = [MODEL / f"{name}.c" for name in (*OVER_TIME, "convection")]
    how = ["-eva-precision", "0", "-eva-slevel", "16", "-eva-auto-loop-unroll", "80",
           "-eva-split-return", "auto", "-no-warn-invalid-bool"]  # fmt: skip
    defined = f" -U__x86_64__ -DCELLS={cells} -DPOINTS={points}"
    return [source.ROOT / "tests" / "prove" / "heat.c", *files], how, defined


def analyse(name, files, how, defined):
    """Alarms of a part, None when it could not be looked at; the functions it went through."""
    command = ["frama-c", "-eva", *how, "-warn-special-float", "none", "-eva-show-progress",
               "-eva-msg-key=-initial-state,-final-states",
               f"-cpp-extra-args=-Ilibbrake/include -Ilibbrake{defined}", *files]  # fmt: skip
    done = subprocess.run(command, cwd=source.ROOT, capture_output=True, encoding="utf-8")
    told = done.stdout + done.stderr
    (BUILD / f"prove-{name}.txt").write_text(told, encoding="utf-8")
    print("\n".join(re.findall(r"\[eva:alarm\].*\n.*|.*User Error.*", told)), end="")
    alarms = re.search(r"(\d+) alarms? generated", told)
    return alarms and int(alarms[1]), set(re.findall(r"computing for function (\w+)", told))


def share(reached):
    """Those of the model's functions that were gone through, of how many."""
    texts = [path.read_text(encoding="utf-8") for path in MODEL.glob("*.[ch]")]
    names = {name for text in texts for name, *_ in functions.defined(text)}
    return len(names & reached), len(names)


def main():
    """All parts, one after the other."""
    parts = {"closed": closed_forms()}
    parts.update({f"heat-{cells}-{points}": heat(cells, points) for cells, points in GRIDS})
    alarms, reached = 0, set()
    for name, part in parts.items():
        found, through = analyse(name, *part)
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
    + " cells."
)
LEFT = (
    "Walls of other numbers of cells; brakings over time; several brakes side by side, whose types "
    "the analysis cannot read: they are the same source. Functions of the C library are taken to "
    "do what they are for. The sanitizers watch all of these."
)

if __name__ == "__main__":
    sys.exit(main())
