# SPDX-License-Identifier: MIT
from typing import Any, Union

from libbrake.fields import Section
from libbrake.parts import PartList
from libbrake.vehicle import Vehicle

FORM: int

def kept(vehicle: Vehicle) -> dict[str, Any]: ...
def restore(form: int, state: dict[str, Any], kind: type[Vehicle] = ...) -> Vehicle: ...
def section(vehicle: Vehicle, path: str) -> Union[Section, PartList[Any]]: ...
