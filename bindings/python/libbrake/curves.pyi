# SPDX-License-Identifier: MIT
from typing import Any

from libbrake.table import Table

def curves(
    vehicle: Any, pedal_force: Any, deceleration: Any, load: str, failure: str
) -> Table: ...
