"""What the README shows works as it stands there."""
import os
import pathlib
import re
import shlex
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", ROOT / "build"))


def test_the_caution_stands_before_the_first_command():
    assert README.index("A calculation is not an approval") < README.index("    make ")


def test_there_are_two_commands_before_the_first_heading():
    opening = README.split("\n## ")[0]
    commands = re.findall(r"^    (.+)$", opening, re.MULTILINE)
    assert [command.split()[0] for command in commands] == ["make", "make"]
    assert commands[1] == "make deps check"
    assert commands[0].endswith("build/stopmargin check examples/heron.ini")


def test_the_c_example_is_the_one_that_is_tried():
    """tests/install/test_example.py compiles and runs it."""
    shown = re.search(r"```c\n(.*?)```", README, re.DOTALL).group(1)
    assert shown == (ROOT / "examples" / "check.c").read_text(encoding="utf-8")
