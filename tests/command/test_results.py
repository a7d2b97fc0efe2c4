# SPDX-License-Identifier: MIT
"""A name has one value in every verb that gives it."""
import csv
import io
import json
import math

import pytest

from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")


def told(*words):
    """The answer in JSON; the status is that of the verdict."""
    done = plain.run(*words, "--json")
    assert done.returncode in (0, 1, 3), done.stderr
    return json.loads(done.stdout)


def values(results):
    return {
        name: math.nan if one["value"] is None else one["value"] for name, one in results.items()
    }


@pytest.fixture(scope="module")
def checked():
    return values(told("check", HERON)["results"])


def test_sweep_gives_what_check_gives(checked):
    """Given every result as an output, when an axis has one value, its own, then none differs."""
    target = told("check", HERON)["vehicle"]["driver.target"]["value"]
    done = plain.run("sweep", HERON, "--bare", "--axis", f"driver.target={target!r} m/s2",
                     "--out", ",".join(checked))  # fmt: skip
    assert done.returncode == 0, done.stderr
    head, row = csv.reader(io.StringIO(done.stdout.decode()))
    names = [column.partition(" ")[0] for column in head[1:] if column != "note"]
    assert names == list(checked)
    for name, cell in zip(names, row[1:]):
        value = float(cell) if cell else math.nan
        assert value == pytest.approx(checked[name], rel=1e-12, nan_ok=True), name


def test_compare_gives_what_check_gives(checked):
    """What compare holds like for like is a margin of check, plus 1."""
    found = told("compare", HERON, HERON, "--fade")
    for row in found["results"]:
        assert row["after"] == pytest.approx(checked[row["path"]], rel=1e-12), row["path"]
    for load in ("empty", "full"):
        for axle, name in (("front", "front_margin"), ("rear", "rear_margin"), ("both", "margin")):
            like = found["like_for_like"][load][axle]["after"]
            assert like == pytest.approx(1 + checked[f"{load}.torque.{name}"], rel=1e-12)


@pytest.mark.parametrize(
    "name, least", [("full.stop.distance", "1 m"), ("empty.failed.no_assist", "1 m/s2")]
)
def test_size_gives_what_check_gives(checked, name, least):
    found = told("size", HERON, "--by", "front.disc.pads.mu", "--for", f"{name} >= {least}")
    assert found["for"][0]["now"] == pytest.approx(checked[name], rel=1e-12)


def test_heat_gives_what_the_fade_procedure_gives(checked):
    """Lost before: front_face of check was front.rotor_peak of heat. Given the full load that the
    procedure asks for, 2450 kg by the ratings, 1150 and 1400 kg, of which the front has more than
    its 1105 kg already when light: 1086.7 kg and half of the 105 kg beside the driver."""
    front = checked["empty.mass.front_axle"] + (180 - 75) / 2
    rated = ("--set", f"load.full.front_axle={front!r} kg",
             "--set", f"load.full.rear_axle={2450 - front!r} kg")  # fmt: skip
    heated = values(told("heat", HERON, "--snubs", "un.13h.fade", *rated)["results"])
    shared = [name.removeprefix("fade.") for name in checked if name.startswith("fade.")]
    both = [name for name in shared if f"heat.{name}" in heated and name != "energy_residual"]
    assert {"front_face", "rear_face", "front_pad", "rear_pad", "front_fluid", "rear_fluid",
            "fluid_margin", "stress_share"} == set(both)  # fmt: skip
    for name in both:
        # A margin is what is left of two temperatures, each with its rounding.
        found = pytest.approx(checked[f"fade.{name}"], rel=1e-12, abs=1e-12 * 500)
        assert heated[f"heat.{name}"] == found, name
    assert heated["heat.pedal_force_last"] == pytest.approx(
        checked["fade.last_snub_force"], rel=1e-12
    )
