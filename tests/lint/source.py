# SPDX-License-Identifier: MIT
"""Reading C just well enough to measure it."""
import pathlib
import re

ROOT = pathlib.Path(__file__).resolve().parents[2]
LIBRARY = ROOT / "libbrake"
INCLUDE = LIBRARY / "include" / "brake"

_COMMENT_OR_STRING = re.compile(
    r"""/\*.*?\*/ | //[^\n]* | "(?:\\.|[^"\\\n])*" | '(?:\\.|[^'\\\n])+'""", re.DOTALL | re.VERBOSE
)
_LINKAGE = re.compile(r"^#ifdef __cplusplus\n.*?^#endif", re.MULTILINE | re.DOTALL)
_PREPROCESSOR = re.compile(r"^[ \t]*#(?:[^\n\\]|\\.)*", re.MULTILINE | re.DOTALL)


def _blank(match):
    return re.sub(r"[^\n]", " ", match.group())


def code_only(text):
    """The text with comments, strings and preprocessor lines blanked; every line stays in place."""
    for pattern in (_LINKAGE, _COMMENT_OR_STRING, _PREPROCESSOR):
        text = pattern.sub(_blank, text)
    return text


def line_of(text, offset):
    """Number of the line that an offset stands in, from 1."""
    return text.count("\n", 0, offset) + 1


def split_arguments(text):
    """The parts of an argument list; none for `void` and for nothing."""
    parts, depth = [""], 0
    for character in text:
        depth += (character in "([{") - (character in ")]}")
        if character == "," and depth == 0:
            parts.append("")
        else:
            parts[-1] += character
    parts = [" ".join(part.split()) for part in parts]
    return [] if parts in ([""], ["void"]) else parts


def top_level(code):
    """Pieces of code (as from code_only) that end with `;` or a function body, as (start, end)."""
    start, depth, closing = 0, 0, ";"
    for offset, character in enumerate(code):
        if character in "({[":
            if character == "{" and depth == 0 and code[start:offset].rstrip().endswith(")"):
                closing = "}"
            depth += 1
        elif character in ")}]":
            depth = max(0, depth - 1)
        if character == closing and depth == 0:
            yield start, offset + 1
            start, closing = offset + 1, ";"


def sources():
    """Every .c and .h file of the library and the command."""
    return sorted([*LIBRARY.rglob("*.c"), *LIBRARY.rglob("*.h")])


def name(path):
    """Path as it is shown in a finding."""
    return str(path.relative_to(ROOT)) if path.is_relative_to(ROOT) else str(path)
