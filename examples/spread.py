#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""How sure the verdicts are, and what to measure better: the uncertainty of every line at once.

    spread.py [VEHICLE] [-o spread.svg]
"""
import argparse
import pathlib

import matplotlib

import libbrake

HERE = pathlib.Path(__file__).resolve().parent
SHOWN = 12


def draw(vehicle, path, samples=16384):
    """Draw the margins of the requirements that are met least often; gives the spread."""
    matplotlib.use("Agg")
    from matplotlib import pyplot

    found = vehicle.spread(samples=samples)
    judged = [one for one in found.criteria if one.judged and one.percentiles.p50 is not None]
    rows = sorted(judged, key=lambda one: one.probability)[:SHOWN]
    figure, plot = pyplot.subplots(figsize=(9, 0.45 * len(rows) + 1.5))
    for at, one in enumerate(reversed(rows)):
        share = one.percentiles
        plot.plot([share.p05, share.p95], [at, at], color="0.6", linewidth=3)
        plot.plot([share.p25, share.p75], [at, at], color="0.2", linewidth=7)
        plot.plot(share.p50, at, "|", color="white")
        plot.text(share.p95, at, f"  met in {100 * one.probability:.0f} %", va="center", fontsize=7)
    plot.set_yticks(range(len(rows)), [one.title for one in reversed(rows)], fontsize=7)
    plot.axvline(0.0, color="black", linestyle="--")
    plot.set_xlabel("margin: below 0 the requirement is not met; 90 and 50 of 100 within the bars")
    plot.set_title(f"{vehicle.vehicle.name}: measure next {found.summary.measure_next}", fontsize=9)
    figure.text(0.01, 0.01, found.caution, fontsize=6)
    figure.tight_layout(rect=(0, 0.04, 1, 1))
    figure.savefig(path)
    pyplot.close(figure)
    return found


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("vehicle", nargs="?", default=HERE / "heron.ini")
    parser.add_argument("-o", "--output", default="spread.svg")
    options = parser.parse_args()
    print(draw(libbrake.load(options.vehicle), options.output))
    print(f"{options.output} is drawn.")


if __name__ == "__main__":
    main()
