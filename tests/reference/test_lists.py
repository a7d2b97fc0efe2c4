# SPDX-License-Identifier: MIT
"""The lists of lines, results, requirements and warnings say what the library holds: every limit,
default and interval of it stands in them, so that none changes unseen."""
import re

import pytest

from file import plain
from reference import __main__ as writer


@pytest.mark.parametrize(
    ("path", "text"), writer.lists(), ids=lambda value: getattr(value, "stem", "")
)
def test_a_list_is_what_make_reference_writes(path, text):
    assert path.read_text(encoding="utf-8") == text, f"{path.name}: make reference writes it anew"


def test_no_line_of_the_catalogue_is_left_out():
    """A meaning that ends in a colon where the screen does is no head of a group."""
    rows = (plain.ROOT / "libbrake/vehicle/sections.c").read_text(encoding="utf-8")
    listed = (plain.ROOT / "reference/lines.md").read_text(encoding="utf-8")
    names = {name for _, name in re.findall(r"LINE\((\w+), (\w+)\)", rows)} - {"member"}
    assert len(names) > 100
    assert [name for name in sorted(names) if f".{name}`" not in listed] == []
