# SPDX-License-Identifier: MIT
from collections.abc import Mapping
from typing import Any

from libbrake.duty import Duty
from libbrake.grid import Cases
from libbrake.study import Progress

class Request: ...
class HeatTable(Cases): ...

def over(
    vehicle: Any,
    axes: Mapping[str, Any],
    duty: Duty,
    full: bool,
    wanted: tuple[Any, Any],
    threads: Any,
    progress: Progress,
) -> HeatTable: ...
