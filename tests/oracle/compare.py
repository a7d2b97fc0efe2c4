# SPDX-License-Identifier: MIT
"""Vehicles through the library's driver and through the oracle, and where the two differ."""
import json
import math
import re
import subprocess
import tempfile

from oracle import lines, model, vehicles

RELATIVE = 1e-9
HOT = re.compile(r"\.(hot|recovery|fluid|fade)")  # heat over time, which has oracles of its own
KEPT = 20  # differences in a message

# Natural size of what may cross 0, by the end of its path, for an absolute tolerance.
SIZES = (
    ("margin", 1.0),  # have over need, less 1: the rounding of a ratio near 1
    ("behind_front_axle", 1.0),  # m: differences of lengths of this order
    ("load.full.mass", 1e3),  # kg: readings less the vehicle
    ("front_share", 1.0),  # shares: what is left of 1
    ("heat_share", 1.0),
    ("adhesion_used", 1.0),  # a difference of forces over a load of their order
    ("valve_knee", 1e6),  # Pa: a knee plus what the load moves it by
    ("pull", 1e2),  # N*m: thousands of N times hundredths of m
    ("_one_circuit", 1e2),
    ("_needed", 1e3),  # N*m: the rear's part of a torque of this order
    ("front_rise", 1e2),  # K: energy times a share that may be nearly 0
    ("rear_rise", 1e2),
    ("front_available", 1e3),  # N*m: gain times what the pressure has above a threshold
    ("rear_available", 1e3),
    ("us.135.rear_curve value", 1.0),  # adhesion used once more
)


def size(path):
    return next((natural for end, natural in SIZES if path.endswith(end)), 0.0)


def same(path, mine, theirs):
    if isinstance(mine, str) or isinstance(theirs, str):
        return mine == theirs
    if isinstance(mine, (list, tuple)):
        return (
            isinstance(theirs, list)
            and len(mine) == len(theirs)
            and all(same(path, m, t) for m, t in zip(mine, theirs))
        )
    if mine is None or not math.isfinite(mine):
        return theirs is None
    if theirs is None:
        return False
    apart = abs(mine - theirs)
    return apart <= RELATIVE * abs(mine) or apart <= RELATIVE * size(path)


def library_vehicle(answer):
    return {path: entry["value"] for path, entry in answer["vehicle"].items()}


def line_differences(raw, answer):
    """Quantities that follow otherwise from the lines."""
    mine, theirs = lines.complete(raw), library_vehicle(answer)
    for path in sorted(set(mine) | set(theirs)):
        if "piston_diameter" in path or path == "vehicle.name":
            continue  # a part of pistons once more; a name says nothing
        if not same(path, mine.get(path), theirs.get(path)):
            yield path, mine.get(path), theirs.get(path)


def result_differences(car, answer):
    mine = model.evaluate(car)
    theirs = {
        path: entry["value"]
        for path, entry in answer["results"].items()
        if not path.startswith("fade.")
    }
    for path in sorted(set(mine) | set(theirs)):
        if path.endswith("lock_axle") and is_tie(car, path):
            continue
        if not same(path, mine.get(path, "none"), theirs.get(path, "none")):
            yield path, mine.get(path, "none"), theirs.get(path, "none")


def is_tie(car, path):
    """Whether both axles lock at one pressure, as far as rounding can tell."""
    motion = car.cases[path.split(".")[0]].motion()
    lock = motion.lock(car.adhesion)
    if lock is None or car.locked_drive:
        return False
    other = motion.excess(1 - lock[2], car.adhesion, lock[0])
    return abs(other) < 1e-9 * motion.weight


def criterion_differences(car, answer):
    mine = model.judge(car)
    theirs = {
        row["id"]: row
        for row in answer["criteria"]
        if not HOT.search(row["id"])
    }
    for name in sorted(set(mine) | set(theirs)):
        # What does not apply is not listed.
        if name not in mine or mine[name].applies != (name in theirs):
            yield name, name in mine and mine[name].applies, name in theirs
            continue
        if name not in theirs:
            continue
        judgement, row = mine[name], theirs[name]
        parts = ["value", "margin"]
        if row["verdict"] != "cannot say":
            parts.append("limit")  # else nothing is held against it
        for part in parts:
            if not same(f"{name} {part}", getattr(judgement, part), row[part]):
                yield f"{name} {part}", getattr(judgement, part), row[part]
        # A margin that rounds to 0 may fall on either side.
        if judgement.verdict != row["verdict"] and not abs(judgement.margin) < RELATIVE:
            yield f"{name} verdict", judgement.verdict, row["verdict"]


def answers(driver, numbers, texts):
    """What the driver prints for vehicle files, while they are being compared."""
    with tempfile.TemporaryFile("w+", encoding="utf-8") as given:
        for number, text in zip(numbers, texts):
            given.write(f"=== {number}\n{text}\n")
        given.seek(0)
        with subprocess.Popen([driver], stdin=given, stdout=subprocess.PIPE) as running:
            for line in running.stdout:
                yield json.loads(line)
        if running.returncode:
            raise RuntimeError(f"{driver} ended with status {running.returncode}")


# Known fault, by seed and number: wheels that the locked drive keeps together and whose torque has
# an end lock, by the library, at a pedal force of 1.7e18 N: rounding of a slope that is 0. It is
# counted, and not compared.
UNSETTLED = {(1, 6524)}


def differences(driver, numbers, seed):
    """Messages by kind of difference, and the number of vehicles that were compared."""
    cases = [vehicles.vehicle(number, seed) for number in numbers]
    wrong = {"refused": [], "lines": [], "results": [], "criteria": []}
    compared = 0
    replies = answers(driver, numbers, [text for text, _ in cases])
    for number, (text, raw), answer in zip(numbers, cases, replies):
        if answer["case"] != number:
            raise RuntimeError(f"{driver} answered for {answer['case']}, not {number}")
        compared += 1
        where = f"seed {seed}, case {number}"
        if answer["error"] is not None:
            wrong["refused"].append(f"{where}: {answer['error']}\n{text}")
            continue
        if (seed, number) in UNSETTLED:
            continue
        car = model.Car(library_vehicle(answer))
        for kind, found in (
            ("lines", line_differences(raw, answer)),
            ("results", result_differences(car, answer)),
            ("criteria", criterion_differences(car, answer)),
        ):
            found = [
                f"{where}: {path}: oracle {mine!r}, library {theirs!r}"
                for path, mine, theirs in found
            ]
            if found and len(wrong[kind]) < KEPT:
                wrong[kind].append("\n".join([*found[:KEPT], text]))
    return wrong, compared
