# SPDX-License-Identifier: MIT
"""A small vehicle file that is accepted, ways to change it, and the command that reads it."""
import atexit
import csv
import functools
import io
import json
import math
import os
import pathlib
import subprocess

ROOT = pathlib.Path(__file__).parents[2]
PROGRAM = os.environ.get("STOPMARGIN", str(ROOT / "build" / "stopmargin"))
EXAMPLES = sorted((ROOT / "examples").glob("*.ini"))

RULES = "own", "us", "un", "eu", "gb", "nl", "de", "ca", "au", "all"  # of --rules
ACCEPTED = f"accepts {', '.join(RULES)}"

# Every line that is needed, and no other: disc brakes in front, drums at the rear, no booster.
VEHICLE = """\
[vehicle]
name = Plain
mass = 1600 kg
front_share = 55 %
cg_height = 650 mm
wheelbase = 2500 mm
[front.axle]
brake = disc
[front.tyre]
rollout = 2.1 m
wheel_mass = 22 kg
[front.disc]
mounting = floating
pistons = 1 x 57 mm
[front.disc.pads]
inner_radius = 95 mm
outer_radius = 135 mm
[rear.axle]
brake = drum
[rear.drum]
shoes = leading_trailing
diameter = 250 mm
cylinder_diameter = 20 mm
[rear.drum.lining]
pivot_radius = 100 mm
force_arm = 200 mm
heel = 20 deg
toe = 130 deg
[pedal]
ratio = 4
[booster]
booster = none
[master]
bore = 22 mm
[circuits]
split = II
[load.full]
mass = 400 kg
"""


def changed(*changes, text=VEHICLE):
    """The vehicle with lines changed. A change is `[section] name = value`, which takes the place
    of the line of that name or is added to the section; `[section] name` takes the line away."""
    lines = text.splitlines()
    for change in changes:
        section, _, line = change.partition(" ")
        name = line.partition("=")[0].strip()
        if section not in lines:
            lines.append(section)
        start = lines.index(section) + 1
        end = start
        while end < len(lines) and not lines[end].startswith("["):
            end += 1
        kept = [old for old in lines[start:end] if old.partition("=")[0].strip() != name]
        place = next(
            (i for i, old in enumerate(lines[start:end]) if old not in kept), len(kept)
        )
        lines[start:end] = kept[:place] + ([line] if "=" in line else []) + kept[place:]
    return "\n".join(lines) + "\n"


def without_heat(name):
    """A copy of an example whose rotors and drums have no mass: nothing hot can be drawn of it,
    which is what takes most of the time, and everything else is said."""
    folder = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", ROOT / "build")) / "tests"
    lines = (ROOT / "examples" / name).read_text().splitlines(keepends=True)
    kept = [line for line in lines if not line.startswith(("rotor_mass", "drum_mass"))]
    copy = folder / f"cold-{os.getpid()}-{name}"
    copy.write_text("".join(kept))
    atexit.register(copy.unlink, missing_ok=True)
    return str(copy)


def run(*words, given=None, folder=None):
    """What the command did: status, output and complaints, as bytes."""
    given = given.encode() if isinstance(given, str) else given
    return subprocess.run([PROGRAM, *words], input=given, capture_output=True, cwd=folder)


def check(given, *options):
    """What `check --json` says of the text of a vehicle file; it must be accepted."""
    done = run("check", "/dev/stdin", "--json", *options, given=given)
    assert done.returncode in (0, 1, 3), done.stderr.decode()
    return json.loads(done.stdout, parse_constant=refuse_constant)


@functools.cache
def _result_names():
    return ",".join(check(VEHICLE)["results"])


def results(given, *options):
    """What every result is, in SI, None where it cannot be given: by a sweep of one case, since
    `check` draws how sure it is, which takes most of its time. That both give the same is tested in
    tests/command/test_results.py."""
    one = ("--bare", "--axis", "stop.reaction_time=2.5s", "--out", _result_names())
    done = run("sweep", "/dev/stdin", *one, *options, given=given)
    assert done.returncode == 0, done.stderr.decode() or done.stdout.decode()[-300:]
    head, row = csv.reader(io.StringIO(done.stdout.decode()))
    names = [column.partition(" ")[0] for column in head]
    told = zip(names[1:], row[1:])  # the axis comes first
    return {name: float(cell) if cell else None for name, cell in told if name != "note"}


def refuse_constant(word):
    """JSON has no NaN and no Infinity."""
    raise AssertionError(f"{word} in JSON")


def alike(one, other, relative=1e-12):
    """Whether two pieces of JSON are the same but for rounding."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(
            alike(one[key], other[key], relative) for key in one
        )
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(alike, one, other))
    if isinstance(one, float) and isinstance(other, (int, float)):
        return math.isclose(one, other, rel_tol=relative, abs_tol=1e-15)
    return one == other


# The same with what it takes to meet every requirement that applies to it, and to be judged by it.
MEETS = changed(
    "[vehicle] rated_mass = 2100 kg",
    "[vehicle] country = DE",
    "[vehicle] use = private",
    "[vehicle] first_registered = 1999",
    "[vehicle] frame = truck",
    "[vehicle] top_speed = 150 km/h",
    "[front.axle] side_difference = 5 %",
    "[vehicle] tyres = road",
    "[vehicle] tyre_grip = 1.1 +- 0.03",
    "[front.axle] rated_mass = 1500 kg",
    "[rear.axle] rated_mass = 1500 kg",
    "[front.tyre] load_capacity = 900 kg",
    "[front.disc] pistons = 2 x 48 mm",
    "[front.disc.pads] mu = 0.4 +- 0.02",
    "[rear.drum.lining] mu = 0.35 +- 0.02",
    "[front.disc] rotor_mass = 12 kg",
    "[front.disc] rotor = vented",
    "[front.disc.pads] friction = (0 degC, 0.4) (800 degC, 0.36)",
    "[heat] fluid = DOT5.1",
    "[heat] cooling = 1",
    "[rear.drum] drum_mass = 8 kg",
    "[rear.drum] width = 45 mm",
    "[front.disc.pads] gap = 0.1 mm",
    "[rear.axle] side_difference = 5 %",
    "[rear.drum] cylinder_diameter = 22 mm",
    "[valve] kind = fixed",
    "[valve] knee = 40 bar",
    "[valve] slope = 0.3",
    "[pedal] travel = 250 mm",
    "[pedal] free_play = 1 mm",
    "[booster] booster = fitted",
    "[booster] gain = 6",
    "[booster] assist = 4 kN",
    "[booster] vacuum = 70 kPa",
    "[booster] vacuum_low = 50 kPa",
    "[master] bore = 25 mm",
    "[master] primary_stroke = 40 mm",
    "[master] secondary_stroke = 40 mm",
    "[circuits] split = X",
    "[parking] ratio = 40",
    "[parking] factor = 2",
    "[parking] radius = 125 mm",
    "[road] adhesion = 1",
    "[stop] dead_time = 0.05 s",
    "[stop] build_up = 0.2 s",
)
