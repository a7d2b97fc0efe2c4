# SPDX-License-Identifier: MIT
"""The equations of brake/braking.h, balance.h, drum.h and friction.h once more, for SciPy.

Written from the doc blocks. The state is distance, speed, booster output, the cells of a front and
of a rear brake, and the work of both axles.
"""
import bisect
import dataclasses
import math

import numpy as np
from scipy import integrate, interpolate

G = 9.80665
FORCE, DECELERATION, VERGE = range(3)
LEADING_TRAILING, TWO_LEADING, DUO_SERVO = range(3)


@dataclasses.dataclass
class Axle:
    gain: float
    threshold: float
    radius: float
    inertia: float
    wheels: float = 1.0
    held: float = 0.0  # part of the torque on the circuit that a chamber at its end holds
    held_wheels: float = 0.0

    @property
    def turning(self):
        return self.inertia / self.radius**2


def straight(x, first, last):
    """The line through two points, constant beyond them."""
    part = min(max((x - first[0]) / (last[0] - first[0]), 0.0), 1.0)
    return first[1] + part * (last[1] - first[1])


@dataclasses.dataclass
class Hot:
    """Friction and heat of one axle, and of one of its brakes."""

    mu: float
    power: float
    shoes: object  # None: a disc
    shoe: tuple  # drum radius, pivot radius, force arm, heel, toe; of the secondary one heel, toe
    # and its friction over that of the primary
    rubbing: float
    lining: float
    friction: list  # (temperature, value)
    over_speed: list  # two of (speed, factor)
    over_pressure: list
    cells: int
    area: float
    thickness: float
    density: float
    conductivity: float
    heat_capacity: float
    cooled: float  # area
    coefficient: float

    def __post_init__(self):
        curve = interpolate.PchipInterpolator(*zip(*self.friction))
        self.knots, self.pieces = curve.x.tolist(), curve.c.T.tolist()
        self.width = self.thickness / self.cells
        self.base = self.factor(self.mu)

    def factor(self, mu):
        """What the torque is proportional to."""
        if self.shoes is None:
            return mu**self.power
        r, a, c, heel, toe, secondary_heel, secondary_toe, over = self.shoe
        leading, trailing = self.drags(mu, heel, toe)
        if self.shoes == TWO_LEADING:
            return 2.0 * leading
        if self.shoes == DUO_SERVO:
            pushed = self.drags(over * mu, secondary_heel, secondary_toe)[0]
            return leading + pushed * (c - a + leading * r) / a
        return leading + trailing

    def drags(self, mu, heel, toe):
        """Of a leading and a trailing shoe, over the force that applies it."""
        r, a, c = self.shoe[:3]
        friction = r * (math.cos(heel) - math.cos(toe)) - a / 2 * (
            math.sin(toe) ** 2 - math.sin(heel) ** 2
        )
        normal = a * ((toe - heel) / 2 - (math.sin(2 * toe) - math.sin(2 * heel)) / 4)
        force = mu * c * (math.cos(heel) - math.cos(toe))
        return force / (normal - mu * friction), force / (normal + mu * friction)

    def ratio(self, face, speed, pressure):
        face = min(max(face, self.knots[0]), self.knots[-1])
        piece = max(bisect.bisect_left(self.knots, face) - 1, 0)
        x, (a, b, c, mu) = face - self.knots[piece], self.pieces[piece]
        mu += x * (c + x * (b + x * a))
        mu *= straight(self.rubbing * speed, *self.over_speed)
        mu *= straight(self.lining * pressure, *self.over_pressure)
        return self.factor(mu) / self.base

    def flows(self, cells, power, air):
        """Rate of the temperatures, and that of the rubbed face."""
        # The face balances friction, convection and conduction through half a cell.
        half = 2.0 * self.conductivity * self.area / self.width
        out = self.coefficient * self.cooled
        balanced = (half * cells[0] + power + out * air) / (half + out)
        into = power - out * (balanced - air)
        through = [half / 2.0 * (a - b) for a, b in zip(cells, cells[1:])] + [0.0]
        capacity = self.density * self.area * self.width * self.heat_capacity
        rates = [(a - b) / capacity for a, b in zip([into, *through], through)]
        return rates, cells[0] + 2.0 / half * (into / 3.0 + through[0] / 6.0)


@dataclasses.dataclass
class Rig:
    mass: float
    behind: float
    height: float
    wheelbase: float
    rolling: float
    grade: float
    locked: bool
    axles: tuple
    valve: tuple  # knee, slope
    hold: tuple  # from, to; alike: none
    pedal: tuple  # ratio, efficiency, gain, assist, master area, master efficiency
    pressure_most: float
    adhesion: float
    antilock: float
    air_drag: float
    dead_time: float
    rise_time: float
    lag: float
    air: float
    step: float
    manner: int
    force: float
    deceleration: float
    start: float
    end: float
    hot: tuple = ()

    def numbers(self):
        yield from (self.mass, self.behind, self.height, self.wheelbase, self.rolling, self.grade)
        yield self.locked
        for axle in self.axles:
            yield from dataclasses.astuple(axle)
        yield from (*self.valve, *self.hold, *self.pedal)
        yield from (self.pressure_most, self.adhesion, self.antilock)
        yield from (self.air_drag, self.dead_time, self.rise_time, self.lag, self.air, self.step)
        yield from (self.manner, self.force, self.deceleration, self.start, self.end)
        yield bool(self.hot)
        for hot in self.hot:
            yield from (hot.mu, hot.power, hot.shoes is not None, hot.shoes or 0, *hot.shoe)
            yield from (hot.rubbing, hot.lining, len(hot.friction))
            for point in (*hot.friction, *hot.over_speed, *hot.over_pressure):
                yield from point
            yield from (hot.cells, hot.area, hot.thickness, hot.density, hot.conductivity)
            yield from (hot.heat_capacity, hot.cooled, hot.coefficient)

    def __post_init__(self):
        cosine = 1.0 / math.hypot(1.0, self.grade)
        self.weight = self.mass * G * cosine
        self.uphill = self.weight * self.grade
        self.effective = self.mass + sum(axle.turning for axle in self.axles)
        self.kept = self.adhesion * (self.antilock or 1.0)
        self.controlled = self.antilock > 0.0 and not self.locked
        knee, slope = self.valve
        threshold = self.axles[1].threshold
        if threshold > knee:
            threshold = knee + (threshold - knee) / slope if slope > 0.0 else math.inf
        ends = {0.0, self.axles[0].threshold, threshold, knee, *self.hold} - {math.inf}
        self.ends = sorted(ends) + [max(ends) + 1e8]

    # ---- forces at one instant

    def torques(self, pressure, gains):
        """What the held circuit has, and the other one: each its own pressure."""
        lower, upper = self.hold
        even = self.even(pressure, gains)
        if pressure <= lower or lower == upper:
            return even
        kept, reached = self.even(lower, gains), self.even(min(pressure, upper), gains)
        return [
            t - axle.held * (r - k) for t, k, r, axle in zip(even, kept, reached, self.axles)
        ]

    def asked(self, pressure, gains, a):
        """Force of the wheel that is asked most, twice, of each axle."""
        pairs = zip(self.torques(pressure, gains), self.even(pressure, gains), self.axles)
        return [
            (even if axle.held > 0.0 and axle.held_wheels < axle.wheels else torque) / axle.radius
            - axle.wheels * axle.turning * a
            for torque, even, axle in pairs
        ]

    def even(self, pressure, gains):
        knee, slope = self.valve
        behind = pressure if pressure <= knee else knee + slope * (pressure - knee)
        return [
            axle.gain * gain * max(0.0, p - axle.threshold)
            for axle, gain, p in zip(self.axles, gains, (pressure, behind))
        ]

    def loads(self, a, drag):
        front = self.weight * (self.wheelbase - self.behind)
        front += (self.mass * a - self.uphill - drag) * self.height
        front += sum(axle.inertia / axle.radius for axle in self.axles) * a
        front /= self.wheelbase
        return front, self.weight - front

    def free(self, pressure, gains, drag):
        """Deceleration, and forces at the tyres, with no wheel held."""
        pushes = [t / x.radius for t, x in zip(self.torques(pressure, gains), self.axles)]
        a = (sum(pushes) + self.rolling * self.weight + self.uphill + drag) / self.effective
        return a, [push - axle.turning * a for push, axle in zip(pushes, self.axles)]

    def beyond(self, pressure, gains, drag):
        """What each axle asks of the road beyond what it gives, and the rear to stay on it."""
        a, forces = self.free(pressure, gains, drag)
        loads = self.loads(a, drag)
        given = [(self.kept - self.rolling) * x.wheels * n for x, n in zip(self.axles, loads)]
        if self.locked:
            braked = [f + (1.0 - x.wheels) * x.turning * a for f, x in zip(forces, self.axles)]
            return sum(braked) - sum(given), -loads[1]
        asked = self.asked(pressure, gains, a)
        return (*(f - n for f, n in zip(asked, given)), -loads[1])

    def lock(self, gains, drag):
        """Least pressure at which anything is beyond; all is straight between the ends."""
        first = math.inf
        for column in zip(*(self.beyond(p, gains, drag) for p in self.ends)):
            for p, q, low, high in zip(self.ends, self.ends[1:], column, column[1:]):
                if low >= 0.0:
                    first = min(first, p)
                    break
                if high > 0.0:
                    first = min(first, p - low * (q - p) / (high - low))
                    break
        return first

    def held(self, pressure, gains, drag):
        """Deceleration and forces with an anti-lock at each axle: which are held is tried out."""
        pushes = [t / x.radius for t, x in zip(self.torques(pressure, gains), self.axles)]
        a = self.free(pressure, gains, drag)[0]
        at_rest = self.loads(0.0, drag)
        shift, left = self.loads(1.0, drag)[0] - at_rest[0], self.kept - self.rolling
        for _ in range(8):
            loads = self.loads(a, drag)
            limits = [left * x.wheels * n for x, n in zip(self.axles, loads)]
            holds = [
                p - x.wheels * x.turning * a > n for p, x, n in zip(pushes, self.axles, limits)
            ]
            force, mass = self.rolling * self.weight + self.uphill + drag, self.mass
            for i, (axle, sign) in enumerate(zip(self.axles, (1.0, -1.0))):
                if holds[i]:
                    force += left * axle.wheels * at_rest[i]
                    mass -= left * axle.wheels * sign * shift
                    mass += (1.0 - axle.wheels) * axle.turning
                else:
                    force += pushes[i]
                    mass += axle.turning
            if abs(force / mass - a) < 1e-13:
                break
            a = force / mass
        loads = self.loads(a, drag)
        forces = [
            min(p - x.wheels * x.turning * a, left * x.wheels * n)
            - (1.0 - x.wheels) * x.turning * a
            for p, x, n in zip(pushes, self.axles, loads)
        ]
        return a, forces

    def law(self, pedal_force):
        ratio, efficiency, gain, assist, _, _ = self.pedal
        rod = pedal_force * ratio * efficiency
        return min(gain * rod, rod + assist)

    def pedal_force(self, pressure):
        ratio, efficiency, gain, assist, area, master = self.pedal
        output = pressure * area / master
        return max(output / gain, output - assist) / (ratio * efficiency)

    def pressure_for(self, a, gains, drag):
        had = [self.free(p, gains, drag)[0] for p in self.ends]
        if had[0] >= a:
            return 0.0
        for p, q, low, high in zip(self.ends, self.ends[1:], had, had[1:]):
            if high >= a:
                return p + (a - low) / (high - low) * (q - p)
        return math.inf

    def foot(self, share, gains, drag, output):
        """Pedal force, output and pressure."""
        wanted = self.force
        if self.manner == DECELERATION:
            pressure = self.pressure_for(self.deceleration, gains, drag)
            wanted = min(self.force, self.pedal_force(pressure))
        elif self.manner == VERGE:
            wanted = min(self.force, self.pedal_force(self.lock(gains, drag)))
        pedal = share * wanted
        if not (self.lag > 0.0 and self.manner == FORCE):
            output = self.law(pedal)
        return pedal, output, min(output * self.pedal[5] / self.pedal[4], self.pressure_most)

    def instant(self, share, gains, speed, output):
        """Deceleration, pressure, work rate of both axles."""
        drag = self.air_drag * speed**2
        _, _, pressure = self.foot(share, gains, drag, output)
        if self.controlled:
            a, forces = self.held(pressure, gains, drag)
        else:
            a, forces = self.free(min(pressure, self.lock(gains, drag)), gains, drag)
        return a, pressure, [
            max(0.0, f + axle.turning * a) * speed for f, axle in zip(forces, self.axles)
        ]

    # ---- the braking

    def split(self, state):
        cells, at = [], 3
        for hot in self.hot:
            cells.append(state[at : at + hot.cells].tolist())
            at += hot.cells
        return cells

    def settle(self, share, state, faces):
        """The instant at which friction, power and faces agree."""
        speed, output = max(state[1], 0.0), state[2]
        cells = self.split(state)
        pressure, gains = 0.0, [1.0, 1.0]
        for turn in range(60):
            before = list(faces)
            if self.hot:
                knee, slope = self.valve
                behind = pressure if pressure <= knee else knee + slope * (pressure - knee)
                gains = [
                    hot.ratio(face, speed, p)
                    for hot, face, p in zip(self.hot, faces, (pressure, behind))
                ]
            a, now, rates = self.instant(share, gains, state[1], output)
            heats = [
                hot.flows(wall, rate / 2.0, self.air)
                for hot, wall, rate in zip(self.hot, cells, rates)
            ]
            faces[:] = [face for _, face in heats]
            settled = all(abs(f - b) < 1e-6 for f, b in zip(faces, before))
            if not self.hot or (turn > 0 and settled and abs(now - pressure) < 1e-3):
                break
            pressure = now
        return a, rates, [heat for heat, _ in heats]

    def run(self, rtol):
        """Distance, time, mean fully developed deceleration, work of both, faces."""
        faces = [self.air for _ in self.hot]
        cells = [self.air] * sum(hot.cells for hot in self.hot)
        state = np.array([0.0, self.start, 0.0, *cells, 0.0, 0.0])
        marks = {0.8: math.nan, 0.1: math.nan}
        begin = 0.0
        corners = [self.dead_time, self.dead_time + self.rise_time, math.inf]
        for phase, end in enumerate(corners):
            if end <= begin:
                continue

            def share(t, phase=phase):
                return (0.0, (t - self.dead_time) / (self.rise_time or 1.0), 1.0)[phase]

            def rate(t, y, share=share):
                a, rates, heats = self.settle(share(t), y, faces)
                pull = self.law(share(t) * self.force) - y[2]
                climb = pull / self.lag if self.lag > 0.0 and self.manner == FORCE else 0.0
                return np.concatenate([[y[1], -a, climb], *heats, rates])

            events = [lambda t, y, at=mark: y[1] - at * self.start for mark in marks]
            events.append(lambda t, y: y[1] - self.end)
            for event in events:
                event.direction = -1
            events[-1].terminal = True
            found = integrate.solve_ivp(
                rate, (begin, min(end, 500.0)), state, method="DOP853", rtol=rtol, atol=rtol,
                events=events, max_step=0.2,
            )
            for mark, met in zip(marks, found.y_events):
                if len(met) and math.isnan(marks[mark]):
                    marks[mark] = met[0][0]
            state, begin = found.y[:, -1], end
            if found.status == 1:
                break
        self.settle(1.0, state, faces)
        developed = math.nan
        if self.end == 0.0:
            between = marks[0.1] - marks[0.8]
            developed = (0.8**2 - 0.1**2) * self.start**2 / (2.0 * between)
        return state[0], found.t[-1], developed, state[-2:], faces
