# SPDX-License-Identifier: MIT
"""Every public function, method and keyword of the package, called with what nobody should hand
over.

Each may give a value or raise an exception with words. A signal, a SystemError, a MemoryError or
more than some seconds is a fault. Batches run in processes of their own, so that a crash names its
call.
"""
import json
import os
import pathlib
import subprocess
import sys

import pytest

import libbrake

ROOT = pathlib.Path(__file__).resolve().parents[2]
HERE = pathlib.Path(__file__).resolve().parent
# Each batch, sanitizers and a busy machine included: a call alone is broken off after seconds.
PATIENCE = 900.0  # [s]


def batches():
    """Names of what is called together."""
    from libbrake.made import SUBJECTS

    return [*SUBJECTS, "vehicle", "studies", "package", "lines", "answers"]


def run(batch):
    """Runs a batch; gives its status, its last call and its complaints."""
    path = [str(pathlib.Path(libbrake.__file__).parents[1]), str(HERE)]
    kept = {**os.environ, "PYTHONPATH": os.pathsep.join(path), "PYTHONWARNINGS": "ignore"}
    try:
        found = subprocess.run([sys.executable, str(HERE / "hostile.py"), batch], env=kept,
                               cwd=ROOT, capture_output=True, text=True, timeout=PATIENCE)  # fmt: skip
    except subprocess.TimeoutExpired as late:
        return "hangs", late.stdout or b"", late.stderr or b""
    return found.returncode, found.stdout, found.stderr


@pytest.mark.parametrize("batch", batches())
def test_hostile_arguments_give_a_value_or_words(batch):
    status, calls, errors = run(batch)
    lines = calls.decode().splitlines() if isinstance(calls, bytes) else calls.splitlines()
    last = lines[-1] if lines else "nothing"
    assert status == 0, f"{status} after {last}\n{errors[-3000:]}"
    done = json.loads(last)
    assert done["faults"] == [] and done["calls"] > 0, done["faults"][:20]


def test_every_public_name_is_in_a_batch():
    from libbrake.made import SUBJECTS

    called = {*SUBJECTS, "Vehicle", "load", "loads", "compare", "explain", "identify", "fleet",
              "errors"}  # fmt: skip
    called |= {"lines", "results", "criteria"}  # they take nothing
    assert {name for name in dir(libbrake) if not name.startswith("__")} == called
