# SPDX-License-Identifier: MIT
"""Duties of brake/duty.h once more, for SciPy: stops, descents and drives with heat carried on.

Written from the doc blocks and section 8 of reference/method.md, on the second models of one
braking (../braking/model.py) and of one brake over time (../thermal/model.py). The state of an
application is distance, speed, the temperatures along both chains, the work of both axles.
"""
import dataclasses
import math

import numpy as np
from scipy import integrate

from braking import model as braking
from thermal import model as thermal

STOPS, DESCENT, DRIVE = range(3)
FACE, MEAN, PAD, FLUID = range(4)
FORCE, DECELERATION, VERGE = braking.FORCE, braking.DECELERATION, braking.VERGE


@dataclasses.dataclass
class Duty:
    kind: int
    stops: tuple = ()  # count, from, to, interval, manner, deceleration
    descent: tuple = ()  # grade, length, speed, engine
    points: tuple = ()  # (time, speed, grade)
    force: float = 5000.0
    rest: float = 0.0
    rest_speed: float = 0.0

    def numbers(self):
        """As driver.c reads them."""
        yield self.kind
        if self.kind == DRIVE:
            yield len(self.points)
            for point in self.points:
                yield from point
        else:
            yield from self.stops or self.descent
        yield from (self.force, self.rest, self.rest_speed)


class Numbers:
    """The line of a rig, read from its front."""

    def __init__(self, line):
        self.left = [float(word) for word in line.split()][::-1]

    def one(self):
        return self.left.pop()

    def some(self, count):
        return [self.left.pop() for _ in range(count)]

    def cooling(self):
        law, *rest = self.some(8)
        return thermal.Cooling(int(law), *rest, vanes=tuple(self.some(5)))


def read_axle(numbers):
    """Friction of an axle, and one of its brakes."""
    mu, power, shaped, shoes, *shoe = numbers.some(12)
    rubbing, lining, points = numbers.some(3)
    friction = [tuple(numbers.some(2)) for _ in range(int(points))]
    level = [(0.0, 1.0), (1.0, 1.0)]
    # The wall of that model is not used: the one of thermal stands in its place.
    hot = braking.Hot(
        mu, power, int(shoes) if shaped else None, tuple(shoe), rubbing, lining, friction, level,
        level, 1, 1.0, 1.0, 1.0, 1.0, 1.0, 0.0, 0.0,
    )  # fmt: skip
    points, density = numbers.some(2)
    table = np.array([numbers.some(3) for _ in range(int(points))])
    area, thickness, cells, first_cell, ratio, back_share, share, contact = numbers.some(8)
    front, back = numbers.cooling(), numbers.cooling()
    parts = [(*numbers.some(2), numbers.cooling()) for _ in range(thermal.PARTS)]
    pressure, _ = numbers.some(2)
    capacity, link, part = (list(column) for column in zip(*parts))
    brake = thermal.Brake(
        density, table, area, thickness, int(cells), first_cell, ratio, back_share, share, contact,
        front, back, capacity, link, part, pressure,
    )  # fmt: skip
    return hot, brake


def read_rig(line):
    numbers = Numbers(line)
    body = numbers.some(6)
    locked = bool(numbers.one())
    axles = tuple(braking.Axle(*numbers.some(7)) for _ in range(2))
    valve, hold = tuple(numbers.some(2)), tuple(numbers.some(2))
    pedal, rest = tuple(numbers.some(6)), numbers.some(9)
    hots, brakes = zip(*(read_axle(numbers) for _ in range(2)))
    assert not numbers.left
    rig = braking.Rig(
        *body, locked, axles, valve, hold, pedal, *rest, FORCE, 0.0, 0.0, 0.0, 0.0, hot=hots
    )
    return rig, brakes


class Wall:
    """The rubbed face of a brake at given temperatures, as it follows the power."""

    def __init__(self, brake, temperature, speed, air):
        self.brake, self.now = brake, (0.0, speed, air)
        self.first, self.pad = temperature[thermal.FIRST], temperature[thermal.PAD]
        near = temperature[thermal.FIRST :][: min(2, brake.cells)]
        k, _, theta = brake.properties(near)
        self.half = brake.width[0] / (k[0] * brake.area)
        self.onward = brake.inner[0] * (theta[0] - theta[1]) if brake.cells > 1 else 0.0

    def at(self, power, contact):
        brake = self.brake
        power *= brake.share * (1.0 - brake.back_share)
        half = (self.first, 2.0 / self.half, power, brake.link[thermal.PAD] + contact, self.pad)
        front, _ = brake.face(brake.front, half, self.now)
        return self.first + self.half * (front / 3.0 + self.onward / 6.0)


class Run:
    """A vehicle in a duty: temperatures now, hottest, and the work so far."""

    def __init__(self, rig, brakes, tolerance=1e-7):
        self.rig, self.brakes, self.tolerance = rig, brakes, tolerance
        self.air = rig.air
        self.temperatures = np.full(sum(brake.cells + thermal.PARTS for brake in brakes), rig.air)
        self.hottest = np.full((2, 4), rig.air)
        self.work = np.zeros(2)
        self.faces = [rig.air, rig.air]
        self.last = self.hottest.copy()
        self.time = self.distance = 0.0
        self.developed = math.nan

    def chains(self, temperatures):
        cut = self.brakes[0].cells + thermal.PARTS
        return temperatures[:cut], temperatures[cut:]

    def seen(self, temperatures, faces):
        """Face, mean, pad and fluid of both."""
        rows = []
        for brake, chain, face in zip(self.brakes, self.chains(temperatures), faces):
            wall = chain[thermal.FIRST :][: brake.cells]
            mean = wall @ brake.width / brake.thickness
            rows.append([face, mean, chain[thermal.PAD], chain[thermal.FLUID]])
        return np.array(rows)

    def keep(self, found, look):
        """Hottest of a solution: at its steps, and closer where these are hottest."""
        times = found.t
        rows = np.array([look(t, y) for t, y in zip(times, found.y.T)])
        self.hottest = np.maximum(self.hottest, rows.max(axis=0))
        for peak in {int(index) for index in rows.argmax(axis=0).ravel()}:
            low, high = times[max(peak - 1, 0)], times[min(peak + 1, len(times) - 1)]
            for t in np.linspace(low, high, 40)[1:-1]:
                self.hottest = np.maximum(self.hottest, look(t, found.sol(t)))
        self.last = rows[-1]

    # ---- brakes off

    def roll(self, duration, start, end):
        def speed(t):
            return start + (end - start) * t / duration

        def rate(t, y):
            both = []
            for brake, chain in zip(self.brakes, self.chains(y)):
                heat, capacity, _, _ = brake.flows((0.0, speed(t), self.air), 0.0, chain)
                both.append(heat / capacity)
            return np.concatenate(both)

        def look(t, y):
            walls = [Wall(b, c, speed(t), self.air) for b, c in zip(self.brakes, self.chains(y))]
            return self.seen(y, [wall.at(0.0, 0.0) for wall in walls])

        found = integrate.solve_ivp(
            rate, (0.0, duration), self.temperatures, method="LSODA", dense_output=True,
            rtol=self.tolerance, atol=1e-5,
        )  # fmt: skip
        assert found.success, found.message
        self.temperatures = found.y[:, -1]
        self.keep(found, look)
        self.time += duration

    # ---- brakes on

    def settle(self, rig, share, speed, chains):
        """The instant at which friction, power and faces agree."""
        faces, pressure = self.faces, 0.0
        walls = [Wall(b, c, max(speed, 0.0), self.air) for b, c in zip(self.brakes, chains)]
        knee, slope = rig.valve
        for _ in range(80):
            behind = pressure if pressure <= knee else knee + slope * (pressure - knee)
            gains = [
                hot.ratio(face, max(speed, 0.0), p)
                for hot, face, p in zip(rig.hot, faces, (pressure, behind))
            ]
            a, pressure, rates = rig.instant(share, gains, max(speed, 0.0), 0.0)
            torques = rig.torques(pressure, gains)
            contacts = [b.contact if t > 0.0 else 0.0 for b, t in zip(self.brakes, torques)]
            found = [w.at(r / 2.0, c) for w, r, c in zip(walls, rates, contacts)]
            apart = max(abs(f - b) for f, b in zip(found, faces))
            faces = found
            if apart < 1e-7:
                break
        self.faces = faces
        return a, rates, contacts

    def apply(self, rig, most):
        """To the end speed or for a time at most; time and speed at the end."""
        size = len(self.temperatures)
        state = np.concatenate([[0.0, rig.start], self.temperatures, [0.0, 0.0]])
        marks = {0.8: math.nan, 0.1: math.nan}
        corners = [rig.dead_time, rig.dead_time + rig.rise_time, math.inf]
        begin, ended = 0.0, False
        for phase, corner in enumerate(corners):
            corner = min(corner, most)
            if corner <= begin or ended:
                continue

            def share(t, phase=phase):
                return (0.0, (t - rig.dead_time) / (rig.rise_time or 1.0), 1.0)[phase]

            def rate(t, y, share=share):
                chains = self.chains(y[2 : 2 + size])
                a, rates, contacts = self.settle(rig, share(t), y[1], chains)
                out = [y[1], -a]
                for brake, chain, r, contact in zip(self.brakes, chains, rates, contacts):
                    now = (r / 2.0, max(y[1], 0.0), self.air)
                    heat, capacity, _, _ = brake.flows(now, contact, chain)
                    out.extend(heat / capacity)
                return np.array([*out, *rates])

            def look(t, y, share=share):
                self.settle(rig, share(t), y[1], self.chains(y[2 : 2 + size]))
                return self.seen(y[2 : 2 + size], self.faces)

            events = [lambda t, y, at=mark: y[1] - at * rig.start for mark in marks]
            events.append(lambda t, y: y[1] - rig.end)
            for event in events:
                event.direction = -1
            events[-1].terminal = True
            found = integrate.solve_ivp(
                rate, (begin, corner), state, method="LSODA", dense_output=True, events=events,
                rtol=self.tolerance, atol=1e-6, max_step=max(0.25, (corner - begin) / 100.0),
            )  # fmt: skip
            assert found.success, found.message
            for mark, met in zip(marks, found.y_events):
                if len(met) and math.isnan(marks[mark]):
                    marks[mark] = met[0][0]
            state, begin, ended = found.y[:, -1], found.t[-1], found.status == 1
            self.keep(found, look)
        self.temperatures = state[2 : 2 + size]
        self.work += state[-2:]
        self.distance = state[0]
        self.developed = math.nan
        if rig.end == 0.0 and not math.isnan(marks[0.1]):
            between = marks[0.1] - marks[0.8]
            self.developed = (0.8**2 - 0.1**2) * rig.start**2 / (2.0 * between)
        self.time += begin
        return begin, ended

    # ---- the three kinds

    def stops(self, count, start, end, interval, manner, deceleration):
        rig = dataclasses.replace(
            self.rig, manner=int(manner), deceleration=deceleration, start=start, end=end
        )
        for index in range(int(count)):
            lasted, ended = self.apply(rig, interval if count > 1 else 600.0)
            assert ended
            if index + 1 < count:
                self.roll(interval - lasted, end, start)

    def resistance(self, grade, speed):
        weight = self.rig.mass * braking.G / math.hypot(1.0, grade)
        return weight * (self.rig.rolling + grade) + self.rig.air_drag * speed**2

    def descend(self, grade, length, speed, engine):
        pull = -self.resistance(-grade, speed)
        if pull <= 0.0:
            self.roll(length / speed, speed, speed)
            return
        weight = self.rig.mass * braking.G / math.hypot(1.0, grade)
        rig = dataclasses.replace(
            self.rig, manner=DECELERATION, deceleration=0.0, start=speed, end=0.0, grade=-grade,
            rolling=self.rig.rolling + engine * pull / weight, dead_time=0.0, rise_time=0.0,
        )  # fmt: skip
        self.apply(rig, length / speed)

    def drive(self, points):
        for (t, v, grade), (t_next, v_next, _) in zip(points, points[1:]):
            duration, slowing = t_next - t, (v - v_next) / (t_next - t)
            pull = self.rig.effective * slowing - self.resistance(grade, (v + v_next) / 2.0)
            if pull <= 0.0 or v <= 0.0:
                self.roll(duration, v, v_next)
                continue
            rig = dataclasses.replace(
                self.rig, manner=DECELERATION, deceleration=slowing, start=v,
                end=v_next if slowing > 0.0 else 0.0, grade=grade, dead_time=0.0, rise_time=0.0,
            )  # fmt: skip
            lasted, _ = self.apply(rig, duration)
            if duration - lasted > 1e-6:
                self.roll(duration - lasted, v_next, v_next)


def run(line, duty):
    """Distance, duration, deceleration, energies, hottest and last temperatures."""
    rig, brakes = read_rig(line)
    at = Run(dataclasses.replace(rig, force=duty.force), brakes)
    if duty.kind == STOPS:
        at.stops(*duty.stops)
    elif duty.kind == DESCENT:
        at.descend(*duty.descent)
    else:
        at.drive(duty.points)
    duration, last = at.time, at.last
    if duty.rest > 0.0:
        at.roll(duty.rest, duty.rest_speed, duty.rest_speed)
    developed = at.developed if duty.kind == STOPS else math.nan
    return at.distance, duration, developed, at.work, at.hottest, last
