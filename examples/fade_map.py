#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""How hot the front brakes get on descents: a map over fall and speed, as a table and a picture.

    fade_map.py [VEHICLE] [-o fade.svg]
"""
import argparse
import pathlib

import matplotlib

import libbrake

HERE = pathlib.Path(__file__).resolve().parent
LENGTH = "4 km"
AXES = {"fall": [0.04, 0.06, 0.08, 0.10], "speed": ["30 km/h", "45 km/h", "60 km/h", "75 km/h"]}
FACE, FIRST, LAST = "heat.front_face", "heat.pedal_force_first", "heat.pedal_force_last"


def study(vehicle):
    """All descents: the hottest face, and the pedal force at begin and end of each."""
    return vehicle.heat.over(AXES, descent=("8 %", LENGTH, "45 km/h"), cool=0.0,
                             out=[FACE, FIRST, LAST])  # fmt: skip


def draw(vehicle, path):
    """Run all descents and draw the map; gives the table that it shows."""
    matplotlib.use("Agg")
    from matplotlib import pyplot

    found = study(vehicle)
    faces, ratios = found[FACE] - 273.15, found[LAST] / found[FIRST]
    figure, plot = pyplot.subplots(figsize=(7, 5))
    picture = plot.imshow(faces, origin="lower", cmap="Greys", aspect="auto", vmin=0, vmax=900)
    for row, column in ((r, c) for r in range(faces.shape[0]) for c in range(faces.shape[1])):
        words = f"{faces[row, column]:.0f} °C\nforce x {ratios[row, column]:.2f}"
        ink = "white" if faces[row, column] > 450 else "black"
        plot.text(column, row, words, ha="center", va="center", color=ink, fontsize=8)
    plot.set_xticks(range(faces.shape[1]), [f"{3.6 * speed:.0f} km/h" for speed in found["speed"]])
    plot.set_yticks(range(faces.shape[0]), [f"{100 * fall:.0f} %" for fall in found["fall"]])
    plot.set_xlabel("speed")
    plot.set_ylabel("fall of the road")
    plot.set_title(f"{vehicle.vehicle.name}: hottest front face, {LENGTH} down")
    figure.colorbar(picture, label="°C")
    figure.text(0.01, 0.01, found.caution, fontsize=6)
    figure.savefig(path)
    pyplot.close(figure)
    return found


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("vehicle", nargs="?", default=HERE / "heron.ini")
    parser.add_argument("-o", "--output", default="fade.svg")
    options = parser.parse_args()
    print(draw(libbrake.load(options.vehicle), options.output))
    print(f"{options.output} is drawn.")


if __name__ == "__main__":
    main()
