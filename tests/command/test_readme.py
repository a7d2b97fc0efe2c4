# SPDX-License-Identifier: MIT
"""What the README shows works as it stands there."""
import pathlib
import re

ROOT = pathlib.Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_caution_stands_before_the_first_command():
    assert README.index("A calculation is not an approval") < README.index("    make ")


def test_there_are_two_commands_before_the_first_heading():
    opening = README.split("\n## ")[0]
    commands = re.findall(r"^    (.+)$", opening, re.MULTILINE)
    assert [command.split()[0] for command in commands] == ["make", "make"]
    assert commands[1] == "make deps check"
    assert commands[0].endswith("build/stopmargin check examples/heron.ini")


def test_it_is_short():
    """One screen to begin with, one to go on: the rest is the guide's."""
    assert len(README.splitlines()) < 120


def test_both_pictures_are_there():
    """That of the first screen is the answer itself: tests/reference holds it to the command."""
    assert "<!-- run: stopmargin check heron.ini -->" in README
    (paper,) = re.findall(r'<img src="([^"]+)"', README)
    assert (ROOT / paper).stat().st_size > 10_000
