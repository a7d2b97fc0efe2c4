#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Lines of the vehicle told by a measured drive: what they are by the file and with the drive, and
whether the drive tells them apart.

    identify.py [VEHICLE] [LOG ...] [-o identify.svg]
"""
import argparse
import pathlib

import matplotlib
import numpy as np

import libbrake

HERE = pathlib.Path(__file__).resolve().parent
LINES = ["front.disc.pads.mu", "rear.drum.lining.mu", "booster.gain", "pedal.efficiency"]


def draw(vehicle, logs, path):
    """Draw each line before and after, over what it was; gives what was identified."""
    matplotlib.use("Agg")
    from matplotlib import pyplot

    found = libbrake.identify(vehicle, logs, LINES)
    figure, (plot, map_) = pyplot.subplots(1, 2, figsize=(10, 4))
    at = np.arange(len(LINES))
    plot.errorbar(np.ones(len(LINES)), at - 0.12, xerr=found.half_before / found.before,
                  fmt="|", color="0.6", label="by the file")  # fmt: skip
    plot.errorbar(found.value / found.before, at + 0.12, xerr=found.half / found.before,
                  fmt="o", color="black", label="with the drive")  # fmt: skip
    plot.set_yticks(at, [f"{path}\n{share:.0%} learnt" for path, share in zip(LINES, found.learnt)],
                    fontsize=8)  # fmt: skip
    plot.set_xlabel("over its value by the file; 95 of 100 within the bars")
    plot.invert_yaxis()
    plot.legend(fontsize=8, loc="upper center", bbox_to_anchor=(0.5, 1.12), ncols=2, frameon=False)
    map_.imshow(found.correlation, cmap="Greys", vmin=-1, vmax=1)
    map_.set_yticks(at, LINES, fontsize=8)
    map_.set_xticks(at, [f"{number + 1}" for number in at])
    map_.set_title(f"correlation; {found.shares[0]:.0%} of one combination learnt, "
                   f"{found.shares[1]:.0%} of a second", fontsize=8)  # fmt: skip
    for (row, column), value in np.ndenumerate(found.correlation):
        map_.text(column, row, f"{value:.2f}", ha="center", va="center", fontsize=8,
                  color="white" if value > 0.4 else "black")  # fmt: skip
    figure.text(0.01, 0.01, found.caution, fontsize=6)
    figure.tight_layout(rect=(0, 0.03, 1, 1))
    figure.savefig(path)
    pyplot.close(figure)
    return found


def main():
    """Draw it, and tell."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("vehicle", nargs="?", default=HERE / "heron.ini")
    parser.add_argument("logs", nargs="*", default=[HERE / "heron-drive.csv"])
    parser.add_argument("-o", "--output", default="identify.svg")
    options = parser.parse_args()
    print(draw(libbrake.load(options.vehicle), options.logs, options.output))
    print(f"{options.output} is drawn.")


if __name__ == "__main__":
    main()
