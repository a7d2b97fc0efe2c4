# SPDX-License-Identifier: MIT
"""What the lines of a vehicle file lead to: section 1 of reference/method.md, a second time.

`complete` takes what a file says (SI) and gives every quantity that follows from it. Sizes of tyres
by UN R30 and R54 and the ETRTO manual, load indices by ISO 4000-1; shapes of pads by quadrature
along their outline; measured lines by numpy's least squares.
"""
import math
import re

import numpy
from scipy.optimize import brentq

from oracle import model

G = 9.80665  # m/s2, standard gravity (ISO 80000-3)
INCH = 0.0254
NODES, WEIGHTS = numpy.polynomial.legendre.leggauss(40)

# What stands for a line that is left out and follows from no other: the usual values of the
# catalogue (`stopmargin explain`); those that follow from others are in the functions below.
DEFAULTS = {
    "vehicle": {
        "category": "M1",
        "frame": "car",
        "country": "unstated",
        "use": "unstated",
        "secondary": "circuits",
        "first_registered": float("nan"),
        "rolling_resistance": 0.012,
        "antilock": "none",
        "antilock_efficiency": 0.92,
        "tyres": "all_terrain",
    },
    "lift": {"suspension": 0.0, "wheel_rise": 0.0},
    "front.axle": {"wheels": "single"},
    "rear.axle": {"wheels": "single"},
    "front.tyre": {"inertia_fraction": 0.60},
    "rear.tyre": {"inertia_fraction": 0.60},
    "valve": {"kind": "none", "bypass": "fitted"},
    "pedal": {"efficiency": 0.85, "free_play": 0.003},
    "booster": {"diaphragms": 1.0, "efficiency": 0.92, "pump": "engine"},
    "master": {"efficiency": 0.96, "take_up": 0.0013},
    "circuits": {"hose_volume": 2.4e-6, "air_volume": 3e-7},
    "parking": {"on": "rear", "control": "hand", "place": "wheels", "efficiency": 0.68},
    "driveline": {
        "centre": "free",
        "driven": "rear",
        "engine_inertia": 0.25,
        "engine_drag": 35.0,
    },
    "speedometer": {"sensor": "wheel"},
    "trailer": {"mass": 0.0, "braking_ratio": 0.0, "working": 0.8},
    "road": {"adhesion": 0.9, "sliding": 0.80},
    "stop": {"speed": 100 / 3.6, "dead_time": 0.08, "build_up": 0.30, "reaction_time": 2.5},
    "driver": {
        "pedal_force": 150.0,
        "pedal_force_most": 500.0,
        "modulation": 0.95,
        "target": 6.43,
    },
    "drive": {"load": "empty"},
    "tester": {"load": "empty"},
    "heat": {
        "ambient": 313.15,
        "fluid": "DOT3",
        "iron": "grey_200",
        "cooling": 0.65,
        "pad_conduction": 1.0,
        "piston_conduction": 1.0,
        "drag_area": 1.0,
    },
}
BRAKE_DEFAULTS = {
    "disc": {
        "disc": {
            "efficiency": 0.97,
            "threshold": 5e4,
            "rotor": "solid",
        },
        "disc.pads": {
            "mu": 0.38,
            "shape": "sector",
            "contact": "uniform_wear",
            "arc": math.radians(52),
            "thickness": 0.007,
            "fade": 1.0,
        },
    },
    "drum": {
        "drum": {
            "efficiency": 0.96,
            "threshold": 3.5e5,
            "piston_travel": 0.0008,
        },
        "drum.lining": {"mu": 0.37, "thickness": 0.0035, "fade": 1.0},
    },
}

# Peak friction over that of the reference tyre of brake tests, by pattern (method.md section 1).
GRIP = {"road": 1.00, "all_terrain": 0.95, "mud": 0.88}
# How far pads and calipers give way at 100 bar, as travel of the pistons; gap of one pad, m.
GIVES_WAY = {"floating": 0.40e-3, "fixed": 0.30e-3}
GAP = {"floating": 0.09e-3, "fixed": 0.15e-3}
# Brake factor of drums whose shoes are not known, at a friction of 0.37, and how it follows
# friction: as a power of it.
USUAL_FACTOR = {
    "leading_trailing": (2.2, 1.2),
    "two_leading": (3.1, 1.6),
    "duo_servo": (4.4, 2.3),
}

# mm, of a rim code (UN R30 and R54, 2.17); others 25.4 mm an inch, to whole mm
RIM = {14.5: 368, 16.5: 419, 17.5: 445, 19.5: 495, 20.5: 521, 22.5: 572, 24.5: 622}
# kg, from load index 60 (UN R30, annex 4)
LOADS = (
    "250 257 265 272 280 290 300 307 315 325 335 345 355 365 375 387 400 412 425 437 450 462 475 "
    "487 500 515 530 545 560 580 600 615 630 650 670 690 710 730 750 775 800 825 850 875 900 925 "
    "950 975 1000 1030 1060 1090 1120 1150 1180 1215 1250 1285 1320 1360 1400 1450 1500 1550 1600 "
    "1650 1700 1750 1800 1850 1900"
)
LOAD_OF_INDEX = {60 + i: float(kg) for i, kg in enumerate(LOADS.split())}
SPEED_OF_SYMBOL = dict(
    zip("FGJKLMNPQRSTUHVWY", (80, 90, 100, 110, 120, 130, 140, 150, 160, 170, 180, 190, 200, 210,
                              240, 270, 300))
)  # fmt: skip

BUILD_RIM = r" ?(Z?R|D|B|-)(\d+(?:\.5)?)(?:LT|C)?\b"
METRIC = re.compile(r"^(?:P|LT)?(\d{3})/(\d{2,3})" + BUILD_RIM)
FLOTATION = re.compile(r"^(\d{2}(?:\.\d+)?)[xX](\d+(?:\.\d+)?)" + BUILD_RIM)
INCHES = re.compile(r"^(\d{1,2}\.\d{2})" + BUILD_RIM)
FULL_PROFILE = re.compile(r"^(\d{3})" + BUILD_RIM)
SERVICE = re.compile(r"\b(\d{2,3})(?:/(\d{2,3}))?([A-Z])$")


def rim_mm(code):
    return RIM.get(code, float(round(25.4 * code)))


def tyre_of(marking):
    """Diameter, turn over diameter, load and speed of a marked size."""
    text = marking.strip()
    if match := METRIC.match(text):
        width, aspect, build, rim = match.groups()
        diameter = (rim_mm(float(rim)) + 2 * float(width) * float(aspect) / 100) / 1000
    elif match := FLOTATION.match(text):
        over, _, build, rim = match.groups()
        diameter = float(over) * INCH
    elif match := INCHES.match(text):
        # Sections of these sizes are a little taller than the mark is wide: 7.50R16 has 802 mm
        # (UN R54, annex 5; from memory).
        width, build, rim = match.groups()
        diameter = (rim_mm(float(rim)) + 2 * 1.04 * 25.4 * float(width)) / 1000
    elif match := FULL_PROFILE.match(text):
        # No aspect marked: 82 % (DVSA, MOT inspection manual, section 5).
        width, build, rim = match.groups()
        diameter = (rim_mm(float(rim)) + 2 * 0.82 * float(width)) / 1000
    else:
        raise ValueError(marking)
    turn = 3.05 if build.endswith("R") else 2.99  # ETRTO
    load, speed = [], None
    if service := SERVICE.search(text[match.end() :].strip()):
        load = [LOAD_OF_INDEX[int(index)] for index in service.groups()[:2] if index]
        speed = SPEED_OF_SYMBOL[service[3]] / 3.6
    return diameter, turn, load, speed


def height_by_tilt(mass, wheelbase, rise, level, tilted, hub):
    """Height of the centre of gravity at which one axle reads so much with the other raised."""
    angle = math.asin(rise / wheelbase)
    ahead = wheelbase * (1 - level / mass)  # of the ground axle, along the floor, level

    def reading(above):  # above the hubs: turned back over the ground axle by the angle
        arm = ahead * math.cos(angle) - above * math.sin(angle)
        return mass * (1 - arm / (wheelbase * math.cos(angle)))

    return hub + brentq(lambda above: reading(above) - tilted, -10, 10, xtol=1e-15, maxiter=200)


def outline_radius(corners, contact):
    """Effective radius of a pad of any outline.

    Uniform pressure: mean of r over the area. Uniform wear (p r constant): area over the integral
    of 1/r. The integral of r^n over an outline is that of r^n (x dy - y dx)/(n + 2) along it.
    """

    def integral(power):
        total = 0.0
        for (x0, y0), (x1, y1) in zip(corners, corners[1:] + corners[:1]):
            for cut in range(4):
                t = (cut + (1 + NODES) / 2) / 4
                r = numpy.hypot(x0 + t * (x1 - x0), y0 + t * (y1 - y0))
                total += float(WEIGHTS @ r**power) / 8 * (x0 * y1 - x1 * y0)
        return total / (power + 2)

    if contact == "uniform_pressure":
        return integral(1) / integral(0)
    return integral(0) / integral(-1)


def sector_radius(inner, outer, contact):
    half = (outer - inner) / 2
    r = (outer + inner) / 2 + half * NODES
    pressure = numpy.ones_like(r) if contact == "uniform_pressure" else 1 / r
    return float(WEIGHTS @ (pressure * r * r)) / float(WEIGHTS @ (pressure * r))


def circle_radius(pad, centre, contact):
    if contact == "uniform_wear":
        ratios, nearer = numpy.arange(6) / 10, [1, 0.983, 0.969, 0.957, 0.947, 0.938]
        return centre * float(numpy.interp(pad / centre, ratios, nearer))
    s = pad * (1 + NODES) / 2
    turn = numpy.arange(64) * math.pi / 32
    away = numpy.sqrt(centre**2 + s[:, None] ** 2 + 2 * centre * s[:, None] * numpy.cos(turn))
    return float(WEIGHTS @ (s * away.mean(axis=1))) / float(WEIGHTS @ s)


def straight_line(points):
    """Offset and slope of the least-squares line."""
    x = numpy.array([point[0] for point in points])
    y = numpy.array([point[1] for point in points])
    middle, scale = x.mean(), max(abs(x - x.mean()))
    columns = numpy.column_stack([numpy.ones_like(x), (x - middle) / scale])
    (offset, slope), *_ = numpy.linalg.lstsq(columns, y, rcond=None)
    slope /= scale
    return offset - slope * middle, slope


def valve_of(pairs):
    """Knee and slope: where the line past the knee meets rear = front."""
    offset, slope = straight_line([pair for pair in pairs if pair[1] < 0.97 * pair[0]])
    return offset / (1 - slope), slope


def booster_of(pairs):
    """Gain and assist of readings (input, output) at the rod: best legs y = i x and y = x + A."""
    pairs = sorted(pairs)
    best = None
    for cut in range(1, len(pairs)):
        below, past = numpy.array(pairs[:cut]), numpy.array(pairs[cut:])
        gain = below[:, 0] @ below[:, 1] / (below[:, 0] @ below[:, 0])
        assist = (past[:, 1] - past[:, 0]).mean()
        error = ((below[:, 1] - gain * below[:, 0]) ** 2).sum()
        error += ((past[:, 1] - past[:, 0] - assist) ** 2).sum()
        if best is None or error < best[0]:
            best = error, float(gain), float(assist)
    return best[1:]


def complete(raw):
    """Every quantity that follows from what a file says."""
    vehicle = dict(raw)

    def has(*paths):
        return all(vehicle.get(path) is not None for path in paths)

    def give(path, value):
        if value is not None and not has(path):
            vehicle[path] = value

    for section, defaults in DEFAULTS.items():
        if section.endswith(".tyre"):
            continue
        for name, value in defaults.items():
            give(f"{section}.{name}", value)
    if not any(path.startswith("rear.tyre.") for path in raw):
        for path in [path for path in vehicle if path.startswith("front.tyre.")]:
            vehicle["rear" + path[5:]] = vehicle[path]
    complete_body(vehicle, has, give)
    for axle in ("front", "rear"):
        complete_tyre(vehicle, axle, has, give)
        complete_brake(vehicle, axle, has, give)
    complete_control(vehicle, has, give)
    complete_parking(vehicle, has, give)
    gear, axle = vehicle.get("driveline.gear_ratio"), vehicle.get("driveline.axle_ratio")
    give("driveline.overall_ratio", (gear or 0.85) * (axle or 4.1))
    if has("speedometer.marking"):
        diameter, turn, _, _ = tyre_of(vehicle["speedometer.marking"])
        give("speedometer.rollout", turn * diameter)
    for load in ("empty", "full"):
        complete_load(vehicle, load, has, give)
    return vehicle


def complete_body(vehicle, has, give):
    corners = [f"scales.{axle}_{side}" for axle in ("front", "rear") for side in ("left", "right")]
    axles = ["scales.front_axle", "scales.rear_axle"]
    front = rear = None
    if has(*corners):
        loads = [vehicle[path] for path in corners]
        front, rear = sum(loads[:2]), sum(loads[2:])
    elif has(*axles):
        front, rear = (vehicle[path] for path in axles)
    if front is not None:
        give("vehicle.mass", front + rear)
        give("vehicle.front_share", front / (front + rear))
    tilt = [f"tilt.{name}" for name in
            ("rise", "ground_axle_level", "ground_axle_tilted", "hub_height")]  # fmt: skip
    if has(*tilt, "vehicle.mass", "vehicle.wheelbase"):
        give(
            "vehicle.cg_height",
            height_by_tilt(
                vehicle["vehicle.mass"],
                vehicle["vehicle.wheelbase"],
                *(vehicle[path] for path in tilt),
            ),
        )
    if has("vehicle.roof_height"):
        give("vehicle.cg_height", 0.385 * vehicle["vehicle.roof_height"])
    give("vehicle.unsprung_mass", 0.17 * vehicle["vehicle.mass"])
    give("vehicle.tyre_grip", GRIP[vehicle["vehicle.tyres"]])


def complete_tyre(vehicle, axle, has, give):
    tyre = f"{axle}.tyre."
    give(tyre + "inertia_fraction", 0.60)
    turn = 3.05
    if has(tyre + "marking"):
        diameter, turn, loads, speed = tyre_of(vehicle[tyre + "marking"])
        dual = vehicle.get(f"{axle}.axle.wheels") == "dual"
        load = loads[dual] if len(loads) > dual else None
        give(tyre + "overall_diameter", diameter)
        give(tyre + "load_capacity", load)
        give(tyre + "speed_limit", speed)
    if has(tyre + "rollout"):
        give(tyre + "rolling_radius", vehicle[tyre + "rollout"] / (2 * math.pi))
    if has(tyre + "overall_diameter"):
        give(
            tyre + "rolling_radius", turn * vehicle[tyre + "overall_diameter"] / (2 * math.pi)
        )
    give(tyre + "overall_diameter", 2 * math.pi * vehicle[tyre + "rolling_radius"] / 3.05)
    swing = [tyre + name for name in ("swing_radius", "swing_length", "swing_period")]
    if has(tyre + "wheel_mass", *swing):
        radius, length, period = (vehicle[path] for path in swing)
        # Trifilar pendulum: stiffness about the axis m g R^2/l, and omega = 2 pi/T.
        stiffness = vehicle[tyre + "wheel_mass"] * G * radius**2 / length
        give(tyre + "wheel_inertia", stiffness / (2 * math.pi / period) ** 2)
    if has(tyre + "wheel_mass"):
        give(
            tyre + "wheel_inertia",
            vehicle[tyre + "inertia_fraction"]
            * vehicle[tyre + "wheel_mass"]
            * (vehicle[tyre + "overall_diameter"] / 2) ** 2,
        )


def complete_brake(vehicle, axle, has, give):
    kind = vehicle[f"{axle}.axle.brake"]
    for section, defaults in BRAKE_DEFAULTS[kind].items():
        for name, value in defaults.items():
            give(f"{axle}.{section}.{name}", value)
    if kind == "drum":
        complete_drum(vehicle, axle, has, give)
        return
    pads = f"{axle}.disc.pads."
    get = vehicle.get
    mounting = get(f"{axle}.disc.mounting")
    area = sum(math.pi * count * d**2 / 4 for count, d in get(f"{axle}.disc.pistons"))
    give(f"{axle}.disc.compliance", area * GIVES_WAY[mounting])
    give(pads + "gap", GAP[mounting])
    if has(f"{axle}.disc.rotor_mass"):
        give(f"{axle}.disc.hat_mass", 0.37 * get(f"{axle}.disc.rotor_mass"))
    contact, radius = get(pads + "contact"), None
    if get(pads + "shape") == "sector":
        if has(pads + "inner_radius", pads + "outer_radius"):
            radius = sector_radius(get(pads + "inner_radius"), get(pads + "outer_radius"), contact)
    elif get(pads + "shape") == "rectangle":
        if has(pads + "outer_radius", pads + "height", pads + "width"):
            outer, half = get(pads + "outer_radius"), get(pads + "width") / 2
            inner = outer - get(pads + "height")
            corners = [(inner, -half), (outer, -half), (outer, half), (inner, half)]
            radius = outline_radius(corners, contact)
    elif get(pads + "shape") == "circle":
        if has(pads + "centre_radius", pads + "diameter"):
            radius = circle_radius(get(pads + "diameter") / 2, get(pads + "centre_radius"), contact)
    elif has(pads + "outline"):
        radius = outline_radius(list(get(pads + "outline")), contact)
    give(f"{axle}.disc.effective_radius", radius)
    if get(pads + "shape") == "circle" and has(pads + "centre_radius", pads + "diameter"):
        reach = get(pads + "centre_radius") + get(pads + "diameter") / 2
        give(f"{axle}.disc.rotor_diameter", 2 * reach)
    elif get(pads + "shape") != "outline" and has(pads + "outer_radius"):
        give(f"{axle}.disc.rotor_diameter", 2 * get(pads + "outer_radius"))


def complete_drum(vehicle, axle, has, give):
    drum, lining = f"{axle}.drum.", f"{axle}.drum.lining."
    cylinder = math.pi * vehicle[drum + "cylinder_diameter"] ** 2 / 4
    give(drum + "compliance", 2 * cylinder * 1.2e-3)  # both pistons
    if not any(has(lining + name) for name in ("pivot_radius", "force_arm", "heel", "toe")):
        factor, power = USUAL_FACTOR[vehicle[drum + "shoes"]]
        give(drum + "brake_factor", factor * (vehicle[lining + "mu"] / 0.37) ** power)
    elif vehicle[drum + "shoes"] == "duo_servo" and not has(drum + "brake_factor"):
        for name in ("heel", "toe", "mu"):
            give(lining + "secondary_" + name, vehicle[lining + name])


def complete_control(vehicle, has, give):
    get = vehicle.get
    if has("valve.gauge_pairs"):
        knee, slope = valve_of(get("valve.gauge_pairs"))
        give("valve.knee", knee)
        give("valve.slope", slope)
    if get("valve.kind") == "height":
        give("valve.uncorrected_lift", get("lift.suspension"))
        give("valve.anti_lift", 0.5)
    if has("pedal.pad_arm", "pedal.rod_arm"):
        give("pedal.ratio", get("pedal.pad_arm") / get("pedal.rod_arm"))
    if get("booster.booster") != "none":
        complete_booster(vehicle, has, give)
    if has("circuits.pumped"):
        begins, rises = straight_line(get("circuits.pumped"))[:2]
        give("circuits.elastic_volume", rises * 1e7)
        give("circuits.closing_volume", begins)


def complete_booster(vehicle, has, give):
    get = vehicle.get
    oil = get("booster.booster") == "hydraulic"
    if oil:
        complete_accumulator(get, give)
    else:
        give("booster.vacuum", 63e3)
        give("booster.vacuum_low", 0.70 * get("booster.vacuum"))
    if has("booster.force_pairs"):
        rod = get("pedal.ratio") * get("pedal.efficiency")
        area = math.pi * get("master.bore") ** 2 / 4 / get("master.efficiency")
        gain, assist = booster_of([(f * rod, p * area) for f, p in get("booster.force_pairs")])
        give("booster.gain", gain)
        give("booster.assist", assist)
    give("booster.gain", 7.0 if oil else 4.5)
    if has("booster.piston_diameter"):
        area = math.pi * get("booster.piston_diameter") ** 2 / 4
        give("booster.assist", get("booster.efficiency") * get("booster.pressure") * area)
    if has("booster.vacuum", "booster.diaphragm_diameter"):
        area = math.pi * get("booster.diaphragm_diameter") ** 2 / 4
        second = 0.75 if get("booster.diaphragms") == 2 else 0.0
        give(
            "booster.assist",
            get("booster.efficiency") * get("booster.vacuum") * area * (1 + second),
        )


def complete_accumulator(get, give):
    """Oil of the pump, and what its gas holds at the end of the first stop without it."""
    give("booster.pressure", 95e5)
    give("booster.reserve", 2.0)
    give("booster.precharge", 0.5 * get("booster.pressure"))
    stops, atmosphere, power = get("booster.reserve"), 101325.0, 1.4
    charged, empty = get("booster.pressure") + atmosphere, get("booster.precharge") + atmosphere
    left = -atmosphere
    if stops >= 1:
        # Gas volumes over that when the oil is out: charged, and after one stop of equal ones.
        begin = (empty / charged) ** (1 / power)
        after = begin + (1 - begin) / stops
        left = empty / after**power - atmosphere
    give("booster.pressure_low", max(0.0, left))


def complete_parking(vehicle, has, give):
    get = vehicle.get
    give("parking.force", 400.0 if get("parking.control") == "hand" else 500.0)
    axle = "front" if get("parking.on") == "front" else "rear"
    for end in ("front", "rear"):
        forces = [f"tester.{end}_{side}" for side in ("left", "right")]
        if has(*forces) and max(get(path) for path in forces) > 0:
            left, right = (get(path) for path in forces)
            give(f"{end}.axle.side_difference", abs(left - right) / max(left, right))
    if has("parking.pull"):
        give("parking.torque", get("parking.pull") * get(f"{axle}.tyre.rolling_radius"))
    if has("tester.parking_left", "tester.parking_right"):
        force = get("tester.parking_left") + get("tester.parking_right")
        if has("tester.lever_force"):
            force *= get("parking.force") / get("tester.lever_force")
        give("parking.torque", force * get(f"{axle}.tyre.rolling_radius"))
    drum = get(f"{axle}.axle.brake") == "drum" and get("parking.place") == "wheels"
    if drum and has("parking.ratio"):
        give("parking.factor", 0.85 * model.factor_of(vehicle, axle))
    if has("parking.ratio", "parking.factor", "parking.radius"):
        torque = get("parking.force") * get("parking.ratio") * get("parking.efficiency")
        torque *= get("parking.factor") * get("parking.radius")
        if get("parking.place") == "wheels":
            give("parking.torque", torque)
        elif has("driveline.axle_ratio"):
            give("parking.torque", torque * get("driveline.axle_ratio"))


def usual_place(vehicle, mass, moment):
    """Where a load fills the vehicle to its rated mass with both axles used alike of their ratings,
    as far as that is where goods go."""
    wheelbase = vehicle["vehicle.wheelbase"]
    ratings = [vehicle.get(f"{axle}.axle.rated_mass") for axle in ("front", "rear")]
    rated = vehicle.get("vehicle.rated_mass")
    if None not in (*ratings, rated):
        on_rear = rated * ratings[1] / sum(ratings)
        place = (on_rear * wheelbase - moment) / (rated - mass)
        if 0.3 * wheelbase <= place <= 1.1 * wheelbase:
            return place
    return 0.75 * wheelbase


def complete_load(vehicle, load, has, give):
    get = vehicle.get
    section = f"load.{load}."
    names = {path[5:].rpartition(".")[0] for path in vehicle if path.startswith("part.")}
    parts = [(get(f"part.{n}.mass"), get(f"part.{n}.behind_front_axle")) for n in names]
    wheelbase = get("vehicle.wheelbase")
    mass = get("vehicle.mass") + sum(m for m, _ in parts)
    moment = get("vehicle.mass") * (1 - get("vehicle.front_share")) * wheelbase
    moment += sum(m * x for m, x in parts)
    if has(section + "front_axle", section + "rear_axle"):
        front, rear = get(section + "front_axle"), get(section + "rear_axle")
        give(section + "mass", front + rear - mass)
        added = front + rear - mass
        give(section + "behind_front_axle", (rear * wheelbase - moment) / added if added else None)
    if load == "empty":
        give(section + "mass", 0.0)
    elif has("vehicle.rated_mass"):
        give(section + "mass", max(0.0, get("vehicle.rated_mass") - mass))
    give(section + "mass", 0.0)
    give(section + "behind_front_axle", usual_place(vehicle, mass, moment))
    give(section + "height", 1.0)
