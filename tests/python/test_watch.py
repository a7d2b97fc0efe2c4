# SPDX-License-Identifier: MIT
"""Studies that are waited for: progress, and what ends them. No published source."""
import pathlib
import signal
import subprocess
import sys
import time

import pytest

import libbrake

ROOT = pathlib.Path(__file__).resolve().parents[2]

MILLION = {
    "vehicle.mass": [1500.0 + i for i in range(1000)],
    "front.tyre.rollout": [2.2 + 5e-4 * i for i in range(1000)],
}
OUT = ["full.stop.distance"]
# A shared machine may hold up a process, and sanitizers every line.
SLOWER = 5.0


def studies(heron):
    before = libbrake.load(ROOT / "examples" / "heron-before.ini")
    bore = {"master.bore": [0.02 + 1e-5 * i for i in range(1000)]}
    tyres = [f"LT{width}/75R16" for width in range(205, 325, 10)]
    return {
        "sweep": lambda **watch: heron.sweep(MILLION, OUT, **watch),
        "spread": lambda **watch: heron.spread(65536, **watch),
        "compare": lambda **watch: libbrake.compare(before, heron, **watch),
        "size": lambda **watch: heron.size("vehicle.mass", "us.135.cold", **watch),
        "sizes": lambda **watch: heron.size(bore, "us.135.cold", **watch),
        "heat": lambda **watch: heron.heat(descent=(0.08, 1e5, 1.0), **watch),
        "tyres": lambda **watch: heron.size({"tyre": tyres}, "us.135.cold", **watch),
    }


@pytest.mark.parametrize("name", ["sweep", "spread", "compare", "size", "sizes", "heat", "tyres"])
def test_progress_is_told_up_to_the_end(heron, name):
    told = []
    studies(heron)[name](progress=lambda done, total: told.append((done, total)))
    assert told and told[-1][0] == told[-1][1]
    assert told == sorted(told)
    assert len({total for _, total in told}) == 1


class Enough(Exception):
    pass


@pytest.mark.parametrize("name", ["sweep", "spread", "compare", "size", "sizes", "heat", "tyres"])
def test_what_progress_raises_ends_the_study_and_comes_out(heron, name):
    def enough(done, total):
        raise Enough

    with pytest.raises(Enough):
        studies(heron)[name](progress=enough)
    assert heron.check().summary.limiting  # the vehicle is as it was


def test_what_progress_raises_ends_a_comparison_while_its_fade_procedures_are_run(heron):
    told = []

    def enough(done, total):
        told.append(total)
        raise Enough

    with pytest.raises(Enough):
        libbrake.compare(heron, libbrake.load(ROOT / "examples" / "heron-before.ini"), fade=True,
                         progress=enough)  # fmt: skip
    assert told == [2.0]  # vehicles, before any choice of changes


def test_progress_that_cannot_be_called_is_refused(heron):
    with pytest.raises(TypeError, match="progress: accepts a callable"):
        heron.sweep({"vehicle.mass": [1900.0]}, OUT, progress=1)


SCRIPT = """
import signal, sys
sys.path[:0] = {path!r}
import libbrake
signal.signal(signal.SIGINT, signal.default_int_handler)  # a background job begins with it ignored
v = libbrake.load({file!r})
print("ready", flush=True)
{study}
"""
# Both take minutes on any machine, or would without the signal.
SWEEP = """v.sweep({"front.disc.rotor_mass": [5 + 1e-4 * i for i in range(20000)]},
                   ["fade.hot_deceleration"])"""
DESCENT = "while True: v.heat(descent=(0.08, 1e6, 1.0))"


@pytest.mark.parametrize("study", [SWEEP, DESCENT], ids=["sweep", "descent"])
def test_ctrl_c_ends_a_long_study(study):
    found = str(pathlib.Path(libbrake.__file__).parents[1])
    script = SCRIPT.format(path=[found], file=str(ROOT / "examples" / "heron.ini"), study=study)
    with subprocess.Popen([sys.executable, "-c", script], stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE, text=True) as run:  # fmt: skip
        assert run.stdout.readline() == "ready\n"
        time.sleep(1.0)
        run.send_signal(signal.SIGINT)
        said = run.stderr.read()
    assert "KeyboardInterrupt" in said


def test_heat_asks_for_ctrl_c_five_times_a_second_within_a_single_descent(heron):
    last, longest = time.monotonic(), 0.0

    def see(done, total):
        nonlocal last, longest
        last, longest = time.monotonic(), max(longest, time.monotonic() - last)
        if done > 2e5:
            raise Enough

    with pytest.raises(Enough):
        heron.heat(descent=(0.08, 1e6, 1.0), progress=see)
    assert longest < 0.2 * SLOWER


def test_hot_performance_is_compared_when_asked_for(heron):
    other = heron.copy()
    other.set({"front.disc.rotor_mass": 6.5})
    found = libbrake.compare(heron, other, rules="us", fade=True)
    (hot,) = [one for one in found.margins if one.get("id") == "us.135.hot"]
    assert sum(hot.shares.values()) == pytest.approx(hot.after - hot.before, abs=1e-12)
    assert hot.shares.rotor < 0.0
    assert not [
        one for one in libbrake.compare(heron, other).margins if ".hot" in one.get("id", "")
    ]
