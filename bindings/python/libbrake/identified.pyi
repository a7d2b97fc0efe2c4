# SPDX-License-Identifier: MIT
from collections.abc import Iterable, Sequence
from typing import Any, Optional, Union

from libbrake.arrays import Array
from libbrake.drive import Log
from libbrake.vehicle import Vehicle

class Identified:
    vehicle: Vehicle
    lines: tuple[str, ...]
    units: tuple[str, ...]
    value: Array
    half: Array
    before: Array
    half_before: Array
    covariance: Any
    correlation: Any
    learnt: Array
    shares: Array
    combinations: Any
    condition: float
    stops: int
    forces: int
    effective: float
    word: str
    likely: float
    about: dict[str, Any]
    caution: str
    def __init__(self, vehicle: Vehicle, lines: dict[str, str], room: Sequence[Array]) -> None: ...
    def tolerances(self) -> Vehicle: ...
    def to_pandas(self) -> Any: ...
    def to_xarray(self) -> Any: ...

def identify(
    vehicle: Vehicle,
    logs: Union[Log, Iterable[Log]],
    lines: Union[str, Sequence[str]],
    load: Union[str, Sequence[Optional[str]], None] = None,
    columns: Optional[str] = None,
) -> Identified: ...
