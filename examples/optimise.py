#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The parts that ask the least of the foot while nothing else falls short: SciPy's optimiser, fed
with derivatives.

    optimise.py [VEHICLE]
"""
import argparse
import pathlib

import numpy as np
from scipy import optimize

import libbrake

HERE = pathlib.Path(__file__).resolve().parent
# What may be fitted, and between which sizes [m].
PARTS = {
    "master.bore": (0.0190, 0.0286),
    "rear.drum.cylinder_diameter": (0.0175, 0.0286),
    "front.disc.piston_diameter": (0.040, 0.056),
}
FORCE = "full.pedal.force_for_target"
# Each must stay above its bound: rear first from 0.8 g on, a failed circuit, room to the floor.
BOUNDS = {"full.balance.rear_first_above": 0.85, "full.failed.first_circuit": 2.6}
TRAVEL = ("full.pedal.travel_used", 0.75)
OUTPUTS = [FORCE, *BOUNDS, TRAVEL[0]]


class Fit:
    """A vehicle with other parts: outputs and their slopes by size over size now, worked out once a
    point."""

    def __init__(self, vehicle):
        self.vehicle, self.at = vehicle.copy(), None
        self.now = np.array([vehicle.get(path) for path in PARTS])

    def ask(self, shares):
        """Outputs and slopes at sizes of the parts, as shares of those now."""
        if self.at is None or not np.array_equal(shares, self.at):
            self.at = np.array(shares)
            self.vehicle.set(dict(zip(PARTS, map(float, self.at * self.now))))
            self.value = self.vehicle.outputs(OUTPUTS)
            found = self.vehicle.gradient(OUTPUTS, list(PARTS))
            self.slope = {name: found[name] * self.now for name in OUTPUTS}
        return self

    def bound(self, name, limit, sign):
        """A constraint as SciPy takes it: not below 0."""
        return {"type": "ineq",
                "fun": lambda x: sign * (self.ask(x).value[name] - limit),
                "jac": lambda x: sign * self.ask(x).slope[name]}  # fmt: skip


def best(vehicle):
    """The sizes [m] that ask for the least pedal force within the bounds; SciPy's result."""
    fit = Fit(vehicle)
    held = [fit.bound(name, limit, 1.0) for name, limit in BOUNDS.items()]
    held.append(fit.bound(*TRAVEL, -1.0))
    within = np.array(list(PARTS.values())) / fit.now[:, None]
    found = optimize.minimize(
        lambda x: fit.ask(x).value[FORCE] / 100, np.ones(len(PARTS)), method="SLSQP",
        jac=lambda x: fit.ask(x).slope[FORCE] / 100, bounds=within, constraints=held,
    )  # fmt: skip
    found.x = found.x * fit.now
    return found


def main():
    """Look for them, and tell."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("vehicle", nargs="?", default=HERE / "heron.ini")
    vehicle = libbrake.load(parser.parse_args().vehicle)
    found = best(vehicle)
    print(f"{vehicle.vehicle.name}: {found.message}, {found.nfev} points")
    for path, size in zip(PARTS, found.x):
        print(f"  {path:30} {1000 * vehicle.get(path):6.2f} mm -> {1000 * size:6.2f} mm")
    fitted = vehicle.copy()
    fitted.set(dict(zip(PARTS, map(float, found.x))))
    after = fitted.outputs(OUTPUTS)
    for name, before in vehicle.outputs(OUTPUTS).items():
        print(f"  {name:30} {before:8.4g} -> {after[name]:8.4g}")
    print(f"Caution. {vehicle.check().caution}")


if __name__ == "__main__":
    main()
