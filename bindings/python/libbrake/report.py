# SPDX-License-Identifier: MIT
"""The report for inspection."""
from datetime import date as day

from libbrake import _core
from libbrake.check import fitted, is_full, rules_bits
from libbrake.errors import Refused


class Report:
    """The paper for the inspector: `html`, one page that needs no network, and `text`, the same
    without pictures. Both say what only an inspector can judge, and the caution.
    """

    def __init__(self, text, html):
        self.text, self.html = text, html

    def __eq__(self, other):
        if not isinstance(other, Report):
            return NotImplemented
        return (self.text, self.html) == (other.text, other.html)

    __hash__ = None

    def __repr__(self):
        return self.text


def _written(date):
    """A date as text; today's when it is left out."""
    if date is None:
        return str(day.today())
    if isinstance(date, (day, str)) and date:
        return str(date)
    raise TypeError(f"date: got {date!r:.60}; accepts a date, its text, or None: today")


def report(vehicle, before, names, drive, rules, load, date):
    """See Vehicle.report. `names`: of the files of both vehicles; `drive`: log, columns, load."""
    log, columns, driven = drive
    text, name = None, ""
    from libbrake.drive import as_usual, read, was_full

    full, so_driven = is_full(load), was_full(driven, "driven")

    if log is not None:
        text, name = read(log)
    words = *names, name or None, _written(date), rules_bits(rules), full
    sheets = vehicle._sheet, fitted(before, vehicle)
    try:
        return Report(*_core.report_run(*sheets, words, (text, columns, so_driven, *as_usual())))
    except Refused as refusal:
        refusal.file = name
        raise
