from collections.abc import Callable, Mapping, Sequence
from typing import Any, Optional

from libbrake.table import Table

def outputs(vehicle: Any, names: Sequence[str]) -> dict[str, float]: ...
def output(name: str) -> int: ...
def axis(vehicle: Any, path: str, values: Any) -> tuple[int, str, Any]: ...

Progress = Optional[Callable[[float, float], Any]]

def sweep(
    vehicle: Any, axes: Mapping[str, Any], out: Sequence[str], threads: Any, progress: Progress
) -> Table: ...
