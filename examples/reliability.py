#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""How sure it is, from samples: how often each row is met, and what differs in those that fail.

    reliability.py [VEHICLE] [-o reliability.svg]
"""
import argparse
import pathlib

import matplotlib
import numpy as np

import libbrake

HERE = pathlib.Path(__file__).resolve().parent
ROWS = ["hazard.circuit", "hazard.parking", "hazard.assist", "hazard.floor", "hazard.rear_first"]


def moved(table, lines, row):
    """By how many of its own standard deviations each line is off in the samples that fail."""
    failed = table[row] < 0
    if not failed.any():
        return {}
    shift = {}
    for path in lines:
        values = table[path]
        width = values.std()
        if width > 0:
            shift[path] = (values[failed].mean() - values.mean()) / width
    return dict(sorted(shift.items(), key=lambda one: -abs(one[1])))


def draw(vehicle, path, samples=4096):
    """Draw what decides each row; gives the samples and the share that meets each row."""
    matplotlib.use("Agg")
    from matplotlib import pyplot

    table = vehicle.samples(samples, ROWS)
    lines = [name for name in table if name not in ROWS]
    met = {row: float(np.mean(table[row] >= 0)) for row in ROWS}
    figure, plots = pyplot.subplots(len(ROWS), 1, figsize=(8, 1.5 * len(ROWS) + 0.5))
    for plot, row in zip(plots, ROWS):
        shown = list(moved(table, lines, row).items())[:4]
        plot.barh([name for name, _ in shown], [by for _, by in shown], color="0.4")
        plot.axvline(0, color="black", linewidth=0.8)
        plot.set_title(f"{libbrake.criteria()[row].title}: met by {100 * met[row]:.0f} of 100",
                       fontsize=8, loc="left")  # fmt: skip
        plot.tick_params(labelsize=7)
    plots[-1].set_xlabel("where it fails a line is off by so many of its standard deviations")
    figure.text(0.01, 0.005, table.caution, fontsize=5)
    figure.tight_layout(rect=(0, 0.02, 1, 1))
    figure.savefig(path)
    pyplot.close(figure)
    return table, met


def main():
    """Draw it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("vehicle", nargs="?", default=HERE / "heron.ini")
    parser.add_argument("-o", dest="path", default="reliability.svg")
    words = parser.parse_args()
    _, met = draw(libbrake.load(words.vehicle), words.path)
    for row, share in met.items():
        print(f"{row:20} met by {100 * share:.1f} of 100")
    print(f"{words.path} is drawn")


if __name__ == "__main__":
    main()
