#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Pedal force against tyre size, a line for each diameter of the front pistons.

    design_chart.py [VEHICLE] [-o chart.svg]
"""
import argparse
import pathlib

import matplotlib

import libbrake

HERE = pathlib.Path(__file__).resolve().parent
TYRE, PISTON, FORCE = "front.tyre.rollout", "front.disc.piston_diameter", "full.pedal.force_for_target"


def even(low, high, count):
    """Numbers in equal steps."""
    return [low + (high - low) * i / (count - 1) for i in range(count)]


def chart(vehicle, path):
    """Draw the chart; gives the table that it shows."""
    matplotlib.use("Agg")
    from matplotlib import pyplot

    axes = {TYRE: even(2.2, 2.9, 29), PISTON: [0.042, 0.045, 0.048, 0.051, 0.054]}
    found = vehicle.sweep(axes, out=[FORCE])
    figure, plot = pyplot.subplots(figsize=(8, 5.5))
    for at, piston in enumerate(found[PISTON]):
        force = found[FORCE][:, at]
        plot.plot(found[TYRE], force, color=str(0.7 - 0.15 * at))
        # Words at the lines: no colour has to be told from another.
        plot.annotate(f" {1e3 * piston:.0f} mm", (found[TYRE][-1], force[-1]), va="center")
    plot.set_xlim(found[TYRE][0], found[TYRE][-1] + 0.06)  # room for the words
    plot.axhline(vehicle.driver.pedal_force, color="black", linestyle="--")
    plot.annotate("driver's force", (found[TYRE][0], vehicle.driver.pedal_force), va="bottom")
    plot.set_xlabel("rolling circumference of the tyres [m]")
    plot.set_ylabel(f"pedal force for {vehicle.driver.target:.2f} m/s², loaded [N]")
    plot.set_title(f"{vehicle.vehicle.name}: front piston diameter")
    figure.text(0.01, 0.01, found.caution, fontsize=6)
    figure.savefig(path)
    pyplot.close(figure)
    return found


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("vehicle", nargs="?", default=HERE / "heron.ini")
    parser.add_argument("-o", "--output", default="chart.svg")
    options = parser.parse_args()
    chart(libbrake.load(options.vehicle), options.output)
    print(f"{options.output} is drawn.")


if __name__ == "__main__":
    main()
