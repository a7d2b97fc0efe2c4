from collections.abc import Mapping
from typing import Any

from libbrake.arrays import Array

class Table(Mapping[str, Array]):
    units: dict[str, str]
    axes: tuple[str, ...]
    caution: str
    def to_pandas(self) -> Any: ...
    def to_xarray(self) -> Any: ...
