# SPDX-License-Identifier: MIT
"""Whole vehicles, all of them invented: what is in good order is no hazard, what is known to be
inadequate never meets. The first line of each file says which it is, and of an inadequate one the
hazard and the reason by hand."""

import pathlib

import pytest

from file import plain

FILES = sorted((plain.ROOT / "tests" / "vehicles").glob("*.ini"))
FIRST = {file: file.read_text().splitlines()[0].removeprefix("; ") for file in FILES}


def of(kind):
    chosen = [file for file in FILES if FIRST[file].startswith(kind + ":")]
    return pytest.mark.parametrize("file", chosen, ids=lambda file: file.stem)


def judged(file):
    """Requirements that stand to it in some way, by their names."""
    found = plain.check(pathlib.Path(file).read_bytes())
    return found["summary"], {c["id"]: c for c in found["criteria"]}


@of("stock")
def test_a_stock_vehicle_in_good_order_falls_short_of_nothing_that_counts(file):
    _, criteria = judged(file)
    counted = {name: c for name, c in criteria.items() if c["scope"] in ("hazard", "binds")}
    assert sum(c["scope"] == "hazard" for c in counted.values()) >= 8
    # 49 CFR 570 has force where a state inspects by it, and by itself binds nobody (570.3).
    american = "us.570.sides" in criteria
    assert any(c["scope"] == "binds" for c in counted.values()) or american
    assert [name for name, c in counted.items() if c["verdict"] == "falls short"] == []


@of("inadequate")
def test_an_inadequate_vehicle_does_not_meet_and_its_hazard_is_named(file):
    """Given a vehicle that is inadequate for a reason worked out by hand, when it is checked, then
    it falls short, and of that hazard among others, or, where the hazard lies in the uncertainty
    of a line, at least does not meet it."""
    hazard = FIRST[file].partition(": ")[2].partition(":")[0]
    summary, criteria = judged(file)
    assert summary["verdict"].startswith("FALLS SHORT")
    assert criteria[hazard]["verdict"] != "meets"
    if hazard != "hazard.self_lock":
        assert criteria[hazard]["verdict"] == "falls short"


def test_there_are_enough_of_them():
    kinds = [first.partition(":")[0] for first in FIRST.values()]
    assert kinds.count("stock") >= 5 and kinds.count("changed") >= 5
    assert kinds.count("inadequate") >= 8


def test_a_lining_that_may_grab_says_how_many_samples_could_not_be_worked_out():
    """Samples in which a shoe locks itself do not leave the count: they do not meet, and are
    told."""
    file = plain.ROOT / "tests" / "vehicles" / "ibex-grabbing.ini"
    _, criteria = judged(file)
    lost = [c for c in criteria.values() if c["not_worked_out"] > 0]
    assert lost
    for one in lost:
        assert one["not_worked_out_why"] == "a shoe locks itself"
        assert one["p_meets"] <= 1 - one["not_worked_out"] / one["samples"] + 1e-12
