# SPDX-License-Identifier: MIT
from collections.abc import Callable, Sequence
from typing import Any, Optional

Dress = Optional[Callable[[Any], Any]]

def taken_off(np: Any, values: Sequence[Any]) -> tuple[Sequence[Any], Dress]: ...
