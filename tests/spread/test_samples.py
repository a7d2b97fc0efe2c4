# SPDX-License-Identifier: MIT
"""Samples held against NumPy and SciPy: the sequence, the shapes, the percentiles."""
import json
import os
import pathlib
import subprocess

import numpy
import pytest
from scipy import stats
from scipy.stats import qmc

ROOT = pathlib.Path(__file__).parents[2]
DRIVER = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", ROOT / "build")) / "tests" / "spread-driver"
HERON = ROOT / "examples" / "heron.ini"
DIMENSIONS = 512


def driver(*words, given=b""):
    run = subprocess.run(
        [DRIVER, *map(str, words)], input=given, stdout=subprocess.PIPE, check=True
    )
    return numpy.frombuffer(run.stdout)


def points(dimensions, first, count, *seed):
    return driver("sobol", dimensions, first, count, *seed).reshape(count, dimensions)


# ---- the sequence: SciPy's, whose direction numbers are those of Joe and Kuo
# -----------------------


def test_plain_points_are_those_of_scipy():
    expected = qmc.Sobol(DIMENSIONS, scramble=False).random(4096)
    assert numpy.array_equal(points(DIMENSIONS, 0, 4096), expected)


@pytest.mark.parametrize("bit", range(12, 20))
def test_each_direction_number_is_that_of_scipy(bit):
    # The Gray code of 2^(bit+1) - 1 is a one and zeros: the point is the direction number.
    index = 2 ** (bit + 1) - 1
    expected = qmc.Sobol(DIMENSIONS, scramble=False).fast_forward(index).random(1)
    assert numpy.array_equal(points(DIMENSIONS, index, 1), expected)


def test_scrambled_points_have_one_in_every_equal_part_of_every_coordinate():
    for seed in (1, 2, 3):
        for power in (4, 8, 11):
            cells = numpy.floor(points(DIMENSIONS, 0, 2**power, seed) * 2**power).astype(int)
            assert (numpy.sort(cells, axis=0) == numpy.arange(2**power)[:, None]).all()


def test_scrambled_points_keep_the_net_of_the_first_two_dimensions():
    # Dimensions 1 and 2 are a (0, m, 2)-net in base 2 (Niederreiter 1992, from memory): every box
    # of area 2^-m, whatever its sides, has one point.
    power = 10
    for seed in (5, 6):
        pair = points(2, 0, 2**power, seed)
        for across in range(power + 1):
            box = numpy.floor(pair * [2**across, 2 ** (power - across)]).astype(int)
            number = box[:, 0] * 2 ** (power - across) + box[:, 1]
            assert len(set(number)) == 2**power


def test_another_seed_gives_other_points_and_the_same_seed_the_same():
    one, again, other = (points(8, 0, 64, seed) for seed in (7, 7, 8))
    assert numpy.array_equal(one, again)
    assert not numpy.isin(one, other).any()


def test_scrambled_points_are_uniform_over_many_seeds():
    # One point, 2000 scrambles: Kolmogorov-Smirnov at 1 of 1000, for each of 4 coordinates.
    found = numpy.array([points(4, 5, 1, seed)[0] for seed in range(2000)])
    for coordinate in found.T:
        assert stats.kstest(coordinate, "uniform").pvalue > 0.001 / 4


# ---- shapes
# ---------------------------------------------------------------------------------------


def test_normal_values_are_those_of_scipy():
    share = numpy.concatenate(
        [
            numpy.linspace(1e-6, 1 - 1e-6, 100001),
            10.0 ** -numpy.arange(1.0, 300.0),
            1 - 10.0 ** -numpy.arange(1.0, 15.0),
        ]
    )
    found = driver("quantile", given=share.tobytes())
    expected = stats.norm.ppf(share)
    assert numpy.max(numpy.abs(found - expected) / numpy.maximum(1, numpy.abs(expected))) < 1e-14


def test_normal_values_at_the_ends():
    share = numpy.array([0.0, 1.0, -0.1, 1.1, numpy.nan])
    found = driver("quantile", given=share.tobytes())
    assert found[0] == -numpy.inf and found[1] == numpy.inf and numpy.isnan(found[2:]).all()


SHARES = numpy.linspace(0.0005, 0.9995, 1000)
HALF = {0: 3.0 / 1.959963984540054, 1: 3.0 / 0.95, 2: 3.0 / (1 - 0.05**0.5)}
SHAPES = {
    0: lambda: stats.norm(10, HALF[0]),
    1: lambda: stats.uniform(10 - HALF[1], 2 * HALF[1]),
    2: lambda: stats.triang(0.5, 10 - HALF[2], 2 * HALF[2]),
}


@pytest.mark.parametrize("shape", SHAPES)
def test_each_shape_holds_95_of_100_within_its_tolerance(shape):
    given = numpy.array([0.025, 0.5, 0.975])
    found = driver("shape", shape, 10, 3, 0, -1e3, 1e3, given=given.tobytes())
    assert found == pytest.approx([7, 10, 13], rel=1e-14)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("low, high", [(-1e3, 1e3), (9, 1e3), (-1e3, 10.5), (8.5, 12), (10, 12)])
def test_what_is_out_of_range_is_left_out_and_the_rest_counts_as_the_whole(shape, low, high):
    # Quantiles of a truncated distribution: F(x) = (G(x) - G(low)) / (G(high) - G(low)).
    whole = SHAPES[shape]()
    expected = whole.ppf(
        whole.cdf(low) + SHARES * (whole.cdf(high) - whole.cdf(low))
    )
    found = driver("shape", shape, 10, 3, 0, low, high, given=SHARES.tobytes())
    assert found == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_outermost_shares_stay_in_range(shape):
    outermost = numpy.array([2.0**-33, 1 - 2.0**-33])
    for low, high in ((9, 12), (10, 10.1), (-1e3, 10), (9.999999, 10.000001)):
        found = driver("shape", shape, 10, 3, 0, low, high, given=outermost.tobytes())
        assert low <= found[0] < found[1] <= high


def test_a_value_out_of_range_itself_opens_that_end():
    found = driver("shape", 0, 10, 3, 0, 11, 14, given=SHARES.tobytes())
    assert 10 <= found.min() < 10.01 and 13.8 < found.max() <= 14


class Leaning:
    """Two halves of a shape that meet at its median, each with a width of its own.

    Split normal by quantiles: as many lie below the middle as above, unlike the one that is smooth
    at its mode. A half is that of the plain shape, stretched.
    """

    def __init__(self, whole, lean):
        self.whole, self.stretch = whole, (1 - lean, 1 + lean)

    def ppf(self, share):
        off = self.whole.ppf(share) - 10
        return 10 + off * numpy.where(off < 0, *self.stretch)

    def cdf(self, value):
        off = value - 10
        return self.whole.cdf(10 + off / numpy.where(off < 0, *self.stretch))


LEANS = (-0.9, -0.4, 0.25, 0.8)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("lean", LEANS)
def test_a_leaning_shape_holds_95_of_100_between_its_own_ends(shape, lean):
    """Given a lean, when quantiles are asked for, then the median is the middle and 2.5 % lie below
    middle - (1 - lean) tolerance, 2.5 % above middle + (1 + lean) tolerance."""
    given = numpy.array([0.025, 0.5, 0.975])
    found = driver("shape", shape, 10, 3, lean, -1e3, 1e3, given=given.tobytes())
    assert found == pytest.approx([10 - 3 * (1 - lean), 10, 10 + 3 * (1 + lean)], rel=1e-14)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("lean", LEANS)
@pytest.mark.parametrize("low, high", [(-1e3, 1e3), (9, 1e3), (-1e3, 10.5), (8.5, 12), (10, 12)])
def test_a_leaning_shape_is_cut_as_a_plain_one_is(shape, lean, low, high):
    whole = Leaning(SHAPES[shape](), lean)
    expected = whole.ppf(whole.cdf(low) + SHARES * (whole.cdf(high) - whole.cdf(low)))
    found = driver("shape", shape, 10, 3, lean, low, high, given=SHARES.tobytes())
    assert found == pytest.approx(expected, rel=1e-12)
    assert low <= found.min() and found.max() <= high


def test_a_usual_interval_is_met_at_its_ends_and_its_middle():
    """Given the usual gap of a pad, 0.09 mm, 0.33 to 2.5 times, when its lean and tolerance are
    taken of it, then those three numbers are its quantiles again (libbrake/vehicle/sections.c).
    """
    low, middle, high = 0.0297, 0.09, 0.225
    tolerance, lean = (high - low) / 2, (high + low - 2 * middle) / (high - low)
    given = numpy.array([0.025, 0.5, 0.975])
    found = driver("shape", 0, middle, tolerance, lean, -3, 3, given=given.tobytes())
    assert found == pytest.approx([low, middle, high], rel=1e-12)


# ---- toleranced numbers of a vehicle
# ----------------------------------------------------------------


def sampled(count=8192, seed=3, file=HERON):
    """Values of the toleranced numbers by path, and what the report says of each."""
    program = os.environ.get("STOPMARGIN", str(ROOT / "build" / "stopmargin"))
    run = subprocess.run([program, "spread", file, "--samples", "1024", "--json"],
                         stdout=subprocess.PIPE)  # fmt: skip
    inputs = json.loads(run.stdout)["inputs"]
    values = driver("values", file, count, seed).reshape(count, len(inputs))
    return {one["path"]: column for one, column in zip(inputs, values.T)}, inputs


def stated(file=HERON):
    """Paths of the numbers that a file gives, by another way than the study's."""
    text = pathlib.Path(file).read_text(encoding="utf-8")
    section, paths = "", set()
    for line in text.splitlines():
        if line.startswith("["):
            section = line[1 : line.index("]")]
        elif "=" in line.partition(";")[0]:
            paths.add(f"{section}.{line.partition('=')[0].strip()}")
    return paths


def test_middle_and_deviation_are_those_of_the_file():
    """What a number has of its own and what it shares are two dimensions of the sequence: some
    pairs lie even only from some thousand points of each replicate on."""
    values, inputs = sampled(count=32768)
    seen = 0
    for one in inputs:
        column = values[one["path"]]
        if one["value"] - 3 * one["tolerance"] < 0 < one["value"] or "efficiency" in one["path"]:
            continue  # the range cuts some off
        if one["path"] not in stated():
            continue  # usual values lean: below
        seen += 1
        assert column.mean() == pytest.approx(one["value"], abs=0.002 * one["tolerance"])
        assert column.std() == pytest.approx(one["tolerance"] / 1.959964, rel=0.005)
    assert seen > 10


def test_as_many_usual_values_lie_below_their_middle_as_above():
    """Given lines that were left out, when they are drawn, then their middle is the usual value,
    however they lean, and the tolerance is half of what holds 95 of 100."""
    values, inputs = sampled()
    seen = 0
    for one in inputs:
        low, middle, high = numpy.percentile(values[one["path"]], [2.5, 50, 97.5])
        left_out = one["path"] not in stated() and one["tolerance"] > 0
        at_one = "efficiency" in one["path"] or one["path"] == "driver.modulation"
        if not left_out or one["value"] - 3 * one["tolerance"] < 0 or at_one:
            continue  # cut by what is accepted
        seen += 1
        assert middle == pytest.approx(one["value"], abs=0.01 * one["tolerance"]), one["path"]
        assert high - low == pytest.approx(2 * one["tolerance"], rel=0.02), one["path"]
    assert seen > 5


def test_95_of_100_lie_between_the_ends_that_the_answer_tells():
    """Given the example, when its numbers are drawn, then 25 of 1000 lie below `low` and as many
    above `high`, leaning or cut by what is accepted; of a choice there are no ends. The usual gap
    of a pad leans, up to 2.5 times 0.09 mm (libbrake/vehicle/sections.c); little of it is cut.
    """
    values, inputs = sampled()
    told = {one["path"]: (one["low"], one["high"]) for one in inputs}
    assert told["front.disc.pads.gap"][1] == pytest.approx(0.225e-3, rel=0.001)
    for one in inputs:
        if one["low"] is None:
            assert (one["high"], one["tolerance"]) == (None, 0)
            continue
        ends = numpy.percentile(values[one["path"]], [2.5, 97.5])
        # Of random samples an end scatters by 0.015 of the tolerance.
        assert ends == pytest.approx(told[one["path"]], abs=0.045 * one["tolerance"]), one["path"]


TIED = {
    ("scales.front_left", "scales.rear_right"): 0.5,
    ("scales.front_left", "scales.front_right"): 0.5,
    ("load.full.front_axle", "load.full.rear_axle"): 0.5,
    ("front.disc.pads.mu", "rear.drum.lining.mu"): 0.5,
    ("booster.vacuum", "booster.vacuum_low"): 0.5,
    ("front.tyre.overall_diameter", "rear.tyre.overall_diameter"): 0.5,
    ("front.disc.pads.mu", "scales.front_left"): 0.0,
    ("vehicle.cg_height", "road.adhesion"): 0.0,
    ("scales.front_left", "load.full.front_axle"): 0.0,
}


@pytest.mark.parametrize("pair", TIED)
def test_pairs_correlate_as_the_table_of_causes_asks(pair):
    values, _ = sampled()
    found = numpy.corrcoef(values[pair[0]], values[pair[1]])[0, 1]
    # A scrambled net of 8192 points: a few thousandths; random ones would scatter by 0.011.
    assert found == pytest.approx(TIED[pair], abs=0.01)


# ---- percentiles
# ------------------------------------------------------------------------------------


def test_percentiles_are_those_of_numpy():
    samples = 1024
    rows = driver("spread", HERON, samples).reshape(-1, samples + 5)
    judged = 0
    for row in rows:
        value, found = row[:samples], row[samples:]
        known = value[~numpy.isnan(value)]
        if len(known) == 0:
            assert numpy.isnan(found).all()
            continue
        judged += 1
        assert (known[1:] >= known[:-1]).all()
        # Between two neighbours without limit there is no line to be drawn.
        shares = [5, 25, 50, 75, 95]
        below = numpy.percentile(known, shares, method="lower")
        above = numpy.percentile(known, shares, method="higher")
        with numpy.errstate(invalid="ignore"):
            straight = numpy.percentile(known, shares)
        expected = numpy.where(below == above, below, straight)
        assert found == pytest.approx(expected, rel=1e-13)
    assert judged > 30
