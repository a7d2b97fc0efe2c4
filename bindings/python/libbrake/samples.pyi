# SPDX-License-Identifier: MIT
from typing import Any

from libbrake.table import Table

def samples(
    vehicle: Any, count: Any, out: Any, rules: Any, seed: Any, shape: Any, progress: Any
) -> Table: ...
