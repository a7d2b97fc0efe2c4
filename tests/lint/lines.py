# SPDX-License-Identifier: MIT
"""Lines of C, headers and Python: no wider than a page. Tables that are laid out by hand stand
between the marks that keep the formatter off."""
import re

from lint import source

WIDTH = 100  # as in .editorconfig
_BY_HAND = re.compile(
    r"/\* clang-format off \*/.*?/\* clang-format on \*/|# fmt: off\n.*?# fmt: on\n", re.DOTALL
)
_MARK = "  # fmt: skip"


def _blank(match):
    return re.sub(r"[^\n]", "", match.group())


def findings_in(shown, text):
    """Findings in one file."""
    for number, line in enumerate(_BY_HAND.sub(_blank, text).split("\n"), 1):
        if len(line.removesuffix(_MARK)) > WIDTH:
            yield f"{shown}:{number}: {len(line)} columns; at most {WIDTH}"


def _written(kinds):
    """Files of some kinds, none of them made."""
    for folder in ("libbrake", "tests", "bindings"):
        for path in sorted((source.ROOT / folder).rglob("*")):
            if path.suffix in kinds:
                yield path


def in_c():
    """Files that the formatter formats."""
    return list(_written({".c", ".h"}))


def findings():
    """Findings in all of them."""
    for path in _written({".c", ".h", ".py", ".pyi", ".i"}):
        yield from findings_in(source.name(path), path.read_text(encoding="utf-8"))
