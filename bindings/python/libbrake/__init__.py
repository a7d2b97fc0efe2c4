# SPDX-License-Identifier: MIT
"""Are the brakes of a modified road vehicle still adequate?

    v = libbrake.load("heron.ini")
    v.front.tyre.rollout = "99 in"
    print(v.check())

Each subject of the model is a module: `libbrake.disc.torque(...)`, with numbers or arrays.
`libbrake.lines()`, `results()` and `criteria()` list what can be set and asked, each with its
meaning; `libbrake.explain("full.stop.distance")` tells one.

CAUTION. A calculation is not an approval. Local codes rule, and road brakes must be checked by a
qualified inspector before the vehicle is driven on the road.
"""
from libbrake._core import library_version as _version
from libbrake.made import SUBJECTS

__version__ = _version()
_ELSEWHERE = {"Vehicle": "vehicle", "load": "vehicle", "loads": "vehicle",
              "compare": "answers", "identify": "identified", "fleet": "fleets",
              "explain": "meaning", "lines": "meaning", "results": "meaning", "criteria": "meaning"}  # fmt: skip


def __getattr__(name):
    """Modules and functions when they are first asked for: importing the package is quick."""
    from importlib import import_module

    if name in (*SUBJECTS, "errors"):
        return import_module(f"libbrake.{name}")
    if name in _ELSEWHERE:
        return getattr(import_module(f"libbrake.{_ELSEWHERE[name]}"), name)
    raise AttributeError(f"module 'libbrake' has no attribute '{name}'")


def __dir__():
    return sorted(["__version__", "errors", *SUBJECTS, *_ELSEWHERE])
