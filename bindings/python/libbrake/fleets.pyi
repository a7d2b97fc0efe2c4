# SPDX-License-Identifier: MIT
import os
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Optional, Union

from libbrake.answers import Rows
from libbrake.study import Progress
from libbrake.vehicle import Vehicle

Path = Union[str, os.PathLike[str]]
# A folder or a CSV; files and vehicles; a table by column, such as a DataFrame.
Vehicles = Union[Path, Iterable[Union[Path, Vehicle]], Mapping[str, Sequence[Any]], Any]

class Fleet(Rows):
    units: dict[str, str]
    about: dict[str, Any]
    caution: str
    def __init__(self, rows: Iterable[Any], units: Mapping[str, str]) -> None: ...
    def to_csv(self, path: Path) -> None: ...
    def to_parquet(self, path: Path) -> None: ...

def fleet(
    vehicles: Vehicles,
    out: Union[str, Sequence[str]] = (),
    check: bool = True,
    rules: str = "own",
    base: Optional[Vehicle] = None,
    threads: Optional[int] = None,
    progress: Progress = None,
) -> Fleet: ...
