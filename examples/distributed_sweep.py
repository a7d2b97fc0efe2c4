#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""One sweep over many machines, by Dask distributed.

    distributed_sweep.py [--scheduler tcp://host:8786] [--vehicle heron.ini] [-o sweep.csv]

Without --scheduler the workers are processes of this machine. Results are written as they come, a
block a line group; a worker that is lost costs nothing but the block that it was at, which another
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
import pickle

import libbrake

HERE = pathlib.Path(__file__).resolve().parent
OUT = ["full.stop.distance", "full.pedal.force_for_target", "us.135.cold"]
ROLLOUT = "front.tyre.rollout"


def even(low, high, count):
    """Numbers in equal steps."""
    return [low + (high - low) * i / (count - 1) for i in range(count)]


AXES = {
    "front.disc.pads.mu": even(0.30, 0.42, 10),
    "booster.gain": even(3.0, 6.0, 10),
    "vehicle.rated_mass": even(2300.0, 2600.0, 5),
}


def block(vehicle, rollout):
    """The rows of one rolling circumference: what a worker does at a time."""
    table = vehicle.sweep({ROLLOUT: [rollout], **AXES}, out=OUT)
    columns = [memoryview(table[name].ravel()) for name in OUT]
    corners = itertools.product([rollout], *AXES.values())
    return rollout, [[*at, *values] for at, values in zip(corners, zip(*columns))]


def mark(vehicle):
    """First row of the output: it tells the vehicle and what is asked of it from any other."""
    asked = repr((libbrake.__version__, AXES, OUT)).encode()
    digest = hashlib.sha256(pickle.dumps(vehicle) + asked).hexdigest()
    return [f"# distributed sweep {digest}"]


def begin(path, head):
    """The output with its head and the blocks that it has already; the last may have been cut off.

    What is not this sweep's own is left as it is.
    """
    rows = []
    if path.exists() and path.stat().st_size:
        with open(path, newline="") as stream:
            found, *rows = csv.reader(stream)
        if found != head[0]:
            raise SystemExit(f"{path}: is not of this sweep and vehicle; give another --output")
    rows = [row for row in rows[1:] if len(row) == len(head[1])]
    size = math.prod(map(len, AXES.values()))
    firsts = collections.Counter(float(row[0]) for row in rows)
    whole = {first for first, count in firsts.items() if count == size}
    aside = path.with_name(path.name + ".new")
    with open(aside, "w", newline="") as stream:
        csv.writer(stream).writerows(head + [row for row in rows if float(row[0]) in whole])
        stream.flush()
        os.fsync(stream.fileno())
    os.replace(aside, path)
    return whole


def run(client, vehicle, rollouts, path, watch=print):
    """Sweep, writing blocks in the order in which they are ready."""
    from distributed import as_completed

    have = begin(path, [mark(vehicle), [ROLLOUT, *AXES, *OUT]])
    wanted = [rollout for rollout in rollouts if rollout not in have]
    # A block may lose its worker; one that loses ten is at fault itself.
    futures = client.map(block, [vehicle] * len(wanted), wanted, pure=False, retries=10)
    with open(path, "a", newline="") as stream:
        writer = csv.writer(stream)
        for count, (future, (rollout, rows)) in enumerate(
            as_completed(futures, with_results=True), 1
        ):
            writer.writerows(rows)
            stream.flush()
            future.release()
            watch(f"{count} of {len(wanted)} blocks; {ROLLOUT} = {rollout:.3f} m")


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--scheduler", help="address of a Dask scheduler; else a local cluster")
    parser.add_argument("--vehicle", default=HERE / "heron.ini")
    parser.add_argument("--workers", type=int, default=2, help="of the local cluster")
    parser.add_argument("--blocks", type=int, default=16, help="rolling circumferences")
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
        run(client, vehicle, even(2.2, 2.9, options.blocks), options.output)
    if not options.scheduler:
        cluster.close()
    print(libbrake.load(options.vehicle).check().caution)


if __name__ == "__main__":
    main()
