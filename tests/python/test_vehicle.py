# SPDX-License-Identifier: MIT
"""A vehicle in Python: lines as attributes, refusals as exceptions, copies."""
import copy
import inspect
import json
import math
import pathlib
import pickle

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import libbrake
from libbrake import _core, errors
from libbrake.fields import Child, Line, Real
from libbrake.parts import Parts

ROOT = pathlib.Path(__file__).resolve().parents[2]
TABLES = json.loads(_core.catalogue_json())


PATHS = [f"{row['section']}.{row['name']}" for row in TABLES["quantities"]]
# The parts have names of their own.
LINES = [path for path in PATHS if not path.startswith("part.")]
PARTS = [path for path in PATHS if path.startswith("part.")]


def line_of(vehicle, path):
    """The descriptor of a line, by way of the sections' attributes."""
    at = type(vehicle)
    for name in path.split("."):
        at = getattr(at, name)
        at = at.kind if isinstance(at, (Child, Parts)) else at
    return at


@pytest.mark.parametrize("path", LINES)
def test_every_line_of_the_catalogue_is_an_attribute(heron, path):
    *_, name = path.split(".")
    section = heron.get(path.rpartition(".")[0])
    assert name in dir(section)
    line = line_of(heron, path)
    assert isinstance(line, Line) and line.__doc__
    value = heron.get(path)
    number = _core.sheet_number(heron._sheet, _core.sheet_find(heron._sheet, path))
    if isinstance(line, Real):
        assert value == number or (math.isnan(value) and math.isnan(number))


@pytest.mark.parametrize("path", PARTS)
def test_every_line_of_a_part_is_an_attribute(heron, path):
    name = path.rpartition(".")[2]
    index = _core.sheet_find(heron._sheet, f"part.winch.{name}")
    assert index >= 0
    value = getattr(heron.part.winch, name)
    assert value == "winch" or value == _core.sheet_number(heron._sheet, index)


def test_a_number_is_set_in_si_or_with_its_unit(heron):
    heron.front.tyre.rollout = 2.52
    assert heron.front.tyre.rollout == 2.52
    heron.front.tyre.rollout = "99 in"
    assert heron.front.tyre.rollout == 99 * 0.0254
    heron.front.tyre.rollout = 3
    assert heron.front.tyre.rollout == 3.0


def test_lists_are_set_as_pairs_or_in_words(heron):
    heron.front.disc.pistons = [(2, 0.048), (1, 0.04)]
    assert heron.front.disc.pistons == [(2.0, 0.048), (1.0, 0.04)]
    heron.front.disc.pistons = "2 x 48 mm"
    assert heron.front.disc.pistons == [(2.0, 0.048)]
    heron.valve.gauge_pairs = [(2e6, 2e6), (4e6, 3e6), (8e6, 4.5e6)]
    assert heron.valve.gauge_pairs == [(2e6, 2e6), (4e6, 3e6), (8e6, 4.5e6)]


@settings(max_examples=50, deadline=None)
@given(rollout=st.floats(1.1, 4.3), mu=st.floats(0.05, 0.9))
def test_what_is_set_is_read_back_to_the_bit(rollout, mu):
    one = libbrake.load(ROOT / "examples" / "heron.ini")
    one.set({"front.tyre.rollout": rollout, "front.disc.pads.mu": mu})
    assert (one.front.tyre.rollout, one.front.disc.pads.mu) == (rollout, mu)


@pytest.mark.parametrize(
    "path, value, kind, words",
    [
        ("front.tyre.rollout", 50.0, errors.RefusedRange, "accepts 1 to 4.5 m"),
        ("front.tyre.rollout", "2.5 kg", errors.RefusedUnit, "accepts m"),
        ("front.tyre.rollout", "2.5", errors.RefusedUnit, "has no unit"),
        ("front.tyre.rollout", math.nan, errors.RefusedSyntax, "nan"),
        ("front.axle.brake", "disk", errors.RefusedUnknown, "accepts disc, drum"),
        ("front.tyre.rolout", 2.5, errors.RefusedUnknown, "did you mean front.tyre.rollout"),
    ],
)
def test_a_refusal_says_field_and_what_is_accepted(heron, path, value, kind, words):
    before = heron.copy()
    with pytest.raises(kind) as caught:
        heron.set({"pedal.ratio": 4.0, path: value})
    assert caught.value.field == path and words in str(caught.value)
    assert isinstance(caught.value, (errors.Refused, ValueError))
    assert heron == before, "nothing is changed by a refusal"


def test_a_refused_file_says_file_line_and_field(tmp_path):
    wrong = tmp_path / "wrong.ini"
    wrong.write_text("[vehicle]\nmass = 4.1 m\n")
    with pytest.raises(errors.RefusedUnit) as caught:
        libbrake.load(wrong)
    assert (caught.value.line, caught.value.field) == (2, "vehicle.mass")
    assert str(caught.value).startswith(f"{wrong}:2: vehicle.mass: ")


@pytest.mark.parametrize("text", ["", b"", "no vehicle", b"\xff\xfe", b"[vehicle]\nname = \0"])
def test_what_is_no_vehicle_file_is_refused(text):
    with pytest.raises(errors.Refused):
        libbrake.loads(text)


def test_a_file_that_is_not_there_is_an_os_error(tmp_path):
    with pytest.raises(FileNotFoundError):
        libbrake.load(tmp_path / "none.ini")


@pytest.mark.parametrize("value", [[1, 2], True, object(), 1j])
def test_what_is_no_number_is_a_type_error(heron, value):
    with pytest.raises(TypeError, match="rollout"):
        heron.front.tyre.rollout = value


def test_an_unknown_name_is_an_attribute_error_that_lists_the_known(heron):
    for use in (lambda: heron.front.tyre.rolout, lambda: setattr(heron.front.tyre, "rolout", 2.5)):
        with pytest.raises(AttributeError, match="rollout"):
            use()
    with pytest.raises(AttributeError, match="front"):
        heron.frnt
    with pytest.raises(AttributeError, match="section"):
        heron.front.tyre = 3


def test_a_copy_is_equal_and_its_own(heron):
    for other in (heron.copy(), copy.copy(heron), copy.deepcopy(heron),
                  pickle.loads(pickle.dumps(heron))):  # fmt: skip
        assert other == heron
        other.front.tyre.rollout = 2.4
        assert other != heron and heron.front.tyre.rollout != 2.4
    assert heron != "a text"


def test_a_vehicle_written_as_a_file_is_the_same(heron):
    again = libbrake.loads(heron.to_text())
    assert again.front.disc.pistons == heron.front.disc.pistons
    assert again.check().full.stop.distance == pytest.approx(heron.check().full.stop.distance)


def test_words_for_people_hold_the_caution(heron):
    for text in (repr(heron), heron._repr_html_(), repr(heron.check()),
                 heron.check()._repr_html_()):  # fmt: skip
        assert "qualified inspector" in " ".join(text.split())
    assert "Heron (invented), after refit" in repr(heron)
    assert max(map(len, repr(heron).split("\n"))) < 80
    assert "[front.tyre]" in repr(heron.front.tyre)
    assert "[part.winch]" in repr(heron.part)


def test_parts_are_a_mapping(heron):
    assert list(heron.part) == ["winch", "sliders"]
    assert set(dir(heron.part)) == set(heron.part)
    assert heron.part["winch"].mass == heron.part.winch.mass == 38.0
    heron.part.winch.mass = "40 kg"
    assert heron.part.winch.mass == 40.0
    with pytest.raises(AttributeError, match="winch"):
        heron.part.wnch
    with pytest.raises(KeyError):
        heron.part["wnch"]


@pytest.mark.parametrize("name", [name for name in dir(libbrake) if name not in ("errors",)])
def test_everything_public_has_a_doc_string(name):
    one = getattr(libbrake, name)
    if name.startswith("__"):
        return
    assert inspect.getdoc(one)
    for inner, value in vars(one).items():
        if not inner.startswith("_") and callable(value):
            assert inspect.getdoc(value), f"{name}.{inner}"
