# SPDX-License-Identifier: MIT
from collections.abc import Sequence
from typing import Any, Union

# numpy.ndarray where NumPy is installed, else array.array.
Array = Any
Values = Union[float, Sequence[float], Array]
