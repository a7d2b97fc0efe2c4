# SPDX-License-Identifier: MIT
"""Answers of every verb that knows --json: of the examples, and of the vehicles kept for tests."""
import functools
import itertools
import json
import math
import pathlib
import tempfile

from command import drives
from file import plain

EXAMPLES = plain.ROOT / "examples"
VEHICLES = plain.ROOT / "tests" / "vehicles"
HERON, BEFORE = (str(EXAMPLES / name) for name in ("heron.ini", "heron-before.ini"))
ALL = [str(path) for path in (*sorted(EXAMPLES.glob("*.ini")), *sorted(VEHICLES.glob("*.ini")))]
PAIRS = [(path.replace("-after.", "-before."), path) for path in ALL if path.endswith("-after.ini")]


def _logs(folder):
    """Logs of drives: one with a lock, a gap and a column more; one without a pedal."""
    table = drives.rows([drives.Stop(22, 5.5), drives.Stop(22, 5), drives.Stop(20, 5)], 10, 0.05)
    begun = next(time for time, _, force in table if force > 0)
    locked = drives.wheel_locks(table, begun + 1.5, 0.6)
    kept = [row for i, row in enumerate(locked) if not len(locked) // 2 < i < len(locked) // 2 + 9]
    more = [
        "pressure [bar],deceleration [m/s2],front_temperature [degC],rear_temperature [degC],"
        "grade [%],heading [deg],lap"
    ]
    lines = drives.text(kept).splitlines()
    on, off = "30,5,120,95,1,9,1", "0,0,90,80,1,9,1"
    more += [off if line.endswith(",0.0") else on for line in lines[1:]]
    whole = "".join(f"{line},{rest}\n" for line, rest in zip(lines, more))
    bare = drives.text(drives.rows([drives.Stop(22, 5)], 10), pedal=False)
    for name, text in (("whole", whole), ("bare", bare)):
        path = pathlib.Path(folder) / f"{name}.csv"
        path.write_text(text)
        yield str(path)


def _driven(folder):
    """A vehicle that names the log of a drive."""
    path = pathlib.Path(folder) / "driven.ini"
    text = pathlib.Path(HERON).read_text(encoding="utf-8")
    path.write_text(f"{text}\n[drive]\nlog = {EXAMPLES}/heron-drive.csv\n", encoding="utf-8")
    return str(path)


def _cooled(folder):
    """A log of both axles as they cool, with a column more."""
    head = "time [s],speed [km/h],front_temperature [degC],rear_temperature [degC],lap"
    rows = (
        f"{t},80,{18 + 400 * math.exp(-t / 400):.2f},{18 + 200 * math.exp(-t / 900):.2f},1"
        for t in range(0, 900, 5)
    )
    path = pathlib.Path(folder) / "cooled.csv"
    path.write_text("\n".join([head, *rows]) + "\n")
    return str(path)


def _asked(logs, driven, cooled):
    """Words of the command, the verb first."""
    drive = str(EXAMPLES / "heron-drive.csv")
    for path in ALL:
        yield ["check", path]
        yield ["shakedown", path, "--despite", "no-reserve,rear-first,one-circuit"]
        yield ["heat", path, "--stop", "100km/h"]
    yield ["check", HERON, "--before", BEFORE]
    yield ["check", driven]
    yield ["spread", driven, "--samples", "1024"]
    yield ["size", driven, "--by", "master.bore", "--for", "all"]
    yield ["compare", BEFORE, driven]
    yield from (["check", HERON, "--rules", "us"], ["shakedown", HERON, "--load", "full"])
    for duty in (["--stop", "80km/h,200N"], ["--snubs", "us.135.fade"], ["--cycle", drive],
                 ["--descent", "8%,6km,50km/h"],
                 ["--descent", "12%,20km,80km/h", "--load", "full"]):  # fmt: skip
        yield ["heat", HERON, *duty]
    yield ["heat", HERON, "--cooldown", cooled, "--set", "heat.ambient=18degC"]
    for path in (HERON, BEFORE, *(after for _, after in PAIRS)):
        yield ["spread", path, "--samples", "1024"]
    for before, after in (
        (BEFORE, HERON),
        (HERON, HERON),
        (BEFORE, ALL[-1]),
        (ALL[-1], BEFORE),
        *PAIRS,
    ):
        yield ["compare", before, after]
    kits = [str(VEHICLES / f"badger-{name}.ini") for name in ("before", "after", "kit")]
    yield ["compare", *kits, kits[0]]
    yield ["compare", BEFORE, HERON, BEFORE]
    for log in (drive, *logs):
        yield ["drivelog", HERON, log]
    yield from _sizes()


def _sizes():
    lists = ["--by", "master.bore=22.2mm,23.8mm,25.4mm", "--by", "pedal.ratio=4,5,6"]
    for path, by in itertools.product(
        (HERON, BEFORE, *PAIRS[0]), ("master.bore", "front.tyre.rollout")
    ):
        for wanted in (
            "us.135.cold",
            "us.135.cold = 90 %",
            "full.deceleration.at_pedal_force = 6 m/s2",
            "all",
        ):
            yield ["size", path, "--by", by, "--for", wanted]
    yield ["size", HERON, "--before", BEFORE, "--by", "master.bore", "--for", "regained"]
    for path in (HERON, BEFORE):
        yield ["size", path, *lists, "--for", "full.deceleration.at_pedal_force >= 5 m/s2"]
        yield ["size", path, *lists, "--for", "all"]
        yield ["size", path, "--by", "tyre=235/75R15,33x12.50R15", "--for", "us.135.cold"]
        yield [
            "size",
            path,
            "--by",
            "tyre=235/75R15,42x14.50R17",
            "--for",
            "full.deceleration.at_pedal_force >= 1 m/s2",
        ]
        yield [
            "size",
            path,
            "--by",
            "booster.vacuum",
            "--within",
            "20kPa,90kPa",
            "--for",
            "us.135.cold",
        ]
        yield ["size", path, "--by", "road.adhesion", "--for", "us.570.sides"]
        yield [
            "size",
            path,
            "--by",
            "rear.drum.lining.mu",
            "--within",
            "0.05,0.9",
            "--for",
            "full.stop.distance = 65 m",
        ]
        yield ["size", path, "--by", "stop.reaction_time", "--for", "full.stop.distance <= 100 m"]
        yield ["size", path, "--by", "front.disc.pads.mu", "--for", "full.balance.lock_axle = 0.5"]
        yield [
            "size",
            path,
            "--by",
            "front.disc.pads.mu",
            "--for",
            "empty.deceleration.most >= 6 m/s2",
        ]


def _form(verb, answer):
    """Verb, and what tells its second form apart."""
    if verb == "compare" and "kits" in answer:
        return "compare-kits"
    return "heat-cooldown" if verb == "heat" and "axles" in answer else verb


@functools.cache
def answers():
    """(words, answer) of each verb, of compare and heat by their two forms. A vehicle that a verb
    cannot be asked of gives none."""
    found = {}
    with tempfile.TemporaryDirectory() as folder:
        asked = _asked(_logs(folder), _driven(folder), _cooled(folder))
        for verb, *words in asked:
            done = plain.run(verb, *words, "--json")
            if done.stdout:
                answer = json.loads(done.stdout, parse_constant=plain.refuse_constant)
                found.setdefault(_form(verb, answer), []).append((words, answer))
    return found
