from collections.abc import Mapping
from typing import TypeVar

from libbrake.lines import Section

T = TypeVar("T")

class PartSection(Section): ...

class PartList(Mapping[str, T]):
    def __getattr__(self, name: str) -> T: ...
