# SPDX-License-Identifier: MIT
"""The lists of lines, results, requirements and warnings say what the library holds: every limit,
default and interval of it stands in them, so that none changes unseen."""
import pytest

from reference import __main__ as writer


@pytest.mark.parametrize(
    ("path", "text"), writer.lists(), ids=lambda value: getattr(value, "stem", "")
)
def test_a_list_is_what_make_reference_writes(path, text):
    assert path.read_text(encoding="utf-8") == text, f"{path.name}: make reference writes it anew"
