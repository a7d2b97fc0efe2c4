# SPDX-License-Identifier: MIT
"""Units against GNU units, a general-purpose program; what the catalogue must hold; and numbers on
their way through the file."""
import collections
import math
import os
import re
import subprocess

import pytest
from hypothesis import HealthCheck, assume, given, settings, strategies as st

from file import plain

BUILD = os.environ.get("LIBBRAKE_BUILD", str(plain.ROOT / "build"))
DRIVER = os.path.join(BUILD, "tests", "file-driver")

Unit = collections.namedtuple("Unit", "name dimension factor offset")
Quantity = collections.namedtuple(
    "Quantity",
    "path kind role need dimension second unit second_unit low high fallback typical"
    " meaning measure why choices",
)
Result = collections.namedtuple("Result", "path dimension unit meaning")
REAL, CHOICE, TEXT, PISTONS, CURVE = range(5)  # enum brake_kind
USED, RAW, WORKED, PART_OF = range(4)  # enum brake_role


def tables():
    """The rows that the driver prints, by table."""
    lines = subprocess.run([DRIVER], check=True, capture_output=True, text=True).stdout
    rows = collections.defaultdict(list)
    for line in lines.splitlines():
        table, *fields = line.split("\t")
        rows[table].append(fields)
    return rows


def quantity(fields):
    numbers, texts = map(int, fields[1:6]), fields[6:8]
    choices = fields[15].split(" ") if len(fields) > 15 else []
    return Quantity(
        fields[0], *numbers, *texts, *map(float, fields[8:12]), *fields[12:15], choices
    )


TABLES = tables()
UNITS = [Unit(n, int(d), float(f), float(o)) for n, d, f, o in TABLES["unit"]]
DIMENSIONS = {int(d): (si, us) for d, si, us in TABLES["dimension"]}
QUANTITIES = [quantity(fields) for fields in TABLES["quantity"]]
RESULTS = [Result(p, int(d), u, m) for p, d, u, m in TABLES["result"]]


def path_of(row):
    return row.path


def of_dimension(dimension):
    return [unit for unit in UNITS if unit.dimension == dimension]


# ---- units ---------------------------------------------------------------------------------------

# What GNU units calls otherwise: there h is Planck's constant, and a temperature a function.
OTHER_NAMES = {
    "": "1",
    "%": "percent",
    "mi": "mile",
    "rad": "radian",
    "h": "hour",
    "km/h": "km/hour",
    "g0": "gravity",
    "hp": "550 ft lbf/s",
    "degF rise": "degF",
    "Btu/(lb*degF)": "btu/(lb degF)",
}


def gnu_units(have, want):
    """How many of one unit are in another; fails when they measure different things."""
    done = subprocess.run(
        ["units", "--output-format", "%.17g", "--terse", have, want], capture_output=True, text=True
    )
    assert done.returncode == 0, done.stdout
    return float(done.stdout)


def law(unit, si):
    """Factor and offset by GNU units."""
    if unit.name in ("degC", "degF"):
        zero, hundred = (gnu_units(f"temp{unit.name[-1]}({n})", si) for n in (0, 100))
        return (hundred - zero) / 100, zero
    return gnu_units(OTHER_NAMES.get(unit.name, unit.name), OTHER_NAMES.get(si, si)), 0.0


# Given to seven digits in NIST Special Publication 811, appendix B.8 (3.386 389 E+03).
DIGITS = {"inHg": 5e-7 / 3.386389}


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.name or "none")
def test_unit_against_gnu_units(unit):
    si = DIMENSIONS[unit.dimension][0]
    factor, offset = law(unit, si)
    assert unit.factor == pytest.approx(factor, rel=DIGITS.get(unit.name, 1e-12))
    assert unit.offset == pytest.approx(offset, rel=1e-12, abs=0)


def test_every_dimension_has_its_units_in_one_run_with_the_si_unit_first():
    order = [unit.dimension for unit in UNITS]
    assert order == sorted(order)
    for dimension, (si, us) in DIMENSIONS.items():
        units = of_dimension(dimension)
        assert units[0] == Unit(si, dimension, 1.0, 0.0)
        assert us in [unit.name for unit in units]
        assert len({unit.name for unit in units}) == len(units)


# ---- the catalogue -------------------------------------------------------------------------------


@pytest.mark.parametrize("row", QUANTITIES, ids=path_of)
def test_row_of_the_catalogue(row):
    assert row.meaning.endswith(".") and row.meaning[0].isupper()
    assert row.measure.endswith(".")
    assert len(row.path) <= 63
    assert 0.0 <= row.typical <= 1.0
    if row.kind == CHOICE:
        assert len(row.choices) == len(set(row.choices)) >= 2
        assert math.isnan(row.fallback) or row.choices[int(row.fallback)]
    if row.kind in (REAL, PISTONS, CURVE):
        assert row.unit in [unit.name for unit in of_dimension(row.dimension)]
        assert row.low < row.high
        assert math.isnan(row.fallback) or row.low <= row.fallback <= row.high
    if row.kind == CURVE:
        assert row.second_unit in [unit.name for unit in of_dimension(row.second)]
    if not math.isnan(row.fallback):
        assert row.why, "a default without its reason"


def test_paths_are_unique():
    paths = [row.path for row in QUANTITIES + RESULTS]
    assert len(paths) == len(set(paths))


@pytest.mark.parametrize("row", RESULTS, ids=path_of)
def test_row_of_the_results(row):
    assert row.meaning.endswith(".")
    assert len(row.path) <= 63
    assert row.unit in [unit.name for unit in of_dimension(row.dimension)]


def explained(path):
    done = plain.run("explain", path)
    assert (done.returncode, done.stderr) == (0, b"")
    return " ".join(done.stdout.decode().split())


@pytest.mark.parametrize("row", [r for r in QUANTITIES if "NAME" not in r.path], ids=path_of)
def test_explain_quantity(row):
    text = explained(row.path)
    assert text.startswith(row.path)
    assert row.meaning in text and row.measure in text and row.why in text
    assert all(word in text for word in row.choices)


@pytest.mark.parametrize("row", RESULTS, ids=path_of)
def test_explain_result(row):
    text = explained(row.path)
    assert text.startswith(row.path)
    assert row.meaning in text


def test_explain_without_path_lists_everything():
    text = plain.run("explain").stdout.decode()
    for row in QUANTITIES:
        assert row.path.rpartition(".")[2] in text
        assert f"[{row.path.rpartition('.')[0]}]" in text
    for row in RESULTS:
        assert row.path.removeprefix("empty.").removeprefix("full.") in text


# ---- the file that `new` writes ------------------------------------------------------------------


def offered(text):
    """Paths of the lines of a file, comments included."""
    section = ""
    for line in text.splitlines():
        if found := re.fullmatch(r"(?:; )?\[([a-zA-Z_.]+)\]", line):
            section = found[1]
        if found := re.fullmatch(r"(?:; )?([a-z_0-9]+) =.*", line):
            yield f"{section}.{found[1]}"


def test_new_offers_every_line_of_the_catalogue_once():
    text = plain.run("new").stdout.decode()
    paths = [row.path for row in QUANTITIES if row.role != PART_OF]
    assert list(offered(text)) == [path.replace("NAME", "winch") for path in paths]


def test_new_is_refused_only_for_what_is_missing():
    done = plain.run("check", "/dev/stdin", given=plain.run("new").stdout)
    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr.startswith(b"/dev/stdin: vehicle.mass: is missing")


def test_the_defaults_that_new_shows_are_taken_as_lines():
    """Given the file of `new`, when the ; before every default is taken away, then each is read,
    and the file is refused only for what is still missing."""
    defaults = {row.path for row in QUANTITIES if not math.isnan(row.fallback)}
    lines, section, taken = [], "", set()
    for line in plain.run("new").stdout.decode().splitlines():
        section = line.strip("[]") if line.startswith("[") else section
        path = f"{section}.{line.removeprefix('; ').partition(' =')[0]}"
        if path in defaults:
            line = line.removeprefix("; ")
            taken.add(path)
        lines.append(line)
    assert taken == defaults
    done = plain.run("check", "/dev/stdin", given="\n".join(lines))
    assert done.stderr.startswith(b"/dev/stdin: vehicle.mass: is missing")


@pytest.mark.parametrize("example", plain.EXAMPLES, ids=lambda path: path.stem)
def test_new_writes_an_example_again_without_loss(example):
    again = plain.run("new", str(example)).stdout
    assert plain.check(again) == plain.check(example.read_bytes())
    assert all(len(line) <= 4000 for line in again.splitlines())


def test_new_keeps_what_is_not_usual():
    """Given unequal pistons with their own tolerances, a tolerance of nothing, one left to the
    catalogue, pairs from a catalogue and US units, then nothing of it is lost."""
    pistons = "1 x 1.75 in +- 0.002 in + 1 x 38 mm +- 0.03 mm + 1 x 30 mm"
    text = plain.changed(
        f"[front.disc] pistons = {pistons}, measured",
        "[vehicle] mass = 3527.3963 lb +- 0 lb, measured",
        "[vehicle] wheelbase = 98.4 in",
        "[circuits] pumped = (300 psi, 4.1 mL) (1200 psi, 9.7 mL), catalogue",
    )
    again = plain.run("new", "/dev/stdin", given=text).stdout
    assert plain.alike(plain.check(again), plain.check(text))


# ---- numbers on their way through the file -------------------------------------------------------

REALS = [row for row in QUANTITIES if row.kind == REAL and "NAME" not in row.path]


def bound(value):
    """A bound as the messages show it."""
    return float(f"{value:.6g}")


@pytest.mark.parametrize("row", REALS, ids=path_of)
def test_the_bounds_that_a_message_names_are_accepted(row):
    """Read alone, a file with the bound is refused for other lines only. Six digits are shown: the
    bound itself is tried, and where those digits lie outside, the last digit farther in."""
    unit = next(u for u in of_dimension(row.dimension) if u.name == row.unit)
    section, _, name = row.path.rpartition(".")
    for edge, inward in ((row.low, 1), (row.high, -1)):
        number = (edge - unit.offset) / unit.factor
        shown = bound(number)
        if (shown * unit.factor - edge) * inward < -1e-9 * abs(edge):
            shown = bound(number + inward * 1e-5 * abs(number))
        text = f"[{section}]\n{name} = {shown!r} {row.unit}\n"
        complaint = plain.run("check", "/dev/stdin", given=text).stderr.decode()
        assert not complaint.startswith(f"/dev/stdin:2: {row.path}: got"), complaint


# Lines that can be set in the plain vehicle without touching another.
FREE = [
    row
    for row in REALS
    if row.path
    in """vehicle.top_speed vehicle.rolling_resistance lift.suspension front.axle.scrub_radius
    front.disc.efficiency front.disc.threshold front.disc.compliance front.disc.rotor_mass
    front.disc.pads.gap rear.drum.drum_mass pedal.free_play master.take_up circuits.air_volume
    circuits.hose_volume parking.torque parking.pull trailer.mass trailer.braking_ratio stop.speed
    stop.dead_time driver.pedal_force driver.target load.full.height front.tyre.wheel_inertia
    vehicle.first_registered rear.drum.lining.toe""".split()
]


@settings(
    max_examples=150,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=list(HealthCheck),
)
@given(st.sampled_from(FREE), st.floats(0.01, 0.99), st.data())
def test_a_number_comes_through_in_any_unit(row, share, data):
    """value in SI = factor x number + offset, whatever the unit; follows from the definition."""
    unit = data.draw(st.sampled_from(of_dimension(row.dimension)))
    value = row.low + share * (row.high - row.low)
    assume(row.path != "rear.drum.lining.toe" or 1.5 < value < 2.5)  # rad; a lining that can be
    number = (value - unit.offset) / unit.factor
    line = f"{row.path}={number!r} {unit.name} +- 0 {unit.name}"
    report = plain.check(plain.VEHICLE, "--set", line)
    said = report["vehicle"][row.path]
    assert said["value"] == pytest.approx(value, rel=1e-12, abs=1e-300)
    assert said["unit"] == DIMENSIONS[row.dimension][0]
    assert said["tolerance"] == 0
