# SPDX-License-Identifier: MIT
import os
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Optional, Union

from libbrake.answers import Answer, Plan
from libbrake.arrays import Values
from libbrake.check import Check
from libbrake.drive import Log
from libbrake.duty import Amounts
from libbrake.fields import Given
from libbrake.gradient import Gradient
from libbrake.report import Day, Report
from libbrake.sections import Sections
from libbrake.grid import Cases
from libbrake.study import Progress
from libbrake.table import Table

class Vehicle(Sections):
    def __init__(self, sheet: Union[bytes, bytearray]) -> None:
        ...

    def set(self, lines: Mapping[str, Given]) -> None: ...

    def get(self, path: str) -> Any:
        ...

    def known(self) -> dict[str, dict[str, Any]]:
        ...

    def to_text(self) -> str:
        ...

    def learn(self, log: Log, columns: Optional[str] = None) -> None:
        ...

    def save(self, path: Union[str, os.PathLike[str]]) -> None: ...
    def digest(self) -> str: ...
    def check(self, rules: str = "own", before: Optional["Vehicle"] = None) -> Check:
        ...

    def outputs(self, names: Union[str, Sequence[str]]) -> dict[str, float]:
        ...

    def sweep(
        self,
        axes: Mapping[str, Union[Values, Sequence[str]]],
        out: Union[str, Sequence[str]],
        threads: Optional[int] = None,
        progress: Progress = None,
    ) -> Cases: ...
    def cases(
        self,
        lines: Mapping[str, Union[Values, Sequence[str]]],
        out: Union[str, Sequence[str]],
        threads: Optional[int] = None,
        progress: Progress = None,
    ) -> Cases: ...
    def samples(
        self,
        samples: int = 16384,
        out: Union[str, Sequence[str]] = (),
        rules: str = "own",
        seed: int = 1,
        shape: Union[str, dict[str, str]] = "normal",
        progress: Progress = None,
    ) -> Table: ...
    def curves(
        self,
        pedal_force: Optional[Union[Values, Sequence[str]]] = None,
        deceleration: Optional[Union[Values, Sequence[str]]] = None,
        load: str = "full",
        failure: str = "intact",
    ) -> Table: ...
    def gradient(
        self, outputs: Union[str, Sequence[str]], lines: Union[str, Sequence[str]]
    ) -> Gradient: ...
    def spread(
        self,
        samples: int = 16384,
        rules: str = "own",
        seed: int = 1,
        shape: Union[str, dict[str, str]] = "normal",
        fade: bool = False,
        progress: Progress = None,
    ) -> Answer: ...
    def size(
        self,
        by: Union[str, Mapping[str, Any], Sequence[str]],
        target: Union[str, Sequence[str]],
        within: Optional[Sequence[Union[float, str]]] = None,
        rules: str = "own",
        before: Optional[Vehicle] = None,
        progress: Progress = None,
    ) -> Answer: ...
    def take_parts(
        self, parts: Union[str, os.PathLike[str], Mapping[str, Sequence[Union[float, str]]], None]
    ) -> None: ...
    def cooldown(self, log: Log, columns: Optional[str] = None) -> Answer: ...
    def drivelog(
        self,
        log: Log,
        columns: Optional[str] = None,
        nominal: Optional[Amounts] = None,
        load: Optional[str] = None,
        grade: Optional[Amounts] = None,
        lag: Optional[Amounts] = None,
        gauge: Optional[Amounts] = None,
    ) -> Answer: ...
    def shakedown(self, load: str = "empty", despite: Union[str, Iterable[str]] = ()) -> Plan: ...
    def report(
        self,
        before: Optional[Vehicle] = None,
        load: str = "full",
        rules: str = "own",
        drivelog: Optional[Log] = None,
        columns: Optional[str] = None,
        driven: Optional[str] = None,
        date: Day = None,
        file: Optional[str] = None,
        before_file: Optional[str] = None,
    ) -> Report: ...
    def copy(self) -> Vehicle: ...

def load(path: Union[str, os.PathLike[str]]) -> Vehicle: ...
def loads(text: Union[str, bytes]) -> Vehicle: ...
