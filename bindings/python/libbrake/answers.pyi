# SPDX-License-Identifier: MIT
from typing import Any

from libbrake.arrays import Array
from libbrake.study import Progress
from libbrake.tree import Named
from libbrake.vehicle import Vehicle

class Rows(list[Any]):
    def column(self, name: str) -> Array: ...
    def to_pandas(self) -> Any: ...

class Answer(Named):
    def to_dict(self) -> dict[str, Any]: ...

class Plan(Answer):
    text: str
    html: str

def compare(
    before: Vehicle,
    after: Vehicle,
    rules: str = "own",
    fade: bool = False,
    progress: Progress = None,
) -> Answer: ...
