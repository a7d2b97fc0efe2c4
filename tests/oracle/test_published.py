# SPDX-License-Identifier: MIT
"""The oracle itself against published examples (reference/check-values.json)."""
import json
import math
import pathlib

import pytest

from oracle import lines, model

REFERENCE = pathlib.Path(__file__).parents[2] / "reference" / "check-values.json"
CASES = {case["id"]: case for case in json.loads(REFERENCE.read_text(encoding="utf-8"))["cases"]}
SEVEN_FIGURES = 1e-6
SI = {"mm": 1e-3, "m": 1.0, "ft": 0.3048, "deg": math.pi / 180, "kPa": 1e3, "MPa": 1e6, "N": 1.0,
      "-": 1.0, "kg": 1.0, "mm3": 1e-9, "%": 0.01, "m/s2": 1.0, "N*m": 1.0, "ft/s2": 0.3048,
      "s": 1.0, "km/h": 1 / 3.6, "mph": 0.44704, "g0": 1.0}  # fmt: skip


def given(name):
    """Givens of a case in SI."""
    return {
        key: entry["value"] * SI.get(entry["unit"], math.nan)
        for key, entry in CASES[name]["givens"].items()
    }


def expect(name, **values):
    rows = {row["key"]: row for row in CASES[name]["rows"]}
    for key, value in values.items():
        row = rows[key]
        assert value / SI[row["unit"]] == pytest.approx(row["full"], rel=SEVEN_FIGURES), key


def car(**lines_of):
    """A plain vehicle without losses, with some lines as given."""
    raw = {
        "vehicle.mass": 1500.0,
        "vehicle.front_share": 0.5,
        "vehicle.cg_height": 0.5,
        "vehicle.wheelbase": 2.5,
        "vehicle.rolling_resistance": 0.0,
        "vehicle.tyre_grip": 1.0,
        "front.axle.brake": "disc",
        "rear.axle.brake": "disc",
        "front.tyre.rolling_radius": 0.3,
        "front.tyre.wheel_inertia": 0.0,
        "pedal.ratio": 4.0,
        "pedal.efficiency": 1.0,
        "pedal.free_play": 0.0,
        "booster.booster": "none",
        "master.bore": 0.022,
        "master.efficiency": 1.0,
        "master.take_up": 0.0,
        "circuits.split": "II",
    }
    for axle in ("front", "rear"):
        raw[f"{axle}.disc.mounting"] = "floating"
        raw[f"{axle}.disc.pistons"] = [(1, 0.05)]
        raw[f"{axle}.disc.effective_radius"] = 0.1
        raw[f"{axle}.disc.efficiency"] = 1.0
        raw[f"{axle}.disc.threshold"] = 0.0
    raw.update({path.replace("__", "."): value for path, value in lines_of.items()})
    return model.Car(lines.complete(raw))


def test_long_shoes():
    """CV-06: Shigley, Example 16-2; its pressure is at 90 degrees, and so p_max here."""
    g = given("CV-06")
    pivot = math.hypot(g["pivot_offset_1"], g["pivot_offset_2"])
    radius, arm = g["drum_diameter"] / 2, g["c"]
    shape = radius, pivot, arm, g["theta1"], g["theta2"]
    leading, trailing = model.shoe_factors(g["f"], *shape)
    # Torque and moment of the leading shoe by its lining's pressure.
    torque = g["f"] * g["p_a"] * g["face_width"] * radius**2
    torque *= math.cos(g["theta1"]) - math.cos(g["theta2"])
    force = torque / (leading * radius)
    shoes = model.brake_factor("leading_trailing", g["f"], radius, shape[1:], None)
    total = shoes * force * radius
    expect("CV-06", a=pivot, F=force, T_lead=torque, T_trail=trailing * force * radius, T=total)


def test_hydraulics():
    """CV-10 (c) and (d)."""
    g = given("CV-10")
    drums = {
        "rear.axle.brake": "drum",
        "rear.drum.shoes": "leading_trailing",
        "rear.drum.diameter": 0.25,
        "rear.drum.cylinder_diameter": g["d_wheel_cylinder_diameter"],
        "rear.drum.brake_factor": 2.0,
        "rear.drum.piston_travel": g["d_wheel_cylinder_travel"],
    }
    pistons = [(1, g["c_piston_diameter"])]
    one = car(
        pedal__ratio=g["c_pedal_ratio"],
        master__bore=g["c_master_bore"],
        front__disc__pistons=pistons,
        # A floating caliper's piston moves for both pads.
        front__disc__pads__gap=g["d_caliper_piston_travel"] / 2,
        **drums,
    )
    pressure = one.free_pressure(g["c_pedal_force"])
    travel = one.pad_travel(0.0)
    stroke = travel / g["c_pedal_ratio"]
    expect(
        "CV-10",
        p_mc=pressure,
        F54=pressure * model.piston_area(pistons),
        Vol=stroke * one.master_area,
        stroke=stroke,
        ped=travel,
    )


def test_booster():
    """CV-11."""
    g = given("CV-11")
    one = car(
        pedal__ratio=1.0,
        booster__booster="fitted",
        booster__gain=g["boost_ratio"],
        booster__vacuum=g["vacuum"],
        booster__diaphragm_diameter=g["diaphragm_diameter"],
        booster__efficiency=g["efficiency"],
    )

    def out(force):
        return one.free_pressure(force) * one.master_area

    knee = one.knee_force()
    expect(
        "CV-11",
        Fmax=one.assist,
        knee_in=knee,
        knee_out=out(knee),
        o500=out(g["a_input"]),
        o1000=out(g["b_input"]),
    )
    assert one.force_for(one.free_pressure(g["b_input"])) == pytest.approx(g["b_input"])


def test_one_axle_or_all():
    """CV-12: Bevan, chapter 8, Example 6."""
    g = given("CV-12")
    speed = CASES["CV-12"]["givens"]["speed"]["value"]
    speed *= CASES["CV-12"]["givens"]["speed_factor"]["value"] * SI["ft"]
    one = car(
        vehicle__wheelbase=g["wheelbase"],
        vehicle__cg_height=g["cg_height"],
        vehicle__front_share=g["cg_ahead_of_rear"] / g["wheelbase"],
    )
    case = one.cases["empty"]
    found = {}
    for end, mu in (("1", g["a_mu"]), ("6", g["b_mu"])):
        for key, motion in (
            ("S_rear", case.motion("first_circuit")),
            ("S_front", case.motion("second_circuit")),
        ):
            z = motion.lock(mu)[1] / model.G
            found[key + end] = speed**2 / (2 * z * g["g"])
        both = case.motion().lock(mu, locked_drive=True)[1] / model.G
        found["S_all" + end] = speed**2 / (2 * both * g["g"])
        front = case.front_load(mu * model.G) / (case.body.mass * model.G)
        found["ratio" + end] = front / (1 - front)
    expect("CV-12", Wf6=front, Wr6=1 - front, **found)


def test_first_lock():
    """CV-14: Wong, chapter 3, with and without rolling resistance."""
    g = given("CV-14")

    def lock(rolling, mu):
        one = car(
            vehicle__wheelbase=g["wheelbase"],
            vehicle__cg_height=g["cg_height"],
            vehicle__front_share=1 - g["cg_behind_front"] / g["wheelbase"],
            vehicle__rolling_resistance=rolling,
            front__disc__pads__mu=g["front_share"],
            rear__disc__pads__mu=1 - g["front_share"],
        )
        motion = one.cases["empty"].motion()
        each = []
        for axle in (0, 1):
            p = model.first_root(lambda p, axle=axle: motion.excess(axle, mu, p), motion.corners)
            each.append(motion.free(p) / model.G)
        first = motion.lock(mu)
        assert first[1] / model.G == pytest.approx(min(each)) and first[2] == each.index(min(each))
        return each

    # Wong lets a brake take the whole adhesion and adds the rolling to it: a peak of mu + f.
    f = g["rolling_resistance"]
    front8, rear8 = lock(f, g["a_mu"] + f)
    front2, rear2 = lock(f, g["b_mu"] + f)
    front0, rear0 = lock(0.0, g["a_mu"])
    expect(
        "CV-14",
        zf8=front8,
        zr8=rear8,
        eta8=min(front8, rear8) / g["a_mu"],
        zf2=front2,
        zr2=rear2,
        eta2=min(front2, rear2) / g["b_mu"],
        zf8_0=front0,
        zr8_0=rear0,
    )


def test_stop():
    """CV-18."""
    g = given("CV-18")
    one = car(stop__dead_time=g["delay"], stop__build_up=g["rise_time"])
    expect("CV-18", S=one.stop_distance(g["v0"], g["deceleration"]))


def test_holding_on_a_grade():
    """CV-22."""
    g = given("CV-22")
    found = {}
    for on, ends in (("front", ("front_up", "front_dn")), ("rear", ("rear_up", "rear_dn")),
                     ("all", ("all", "all"))):  # fmt: skip
        one = car(
            vehicle__wheelbase=g["a_wheelbase"],
            vehicle__cg_height=g["a_cg_height"],
            vehicle__front_share=1 - g["a_cg_behind_front"] / g["a_wheelbase"],
            road__adhesion=g["a_mu"],
            parking__on=on,
        )
        grades = one.cases["empty"].tyre_grades()
        found.update({end: math.atan(grade) for end, grade in zip(ends, grades)})
    one = car(vehicle__mass=g["b_mass"], front__tyre__rolling_radius=g["b_wheel_radius"])
    torque = one.cases["empty"].parking_results()["parking.needed"] * g["b_g"] / model.G
    expect("CV-22", F20=torque / g["b_wheel_radius"], T20=torque / 2, **found)
