# SPDX-License-Identifier: MIT
"""Studies in processes forked after a study, or during one. No published source: the parent's
numbers."""
import os

import pytest

HEAD = """
import ctypes, os, select, sys, threading, time
import libbrake
v = libbrake.load("examples/heron.ini")
AXES = {"front.tyre.rollout": [2.2 + 1e-3 * i for i in range(2000)]}

def study():
    swept = v.sweep(AXES, ["full.stop.distance"], threads=4)
    drawn = v.spread(1024)
    return repr((list(map(float, swept["full.stop.distance"])), drawn.to_dict())).encode()

def answer(fork):
    out, into = os.pipe()
    child = fork()
    if child == 0:
        os.write(into, b"%08x" % (hash(study()) & 0xFFFFFFFF))
        os._exit(0)
    ready, _, _ = select.select([out], [], [], 30.0)
    if not ready:
        os.kill(child, 9)
    os.waitpid(child, 0)
    assert ready, "the child hangs"
    return os.read(out, 8)

own = b"%08x" % (hash(study()) & 0xFFFFFFFF)
"""

POOL = """
import multiprocessing
def job(seed):
    return v.spread(1024, seed=seed).to_dict()
found = multiprocessing.get_context("fork").Pool(2).map_async(job, [1, 2, 3]).get(30)
assert found == [job(1), job(2), job(3)]
"""

FROM_PYTHON = "assert answer(os.fork) == own == b'%08x' % (hash(study()) & 0xFFFFFFFF)"

FROM_C = "assert answer(ctypes.PyDLL(None).fork) == own"

FROM_ANOTHER_THREAD = """
going = True
def keep_on():
    while going:
        v.spread(1024)
thread = threading.Thread(target=keep_on, daemon=True)
thread.start()
time.sleep(0.1)
for _ in range(3):
    assert answer(os.fork) == own
going = False
thread.join()
"""

FROM_WITHIN = """
found = []
def fork_once(done, total):
    if not found:
        found.append(answer(os.fork))
v.spread(1024, progress=fork_once)
v.sweep(AXES, ["full.stop.distance"], threads=2)
assert found == [own]
"""


@pytest.mark.parametrize(
    "script", [POOL, FROM_PYTHON, FROM_C, FROM_ANOTHER_THREAD, FROM_WITHIN],
    ids=["pool", "Python", "C", "another thread", "within a study"],
)  # fmt: skip
def test_a_study_in_a_forked_process_gives_what_the_parent_gives(python, script):
    if script == FROM_ANOTHER_THREAD and "libasan" in os.environ.get("LD_PRELOAD", ""):
        pytest.skip(
            "the sanitizer's allocator does not release in a child what another thread held"
        )
    python(HEAD + script)
