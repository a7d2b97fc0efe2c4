# SPDX-License-Identifier: MIT
"""Vehicles by the hundred thousand: sections 3 to 5, 7 and 9 of reference/method.md over arrays.

For vehicles like exact.ini: discs in front, drums of known shoes at the rear, diagonal circuits, no
valve, thresholds and rolling resistance of 0, a free centre drive. There pressure, deceleration and
force at the tyres are proportional, and what is sought has a closed form or is found by halving.
Nothing is taken from the C; the body of a load case is that of the oracle.
"""
import numpy
from scipy import stats

from oracle import model

G = 9.80665  # m/s2
ATMOSPHERE = 101325.0  # Pa
HUNDRED_BAR = 1e7  # Pa
SURFACE = 0.9  # of brake tests, method.md section 7
HOLDS = 1.96  # standard deviations on either side that hold 95 of 100
# What 95 of 100 are within by the model itself (section 9).
ERRORS = {"stop": 0.03, "balance": 0.03, "stroke": 0.10, "exact": 0.0}
# Loads of section 7: as driven; of UN Regulation 13-H; of 571.135.
DRIVEN, UN, US = ("empty", "full"), ("empty", "rated"), ("light", "rated")
LOADS = sorted({*DRIVEN, *UN, *US})
FRICTION = 0.5  # correlation of what front and rear linings go through together


# ---- drawing


def value_of(score, middle, least, most, low, high):
    """Values of standard normal scores: 95 of 100 from least to most, as many below the middle as
    above, those outside low to high left out."""
    widths = (middle - least) / HOLDS, (most - middle) / HOLDS

    def share_below(x):
        off = x - middle
        return stats.norm.cdf(off / numpy.where(off < 0, *widths))

    whole = share_below(low), share_below(high)
    score = stats.norm.ppf(whole[0] + stats.norm.cdf(score) * (whole[1] - whole[0]))
    return middle + score * numpy.where(score < 0, *widths)


class Draws:
    """Independent draws of NumPy's own generator."""

    def __init__(self, count, seed):
        self.of, self.count = numpy.random.default_rng(seed), count

    def scores(self):
        return self.of.standard_normal(self.count)

    def errors(self):
        """True over worked-out value of each kind of row."""
        return {kind: 1 + size / HOLDS * self.scores() for kind, size in ERRORS.items()}

    def tied(self):
        """Scores of front and rear friction, as they are and where they part."""
        front, rear, shared = (self.scores() for _ in range(3))
        own, both = (1 - FRICTION) ** 0.5, FRICTION**0.5 * shared
        return own * front + both, (own * rear + both, own * rear - both)


# ---- vehicles


def halved(beyond, high, count=100):
    """Where a rising function of an array reaches 0, from 0 to high."""
    low, high = numpy.zeros_like(high), high
    for _ in range(count):
        middle = (low + high) / 2
        over = beyond(middle) > 0
        low, high = numpy.where(over, low, middle), numpy.where(over, middle, high)
    return low


class Cars:
    """Lines by their path, each a number or an array of draws."""

    def __init__(self, lines, drawn):
        at = self.at = {**lines, **drawn}
        # The shapes of all arrays at once: every result has one number a draw.
        self.ones = numpy.ones(next(len(values) for values in drawn.values()))
        self.bodies = {load: model.body_of(lines, load) for load in LOADS}
        self.radius = at["front.tyre.rolling_radius"], at["rear.tyre.rolling_radius"]
        self.turning = [2 * at[f"{axle}.tyre.wheel_inertia"] / r**2
                        for axle, r in zip(("front", "rear"), self.radius)]  # fmt: skip
        self.pistons = model.piston_area(at["front.disc.pistons"])
        self.cylinder = numpy.pi / 4 * at["rear.drum.cylinder_diameter"] ** 2
        self.master = numpy.pi / 4 * at["master.bore"] ** 2
        self.push = self.front_push(), self.rear_push()
        self.adhesion = SURFACE * at["vehicle.tyre_grip"]

    # Brakes, in N at the road per Pa

    def front_push(self):
        at = self.at
        clamp = self.pistons * at["front.disc.efficiency"]
        torque = 2 * 2 * at["front.disc.pads.mu"] * clamp * at["front.disc.effective_radius"]
        return self.ones * torque / self.radius[0]

    def moments(self):
        """B and A of section 3."""
        at = self.at
        pivot, heel, toe = (at[f"rear.drum.lining.{x}"] for x in ("pivot_radius", "heel", "toe"))
        drum = at["rear.drum.diameter"] / 2
        friction = drum * (numpy.cos(heel) - numpy.cos(toe))
        friction -= pivot / 2 * (numpy.sin(toe) ** 2 - numpy.sin(heel) ** 2)
        normal = pivot * ((toe - heel) / 2 - (numpy.sin(2 * toe) - numpy.sin(2 * heel)) / 4)
        return normal, friction

    def rear_push(self):
        at, (normal, friction) = self.at, self.moments()
        mu, arm = self.ones * at["rear.drum.lining.mu"], at["rear.drum.lining.force_arm"]
        drag = mu * arm * (numpy.cos(at["rear.drum.lining.heel"])
                           - numpy.cos(at["rear.drum.lining.toe"]))  # fmt: skip
        leading = numpy.where(normal > mu * friction, drag / (normal - mu * friction), numpy.nan)
        factor = leading + drag / (normal + mu * friction)
        force = factor * at["rear.drum.efficiency"] * self.cylinder
        return 2 * force * at["rear.drum.diameter"] / 2 / self.radius[1]

    # Pedal and fluid

    def volume(self, p, circuits):
        """Fluid of so many of the two circuits."""
        at = self.at
        both = 4 * self.pistons * at["front.disc.pads.gap"]
        both = both + 4 * self.cylinder * at["rear.drum.piston_travel"]
        early, late = 1.1 * p / (p + HUNDRED_BAR / 10), p / HUNDRED_BAR
        both = both + 2 * at["front.disc.compliance"] * (4 * early + 3 * late) / 7
        both = both + (2 * at["rear.drum.compliance"] + at["circuits.hose_volume"]) * late
        both = both + at["circuits.air_volume"] * p / (p + ATMOSPHERE)
        return circuits * (both / 2 + self.master * at["master.take_up"])

    def floor(self, circuits):
        """Pressure at which the pedal is at its end."""
        at = self.at
        room = self.master * (at["pedal.travel"] - at["pedal.free_play"]) / at["pedal.ratio"]
        return halved(lambda p: self.volume(p, circuits) - room, 1e9 * self.ones)

    def knee(self):
        """Rod force at which the booster has given all."""
        return self.at["booster.assist"] / (self.at["booster.gain"] - 1)

    def rod(self, force):
        return self.ones * force * self.at["pedal.ratio"] * self.at["pedal.efficiency"]

    def unlimited(self, force):
        rod = self.rod(force)
        out = numpy.minimum(self.at["booster.gain"] * rod, rod + self.at["booster.assist"])
        return out * self.at["master.efficiency"] / self.master

    def pressure(self, force, circuits=2):
        return numpy.minimum(self.unlimited(force), self.floor(circuits))

    def travel(self, p):
        return self.at["pedal.free_play"] + self.at["pedal.ratio"] * (
            self.volume(p, 2) / self.master
        )


class Motion:
    """Cars with a load and so many circuits: a = slope p, N = static -+ shift a, F = share a."""

    def __init__(self, cars, load, circuits=2):
        body, wheelbase = cars.bodies[load], cars.at["vehicle.wheelbase"]
        self.cars, self.circuits, self.mass = cars, circuits, body.mass
        self.wheels = circuits / 2
        push = [self.wheels * one for one in cars.push]
        self.slope = sum(push) / (body.mass + sum(cars.turning))
        self.share = [one / self.slope - self.wheels * j for one, j in zip(push, cars.turning)]
        rear = body.mass * G * body.x / wheelbase
        self.static = body.mass * G - rear, rear
        turning = [j * cars.radius[axle] for axle, j in enumerate(cars.turning)]
        self.shift = (body.mass * body.height + sum(turning)) / wheelbase

    def load(self, axle, a):
        return self.static[axle] + (self.shift, -self.shift)[axle] * a

    def locks(self, k):
        """Deceleration at which each axle is at its limit: share a = k w N(a)."""
        found = []
        for axle, shift in enumerate((self.shift, -self.shift)):
            slack = self.share[axle] - k * self.wheels * shift
            at = k * self.wheels * self.static[axle] / numpy.where(slack == 0, numpy.nan, slack)
            found.append(numpy.where(slack <= 0, numpy.inf, at))
        return found

    def lock(self, k):
        """At the first of them; the rear leaves the road before it can do more."""
        front, rear = self.locks(k)
        return numpy.minimum(numpy.minimum(front, rear), self.static[1] / self.shift)

    def deceleration(self, force):
        cars = self.cars
        free = self.slope * cars.pressure(force, self.circuits)
        if cars.at["vehicle.antilock"] == "none":
            return numpy.minimum(free, self.lock(cars.adhesion * cars.at["driver.modulation"]))
        kept = max(cars.at["vehicle.antilock_efficiency"], cars.at["driver.modulation"])
        k = cars.adhesion * kept * self.wheels
        pushed = [(share + self.wheels * j) * free for share, j in zip(self.share, cars.turning)]

        def too_much(a):
            w = self.wheels  # the others turn free
            forces = [numpy.minimum(push - w * j * a, k * self.load(axle, a)) - (1 - w) * j * a
                      for axle, (push, j) in enumerate(zip(pushed, cars.turning))]  # fmt: skip
            return self.mass * a - sum(forces)

        held = numpy.minimum(halved(too_much, free), self.static[1] / self.shift)
        return numpy.where(numpy.isnan(free), numpy.nan, held)

    def rear_first(self):
        """Lowest a from 0.15 g on at which the rear uses more: share_2 N_1 = share_1 N_2."""
        front, rear = self.share
        at = (front * self.static[1] - rear * self.static[0]) / (self.shift * (front + rear))
        return numpy.maximum(at, 0.15 * G)

    def rear_curve(self):
        z = 0.05 * numpy.arange(3, 17)[:, None]
        load = self.load(1, z * G)
        assert (load > 0).all()
        return (0.9 * self.share[1] * z * G / (self.wheels * load) / z).max(axis=0)

    def adhesion_curve(self, slope):
        roads = 0.05 * numpy.arange(4, 17)
        return numpy.min([self.lock(k) / G / (0.1 + slope * (k - 0.2)) for k in roads], axis=0)


# ---- requirements: what there is over what is needed, or the other way round; NaN: no solution


def stops(cars, force, need, loads=UN, circuits=2):
    return numpy.min([Motion(cars, load, circuits).deceleration(force) / need for load in loads], 0)


def distances(cars, force):
    """UN R13-H, annex 3, 2.1.1: from 100 km/h against 0.1 v + 0.006 v^2 = 70 m."""
    v, dead, rise = 100 / 3.6, cars.at["stop.dead_time"], cars.at["stop.build_up"]
    a = stops(cars, force, 1.0)
    return 70.0 / (v * (dead + rise / 2) + v**2 / 2 / a - a * rise**2 / 24)


def floor_room(cars):
    """At 6.43 m/s2, however far the pedal goes."""
    return cars.at["pedal.travel"] / cars.travel(6.43 / Motion(cars, "full").slope)


def reserve(cars):
    return 0.80 * cars.at["pedal.travel"] / cars.travel(cars.pressure(222.4))


def over_loads(worst, function, loads):
    def ratio(cars):
        return worst([function(Motion(cars, load)) for load in loads], axis=0)

    return ratio


def self_lock(cars):
    normal, friction = cars.moments()
    return normal / friction / cars.at["rear.drum.lining.mu"]


# Kind of error, whether front and rear part, ratio that must be 1 or more.
ROWS = {
    "hazard.self_lock": ("exact", False, self_lock),
    "hazard.floor": ("stroke", False, floor_room),
    "hazard.reserve": ("stroke", False, reserve),
    "hazard.circuit": ("stop", False, lambda cars: stops(cars, 500.0, 2.44, ("full",), 1)),
    "un.13h.type0": ("stop", False, lambda cars: stops(cars, 500.0, 6.43)),
    "un.13h.type0_distance": ("stop", False, lambda cars: distances(cars, 500.0)),
    "hazard.rear_first": (
        "balance", True, over_loads(numpy.min, lambda m: m.rear_first() / G / 0.80, DRIVEN)),
    "un.13h.adhesion": (
        "balance", True, over_loads(numpy.min, lambda m: m.adhesion_curve(0.70), UN)),
    "us.135.rear_curve": ("balance", True, over_loads(numpy.min, lambda m: 1 / m.rear_curve(), US)),
}  # fmt: skip


def met(row, cars, parted, errors):
    """Whether each draw meets a requirement; one without a solution does not."""
    kind, opposed, ratio = ROWS[row]
    return ratio(parted if opposed else cars) * errors[kind] >= 1
