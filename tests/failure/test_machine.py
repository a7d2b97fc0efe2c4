# SPDX-License-Identifier: MIT
"""A machine that gives less than is wanted, threads, stack or memory: the same answer or words, and
never the end of a process by a signal or with the status of a verdict. Limits: setrlimit(2)."""
import os
import resource
import subprocess

import pytest

from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")
COLD, COLD_BEFORE = plain.without_heat("heron.ini"), plain.without_heat("heron-before.ini")
BEFORE = str(plain.ROOT / "examples" / "heron-before.ini")
NOBODY = 65534
STACK = 1024 * 1024  # libbrake/command/machine.c
FAILED = 4
SWEEP = ("sweep", HERON, "--axis", "front.tyre.rollout=2.2m:2.9m:0.05m", "--axis",
         "vehicle.mass=1500kg:2500kg:20kg")
VERBS = {
    "check": ("check", HERON),
    "check --json": ("check", HERON, "--json"),
    "report": ("report", COLD, "--before", COLD_BEFORE, "-o", "-"),
    "compare": ("compare", BEFORE, HERON),
    "spread": ("spread", HERON, "--samples", "1024"),
    "size": ("size", HERON, "--by", "front.tyre.rollout", "--for", "all"),
    "heat": ("heat", HERON, "--stop", "100km/h"),
    "shakedown": ("shakedown", HERON, "-o", "-"),
    "sweep": (*SWEEP, "--threads", "8"),
}


def run(words, limits=(), user=None, **variables):
    """The command under limits, as another user when one is given."""
    def limit():
        for which, value in limits:
            resource.setrlimit(which, (value, value))
        if user is not None:
            os.setgid(user)
            os.setuid(user)

    return subprocess.run(
        [plain.PROGRAM, *words],
        preexec_fn=limit,
        capture_output=True,
        timeout=120,
        check=False,
        env={**os.environ, "OMP_NUM_THREADS": "4", **variables},
    )


def answer(done):
    return done.returncode, done.stdout


@pytest.mark.parametrize("verb", VERBS)
def test_one_thread_does_the_work_when_no_other_can_start(verb):
    if os.getuid() != 0:
        pytest.skip("only root may become another user, whose processes are counted")
    usual = run(VERBS[verb])
    alone = run(VERBS[verb], [(resource.RLIMIT_NPROC, 1)], user=NOBODY)
    assert answer(alone) == answer(usual), alone.stderr.decode()


@pytest.mark.parametrize("verb", VERBS)
def test_stack_that_is_stated_is_enough(verb):
    tight = run(VERBS[verb], [(resource.RLIMIT_STACK, STACK)])
    assert answer(tight) == answer(run(VERBS[verb])), tight.stderr.decode()


@pytest.mark.parametrize("kilobytes", (64, 128, STACK // 1024 - 4))
def test_smaller_stack_is_told_in_words(kilobytes):
    done = run(VERBS["check"], [(resource.RLIMIT_STACK, kilobytes * 1024)])
    assert answer(done) == (FAILED, b"")
    assert f"the stack is limited to {kilobytes} KiB".encode() in done.stderr


@pytest.mark.parametrize("variable", ("OMP_STACKSIZE", "GOMP_STACKSIZE"))
@pytest.mark.parametrize("verb", ("report", "spread", "sweep"))
def test_small_stacks_of_threads_change_nothing(verb, variable):
    small = run(VERBS[verb], **{variable: "16k"})
    assert answer(small) == answer(run(VERBS[verb])), small.stderr.decode()


@pytest.mark.parametrize("megabytes", (16, 24, 32, 48, 64, 128, 512, 2048))
@pytest.mark.parametrize("threads", (8, 1024))
def test_sweep_short_of_memory_for_threads_never_ends_as_a_verdict(threads, megabytes):
    words = (*SWEEP, "--threads", str(threads))
    done = run(words, [(resource.RLIMIT_AS, megabytes << 20)])
    if done.returncode == FAILED:
        assert done.stderr.startswith((b"stopmargin: ", b"libgomp: ", b"\nlibgomp: ")), done.stderr
    else:
        assert answer(done) == answer(run((*SWEEP, "--threads", "1")))
