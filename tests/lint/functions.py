# SPDX-License-Identifier: MIT
"""Functions are short and take few arguments."""
import re
import statistics

from lint import headers, source

MOST_LINES = 60
MOST_ARGUMENTS = 6
MOST_MEDIAN = 12

_HEAD = re.compile(r"(\w+)\s*\((.*)\)\s*\Z", re.DOTALL)


def defined(text):
    """Functions that a text defines, as (name, line, lines, code lines, arguments).

    Lines run from the first of the declaration to the closing brace; code lines are those of them
    that hold more than a comment.
    """
    code = source.code_only(text)
    # A line that holds only a string is code all the same.
    counted = re.sub(r"/\*.*?\*/|//[^\n]*", lambda m: re.sub(r"[^\n]", " ", m.group()), text,
                     flags=re.DOTALL)
    for start, end in source.top_level(code):
        head, brace, _ = code[start:end].partition("{")
        found = _HEAD.search(head)
        if not (brace and found):
            continue
        start += len(head) - len(head.lstrip())
        first, last = source.line_of(code, start), source.line_of(code, end - 1)
        lines = counted.splitlines()[first - 1 : last]
        yield (
            found[1],
            first,
            len(lines),
            sum(1 for line in lines if line.strip()),
            len(source.split_arguments(found[2])),
        )


def findings_in(text, shown):
    """Findings in the text of one file."""
    for name, line, lines, _, arguments in defined(text):
        if lines > MOST_LINES:
            yield f"{shown}:{line}: {name} has {lines} lines, more than {MOST_LINES}"
        if arguments > MOST_ARGUMENTS:
            yield f"{shown}:{line}: {name} takes {arguments} arguments, more than {MOST_ARGUMENTS}"


def sizes():
    """Median and largest number of code lines of a function, and how many functions there are."""
    counts = [
        code for path in source.sources() for _, _, _, code, _ in defined(path.read_text())
    ]
    return (statistics.median(counts), max(counts), len(counts)) if counts else (0, 0, 0)


def findings():
    """Findings in all files of the library and the command."""
    for path in source.sources():
        yield from findings_in(path.read_text(), source.name(path))
    for header in sorted(source.INCLUDE.glob("*.h")):
        text = header.read_text()
        for offset, name, _, arguments in headers.functions(text):
            if len(arguments) > MOST_ARGUMENTS:
                where = f"{source.name(header)}:{source.line_of(text, offset)}"
                yield f"{where}: {name} takes {len(arguments)} arguments"
    median, _, _ = sizes()
    if median > MOST_MEDIAN:
        yield f"libbrake: the median function has {median} code lines, more than {MOST_MEDIAN}"
