# SPDX-License-Identifier: MIT
"""What a vehicle and its answers have in common with other things of Python: paths, equality,
copies, pickles that later versions read."""
import copy
import pathlib
import pickle

import pytest

import libbrake
from libbrake import errors, kept

ROOT = pathlib.Path(__file__).resolve().parents[2]
DRIVE = ROOT / "examples" / "heron-drive.csv"
MASS = "empty.mass.total"
KEPT = pathlib.Path(__file__).parent / "kept" / "heron-1.pickle"


# ---- lines by path ----


def test_every_tree_is_read_by_path_and_told_by_items(heron):
    assert heron["front.tyre.rollout"] == heron.front["tyre.rollout"] == heron.front.tyre.rollout
    assert heron["part.winch.mass"] == heron.part["winch.mass"] == 38.0
    lines = dict(heron.items())
    assert set(libbrake.lines()) <= set(lines) | {f"part.{line}" for line in heron.part.winch}
    assert lines["part.sliders.height"] == 0.56 and list(lines) == heron.keys() == list(heron)
    found = heron.check()
    assert found["full.stop.distance"] == found.full["stop.distance"] == found.full.stop.distance
    assert dict(found.items())["full.stop.distance"] == found.full.stop.distance
    assert found["full.stop"] == found.full.stop and len(found) == len(list(found))
    wrong = ((heron, "front.nothing"), (heron, "_sheet"), (heron, "check"),
             (heron.front, "tyre.nothing"), (found, "full.nothing"), (found, "caution"))  # fmt: skip
    for tree, path in wrong:
        with pytest.raises(KeyError):
            tree[path]


def test_a_line_is_set_by_path(heron):
    heron["front.tyre.rollout"] = 2.5
    heron.front["tyre.wheel_mass"] = "30 kg"
    assert heron.front.tyre.rollout == 2.5 and heron.front.tyre.wheel_mass == 30


# ---- lines left out, parts ----


def unset_none(vehicle):
    vehicle.pedal.ratio = None


def unset_del(vehicle):
    del vehicle.pedal.ratio


def unset_path(vehicle):
    del vehicle["pedal.ratio"]


def unset_many(vehicle):
    vehicle.set({"pedal.ratio": None})


@pytest.mark.parametrize("unset", [unset_none, unset_del, unset_path, unset_many])
def test_a_line_left_out_is_as_if_the_file_did_not_have_it(heron, unset):
    """The ratio of the Heron's pedal is 302 mm over 78 mm, unless one is set."""
    ratio = heron.pedal.ratio
    heron.pedal.ratio = 5
    assert heron.pedal.ratio == 5
    unset(heron)
    assert heron.pedal.ratio == ratio == pytest.approx(302 / 78)


def test_a_line_that_is_needed_cannot_be_left_out(heron):
    before = heron.copy()
    with pytest.raises(errors.RefusedMissing, match="vehicle.wheelbase"):
        heron.set({"vehicle.wheelbase": None, "front.tyre.rollout": 2.5})
    with pytest.raises(errors.RefusedUnknown, match="did you mean front.tyre.rollout"):
        heron.set({"front.tyre.rolout": None})
    assert heron == before


def test_a_part_is_fitted_and_taken_away(heron):
    """40 kg more, so much more load on both axles; then as it was."""
    before, mass = heron.copy(), heron.outputs(MASS)
    rack = {"mass": "40 kg +- 2 kg, measured", "behind_front_axle": 1.4, "height": 1.9}
    heron.part["rack"] = rack
    assert list(heron.part) == ["winch", "sliders", "rack"] and heron.part.rack.height == 1.9
    assert heron.known()["part.rack.mass"]["from"] == "measured"
    assert heron.outputs(MASS)[MASS] == pytest.approx(mass[MASS] + 40)
    del heron.part["winch"]
    assert list(heron.part) == ["sliders", "rack"]
    assert heron.outputs(MASS)[MASS] == pytest.approx(mass[MASS] + 40 - 38)
    heron.part["winch"] = before.part.winch
    del heron.part["rack"]
    assert heron.part.sliders == before.part.sliders and heron.part.winch == before.part.winch
    assert heron.outputs(MASS)[MASS] == pytest.approx(mass[MASS])


def test_a_part_that_is_refused_changes_nothing(heron):
    before = heron.copy()
    for name, lines, refusal in (("two words", {}, errors.RefusedSyntax),
                                 ("rack", {"mas": 3}, errors.RefusedUnknown),
                                 ("rack", {"mass": -1e9}, errors.RefusedRange)):  # fmt: skip
        with pytest.raises(refusal):
            heron.part[name] = lines
    with pytest.raises(KeyError):
        del heron.part["rack"]
    assert heron == before


def test_what_a_drive_told_of_a_part_goes_with_it(heron):
    """The lines of another part keep what was told of them, in their new place."""
    def told(vehicle):
        rows = (row.split(",") for row in kept.kept(vehicle)["told"].split("\n") if row)
        return {name: numbers for name, *numbers in rows if name.startswith("part.")}

    heron.set({f"part.{name}.mass": "40 kg +- 38 kg" for name in heron.part})  # much to learn
    heron.learn(DRIVE)
    before = told(heron)
    del heron.part["winch"]
    assert set(before) == {"part.winch.mass", "part.sliders.mass"}
    assert told(heron) == {"part.sliders.mass": before["part.sliders.mass"]}


# ---- equality, copies, pickles ----


def answers(vehicle):
    """One of every kind of answer that holds numbers, but a check, which takes long."""
    return [
        vehicle.heat(stop="60 km/h"),
        vehicle.sweep({"rear.tyre.rollout": [2.4, 50.0]}, "full.stop.distance"),
        vehicle.gradient("full.stop.distance", "front.tyre.rollout"),
    ]


def test_answers_equal_their_copies_and_no_other_vehicles(heron):
    other = heron.copy()
    other.front.tyre.rollout = 2.4
    for one, differs in zip(answers(heron), answers(other)):
        assert one == copy.deepcopy(one) == pickle.loads(pickle.dumps(one)), type(one)
        assert one != differs and one != "a text", type(one)
    found = heron.check()
    assert found == pickle.loads(pickle.dumps(found)) and found.full != found.empty


def test_sections_and_parts_are_equal_copied_and_pickled(heron):
    for one in (heron.front, heron.front.tyre, heron.part, heron.part.winch, heron.heat):
        again = pickle.loads(pickle.dumps(one))
        assert again == one == copy.deepcopy(one) and type(again) is type(one)
    tyre = copy.deepcopy(heron.front.tyre)
    tyre.rollout = 2.4
    assert tyre != heron.front.tyre and heron.front.tyre != heron.rear.tyre
    assert heron.front.tyre.rollout == 2.64, "a deep copy is of a vehicle of its own"


class Named(libbrake.Vehicle):
    """A vehicle of somebody's own kind."""


def test_a_vehicle_of_ones_own_kind_stays_one(heron):
    own = Named(heron.copy()._sheet)
    assert type(pickle.loads(pickle.dumps(own))) is Named and type(own.copy()) is Named


def in_another_version(vehicle):
    """A vehicle as another version reads its pickle: by the texts alone."""
    return kept.restore(kept.FORM, {**kept.kept(vehicle), "libbrake": "9.9", "bytes": b""})


@pytest.mark.parametrize("path", sorted((ROOT / "tests" / "vehicles").glob("*.ini")), ids=str)
def test_another_version_reads_the_same_vehicle(path):
    """Lines in units of another trade come back but for the last bit of a number."""
    vehicle = libbrake.load(path)
    again = in_another_version(vehicle)
    assert again.digest() == vehicle.digest()
    for one, other in zip(vehicle.items(), again.items()):
        assert one[0] == other[0]
        if isinstance(one[1], float):
            assert one[1] == pytest.approx(other[1], rel=1e-15, nan_ok=True)


def test_another_version_knows_what_a_drive_told(heron):
    """Draws of both are the same number by number, and differ from those of the lines alone."""
    alone = heron.samples(1024, "full.stop.distance")
    heron.learn(DRIVE)
    drawn = [one.samples(1024, "full.stop.distance") for one in (heron, in_another_version(heron))]
    assert drawn[0] == drawn[1] and drawn[0] != alone


@pytest.mark.parametrize("told", ["what a drive told", "drive,1,0,6,0,0,0,1,1,1,0.5,2000\na,1\n",
                                  "drive,9,0,6,0,0,0,1,1,1,0.5,2000\n",
                                  "drive,1,0,1e9,0,0,0,1,1,1,0.5,2000\n"])  # fmt: skip
def test_what_was_never_told_is_refused(heron, told):
    state = {**kept.kept(heron), "libbrake": "9.9", "told": told}
    with pytest.raises(errors.RefusedSyntax, match="what a drive told cannot be read"):
        kept.restore(kept.FORM, state)


def test_a_form_of_later_versions_is_refused_in_words(heron):
    state = {**kept.kept(heron), "libbrake": "9.9"}
    with pytest.raises(ValueError, match="form 2 by libbrake 9.9; .* reads form 1"):
        kept.restore(2, state)


def test_bytes_of_another_layout_are_not_taken_for_a_vehicle(heron):
    """Given the same version and other bytes, as while a version is made, the texts are read."""
    state = {**kept.kept(heron), "bytes": b"x"}
    assert kept.restore(kept.FORM, state) == heron
    other = heron.copy()
    other.front.tyre.rollout = 2.4
    assert kept.restore(kept.FORM, {**state, "bytes": kept.kept(other)["bytes"]}) == heron


@pytest.mark.skipif(not KEPT.exists(), reason="only in a checkout")
def test_a_pickle_that_was_kept_is_read(heron):
    """Made by version 0.1.0: the Heron with a drive learned and a list of parts. Whoever changes
    what is pickled keeps this file and adds one."""
    with KEPT.open("rb") as stream:
        again = pickle.load(stream)
    assert again.front.tyre.rollout == 2.64 and list(again.part) == ["winch", "sliders"]
    state = kept.kept(again)
    assert state["sizes"].splitlines() == ["part,size", "master.bore,0.0254 m"]
    assert "drive,1,0,6,0," in state["told"] and "shared.friction," in state["told"]


# ---- what is refused ----


def test_a_path_is_for_load_and_a_number_of_samples_is_named(heron):
    with pytest.raises(TypeError, match=r"libbrake.load\(path\)"):
        libbrake.Vehicle("heron.ini")
    for ask in (lambda: heron.spread(samples=65), lambda: heron.samples(65, "full.stop.distance")):
        with pytest.raises(errors.RefusedRange, match="^samples: accepts 1024"):
            ask()


def test_what_a_table_is_about_goes_with_it(heron):
    pytest.importorskip("pandas")
    table = heron.samples(1024, "full.stop.distance", seed=3)
    frame = table.to_pandas()
    assert frame.attrs["vehicle"] == heron.digest() and frame.attrs["seed"] == 3
    assert frame.attrs["libbrake"] == libbrake.__version__ and "inspector" in frame.attrs["caution"]
    assert frame.attrs["units"]["full.stop.distance"] == "m"
    slopes = heron.gradient("full.stop.distance", "front.tyre.rollout").to_pandas()
    assert slopes.attrs["vehicle"] == heron.digest()
