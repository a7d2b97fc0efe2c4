# SPDX-License-Identifier: MIT
"""What a caller hands over is taken whole or refused in words. Expected: what the same gives by
itself."""
import copy
import math
import pathlib
import pickle
import random
import zlib

import pytest

import libbrake
from libbrake import _core, errors, kept

ROOT = pathlib.Path(__file__).resolve().parents[2]
ROLLOUT, DISTANCE = "front.tyre.rollout", "full.stop.distance"


# ---- numbers that count --------------------------------------------------------------------------


@pytest.mark.parametrize("threads", [-1, 0, 1025, 100_000, 10**30])
def test_threads_that_killed_the_interpreter_are_refused(heron, threads):
    with pytest.raises(ValueError, match="threads: got .*; accepts whole numbers from 1 to 1024"):
        heron.sweep({ROLLOUT: [2.2]}, DISTANCE, threads=threads)


@pytest.mark.parametrize("threads", [True, 1.5, "2", [1]])
def test_threads_that_are_no_whole_number_are_a_type_error(heron, threads):
    with pytest.raises(TypeError, match="threads: got .*; accepts whole numbers"):
        heron.sweep({ROLLOUT: [2.2]}, DISTANCE, threads=threads)


def test_samples_and_seed_are_refused_by_name(heron):
    for given, words in (({"samples": "x"}, "samples"), ({"samples": 1024.0}, "samples"),
                         ({"samples": -1}, "samples"), ({"seed": -1}, "seed"),
                         ({"seed": None}, "seed"), ({"seed": 1 << 64}, "seed")):  # fmt: skip
        with pytest.raises((TypeError, ValueError), match=f"{words}: got"):
            heron.spread(**given)


@pytest.mark.parametrize("count", [512, 600, 5000])
def test_as_many_names_as_wanted_do_not_smash_the_stack(heron, count):
    assert heron.outputs([DISTANCE] * count) == heron.outputs([DISTANCE])
    assert list(heron.sweep({ROLLOUT: [2.2]}, [DISTANCE] * count)) == [ROLLOUT, DISTANCE]


def test_one_name_is_a_name_and_not_its_letters(heron):
    assert heron.outputs(DISTANCE) == heron.outputs([DISTANCE])
    with pytest.raises(errors.RefusedUnknown, match="a.b"):
        heron.outputs("a.b")
    with pytest.raises(TypeError, match="names: got 3"):
        heron.outputs([3])


# ---- axes ----------------------------------------------------------------------------------------


def test_a_table_keeps_its_axis_when_the_caller_changes_the_array(heron):
    np = pytest.importorskip("numpy")
    rollouts = np.array([2.2, 2.3])
    found = heron.sweep({ROLLOUT: rollouts}, DISTANCE)
    rollouts += 0.1
    assert found[ROLLOUT].tolist() == [2.2, 2.3]


def test_a_filtered_series_is_taken_by_position(heron):
    pandas = pytest.importorskip("pandas")
    series = pandas.Series([2.1, 2.2, 2.3, 2.4])
    found = heron.sweep({ROLLOUT: series[series > 2.2]}, DISTANCE)
    assert found[ROLLOUT].tolist() == [2.3, 2.4]
    texts = pandas.Series(["1 m", "2.2 m", "2.3 m"])[1:]
    assert heron.sweep({ROLLOUT: texts}, DISTANCE)[ROLLOUT].tolist() == [2.2, 2.3]


def test_texts_and_numbers_stand_side_by_side_on_an_axis(heron):
    found = heron.sweep({ROLLOUT: ["2.2 m", 2.5, "99 in"]}, DISTANCE)
    assert list(found[ROLLOUT]) == [2.2, 2.5, 99 * 0.0254]


@pytest.mark.parametrize("values", [2.2, "2.2 m", b"2.2", {2.2}, iter([])])
def test_what_is_no_row_is_no_axis(heron, values):
    with pytest.raises((TypeError, ValueError)):
        heron.sweep({ROLLOUT: values}, DISTANCE)


def test_an_array_of_no_dimension_is_a_number_and_no_axis(heron):
    np = pytest.importorskip("numpy")
    heron.front.tyre.rollout = np.array(2.5)
    assert heron.front.tyre.rollout == 2.5
    with pytest.raises(ValueError, match="one or more values in a row"):
        heron.sweep({ROLLOUT: np.array(2.2)}, DISTANCE)


AXES = {"pedal.ratio": [0.0, 4.0, 5.0], ROLLOUT: [2.2, math.nan, 50.0, 2.4]}
CHECK_HOLES = """
import libbrake, math
v = libbrake.load("examples/heron.ini")
axes = {"pedal.ratio": [0.0, 4.0, 5.0], "front.tyre.rollout": [2.2, math.nan, 50.0, 2.4]}
t = v.sweep(axes, ["full.stop.distance"])
fine = {"pedal.ratio": [4.0, 5.0], "front.tyre.rollout": [2.2, 2.4]}
good = v.sweep(fine, ["full.stop.distance"])
a, b, c, d = good["full.stop.distance"]
n = math.nan
assert repr(list(t["full.stop.distance"])) == repr([n] * 4 + [a, n, n, b] + [c, n, n, d])
"""


def test_a_value_out_of_range_costs_its_own_cases_only(heron):
    np = pytest.importorskip("numpy")
    found = heron.sweep(AXES, [DISTANCE, "empty.stop.distance"])
    good = heron.sweep({"pedal.ratio": [4.0, 5.0], ROLLOUT: [2.2, 2.4]}, [DISTANCE])
    assert np.array_equal(found[DISTANCE][np.ix_([1, 2], [0, 3])], good[DISTANCE])
    assert np.isnan(found[DISTANCE]).sum() == 8
    assert "accepts 1 to 4.5 m" in found.refusal(1, 2) and found.refusal(1, 0) == ""
    assert "pedal.ratio" in pickle.loads(pickle.dumps(found)).refusal(0, 0)
    with pytest.raises(ValueError, match="one along each of 2 axes"):
        found.refusal(1)


def test_a_value_out_of_range_costs_its_own_cases_without_numpy_too(python):
    python(CHECK_HOLES, blocked=["numpy"])


def test_masked_values_are_not_known(heron):
    np = pytest.importorskip("numpy")
    masked = np.ma.array([2.2, 2.3, 2.4], mask=[False, True, False])
    assert np.isnan(heron.sweep({ROLLOUT: masked}, DISTANCE)[DISTANCE]).tolist() == [
        False,
        True,
        False,
    ]


def test_more_cases_than_any_memory_holds_are_refused_in_words(heron):
    many = [2.2 + 1e-5 * i for i in range(100_000)]
    with pytest.raises(ValueError, match="accepts up to"):
        heron.sweep({ROLLOUT: many, "vehicle.mass": many}, DISTANCE)


# ---- drives --------------------------------------------------------------------------------------

TIMES = [float(i) for i in range(100)]


def test_columns_of_a_drive_are_not_cut_to_the_shortest(heron):
    speeds, grades = [14.0] * 100, [-0.08] * 100
    for cycle in ((TIMES, speeds[:10], grades), (TIMES, speeds, grades[:60])):
        with pytest.raises(ValueError, match="100 times, .*accepts as many of each"):
            heron.heat(cycle=cycle)


def test_a_drive_without_grades_or_row_by_row_is_refused(heron):
    np = pytest.importorskip("numpy")
    rows = np.column_stack([TIMES, [14.0] * 100, [-0.08] * 100])
    for cycle in ((TIMES, [14.0] * 100), rows, rows.T, [1.0, 2.0, 3.0], "us.135.fade"):
        with pytest.raises(ValueError, match="accepts three columns|values in a row"):
            heron.heat(cycle=cycle)
    assert (
        heron.heat(cycle=tuple(rows.T)).summary == heron.heat(cycle=list(map(list, rows.T))).summary
    )


# ---- texts ---------------------------------------------------------------------------------------


def test_a_text_is_not_cut_at_a_nul(heron):
    with pytest.raises(ValueError, match="NUL"):
        heron.vehicle.name = "x\0y"
    for use in (lambda: heron.outputs(["full.stop.distance\0x"]), lambda: heron.set({"a\0b": 1}),
                lambda: heron.heat(snubs="us.135.fade\0x"), lambda: heron.heat(stop="80 km/h\0x"),
                lambda: heron.size("vehicle.mass", "us.135.cold\0x")):  # fmt: skip
        with pytest.raises(ValueError, match="NUL"):
            use()


# ---- bytes ---------------------------------------------------------------------------------------


def test_a_vehicle_of_a_file_name_says_what_to_call():
    with pytest.raises(TypeError, match=r"heron.ini.*libbrake.load\(path\)"):
        libbrake.Vehicle("heron.ini")
    with pytest.raises(ValueError, match="got 3 bytes"):
        libbrake.Vehicle(b"abc")


def test_a_bytearray_that_is_changed_later_changes_no_vehicle(heron):
    sheet = bytearray(heron._sheet)
    other = libbrake.Vehicle(sheet)
    sheet[:] = bytes(len(sheet))
    assert other == heron


def _ask(one):
    one.check()
    one.outputs([DISTANCE, "us.135.cold"])
    repr(one), one.to_text(), copy.copy(one)


def _damaged(sheet, draw):
    damaged = bytearray(sheet)
    for _ in range(draw.randint(1, 12)):
        damaged[draw.randrange(len(damaged))] ^= 1 << draw.randrange(8)
    return bytes(damaged)


def test_changed_bytes_are_refused_or_can_be_asked(heron):
    draw, refused = random.Random(1), 0
    for number in range(2000):
        damaged = _damaged(heron._sheet, draw)
        try:
            one = libbrake.Vehicle(damaged)
        except errors.RefusedRange as refusal:
            refused += 1
            assert "damaged" in str(refusal) and refusal.field
            continue
        try:
            one.outputs([DISTANCE]) if number % 25 else _ask(one)
            if number % 100 == 0:
                one.spread(1024), one.heat(stop=20.0), one.sweep({ROLLOUT: [2.2]}, DISTANCE)
        except (errors.Refused, UnicodeDecodeError):
            pass
    assert 50 < refused < 1950


def test_a_pickle_of_changed_bytes_is_the_vehicle_of_its_texts(heron):
    draw, state = random.Random(3), kept.kept(heron)
    for _ in range(100):
        damaged = zlib.compress(_damaged(heron._sheet, draw))
        again = kept.restore(kept.FORM, {**state, "bytes": damaged})
        assert again.digest() == heron.digest()


def test_every_vehicle_that_can_be_set_can_be_pickled(heron):
    draw, tried = random.Random(2), 0
    for index in range(_core.quantity_count()):
        low, high = _core.quantity_low(index), _core.quantity_high(index)
        for path in [p for p in heron.known() if _core.sheet_find(heron._sheet, p) == index]:
            other = heron.copy()
            try:
                other.set({path: low + draw.random() * (high - low)})
            except (errors.Refused, TypeError):
                continue
            tried += 1
            assert pickle.loads(pickle.dumps(other)) == other
    assert tried > 40
