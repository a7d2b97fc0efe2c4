# SPDX-License-Identifier: MIT
"""What logs tell of lines: against drives of a vehicle whose lines are known, and against SciPy's
least squares, told by reference/method.md, section 11, apart from the engine."""
import pathlib

import pytest

import libbrake
from command import drives
from libbrake import errors

np = pytest.importorskip("numpy")
ROOT = pathlib.Path(__file__).resolve().parents[2]
DRIVE = ROOT / "examples" / "heron-drive.csv"
MU, GAIN = "front.disc.pads.mu", "booster.gain"
NEWTONS, BARS = (110, 140, 170, 120, 150, 180), (20, 25, 30, 22, 27, 32)
SPEEDS = (80.4, 79.2, 81.1, 50.6, 49.5, 50.2)  # km/h


def exact(vehicle, **kept):
    """A vehicle of which nothing is uncertain but what is kept."""
    lines = {path: f"{one['text']} +- 0" for path, one in vehicle.known().items()
             if one["tolerance"]}  # fmt: skip
    vehicle.set(lines)
    vehicle.set({MU: "0.38 +- 0.08, estimated", GAIN: "4.2 +- 0.8, estimated", **kept})
    return vehicle


def log_of(slowing, column, readings, seed):
    """A drive of such stops, as arrays."""
    stops = [drives.Stop(speed / 3.6, one, force=reading)
             for speed, one, reading in zip(SPEEDS, slowing, readings)]  # fmt: skip
    time, speed, foot = np.array(drives.rows(stops, 10, noise=0.03, seed=seed)).T
    return {"time": time, "speed": speed, column: foot}


def predicted(vehicle, log, **day):
    return vehicle.drivelog(log, **day).stops.column("predicted_deceleration.value")


def driven(truth, seed):
    """A log with a gauge at the pedal and one with a gauge in the pipe, of stops as the vehicle of
    the truth does them: each is off by 2 % of its own, each log by its gauge and the grade of its
    road, both by the model's error, as section 11 has it."""
    chance = np.random.default_rng(seed)
    logs, model = [], chance.normal(1.0, 0.03 / 1.96)
    for column, readings in (("pedal_force", NEWTONS), ("pressure", [1e5 * b for b in BARS])):
        roughly = log_of([4.0] * 6, column, readings, seed)
        day = {"gauge": chance.normal(1.0, 0.02 / 1.645), "grade": chance.normal(0, 0.01 / 1.645)}
        slowing = model * predicted(truth, roughly, **day) * chance.normal(1.0, 0.02, 6)
        logs.append(log_of(slowing, column, readings, seed))
    return logs


def least_squares(vehicle, logs):
    """Friction and gain by SciPy, and their covariance: one number more is the model's own error,
    3 % (95 of 100) of a stop."""
    optimize = pytest.importorskip("scipy.optimize")
    measured, blocks = [], []
    for log in logs:
        stops = vehicle.drivelog(log).stops
        found, low, high = (stops.column(f"developed_deceleration.{name}")
                            for name in ("value", "p05", "p95"))  # fmt: skip
        start = predicted(vehicle, log)
        scatter = max(0.02, np.std(found / start, ddof=1))
        days = [predicted(vehicle, log, grade=0.01 / 1.645) - start,
                predicted(vehicle, log, gauge=1 + 0.02 / 1.645) - start]  # fmt: skip
        own = ((high - low) / 2 / 1.645) ** 2 + (scatter * start) ** 2
        blocks.append(np.diag(own) + sum(np.outer(day, day) for day in days))
        measured.append(found)
    roots = [np.linalg.cholesky(one) for one in blocks]
    middle, sigma = np.array([0.38, 4.2, 1.0]), np.array([0.08, 0.8, 0.03]) / 1.96

    def off(score):
        mu, gain, model = middle + sigma * score
        other = vehicle.copy()
        other.set({MU: mu, GAIN: gain})
        parts = [np.linalg.solve(root, found - model * predicted(other, log))
                 for root, found, log in zip(roots, measured, logs)]  # fmt: skip
        return np.concatenate([*parts, score])

    found = optimize.least_squares(off, np.zeros(3), diff_step=1e-3)
    covariance = np.linalg.inv(found.jac.T @ found.jac)[:2, :2]
    return (middle + sigma * found.x)[:2], covariance * np.outer(sigma[:2], sigma[:2])


def test_it_is_what_least_squares_give(heron):
    """The moments of the samples are those of the linear estimate but for its curvature: within a
    tenth of a standard deviation."""
    vehicle = exact(heron)
    truth = vehicle.copy()
    truth.set({MU: 0.345, GAIN: 4.6})
    logs = driven(truth, 5)
    found = libbrake.identify(vehicle, logs, [MU, GAIN])
    value, covariance = least_squares(vehicle, logs)
    sigma = np.sqrt(np.diag(covariance))
    assert (abs(found.value - value) < 0.1 * sigma).all()
    assert found.half / 1.96 == pytest.approx(sigma, rel=0.03)
    assert found.correlation[0][1] == pytest.approx(covariance[0, 1] / sigma.prod(), abs=0.03)
    assert found.stops == 12 and found.word == "agrees"


def test_hidden_truths_are_held(heron):
    """Of six vehicles drawn by the tolerances, both lines within their intervals of 95 of 100; that
    3 of 12 are not is rarer than 1 in 50 (binomial)."""
    vehicle = exact(heron)
    chance, held = np.random.default_rng(7), 0
    for seed in range(6):
        lines = chance.normal([0.38, 4.2], [0.08 / 1.96, 0.8 / 1.96])
        truth = vehicle.copy()
        truth.set(dict(zip((MU, GAIN), map(float, lines))))
        found = libbrake.identify(vehicle, driven(truth, seed), [MU, GAIN])
        held += int((abs(found.value - lines) <= found.half).sum())
        assert (found.half < found.half_before).all()
    assert held >= 10


def test_one_gauge_does_not_tell_friction_from_gain_and_two_do(heron):
    """The pedal's force meets friction times gain alone; the pressure friction alone."""
    vehicle = exact(heron)
    pedal, pipe = driven(vehicle, 3)
    one = libbrake.identify(vehicle, pedal, [MU, GAIN])
    assert one.shares[0] > 0.8 and one.shares[1] < 0.05 and one.condition == np.inf
    assert one.combinations[0] == pytest.approx([1, 1], abs=0.5) and one.correlation[0][1] < -0.5
    two = libbrake.identify(vehicle, [pedal, pipe], [MU, GAIN])
    assert two.shares[1] > 0.5 and 1 <= two.condition < 10
    assert two.learnt[0] > one.learnt[0] + 0.2 and two.learnt[1] > one.learnt[1] + 0.2


def test_a_log_alone_is_what_learn_makes_of_it(heron):
    found = libbrake.identify(heron, DRIVE, [MU, GAIN])
    heron.learn(DRIVE)
    assert found.vehicle == heron
    drawn = heron.samples(16384, "full.stop.distance")
    assert found.value == pytest.approx([drawn[MU].mean(), drawn[GAIN].mean()], rel=1e-12)
    assert found.covariance == pytest.approx(np.cov(drawn[MU], drawn[GAIN], ddof=0), rel=1e-9)


def test_it_is_kept_as_a_condition_or_written_as_tolerances(heron, tmp_path):
    """A file of the tolerances gives the values back, and is not learned of once more."""
    heron.set({"drive.log": str(DRIVE)})
    found = libbrake.identify(heron, DRIVE, [MU, GAIN])
    found.tolerances().save(tmp_path / "told.ini")
    again = libbrake.load(tmp_path / "told.ini")
    assert [again[MU], again[GAIN]] == pytest.approx(list(found.value), rel=1e-12)
    assert again.known()[MU]["tolerance"] == pytest.approx(found.half[0])
    assert again.known()[MU]["from"] == "estimated" and again.drive.log == ""
    alone = again.samples(1024, "full.stop.distance")
    assert np.std(alone[MU]) == pytest.approx(found.half[0] / 1.96, rel=0.02)
    assert found.vehicle[MU] == heron[MU], "a condition leaves the lines as they are"


def test_loads_of_logs_are_told(heron):
    """A loaded vehicle stops less for the same force: more of friction times gain, which is what
    the pedal's force tells of, is needed for it; a drive of either asks for something between."""
    vehicle = exact(heron)
    log, _ = driven(vehicle, 3)

    def product(logs, load):
        return libbrake.identify(vehicle, logs, [MU, GAIN], load=load).value.prod()

    empty, full = product(log, "empty"), product(log, "full")
    assert empty < product([log, log], ["full", None]) < full


def test_it_goes_to_pandas_and_xarray_and_is_told_with_the_caution(heron):
    found = libbrake.identify(heron, DRIVE, [MU, GAIN])
    assert "qualified inspector" in " ".join(str(found).split()) and "not told apart" in str(found)
    frame = pytest.importorskip("pandas") and found.to_pandas()
    assert frame.loc[MU, "half"] == found.half[0] and frame.attrs["condition"] == np.inf
    data = pytest.importorskip("xarray") and found.to_xarray()
    assert float(data.covariance.sel(line=MU, other=GAIN)) == found.covariance[0][1]
    assert found == libbrake.identify(heron, DRIVE, [MU, GAIN])


@pytest.mark.parametrize(
    "logs, lines, refusal, words",
    [
        (DRIVE, "driver.pedal_force", errors.RefusedMissing, "give it a tolerance"),
        (DRIVE, "front.tyre.marking", TypeError, "is no number"),
        (DRIVE, [], ValueError, "one or more lines"),
        ([], MU, ValueError, "one or more logs"),
        ([DRIVE] * 17, MU, ValueError, "1 to 16 logs"),
        ([DRIVE, ROOT / "examples/heron.ini"], MU, errors.Refused, "heron.ini"),
        ({"time": [0.0, 1.0], "speed": [20.0, 19.0]}, MU, errors.Refused, r"logs\[0\]"),
    ],
)
def test_what_tells_nothing_is_refused_in_words(heron, logs, lines, refusal, words):
    with pytest.raises(refusal, match=words):
        libbrake.identify(heron, logs, lines)


def test_logs_of_another_vehicle_do_not_go_together(heron, tmp_path):
    other = tmp_path / "other.csv"
    other.write_text("# front.tyre.marking = LT285/75R16\n" + DRIVE.read_text())
    with pytest.raises(errors.RefusedConflict, match="other.csv:1: .*several logs are of one"):
        libbrake.identify(heron, [DRIVE, other], MU)
