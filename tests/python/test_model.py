# SPDX-License-Identifier: MIT
"""The model from Python: published values, equality with C, arrays that agree with numbers."""
import ctypes
import importlib
import inspect
import json
import math
import os
import pathlib
import struct

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import libbrake
from libbrake import balance, disc, drum, fit, heat, mass, pedal, stop, tyre
from libbrake.made import SUBJECTS

ROOT = pathlib.Path(__file__).resolve().parents[2]
CASES = {
    c["id"]: c for c in json.loads((ROOT / "reference/check-values.json").read_text())["cases"]
}
SI = {"mm": 1e-3, "m": 1.0, "in": 0.0254, "deg": math.pi / 180, "MPa": 1e6, "N": 1.0, "-": 1.0,
      "N*m": 1.0, "mm2": 1e-6, "%": 0.01, "kPa": 1e3, "s": 1.0, "km/h": 1 / 3.6, "m/s2": 1.0,
      "m/s": 1.0, "psi": 4.4482216152605 / 0.0254**2, "lbf": 4.4482216152605, "K": 1.0,
      "lbf*in": 4.4482216152605 * 0.0254, "W/(m*K)": 1.0, "kg/m3": 1.0, "J/(kg*K)": 1.0,
      "MW/m2": 1e6, "m2/s": 1.0, "W*s^0.5/(m2*K)": 1.0, "g0": 1.0}  # fmt: skip
SEVEN_FIGURES = 1e-6


class Published:
    """Givens of a published case in SI, and its rows to hold results against."""

    def __init__(self, name):
        self.case = CASES[name]

    def __getattr__(self, key):
        given_ = self.case["givens"][key]
        return given_["value"] * SI[given_["unit"]]

    def check(self, key, value):
        row = next(row for row in self.case["rows"] if row["key"] == key)
        assert value / SI[row["unit"]] == pytest.approx(row["full"], rel=SEVEN_FIGURES), key


# ---- published values: the rows that the C tests read too
# ------------------------------------------


def test_sector_pad():
    """CV-01: Shigley, Example 16-3."""
    p = Published("CV-01")
    wear, even = disc.Contact.UNIFORM_WEAR, disc.Contact.UNIFORM_PRESSURE
    p.check("re_wear", disc.radius_sector(p.r_i, p.r_o, wear))
    p.check("re_press", disc.radius_sector(p.r_i, p.r_o, even))
    p.check("rbar", disc.sector_force_radius(p.r_i, p.r_o, p.sector_angle, wear))


def test_circular_pad():
    """CV-31: Shigley, Example 16-4."""
    p = Published("CV-31")
    wear = disc.Contact.UNIFORM_WEAR
    p.check("re", disc.radius_circle(p.pad_radius, p.centre_radius, wear))
    p.check("F", p.p_max / disc.circle_pressure(1.0, p.pad_radius, p.centre_radius, wear))


def test_fixed_and_floating_caliper():
    """CV-04: Limpert, ch. 2: the pistons of one side count."""
    p = Published("CV-04")
    area = pedal.piston_area(p.a_n_pistons, p.a_piston_diameter)
    one = disc.Disc(area, p.r_e, p.mu, 1.0, 0.0)
    p.check("A1", area)
    p.check("clamp_float", disc.clamp(one, p.p))
    p.check("T_float", disc.torque(one, p.p))
    lossy = one._replace(threshold=p.c_p_pushout, efficiency=p.c_efficiency)
    p.check("T_loss", disc.torque(lossy, p.p))


def test_booster():
    """CV-11."""
    p = Published("CV-11")
    area = pedal.piston_area(1.0, p.diaphragm_diameter)
    assist = pedal.booster_assist(p.vacuum, area, p.efficiency)
    p.check("Fmax", assist)
    p.check("knee_in", pedal.booster_knee(p.boost_ratio, assist))
    p.check("o500", pedal.booster_output(p.boost_ratio, assist, p.a_input))
    p.check("o1000", pedal.booster_output(p.boost_ratio, assist, p.b_input))


def test_long_shoes():
    """CV-06: Shigley, Example 16-2."""
    p = Published("CV-06")
    pivot = math.hypot(p.pivot_offset_1, p.pivot_offset_2)
    shoe = drum.Shoe(p.drum_diameter / 2, pivot, p.c, p.theta1, p.theta2)
    normal, friction = drum.shoe_moments(shoe)
    p.check("MN", normal * p.p_a * p.face_width)
    p.check("Mf", friction * p.f * p.p_a * p.face_width)


def test_first_lock():
    """CV-14: Wong, ch. 3."""
    p = Published("CV-14")
    body = mass.Body(1.0, p.cg_behind_front, p.cg_height)
    for key, axle, mu, rolling in (("zf8", 0, p.a_mu, p.rolling_resistance),
                                   ("zr8", 1, p.a_mu, p.rolling_resistance),
                                   ("zf2", 0, p.b_mu, p.rolling_resistance),
                                   ("zr8_0", 1, p.a_mu, 0.0)):  # fmt: skip
        found = balance.lock_ratio(body, p.wheelbase, p.front_share, rolling, mu, axle)
        p.check(key, found)


def test_reaction_and_build_up():
    """CV-18: Mitschke; Bosch Automotive Handbook."""
    p = Published("CV-18")
    p.check("S", stop.distance(p.v0, p.deceleration, p.delay, p.rise_time))
    p.check("T", stop.time(p.v0, p.deceleration, p.delay, p.rise_time))


def test_slab():
    """CV-26: Carslaw and Jaeger, sec. 3.8."""
    p = Published("CV-26")
    iron = heat.Solid(p.k, p.rho, p.c)
    slab = heat.Slab(iron, p.half_thickness)
    p.check("al", heat.diffusivity(iron))
    p.check("Tc_surf", heat.slab_rise(slab, p.a_q, p.a_time, 0.0))
    p.check("Tc_back", heat.slab_rise(slab, p.a_q, p.a_time, p.half_thickness))
    p.check("Tend", heat.slab_falling_rise(slab, p.b_q0, p.b_stop_time, p.b_stop_time))


# ---- texts, points, refusals
# -----------------------------------------------------------------------


def test_a_marking_is_read():
    """ISO 4000-1: 305 mm wide, 70 % high, on a rim of code 17."""
    found = tyre.marking_read("LT305/70R17 121/118Q")
    assert (found.section_width, found.aspect) == (0.305, 0.70)
    assert tyre.speed_symbol("Q") == pytest.approx(160 / 3.6)


def test_a_nominal_marking_warns():
    with pytest.warns(libbrake.errors.Approximate, match="nominal"):
        tyre.marking_read("35x12.50R17LT")


@pytest.mark.parametrize("text", ["", "hello", "LT305/70R17 " * 9])
def test_a_wrong_marking_is_refused(text):
    with pytest.raises(libbrake.errors.RefusedMarking):
        tyre.marking_read(text)


def test_a_text_with_nul_is_refused():
    with pytest.raises(ValueError, match="NUL"):
        tyre.marking_read("LT305/70R17\0")


def test_a_line_through_points():
    """y = 2 x + 1."""
    assert fit.line([(0.0, 1.0), (1.0, 3.0), (2.0, 5.0)]) == pytest.approx((2.0, 1.0))
    with pytest.raises(libbrake.errors.RefusedFit):
        fit.line([(1.0, 1.0)])
    with pytest.raises(libbrake.errors.RefusedFit):
        fit.line([])


def test_a_shoe_that_locks_by_itself_is_refused_as_a_number_and_nan_in_an_array():
    shoe = drum.Shoe(0.14, 0.113, 0.222, 0.38, 2.37)
    with pytest.raises(libbrake.errors.RefusedSelfLock):
        drum.shoe_factor(shoe, 3.0, drum.Lead.LEADING)
    found = drum.shoe_factor(shoe, np.array([0.3, 3.0]), drum.Lead.LEADING)
    assert found[0] > 0 and math.isnan(found[1])


@pytest.mark.parametrize("wrong", [0.5, math.nan, math.inf, 2.0**40, np.array([0.0, 0.5])])
def test_a_choice_that_is_no_whole_number_is_refused(wrong):
    with pytest.raises(ValueError, match="whole number"):
        disc.radius_sector(0.1, 0.15, wrong)


@pytest.mark.parametrize("wrong", [None, "0.1", 1j, [0.1, None], {}, np.array(["a"]), object()])
def test_what_is_no_number_is_a_type_error(wrong):
    with pytest.raises(TypeError):
        stop.energy(wrong, 1.0)


def test_a_wrong_number_of_arguments_is_a_type_error():
    with pytest.raises(TypeError):
        stop.energy(1.0)
    with pytest.raises(TypeError, match="got 3 numbers; accepts a tuple of 6: disc.area"):
        disc.torque((1.0, 2.0), 3.0)


# ---- every function
# --------------------------------------------------------------------------------


def functions():
    """Every function of the model whose arguments are plain numbers: (module.name, function)."""
    for subject in SUBJECTS:
        module = importlib.import_module(f"libbrake.{subject}")
        for name, function in vars(module).items():
            if inspect.isfunction(function) and not name.startswith("_"):
                yield f"{subject}.{name}", function


FUNCTIONS = dict(functions())
# Of the others texts, points and structs are arguments, or a table is what comes out.
PLAIN = {
    name: function
    for name, function in FUNCTIONS.items()
    if "broadcast" in function.__doc__ and not any(f"{word}: {kind}" in function.__doc__
               for word in inspect.signature(function).parameters
               for kind in ("str", "pairs", "Disc", "Drum", "Shoe:", "Pedal", "Fluid:", "Valve",
                            "Body", "Balance", "Solid", "Slab", "Air", "Vanes", "Cooling:",
                            "GainLaw", "Curve:", "Friction:", "Material:", "Thermal:"))
}  # fmt: skip


def bits(value):
    """Bits of a number; every NaN is one."""
    return "nan" if math.isnan(value) else struct.pack("d", value)


def each(found):
    return found if isinstance(found, tuple) else (found,)


@pytest.mark.parametrize("name", sorted(PLAIN))
@settings(max_examples=15, deadline=None)
@given(data=st.data())
def test_arrays_give_what_numbers_give_to_the_bit(name, data):
    function = PLAIN[name]
    whole = "Contact", "Shoes:", "Lead:", "ParkingOn", "Split", "Axle", "FluidKind", "BandEnd"
    count = len(inspect.signature(function).parameters)
    doc = function.__doc__
    columns = []
    for word in inspect.signature(function).parameters:
        choice = any(f"{word}: {kind}" in doc for kind in whole) or f"{word}: load index" in doc
        choice = choice or word in ("circuit", "wet", "radial")
        number = st.integers(0, 1) if choice else st.floats(0.0, 100.0)
        columns.append(data.draw(st.tuples(number, number, number)))
    found = each(function(*(np.array(column, dtype=float) for column in columns)))
    for at in range(3):
        try:
            one = each(function(*(column[at] for column in columns)))
        except libbrake.errors.Refused:
            one = (math.nan,) * len(found)
        assert [bits(f[at]) for f in found] == [bits(o) for o in one]
    assert count > 0


@pytest.mark.parametrize("name", sorted(FUNCTIONS))
def test_every_function_says_arguments_result_and_source(name):
    doc = FUNCTIONS[name].__doc__
    assert "Source: " in doc and "returns" in doc
    for parameter in inspect.signature(FUNCTIONS[name]).parameters:
        assert f"{parameter}: " in doc


LIBRARY = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", ROOT / "build")) / "libbrake.so"
IN_C = {
    "stop.distance": ("brake_stop_distance", 4), "stop.time": ("brake_stop_time", 4),
    "stop.slow_distance": ("brake_slow_distance", 6), "stop.mfdd": ("brake_mfdd", 3),
    "pedal.piston_area": ("brake_piston_area", 2),
    "pedal.booster_output": ("brake_booster_output", 3),
    "pedal.valve_knee_sensed": ("brake_valve_knee_sensed", 5),
    "parking.torque": ("brake_parking_torque", 6), "parking.grade": ("brake_parking_grade", 3),
    "mass.cg_height_tilt": ("brake_cg_height_tilt", 5), "tow.deceleration":
    ("brake_tow_deceleration", 5), "heat.repeated_rise": ("brake_repeated_rise", 4),
    "heat.thermal_stress": ("brake_thermal_stress", 4), "tyre.diameter": ("brake_tyre_diameter", 3),
    "tyre.wheel_inertia_swing": ("brake_wheel_inertia_swing", 4),
    "balance.steering_pull": ("brake_steering_pull", 3),
    "convection.mixed": ("brake_convection_mixed", 2), "drum.link": ("brake_drum_link", 4),
}  # fmt: skip


@pytest.mark.skipif(not LIBRARY.exists(), reason="only beside the built C library")
@pytest.mark.parametrize("name", sorted(IN_C))
@settings(max_examples=50, deadline=None)
@given(data=st.data())
def test_python_gives_what_the_c_library_gives_to_the_bit(name, data):
    symbol, count = IN_C[name]
    function = getattr(ctypes.CDLL(str(LIBRARY)), symbol)
    function.restype, function.argtypes = ctypes.c_double, [ctypes.c_double] * count
    values = [data.draw(st.floats(allow_nan=True)) for _ in range(count)]
    assert bits(FUNCTIONS[name](*values)) == bits(function(*values))
