# SPDX-License-Identifier: MIT
import os
from collections.abc import Mapping
from typing import Any, Optional, Union

from libbrake.answers import Answer
from libbrake.arrays import Values
from libbrake.duty import Amounts

# A path, or arrays by name.
Log = Union[str, os.PathLike[str], Mapping[str, Values]]

def read(log: Log) -> tuple[bytes, str]: ...
def learn(sheet: bytearray, log: Log, columns: Optional[str]) -> None: ...
def was_full(load: Optional[str], name: str = "load") -> int: ...
def day(
    grade: Optional[Amounts], lag: Optional[Amounts], gauge: Optional[Amounts]
) -> tuple[tuple[float, float], ...]: ...
def as_usual() -> tuple[tuple[float, float], ...]: ...
def drivelog(
    vehicle: Any,
    log: Log,
    columns: Optional[str],
    nominal: Optional[Amounts],
    load: Optional[str],
    off: tuple[Optional[Amounts], Optional[Amounts], Optional[Amounts]],
) -> Answer: ...
def cooldown(vehicle: Any, log: Log, columns: Optional[str]) -> Answer: ...
