# SPDX-License-Identifier: MIT
"""Vehicles as they are pickled: read by this version and by later ones."""
import zlib

from libbrake import _core
from libbrake.vehicle import Vehicle, loads

# One more when an older version cannot read what this one writes.
FORM = 1


def _without_comments(text):
    return "\n".join(line for line in text.split("\n") if line and line[0] not in ";#")


def kept(vehicle):
    """What is kept of a vehicle: its bytes for this version; for others its file, what a drive told
    of it and the sizes of its list of parts, as texts."""
    return {
        "libbrake": _core.library_version(),
        "digest": vehicle.digest(),
        "file": _without_comments(vehicle.to_text()),
        "told": _core.sheet_told(vehicle._sheet),
        "sizes": _core.sheet_sizes(vehicle._sheet),
        "bytes": zlib.compress(vehicle._sheet),
    }


def _by_bytes(state):
    """The very vehicle, None where this version lays it out in another way."""
    if state["libbrake"] != _core.library_version():
        return None
    try:
        vehicle = Vehicle(zlib.decompress(state["bytes"]))
    except (ValueError, zlib.error):
        return None
    return vehicle if vehicle.digest() == state["digest"] else None


def _by_file(state):
    """The vehicle of the texts; a number may be off by its last bit."""
    sheet = bytearray(loads(state["file"])._sheet)
    if state["sizes"]:
        _core.sheet_take_parts(state["sizes"].encode(), sheet)
    if state["told"]:
        _core.sheet_tell(state["told"].encode(), sheet)
    return Vehicle(bytes(sheet))


def restore(form, state, kind=Vehicle):
    """A vehicle that was pickled."""
    if form != FORM:
        raise ValueError(f"the vehicle was pickled in form {form} by libbrake "
                         f"{state['libbrake']}; this is {_core.library_version()}, which reads "
                         f"form {FORM}")  # fmt: skip
    return kind((_by_bytes(state) or _by_file(state))._sheet)


def section(vehicle, path):
    """A section that was pickled or copied, of its vehicle."""
    return vehicle[path]
