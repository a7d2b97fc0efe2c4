#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""How hot the front brakes get on descents: a map over grade and speed, as a table and a picture.

    fade_map.py [VEHICLE] [-o fade.svg]
"""
import argparse
import math
import pathlib

import matplotlib

import libbrake

HERE = pathlib.Path(__file__).resolve().parent
LENGTH = "4 km"
GRADES = [0.04, 0.06, 0.08, 0.10]
SPEEDS = [30, 45, 60, 75]


def rise(vehicle, grade, speed):
    """Pedal force at the end over that at the start of a descent, and the hottest face [degC]."""
    found = vehicle.heat(descent=(grade, LENGTH, f"{speed} km/h"), cool=0.0)
    force = [f for f in found.history["pedal_force"] if f > 0]
    hottest = max(found.history["front_face"]) - 273.15
    return (force[-1] / force[0], hottest) if force else (math.nan, hottest)


def draw(vehicle, path):
    """Run all descents and draw the map; gives {(grade, speed): (force ratio, face)}."""
    matplotlib.use("Agg")
    from matplotlib import pyplot

    found = {(g, s): rise(vehicle, g, s) for g in GRADES for s in SPEEDS}
    figure, plot = pyplot.subplots(figsize=(7, 5))
    faces = [[found[g, s][1] for s in SPEEDS] for g in GRADES]
    picture = plot.imshow(faces, origin="lower", cmap="Greys", aspect="auto", vmin=0, vmax=900)
    for row, grade in enumerate(GRADES):
        for column, speed in enumerate(SPEEDS):
            ratio, face = found[grade, speed]
            words = f"{face:.0f} °C\nforce x {ratio:.2f}"
            ink = "white" if face > 450 else "black"
            plot.text(column, row, words, ha="center", va="center", color=ink, fontsize=8)
    plot.set_xticks(range(len(SPEEDS)), [f"{speed} km/h" for speed in SPEEDS])
    plot.set_yticks(range(len(GRADES)), [f"{100 * grade:.0f} %" for grade in GRADES])
    plot.set_title(f"{vehicle.vehicle.name}: hottest front face, {LENGTH} down")
    figure.colorbar(picture, label="°C")
    figure.text(0.01, 0.01, vehicle.check().caution, fontsize=6)
    figure.savefig(path)
    pyplot.close(figure)
    return found


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("vehicle", nargs="?", default=HERE / "heron.ini")
    parser.add_argument("-o", "--output", default="fade.svg")
    options = parser.parse_args()
    for (grade, speed), (ratio, face) in draw(
        libbrake.load(options.vehicle), options.output
    ).items():
        print(f"{100 * grade:4.0f} %  {speed:3} km/h  face {face:4.0f} degC  force x {ratio:.2f}")
    print(f"{options.output} is drawn.")


if __name__ == "__main__":
    main()
