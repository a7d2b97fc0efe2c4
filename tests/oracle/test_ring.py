# SPDX-License-Identifier: MIT
"""The ring that pads rub, and what lies beside it, against conduction in radius and depth.

A rotor's plate in finite volumes: half of it by symmetry, rubbed evenly where the pad rubs, no air,
no pads, iron whose properties do not follow temperature. The library has a wall for the ring and
one part for the rest (`reference/method.md` section 8), made from the lines of a file.
"""
import pathlib
import re
import subprocess

import numpy as np
import pytest
from scipy import integrate, sparse

from duty import model
from oracle import test_duty as duty
from oracle.test_thermal import DRIVER
from thermal import model as thermal

ROOT = pathlib.Path(__file__).parents[2]
DENSITY, CONDUCTIVITY, CAPACITY = 7200.0, 46.0, 450.0  # grey iron 150 of materials.json
# Of the highest rise, of the face and of the mean over its depth; with the whole plate as one ring
# the face is off by 5 to 29 %.
FACE_WITHIN, MEAN_WITHIN = 0.045, 0.02
INSIDE = 0.004  # [m] of the plate within the pads: method.md

# Edges of the pad and of the rotor [mm], mass [kg], seconds and heat [J] of a stop.
ROTORS = {
    "rim of 13 mm beyond the pad": (100, 152, 165, 7.1, 4.2, 338e3),
    "the same, in a short stop": (100, 152, 165, 7.1, 2.0, 169e3),
    "the same, in a long one": (100, 152, 165, 7.1, 7.0, 450e3),
    "pads over nearly all of it": (94, 148, 150, 4.0, 4.2, 1160e3),
    "small and thin": (80, 128, 130, 3.0, 4.2, 160e3),
    "small pads on a thick rotor": (90, 130, 140, 7.1, 4.2, 260e3),
}


def vehicle(inner, outer, rotor, mass):
    """Heron on another rotor."""
    text = (ROOT / "examples" / "heron.ini").read_text()
    for line, value in (
        ("rotor_mass", f"{mass} kg"),
        ("rotor_diameter", f"{2 * rotor} mm"),
        ("inner_radius", f"{inner} mm"),
        ("outer_radius", f"{outer} mm"),
        ("iron", "grey_150"),
    ):
        text, found = re.subn(rf"(?m)^{line} .*$", f"{line} = {value}", text, count=1)
        assert found == 1
    return text


def library(brake, seconds, energy):
    """Face and mean of the wall through a stop whose power falls to nothing."""
    bare = thermal.Cooling()
    brake.front, brake.back, brake.part = bare, bare, [bare] * len(brake.part)
    brake.contact = brake.capacity[thermal.PAD] = brake.capacity[thermal.HAT] = 0.0
    most = 2.0 * energy / seconds
    cuts = np.linspace(0.0, seconds, 11)
    legs = [
        thermal.Leg((most * (1 - a / seconds), most * (1 - b / seconds)), (0.0, 0.0), 293.15, b - a)
        for a, b in zip(cuts, cuts[1:])
    ]
    legs.append(thermal.Leg((0.0, 0.0), (0.0, 0.0), 293.15, 20.0))
    case = " ".join(f"{number:.17g}" for number in brake.numbers(1e-3, legs))
    run = subprocess.run([DRIVER], input=case, check=True, stdout=subprocess.PIPE, text=True)
    at = brake.node(thermal.RIM) - brake.cells
    for line in run.stdout.splitlines():
        words = [float(word) for word in line.split()]
        wall = np.array(words[3 + at : 3 + at + brake.cells])
        yield words[2] - brake.start, wall @ brake.width / brake.thickness - brake.start


def conduction(rotor, seconds, energy):
    """The same of the pad's band, in radius and depth."""
    inner, outer, rim, mass = rotor
    hole = inner - INSIDE
    depth = mass / DENSITY / (np.pi * (rim**2 - hole**2)) / 2.0
    edges = np.concatenate([
        np.linspace(hole, inner, 7)[:-1], np.linspace(inner, outer, 41),
        np.linspace(outer, rim, 13)[1:],
    ])  # fmt: skip
    layer = np.geomspace(1.0, 12.0, 24)
    layer *= depth / layer.sum()
    area = np.pi * np.diff(edges**2)
    middle = (edges[1:] + edges[:-1]) / 2.0
    down = CONDUCTIVITY * area[:, None] / ((layer[1:] + layer[:-1]) / 2.0)
    out = 2.0 * np.pi * CONDUCTIVITY * edges[1:-1, None] * layer / np.diff(middle)[:, None]
    band = (middle > inner) & (middle < outer)
    share = np.where(band, area, 0.0) / area[band].sum()
    capacity = DENSITY * CAPACITY * area[:, None] * layer
    shape = capacity.shape

    def power(time):  # of one face
        return max(energy / seconds * (1.0 - time / seconds), 0.0)

    def rate(time, rise):
        rise = rise.reshape(shape)
        heat = np.zeros(shape)
        through = down * (rise[:, :-1] - rise[:, 1:])
        heat[:, :-1] -= through
        heat[:, 1:] += through
        through = out * (rise[:-1] - rise[1:])
        heat[:-1] -= through
        heat[1:] += through
        heat[:, 0] += power(time) * share
        return (heat / capacity).ravel()

    size, step = capacity.size, shape[1]
    pattern = sparse.diags([1.0] * 5, [-step, -1, 0, 1, step], shape=(size, size))
    times, state = [*np.linspace(0.0, seconds, 11)[1:], seconds + 20.0], np.zeros(size)
    for begin, end in (0.0, seconds), (seconds, seconds + 20.0):
        found = integrate.solve_ivp(
            rate, (begin, end), state, method="BDF", jac_sparsity=pattern, rtol=1e-5, atol=1e-3,
            t_eval=[time for time in times if begin < time <= end],
        )  # fmt: skip
        assert found.success
        state = found.y[:, -1]
        for time, column in zip(found.t, found.y.T):
            rise = column.reshape(shape)
            flux = power(time) / area[band].sum()
            face = rise[band, 0] + flux * layer[0] / 2.0 / CONDUCTIVITY
            yield np.average(face, weights=area[band]), np.average(
                rise[band] @ layer / depth, weights=area[band]
            )


@pytest.fixture(scope="module")
def brakes():
    """The front brake that the library makes of each."""
    stop = model.Duty(model.STOPS, stops=(1, 5.0, 0.0, 20.0, model.DECELERATION, 3.0))
    orders = [(vehicle(*numbers[:4]), (0, 0, 0.0, 0.0), stop) for numbers in ROTORS.values()]
    return [model.read_rig(rig)[1][0] for rig, _ in duty.ask(orders)]


@pytest.mark.parametrize("number, name", enumerate(ROTORS))
def test_the_face_that_pads_rub_is_as_hot_as_in_two_dimensions(brakes, number, name):
    inner, outer, rim, mass, seconds, energy = ROTORS[name]
    rotor = inner / 1e3, outer / 1e3, rim / 1e3, mass
    mine = np.array(list(conduction(rotor, seconds, energy)))
    found = np.array(list(library(brakes[number], seconds, energy)))
    scale = mine[:, 0].max()
    apart = (found - mine) / scale
    assert (np.abs(apart).max(axis=0) <= (FACE_WITHIN, MEAN_WITHIN)).all(), apart
