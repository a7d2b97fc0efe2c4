# SPDX-License-Identifier: MIT
from typing import Any, Optional

from libbrake.outcomes import Outcomes
from libbrake.tree import Named
from libbrake.vehicle import Vehicle

def rules_bits(rules: str) -> int: ...
def fitted(before: Optional["Vehicle"], after: "Vehicle") -> Optional[bytearray]: ...
def is_full(load: str, name: str = "load") -> bool: ...

class Check(Outcomes):
    criteria: list[Named]
    warnings: list[Named]
    summary: Named
    changes: Optional[Named]
    inspector: list[str]
    caution: str
    def to_dict(self) -> dict[str, Any]: ...
