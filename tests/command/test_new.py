"""`stopmargin new`: a file to start from, and a file written again in which nothing of the user's
is lost."""
import json
import pathlib
import subprocess

import pytest

from file import plain

EXAMPLES = [pathlib.Path(path) for path in plain.EXAMPLES]


def checked(path):
    return json.loads(plain.run("check", str(path), "--json").stdout)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_every_line_of_the_user_stays_as_it_is(tmp_path, example):
    """Given a file with comments and units of its own, each of its lines stands there again, in
    order."""
    again = tmp_path / "again.ini"
    assert plain.run("new", str(example), "-o", str(again)).returncode == 0
    lines = iter(again.read_text().splitlines())
    for line in example.read_text().splitlines():
        assert line in lines, line
    assert checked(again) == checked(example)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_what_was_explained_is_not_explained_again(tmp_path, example):
    once, twice = tmp_path / "once.ini", tmp_path / "twice.ini"
    plain.run("new", str(example), "-o", str(once))
    plain.run("new", str(once), "-o", str(twice))
    assert twice.read_bytes() == once.read_bytes()


def test_every_line_of_the_catalogue_is_there_or_explained(tmp_path):
    again = plain.run("new", str(EXAMPLES[0])).stdout.decode()
    names = [
        line.split(" = ")[0].strip("; ")
        for line in plain.run("new").stdout.decode().splitlines()
        if line.startswith("; ")
        and " = " in line
        and not line.startswith(("; A line is", "; Vehicle file."))
    ]
    assert len(names) > 150
    for name in names:
        assert f"{name} " in again, name


def test_a_file_may_be_written_over_itself(tmp_path):
    path = tmp_path / "mine.ini"
    path.write_bytes(EXAMPLES[0].read_bytes())
    assert plain.run("new", str(path), "-o", str(path)).returncode == 0
    assert path.read_bytes().startswith(EXAMPLES[0].read_bytes().splitlines(True)[0])
    assert checked(path) == checked(EXAMPLES[0])


def test_a_file_that_the_shell_emptied_is_told_of(tmp_path):
    """Given `stopmargin new mine.ini > mine.ini`, the words say what the shell did and name -o."""
    path = tmp_path / "mine.ini"
    path.write_bytes(EXAMPLES[0].read_bytes())
    with open(path, "wb") as emptied:
        done = subprocess.run(
            [plain.PROGRAM, "new", str(path)], stdout=emptied, stderr=subprocess.PIPE
        )
    said = done.stderr.decode()
    assert done.returncode == 2
    assert "the shell emptied it" in said and f"stopmargin new {path} -o {path}" in said


def test_a_wrong_file_is_refused_and_nothing_is_written(tmp_path):
    wrong, out = tmp_path / "wrong.ini", tmp_path / "out.ini"
    for text, why in (
        ("[vehicle]\nmass = soft\n", "vehicle.mass"),
        ("[vehicle]\nmass\0 = 1\n", "value 0"),
        ("", "stopmargin new"),
    ):
        wrong.write_text(text)
        done = plain.run("new", str(wrong), "-o", str(out))
        assert done.returncode == 2 and why in done.stderr.decode(), text
        assert not out.exists()
