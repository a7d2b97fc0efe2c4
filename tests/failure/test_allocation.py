"""Memory that runs out at one place, or from there on: the whole answer with its usual status, or words and
status 4, and no output file that is cut off. ALLOCATIONS=N tries each place up to N, else a stride does."""
import os
import pathlib
import subprocess

import pytest

from file import plain

BEFORE, HERON = (str(plain.ROOT / "examples" / name) for name in ("heron-before.ini", "heron.ini"))
SHIM = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", plain.ROOT / "build")) / "tests/failure/allocation.so"
FAILED = 4
AXIS = ("--axis", "front.tyre.rollout=2.2m:2.9m:0.1m")
CASES = {
    "check": ("check", HERON),
    "check --json": ("check", HERON, "--json"),
    "report": ("report", HERON, "--before", BEFORE, "-o"),
    "compare": ("compare", BEFORE, HERON),
    "compare --json": ("compare", BEFORE, HERON, "--json"),
    "spread": ("spread", HERON, "--samples", "1024"),
    "spread --json": ("spread", HERON, "--samples", "1024", "--json"),
    "sweep": ("sweep", HERON, *AXIS),
}


def places():
    most = int(os.environ.get("ALLOCATIONS", "0"))
    return range(1, most + 1) if most > 0 else (*range(1, 16), *range(16, 400, 64))


def run(words, out, fails=None):
    """Status, standard output, what the file holds when there is one, standard error."""
    added = {} if fails is None else {"LD_PRELOAD": str(SHIM), "ALLOCATION_FAILS": fails}
    out.unlink(missing_ok=True)
    done = subprocess.run([plain.PROGRAM, *words, *([str(out)] if words[-1] == "-o" else [])], check=False,
                          capture_output=True, timeout=120, env={**os.environ, **added})
    return done.returncode, done.stdout, out.read_bytes() if out.exists() else None, done.stderr


def fault(done, usual):
    """What is wrong with an end, or nothing."""
    status, _, written, said = done
    if done[:3] == usual[:3]:
        return ""
    if status != FAILED:
        return f"status {status} with another answer than usual; said {said[-90:]!r}"
    if not said.strip():
        return "no words"
    return "" if written in (None, usual[2]) else "a file that is cut off"


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("mode", ("", "+"))
def test_answer_is_whole_or_refused_in_words_when_memory_runs_out(case, mode, tmp_path):
    out = tmp_path / "out"
    usual = run(CASES[case], out)
    faults = {n: fault(run(CASES[case], out, f"{n}{mode}"), usual) for n in places()}
    assert {n: what for n, what in faults.items() if what} == {}


def test_shim_makes_an_allocation_fail(tmp_path):
    status, _, _, said = run(CASES["check"], tmp_path / "out", "1+")
    assert status == FAILED and said != b""
