# SPDX-License-Identifier: MIT
from collections.abc import Mapping, Sequence
from typing import Any, Optional, Union

from libbrake.arrays import Values
from libbrake.fields import Section
from libbrake.grid import Cases
from libbrake.outcomes import Heated
from libbrake.study import Progress
from libbrake.table import Table
from libbrake.tree import Named

Amount = Union[float, str]
Amounts = Union[Amount, Sequence[Amount]]

def amounts(
    what: str, values: Amounts, fields: Sequence[tuple[str, str]], needed: int
) -> list[float]: ...

class Heat(Heated):
    summary: Named
    warnings: list[Named]
    caution: str
    history: Table
    def to_dict(self) -> dict[str, Any]: ...

class HeatSection(Section):
    def __call__(
        self,
        *,
        stop: Optional[Amounts] = None,
        snubs: Optional[Amounts] = None,
        descent: Optional[Amounts] = None,
        cycle: Optional[Sequence[Values]] = None,
        cool: Optional[Amounts] = None,
        load: str = "full",
        progress: Progress = None,
    ) -> Heat: ...
    def over(
        self,
        axes: Mapping[str, Sequence[Amount]],
        *,
        stop: Optional[Amounts] = None,
        snubs: Optional[Amounts] = None,
        descent: Optional[Amounts] = None,
        cycle: Optional[Sequence[Values]] = None,
        cool: Optional[Amounts] = None,
        load: str = "full",
        out: Optional[Sequence[str]] = None,
        times: Optional[Sequence[Amount]] = None,
        threads: Optional[int] = None,
        progress: Progress = None,
    ) -> Cases: ...

class Duty:
    kind: str
    points: Any
    sequence: str
    fields: dict[str, float]
    def __init__(self, vehicle: Any, given: Mapping[str, Any], cool: Any) -> None: ...
    def at_most(self) -> bool: ...
    def axis(self, name: str) -> tuple[str, str]: ...
    def numbers(self, **other: float) -> list[float]: ...
