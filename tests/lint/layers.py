# SPDX-License-Identifier: MIT
"""A layer of the library uses only itself and the layers before it."""
import re

from lint import source

ORDER = ["model", "vehicle", "criteria", "study", "file", "answer", "command"]

_HEADERS = {
    "model": "status constants tyre load pedal disc drum parking balance stop tow heat convection"
    " thermal fit friction braking version",
    "vehicle": "units vehicle knowledge catalogue system curves results evaluate rig",
    "criteria": "criteria warnings",
    "study": "tolerance conformance measuring repair assessment before duty fade output watch"
    " distribution spread samples sweep heats gradient roots size drivelog cooldown shakedown"
    " compare identify",
    "file": "file log",
    # brake.h includes all the others, so only what may use them all may include it.
    "answer": "document answer report paper brake",
}
LAYER_OF_HEADER = {
    header: layer for layer, headers in _HEADERS.items() for header in headers.split()
}
# Headers of physics: each of their functions names its source.
SOURCED = set(_HEADERS["model"].split()) - {"status", "constants", "version"}

_INCLUDE = re.compile(r'^[ \t]*#[ \t]*include[ \t]*"([^"]+)"', re.MULTILINE)


def layer_of(path):
    """Layer of a file of the library; None for a public header that is not in the table."""
    if path.parent == source.INCLUDE:
        return LAYER_OF_HEADER.get(path.stem)
    return path.relative_to(source.LIBRARY).parts[0]


def _included(path, target):
    """The file that an include in quotes stands for; None when there is none."""
    for folder in (path.parent, source.LIBRARY, source.INCLUDE.parent):
        if (folder / target).is_file():
            return (folder / target).resolve()
    return None


def findings_in(path, text):
    """Findings in one file, whose text is given."""
    shown, own = source.name(path), layer_of(path)
    if own not in ORDER:
        yield f"{shown}: belongs to no layer; add it to the table in tests/lint/layers.py"
        return
    for include in _INCLUDE.finditer(text):
        where = f"{shown}:{source.line_of(text, include.start())}: includes {include.group(1)}"
        target = _included(path, include.group(1))
        if target is None:
            yield f"{where}, which is not there"
        elif layer_of(target) not in ORDER:
            yield f"{where}, which belongs to no layer"
        elif ORDER.index(layer_of(target)) > ORDER.index(own):
            yield f"{where} of the later layer {layer_of(target)}"
        elif path.parent == source.INCLUDE and target.parent != source.INCLUDE:
            yield f"{where}, a private header, in a public one"


def findings():
    """Findings in all files of the library and the command."""
    for path in source.sources():
        yield from findings_in(path, path.read_text())
