#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""A sweep beside a vectorised NumPy script of the same formulas; then its memory as it grows.

SWEEP_CASES=100000000 sets the cases of the largest sweep (1,000,000).
"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile
import time

import numpy as np

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", "build"))
VEHICLE = ROOT / "examples" / "heron.ini"
OUTPUTS = (
    "full.deceleration.at_pedal_force", "full.deceleration.most", "full.balance.lock_deceleration",
    "full.balance.lock_pedal_force", "full.stop.distance", "full.balance.front_share",
    "full.balance.rear_adhesion_used", "full.pedal.force_for_target", "full.failed.no_assist",
    "full.parking.grade_up",
)  # fmt: skip
VALUES = 16  # on each of five axes: a million cases
RUNS = 5
WITH_HEAT = 20  # cases
CASES = int(float(os.environ.get("SWEEP_CASES", "1e6")))
G, ATMOSPHERE = 9.80665, 101325.0


def axes(n):
    """All combinations, flat, the last axis fastest, as the helper has them."""
    lines = [
        np.linspace(*ends, n)
        for ends in ((2.2, 2.9), (1500, 2300), (0.30, 0.45), (3.0, 6.0), (0.30, 0.42))
    ]
    return [grid.ravel() for grid in np.meshgrid(*lines, indexing="ij")]


def drum_factor(v, mu):
    heel, toe = v["rear.drum.lining.heel"], v["rear.drum.lining.toe"]
    pivot, arm = v["rear.drum.lining.pivot_radius"], v["rear.drum.lining.force_arm"]
    radius = v["rear.drum.diameter"] / 2
    normal = pivot * ((toe - heel) / 2 - (np.sin(2 * toe) - np.sin(2 * heel)) / 4)
    friction = radius * (np.cos(heel) - np.cos(toe)) - pivot / 2 * (
        np.sin(toe) ** 2 - np.sin(heel) ** 2
    )
    top = mu * arm * (np.cos(heel) - np.cos(toe))
    return top / (normal - mu * friction) + top / (normal + mu * friction)


def add(body, other):
    mass = body[0] + other[0]
    return [mass, *((body[0] * a + other[0] * b) / mass for a, b in zip(body[1:], other[1:]))]


def full_body(v, mass):
    length = v["vehicle.wheelbase"]
    rise = v["lift.wheel_rise"] + v["lift.suspension"] * (mass - v["vehicle.unsprung_mass"]) / mass
    body = [mass, (1 - v["vehicle.front_share"]) * length, v["vehicle.cg_height"] + rise]
    for part in ("winch", "sliders"):
        names = ("mass", "behind_front_axle", "height")
        body = add(body, [v[f"part.{part}.{name}"] for name in names])
    load = v["load.full.front_axle"] + v["load.full.rear_axle"] - body[0]
    behind = (v["load.full.rear_axle"] * length - body[0] * body[1]) / load
    return add(body, [load, behind, v["load.full.height"]])


def fluid_pressure(closing, c, seating, air, volume):
    """Halving: what a pressure takes rises with it."""
    low, high = 0.0, 1e10
    for _ in range(120):
        p = (low + high) / 2
        taken = closing + c * p + seating * p / (p + 1e6) + air * p / (p + ATMOSPHERE)
        low, high = (p, high) if taken < volume else (low, p)
    return low


def pressure_limits(v):
    """Ends of both chambers, and of the pedal after the first; none of the axes moves them."""
    area = np.pi / 4 * v["master.bore"] ** 2
    closing = [
        4 * 2 * np.pi / 4 * v["front.disc.piston_diameter"] ** 2 * v["front.disc.pads.gap"],
        4 * np.pi / 4 * v["rear.drum.cylinder_diameter"] ** 2 * v["rear.drum.piston_travel"],
    ]
    calipers = 2 * v["front.disc.compliance"]
    give = [3 / 7 * calipers, 2 * v["rear.drum.compliance"]]
    give = [volume + v["circuits.hose_volume"] / 2 for volume in give]
    early = 4.4 / 7 * calipers
    measured, rise = v["circuits.elastic_volume"], (100 / 110 - 20 / 30) / 0.8
    room = v["circuits.closing_volume"] - sum(closing) - v["circuits.air_volume"]
    scale = measured / (sum(give) + rise * early)
    seating = [min(scale * early, max(room, 0.0)), 0.0]
    give = [scale * volume / 1e7 for volume in give]
    give[0] += rise * (scale * early - seating[0]) / 1e7
    closing = [volume + v["master.take_up"] * area for volume in closing]
    air = v["circuits.air_volume"] / 2
    strokes = (v["master.primary_stroke"], v["master.secondary_stroke"])
    rod = (v["pedal.travel"] - v["pedal.free_play"]) / v["pedal.ratio"]
    each = list(zip(closing, give, seating))
    ends = [fluid_pressure(*one, air, s * area) for one, s in zip(each, strokes)]
    first = int(np.argmin(ends))
    floor = max(
        fluid_pressure(sum(closing), sum(give), sum(seating), 2 * air, rod * area),
        fluid_pressure(*each[1 - first], air, (rod - strokes[first]) * area),
    )
    most = min(max(ends), floor)
    return first, min(ends[first], most), most


def crossing(ends, at):
    """Where a line of pieces rises above zero: on the first piece that ends there, else ahead."""
    root = np.full_like(at[0], np.inf)
    for i in reversed(range(len(ends) - 1)):
        y0, y1 = at[i], at[i + 1]
        with np.errstate(all="ignore"):
            line = np.where(
                y0 >= 0, ends[i],
                np.where(y1 > y0, ends[i] - y0 * (ends[i + 1] - ends[i]) / (y1 - y0), np.inf),
            )
        root = np.where((line <= ends[i + 1]) | (i == len(ends) - 2), line, root)
    return root


def script(v, rollout, mass, pad_mu, booster, lining_mu):
    """The ten outputs of sweep_helper.c, loaded."""
    length, mu = v["vehicle.wheelbase"], v["road.adhesion"] * v["vehicle.tyre_grip"]
    m, x, h = full_body(v, mass)
    radius = rollout / (2 * np.pi)
    inertia = 2 * v["front.tyre.wheel_inertia"]
    effective = m + 2 * inertia / radius**2
    pistons = 2 * np.pi / 4 * v["front.disc.piston_diameter"] ** 2
    front_gain = (
        4 * pad_mu * pistons * v["front.disc.efficiency"] * v["front.disc.effective_radius"]
    )
    cylinder = np.pi / 4 * v["rear.drum.cylinder_diameter"] ** 2
    rear_gain = (
        2 * drum_factor(v, lining_mu) * cylinder * v["rear.drum.efficiency"]
        * v["rear.drum.diameter"] / 2
    )
    start = v["front.disc.threshold"], v["rear.drum.threshold"]
    sag = v["valve.uncorrected_lift"] * v["valve.stiffness"] / G
    knee = np.maximum(
        0, v["valve.knee"] + v["valve.knee_rate"] * (m * x / length - v["valve.set_mass"] - sag)
    )
    slope = v["valve.slope"]
    moment = m * h - v["vehicle.unsprung_mass"] * radius
    falls = v["valve.knee_rate"] * moment * (1 - v["valve.anti_lift"]) / (length * G)
    rise = [gain / radius / effective for gain in (front_gain, rear_gain)]
    rolls = v["vehicle.rolling_resistance"] * m * G / effective
    none = rolls - rise[0] * start[0] - rise[1] * start[1]
    knee = np.maximum(0, (knee - falls * none) / (1 + falls * (rise[0] + rise[1])))
    rest = (1 - slope) * falls
    slope = np.maximum(0, (slope - rest * rise[0]) / (1 + rest * rise[1]))

    first, hold, limit = pressure_limits(v)

    def even(p):
        rear = np.where(p <= knee, p, knee + slope * (p - knee))
        return [
            front_gain * np.maximum(0, p - start[0]), rear_gain * np.maximum(0, rear - start[1])
        ]

    def forces(p, endless=False):
        torque = even(p)
        if not endless:
            lost = even(np.clip(p, hold, limit))[first] - even(hold)[first]
            torque[first] = torque[first] - lost
        rolling = v["vehicle.rolling_resistance"] * m * G
        a = ((torque[0] + torque[1]) / radius + rolling) / effective
        return a, [(t - inertia * a / radius) / radius for t in torque]

    def loads(a):
        front = (m * (G * (length - x) + a * h) + 2 * inertia / radius * a) / length
        return front, m * G - front

    rear_start = np.where(start[1] <= knee, start[1], knee + (start[1] - knee) / slope)
    ends = np.sort(
        np.stack([np.zeros_like(m), rear_start, knee]
                 + [np.full_like(m, end) for end in (start[0], hold, limit)]),
        axis=0,
    )
    ends = np.concatenate([ends, 2 * ends[-1:] + 1e5])
    lift = G * x / (h + 2 * inertia / (radius * m))
    left = mu - v["vehicle.rolling_resistance"]
    at = []
    for p in ends:
        a, force = forces(p)
        at.append((a, force, loads(a)))

    def first_lock(left):
        """Front locks, rear locks, rear leaves the road."""
        over = [[f - left * n for f, n in zip(force, load)] + [a - lift] for a, force, load in at]
        return np.minimum.reduce([crossing(ends, list(of)) for of in zip(*over)])

    lock, eased = first_lock(left), first_lock(v["driver.modulation"] * mu - mu + left)

    def pressure(force, gain, assist):
        rod = force * v["pedal.ratio"] * v["pedal.efficiency"]
        out = np.minimum(gain * rod, rod + assist)
        area = np.pi / 4 * v["master.bore"] ** 2
        return np.minimum(out * v["master.efficiency"] / area, limit)

    def pedal(p):
        output = p * np.pi / 4 * v["master.bore"] ** 2 / v["master.efficiency"]
        rod = np.maximum(output / booster, output - v["booster.assist"])
        return rod / (v["pedal.ratio"] * v["pedal.efficiency"])

    hardest = v["driver.pedal_force_most"]
    assist = v["booster.assist"]
    used, _ = forces(np.minimum(pressure(v["driver.pedal_force"], booster, assist), eased))
    locked, _ = forces(lock)
    most, _ = forces(np.minimum(pressure(hardest, booster, assist), eased))
    unassisted, _ = forces(np.minimum(pressure(hardest, 1.0, 0.0), eased))
    speed, build_up = v["stop.speed"], v["stop.build_up"]
    distance = (
        speed * (v["stop.dead_time"] + build_up / 2) + speed**2 / (2 * most)
        - most * build_up**2 / 24
    )
    target = v["driver.target"]
    a, force = forces(crossing(ends, [a - target for a, *_ in at]))
    front_share = force[0] / (force[0] + force[1])
    rear_used = force[1] / loads(a)[1] + v["vehicle.rolling_resistance"]
    endless = crossing(ends, [forces(p, endless=True)[0] - target for p in ends])
    sine = v["parking.torque"] / (m * G * radius)
    adhesion = mu * x / (length - mu * h)
    grade_up = np.minimum(sine / np.sqrt(1 - sine**2), adhesion)
    return np.stack(
        [used, most, locked, pedal(lock), distance, front_share, rear_used, pedal(endless),
         unassisted, grade_up], axis=1,
    )


def numbers():
    report = subprocess.run(
        [BUILD / "stopmargin", "check", VEHICLE, "--json"], stdout=subprocess.PIPE
    ).stdout
    return {path: item["value"] for path, item in json.loads(report)["vehicle"].items()}


def run_helper(threads, out):
    helper = BUILD / "tests" / "bench" / "sweep_helper"
    text = subprocess.run(
        [helper, VEHICLE, str(VALUES), str(threads), out, *OUTPUTS],
        check=True, stdout=subprocess.PIPE,
    ).stdout  # fmt: skip
    return float(text.split()[0])


def timed_script(v):
    grid = axes(VALUES)
    start = time.perf_counter()
    result = script(v, *grid)
    return time.perf_counter() - start, result


def compare_speed(folder):
    """Turn by turn; the least time of each, as other work of the machine only adds to it."""
    v, out = numbers(), folder / "out"
    spent = {"NumPy": [], "one thread": [], "two threads": []}
    for _ in range(RUNS):
        seconds, expected = timed_script(v)
        spent["NumPy"].append(seconds)
        for threads, name in ((1, "one thread"), (2, "two threads")):
            spent[name].append(run_helper(threads, out))
            found = np.fromfile(out).reshape(expected.shape)
            if not np.allclose(found, expected, rtol=1e-9, atol=0):
                sys.exit("bench sweep: the NumPy script and the library differ")
    least = {name: min(seconds) for name, seconds in spent.items()}
    for name, seconds in least.items():
        print(f"{name:12} {1e9 * seconds / VALUES**5:8.1f} ns a case of ten results")
    print(
        f"bench sweep: {least['NumPy'] / least['one thread']:.2f} x the cases of NumPy on one"
        f" thread (goal 25); two threads {least['one thread'] / least['two threads']:.2f} x of one"
        f" (least of {RUNS} runs, numbers equal to 1e-9)"
    )


def run_command(cases, *options):
    """Seconds and peak memory [KiB] of a sweep of so many cases to CSV."""
    step = 900 / (cases // 10 - 1)
    words = [
        BUILD / "tests" / "bench" / "launch_helper", BUILD / "stopmargin", "sweep", VEHICLE,
        "--axis", f"vehicle.mass=1400kg:2300kg:{step!r}kg",
        "--axis", "front.tyre.rollout=2.2m:2.65m:0.05m", *options,
    ]
    output = subprocess.run(words, check=True, stdout=subprocess.PIPE, text=True).stdout
    seconds, memory, status = output.split()
    if status != "0":
        sys.exit(f"bench sweep: the command ended with status {status}")
    return float(seconds), int(memory)


def main():
    with tempfile.TemporaryDirectory() as folder:
        compare_speed(pathlib.Path(folder))
    plain = "--out", "full.deceleration.at_pedal_force,full.stop.distance"
    measured = {cases: run_command(cases, *plain) for cases in (CASES // 10, CASES)}
    for cases, (seconds, memory) in measured.items():
        print(f"{cases:12,d} cases to CSV: {seconds:8.2f} s, {memory:6d} KiB at the peak")
    few, many = (memory for _, memory in measured.values())
    print(f"bench sweep: ten times the cases take {many / few:.2f} x the memory")
    seconds, _ = run_command(WITH_HEAT, "--out", "us.135.hot,us.135.recovery", "--threads", "1")
    print(f"bench sweep: with a fade procedure a case, {WITH_HEAT / seconds:.1f} cases a second")


if __name__ == "__main__":
    main()
