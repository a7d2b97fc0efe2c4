from typing import Any, Optional

from libbrake.outcomes import Outcomes
from libbrake.tree import Named

def rules_bits(rules: str) -> int: ...
def is_full(load: str, name: str = "load") -> bool: ...

class Check(Outcomes):
    criteria: list[Named]
    warnings: list[Named]
    summary: Named
    changes: Optional[Named]
    inspector: list[str]
    caution: str
    def to_dict(self) -> dict[str, Any]: ...
