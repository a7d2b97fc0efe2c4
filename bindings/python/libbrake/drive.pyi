import os
from collections.abc import Mapping
from typing import Any, Optional, Union

from libbrake.answers import Answer
from libbrake.arrays import Values
from libbrake.duty import Amounts

# A path, or arrays by name.
Log = Union[str, os.PathLike[str], Mapping[str, Values]]

def read(log: Log) -> tuple[bytes, str]: ...
def drivelog(
    vehicle: Any, log: Log, columns: Optional[str], nominal: Optional[Amounts], load: str
) -> Answer: ...
