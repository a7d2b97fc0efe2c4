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


def test_the_c_example_compiles_and_answers(tmp_path):
    source = re.search(r"```c\n(.*?)```", README, re.DOTALL).group(1)
    (tmp_path / "example.c").write_text(source, encoding="utf-8")
    # The sanitizers of the library's build must be in the program too.
    flags = shlex.split(os.environ.get("INSTRUMENT", ""))
    subprocess.run(
        ["cc", "-std=c11", *flags, "-I", ROOT / "libbrake/include", tmp_path / "example.c",
         BUILD / "libbrake.a", "-lm", "-o", tmp_path / "example"],
        check=True,
    )  # fmt: skip
    run = subprocess.run([tmp_path / "example"], capture_output=True, text=True, check=True)
    # 2 x 0.38 x (8 - 0.05) MPa x 0.95 x 3619.1 mm2 x 126 mm
    assert run.stdout == "2617 N*m at 80 bar\n"
