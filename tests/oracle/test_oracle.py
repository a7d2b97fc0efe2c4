# SPDX-License-Identifier: MIT
"""The library against a second model of the same texts, on random vehicles.

ORACLE_CASES vehicles (3,000; `make oracle` takes 10,000) from ORACLE_SEED (1); LIBBRAKE_BUILD says
where the driver is.
"""
import concurrent.futures
import multiprocessing
import os
import pathlib

import pytest

from oracle import compare

ROOT = pathlib.Path(__file__).parents[2]
DRIVER = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", ROOT / "build"), "tests", "oracle-driver")
CASES = int(os.environ.get("ORACLE_CASES", "3000"))
SEED = int(os.environ.get("ORACLE_SEED", "1"))


@pytest.fixture(scope="module")
def wrong():
    """Messages by kind of difference."""
    if not DRIVER.exists():
        pytest.fail(f"{DRIVER} is not built")
    workers = os.cpu_count() or 1
    shares = [range(first, CASES, workers) for first in range(workers)]
    with concurrent.futures.ProcessPoolExecutor(
        workers, mp_context=multiprocessing.get_context("fork")
    ) as pool:
        found = list(pool.map(compare.differences, [DRIVER] * workers, shares, [SEED] * workers))
    assert sum(compared for _, compared in found) == CASES, "the driver left vehicles out"
    return {kind: [text for messages, _ in found for text in messages[kind]]
            for kind in found[0][0]}  # fmt: skip


def check(messages):
    if messages:
        pytest.fail(f"{len(messages)} vehicles or more; the first:\n{messages[0]}", pytrace=False)


def test_valid_vehicles_are_accepted(wrong):
    check(wrong["refused"])


def test_lines_lead_to_the_same_quantities(wrong):
    check(wrong["lines"])


def test_results_are_the_same(wrong):
    check(wrong["results"])


def test_judgements_are_the_same(wrong):
    check(wrong["criteria"])
