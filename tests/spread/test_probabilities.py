# SPDX-License-Identifier: MIT
"""P of `check` and `spread` against 10^5 independent draws of models that are not the library's.

exact.ini states everything to be exact and each situation makes a few lines uncertain, so that the
distribution of all that is drawn is known. The draws are NumPy's; the vehicles are those of
brute.py, written from reference/method.md and held against the oracle here. Shares of two sets of
independent samples differ by 4 standard errors in 1 of 16,000 cases; a Sobol sequence is no worse.
"""
import functools
import json
import math
import pathlib
from typing import NamedTuple

import numpy
import pytest
from scipy import stats

from file import plain
from oracle import model
from spread import brute

EXACT = pathlib.Path(__file__).with_name("exact.ini").read_text(encoding="utf-8")
DRAWS = 100_000
SAMPLES = 16384
ERRORS = 4  # standard ones

# ---- situations ----------------------------------------------------------------------------------


class Situation(NamedTuple):
    uncertain: dict  # lines by path: middle, where 95 of 100 lie, what is accepted; in SI
    rows: list  # requirements that they move
    happens: object = None  # in which draws what the situation is about happens
    stated: tuple = ()  # other settings
    left_out: tuple = ()  # lines of exact.ini that are left out; their uncertainty is the usual one


def around(middle, half, low=-math.inf, high=math.inf):
    return middle, middle - half, middle + half, low, high


def friction(middle, half):
    return around(middle, half, 0.05, 0.90)


def a_shoe_locks(cars):
    return numpy.isnan(cars.push[1])


def the_pedal_is_at_its_floor(cars):
    return cars.floor(2) < cars.unlimited(500.0)


def the_booster_has_given_all(cars):
    return cars.rod(500.0) > cars.knee()


def the_tyres_hold_less_than_the_brakes(cars):
    motion = brute.Motion(cars, "full")
    return motion.deceleration(500.0) < motion.slope * cars.pressure(500.0) * (1 - 1e-9)


STOPS = ["un.13h.type0", "un.13h.type0_distance"]
ORDER = ["hazard.rear_first", "us.135.rear_curve"]
PADS, LINING, TRAVEL = "front.disc.pads.mu", "rear.drum.lining.mu", "pedal.travel"

SITUATIONS = {
    "self-lock": Situation(
        {LINING: friction(0.62, 0.22)},
        ["hazard.self_lock", "hazard.circuit", "hazard.floor", "un.13h.adhesion", *STOPS, *ORDER],
        a_shoe_locks,
        stated=("front.disc.pads.mu = 0.45 +- 0",),
    ),
    "floor": Situation(
        {
            TRAVEL: around(0.122, 0.02, 0.05, 0.35),
            "front.disc.compliance": around(2.0e-6, 0.8e-6, 0.0, 2e-5),
            "front.disc.pads.gap": around(0.0002, 0.0001, 0.0, 0.003),
        },
        ["hazard.floor", "hazard.reserve", *STOPS],
        the_pedal_is_at_its_floor,
    ),
    "knee": Situation(
        {
            "booster.gain": around(2.0, 0.3, 1.0, 12.0),
            "booster.assist": around(1700.0, 300.0, 0.0, 20000.0),
            "pedal.efficiency": around(0.85, 0.1, 0.4, 1.0),
        },
        STOPS,
        the_booster_has_given_all,
        stated=("front.disc.pads.mu = 0.36 +- 0",),
    ),
    "grip": Situation(
        {"vehicle.tyre_grip": around(0.86, 0.12, 0.5, 1.5), PADS: friction(0.35, 0.08)},
        [*STOPS, *ORDER],
        the_tyres_hold_less_than_the_brakes,
    ),
    "grip with anti-lock": Situation(
        {"vehicle.tyre_grip": around(0.82, 0.12, 0.5, 1.5), PADS: friction(0.35, 0.08)},
        STOPS,
        the_tyres_hold_less_than_the_brakes,
        stated=("vehicle.antilock = fitted",),
    ),
    # Friction is as good as known, and what decides is what the model itself may be off by.
    "error of the model": Situation(
        {PADS: friction(0.316, 0.002)},
        ["hazard.floor", "hazard.reserve", "un.13h.type0", "hazard.rear_first"],
        stated=(
            "pedal.travel = 108 mm +- 0 mm",
            "rear.drum.cylinder_diameter = 19.6 mm +- 0 mm",
        ),
    ),
    # Front and rear go through half of it together; lock order is judged where that parts them.
    "shared cause": Situation(
        {PADS: friction(0.33, 0.08), LINING: friction(0.37, 0.09)},
        [*STOPS, *ORDER],
        stated=("rear.drum.cylinder_diameter = 22 mm +- 0 mm",),
    ),
    # Usual values of `stopmargin explain`: friction as many above as below, the gap of a floating
    # caliper 0.33 to 2.5 times 0.09 mm. They share their cause as stated ones do.
    "left out": Situation(
        {
            PADS: friction(0.38, 0.08),
            LINING: friction(0.37, 0.09),
            "front.disc.pads.gap": (0.09e-3, 0.33 * 0.09e-3, 2.5 * 0.09e-3, 0.0, 0.003),
        },
        ["hazard.floor", "hazard.reserve", *STOPS, *ORDER],
        stated=("pedal.travel = 95 mm +- 0 mm", "master.bore = 22.5 mm +- 0 mm"),
        left_out=("mu = 0.4 +- 0\n", "mu = 0.35 +- 0\n", "gap = 0.1 mm +- 0 mm\n"),
    ),
}

# ---- asking, and drawing -------------------------------------------------------------------------

UNITS = {"travel": "m", "compliance": "m3", "gap": "m", "assist": "N", "rated_mass": "kg",
         "load_capacity": "kg"}  # fmt: skip


def settings_of(uncertain):
    """As the command takes them."""
    for path, (middle, least, most, *_) in uncertain.items():
        unit = UNITS.get(path.rpartition(".")[2], "")
        yield f"{path} = {middle!r} {unit} +- {(most - least) / 2!r} {unit}"


def asked(verb, settings, *options, text=EXACT):
    words = [word for one in settings for word in ("--set", one)]
    done = plain.run(verb, "-", "--json", "--rules", "all", *options, *words, given=text)
    assert done.returncode in (0, 1, 3), done.stderr.decode()
    return json.loads(done.stdout)


def answers(settings, uncertain, text=EXACT):
    """Of check, and of spread, which tells what was drawn: nothing else may be uncertain."""
    check = asked("check", settings, text=text)
    spread = asked("spread", settings, "--samples", str(SAMPLES), text=text)
    assert {one["path"] for one in spread["inputs"]} == set(uncertain)
    return check, spread


def rows_of(answer):
    return {row["id"]: row for row in answer["criteria"]}


def draw(uncertain):
    """Values of the uncertain lines by path, as they are and where front and rear part."""
    draws = brute.Draws(DRAWS, seed=20)
    scores = {path: draws.scores() for path in uncertain}
    parted = dict(scores)
    if PADS in uncertain and LINING in uncertain:
        scores[PADS], (scores[LINING], parted[LINING]) = draws.tied()
        parted[PADS] = scores[PADS]
    values = [
        {path: brute.value_of(one[path], *known) for path, known in uncertain.items()}
        for one in (scores, parted)
    ]
    return *values, draws.errors()


class Case:
    def __init__(self, situation):
        text = EXACT
        for line in situation.left_out:
            assert text.count(line) == 1
            text = text.replace(line, "")
        given = () if situation.left_out else settings_of(situation.uncertain)
        check, spread = answers([*situation.stated, *given], situation.uncertain, text)
        self.check, self.spread = rows_of(check), rows_of(spread)
        self.lines = {path: line["value"] for path, line in check["vehicle"].items()}
        self.drawn, parted, self.errors = draw(situation.uncertain)
        self.cars = brute.Cars(self.lines, self.drawn)
        self.parted = brute.Cars(self.lines, parted)

    def share(self, row):
        return brute.met(row, self.cars, self.parted, self.errors).mean()


@functools.cache
def case_of(name):
    return Case(SITUATIONS[name])


def standard_error(share, *counts):
    return math.sqrt(share * (1 - share) * sum(1 / count for count in counts))


# ---- what is held against what -------------------------------------------------------------------


@pytest.mark.parametrize("name", [name for name, one in SITUATIONS.items() if one.happens])
def test_what_a_situation_is_about_happens_in_a_part_of_the_draws(name):
    assert 0.03 < SITUATIONS[name].happens(case_of(name).cars).mean() < 0.97


@pytest.mark.parametrize("name", SITUATIONS)
def test_p_is_the_share_that_independent_draws_of_another_model_give(name):
    """Given lines of known uncertainty, when a vehicle is checked, and when it is spread, then each
    requirement that they move is met as often as brute force meets it."""
    case = case_of(name)
    for row in SITUATIONS[name].rows:
        share = case.share(row)
        assert 0.01 < share < 0.99, row
        for p, samples in (
            (case.check[row]["p_meets"], case.check[row]["samples"]),
            (case.spread[row]["probability"], SAMPLES),
        ):
            assert abs(p - share) < ERRORS * standard_error(share, samples, DRAWS), row


def test_samples_that_lock_themselves_are_told_by_every_row_that_turns_on_them():
    """Given a lining that may lock itself, when what turns on it is judged, then as many samples as
    do cannot be worked out, in each row."""
    case = case_of("self-lock")
    share = a_shoe_locks(case.cars).mean()
    for row in SITUATIONS["self-lock"].rows:
        told = 0 if row == "hazard.self_lock" else share  # that one says how near it is
        samples = case.check[row]["samples"]
        found = case.check[row]["not_worked_out"] / samples
        assert abs(found - told) <= ERRORS * standard_error(told, samples, DRAWS), row


@pytest.mark.parametrize("name", SITUATIONS)
def test_the_short_model_is_the_oracle(name):
    """Given some of the draws, when the oracle judges them, then its ratio of what there is to what
    is needed is that of the short model."""
    case = case_of(name)
    for row in SITUATIONS[name].rows:
        _, opposed, ratio = brute.ROWS[row]
        cars = case.parted if opposed else case.cars
        ratios = ratio(cars)
        criterion = model.CRITERIA[row]
        for draw in range(8):
            lines = {path: cars.at[path][draw] for path in SITUATIONS[name].uncertain}
            try:
                car = model.Car({**case.lines, **lines}, model.TEST_ADHESION)
            except model.Refused:
                assert numpy.isnan(ratios[draw]) or row == "hazard.self_lock"
                continue
            limit = model.limit_of(criterion, car)
            values = [model.measured(criterion, car, car.cases[load], failure)
                      for load in criterion.loads for failure in criterion.failures]  # fmt: skip
            expected = min(
                value / limit if model.margin_of(criterion.measure, 2 * limit, limit) > 0
                else limit / value
                for value in values
            )  # fmt: skip
            assert ratios[draw] == pytest.approx(expected, rel=1e-9), (row, lines)


# ---- several rows at once ------------------------------------------------------------------------


def expect_together(check, spread, share):
    """The joint P of both verbs; that of check is counted over its first samples only."""
    assert abs(spread["summary"]["all_probability"] - share) < ERRORS * standard_error(
        share, SAMPLES
    )
    assert abs(check["summary"]["p_all"] - share) < ERRORS * standard_error(share, 256)


def unsure(answer):
    """Rows that count and are not always met; a yardstick is no part of the joint P."""
    return {one: row["probability"] for one, row in rows_of(answer).items()
            if row["scope"] != "yardstick" and row["probability"] not in (None, 1)}  # fmt: skip


def test_rows_of_independent_causes_are_met_together_by_their_product():
    """Given a front tyre and a rear axle that may carry too little, each with a limit of its own,
    when both are judged, then both are met as often as the product of their shares says."""
    uncertain = {"front.tyre.load_capacity": (675.0, 600.0, 750.0),
                "rear.axle.rated_mass": (1310.0, 1210.0, 1410.0)}  # fmt: skip
    # Rear brakes that are weak enough for a rated mass wherever the axles let it lie.
    weak = "rear.drum.cylinder_diameter = 18 mm +- 0 mm"
    check, spread = answers([weak, *settings_of(uncertain)], uncertain)
    carried = {path: check["results"][path]["value"]
               for path in ("full.mass.front_axle", "full.mass.rear_axle")}  # fmt: skip
    tyre = stats.norm.sf(carried["full.mass.front_axle"] / 2, 675, 75 / brute.HOLDS)
    axle = stats.norm.sf(carried["full.mass.rear_axle"], 1310, 100 / brute.HOLDS)
    assert 0.5 < tyre < 0.95 and 0.5 < axle < 0.95
    assert set(unsure(spread)) == {"hazard.tyre_load", "hazard.axle_load"}
    expect_together(check, spread, tyre * axle)


def test_rows_of_one_cause_are_met_together_as_often_as_the_hardest_alone():
    """Given a travel of the pedal that may be too short, which several rows turn on with one error
    of the model, when all are judged, then all are met as often as the least often met one."""
    uncertain = {TRAVEL: (0.116, 0.104, 0.128)}
    check, spread = answers(list(settings_of(uncertain)), uncertain)
    rows = unsure(spread)
    assert {"hazard.floor", "hazard.reserve"} <= set(rows)
    assert len(set(rows.values())) > 1
    assert spread["summary"]["all_probability"] == min(rows.values())
    expect_together(check, spread, min(rows.values()))

