#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""The fade sequence of heat.c in one front brake: the library beside SciPy's stiff solvers.

Each at the loosest tolerance at which every temperature at the end of every snub and pause is
within 0.1 K of the library's converged run; one process, one after the other.
"""
import json
import os
import pathlib
import subprocess
import sys
import time

import numpy as np

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1]))
from thermal import model  # noqa: E402

BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", "build"))
WITHIN = 0.1


def read():
    """Brake, legs, converged temperatures, seconds and error of the library."""
    program = BUILD / "tests" / "bench" / "heat"
    if not program.exists():
        sys.exit(f"bench heat: {program} is not there")
    command = [program, "--python"]
    text = subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True).stdout
    given = json.loads(text)
    table = [given[name] for name in ("temperature", "conductivity", "heat_capacity")]
    coolings = [model.Cooling(*cooling) for cooling in given["cooling"]]
    brake = model.Brake(
        given["density"], np.column_stack(table), *given["wall"], *coolings[:2],
        given["capacity"], given["link"], coolings[2:],
    )
    legs = [model.Leg(*leg) for leg in given["legs"]]
    reference = np.reshape(given["reference"], (len(legs), -1))
    return brake, legs, reference, given["seconds"], given["error"]


def measure(brake, legs, reference, method):
    """Seconds and error of a solver of SciPy."""
    tolerance = 4.0
    options = {"lband": 1, "uband": 1} if method == "LSODA" else {}
    while True:
        tolerance /= 2.0
        begin = time.perf_counter()
        run = brake.run(legs, method=method, rtol=1e-12 + tolerance * 1e-5, atol=tolerance,
                        **options)
        found = np.array([temperature for _, temperature in run])
        seconds = time.perf_counter() - begin
        error = np.abs(found - reference).max()
        if error <= WITHIN:
            return seconds, error


def main():
    np.seterr(invalid="ignore")  # a solver at a loose tolerance tries temperatures below 0 K
    brake, legs, reference, own, error = read()
    print(f"{'libbrake, one brake':28} {1e3 * own:9.3f} ms, error {error:.3f} K")
    best = None
    for method in "LSODA", "BDF", "Radau":
        seconds, error = measure(brake, legs, reference, method)
        best = min(seconds, best or seconds)
        print(f"{'SciPy ' + method:28} {1e3 * seconds:9.1f} ms, error {error:.3f} K")
    print(
        f"bench heat: SciPy's fastest stiff solver takes {best / own:.0f} x the time of libbrake "
        f"at the same error"
    )


if __name__ == "__main__":
    main()
