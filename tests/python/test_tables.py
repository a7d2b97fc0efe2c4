# SPDX-License-Identifier: MIT
"""Functions of the model that work on tables: curves of friction, heat in a wall.

Every public function of the model is here, or it is said why not."""
import importlib
import math
import pathlib
import re
import sys

import numpy as np
import pytest

import libbrake
from libbrake import convection, friction, thermal
from libbrake.made import SUBJECTS

ROOT = pathlib.Path(__file__).resolve().parents[2]
HEADERS = ROOT / "libbrake" / "include" / "brake"
BINDINGS = ROOT / "bindings" / "python"
STEMS = {"mass": "load"}  # `libbrake.load` reads a file


# ---- nothing is left out in silence
# ----------------------------------------------------------------


def declared():
    """(module, function) of every header of the model."""
    for path in sorted((ROOT / "libbrake" / "model").glob("*.c")):
        header = HEADERS / f"{path.stem}.h"
        text = header.read_text() if header.exists() else ""
        text = re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL)
        module = {stem: name for name, stem in STEMS.items()}.get(path.stem, path.stem)
        for name in re.findall(r"^[a-z][\w ]*[ *]brake_(\w+)\(", text, re.MULTILINE):
            yield module, name


@pytest.mark.skipif(not HEADERS.exists(), reason="only in a checkout")
def test_every_function_of_the_model_is_reached_or_it_is_said_why_not():
    sys.path.insert(0, str(BINDINGS))
    left_out = importlib.import_module("generator.model").LEFT_OUT
    missing = set()
    for module, name in declared():
        short = name.removeprefix(f"{module}_")
        found = module in SUBJECTS and importlib.import_module(f"libbrake.{module}")
        if not (found and (hasattr(found, short) or hasattr(found, short + "_"))):
            missing.add(f"brake_{name}")
    assert len(list(declared())) > 110
    assert missing == set(left_out) and all(left_out.values())


# ---- curves
# ----------------------------------------------------------------------------------------


def test_a_curve_goes_through_its_points_and_is_flat_beyond():
    curve = friction.curve_build([300.0, 500.0, 700.0], [0.38, 0.40, 0.30])
    assert curve.points == 3 and curve.x[:3] == (300.0, 500.0, 700.0)
    at = friction.curve_at(curve, np.array([200.0, 300.0, 500.0, 700.0, 900.0]))
    assert list(at) == [0.38, 0.38, 0.40, 0.30, 0.30]


def test_a_curve_is_that_of_scipy_between_inner_points():
    """Fritsch and Butland's slopes, of SciPy's PchipInterpolator too; ends have rules of their
    own."""
    interpolate = pytest.importorskip("scipy.interpolate")
    x, y = [0.0, 1.0, 3.0, 4.0, 6.0], [0.30, 0.36, 0.40, 0.41, 0.50]
    curve = friction.curve_build(x, y)
    inner = np.linspace(1.0, 4.0, 31)
    assert friction.curve_at(curve, inner) == pytest.approx(
        interpolate.PchipInterpolator(x, y)(inner)
    )


def test_arrays_over_a_table_give_what_numbers_give_to_the_bit():
    with pytest.warns(libbrake.errors.Approximate):
        pad = friction.usual(0.38, 1.0)
    temperatures = np.linspace(280.0, 900.0, 50)
    many = friction.at(pad, temperatures, 12.0, 2e6)
    assert list(many) == [friction.at(pad, t, 12.0, 2e6) for t in temperatures]
    assert friction.at(pad, temperatures[:, None], [5.0, 12.0], 2e6).shape == (50, 2)


def test_what_is_no_curve_is_refused():
    with pytest.raises(libbrake.errors.Refused):
        friction.curve_build([1.0, 1.0], [0.3, 0.4])  # x does not rise
    with pytest.raises(libbrake.errors.Refused):
        friction.curve_build([1.0, 2.0], [0.3])
    with pytest.raises(TypeError):
        friction.curve_build(["a"], [0.3])
    with pytest.raises(ValueError, match="accepts 16"):
        friction.curve_at(friction.Curve(17, [0.0] * 17, [0.0] * 17, [0.0] * 17), 1.0)


# ---- heat
# ------------------------------------------------------------------------------------------

IRON = thermal.Material(2, 7200.0, (293.0, 893.0), (50.0, 40.0), (450.0, 600.0))
NONE = convection.Cooling(0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, convection.Vanes(*[0.0] * 5))
NO_LUMP = thermal.Lump(0.0, 0.0, NONE)


def wall(material=IRON, **changed):
    spec = thermal.ThermalSpec(material, 0.05, 0.012, 40, 5e-5, 0.0, 0.0, 1.0, 0.0, NONE, NONE,
                               (NO_LUMP,) * 7, 101325.0, 1e-4)  # fmt: skip
    return spec._replace(**changed)


def test_properties_are_on_the_straight_lines_of_the_table():
    found = thermal.material_at(IRON, np.array([293.0, 443.0, 893.0, 1200.0]))
    assert list(found.conductivity) == [50.0, 47.5, 40.0, 40.0]
    assert list(found.heat_capacity) == [450.0, 487.5, 600.0, 600.0]
    assert thermal.material_at(IRON, 443.0).conductivity == 47.5


def test_a_brake_holds_in_c_what_python_gave():
    cooling = convection.Cooling(convection.CoolingLaw.COOLING_FIXED, 0.02, 0.8, 5.0, 30.0, 0.0,
                                 0.3, 0.4, convection.Vanes(0.1, 0.15, 0.002, 0.003, 0.01))  # fmt: skip
    lumps = tuple(thermal.Lump(100.0 + i, 1.0 + i, cooling) for i in range(7))
    brake = thermal.build(wall(part=lumps, share=0.95, front=cooling))
    assert brake.nodes == 47 and sum(brake.width) == pytest.approx(0.012)
    assert sum(brake.mass) == pytest.approx(7200.0 * 0.05 * 0.012)
    assert brake.capacity == tuple(100.0 + i for i in range(7))
    assert brake.link == tuple(1.0 + i for i in range(7))
    assert brake.spec.tolerance == 1e-4 and brake.spec.front == cooling


def test_a_thick_wall_under_constant_flux_warms_with_the_root_of_time():
    """Carslaw and Jaeger, sec. 2.9: 2 q sqrt(t / (pi k rho c)) at the face of a half space."""
    even = thermal.Material(1, 7200.0, (293.0,), (48.0,), (480.0,))
    brake = thermal.build(wall(even, thickness=0.08, cells=60))
    state = thermal.start(brake, 293.0)
    for _ in range(4):
        state = thermal.advance(
            brake, thermal.ThermalDrive(2e4, 2e4, 20.0, 20.0, 293.0), 1.0, state
        )
    expected = 2.0 * 2e4 / 0.05 * math.sqrt(4.0 / (math.pi * 48.0 * 7200.0 * 480.0))
    assert thermal.face(brake, state) - 293.0 == pytest.approx(expected, rel=1e-3)
    assert thermal.stored(brake, state) == pytest.approx(8e4, rel=1e-9)
    assert state.time == 4.0 and state.supplied == pytest.approx(8e4)
    assert thermal.residual(brake, state) < 1e-9
    assert thermal.cell(brake, state, 59) < thermal.mean(brake, state) < thermal.face(brake, state)


def test_heat_that_cannot_be_is_refused():
    brake = thermal.build(wall())
    state = thermal.start(brake, 293.0)
    with pytest.raises(libbrake.errors.Refused):
        thermal.build(wall(thickness=-1.0))
    with pytest.raises(libbrake.errors.Refused):
        thermal.start(brake, math.nan)
    with pytest.raises(libbrake.errors.Refused):
        thermal.advance(brake, thermal.ThermalDrive(-1.0, 0.0, 0.0, 0.0, 293.0), 1.0, state)
    with pytest.raises(ValueError, match="accepts 7"):
        thermal.build(wall(part=(NO_LUMP,) * 5))


# ---- counts that do not fit the tables
# -------------------------------------------------------------


@pytest.mark.parametrize("points", [-1, 0, 17, 10**6])
def test_a_curve_of_more_points_than_it_has_room_for_says_nothing(points):
    curve = friction.curve_build([300.0, 500.0], [0.38, 0.40])._replace(points=points)
    assert math.isnan(friction.curve_at(curve, 400.0))


@pytest.mark.parametrize("points", [-1, 0, 13, 10**6])
def test_a_material_of_more_points_than_it_has_room_for_says_nothing(points):
    assert math.isnan(thermal.material_at(IRON._replace(points=points), 400.0).conductivity)


@pytest.mark.parametrize(
    "nodes, cells", [(0, 40), (10**6, 40), (10**6, 10**6 - 7), (47, 39), (7, 0)]
)
def test_a_brake_whose_counts_do_not_fit_says_nothing(nodes, cells):
    brake = thermal.build(wall())
    state = thermal.start(brake, 293.0)
    wrong = brake._replace(nodes=nodes, spec=brake.spec._replace(cells=cells))
    for number in (thermal.stored(wrong, state), thermal.mean(wrong, state),
                   thermal.face(wrong, state), thermal.cell(wrong, state, 0),
                   thermal.part(wrong, state, 0), thermal.residual(wrong, state),
                   thermal.face_under(wrong, state, 1e3, 1.0, 293.0)):  # fmt: skip
        assert math.isnan(number)
    with pytest.raises(libbrake.errors.Refused):
        thermal.start(wrong, 293.0)
    with pytest.raises(libbrake.errors.Refused):
        thermal.advance(wrong, thermal.ThermalDrive(0.0, 0.0, 0.0, 0.0, 293.0), 1.0, state)
    assert math.isnan(thermal.part(brake, state, 7)) and math.isnan(thermal.part(brake, state, -1))
