#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""What a target measured of how far the library can be trusted, kept as JSON for `make trust`.

usage: PYTHONPATH=tests python3 -m trust.record NAME --title TITLE --rests-on TEXT
           --not-covered TEXT LABEL=FIGURE...

NAME is the target's: `make mutate` writes trust/mutate.json in the build folder. Figures stand in
it by label, each with version and date; those of an earlier run that are not measured now stay.
"""
import argparse
import datetime
import json
import os
import pathlib
import subprocess

from lint import source, versions

MADE = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", source.ROOT / "build")) / "trust"


def version():
    """Of what was measured: the version's number and the commit, `+` when it was changed since."""
    command = ["git", "describe", "--always", "--exclude=*", "--dirty=+"]
    told = subprocess.run(command, cwd=source.ROOT, capture_output=True, encoding="utf-8")
    return " ".join([versions.stated(), *told.stdout.split()])


def read(path):
    """A record, or an empty one."""
    return json.loads(path.read_text(encoding="utf-8")) if path.exists() else {"figures": {}}


def write(path, record):
    """Keeps a record in a file."""
    path.parent.mkdir(parents=True, exist_ok=True)
    text = json.dumps(record, indent=1, ensure_ascii=False, sort_keys=True)
    path.write_text(f"{text}\n", encoding="utf-8")


def added(old, new):
    """The newer record, with figures of the older that it lacks."""
    return {**new, "figures": {**old["figures"], **new["figures"]}}


def record(name, title, figures, rests_on, not_covered):
    """Keeps {label: figure} of one target: short texts, as they are to be read on the page.

    rests_on: what was run, on what. not_covered: what the figures say nothing about.
    """
    today = datetime.datetime.now(datetime.timezone.utc).date()
    at = {"version": version(), "date": today.isoformat()}
    dated = {label: {"figure": figure, **at} for label, figure in figures.items()}
    new = {"title": title, "rests_on": rests_on, "not_covered": not_covered, "figures": dated}
    path = MADE / f"{name}.json"
    write(path, added(read(path), new))


def main():
    """From a shell."""
    parser = argparse.ArgumentParser()
    parser.add_argument("name")
    parser.add_argument("--title", required=True)
    parser.add_argument("--rests-on", required=True)
    parser.add_argument("--not-covered", required=True)
    parser.add_argument("figures", nargs="+", type=lambda text: text.split("=", 1))
    told = parser.parse_args()
    record(told.name, told.title, dict(told.figures), told.rests_on, told.not_covered)


if __name__ == "__main__":
    main()
