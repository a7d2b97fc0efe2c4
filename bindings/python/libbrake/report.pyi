# SPDX-License-Identifier: MIT
import datetime
from typing import Any, Optional, Union

from libbrake.drive import Log

Day = Union[str, datetime.date, None]

class Report:
    text: str
    html: str

def report(
    vehicle: Any,
    before: Any,
    names: tuple[Optional[str], Optional[str]],
    drive: tuple[Optional[Log], Optional[str], str],
    rules: str,
    load: str,
    date: Day,
) -> Report: ...
