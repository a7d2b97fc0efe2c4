# SPDX-License-Identifier: MIT
"""Memory that runs out at one place, or from there on: the whole answer with its usual status, or
words and status 4, and no answer that is cut off. ALLOCATIONS=N tries each place up to N, as far as
the verb asks for that many; else a stride does, and the last ones, when an answer is printed."""
import os
import pathlib
import subprocess

import pytest

from file import plain

EXAMPLES = plain.ROOT / "examples"
BEFORE, HERON, DRIVE = (
    str(EXAMPLES / name) for name in ("heron-before.ini", "heron.ini", "heron-drive.csv")
)
SHIM = (
    pathlib.Path(os.environ.get("LIBBRAKE_BUILD", plain.ROOT / "build"))
    / "tests/failure/allocation.so"
)
FAILED = 4
OUT = "OUT"  # the file that is written
AXES = (
    "--axis",
    "front.tyre.rollout=2.2m:2.9m:0.1m",
    "--axis",
    "vehicle.mass=1500kg,2000kg,2500kg",
)
COLD, COLD_BEFORE = plain.without_heat("heron.ini"), plain.without_heat("heron-before.ini")
CASES = {
    "check": ("check", COLD, "--full"),
    "check --json": ("check", COLD, "--json"),
    "report": ("report", COLD, "--before", COLD_BEFORE, "--drivelog", DRIVE, "-o", OUT),
    "report --text": ("report", COLD, "--before", COLD_BEFORE, "--drivelog", DRIVE, "--text"),
    "compare": ("compare", BEFORE, HERON),
    "compare --json": ("compare", BEFORE, HERON, "--json"),
    "spread": ("spread", HERON, "--samples", "1024"),
    "spread --json": ("spread", HERON, "--samples", "1024", "--json"),
    "sweep": ("sweep", HERON, *AXES, "--threads", "2"),
    "sweep --into": ("sweep", HERON, *AXES, "--threads", "2", "--into", OUT),
    "drivelog --json": ("drivelog", HERON, DRIVE, "--json"),
    "heat": ("heat", HERON, "--stop", "100km/h"),
    "heat --csv": ("heat", HERON, "--stop", "100km/h", "--csv"),
    "shakedown": ("shakedown", COLD, "-o", OUT),
    "size --json": ("size", HERON, "--by", "front.tyre.rollout", "--for", "all", "--json"),
    "explain": ("explain", "front.tyre.rollout"),
    "explain in a file": ("explain", "us.135.cold", COLD),
}
# Written row by row: what is there when memory runs out stays, ends with a whole row, and can be
# gone on with.
ROWS = ("sweep", "sweep --into")


def run(words, out, **added):
    """Status, standard output, what the file holds when there is one, standard error."""
    out.unlink(missing_ok=True)
    done = subprocess.run(
        [plain.PROGRAM, *(str(out) if word == OUT else word for word in words)],
        check=False,
        capture_output=True,
        timeout=120,
        env={**os.environ, **added},
    )
    return done.returncode, done.stdout, out.read_bytes() if out.exists() else None, done.stderr


def run_short_of_memory(words, out, place):
    return run(words, out, LD_PRELOAD=str(SHIM), ALLOCATION_FAILS=place)


def allocations(words, out):
    """How many the verb asks for when none fails."""
    counted = out.with_name("count")
    run(words, out, LD_PRELOAD=str(SHIM), ALLOCATION_COUNT=str(counted))
    count = int(counted.read_text())
    counted.unlink()
    return count


def places(count):
    """Threads take turns: a run may ask for some more than another."""
    most = int(os.environ.get("ALLOCATIONS", "0"))
    if most > 0:
        return range(1, min(most, count + 16) + 1)
    return sorted({*range(1, count + 1, max(1, count // 6)), *range(max(1, count - 2), count + 1)})


def part(some, whole):
    """Whether rows are the first rows of a table."""
    return some in (None, b"") or (whole.startswith(some) and some.endswith(b"\n"))


def fault(done, usual, by_rows):
    """What is wrong with an end, or nothing."""
    status, printed, written, said = done
    if done[:3] == usual[:3]:
        return ""
    if status != FAILED:
        return f"status {status} with another answer than usual; said {said[-90:]!r}"
    if not said.strip():
        return "no words"
    if by_rows:
        return (
            "" if part(printed, usual[1]) and part(written, usual[2]) else "a row that is cut off"
        )
    return (
        ""
        if printed in (b"", usual[1]) and written in (None, usual[2])
        else "an answer that is cut off"
    )


@pytest.mark.parametrize("mode", ["", "+"], ids=["once", "from there on"])
@pytest.mark.parametrize("case", CASES)
def test_answer_is_whole_or_refused_in_words_when_memory_runs_out(case, mode, tmp_path):
    out = tmp_path / "out"
    words = CASES[case]
    usual = run(words, out)
    faults = {n: fault(run_short_of_memory(words, out, f"{n}{mode}"), usual, case in ROWS)
              for n in places(allocations(words, out))}
    assert {n: what for n, what in faults.items() if what} == {}
    assert {path.name for path in tmp_path.iterdir()} <= {"out"}


def test_shim_makes_an_allocation_fail(tmp_path):
    status, _, _, said = run_short_of_memory(CASES["check"], tmp_path / "out", "1+")
    assert status == FAILED and said != b""
