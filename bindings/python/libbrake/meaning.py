# SPDX-License-Identifier: MIT
"""What can be set and asked, and what each means."""
import functools
import json

from libbrake import _core
from libbrake.outcomes import RESULTS
from libbrake.tree import Named


@functools.cache
def _catalogue():
    return json.loads(_core.catalogue_json())


def lines():
    """Every line of the vehicle file: `libbrake.lines()["front.tyre.rollout"].meaning`; `measure`
    says how to measure it, `low` and `high` what is accepted, in `unit`. A part that is fitted has
    those of `part`, under its name.

    >>> libbrake.lines()["vehicle.wheelbase"].unit
    'm'
    """
    return {f"{row['section']}.{row['name']}": Named(row) for row in _catalogue()["quantities"]}


def results():
    """Every result, those of heat, a drive and a comparison included, with `meaning`, `unit` and
    `section` of reference/method.md.

    >>> libbrake.results()["full.stop.distance"].unit
    'm'
    """
    return {path: Named(row) for path, row in RESULTS.items()}


def criteria():
    """Every requirement and hazard, with `title`, `clause`, and `meaning` and `unit` of what it
    measures. Restated: check each against the current text.

    >>> libbrake.criteria()["hazard.circuit"].unit
    'm/s2'
    """
    return {row["id"]: Named(row) for row in _catalogue()["criteria"]}


def explain(name):
    """Meaning, unit and more of a line, a result or a criterion:
    `libbrake.explain("full.stop.distance").meaning`.

    >>> libbrake.explain("hazard.circuit").title
    'Deceleration with either circuit failed'
    """
    for known in (results(), lines(), criteria()):
        if name in known:
            return known[name]
    raise ValueError(f"no result {name!r}, line or criterion; results() and the others list all")
