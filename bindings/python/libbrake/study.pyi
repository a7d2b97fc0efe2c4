from collections.abc import Mapping, Sequence
from typing import Any

from libbrake.table import Table

def outputs(vehicle: Any, names: Sequence[str]) -> dict[str, float]: ...
def sweep(vehicle: Any, axes: Mapping[str, Any], out: Sequence[str]) -> Table: ...
