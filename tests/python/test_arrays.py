# SPDX-License-Identifier: MIT
"""Arrays in and out: every layout, no NumPy, no leak, threads."""
import array
import gc
import math
import sys
import threading
import tracemalloc

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from libbrake import _core, disc, friction, records, stop

BRAKE = disc.Disc(0.0036, 0.126, 0.38, 0.95, 5e4)
PRESSURES = [0.0, 1e5, 2.5e6, 8e6, 1.2e7, 1.6e7]
TORQUES = [disc.torque(BRAKE, p) for p in PRESSURES]


def read_only():
    found = np.array(PRESSURES)
    found.flags.writeable = False
    return found


LAYOUTS = {
    "contiguous": lambda: np.array(PRESSURES),
    "strided": lambda: np.repeat(PRESSURES, 3)[::3],
    "backwards": lambda: np.array(PRESSURES[::-1])[::-1],
    "integers": lambda: np.array(PRESSURES, dtype=np.int64),
    "unsigned": lambda: np.array(PRESSURES, dtype=np.uint32),
    "float32": lambda: np.array(PRESSURES, dtype=np.float32),
    "other byte order": lambda: np.array(PRESSURES, dtype=">f8"),
    "read only": read_only,
    "list": lambda: PRESSURES,
    "tuple": lambda: tuple(PRESSURES),
    "array.array": lambda: array.array("d", PRESSURES),
    "memoryview": lambda: memoryview(array.array("d", PRESSURES)),
}


@pytest.mark.parametrize("layout", LAYOUTS)
def test_every_layout_gives_the_same(layout):
    found = disc.torque(BRAKE, LAYOUTS[layout]())
    assert isinstance(found, np.ndarray) and found.tolist() == TORQUES


@pytest.mark.parametrize("order", ["C", "F"])
def test_shape_is_kept_whatever_the_order(order):
    square = np.array(PRESSURES).reshape(2, 3, order=order)
    found = disc.torque(BRAKE, square)
    assert found.shape == (2, 3)
    assert found.tolist() == [[disc.torque(BRAKE, p) for p in row] for row in square.tolist()]


def test_shapes_are_broadcast():
    mu = np.array([0.3, 0.4])[:, None]
    found = disc.torque(BRAKE._replace(mu=mu), np.array(PRESSURES))
    assert found.shape == (2, 6)
    assert found[1, 3] == disc.torque(BRAKE._replace(mu=0.4), PRESSURES[3])
    with pytest.raises(ValueError):
        stop.energy(np.ones(2), np.ones(3))


@pytest.mark.parametrize("shape", [(0,), (0, 3), (3, 0)])
def test_no_numbers_give_no_numbers(shape):
    assert disc.torque(BRAKE, np.empty(shape)).shape == shape


def test_an_array_of_no_dimension_is_a_number():
    assert disc.torque(BRAKE, np.array(8e6)) == TORQUES[3]
    assert isinstance(disc.torque(BRAKE, np.float64(8e6)), float)


@pytest.mark.parametrize("wrong", [np.array([1j]), np.array(["8"]), np.array([None]), "8e6", b"8"])
def test_what_holds_no_numbers_is_a_type_error(wrong):
    with pytest.raises(TypeError, match="accepts"):
        disc.torque(BRAKE, wrong)


def test_a_contiguous_array_is_not_copied():
    pressures = np.linspace(0.0, 1e7, 1_000_000)
    disc.torque(BRAKE, pressures[:10])
    tracemalloc.start()
    disc.torque(BRAKE, pressures)
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert most < 1.1 * pressures.nbytes, "room for the result and nothing else"


@settings(max_examples=50, deadline=None)
@given(st.lists(st.floats(allow_nan=True), max_size=600))
def test_any_numbers_in_an_array_give_what_they_give_alone(numbers):
    found = disc.torque(BRAKE, np.array(numbers, dtype=float))
    for one, number in zip(found, numbers):
        alone = disc.torque(BRAKE, number)
        assert one == alone or (math.isnan(one) and math.isnan(alone))


# ---- the C side refuses what does not fit
# ----------------------------------------------------------


def test_the_loop_refuses_columns_that_do_not_fit():
    ones, out = array.array("d", [1.0] * 3), array.array("d", [0.0] * 2)
    energy = next(n for n in range(200) if _is_energy(n))
    for inputs, outputs, kind in (
        ([ones, 1.0], [out], ValueError),
        ([1.0], [out], ValueError),
        ([1.0, 1.0], [], ValueError),
        ([array.array("f", [1.0] * 2), 1.0], [out], TypeError),
        ([1.0, 1.0], [b"12345678"], (BufferError, TypeError)),
        ([1.0, "x"], [out], TypeError),
        ([1.0] * 40, [out], ValueError),
        (5, [out], TypeError),
    ):
        with pytest.raises(kind):
            _core.model_loop(energy, (), inputs, outputs)
    with pytest.raises(ValueError):
        _core.model_loop(10_000, (), [], [])
    with pytest.raises(ValueError):
        _core.model_call(-1, ())


def test_the_loop_refuses_what_does_not_go_beside_the_numbers():
    out = array.array("d", [0.0])
    energy = next(n for n in range(200) if _is_energy(n))
    with pytest.raises(TypeError, match="tuple of 0 series"):
        _core.model_loop(energy, None, [1.0, 1.0], [out])
    with pytest.raises(TypeError, match="tuple of 0 series"):
        _core.model_loop(energy, (b"",), [1.0, 1.0], [out])
    at = next(n for n in range(200) if _reads_a_curve(n))
    for series, kind in ((None, TypeError), ((), TypeError), ((b"12345678",), ValueError),
                         ((5,), TypeError)):  # fmt: skip
        with pytest.raises(kind):
            _core.model_loop(at, series, [1.0], [out])
    with pytest.raises(TypeError, match="more than numbers"):
        _core.model_call(at, (1.0,))


def _reads_a_curve(number):
    """Whether a function is the value of a curve."""
    curve = records.record(friction._CURVE, friction.curve_build([1.0, 2.0], [3.0, 4.0]))
    out = array.array("d", [0.0])
    try:
        _core.model_loop(number, (curve,), [2.0], [out])
    except (TypeError, ValueError):
        return False
    return out[0] == 4.0


def _is_energy(number):
    """Whether a function is m v2 / 2."""
    try:
        return _core.model_call(number, (3.0, 2.0)) == stop.energy(3.0, 2.0)
    except (TypeError, ValueError):
        return False


# ---- references, memory, threads
# -------------------------------------------------------------------


def test_buffers_are_let_go_after_good_and_bad_calls():
    pressures = array.array("d", PRESSURES)
    out = array.array("d", PRESSURES)
    before = sys.getrefcount(pressures), sys.getrefcount(out)
    for _ in range(100):
        disc.torque(BRAKE, pressures)
        with pytest.raises(ValueError):
            _core.model_loop(0, (), [pressures] * 3, [out])
    assert (sys.getrefcount(pressures), sys.getrefcount(out)) == before
    pressures.append(1.0)  # a buffer that is still held cannot grow
    out.append(1.0)


def grown(action, rounds):
    """Memory that is not given back after many rounds, once as many have filled what Python
    keeps."""
    tracemalloc.start()
    for _ in range(rounds):
        action()
    gc.collect()
    before = tracemalloc.get_traced_memory()[0]
    for _ in range(rounds):
        action()
    gc.collect()
    after = tracemalloc.get_traced_memory()[0]
    tracemalloc.stop()
    return after - before


@pytest.mark.parametrize("what", ["number", "array", "refusal", "set", "check", "heat"])
def test_nothing_leaks(heron, what):
    def refusal():
        with pytest.raises(ValueError):
            heron.set({"front.tyre.rollout": 50.0})

    actions = {
        "number": lambda: disc.torque(BRAKE, 8e6),
        "array": lambda: disc.torque(BRAKE, np.array(PRESSURES)),
        "refusal": refusal,
        "set": lambda: heron.set({"front.tyre.rollout": 2.5}),
        "check": lambda: heron.check(),
        "heat": lambda: heron.heat(stop="100 km/h"),
    }
    rounds = 6 if what in ("check", "heat") else 600
    assert grown(actions[what], rounds) < 100 * rounds


def test_threads_share_a_vehicle(heron):
    expected = heron.check().to_dict()
    found = []

    def work():
        pressures = np.linspace(0.0, 1e7, 20_000)
        for _ in range(5):
            found.append(heron.check().to_dict() == expected)
            found.append(float(disc.torque(BRAKE, pressures)[-1]) == disc.torque(BRAKE, 1e7))

    threads = [threading.Thread(target=work) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(found) == 40 and all(found)


# ---- without NumPy
# ---------------------------------------------------------------------------------

WITHOUT = """
import array, libbrake
from libbrake import disc, stop
d = disc.Disc(0.0036, 0.126, 0.38, 0.95, 5e4)
p = array.array("d", [0.0, 1e5, 8e6])
t = disc.torque(d, p)
assert type(t) is array.array and t[2] == disc.torque(d, 8e6)
assert disc.torque(d, [0, 100000, 8000000]) == t
assert disc.torque(d, array.array("f", p)) == t
assert disc.torque(d, memoryview(array.array("d", [0.0, 9.0, 1e5, 9.0, 8e6]))[::2]) == t
assert len(disc.torque(d, [])) == 0
assert stop.energy([1.0], [1.0, 2.0]) == array.array("d", [0.5, 2.0])
for wrong in (lambda: stop.energy([1, 2, 3], [1, 2]), lambda: stop.energy("12", 1)):
    try: wrong()
    except (TypeError, ValueError): pass
    else: raise AssertionError(wrong)
v = libbrake.load("examples/heron.ini")
h = v.heat(stop="100 km/h")
assert len(h.history["time"]) > 10 and "speed" in repr(h.history)
v.check()
"""


def test_numpy_is_not_needed(python):
    python(WITHOUT, blocked=["numpy", "pandas"])


def test_importing_the_package_loads_neither_numpy_nor_the_model(python):
    text = python("import libbrake; print([m for m in sys.modules if 'numpy' in m])")
    assert text.strip() == "[]"


@pytest.mark.parametrize("kind", ["f", "q", "B"])
def test_the_loops_behind_the_studies_take_doubles_only(heron, kind):
    with pytest.raises(TypeError, match=f"got items of format '{kind}'; accepts doubles"):
        _core.outputs_of(heron._sheet, array.array(kind, [0] * 8), [array.array("d", [0.0])])


# ---- labels: expected is the same function of the bare numbers ----


def both(value):
    """A function of two arrays, and the numbers of its result."""
    return stop.energy(value, 20.0), stop.energy(list(value), 20.0)


def test_a_series_comes_out_as_one_with_its_index():
    pandas = pytest.importorskip("pandas")
    mass = pandas.Series([1000.0, 2000.0, 3000.0], index=["a", "b", "c"], name="mass")
    found, bare = both(mass)
    assert isinstance(found, pandas.Series) and list(found.index) == ["a", "b", "c"]
    assert list(found) == list(bare)
    speed = pandas.Series([10.0, 20.0, 30.0], index=mass.index)
    assert list(stop.energy(mass, speed).index) == ["a", "b", "c"]
    assert list(stop.energy(mass, [10.0, 20.0, 30.0]).index) == ["a", "b", "c"]
    with pytest.raises(ValueError, match="align them before"):
        stop.energy(mass, speed.rename({"a": "z"}))
    with pytest.raises(ValueError, match="do not go with the index"):
        stop.energy(mass, np.ones((2, 3)))


def test_a_table_keeps_its_index_and_columns():
    pandas = pytest.importorskip("pandas")
    mass = pandas.DataFrame({"x": [1000.0, 2000.0], "y": [3.0, 4.0]}, index=[7, 9])
    found = stop.energy(mass, 20.0)
    assert list(found.columns) == ["x", "y"] and list(found.index) == [7, 9]
    assert found.loc[9, "x"] == stop.energy(2000.0, 20.0)


def test_a_dataarray_comes_out_as_one_by_its_dimensions():
    xarray = pytest.importorskip("xarray")
    mass = xarray.DataArray([1000.0, 2000.0], {"vehicle": ["a", "b"]}, ["vehicle"])
    speed = xarray.DataArray([10.0, 20.0, 30.0], {"speed": [1, 2, 3]}, ["speed"])
    found = stop.energy(mass, speed)
    assert found.dims == ("vehicle", "speed") and list(found.vehicle) == ["a", "b"]
    assert float(found.sel(vehicle="b", speed=3)) == stop.energy(2000.0, 30.0)
    with pytest.raises(ValueError):
        stop.energy(mass, mass.assign_coords(vehicle=["a", "z"]))
    with pytest.raises(ValueError, match="has no dimensions"):
        stop.energy(mass, np.array([10.0, 20.0]))


def test_what_is_masked_stays_masked():
    mass = np.ma.array([1000.0, 2000.0, 3000.0], mask=[False, True, False])
    speed = np.ma.array([[10.0], [20.0]], mask=[[False], [True]])
    found = stop.energy(mass, speed)
    assert found.mask.tolist() == [[False, True, False], [True, True, True]]
    assert found[0, 2] == stop.energy(3000.0, 10.0)


def test_labels_of_two_libraries_do_not_go_together():
    pandas, xarray = pytest.importorskip("pandas"), pytest.importorskip("xarray")
    with pytest.raises(TypeError, match="pandas and of xarray"):
        stop.energy(pandas.Series([1.0]), xarray.DataArray([1.0]))
