# SPDX-License-Identifier: MIT
"""A file that a released version took is taken by this one, line by line, as the same values."""
import json

import pytest

from file import released
from lint import versions

FOLDERS = sorted(released.FOLDER.iterdir())
FILES = [path for folder in FOLDERS for path in sorted(folder.glob("*.ini"))]


def test_this_version_is_kept_too():
    assert versions.stated() in {folder.name for folder in FOLDERS}
    assert all(list(folder.glob("*.ini")) for folder in FOLDERS)


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_a_file_of_then_gives_the_same_values(path):
    then = json.loads((path.parent / "read.json").read_text(encoding="utf-8"))[path.name]
    now = released.read(path)
    assert len(then) > 30
    for name, (value, origin) in then.items():
        expected = pytest.approx(value, rel=1e-12) if isinstance(value, float) else value
        assert now[name] == [expected, origin], name


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_no_line_of_then_is_gone(folder):
    then = set((folder / "lines.txt").read_text(encoding="utf-8").splitlines())
    assert len(then) > 200
    assert then <= set(released.lines())
