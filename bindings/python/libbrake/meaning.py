"""What a result means."""
from libbrake.outcomes import RESULTS
from libbrake.tree import Named


def explain(name):
    """Meaning, unit, symbol of a result, and the section of reference/method.md that says how it is
    worked out: `libbrake.explain("full.stop.distance").meaning`.
    """
    if name not in RESULTS:
        raise ValueError(f"no result {name!r}; `stopmargin explain` lists all")
    return Named(RESULTS[name])
