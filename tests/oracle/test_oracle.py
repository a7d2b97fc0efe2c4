"""The library against a second model of the same texts, on random vehicles.

ORACLE_CASES vehicles (10,000) from ORACLE_SEED (1); LIBBRAKE_BUILD says where the driver is.
"""
import json
import math
import os
import pathlib
import subprocess
import tempfile

import pytest

from oracle import lines, model, vehicles

ROOT = pathlib.Path(__file__).parents[2]
BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", ROOT / "build"))
DRIVER = BUILD / "tests" / "oracle-driver"
CASES = int(os.environ.get("ORACLE_CASES", "10000"))
SEED = int(os.environ.get("ORACLE_SEED", "1"))
RELATIVE = 1e-9
SHOWN = 20  # differences in a message


def scale(path):
    """Natural size of what may cross 0, for an absolute tolerance; 0: relative only."""
    if path.endswith("margin"):
        return 1.0  # have over need less 1: rounding of the ratio stays when it is near 1
    if path.endswith(("behind_front_axle", "uncorrected_lift")):
        return 1.0  # m, differences of lengths of this order
    if path.endswith("valve_knee"):
        return 1e6  # Pa: knee plus what the load moves it by
    if path.endswith(("adhesion_used", "front_share", "heat_share")):
        return 1.0  # shares: what is left of 1
    if path.endswith("pull"):
        return 1e2  # N*m: thousands of N times tenths of m times tenths
    if path.endswith("_needed"):
        return 1e3  # N*m: the rear's part of a torque of this order
    if path.endswith("load.full.mass"):
        return 1e3  # kg: readings less the vehicle
    if path.endswith(("_rise", "travel_used")):
        return 1.0
    if path.startswith("force") or path.endswith(("at_pedal_force", "most", "brakes_alone")):
        return 1.0
    return 0.0


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
    return apart <= RELATIVE * abs(mine) or apart <= RELATIVE * scale(path)


def library_vehicle(answer):
    return {path: entry["value"] for path, entry in answer["vehicle"].items()}


def completed_differences(raw, answer):
    """Quantities that `lines` makes otherwise than the library."""
    mine = lines.complete(raw)
    theirs = library_vehicle(answer)
    for path in sorted(set(mine) | set(theirs)):
        if "piston_diameter" in path or path == "vehicle.name":
            continue  # a part of pistons once more; a name says nothing
        if not same(path, mine.get(path), theirs.get(path)):
            yield path, mine.get(path), theirs.get(path)


def result_differences(car, answer):
    mine = model.evaluate(car)
    theirs = {path: entry["value"] for path, entry in answer["results"].items()}
    for path in sorted(set(mine) | set(theirs)):
        if path.endswith("lock_axle") and lock_tie(car, path):
            continue
        if not same(path, mine.get(path, math.nan), theirs.get(path)):
            yield path, mine.get(path), theirs.get(path)


def lock_tie(car, path):
    """Whether both axles lock at one pressure, as far as rounding can tell."""
    motion = car.cases[path.split(".")[0]].motion()
    lock = motion.lock(car.adhesion)
    if lock is None or car.locked_drive:
        return False
    other = 1 - lock[2]
    over = motion.excess(other, car.adhesion, lock[0])
    return abs(over) < 1e-9 * motion.weight


def criterion_differences(car, answer):
    mine = model.judge(car)
    theirs = {row["id"]: row for row in answer["criteria"]}
    for name in sorted(set(mine) | set(theirs)):
        if name not in mine or name not in theirs:
            yield name, name in mine, name in theirs
            continue
        judgement, row = mine[name], theirs[name]
        parts = ["applies", "value", "margin"]
        if row["verdict"] != "cannot say":
            parts.append("limit")  # else nothing is held against it
        for part in parts:
            if not same(part, getattr(judgement, part), row[part]):
                yield f"{name} {part}", getattr(judgement, part), row[part]
        if judgement.verdict != row["verdict"] and not abs(judgement.margin) < 1e-9:
            yield f"{name} verdict", judgement.verdict, row["verdict"]


def differences(raw, answer):
    yield from completed_differences(raw, answer)
    car = model.Car(library_vehicle(answer))
    yield from result_differences(car, answer)
    yield from criterion_differences(car, answer)


def answers(texts):
    """What the driver prints for vehicle files, while they are still being compared."""
    with tempfile.TemporaryFile("w+", encoding="utf-8") as given:
        for number, text in enumerate(texts):
            given.write(f"=== {number}\n{text}\n")
        given.seek(0)
        with subprocess.Popen([DRIVER], stdin=given, stdout=subprocess.PIPE) as driver:
            for line in driver.stdout:
                yield json.loads(line)
        assert driver.returncode == 0, f"the driver ended with status {driver.returncode}"


@pytest.mark.skipif(not DRIVER.exists(), reason=f"no {DRIVER}")
def test_library_agrees_with_the_oracle():
    cases = [vehicles.vehicle(number, SEED) for number in range(CASES)]
    wrong, answered = [], 0
    for (text, raw), answer in zip(cases, answers(text for text, _ in cases)):
        where = f"seed {SEED} case {answer['case']}"
        assert answer["case"] == answered, f"{where}: expected case {answered}"
        answered += 1
        if answer["error"] is not None:
            wrong.append(f"{where}: refused: {answer['error']}\n{text}")
            continue
        found = [
            f"{where}: {path}: oracle {mine!r}, library {theirs!r}"
            for path, mine, theirs in differences(raw, answer)
        ]
        if found:
            wrong.append("\n".join([*found[:SHOWN], text]))
        if len(wrong) >= SHOWN:
            break
    assert not wrong, f"{len(wrong)} of {answered} vehicles differ\n" + wrong[0]
    assert answered == CASES
