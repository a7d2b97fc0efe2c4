#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""One study over many machines, by Dask distributed: a sweep of lines, or of fade on descents.

    distributed_sweep.py [--study sweep|fade] [--scheduler tcp://host:8786] [--vehicle heron.ini]
                         [-o sweep.csv]

Without --scheduler the workers are processes of this machine. Results are written as they come, a
block a line group, and no more blocks are given out than keep the workers busy: memory does not
grow with the study. A worker that is lost costs nothing but the block that it was at, which another
takes. Started again with the same output, it goes on where it was; the output of another
vehicle is left alone.

A calculation is not an approval: road brakes must be checked by a qualified inspector.
"""
import argparse
import collections
import csv
import hashlib
import itertools
import math
import os
import pathlib
import typing

import libbrake

HERE = pathlib.Path(__file__).resolve().parent
AHEAD = 4  # blocks that a worker has waiting


def even(low, high, count):
    """Numbers in equal steps."""
    return [low + (high - low) * i / (count - 1) for i in range(count)]


def swept(vehicle, axes, out):
    """A sweep of lines."""
    return vehicle.sweep(axes, out=out)


def faded(vehicle, axes, out):
    """Descents of 4 km, parked below."""
    return vehicle.heat.over(axes, descent=("6 %", "4 km", "50 km/h"), out=out, threads=1)


class Study(typing.NamedTuple):
    """What is asked: a block has one value of `first`, and every combination of the others."""

    first: str
    axes: dict
    out: list
    table: typing.Callable

    def head(self):
        """Names of the columns."""
        return [self.first, *self.axes, *self.out]

    def size(self):
        """Rows of a block."""
        return math.prod(map(len, self.axes.values()))


STUDIES = {
    "sweep": Study(
        "front.tyre.rollout",
        {"front.disc.pads.mu": even(0.30, 0.42, 10), "booster.gain": even(3.0, 6.0, 10),
         "vehicle.rated_mass": even(2300.0, 2600.0, 5)},
        ["full.stop.distance", "full.pedal.force_for_target", "us.135.cold"], swept),
    "fade": Study(
        "fall", {"front.disc.rotor_mass": even(7.0, 11.0, 5), "speed": even(8.0, 20.0, 4)},
        ["heat.front_face", "heat.fluid_margin", "heat.pedal_force_last"], faded),
}  # fmt: skip
FIRSTS = {"sweep": (2.2, 2.9), "fade": (0.02, 0.12)}


def block(study, vehicle, first):
    """The rows of one value: what a worker does at a time."""
    table = study.table(vehicle, {study.first: [first], **study.axes}, study.out)
    columns = [memoryview(table[name].ravel()) for name in study.out]
    corners = itertools.product([first], *study.axes.values())
    return first, [[*at, *values] for at, values in zip(corners, zip(*columns))]


def mark(study, vehicle):
    """First row of the output: it tells the vehicle and what is asked of it from any other."""
    asked = repr((libbrake.__version__, vehicle.digest(), study.head(), study.axes)).encode()
    return [f"# distributed sweep {hashlib.sha256(asked).hexdigest()}"]


def begin(path, study, vehicle):
    """The output with its head and the blocks that it has already; the last may have been cut off.

    What is not this study's own is left as it is.
    """
    rows, head = [], [mark(study, vehicle), study.head()]
    if path.exists() and path.stat().st_size:
        with open(path, newline="") as stream:
            found, *rows = csv.reader(stream)
        if found != head[0]:
            raise SystemExit(f"{path}: is not of this sweep and vehicle; give another --output")
    rows = [row for row in rows[1:] if len(row) == len(head[1])]
    firsts = collections.Counter(float(row[0]) for row in rows)
    whole = {first for first, count in firsts.items() if count == study.size()}
    aside = path.with_name(path.name + ".new")
    with open(aside, "w", newline="") as stream:
        csv.writer(stream).writerows(head + [row for row in rows if float(row[0]) in whole])
        stream.flush()
        os.fsync(stream.fileno())
    os.replace(aside, path)
    return whole


def results(client, study, vehicle, wanted):
    """Blocks in the order in which they are ready; another is given out for each that is taken."""
    from distributed import as_completed

    waiting = iter(wanted)

    def give(count):
        # A block may lose its worker; one that loses ten is at fault itself.
        return [client.submit(block, study, vehicle, first, pure=False, retries=10)
                for first in itertools.islice(waiting, count)]  # fmt: skip

    ready = as_completed(give(AHEAD * len(client.nthreads())), with_results=True)
    for future, rows in ready:
        future.release()
        yield rows
        for one in give(1):
            ready.add(one)


def run(client, study, vehicle, firsts, path, watch=print):
    """Work all blocks out, writing each when it is ready."""
    have = begin(path, study, vehicle)
    wanted = [first for first in firsts if first not in have]
    with open(path, "a", newline="") as stream:
        writer = csv.writer(stream)
        for count, (first, rows) in enumerate(results(client, study, vehicle, wanted), 1):
            writer.writerows(rows)
            stream.flush()
            watch(f"{count} of {len(wanted)} blocks; {study.first} = {first:.3f}")


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--study", choices=STUDIES, default="sweep")
    parser.add_argument("--scheduler", help="address of a Dask scheduler; else a local cluster")
    parser.add_argument("--vehicle", default=HERE / "heron.ini")
    parser.add_argument("--workers", type=int, default=2, help="of the local cluster")
    parser.add_argument("--blocks", type=int, default=16, help="values of the first axis")
    parser.add_argument("-o", "--output", type=pathlib.Path, default=pathlib.Path("sweep.csv"))
    options = parser.parse_args()
    try:
        from distributed import Client, LocalCluster
    except ImportError:
        parser.exit(3, "Dask distributed is not installed: python3-distributed of Debian, or pip\n")
    vehicle = libbrake.load(options.vehicle)
    cluster = options.scheduler or LocalCluster(
        n_workers=options.workers, threads_per_worker=1, dashboard_address=None
    )
    with Client(cluster) as client:
        firsts = even(*FIRSTS[options.study], options.blocks)
        run(client, STUDIES[options.study], vehicle, firsts, options.output)
    if not options.scheduler:
        cluster.close()
    print(libbrake.load(options.vehicle).check().caution)


if __name__ == "__main__":
    main()
