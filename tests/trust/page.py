# SPDX-License-Identifier: MIT
"""reference/trust.md, from the records of the targets in reference/trust."""
from lint import source
from trust import record

FOLDER = source.ROOT / "reference" / "trust"
PAGE = source.ROOT / "reference" / "trust.md"
HEAD = """\
# What has been measured

How far the code can be trusted to do what the method page says: what was run, what came out, and
what it says nothing about. Whether a vehicle's brakes are enough is another question.

Written by `make trust` from what the targets themselves left (`reference/trust`). Each figure is of
the version and the day beside it; a `+` marks a version with changes that were not yet kept.
"""


def section(name, told):
    """What one target measured."""
    lines = [f"\n## {told['title']}\n", f"`make {name}`. {told['rests_on']}\n"]
    lines += ["| what | figure | version | date |", "| --- | --- | --- | --- |"]
    for label, row in told["figures"].items():
        lines.append(f"| {label} | {row['figure']} | {row['version']} | {row['date']} |")
    return "\n".join([*lines, f"\nNot covered: {told['not_covered']}\n"])


def records():
    """{name: record} of those that are kept."""
    return {path.stem: record.read(path) for path in sorted(FOLDER.glob("*.json"))}


def text():
    """The whole page."""
    return HEAD + "".join(section(*told) for told in records().items())
