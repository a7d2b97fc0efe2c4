# SPDX-License-Identifier: MIT
"""The list of faults that are none: `equivalent.txt` names each by its lines and says why."""
import pathlib

LIST = pathlib.Path(__file__).with_name("equivalent.txt")


def read(text):
    """Reasons by file, line as it is and line as it would be. One entry: the file, `- ` and the
    line, `+ ` and the faulty one, then why; a blank line ends it."""
    reasons = {}
    for entry in filter(None, (block.strip() for block in text.split("\n\n"))):
        path, before, after, *why = entry.splitlines()
        if not (before.startswith("- ") and after.startswith("+ ") and why):
            raise ValueError(f"{LIST.name}: not a file, `- `, `+ ` and a reason:\n{entry}")
        reasons[path, before[2:], after[2:]] = " ".join(why)
    return reasons


def stale(reasons, root):
    """Entries whose line does not stand in its file, or so often that it is not clear which."""
    for path, before, _ in reasons:
        file = root / path
        lines = file.read_text("utf-8").splitlines() if file.exists() else []
        if list(map(str.strip, lines)).count(before) != 1:
            yield f"{path}: {before}"
