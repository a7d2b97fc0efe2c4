# SPDX-License-Identifier: MIT
"""The equations of brake/thermal.h and brake/convection.h once more, for SciPy.

Written from the doc blocks. The unknowns are temperatures, not enthalpies; the chain is body,
fluid, piston, plate, pad, the cells of the wall, rim, hat.
"""
import dataclasses
import math

import numpy as np
from scipy import integrate, optimize, sparse

SIGMA = 5.670374419e-8
PRANDTL = 0.70
FIXED, POWER, FACE, DISC, VANES, DRUM, CYLINDER = range(7)
BODY, FLUID, PISTON, PLATE, PAD, RIM, HAT = range(7)
PARTS, FIRST = 7, PAD + 1  # of the chain; the first cell of the wall


@dataclasses.dataclass
class Cooling:
    law: int = FIXED
    area: float = 0.0
    emissivity: float = 0.0
    still: float = 0.0
    factor: float = 0.0
    exponent: float = 0.0
    diameter: float = 0.3
    rolling_radius: float = 0.4
    vanes: tuple = (0.09, 0.15, 0.006, 0.0095, 0.013)

    def numbers(self):
        return [
            self.law, self.area, self.emissivity, self.still, self.factor, self.exponent,
            self.diameter, self.rolling_radius, *self.vanes,
        ]

    def forced(self, speed, film, pressure):
        """Coefficient of the law alone, in the open."""
        if self.law == POWER:
            return speed**self.exponent
        mu = 1.716e-5 * (film / 273.0) ** 1.5 * (273.0 + 111.0) / (film + 111.0)
        k = 0.0241 * (film / 273.0) ** 1.5 * (273.0 + 194.0) / (film + 194.0)
        nu = mu / (pressure / (287.05 * film))
        if self.law == FACE:
            re = speed * self.diameter / nu
            laminar, turbulent = 0.70 * re**0.55, 0.04 * re**0.8
            part = min(max((re - 2.4e5) / 0.6e5, 0.0), 1.0)
            return k / self.diameter * ((1.0 - part) * laminar + part * turbulent)
        if self.law == DISC:
            radius = self.diameter / 2.0
            re = speed / self.rolling_radius * radius**2 / nu
            inside = min(2.5e5 / re, 1.0) if re > 0.0 else 1.0
            return k / radius * (
                0.36 * math.sqrt(re) * inside + 0.015 * re**0.8 * (1.0 - inside**1.3)
            )
        if self.law == VANES:
            inner, outer, inlet, outlet, d = self.vanes
            spin = speed / self.rolling_radius
            velocity = spin * math.sqrt(outer**2 - inner**2) * (1.0 + inlet / outlet) / 2.0
            slender = d / (outer - inner)
            stored = PRANDTL * k / nu  # heat capacity of a volume
            return 0.00485 * (1.0 + slender**0.67) * stored * velocity
        re = speed * self.diameter / nu
        if self.law == DRUM:
            return 0.1 * k / self.diameter * re ** (2.0 / 3.0)
        front = 0.62 * math.sqrt(re) * PRANDTL ** (1.0 / 3.0)
        front /= (1.0 + (0.4 / PRANDTL) ** (2.0 / 3.0)) ** 0.25
        return k / self.diameter * (0.3 + front * (1.0 + (re / 282000.0) ** 0.625) ** 0.8)

    def coefficient(self, speed, film, pressure):
        if self.law == FIXED:
            return self.factor
        forced = self.factor * self.forced(max(speed, 0.0), film, pressure)
        return (forced**4 + self.still**4) ** 0.25


@dataclasses.dataclass
class Leg:
    power: tuple
    speed: tuple
    air: float
    duration: float

    def numbers(self):
        return [*self.power, *self.speed, self.air, self.duration]

    def at(self, time):
        part = time / self.duration
        return (
            self.power[0] + part * (self.power[1] - self.power[0]),
            self.speed[0] + part * (self.speed[1] - self.speed[0]),
        )


@dataclasses.dataclass
class Brake:
    density: float
    table: np.ndarray  # rows of temperature, conductivity, heat capacity
    area: float
    thickness: float
    cells: int
    first_cell: float
    ratio: float
    back_share: float
    share: float
    contact: float
    front: Cooling
    back: Cooling
    capacity: list
    link: list
    part: list
    pressure: float = 101325.0
    start: float = 293.15

    def numbers(self, tolerance, legs):
        """As tests/thermal/driver.c reads them."""
        numbers = [len(self.table), self.density, *self.table.ravel()]
        numbers += [self.area, self.thickness, self.cells, self.first_cell, self.ratio]
        numbers += [self.back_share, self.share, self.contact]
        numbers += self.front.numbers() + self.back.numbers()
        for capacity, link, part in zip(self.capacity, self.link, self.part):
            numbers += [capacity, link, *part.numbers()]
        numbers += [self.pressure, tolerance, self.start, len(legs)]
        return numbers + [number for leg in legs for number in leg.numbers()]

    def __post_init__(self):
        index = np.arange(self.cells)
        rank = np.minimum(index, index[::-1]) if self.back_share > 0.0 else index
        ratio = self.ratio
        if self.first_cell > 0.0:
            wanted = self.thickness / self.first_cell

            def short(ratio):
                return np.sum(ratio**rank) - wanted

            ratio = 1.0
            if short(1.0) < 0.0 < short(1e4):
                ratio = optimize.brentq(short, 1.0, 1e4, xtol=1e-14)
        widths = ratio**rank
        self.width = self.thickness * widths / widths.sum()
        self.mass = self.density * self.area * self.width
        self.inner = 2.0 * self.area / (self.width[1:] + self.width[:-1])
        # What hangs on a part that is left out is left out too.
        self.present = [False] * PARTS
        for chain in (PAD, PLATE, PISTON, FLUID, BODY), (RIM, HAT):
            joined = True
            for part in chain:
                joined = joined and self.capacity[part] > 0.0
                self.present[part] = joined
        t, k, _ = self.table.T
        self.theta = np.concatenate([[0.0], np.cumsum(np.diff(t) * (k[1:] + k[:-1]) / 2.0)])

    def node(self, part):
        return part if part <= PAD else part + self.cells

    def properties(self, temperature):
        """Conductivity, heat capacity and the integral of the former."""
        t, k, c = self.table.T
        conductivity = np.interp(temperature, t, k)
        j = np.clip(np.searchsorted(t, temperature, side="right") - 1, 0, len(t) - 1)
        theta = self.theta[j] + (temperature - t[j]) * (k[j] + conductivity) / 2.0
        return conductivity, np.interp(temperature, t, c), theta

    def face(self, cooling, half, now):
        """Heat into wall and pad at a face; half: temperature, conductance, power, link, pad."""
        temperature, conductance, power, link, pad = half
        _, speed, air = now
        h = r = 0.0
        if cooling.area > 0.0:
            film = (temperature + air) / 2.0
            h = cooling.coefficient(speed, film, self.pressure) * cooling.area
            r = cooling.emissivity * SIGMA * cooling.area
        out = h + r * (temperature**2 + air**2) * (temperature + air)
        total = conductance + link + out
        face = (conductance * temperature + power + link * pad + out * air) / total
        lost = h * (face - air) + r * (face**4 - air**4)
        into_pad = link * (face - pad)
        return power - into_pad - lost, into_pad

    def flows(self, now, contact, temperature):
        """Heat into each node, heat capacity of each, and heat into the wall at its face."""
        power, speed, air = now
        n = self.cells
        wall = temperature[FIRST : FIRST + n]
        k, c, theta = self.properties(wall)
        rate = np.zeros(n + PARTS)
        capacity = np.ones(n + PARTS)
        capacity[FIRST : FIRST + n] = self.mass * c
        through = self.inner * (theta[:-1] - theta[1:])
        rate[FIRST : FIRST + n - 1] -= through
        rate[FIRST + 1 : FIRST + n] += through
        conductance = 2.0 * self.area * k / self.width
        into = power * self.share
        link = (self.link[PAD] if self.present[PAD] else 0.0) + contact
        front, into_pad = self.face(
            self.front,
            (wall[0], conductance[0], into * (1.0 - self.back_share), link, temperature[PAD]),
            now,
        )
        back, _ = self.face(
            self.back, (wall[-1], conductance[-1], into * self.back_share, 0.0, 0.0), now
        )
        rate[FIRST] += front
        rate[FIRST + n - 1] += back
        rate[PAD] += into_pad + power * (1.0 - self.share)
        for part in range(PARTS):
            if not self.present[part]:
                continue
            node = self.node(part)
            capacity[node] = self.capacity[part]
            if part != PAD:
                other = node + 1 if part < PAD else node - 1
                heat = self.link[part] * (temperature[other] - temperature[node])
                rate[node] += heat
                rate[other] -= heat
            cooling = self.part[part]
            if cooling.area > 0.0:
                t = temperature[node]
                h = cooling.coefficient(speed, (t + air) / 2.0, self.pressure)
                rate[node] -= h * cooling.area * (t - air)
                rate[node] -= cooling.emissivity * SIGMA * cooling.area * (t**4 - air**4)
        return rate, capacity, front, (through[0] if n > 1 else 0.0)

    def run(self, legs, **options):
        """Face and temperatures at the end of each leg."""
        temperature = np.full(self.cells + PARTS, self.start)
        shape = (self.cells + PARTS, self.cells + PARTS)
        pattern = sparse.diags([1.0, 1.0, 1.0], [-1, 0, 1], shape=shape)
        for leg in legs:
            contact = self.contact if max(leg.power) > 0.0 else 0.0

            def slope(time, y, leg=leg, contact=contact):
                rate, capacity, _, _ = self.flows((*leg.at(time), leg.air), contact, y)
                return rate / capacity

            if options["method"] in ("BDF", "Radau"):
                options.setdefault("jac_sparsity", pattern)
            done = integrate.solve_ivp(slope, (0.0, leg.duration), temperature, **options)
            assert done.success, done.message
            temperature = done.y[:, -1]
            now = (*leg.at(leg.duration), leg.air)
            _, _, front, onward = self.flows(now, contact, temperature)
            k = self.properties(temperature[FIRST : FIRST + 1])[0][0]
            half = self.width[0] / (k * self.area)
            face = temperature[FIRST] + half * (front / 3.0 + onward / 6.0)
            yield face, temperature
