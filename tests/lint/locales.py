# SPDX-License-Identifier: MIT
"""Text and numbers never follow the locale of the process: only one file calls what does."""
import re

from lint import source

# Formatting and reading by the C library, and what tells or turns its locale; but not the attribute
# format(printf, 1, 2), by which the compiler checks arguments of our own.
_FOLLOWS = re.compile(
    r"(?<!format\()\b(v?(?:f|s|sn|d|as|w|fw|sw)?printf|v?[fs]?w?scanf|(?:str|wcs)to(?:d|f|ld)|atof"
    r"|strfrom[dfl]|setlocale|newlocale|uselocale|localeconv)\b"
)
ALLOWED = source.LIBRARY / "vehicle" / "text.c"


def findings_in(path, text):
    """Findings in one file, whose text is given."""
    if path == ALLOWED:
        return
    for name in _FOLLOWS.finditer(source.code_only(text)):
        line = source.line_of(text, name.start())
        yield (
            f"{source.name(path)}:{line}: {name[1]} follows the locale of the process; "
            f"vehicle/text.h has what does not"
        )


def findings():
    """Findings in all files of the library and the command."""
    for path in source.sources():
        yield from findings_in(path, path.read_text())
