# SPDX-License-Identifier: MIT
"""The lines of the vehicle file and the results as Python classes, from the library's tables."""
import re

from generator.modules import quoted

_KINDS = {"real": "Real", "choice": "Choice", "text": "Text", "pistons": "Pistons",
          "curve": "Curve"}  # fmt: skip
# Sections that can be called as well.
_BASES = {"heat": "HeatSection", "part": "PartSection"}


def _class(path):
    return "".join(word.capitalize() for word in path.replace("_", ".").split("."))


def _doc(row):
    """What a line means, its unit, range, default and how to measure it."""
    unit = f" [{row['unit'] or '-'}]" if row["kind"] == "real" else ""
    lines = [f"{row['meaning']}{unit}"]
    if row["choices"]:
        lines.append(f"accepts: {', '.join(row['choices'].split())}")
    elif row["low"] is not None and row["high"] is not None and row["kind"] == "real":
        lines.append(f"accepts: {row['low']:g} to {row['high']:g} {row['unit']}".rstrip())
    if row["fallback"] is not None and row["kind"] == "real":
        lines.append(f"default: {row['fallback']:g} {row['unit']}".rstrip())
    if row["measure"]:
        lines.append(f"measure: {row['measure']}")
    return "\n".join(lines)


def _line(row, at):
    unit = f", {row['unit']!r}" if row["kind"] in ("real", "curve") else ""
    second = f", {row['second_unit']!r}" if row["kind"] == "curve" else ""
    return f"    {row['name']} = {_KINDS[row['kind']]}({at}, {_doc(row)!r}{unit}{second})"


class Tree:
    """Sections by path, with those that only hold others."""

    def __init__(self, tables):
        self.meaning, self.rows, self.first, count = {"": "A vehicle."}, {"": []}, {"": 0}, 0
        for section in tables["sections"]:
            path = section["path"]
            for end in [at for at, letter in enumerate(path) if letter == "."]:
                self.rows.setdefault(path[:end], [])
                self.meaning.setdefault(path[:end], f"Sections of {path[:end]}.")
            self.rows[path] = [row for row in tables["quantities"] if row["section"] == path]
            self.meaning[path] = section["meaning"]
            self.first[path] = count
            count += len(self.rows[path])
        # A class must stand before the one that holds it.
        self.paths = sorted(self.rows, key=lambda path: -path.count(".") if path else 1)

    def children(self, parent):
        """Paths of the sections right under one."""
        for path in self.rows:
            above, _, name = path.rpartition(".")
            if path and above == parent:
                yield name, path


def _name(path):
    return _class(path) if path else "Sections"


def sections(tables):
    """Text of sections.py."""
    tree = Tree(tables)
    yield '"""The sections of the vehicle file. Made from the catalogue."""'
    yield "from libbrake.duty import HeatSection"
    yield "from libbrake.fields import Child, Choice, Curve, Pistons, Real, Section, Text"
    yield "from libbrake.parts import PartSection, Parts"
    for path in tree.paths:
        yield f"\n\nclass {_name(path)}({_BASES.get(path, 'Section')}):"
        yield quoted(tree.meaning[path], "    ") + "\n"
        yield "    __slots__ = ()"
        for name, below in tree.children(path):
            kind = "Parts" if below == "part" else "Child"
            yield f"    {name} = {kind}({_name(below)}, {below!r}, {tree.first.get(below, 0)})"
        for at, row in enumerate(tree.rows[path]):
            yield _line(row, at)


def sections_stub(tables):
    """Text of sections.pyi."""
    tree = Tree(tables)
    yield "from libbrake.duty import HeatSection"
    yield "from libbrake.fields import Choice, Curve, Pistons, Real, Section, Text"
    yield "from libbrake.parts import PartSection, PartList"
    for path in tree.paths:
        yield f"\nclass {_name(path)}({_BASES.get(path, 'Section')}):"
        for name, below in tree.children(path):
            kind = f"PartList[{_name(below)}]" if below == "part" else _name(below)
            yield f"    {name}: {kind}"
        for row in tree.rows[path]:
            yield f"    {row['name']}: {_KINDS[row['kind']]}"
        if not path or not (tree.rows[path] or list(tree.children(path))):
            yield "    pass"


def outcomes(tables):
    """Text of outcomes.py: what each result means."""
    yield '"""What each result means. Made from the catalogue."""'
    yield "RESULTS = {"
    for row in tables["results"]:
        said = {name: row[name] for name in ("meaning", "unit", "symbol", "section")}
        yield f"    {row['path']!r}: {said!r},"
    yield "}"


def _nodes(paths):
    """Names within names, of paths."""
    tree = {}
    for path in paths:
        node = tree
        *above, name = path.split(".")
        for word in above:
            node = node.setdefault(word, {})
        node[name] = "float"
    return tree


def outcomes_stub(tables):
    """Text of outcomes.pyi: the results of a check, and of heat, by name."""
    checked = [row["path"] for row in tables["results"] if row["evaluated"]]
    heated = [row["path"] for row in tables["results"] if row["path"].startswith("heat.")]
    yield "from typing import Any"
    yield "\nfrom libbrake.tree import Tree"
    yield "\nRESULTS: dict[str, dict[str, Any]]"
    yield from _outcome("Outcomes", _nodes(checked))
    yield from _outcome("Heated", _nodes(heated))


def _outcome(name, tree):
    for word, node in tree.items():
        if node != "float":
            yield from _outcome(name + _class(word), node)
    yield f"\nclass {name}(Tree):"
    for word, node in tree.items():
        yield f"    {word}: {node if node == 'float' else name + _class(word)}"


def made(tables, subjects, history):
    """Text of made.py: names and numbers that other modules need."""
    columns, meanings = [], {}
    for field in history:
        unit, meaning = re.match(r"\[(.*?)\]\s*(.*)", field.doc, re.DOTALL).groups()
        for axle in ("front_", "rear_") if field.length else ("",):
            columns.append((f"{axle}{field.name}", unit))
            name = columns[-1][0]
            said = f": {' '.join(meaning.split())}" if meaning else ""
            meanings[name] = name.replace("_", " ") + said
    yield '"""Names and numbers of the library. Made from its headers and tables."""'
    yield f"STATUSES = {tables['statuses']!r}"
    yield f"SUBJECTS = {subjects!r}"
    yield f"HISTORY = {columns!r}"
    yield f"HISTORY_MEANINGS = {meanings!r}"


def errors_stub(tables):
    """Text of errors.pyi."""
    yield "class Refused(ValueError):"
    for field in ("status: int", "line: int", "field: str", "text: str", "file: str"):
        yield f"    {field}"
    yield "\nclass Approximate(UserWarning): ..."
    for name in tables["statuses"]:
        if name.startswith("E_"):
            yield f"class Refused{_class(name[2:].lower())}(Refused): ..."
