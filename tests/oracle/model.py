# SPDX-License-Identifier: MIT
"""A second model of a braked road vehicle, written from the texts and not from the C.

Sources: reference/method.md (sections 1 to 7) for what each quantity means; the published
requirements as named at each row of CRITERIA; Limpert, "Brake Design and Safety", and Wong, "Theory
of Ground Vehicles", for the physics. It shares no code with the library and, where it can, no way
of computing either: brackets and Brent's method for pressures, locks and crossings, quadrature for
pads and shoes, one force balance for anti-lock.

    lines.complete(raw)  what section 1 of method.md makes of the lines of a file
    evaluate(vehicle)    the results of section 6
    judge(vehicle)       the criteria of section 7

A vehicle is a mapping of paths ("front.disc.pads.mu") to SI numbers, words, lists of pairs and, for
pistons, a list of (number, diameter). What is not known is absent or None; results are NaN.
"""
import math
from typing import NamedTuple

import numpy
from scipy.optimize import brentq

G = 9.80665  # m/s2, standard gravity (ISO 80000-3)
ATMOSPHERE = 101325.0  # Pa, standard atmosphere
HUNDRED_BAR = 1e7  # Pa, at which compliance is stated
LAID = 1e6  # Pa, at which half of what calipers take early is taken
RISE = (100 / 110 - 20 / 30) / 0.8  # of p / (p + LAID), a 100 bar from 20 to 100 bar
NAN = math.nan
INF = math.inf
ROLLER_ADHESION = 1.0  # friction of tyre and roller of a roller tester (method.md 7)
TEST_ADHESION = 0.9  # peak friction of the surface of brake tests, reference tyre (method.md 7)
FULL_BRAKING = 6.43  # m/s2, at which travel and strokes are judged (UN R13-H, annex 3, 2.1.1)
TOLERANCE = 1e-14  # relative, of a root
NODES, WEIGHTS = numpy.polynomial.legendre.leggauss(40)
AXLES = ("front", "rear")
FAILURES = (
    "first_circuit",
    "second_circuit",
    "no_assist",
    "low_vacuum",
    "valve_open",
    "valve_shut",
    "no_antilock",
)
# The circuits of each split (method.md section 4): front and rear share of the first, of the
# second, and which share of an axle's wheels one circuit alone brakes.
SPLITS = {
    "II": ((1, 0), (0, 1), (1, 1)),
    "X": ((0.5, 0.5), (0.5, 0.5), (0.5, 0.5)),
    "HI": ((0.5, 1), (0.5, 0), (1, 1)),
    "LL": ((0.5, 0.5), (0.5, 0.5), (1, 0.5)),
    "HH": ((0.5, 0.5), (0.5, 0.5), (1, 1)),
    "one": ((1, 1), None, (1, 1)),
}


class Refused(Exception):
    """The vehicle cannot be computed."""


def root(function, low, high):
    """Root between two values of opposite sign."""
    return brentq(function, low, high, xtol=1e-300, rtol=TOLERANCE, maxiter=200)


def first_root(function, corners, step=1e6, most=1e12):
    """Lowest x from 0 to most at which a function that is straight between corners reaches 0.

    None: there is none.
    """
    if function(0.0) >= 0.0:
        return 0.0
    low = high = 0.0
    for corner in corners:
        if low < corner < most:
            if function(corner) >= 0.0:
                return root(function, low, corner)
            low = high = corner
    while high < most:
        high = min(high + step, most)
        if function(high) >= 0.0:
            return root(function, low, high)
        step *= 4.0
    return None


def known(*values):
    return all(value is not None and value == value for value in values)


def over(numerator, denominator):
    return numerator / denominator if denominator else NAN


# Brakes (method.md section 3)


def piston_area(pistons):
    return sum(count * math.pi * (diameter / 2) ** 2 for count, diameter in pistons)


def shoe_factors(mu, radius, pivot, arm, heel, toe):
    """Torque over force times drum radius of a leading and of a trailing shoe.

    Pressure p = p_max sin(angle from the pivot) on a rigid shoe (Shigley, "Mechanical Engineering
    Design", section 16-2); its moments about the pivot are summed over the lining.
    """
    half = (toe - heel) / 2
    angle = (toe + heel) / 2 + half * NODES
    pressure = numpy.sin(angle)
    normal = half * float(WEIGHTS @ (pressure * pivot * numpy.sin(angle)))
    friction = half * float(WEIGHTS @ (mu * pressure * (radius - pivot * numpy.cos(angle))))
    drag = half * float(WEIGHTS @ (mu * pressure))
    if normal <= friction:
        raise Refused("a shoe locks by itself")
    return drag / ((normal - friction) / arm), drag / ((normal + friction) / arm)


def brake_factor(shoes, mu, radius, geometry, secondary):
    """Drag of both shoes over the force of one wheel-cylinder piston."""
    pivot, arm, heel, toe = geometry
    leading, trailing = shoe_factors(mu, radius, pivot, arm, heel, toe)
    if shoes == "leading_trailing":
        return leading + trailing
    if shoes == "two_leading":
        return 2 * leading
    # Duo-servo: moments about the drum's axis of the primary shoe give the force in the link.
    link = ((arm - pivot) + leading * radius) / pivot
    begins, ends, rubs = secondary
    return leading + shoe_factors(rubs, radius, pivot, arm, begins, ends)[0] * link


class Brake(NamedTuple):
    torque: float  # N*m per Pa above the threshold, both wheels
    threshold: float  # Pa
    gaps: float  # m3
    shoes: float  # m3
    compliance: float  # m3/Pa
    seating: float  # m3, what calipers take early
    wall_mass: float  # kg, one rotor or drum


def shoe_of(vehicle, axle):
    """Pivot radius, force arm, heel and toe; None: not known, or not counted."""
    stated = known(vehicle.get(f"{axle}.drum.brake_factor"))
    if vehicle.get(f"{axle}.axle.brake") != "drum" or stated:
        return None
    lining = f"{axle}.drum.lining."
    geometry = [vehicle.get(lining + name) for name in ("pivot_radius", "force_arm", "heel", "toe")]
    return geometry if known(*geometry) else None


def secondary_of(vehicle, axle):
    """Heel, toe and friction of the shoe that the link of a duo-servo pushes."""
    lining = f"{axle}.drum.lining."
    names = ("secondary_heel", "secondary_toe", "secondary_mu")
    return [vehicle.get(lining + name) for name in names]


def factor_of(vehicle, axle):
    """Brake factor of a drum: as stated, else by the shape of its shoes."""
    drum, geometry = f"{axle}.drum.", shoe_of(vehicle, axle)
    if geometry is None:
        return number(vehicle.get(drum + "brake_factor"))
    mu, radius = vehicle[f"{axle}.drum.lining.mu"], vehicle[drum + "diameter"] / 2
    return brake_factor(vehicle[drum + "shoes"], mu, radius, geometry, secondary_of(vehicle, axle))


def brake_of(vehicle, axle):
    get = vehicle.get
    if get(f"{axle}.axle.brake") == "disc":
        disc, pads = f"{axle}.disc.", f"{axle}.disc.pads."
        area = piston_area(get(disc + "pistons"))
        # Pressure on one side clamps two pads; two wheels.
        clamp = area * get(disc + "efficiency")
        torque = 2 * (2 * get(pads + "mu") * clamp * get(disc + "effective_radius"))
        return Brake(
            torque,
            get(disc + "threshold"),
            4 * area * get(pads + "gap"),
            0.0,
            3 / 7 * 2 * get(disc + "compliance") / HUNDRED_BAR,
            1.1 * 4 / 7 * 2 * get(disc + "compliance"),
            number(get(disc + "rotor_mass")),
        )
    drum = f"{axle}.drum."
    radius = get(drum + "diameter") / 2
    area = piston_area([(1, get(drum + "cylinder_diameter"))])
    return Brake(
        2 * factor_of(vehicle, axle) * get(drum + "efficiency") * area * radius,
        get(drum + "threshold"),
        0.0,
        4 * area * get(drum + "piston_travel"),
        2 * get(drum + "compliance") / HUNDRED_BAR,
        0.0,
        number(get(drum + "drum_mass")),
    )


def number(value):
    return NAN if value is None else float(value)


# The vehicle


class Body(NamedTuple):
    mass: float
    x: float  # behind the front axle
    height: float


def parts_of(vehicle):
    names = {path[5:].rpartition(".")[0] for path in vehicle if path.startswith("part.")}
    return [
        tuple(vehicle[f"part.{name}.{what}"] for what in ("mass", "behind_front_axle", "height"))
        for name in sorted(names)
    ]


ABOARD = 75.0  # kg, the driver who is aboard when empty
LIGHT = 180.0  # kg, driver and instruments (49 CFR 571.135, S4)


def with_mass(body, added, x, height):
    total = body.mass + added
    return Body(total, (body.mass * body.x + added * x) / total,
                (body.mass * body.height + added * height) / total)  # fmt: skip


def body_light(vehicle):
    """Driver and instruments, in front (section 2)."""
    x = vehicle["vehicle.wheelbase"] / 2
    return with_mass(body_of(vehicle, "empty"), LIGHT - ABOARD, x, vehicle["load.empty.height"])


def body_rated(vehicle):
    """At the rated mass: the axles share it as their ratings, when neither has more already."""
    bare, light, wheelbase = body_of(vehicle), body_light(vehicle), vehicle["vehicle.wheelbase"]
    rated = number(vehicle.get("vehicle.rated_mass"))
    if not known(rated):
        return Body(NAN, NAN, NAN)
    if rated <= bare.mass:
        return bare
    height = vehicle["load.full.height"]
    ratings = [number(vehicle.get(f"{axle}.axle.rated_mass")) for axle in AXLES]
    if not known(*ratings):
        return with_mass(bare, rated - bare.mass, vehicle["load.full.behind_front_axle"], height)
    already = light.mass * (1 - light.x / wheelbase), light.mass * light.x / wheelbase
    rear = rated * ratings[1] / sum(ratings)
    if rated - rear < already[0]:
        rear = rated - already[0]
    rear = max(rear, already[1])
    added = rated - bare.mass
    return with_mass(bare, added, (rear * wheelbase - bare.mass * bare.x) / added, height)


def body_of(vehicle, load=None):
    """Mass and centre of gravity, of the vehicle with its parts and a load (section 2)."""
    if load in ("light", "rated"):
        return {"light": body_light, "rated": body_rated}[load](vehicle)
    mass = vehicle["vehicle.mass"]
    rise = vehicle["lift.wheel_rise"] + vehicle["lift.suspension"] * (
        1 - vehicle["vehicle.unsprung_mass"] / mass
    )
    where = ("mass", "behind_front_axle", "height")
    points = [
        (
            mass,
            vehicle["vehicle.wheelbase"] * (1 - vehicle["vehicle.front_share"]),
            vehicle["vehicle.cg_height"] + rise,
        ),
        *parts_of(vehicle),
    ]
    if load and number(vehicle.get(f"load.{load}.mass")) > 0:
        points.append(tuple(vehicle[f"load.{load}.{what}"] for what in where))
    total = math.fsum(point[0] for point in points)
    return Body(
        total,
        math.fsum(m * x for m, x, _ in points) / total,
        math.fsum(m * h for m, _, h in points) / total,
    )


class Circuit(NamedTuple):
    front: float
    rear: float
    stroke: float  # of its chamber


class Car:
    """What does not depend on the load: brakes, pedal, fluid; on its road, or another surface."""

    def __init__(self, vehicle, surface=None):
        self.vehicle = vehicle
        get = self.get = vehicle.get
        self.brakes = [brake_of(vehicle, axle) for axle in AXLES]
        self.radius = [get(f"{axle}.tyre.rolling_radius") for axle in AXLES]
        # Wheels at each end of an axle.
        self.abreast = [2 if get(f"{axle}.axle.wheels") == "dual" else 1 for axle in AXLES]
        self.inertia = [
            n * get(f"{axle}.tyre.wheel_inertia") for n, axle in zip(self.abreast, AXLES)
        ]
        # Two wheels' inertia as mass at the road.
        self.turning = [2 * i / r**2 for i, r in zip(self.inertia, self.radius)]
        self.wheelbase = get("vehicle.wheelbase")
        self.rolling = get("vehicle.rolling_resistance")
        surface = get("road.adhesion") if surface is None else surface
        self.adhesion = surface * get("vehicle.tyre_grip")
        self.locked_drive = get("driveline.centre") == "locked"
        self.antilock = get("vehicle.antilock") == "fitted"
        self.driver_adhesion_share = get("driver.modulation")
        self.antilock_adhesion_share = max(
            get("vehicle.antilock_efficiency"), self.driver_adhesion_share
        )
        self.boosted = get("booster.booster") != "none"
        self.gain = number(get("booster.gain")) if self.boosted else 1.0
        self.assist = number(get("booster.assist")) if self.boosted else 0.0
        self.master_area = math.pi * get("master.bore") ** 2 / 4
        self.rod_share = get("pedal.ratio") * get("pedal.efficiency")
        self.ratio = get("pedal.ratio")
        self.free_play = get("pedal.free_play")
        self.travel = number(get("pedal.travel"))
        self.valve = get("valve.kind")
        self.sensing = self.valve in ("load", "height", "ebd")
        self.set_fluid()
        self.limits = {}
        self.cases = {load: Case(self, load) for load in ("empty", "full", "light", "rated")}

    def set_fluid(self):
        get = self.get
        first, second, self.wheels = SPLITS[get("circuits.split")]
        self.circuits = [Circuit(*first, number(get("master.primary_stroke")))]
        if second:
            self.circuits.append(Circuit(*second, number(get("master.secondary_stroke"))))
        hoses = get("circuits.hose_volume") / HUNDRED_BAR
        elastic = number(get("circuits.elastic_volume"))
        self.early = self.scale = 1.0
        if known(elastic):
            at_once = sum(brake.gaps + brake.shoes for brake in self.brakes)
            room = number(get("circuits.closing_volume")) - at_once - get("circuits.air_volume")
            linear = sum(brake.compliance for brake in self.brakes) + hoses
            seating = sum(brake.seating for brake in self.brakes)
            self.scale = elastic / (linear * HUNDRED_BAR + RISE * seating)
            self.early = self.scale
            if known(room) and seating > 0 and self.scale * seating > room:
                self.early = max(room, 0.0) / seating
        self.hoses = self.scale * hoses
        self.air = get("circuits.air_volume")
        self.take_up = self.master_area * get("master.take_up")

    def give_way(self, brake, p):
        """What both brakes of an axle take by giving way."""
        late = (self.scale - self.early) * RISE * brake.seating / HUNDRED_BAR
        early = self.early * brake.seating * p / (p + LAID)
        return (self.scale * brake.compliance + late) * p + early

    def fluid(self, circuit, p):
        """Fluid in a circuit at a pressure."""
        total = self.take_up
        for brake, share in zip(self.brakes, circuit[:2]):
            at_once = brake.gaps + brake.shoes
            air = self.air / 2 * (1 - ATMOSPHERE / (p + ATMOSPHERE))  # Boyle
            total += share * (at_once + self.give_way(brake, p) + self.hoses / 2 * p + air)
        return total

    def in_gear(self):
        """What turns, as mass at the road, and torque that drags each axle, in gear."""
        get = self.get
        shares = {"front": (1, 0), "rear": (0, 1), "all": (0.5, 0.5)}[get("driveline.driven")]
        ratio = get("driveline.overall_ratio")
        engine = get("driveline.engine_inertia") * ratio**2
        turning = [
            j + share * engine / r**2 for j, share, r in zip(self.turning, shares, self.radius)
        ]
        return turning, [share * get("driveline.engine_drag") * ratio for share in shares]

    def failed_chamber(self, failure):
        """Number of the chamber that has failed; of one circuit alone no second can."""
        number_of = {"first_circuit": 0, "second_circuit": 1}.get(failure)
        return number_of if number_of is None or number_of < len(self.circuits) else None

    def limits_in(self, failure):
        """Pressure at which each intact chamber is at its end, and beyond which nothing goes."""
        failed = self.failed_chamber(failure)
        if failed not in self.limits:
            self.limits[failed] = self.find_limits(failed)
        return self.limits[failed]

    def limit(self, failure):
        return self.limits_in(failure)[1]

    def filled(self, circuit, p):
        """Fluid that a chamber has given at a pressure of the force: its piston stops at its end,
        and hands on what the rod presses with."""
        most = circuit.stroke * self.master_area
        given = self.fluid(circuit, p)
        return min(given, most) if known(most) else given

    def find_limits(self, failed):
        intact = {i: c for i, c in enumerate(self.circuits) if i != failed}

        def when(spare):
            found = first_root(spare, (), step=1e5)
            return INF if found is None else found

        ends = {
            i: when(lambda p, c=c: self.fluid(c, p) - c.stroke * self.master_area)
            if known(c.stroke) else INF
            for i, c in intact.items()
        }  # fmt: skip
        floor = INF
        if known(self.travel) and intact:
            # A stroke that is not given takes nothing off.
            lost = number(self.circuits[failed].stroke) if failed is not None else 0.0
            rod = (self.travel - self.free_play) / self.ratio - (lost if known(lost) else 0.0)
            room = rod * self.master_area
            floor = when(lambda p: sum(self.filled(c, p) for c in intact.values()) - room)
        return ends, min(max(ends.values(), default=INF), floor)

    def held(self, failure):
        """Circuit whose chamber ends while the other one goes on, and from which pressure."""
        ends, most = self.limits_in(failure)
        circuit = min(ends, key=ends.get, default=None)
        return (circuit, ends[circuit]) if len(ends) == 2 and ends[circuit] < most else (None, INF)

    # Pedal and booster

    def assist_in(self, failure):
        """Gain and most assist in a state of failure."""
        if failure == "no_assist":
            return 1.0, 0.0
        oil = self.get("booster.booster") == "hydraulic"
        stands = oil and self.get("booster.pump") == "engine"
        if failure == "low_vacuum" or (failure == "engine_off" and stands):
            source = "pressure" if oil else "vacuum"
            whole, low = (number(self.get(f"booster.{source}{end}")) for end in ("", "_low"))
            return self.gain, self.assist * low / whole
        return self.gain, self.assist

    def free_pressure(self, force, failure=None):
        """Pressure at a pedal force with no limit by travel."""
        gain, assist = self.assist_in(failure)
        rod = force * self.rod_share
        out = min(gain * rod, rod + assist)
        return out * self.get("master.efficiency") / self.master_area

    def pressure(self, force, failure=None):
        return min(self.free_pressure(force, failure), self.limit(failure))

    def force_for(self, p):
        """Pedal force of a pressure, everything working: free_pressure turned about."""
        if p == 0.0:
            return 0.0
        slope = self.free_pressure(1.0) or 1.0
        knee = self.knee_force()
        corner = (knee,) if known(knee) and knee < INF else ()
        return first_root(lambda force: self.free_pressure(force) / p - 1, corner, step=p / slope)

    def knee_force(self):
        if not self.boosted or self.gain <= 1.0:
            return NAN
        return self.assist / (self.gain - 1) / self.rod_share

    def pad_travel(self, p, failure=None):
        """At a pressure that is reached."""
        failed = self.failed_chamber(failure)
        rod = 0.0
        for index, circuit in enumerate(self.circuits):
            rod += circuit.stroke if index == failed else self.filled(circuit, p) / self.master_area
        return self.free_play + self.ratio * rod

    def pad_needed(self, p):
        """Travel that a pressure would take if nothing came to its end."""
        rod = sum(self.fluid(circuit, p) for circuit in self.circuits) / self.master_area
        return self.free_play + self.ratio * rod

    # Parking brake

    @property
    def parking_axle(self):
        return 0 if self.get("parking.on") == "front" else 1

    def parking_torque(self, allowed=INF, foot=0.0):
        """Torque at the wheels with no more than an allowed hand force (foot: 100 N more)."""
        torque = number(self.get("parking.torque"))
        force = number(self.get("parking.force"))
        if self.get("parking.control") == "foot":
            allowed = foot or allowed + 100.0
        return torque * min(1.0, allowed / force)

    @property
    def delay(self):
        """Dead time and build-up."""
        return self.get("stop.dead_time"), self.get("stop.build_up")

    def stop_distance(self, speed, a):
        """Distance with dead time and a straight build-up, leg by leg (Mitschke)."""
        if not a > 0:
            return INF if a == 0 else NAN
        dead, rise = self.delay
        after = speed - a * rise / 2
        return speed * (dead + rise) - a * rise**2 / 6 + after**2 / (2 * a)


class Motion:
    """A load case in a state of failure, braked."""

    def __init__(self, case, failure, endless=False):
        car, body = case.car, case.body
        self.car, self.case, self.failure = car, case, failure
        circuit, self.hold = (None, INF) if endless else car.held(failure)
        self.most = car.limit(failure)
        self.held_share = (0.0, 0.0) if circuit is None else car.circuits[circuit][:2]
        # Whether both wheels of an axle hang on both circuits, or each on one of its own.
        apart = car.get("circuits.split") in ("X", "LL") and circuit is not None
        self.apart = apart and car.get("circuits.split") == "X", apart
        share, self.wheels = (1.0, 1.0), (1.0, 1.0)
        failed = car.failed_chamber(failure)
        if failed is not None:
            left = [c for i, c in enumerate(car.circuits) if i != failed]
            share = left[0][:2] if len(left) == 1 else (0.0, 0.0) if not left else share
            self.wheels = car.wheels
        self.front, self.rear = (s * b.torque for s, b in zip(share, car.brakes))
        self.front_p0, self.rear_p0 = (brake.threshold for brake in car.brakes)
        self.turning, self.dragged = car.turning, (0, 0)
        if failure == "in_gear":
            self.turning, self.dragged = car.in_gear()
        self.knee, self.slope = case.valve_at(failure)
        if failed is not None and not share[0] and car.get("valve.bypass") == "fitted":
            self.knee, self.slope = INF, 1.0
        if car.valve == "height" and self.knee < INF and not (failure or "").startswith("valve"):
            self.knee, self.slope = self.pitched(self.knee, self.slope)
        # One unit works anti-lock and electronic distribution; without a front there is no more
        # slip to compare with, and a locked drive has but one.
        unit = failure not in ("no_antilock", "valve_open", "valve_shut")
        self.distributed = car.valve == "ebd" and unit and self.front > 0.0
        self.regulated = self.distributed and not car.locked_drive
        self.antilock = car.antilock and failure != "no_antilock"
        if car.valve == "ebd":
            self.antilock = self.antilock and unit
        self.mass, self.weight = body.mass, body.mass * G
        self.effective = body.mass + sum(self.turning)
        self.corners = sorted(
            {self.front_p0, self.rear_p0, self.rear_threshold(), self.knee, self.hold,
             self.most if self.hold < INF else INF} - {INF}
        )
        self.locks, self.lifted = {}, {}

    def pitched(self, knee, slope):
        """Knee and slope of a valve whose knee falls with the deceleration.

        A straight line in pressure is known by two points of it: the knee where the falling one is
        met, and how the pressure behind rises from there.
        """
        car, body = self.car, self.case.body
        hubs = sum(car.radius) / 2
        moved = body.mass * body.height - number(car.get("vehicle.unsprung_mass")) * hubs
        moved *= 1 - car.get("valve.anti_lift")
        falls = number(car.get("valve.knee_rate")) * moved / (car.wheelbase * G)
        front, rear = self.front / car.radius[0], self.rear / car.radius[1]
        mass = body.mass + sum(self.turning)
        rolling = car.rolling * body.mass * G
        rolling += sum(drag / r for drag, r in zip(self.dragged, car.radius))

        def slowing(p, behind):
            return (front * (p - self.front_p0) + rear * (behind - self.rear_p0) + rolling) / mass

        def over(p):
            return p - (knee - falls * slowing(p, p))

        far = 1e7
        meets = -over(0.0) * far / (over(far) - over(0.0))

        def missed(rise):  # of the pressure behind the valve, per pascal past the knee
            more = (slowing(far, rise * far) - slowing(0.0, 0.0)) / far
            return rise - (slope - (1 - slope) * falls * more)

        rises = -missed(0.0) / (missed(1.0) - missed(0.0))
        return max(0.0, meets), max(0.0, rises)

    def rear_threshold(self):
        """Front pressure at which the rear begins."""
        if self.rear_p0 <= self.knee:
            return self.rear_p0
        return self.knee + (self.rear_p0 - self.knee) / self.slope if self.slope else INF

    def torques(self, p):
        """Of both axles; the rear's as far as it is let through."""
        front, rear = self.open_torques(p)
        if not self.regulated or rear <= 0.0:
            return front, rear
        a = self.balanced(p, INF)
        left = self.effective * a - front / self.car.radius[0] - self.car.rolling * self.weight
        return front, max(self.dragged[1], min(rear, left * self.car.radius[1]))

    def open_torques(self, p):
        """Of both axles; the held circuit keeps its pressure while the other one goes on."""
        even = self.even_torques(p)
        even = tuple(now + drag for now, drag in zip(even, self.dragged))
        if p <= self.hold:
            return even
        reached = min(p, self.most)
        stays, goes = self.even_torques(self.hold), self.even_torques(reached)
        # What is lacking where both are at their ends is lacking beyond, where nothing is reached.
        return tuple(
            now - share * (on - off)
            for now, share, on, off in zip(even, self.held_share, goes, stays)
        )

    def asked_torque(self, axle, p):
        """That of the wheel with the higher pressure, as if both had it."""
        if self.apart[axle]:
            return self.even_torques(p)[axle] + self.dragged[axle]
        return self.open_torques(p)[axle]

    def even_torques(self, p):
        rear = p if p <= self.knee else self.knee + self.slope * (p - self.knee)
        return (
            self.front * (p - self.front_p0) if p > self.front_p0 else 0.0,
            self.rear * (rear - self.rear_p0) if rear > self.rear_p0 else 0.0,
        )

    def free(self, p):
        """Deceleration whatever the tyres hold."""
        return self.slowed(*self.torques(p))

    def slowed(self, front, rear):
        r1, r2 = self.car.radius
        return (front / r1 + rear / r2 + self.car.rolling * self.weight) / self.effective

    def forces(self, p):
        """Deceleration, forces at the road and axle loads."""
        front, rear = self.torques(p)
        (r1, r2), (j1, j2) = self.car.radius, self.turning
        front, rear = front / r1, rear / r2
        a = (front + rear + self.car.rolling * self.weight) / self.effective
        n1 = self.front_load(a)
        return a, front - j1 * a, rear - j2 * a, n1, self.weight - n1

    def asked(self, axle, p):
        """Force at the road of the braked wheels of an axle, were all like the one asked most.

        What they roll against acts there too.
        """
        a = self.free(p)
        asked = self.open_asked(axle, p, a)
        if axle == 1 and self.regulated:
            part = self.wheels[1] * self.load(1, a) / (self.wheels[0] * self.load(0, a))
            return min(asked, self.open_asked(0, p, a) * part)
        return asked

    def open_asked(self, axle, p, a):
        share = self.wheels[axle]
        force = self.asked_torque(axle, p) / self.car.radius[axle]
        force -= share * self.turning[axle] * a
        return force + share * self.car.rolling * self.load(axle, a)

    def front_load(self, a):
        return self.case.front_load(a)

    def load(self, axle, a):
        front = self.front_load(a)
        return self.weight - front if axle else front

    def both_asked(self, p):
        """Of all that a locked drive holds: an axle without brakes whole, else what is braked."""
        a, total = self.free(p), 0.0
        for axle, torque in enumerate(self.torques(p)):
            share = self.wheels[axle] or 1.0
            total += torque / self.car.radius[axle] - share * self.turning[axle] * a
            total += share * self.car.rolling * self.load(axle, a)
        return total

    def excess(self, axle, k, p):
        """Force that an axle asks for beyond adhesion k; -1 when its brake does nothing yet."""
        if self.torques(p)[axle] <= 0.0:
            return -1.0
        moved = self.forces(p)
        asked = self.asked(axle, p)
        return asked - k * self.wheels[axle] * moved[3 + axle]

    def total_excess(self, k, p):
        _, _, _, n1, n2 = self.forces(p)
        return self.both_asked(p) - k * (self.wheels[0] * n1 + self.wheels[1] * n2)

    def lock(self, k, locked_drive=None):
        """Pressure, deceleration and axle of the first lock on adhesion k; None: none."""
        if locked_drive is None:
            locked_drive = self.car.locked_drive
        key = k, locked_drive
        if key not in self.locks:
            regulated = self.regulated
            self.regulated = regulated and not locked_drive
            self.locks[key] = self.find_lock(k, locked_drive)
            self.regulated = regulated
        return self.locks[key]

    def find_lock(self, k, locked_drive):
        if locked_drive:
            p = first_root(lambda p: self.total_excess(k, p), self.corners)
            found = [] if p is None else [(p, 0)]
            if self.lift() < 1e12:
                found.append((self.lift(), 1))
            p, axle = min(found) if found else (None, None)
            return None if p is None else (p, self.free(p), axle)
        found = []
        for axle, torque in enumerate((self.front, self.rear)):
            if axle and self.regulated:
                continue  # it uses no more than the front
            if torque > 0.0 and not (axle and self.rear_threshold() == INF):
                p = first_root(
                    lambda p, axle=axle: self.excess(axle, k, p),
                    self.corners,
                    most=self.lift() if axle else 1e12,
                )
                if p is not None:
                    found.append((p, axle))
        if self.lift() < 1e12:
            found.append((self.lift(), 1))
        if not found:
            return None
        p, axle = min(found)
        return p, self.free(p), axle

    def at(self, p):
        """Deceleration at a pressure, as far as tyres and anti-lock let it (section 5)."""
        free = self.free(p)
        k = self.car.adhesion
        if self.antilock and not self.car.locked_drive:
            return min(self.balanced(p, k * self.car.antilock_adhesion_share), self.case.lift_off())
        k *= self.car.antilock_adhesion_share if self.antilock else self.car.driver_adhesion_share
        lock = self.lock(k)
        return free if lock is None else min(free, lock[1])

    def balanced(self, p, k):
        """Deceleration with each axle held to adhesion k: the a at which forces balance.

        Electronic distribution holds the rear to what the front uses. Both axles in one balance,
        m a = sum of min(asked, held) + f m g, and not one after the other: the loads that hold
        them move with a.
        """
        turning, wheels, radius = self.turning, self.wheels, self.car.radius
        free = self.slowed(*self.open_torques(p))
        # Of each axle the wheels of the lower and of the higher pressure, as if both were alike.
        pairs = []
        for axle, torque in enumerate(self.open_torques(p)):
            strong = self.asked_torque(axle, p)
            pairs.append((2 * torque - strong, strong) if self.apart[axle] else (torque, torque))

        def left_over(a):
            total = -self.mass * a
            limits = [k, k]
            if self.regulated:
                carried = wheels[0] * self.load(0, a)
                limits[1] = min(k, self.open_asked(0, p, a) / carried)
            for axle in (0, 1):
                load, share = self.load(axle, a), wheels[axle]
                for torque in pairs[axle]:
                    # The wheel itself, with what it rolls against, then those without brakes.
                    loose = share * (self.car.rolling * load - turning[axle] * a)
                    asked = torque / radius[axle] + loose
                    loose += self.dragged[axle] / radius[axle]
                    if torque > 0 and limits[axle] < INF:
                        asked = max(loose, min(asked, limits[axle] * share * load))
                    total += asked / 2
                total += (1 - share) * (self.car.rolling * load - turning[axle] * a)
            return total

        if left_over(free) >= -1e-12 * self.weight or left_over(0.0) <= 0.0:
            return free if left_over(0.0) > 0.0 else min(0.0, free)
        return root(left_over, 0.0, free)

    def pushes(self, force):
        """Brake torque over radius of each axle that tyres or anti-lock let stand."""
        car, k = self.car, self.car.adhesion
        p = car.pressure(force, self.failure)
        a = self.at(p)
        k *= car.antilock_adhesion_share if self.antilock else car.driver_adhesion_share
        controlled = self.antilock and not car.locked_drive
        lock = None if controlled else self.lock(k)
        p = p if lock is None else min(p, lock[0])
        found = []
        torques = self.torques(p)
        if controlled and a < self.free(p) * (1 - 1e-12):  # by more than rounding
            torques = self.open_torques(p)  # the anti-lock alone
        for axle, torque in enumerate(torques):
            push = torque / car.radius[axle]
            left = (k - car.rolling) * self.wheels[axle] * self.load(axle, a)
            kept = left + self.wheels[axle] * self.turning[axle] * a
            found.append(min(push, kept) if controlled else push)
        return found

    def sliding(self, p):
        """Deceleration when nothing keeps wheels from locking: those past the peak slide."""
        k, free = self.car.adhesion, self.free(p)
        lock = self.lock(k)
        if lock is None or p <= lock[0]:
            return free
        slides = [self.car.locked_drive or axle == lock[2] for axle in range(2)]
        a = self.slid(p, slides)
        other = 1 - lock[2]
        share, load = self.wheels[other], self.load(other, a)
        asked = self.asked_torque(other, p) / self.car.radius[other]
        asked += share * (self.car.rolling * load - self.turning[other] * a)
        if not slides[other] and asked > k * share * load:
            a = self.slid(p, [True, True])
        return min(a, self.case.lift_off())

    def slid(self, p, slides):
        """Deceleration with some axles locked and sliding."""
        friction = self.car.adhesion * self.car.get("road.sliding")
        torques = self.open_torques(p)

        def left_over(a):
            total = -self.mass * a
            for axle in (0, 1):
                load, locked = self.load(axle, a), self.wheels[axle] if slides[axle] else 0.0
                total += locked * friction * load
                total += (1 - locked) * (self.car.rolling * load - self.turning[axle] * a)
                total += 0.0 if slides[axle] else torques[axle] / self.car.radius[axle]
            return total

        slope = left_over(1.0) - left_over(0.0)
        return left_over(0.0) / -slope if slope < 0 else INF

    def pressure_for(self, a):
        """Pressure whose free deceleration is a."""
        return first_root(lambda p: self.free(p) - a, self.corners)

    def lift(self):
        """Pressure at which the rear axle has no load left."""
        if self.regulated not in self.lifted:
            p = self.pressure_for(self.case.lift_off())
            self.lifted[self.regulated] = 1e12 if p is None else p
        return self.lifted[self.regulated]

    def adhesion_used(self, p):
        a, f1, f2, n1, n2 = self.forces(p)
        if self.car.locked_drive:
            both = self.both_asked(p) / (self.wheels[0] * n1 + self.wheels[1] * n2)
            return both, both
        w1, w2 = self.wheels
        f1, f2 = self.asked(0, p), self.asked(1, p)
        # A lifted axle has no load to use any adhesion of; one that is let go there asks for none.
        lifted = 0.0 if self.regulated else NAN
        return f1 / (w1 * n1) if n1 > 0 else NAN, f2 / (w2 * n2) if n2 > 0 else lifted

    def rear_first_above(self):
        """Lowest a >= 0.15 g at which the rear uses more adhesion than the front.

        Infinite when it does not while it carries a load: a rear without torque never locks.
        """

        def difference(p):  # of k_2 - k_1, times both loads: sound up to a lifted axle
            _, _, _, n1, n2 = self.forces(p)
            return self.asked(1, p) * n1 - self.asked(0, p) * n2

        if self.distributed:
            return INF
        start = self.pressure_for(0.15 * G)
        if start is None:
            return NAN
        if difference(start) > 0:
            return max(self.free(start), 0.15 * G)
        lifted = self.lift()
        if lifted <= start:
            return INF
        edges = [start, *(c for c in self.corners if start < c < lifted), lifted]
        for low, high in zip(edges, edges[1:]):
            middle = (low + high) / 2
            low_d, middle_d, high_d = difference(low), difference(middle), difference(high)
            # Between corners it is a parabola in p: cut at its vertex when that lies inside.
            bend = low_d - 2 * middle_d + high_d
            cuts = [low, high]
            if bend:
                vertex = middle + (low_d - high_d) / (4 * bend) * (high - low)
                if low < vertex < high:
                    cuts = [low, vertex, high]
            for left, right in zip(cuts, cuts[1:]):
                if difference(right) > 0:
                    return self.free(root(difference, left, right))
        return INF


class Case:
    """A load case of a vehicle."""

    def __init__(self, car, load):
        self.car, self.load = car, load
        self.body = body_of(car.vehicle, load)
        self.motions = {}

    def front_load(self, a):
        """Load on the front axle: moment of momentum about a point of the road, wheels included."""
        body, wheelbase = self.body, self.car.wheelbase
        slowed = body.mass * body.height * a
        for inertia, radius in zip(self.car.inertia, self.car.radius):
            slowed += 2 * inertia * a / radius  # a / radius: change of the wheels' speed
        return (body.mass * G * (wheelbase - body.x) + slowed) / wheelbase

    def lift_off(self):
        """Deceleration at which the rear axle has no load left."""
        rear = self.body.mass * G - self.front_load(0.0)
        return rear / (self.front_load(1.0) - self.front_load(0.0))

    @property
    def axle_masses(self):
        rear = self.body.mass * self.body.x / self.car.wheelbase
        return self.body.mass - rear, rear

    def valve_at(self, failure):
        """Knee and slope of the valve."""
        get, kind = self.car.get, self.car.valve
        if kind in ("none", "ebd"):
            return INF, 1.0
        slope = number(get("valve.slope"))
        if failure == "valve_open":
            return INF, 1.0
        if failure == "valve_shut":
            return 0.0, slope
        return self.knee(), slope

    def knee(self):
        get, kind = self.car.get, self.car.valve
        knee = number(get("valve.knee"))
        if kind == "fixed":
            return knee
        felt = self.axle_masses[1]
        if kind == "height":  # a body that stands higher feels like a lighter one
            felt -= number(get("valve.uncorrected_lift")) * number(get("valve.stiffness")) / G
        moved = knee + number(get("valve.knee_rate")) * (felt - number(get("valve.set_mass")))
        return moved if moved > 0 else 0.0 if known(moved) else NAN

    def motion(self, failure=None):
        if failure not in self.motions:
            self.motions[failure] = Motion(self, failure)
        return self.motions[failure]

    def can_fail(self, failure):
        car = self.car
        if failure == "no_assist":
            return car.boosted
        if failure in ("low_vacuum", "engine_off"):
            return car.boosted
        if failure == "second_circuit":
            return len(car.circuits) == 2
        if failure in ("valve_open", "valve_shut"):
            return car.sensing
        if failure == "no_antilock":
            return car.antilock
        return True

    def deceleration(self, force, failure=None):
        if not (failure is None or self.can_fail(failure)):
            return NAN
        return self.motion(failure).at(self.car.pressure(force, failure))

    # Results

    def results(self):
        most = self.car.get("driver.pedal_force_most")
        found = {}
        for group in (
            self.mass_results(),
            self.deceleration_results(most),
            self.pedal_results(most),
            self.balance_results(),
            {f"failed.{failure}": self.deceleration(most, failure) for failure in FAILURES},
            # No electronic distribution is stuck shut.
            {"failed.valve_shut": NAN} if self.car.valve == "ebd" else {},
            {"failed.wheels_locked": self.motion().sliding(self.car.pressure(most))},
            self.stop_results(most),
            self.parking_results(),
            self.tow_results(most),
        ):
            found.update(group)
        return found

    def mass_results(self):
        get, body = self.car.get, self.body
        found = {
            "mass.total": body.mass,
            "mass.effective": body.mass + sum(self.car.turning),
            "mass.rated_margin": over(number(get("vehicle.rated_mass")), body.mass) - 1,
            "cg.behind_front_axle": body.x,
            "cg.height": body.height,
        }
        for axle, load, abreast in zip(AXLES, self.axle_masses, self.car.abreast):
            found[f"mass.{axle}_axle"] = load
            found[f"mass.{axle}_axle_margin"] = number(get(f"{axle}.axle.rated_mass")) / load - 1
            tyres = 2 * abreast * number(get(f"{axle}.tyre.load_capacity"))
            found[f"mass.{axle}_tyre_margin"] = tyres / load - 1
        return found

    def deceleration_results(self, most):
        car, motion = self.car, self.motion()
        return {
            "deceleration.at_pedal_force": self.deceleration(car.get("driver.pedal_force")),
            "deceleration.most": self.deceleration(most),
            "deceleration.brakes_alone": motion.free(car.pressure(most)),
        }

    def endless(self):
        """In motion as if no chamber came to its end."""
        if "endless" not in self.motions:
            self.motions["endless"] = Motion(self, None, endless=True)
        return self.motions["endless"]

    def target_pressure(self):
        return self.endless().pressure_for(self.car.get("driver.target"))

    def pedal_results(self, most):
        car, motion, p = self.car, self.motion(), self.target_pressure()
        found = {
            "pedal.force_for_target": car.force_for(p),
            "pedal.pressure_for_target": p,
            "pedal.knee_force": car.knee_force(),
            "pedal.knee_deceleration": NAN,
            "pedal.travel": car.pad_needed(p),
            "pedal.travel_used": car.pad_needed(p) / car.travel,
        }
        if known(found["pedal.knee_force"]):
            knee = car.free_pressure(found["pedal.knee_force"])
            found["pedal.knee_deceleration"] = motion.free(knee)
        for index, name in enumerate(("primary", "secondary")):
            used = NAN
            if index < len(car.circuits):
                circuit = car.circuits[index]
                used = car.fluid(circuit, p) / car.master_area / circuit.stroke
            found[f"pedal.{name}_stroke_used"] = used
        for name in ("first", "second"):
            failure = f"{name}_circuit"
            travel = NAN
            if car.failed_chamber(failure) is not None:
                travel = car.pad_travel(car.pressure(most, failure), failure)
            found[f"pedal.travel_{name}_failed"] = travel
        parts = {
            "gaps": sum(brake.gaps for brake in car.brakes),
            "shoes": sum(brake.shoes for brake in car.brakes),
            "take_up": len(car.circuits) * car.take_up,
            "compliance": sum(car.give_way(brake, p) for brake in car.brakes),
            "hoses": car.hoses * p,
            "air": car.air * p / (p + ATMOSPHERE),
        }
        parts["total"] = sum(parts.values())
        found.update({f"fluid.{name}": volume for name, volume in parts.items()})
        return found

    def balance_results(self):
        car, motion = self.car, self.motion()
        target, k = car.get("driver.target"), car.adhesion
        ideal = self.front_load(target) / (self.body.mass * G)
        found = {"balance.ideal_front_share": ideal}
        available = motion.open_torques(car.pressure(car.get("driver.pedal_force_most")))
        total = 0
        for index, (axle, share) in enumerate(zip(AXLES, (ideal, 1 - ideal))):
            radius = car.radius[index]
            needed = share * self.body.mass * target * radius
            needed += 2 * car.inertia[index] * target / radius
            found[f"torque.{axle}_needed"] = needed
            found[f"torque.{axle}_available"] = available[index]
            found[f"torque.{axle}_margin"] = over(available[index], needed) - 1
            total += needed
        found["torque.margin"] = over(sum(available), total) - 1
        p = motion.pressure_for(target)
        f1, used = NAN, (NAN, NAN)  # a chamber at its end holds what would be wanted
        found["balance.front_share"] = NAN
        if p is not None:
            _, f1, f2, _, _ = motion.forces(p)
            used = motion.adhesion_used(p)
            found["balance.front_share"] = f1 / (f1 + f2)
        found["balance.front_adhesion_used"], found["balance.rear_adhesion_used"] = used
        lock = motion.lock(k)
        pressure, a, axle = lock if lock else (NAN, NAN, NAN)
        found["balance.lock_deceleration"] = a
        found["balance.lock_axle"] = axle
        found["balance.lock_pedal_force"] = car.force_for(pressure) if lock else NAN
        found["balance.efficiency"] = a / (k * G)
        found["balance.rear_first_above"] = motion.rear_first_above()
        both = motion.lock(k, locked_drive=True)
        found["balance.locked_drive_lock_deceleration"] = both[1] if both else NAN
        found["balance.valve_knee"] = NAN if car.valve in ("none", "ebd") else motion.knee
        d, scrub = number(car.get("front.axle.side_difference")), number(
            car.get("front.axle.scrub_radius")
        )
        # The larger wheel force is F/(2 - d): the difference is d of it.
        found["steering.pull"] = d * (f1 / (2 - d)) * scrub
        found.update(self.one_circuit_results(scrub))
        return found

    def one_circuit_results(self, scrub):
        """What a diagonal split does with one circuit failed, the larger of both."""
        pulls, yaws = [], []
        tracks = [number(self.car.get(f"{axle}.axle.track")) for axle in AXLES]
        for failure in FAILURES[:2] if self.car.get("circuits.split") == "X" else ():
            front, rear = self.motion(failure).pushes(self.car.get("driver.pedal_force_most"))
            pulls.append(front * scrub)
            yaws.append((front * tracks[0] - rear * tracks[1]) / 2)
        return {
            "steering.pull_one_circuit": max(pulls, key=abs, default=NAN),
            "steering.yaw_one_circuit": max(yaws, key=abs, default=NAN),
        }

    def stop_results(self, most):
        car, motion = self.car, self.motion()
        get, speed = car.get, car.get("stop.speed")
        a = self.deceleration(most)
        distance = car.stop_distance(speed, a)
        dead, rise = car.delay
        energy = (self.body.mass + sum(car.turning)) * speed**2 / 2
        p = motion.pressure_for(a)
        front, rear = motion.torques(p) if p is not None else (NAN, NAN)
        front, rear = front / car.radius[0], rear / car.radius[1]
        share = over(front, front + rear) if front + rear > 1e-6 else NAN  # what brakes nothing
        found = {
            "stop.distance": distance,
            # Dead time, rise at a/2 in the mean, then from what is left of the speed.
            "stop.time": dead + rise + over(speed - a * rise / 2, a),
            "stop.sight_distance": distance + speed * get("stop.reaction_time"),
            "stop.energy": energy,
            "stop.front_heat_share": share,
        }
        for axle, part, brake in zip(AXLES, (share, 1 - share), car.brakes):
            # 450 J/(kg K): grey iron (check value CV-30)
            found[f"stop.{axle}_rise"] = energy * part / (2 * brake.wall_mass * 450.0)
        return found

    # Parking

    def effort_grade(self, torque, mass):
        sine = torque / (mass * G * self.car.radius[self.car.parking_axle])
        if not sine < 1:
            return INF if known(sine) else NAN
        return math.tan(math.asin(sine))

    def tyre_grades(self):
        """Grades on which the braked tyres begin to slide, nose up and down (check value CV-22)."""
        k, body, wheelbase = self.car.adhesion, self.body, self.car.wheelbase
        grades = []
        for height in (body.height, -body.height):

            def spare(angle, height=height):
                down = math.sin(angle)
                rear = (math.cos(angle) * body.x + down * height) / wheelbase
                front = math.cos(angle) - rear
                held = {"front": front, "rear": rear, "all": front + rear}
                return down - k * held[self.car.get("parking.on")]

            grades.append(math.tan(root(spare, 0.0, math.pi / 2)))
        return grades

    def parking(self, torque):
        """Grade nose up, nose down, and deceleration by the parking brake alone."""
        effort = self.effort_grade(torque, self.body.mass)
        if not known(effort):
            return NAN, NAN, NAN
        up, down = self.tyre_grades()
        radius = self.car.radius[self.car.parking_axle]
        by_torque = torque / (radius * (self.body.mass + sum(self.car.turning)))
        return min(effort, up), min(effort, down), min(by_torque, G * min(up, down))

    def trailer_grade(self, torque):
        trailer = self.car.get("trailer.mass")
        return self.effort_grade(torque, self.body.mass + trailer) if trailer > 0 else NAN

    def parking_results(self):
        car = self.car
        torque = car.parking_torque()
        needed = self.body.mass * G * car.radius[car.parking_axle] * math.sin(math.atan(0.20))
        up, down, slowed = self.parking(torque)
        return {
            "parking.needed": needed,
            "parking.available": torque,
            "parking.margin": torque / needed - 1,
            "parking.effort_grade": self.effort_grade(torque, self.body.mass),
            "parking.grade_up": up,
            "parking.grade_down": down,
            "parking.deceleration": slowed,
            "parking.trailer_grade": self.trailer_grade(torque),
        }

    def tow(self, a, share):
        get = self.car.get
        trailer = get("trailer.mass")
        if not trailer > 0:
            return NAN
        force = self.body.mass * a + share * get("trailer.braking_ratio") * trailer * G
        return force / (self.body.mass + trailer)

    def tow_results(self, most):
        a = self.deceleration(most)
        return {
            "tow.without_brakes": self.tow(a, 0.0),
            "tow.as_stated": self.tow(a, self.car.get("trailer.working")),
            "tow.all_brakes": self.tow(a, 1.0),
        }


def speedometer(vehicle):
    """True speed over the speed shown: what is rolled over what is counted."""
    get = vehicle.get
    rolled = 2 * math.pi * get("rear.tyre.rolling_radius")
    counted = number(get("speedometer.rollout"))
    if get("speedometer.sensor") == "shaft":
        rolled /= number(get("driveline.axle_ratio"))
        counted /= number(get("speedometer.axle_ratio"))
    return rolled / counted


def evaluate(vehicle):
    """Results by path; NaN where one cannot be given."""
    car = vehicle if isinstance(vehicle, Car) else Car(vehicle)
    found = {"speedometer.true_over_shown": speedometer(car.vehicle)}
    for axle, brake in zip(AXLES, car.brakes):
        found[f"brakes.{axle}_torque_gain"] = brake.torque
    disc = car.get("front.axle.brake") == "disc"
    found["brakes.front_piston_area"] = piston_area(car.get("front.disc.pistons")) if disc else NAN
    found["brakes.front_pad_radius"] = car.get("front.disc.effective_radius") if disc else NAN
    for load in BOTH:
        results = car.cases[load].results()
        found.update({f"{load}.{path}": value for path, value in results.items()})
    return found


# Criteria (method.md section 7). Figures: see the tables of the standards that each names.

KMH = 1 / 3.6
MPH = 0.44704
FOOT = 0.3048
LBF = 0.45359237 * G
TEN_THOUSAND_LB = 10000 * 0.45359237
BOTH, EMPTY, FULL, RATED = ("empty", "full"), ("empty",), ("full",), ("rated",)
LIGHT_AND_RATED, EMPTY_AND_RATED = ("light", "rated"), ("empty", "rated")
WORKING = (None,)
ONE_CIRCUIT = ("first_circuit", "second_circuit")


class Criterion(NamedTuple):
    measure: str
    limit: float = NAN
    loads: tuple = BOTH
    failures: tuple = WORKING
    force: float = 0.0  # pedal, or hand; 0: the driver's most
    speed: float = 0.0  # km/h; 0: 80 % of top speed
    cap: float = 0.0  # km/h
    lag: float = 0.0  # s; distances: lag v + coefficient v^2, v in km/h in the square
    coefficient: float = 0.0
    rate: float = 0.0  # m/s2, of a pedal force
    foot: float = 0.0  # parking pedal; 0: 100 N more than by hand
    applies: tuple = ()
    since: float = 0.0  # year of first registration
    until: float = INF


def fmvss_distance(coefficient, *applies, speed=100.0, **others):
    return Criterion(
        "distance", force=500.0, speed=speed, lag=0.36, coefficient=coefficient,
        applies=("light", *applies), **{"loads": LIGHT_AND_RATED, **others},
    )  # fmt: skip


def part_393(applies, ratio, deceleration, distance, emergency):
    """49 CFR 393.52(d): brake force, deceleration and distance from 20 mph, emergency."""
    applies = (*applies, "commercial")
    return {
        "force": Criterion("ratio", ratio, applies=applies),
        "deceleration": Criterion("deceleration", deceleration * FOOT, applies=applies),
        "distance": Criterion("distance", distance * FOOT, speed=20 * MPH / KMH, applies=applies),
        "emergency": Criterion(
            "distance", emergency * FOOT, failures=ONE_CIRCUIT, speed=20 * MPH / KMH,
            applies=applies,
        ),
    }  # fmt: skip


def r13h(measure, limit=NAN, *applies, force=500.0, **others):
    others = {"loads": EMPTY_AND_RATED, **others}
    return Criterion(measure, limit, force=force, applies=("M1", *applies), **others)


def r13(measure, limit=NAN, *applies, force=700.0, **others):
    others = {"loads": EMPTY_AND_RATED, **others}
    return Criterion(measure, limit, force=force, applies=("N1", *applies), **others)


def efficiency(limit, *applies, failures=WORKING, **years):
    return Criterion(
        "roller", limit, loads=RATED, failures=failures, applies=applies, **years
    )


# What hurts whatever binds the vehicle; the sources of the limits are in the table of section 7.
HAZARDS = {
    "floor": Criterion("stroke", 1.0, FULL),
    "reserve": Criterion("travel", 0.80, EMPTY, force=222.4),
    "rear_first": Criterion("rear first", 0.80, applies=("M1", "no antilock")),
    "rear_first_n1": Criterion("rear first", 0.50, applies=("N1", "no antilock")),
    "self_lock": Criterion("shoe lock", 1.0, FULL, applies=("shoes",)),
    "circuit": r13h("deceleration", 2.44, failures=ONE_CIRCUIT, loads=FULL),
    "circuit_n1": r13("deceleration", 1.3, failures=ONE_CIRCUIT, loads=FULL),
    "assist": r13h("deceleration", 2.44, "boosted", failures=("no_assist",), loads=FULL),
    "assist_n1": r13("deceleration", 2.2, "boosted", failures=("no_assist",), loads=FULL),
    "parking": Criterion("grade", 0.16, FULL, force=400.0),
    "tyre_load": Criterion("tyre load", 1.0, FULL),
    "axle_load": Criterion("axle load", 1.0, FULL),
    "mass": Criterion("mass", 1.02, FULL),
}

def secondary(limit, *applies, **years):
    return efficiency(limit, *applies, "separate secondary", failures=ONE_CIRCUIT, **years)


def mot(limit, *applies, **others):
    """By the weight on the tester: as the vehicle is brought there."""
    return Criterion("roller", limit, loads=EMPTY, applies=applies, **others)


def dutch(limit, force, *applies, **years):
    return Criterion("deceleration", limit, force=force, applies=applies, **years)


def failed_in_nsw(failures, *applies):
    """NSW manual p. 38: 2.55 m/s2 on average from 80 km/h, M1 full, N1 light and rated."""
    def row(kind, loads):
        return Criterion(
            "average", 2.55, loads=loads, failures=failures, speed=80.0,
            applies=(*applies, kind, "4500 kg"),
        )  # fmt: skip

    return row("M1", FULL), row("N1", LIGHT_AND_RATED)


def on_a_plate(limit, failure, *applies, force=0.0):
    return Criterion(
        "ratio", limit, EMPTY, (failure,), force, applies=(*applies, "4500 kg")
    )


NSW_FAILURES = {
    "circuit": failed_in_nsw(ONE_CIRCUIT),
    "valve": failed_in_nsw(("valve_open", "valve_shut"), "valve"),
    "antilock": failed_in_nsw(("no_antilock",), "antilock"),
}
HEAVY = ("heavier", "10000 lb")


CRITERIA = {
    **{f"hazard.{name}": row for name, row in HAZARDS.items()},
    # 49 CFR 571.105: S5.2, S5.1.3.2, S5.1.5.2 (90 lbf)
    "us.105.parking": Criterion(
        "grade", 0.20, LIGHT_AND_RATED, force=90 * LBF, foot=125 * LBF, applies=HEAVY
    ),
    "us.105.assist_spent": Criterion(
        "distance", 646 * FOOT, RATED, ("no_assist",), 150 * LBF, 60 * MPH / KMH,
        applies=(*HEAVY, "boosted"),
    ),
    "us.105.water": Criterion("pedal force", 90 * LBF, RATED, rate=10 * FOOT, applies=HEAVY),
    # 49 CFR 571.135: S7.5, S7.6, S7.7, S7.8, S7.9, S7.10, S7.11, S7.12, S7.2, S7.4
    "us.135.cold": fmvss_distance(0.0060),
    "us.135.high_speed": fmvss_distance(
        0.0067, "fast", speed=0.0, cap=160.0, failures=("in_gear",)
    ),
    "us.135.engine_off": fmvss_distance(
        0.0060, "boosted", loads=RATED, failures=("engine_off",)
    ),
    "us.135.antilock_failed": fmvss_distance(0.0075, "antilock", failures=("no_antilock",)),
    "us.135.valve_failed": fmvss_distance(
        0.0100, "sensing valve", failures=("valve_open", "valve_shut")
    ),
    "us.135.circuit_failed": fmvss_distance(0.0158, failures=ONE_CIRCUIT),
    "us.135.assist_failed": fmvss_distance(0.0158, "boosted", loads=RATED, failures=("no_assist",)),
    "us.135.parking": Criterion("grade", 0.20, RATED, force=400.0, applies=("light",)),
    "us.135.lock_order": Criterion(
        "rear first", 0.80, LIGHT_AND_RATED, applies=("light", "no antilock")
    ),
    "us.135.rear_curve": Criterion(
        "rear curve", 1.0, LIGHT_AND_RATED, applies=("light", "no antilock")
    ),
    # 49 CFR 393.52(d) A(1), A(2), B(1)
    **{
        f"us.393.{kind}.{name}": row
        for kind, rows in {
            "car": part_393(("M1", "car frame"), 0.652, 21, 20, 54),
            "wagon": part_393(("M1", "truck frame", "10000 lb"), 0.528, 17, 25, 66),
            "goods": part_393(("N1", "10000 lb"), 0.528, 17, 25, 66),
        }.items()
        for name, row in rows.items()
    },
    # 49 CFR 570.5(d)(2), (c) with 50 lbf, (d)(1)
    "us.570.road_test": Criterion(
        "distance", 25 * FOOT, EMPTY, speed=20 * MPH / KMH, applies=("10000 lb",)
    ),
    "us.570.pedal": Criterion("travel", 0.80, EMPTY, force=222.4, applies=("10000 lb",)),
    "us.570.sides": Criterion("sides", 0.25, EMPTY, applies=("10000 lb",)),
    # UN R13-H, annex 3 (2.1.1, 2.1.2, 2.2, 2.3) and annex 5 (3.1)
    "un.13h.type0": r13h("deceleration", 6.43),
    "un.13h.type0_distance": r13h("distance", speed=100.0, lag=0.36, coefficient=0.0060),
    "un.13h.high_speed": r13h(
        "distance", NAN, "fast", cap=160.0, lag=0.36, coefficient=0.0067, failures=("in_gear",)
    ),
    "un.13h.trailer": r13h("tow", 5.4, "trailer"),
    "un.13h.circuit": r13h("deceleration", 2.44, failures=ONE_CIRCUIT),
    "un.13h.circuit_distance": r13h(
        "distance", failures=ONE_CIRCUIT, speed=100.0, lag=0.36, coefficient=0.0158
    ),
    "un.13h.assist": r13h("deceleration", 2.44, "boosted", failures=("no_assist",)),
    "un.13h.parking": r13h("grade", 0.20, force=400.0, loads=RATED),
    "un.13h.parking_trailer": r13h("trailer grade", 0.12, "trailer", force=400.0, loads=RATED),
    "un.13h.parking_moving": r13h("parking deceleration", 1.5, force=400.0, loads=RATED),
    "un.13h.adhesion": r13h("adhesion", 1.0, "no antilock", coefficient=0.7),
    "un.13h.lock_order": r13h("rear first", 0.80, "no antilock"),
    # UN R13, annex 4 (2.1.1, 2.2, 2.4, 2.3) and annex 10
    "un.13.type0": r13("deceleration", 5.0),
    "un.13.type0_distance": r13("distance", speed=80.0, lag=0.54, coefficient=1 / 130),
    "un.13.high_speed": r13(
        "distance", cap=120.0, lag=0.54, coefficient=1 / 103.5, failures=("in_gear",)
    ),
    # Secondary: with the service pedal, its assist failed (a failed circuit is 2.4, residual).
    "un.13.secondary": r13("deceleration", 2.2, "boosted", failures=("no_assist",)),
    "un.13.residual_full": r13("deceleration", 1.3, failures=ONE_CIRCUIT, loads=RATED),
    "un.13.residual_empty": r13("deceleration", 1.1, failures=ONE_CIRCUIT, loads=EMPTY),
    "un.13.parking": r13("grade", 0.18, force=600.0, loads=RATED),
    "un.13.parking_trailer": r13("trailer grade", 0.12, "trailer", force=600.0, loads=RATED),
    "un.13.adhesion": r13("adhesion", 1.0, "no antilock", coefficient=0.85),
    "un.13.lock_order": r13("rear first", 0.50, "no antilock"),
    # Directive 2014/45/EU, annex I, 1.2.2, 1.3.2, 1.4.2, 1.2.1
    "eu.45.service_m1": efficiency(0.58, "M1", since=2012),
    "eu.45.service_m1_old": efficiency(0.50, "M1", "antilock", until=2012),
    "eu.45.service_m1_plain": efficiency(0.48, "M1", "no antilock", until=2012),
    "eu.45.service_n1": efficiency(0.50, "N1", since=2012),
    "eu.45.service_n1_old": efficiency(0.45, "N1", until=2012),
    "eu.45.secondary_m1": secondary(0.29, "M1", since=2012),
    "eu.45.secondary_m1_old": secondary(0.25, "M1", "antilock", until=2012),
    "eu.45.secondary_m1_plain": secondary(0.24, "M1", "no antilock", until=2012),
    "eu.45.secondary_n1": secondary(0.25, "N1", since=2012),
    "eu.45.secondary_n1_old": secondary(0.225, "N1", until=2012),
    "eu.45.parking": Criterion("parking ratio", 0.16, RATED),
    "eu.45.parking_trailer": Criterion(
        "parking trailer ratio", 0.12, RATED, applies=("trailer",)
    ),
    "eu.45.sides": Criterion("sides", 0.30, EMPTY),
    # DVSA MOT manual, 1.2.2, 1.3.2, 1.4.2, 1.2.1
    "gb.mot.service_m1": mot(0.58, "M1", since=2010 + 8 / 12),
    "gb.mot.service_m1_old": mot(0.50, "M1", until=2010 + 8 / 12),
    "gb.mot.service_n1": mot(0.50, "N1", "MOT class 4"),
    "gb.mot.service_class7": Criterion("roller or lock", 0.50, RATED, applies=("MOT class 7",)),
    "gb.mot.secondary": mot(0.25, "separate secondary", "MOT class 4", failures=ONE_CIRCUIT),
    "gb.mot.parking": Criterion("parking ratio", 0.16, EMPTY, applies=("MOT class 4",)),
    "gb.mot.parking_class7": Criterion("parking ratio", 0.16, RATED, applies=("MOT class 7",)),
    "gb.mot.sides": Criterion("sides", 0.30, EMPTY, force=40 * G),  # less is passed over
    # Regeling voertuigen 5.2.38, 5.3.38, Annex VIII 61
    "nl.service_m1": dutch(5.8, 500.0, "M1", since=2012),
    "nl.service_m1_old": dutch(5.2, 500.0, "M1", since=1967.5, until=2012),
    "nl.service_m1_1967": dutch(3.8, 500.0, "M1", until=1967.5),
    "nl.service_n1": dutch(5.0, 700.0, "N1", since=2012),
    "nl.service_n1_2011": dutch(4.5, 700.0, "N1", since=1998, until=2012),
    "nl.service_n1_1997": dutch(4.0, 700.0, "N1", since=1967.5, until=1998),
    "nl.service_n1_1967": dutch(3.8, 700.0, "N1", until=1967.5),
    "nl.parking": Criterion("grade", 0.16, since=1967.5),
    "nl.parking_1967": Criterion("parking deceleration", 1.0, until=1967.5),
    "nl.train": Criterion("train", 4.0, applies=("trailer",)),
    "nl.train_parking": Criterion("trailer grade", 0.10, applies=("trailer",)),
    "nl.sides": Criterion("sides", 0.30, EMPTY),
    # StVZO 41(4), (4a), (5), (11)
    "de.41.service": Criterion("deceleration", 5.0, RATED),
    "de.41.part_failed": Criterion("deceleration", 2.2, RATED, ONE_CIRCUIT),
    "de.41.parking": Criterion("parking deceleration", 1.5, RATED),
    "de.41.unbraked_trailer": Criterion("tow", 5.0, RATED, applies=("unbraked trailer",)),
    # Quebec, C-24.2, r. 32: 32, 35, 165
    "ca.qc.service": Criterion("deceleration", 6.0, EMPTY, applies=("4500 kg",)),
    "ca.qc.travel": Criterion("travel", 0.65, EMPTY, force=550.0, applies=("4500 kg",)),
    "ca.qc.travel_major": Criterion("travel", 0.80, EMPTY, force=550.0, applies=("4500 kg",)),
    # NSW manual, p. 12, 38, 25
    "au.nsw.pretest": Criterion(
        "average", 2.9, EMPTY, force=885.0, speed=30.0, applies=("4500 kg",)
    ),
    "au.nsw.pretest_peak": Criterion("deceleration", 3.4, EMPTY, force=885.0, applies=("4500 kg",)),
    **{
        f"au.nsw.{what}_{kind}": row
        for what, rows in NSW_FAILURES.items()
        for kind, row in zip(("m1", "n1"), rows)
    },
    "au.nsw.plate_front_out": on_a_plate(0.20, "first_circuit", "axle split"),
    "au.nsw.plate_rear_out": on_a_plate(0.50, "second_circuit", "axle split"),
    "au.nsw.plate_assist_out": on_a_plate(0.50, "no_assist", "boosted", force=500.0),
}


NEEDED = {
    "light": "vehicle.rated_mass",
    "10000 lb": "vehicle.rated_mass",
    "4500 kg": "vehicle.rated_mass",
    "fast": "vehicle.top_speed",
}


def applies(car, what):
    """Whether a vehicle is of a kind; None: it is not said."""
    get = car.get
    if what in NEEDED and not known(get(NEEDED[what])):
        return None
    rated = number(get("vehicle.rated_mass"))
    return {
        "M1": get("vehicle.category") == "M1",
        "N1": get("vehicle.category") == "N1",
        "light": rated <= 3500,
        "10000 lb": rated <= TEN_THOUSAND_LB,
        "4500 kg": rated <= 4500,
        "heavier": rated > 3500,  # not known: it is not looked at
        "MOT class 4": not (get("vehicle.category") == "N1" and rated > 3000),
        "MOT class 7": get("vehicle.category") == "N1" and 3000 < rated <= 3500,
        "car frame": get("vehicle.frame") == "car",
        "truck frame": get("vehicle.frame") == "truck",
        "antilock": car.antilock,
        "no antilock": not car.antilock,
        "boosted": car.boosted,
        "sensing valve": car.sensing,
        "valve": get("valve.kind") != "none",
        "axle split": get("circuits.split") == "II",
        "trailer": get("trailer.mass") > 0,
        "unbraked trailer": get("trailer.mass") > 0 and not get("trailer.braking_ratio") > 0,
        "commercial": get("vehicle.use") != "private",
        "separate secondary": get("vehicle.secondary") == "separate",
        "shoes": any(shoe_of(car.vehicle, axle) for axle in AXLES),
        "fast": number(get("vehicle.top_speed")) > 125 * KMH,
    }[what]


def clause_speed(criterion, car):
    """Speed of a distance test, m/s."""
    if criterion.speed:
        top = number(car.get("vehicle.top_speed")) / KMH
        slow = 5 * math.floor((top - 4) / 5) if top < criterion.speed else criterion.speed
        return slow * KMH
    return min(0.8 * number(car.get("vehicle.top_speed")), criterion.cap * KMH)


def limit_of(criterion, car):
    if criterion.measure == "distance" and criterion.coefficient:
        speed = clause_speed(criterion, car)
        return criterion.lag * speed + criterion.coefficient * (speed / KMH) ** 2
    return criterion.limit


def rear_curve(motion):
    """Largest of 0.9 k_2 / z for z from 0.15 to 0.80 (FMVSS 135 S7.4)."""
    largest = 0.0  # a rear without torque uses none
    for step in range(14):
        z = (15 + 5 * step) / 100
        p = motion.pressure_for(z * G)
        if p is None:
            return INF  # out of reach: the worst
        used = motion.adhesion_used(p)[1]
        largest = max(largest, 0.9 * used / z if known(used) else INF)
    return largest


def adhesion_curve(motion, slope):
    """Least of z / (0.1 + slope (k - 0.2)) for k from 0.2 to 0.8 (annex 5 of R13-H)."""
    least = INF
    for step in range(13):
        k = (20 + 5 * step) / 100
        lock = motion.lock(k)
        if lock is not None:
            least = min(least, lock[1] / G / (0.1 + slope * (k - 0.2)))
    return least


def lock_friction(vehicle, axle):
    """Friction from which on a leading shoe locks itself, over that of its lining.

    Moments about the pivot once more: friction turns the shoe on as far as the pressure turns it
    off. Infinite for shoes that never get there.
    """
    geometry = shoe_of(vehicle, axle)
    if geometry is None:
        return INF
    pivot, _, heel, toe = geometry
    radius = vehicle[f"{axle}.drum.diameter"] / 2
    shoes = [(heel, toe, vehicle[f"{axle}.drum.lining.mu"])]
    if vehicle[f"{axle}.drum.shoes"] == "duo_servo":
        shoes.append(secondary_of(vehicle, axle))
    return min(room_of_shoe(radius, pivot, *shoe) for shoe in shoes)


def room_of_shoe(radius, pivot, heel, toe, mu):
    half = (toe - heel) / 2
    angle = (toe + heel) / 2 + half * NODES
    pressure = numpy.sin(angle)
    off = float(WEIGHTS @ (pressure * pivot * numpy.sin(angle)))
    on = float(WEIGHTS @ (pressure * (radius - pivot * numpy.cos(angle))))
    return INF if on <= 0 else off / on / mu


def most_known(values):
    """The largest of what is known; NaN when nothing is."""
    return max((value for value in values if known(value)), default=NAN)


def stroke_used(car, motion):
    """Most of what full braking uses: of the pedal's travel, or of a chamber's stroke."""
    p = motion.case.endless().pressure_for(FULL_BRAKING)
    strokes = [car.fluid(one, p) / car.master_area / one.stroke for one in car.circuits]
    return most_known([car.pad_needed(p) / car.travel, *strokes])


def load_used(masses, most):
    """Most of what axles carry over what they may; both must be known."""
    most = [number(one) for one in most]
    return max(m / one for m, one in zip(masses, most)) if known(*most) else NAN


STOPS = "distance", "average", "deceleration", "ratio", "roller", "roller or lock", "tow", "train"


def sides(criterion, car, axle):
    forces = [number(car.get(f"tester.{axle}_{side}")) for side in ("left", "right")]
    if known(*forces) and max(forces) <= criterion.force:
        return 0.0
    return number(car.get(f"{axle}.axle.side_difference"))


def on_rollers(car, case, failure, force):
    """Force of each axle, and the most that rollers hold of it."""
    braked = case.motion(failure)
    forces = [t / r for t, r in zip(braked.open_torques(car.pressure(force, failure)), car.radius)]
    return forces, [ROLLER_ADHESION * w * m * G for w, m in zip(braked.wheels, case.axle_masses)]


def measured(criterion, car, case, failure):
    """What a criterion is judged by, for a load and a state of failure."""
    force = criterion.force or car.get("driver.pedal_force_most")
    measure, motion = criterion.measure, case.motion
    if measure in ("roller", "roller or lock") and not car.locked_drive:
        forces, most = on_rollers(car, case, failure, force)
        held = sum(min(one, bound) for one, bound in zip(forces, most))
        ratio = held / (case.body.mass * G)
        unladen, limits = on_rollers(car, car.cases["empty"], failure, force)
        hundred_kgf_each = 2 * 100 * G
        if measure == "roller or lock" and unladen[0] >= limits[0]:
            if min(unladen[1], limits[1]) >= hundred_kgf_each:
                return max(ratio, criterion.limit)
        return ratio
    if measure == "pedal force":
        p = motion().pressure_for(criterion.rate)
        return INF if p is None else car.force_for(p)  # no force gives it
    if measure in STOPS:
        a = case.motion(failure).at(car.pressure(force, failure))
        if measure in ("distance", "average"):
            speed = clause_speed(criterion, car)
            distance = car.stop_distance(speed, a)
            return distance if measure == "distance" else speed**2 / (2 * distance)
        towed = {"tow": 0.0, "train": car.get("trailer.working")}
        if measure in towed:
            return case.tow(a, towed[measure])
        return a if measure == "deceleration" else a / G
    if measure == "rear first":
        return INF if car.locked_drive else motion().rear_first_above() / G
    if measure == "rear curve":
        return rear_curve(motion())
    if measure == "adhesion":
        return adhesion_curve(motion(), criterion.coefficient)
    if measure == "sides":
        return float(numpy.max([sides(criterion, car, axle) for axle in AXLES]))
    if measure == "travel":
        return car.pad_travel(car.pressure(force)) / car.travel
    if measure == "stroke":
        return stroke_used(car, motion())
    if measure == "shoe lock":
        return min(lock_friction(car.vehicle, axle) for axle in AXLES)
    if measure == "tyre load":
        most = [2 * n * number(car.get(f"{axle}.tyre.load_capacity"))
                for n, axle in zip(car.abreast, AXLES)]  # fmt: skip
        return load_used(case.axle_masses, most)
    if measure == "axle load":
        return load_used(case.axle_masses, [car.get(f"{axle}.axle.rated_mass") for axle in AXLES])
    if measure == "mass":
        return case.body.mass / number(car.get("vehicle.rated_mass"))
    torque = car.parking_torque(criterion.force or INF, criterion.foot)
    if measure == "trailer grade":
        return case.trailer_grade(torque)
    if measure in ("parking ratio", "parking trailer ratio"):
        mass = case.body.mass
        if measure == "parking trailer ratio":
            mass += car.get("trailer.mass")
        return torque / (car.radius[car.parking_axle] * mass * G)
    up, down, slowed = case.parking(torque)
    return slowed if measure == "parking deceleration" else min(up, down)


def margin_of(measure, value, limit):
    if measure in ("sides", "travel", "stroke", "tyre load", "axle load", "mass"):
        return 1 - value / limit
    if measure in ("distance", "rear curve", "pedal force"):
        return limit / value - 1 if value > 0 else INF if known(value) else NAN
    return value / limit - 1


def in_years(criterion, year):
    """Whether a row is for vehicles of that year; without one the later rows are looked at."""
    if not known(year):
        return criterion.until == INF
    return criterion.since <= year < criterion.until


class Judgement(NamedTuple):
    verdict: str
    value: float
    limit: float
    margin: float
    applies: bool


def judge(vehicle):
    """Verdict at face value, value, limit and margin, all on the surface of brake tests."""
    car = Car(vehicle.vehicle if isinstance(vehicle, Car) else vehicle, TEST_ADHESION)
    found = {}
    for name, criterion in CRITERIA.items():
        kinds = [applies(car, what) for what in criterion.applies]
        if "rated" in criterion.loads and not known(car.get("vehicle.rated_mass")):
            kinds.append(None)
        kinds.append(in_years(criterion, car.get("vehicle.first_registered")))
        if not all(kinds):
            found[name] = Judgement("cannot say", NAN, NAN, NAN, False not in kinds)
            continue
        limit = limit_of(criterion, car)
        worst = None
        for load in criterion.loads:
            for failure in criterion.failures:
                if failure == "second_circuit" and len(car.circuits) < 2:
                    continue  # there is none to fail
                value = measured(criterion, car, car.cases[load], failure)
                margin = margin_of(criterion.measure, value, limit)
                if not known(margin):
                    worst = value, NAN
                elif worst is None or margin < worst[1]:
                    worst = value, margin
        value, margin = worst
        verdict = "cannot say"
        if known(margin):
            verdict = "meets" if margin >= 0 else "falls short"
        found[name] = Judgement(verdict, value, limit, margin, True)
    return found
