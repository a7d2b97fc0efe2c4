# SPDX-License-Identifier: MIT
"""Drive logs made from exact kinematics, with their truth."""
import math
import random

KMH = 1 / 3.6


class Stop:
    """Speed v until the foot comes on at time 0; nothing for dead_time; then the deceleration rises
    in a straight line over build_up and stays."""

    def __init__(self, speed, deceleration, dead_time=0.08, build_up=0.28, force=None):
        self.speed, self.deceleration = speed, deceleration
        self.dead_time, self.build_up, self.force = dead_time, build_up, force
        self.duration = dead_time + build_up / 2 + speed / deceleration

    def at(self, time):
        """Speed at a time; before 0 the initial one, after the end 0."""
        since = time - self.dead_time
        if since <= 0:
            return self.speed
        if since < self.build_up:
            return self.speed - self.deceleration * since**2 / (2 * self.build_up)
        return max(0.0, self.speed - self.deceleration * (since - self.build_up / 2))

    def distance(self):
        """From the foot's coming on: the closed form of brake/stop.h."""
        v, a, b = self.speed, self.deceleration, self.build_up
        return v * (self.dead_time + b / 2) + v * v / (2 * a) - a * b * b / 24


def rows(stops, rate, noise=0.0, seed=1, lead=4.0, rest=3.0, pedal=True):
    """Time [s], speed [m/s] and pedal force [N] of stops one after the other; between two of them
    the vehicle speeds up at 2 m/s2. The grid of the rows is not that of the stops."""
    chance = random.Random(seed)
    begun, table = 1.0 + chance.random(), []
    for stop in stops:
        begun += stop.speed / 2.0 + lead
        table.append((begun, stop))
        begun += stop.duration + rest
    found, number = [], 0
    for i in range(int(begun * rate)):
        time = i / rate
        while (
            number + 1 < len(table)
            and time > table[number][0] + table[number][1].duration + rest / 2
        ):
            number += 1
        start, stop = table[number]
        since = time - start
        speed = stop.at(since) if since > -lead else max(0.0, stop.speed + 2.0 * (since + lead))
        force = (stop.force or 200.0) if 0 <= since < stop.duration + 0.5 else 0.0
        shown = speed + chance.gauss(0.0, noise) if speed > 0 else 0.0
        found.append([time, max(0.0, shown), force if pedal else None])
    return found


def text(table, pedal=True, head=None):
    """The log of such rows in km/h."""
    lines = [head or ("time [s],speed [km/h]" + (",pedal_force [N]" if pedal else ""))]
    for time, speed, force in table:
        lines.append(f"{time:.3f},{3.6 * speed:.3f}" + (f",{force:.1f}" if pedal else ""))
    return "\n".join(lines) + "\n"


def wheel_locks(table, begin, duration, share=0.2):
    """The wheel falls to a share of the vehicle's speed within a tenth of a second, stays there and
    comes back as quickly."""
    found = []
    for time, speed, force in table:
        since = time - begin
        in_, out = since / 0.1, (begin + duration - time) / 0.1
        depth = min(1.0, max(0.0, min(in_, out)))
        found.append([time, speed * (1 - (1 - share) * depth), force])
    return found


def quantile_checks(seeds):
    """Least and most hits of 90 in 100 that chance allows in so many tries, at 1 in 1000 (binomial,
    normal approximation)."""
    middle, sigma = 0.9 * seeds, math.sqrt(0.09 * seeds)
    return middle - 3.3 * sigma, min(seeds, middle + 3.3 * sigma)
