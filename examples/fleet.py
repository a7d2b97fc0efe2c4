#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""A table of vehicles, each checked: what they need in common and what each of them.

    fleet.py [TABLE] [-o fleet.svg] [--table fleet-checked.csv]
"""
import argparse
import pathlib

import matplotlib
import numpy as np

import libbrake

HERE = pathlib.Path(__file__).resolve().parent
ROWS = ["hazard.floor", "hazard.circuit", "hazard.rear_first", "hazard.parking", "hazard.assist"]


def draw(table, path):
    """Draw the margin of each row of each vehicle; gives the fleet."""
    matplotlib.use("Agg")
    from matplotlib import pyplot

    found = libbrake.fleet(table, out=ROWS)
    margins = np.array([found.column(row) for row in ROWS]).T
    figure, plot = pyplot.subplots(figsize=(9, 0.6 * len(found) + 2.2))
    plot.imshow(margins, cmap="Greys_r", vmin=-0.5, vmax=0.5, aspect="auto")
    for (vehicle, row), margin in np.ndenumerate(margins):
        words = "refused" if np.isnan(margin) else f"{margin:+.2f}" + (" short" if margin < 0 else "")
        plot.text(row, vehicle, words, ha="center", va="center", fontsize=8,
                  color="white" if margin < -0.1 else "black")  # fmt: skip
    plot.set_xticks(range(len(ROWS)), [libbrake.criteria()[row].title for row in ROWS],
                    fontsize=7, rotation=20, ha="right")  # fmt: skip
    plot.set_yticks(range(len(found)), found.to_pandas()["name"], fontsize=8)
    plot.set_title("Margin: above 0 the row is met at face value", fontsize=9)
    figure.text(0.01, 0.01, found.caution, fontsize=6)
    figure.tight_layout(rect=(0, 0.03, 1, 1))
    figure.savefig(path)
    pyplot.close(figure)
    return found


def main():
    """Check all, draw, write the table."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("fleet", nargs="?", default=HERE / "heron-fleet.csv")
    parser.add_argument("-o", "--output", default="fleet.svg")
    parser.add_argument("--table", default="fleet-checked.csv")
    options = parser.parse_args()
    found = draw(options.fleet, options.output)
    found.to_csv(options.table)
    print(found)
    print(f"{options.output} is drawn, {options.table} is written.")


if __name__ == "__main__":
    main()
