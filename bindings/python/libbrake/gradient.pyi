# SPDX-License-Identifier: MIT
from typing import Any, Optional, overload

class Gradient:
    outputs: tuple[str, ...]
    lines: tuple[str, ...]
    output_units: tuple[str, ...]
    line_units: tuple[str, ...]
    value: Any
    error: Any
    kink: Any
    about: dict[str, Any]
    caution: str
    def __init__(
        self,
        outputs: dict[str, str],
        lines: dict[str, str],
        value: Any,
        error: Any,
        kink: Any,
        about: Optional[dict[str, Any]] = None,
    ) -> None: ...
    @overload
    def __getitem__(self, place: tuple[str, str]) -> float: ...
    @overload
    def __getitem__(self, place: str) -> Any: ...
    def to_pandas(self) -> Any: ...
    def to_xarray(self) -> Any: ...

def gradient(vehicle: Any, outputs: Any, lines: Any) -> Gradient: ...
