# SPDX-License-Identifier: MIT
"""A run that is ended at any moment leaves the old file or the whole new one. KILLS: runs a
verb."""
import os
import random
import signal
import subprocess
import time

import pytest

from file import plain

KILLS = int(os.environ.get("KILLS", "40"))
# A plan takes ten times as long as the others: it runs the heat model.
FEWER = {"shakedown": 5}
HERON = str(plain.ROOT / "examples" / "heron.ini")
COLD, COLD_BEFORE = plain.without_heat("heron.ini"), plain.without_heat("heron-before.ini")
BEFORE = str(plain.ROOT / "examples" / "heron-before.ini")
SWEEP = ("sweep", HERON, "--axis", "front.tyre.rollout=2.2m:2.9m:0.01m",
         "--axis", "vehicle.mass=1500kg:2390kg:5kg", "--into")  # fmt: skip
WRITERS = pytest.mark.parametrize(
    "verb",
    [
        ("report", COLD, "--before", COLD_BEFORE, "-o"),
        ("shakedown", HERON, "-o"),
        ("new", HERON, "-o"),
    ],
    ids=lambda words: words[0],
)


@pytest.fixture(autouse=True)
def day(monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1767312000")


def heed_interrupts():
    """A shell lets what runs in its background ignore them."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def start(*words):
    return subprocess.Popen(
        [plain.PROGRAM, *words], stderr=subprocess.DEVNULL, preexec_fn=heed_interrupts
    )


def took(*words):
    """Time of a run that nobody ends, in seconds; the file it wrote is the last word."""
    began = time.monotonic()
    with start(*words):
        pass
    return time.monotonic() - began


def endings(number, whole, *words):
    """Runs that are ended at moments spread over a whole run; yields whether each was."""
    moments = random.Random(13)
    for _ in range(KILLS // FEWER.get(words[0], 1)):
        with start(*words) as run:
            time.sleep(moments.uniform(0.0, whole))
            run.send_signal(number)
        # one that draws hears the signal, stops and says so as a shell does
        yield run.returncode in (-number, 128 + number)


def beside(path):
    """What lies in the folder of a file besides it."""
    return [other.name for other in path.parent.iterdir() if other != path]


@WRITERS
@pytest.mark.parametrize("number", [signal.SIGKILL, signal.SIGTERM, signal.SIGINT])
def test_a_run_that_is_ended_leaves_no_half_file(tmp_path, verb, number):
    """Given a file that is there, the run that would replace it is ended at any moment: the file is
    the old one or the new one. A signal that can wait leaves nothing beside it either."""
    path = tmp_path / "out"
    whole = took(*verb, str(path))
    new, old = path.read_bytes(), b"old\n"
    ended = 0
    path.write_bytes(old)
    for stopped in endings(number, whole, *verb, str(path)):
        ended += stopped
        assert path.read_bytes() in (old, new)
        assert all(name.startswith(".stopmargin-") for name in beside(path))
        assert number == signal.SIGKILL or beside(path) == []
        path.write_bytes(old)
    assert ended > 0


def test_a_sweep_that_is_killed_is_resumed_to_the_same_bytes(tmp_path):
    """Given a run killed at any moment, what stands in its file is the beginning of the whole."""
    path = tmp_path / "out.csv"
    whole = took(*SWEEP, str(path))
    rows = path.read_bytes()
    ended = 0
    path.unlink()
    for stopped in endings(signal.SIGKILL, whole, *SWEEP, str(path)):
        ended += stopped
        assert not path.exists() or rows.startswith(path.read_bytes())
        assert plain.run(*SWEEP, str(path), "--resume").returncode == 0
        assert path.read_bytes() == rows and beside(path) == []
        path.unlink()
    assert ended > 0
