# SPDX-License-Identifier: MIT
"""help() of everything public; the examples in it are run."""
import doctest
import importlib
import inspect
import pathlib
import pydoc
import shutil

import pytest

import libbrake
from libbrake import duty

ROOT = pathlib.Path(__file__).resolve().parents[2]
FUNCTIONS = ["load", "loads", "compare", "identify", "fleet", "explain", "lines", "results",
             "criteria"]  # fmt: skip
# What is given, rather than called for.
CLASSES = {"vehicle": ["Vehicle"], "table": ["Table"], "gradient": ["Gradient"],
           "check": ["Check"], "duty": ["Heat", "HeatSection"], "identified": ["Identified"],
           "fleets": ["Fleet"], "answers": ["Answer", "Plan", "Rows"], "report": ["Report"],
           "fields": ["Section"], "parts": ["PartList"], "tree": ["Tree", "Named"],
           "errors": ["Refused", "Approximate"]}  # fmt: skip


def methods():
    """Public methods of a vehicle, by name."""
    found = inspect.getmembers(libbrake.Vehicle, inspect.isfunction)
    return {name: one for name, one in found if not name.startswith("_")}


def classes():
    for module, names in CLASSES.items():
        for name in names:
            yield getattr(importlib.import_module(f"libbrake.{module}"), name)


@pytest.mark.parametrize("kind", classes(), ids=lambda kind: kind.__name__)
def test_what_is_given_has_help(kind):
    assert inspect.getdoc(kind), kind
    for name, one in vars(kind).items():
        if not name.startswith("_") and inspect.isfunction(one):
            assert inspect.getdoc(one), f"{kind.__name__}.{name}"
    assert kind.__name__ in pydoc.render_doc(kind, renderer=pydoc.plaintext)


def test_help_of_the_package_names_what_it_offers():
    assert set(FUNCTIONS) <= set(dir(libbrake))
    for name in FUNCTIONS:
        assert name in pydoc.render_doc(getattr(libbrake, name), renderer=pydoc.plaintext)


def test_help_of_a_duty_says_what_duties_there_are(heron):
    for one in (heron.heat, libbrake.Vehicle.heat):
        text = pydoc.render_doc(one, renderer=pydoc.plaintext)
        assert all(word in text for word in ("stop=", "snubs=", "descent=", "cycle="))


def test_help_of_a_line_says_its_unit_and_how_to_measure_it():
    doc = inspect.getdoc(libbrake.Vehicle.front.kind.tyre.kind.rollout)
    assert "[m]" in doc and "accepts:" in doc and "measure:" in doc


EXAMPLES = {**{name: getattr(libbrake, name) for name in FUNCTIONS}, **methods(),
            "heat": duty.HeatSection, "heat.over": duty.HeatSection.over}  # fmt: skip


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_examples_in_help_do_as_they_say(heron, name, tmp_path, monkeypatch):
    (tmp_path / "examples").mkdir()
    for path in (ROOT / "examples").glob("heron*"):
        shutil.copy(path, tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    names = {"libbrake": libbrake, "v": heron}
    (test,) = doctest.DocTestFinder(recurse=False).find(EXAMPLES[name], name, globs=names)
    assert test.examples, f"{name}: no example"
    said = []
    doctest.DocTestRunner().run(test, out=said.append)
    assert not said, "".join(said)
