# SPDX-License-Identifier: MIT
"""Vehicles and checks as HTML, for notebooks. The caution stands in both."""
from html import escape

from libbrake import _core


def _table(head, rows):
    def line(cells, tag):
        return "<tr>" + "".join(f"<{tag}>{escape(str(c))}</{tag}>" for c in cells) + "</tr>"

    return "<table>" + line(head, "th") + "".join(line(row, "td") for row in rows) + "</table>"


def _caution():
    return f"<p><b>Caution.</b> {escape(_core.caution_text())}</p>"


def vehicle(one):
    """The lines of a vehicle, those at default last."""
    rows = [(path, line["text"], line["from"]) for path, line in one.known().items()]
    rows.sort(key=lambda row: row[2] == "default")
    name = escape(one.vehicle.name or "Vehicle")
    return f"<h4>{name}</h4>{_caution()}" + _table(("line", "value", "from"), rows)


def _figure(value, unit):
    return "" if value is None else f"{value:.4g} {unit}"


def check(found):
    """The criteria that apply and the warnings."""
    rows = [
        (c.verdict, c.title, c.clause, _figure(c.value, c.unit), c.limit_is,
         _figure(c.limit, c.unit))
        for c in found.criteria
    ]  # fmt: skip
    warnings = "".join(f"<li>{escape(w.text)}</li>" for w in found.warnings)
    head = ("verdict", "requirement", "clause", "value", "", "limit")
    return f"{_caution()}{_table(head, rows)}<ul>{warnings}</ul>"
