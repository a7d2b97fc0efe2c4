# SPDX-License-Identifier: MIT
"""Samples conditioned on a drive, of shapes of one's own, and correlated draws of one's own."""
import pathlib

import numpy as np
import pytest

ROOT = pathlib.Path(__file__).resolve().parents[2]
MU, LINING, STOP = "front.disc.pads.mu", "rear.drum.lining.mu", "full.stop.distance"


def test_what_a_drive_told_is_in_the_samples(heron):
    """Given the vehicle's own drive, then what it tells of friction narrows the samples of it and
    of what follows, and shares what is left between lines that the drive cannot tell apart."""
    before, told = heron.samples(4096, [STOP]), heron.copy()
    told.learn(ROOT / "examples" / "heron-drive.csv")
    after = told.samples(4096, [STOP])
    assert np.std(after[MU]) < 0.9 * np.std(before[MU])
    assert np.std(after["full.stop.distance"]) < np.std(before["full.stop.distance"])
    apart = [np.corrcoef(t[MU], t["booster.gain"])[0, 1] for t in (before, after)]
    assert abs(apart[0]) < 0.1 and apart[1] < -0.1, "one may be more where the other is less"


def test_a_shape_of_ones_own_is_drawn(heron):
    """A uniform line has its 95 of 100 within the tolerance, so a half of tolerance/0.95 and a
    kurtosis of 9/5; a normal one 3 (Abramowitz and Stegun, 26.1)."""

    def kurtosis(values):
        return np.mean((values - values.mean()) ** 4) / np.var(values) ** 2

    uniform = heron.samples(16384, STOP, shape={"pedal.pad_arm": "uniform"})
    assert kurtosis(uniform["pedal.pad_arm"]) == pytest.approx(1.8, abs=0.02)
    assert kurtosis(heron.samples(16384, STOP)["pedal.pad_arm"]) == pytest.approx(3.0, abs=0.1)


def test_draws_of_ones_own_keep_their_correlation_and_give_what_setting_each_gives(heron):
    """Given frictions that are correlated by 0.8, as of one maker's batch, then the outputs are
    those of each pair, and the scatter is wider than of pairs that are not."""
    draw = np.random.default_rng(7)
    both = draw.multivariate_normal([0, 0], [[1, 0.8], [0.8, 1]], 2000)
    apart = draw.multivariate_normal([0, 0], np.eye(2), 2000)
    spread = []
    for factors in (both, apart):
        lines = {MU: 0.36 * (1 + 0.05 * factors[:, 0]), LINING: 0.34 * (1 + 0.05 * factors[:, 1])}
        table = heron.cases(lines, out=["full.pedal.force_for_target"])
        spread.append(np.std(table["full.pedal.force_for_target"]))
        assert np.corrcoef(table[MU], table[LINING])[0, 1] == pytest.approx(
            0.8 if factors is both else 0.0, abs=0.05)  # fmt: skip
    assert spread[0] > 1.02 * spread[1]
    one = heron.copy()
    one.set({MU: float(table[MU][3]), LINING: float(table[LINING][3])})
    force = one.outputs("full.pedal.force_for_target")["full.pedal.force_for_target"]
    assert table["full.pedal.force_for_target"][3] == force
