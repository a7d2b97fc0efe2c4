# SPDX-License-Identifier: MIT
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


# ---- the short file ------------------------------------------------------------------------------

# What a tape, a scale, a catalogue and the plate gave, by line: of an invented vehicle.
MEASURED = {
    "first_registered": "1996",
    "roof_height": "72 in",
    "wheelbase": "8 ft 10 in",
    "vehicle.rated_mass": "5400 lbs",
    "front_axle": "2350 lb",
    "rear_axle": "1950 lb",
    "marking": "33x10.50R15",
    "wheel_mass": "75 lb",
    "pistons": "2 X 1 3/4 in",
    "effective_radius": '4.7"',
    "diameter": "10 in",
    "cylinder_diameter": "7/8 in",
    "ratio": "4.2:1",
    "diaphragm_diameter": "9 in",
    "bore": "15/16 in",
    "piston_diameter": "1.1 in",
}

BRAKES = [(front, rear) for front in ("disc", "drum") for rear in ("disc", "drum")]
ASSIST = ["none", "vacuum", "hydraulic"]


def short(front, rear, *more):
    done = plain.run("new", "--front", front, "--rear", rear, *more)
    assert done.returncode == 0, done.stderr.decode()
    return done.stdout.decode()


def filled(text, measured=None):
    """The file with what was measured in place of the dots, and how many lines were typed."""
    measured = MEASURED if measured is None else measured
    section, typed, lines = "", 0, []
    for line in text.splitlines():
        name = line.partition("=")[0].strip()
        section = line.strip("[]") if line.startswith("[") else section
        value = measured.get(f"{section}.{name}", measured.get(name))
        if value is not None and "= ..." in line:
            line = f"{name} = {value}"
            typed += 1
        lines.append(line)
    return "\n".join(lines) + "\n", typed


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("assist", ASSIST)
@pytest.mark.parametrize("front, rear", BRAKES)
def test_a_short_file_has_at_most_60_lines_each_of_them_explained(front, rear, assist, units):
    text = short(front, rear, "--assist", assist, "--units", units, "--country", "us")
    lines = text.splitlines()
    assert len(lines) <= 60
    assert all(len(line) <= 100 for line in lines)
    values = [line for line in lines if " = " in line]
    assert all(" ; " in line and line.partition(" ; ")[2].strip() for line in values)
    assert "country            = US" in text
    assert (" in " in text and " mm " not in text) == (units == "us")
    assert ("[rear.drum]" in text) == (rear == "drum")
    assert ("diaphragm_diameter" in text) == (assist == "vacuum")
    assert ("piston_diameter" in text) == (assist == "hydraulic")
    assert ("vacuum " in text) == (assist == "vacuum")


@pytest.mark.parametrize("assist", ASSIST)
@pytest.mark.parametrize("front, rear", BRAKES)
def test_from_an_empty_folder_15_lines_give_a_first_verdict(front, rear, assist):
    """Given only what completion asks for, the rest of the short file left as it is."""
    text, typed = filled(short(front, rear, "--assist", assist, "--units", "us", "--country", "us"))
    assert typed <= 15
    report = plain.check(text, "--rules", "us")
    assert report["summary"] and report["criteria"]


HEAT = {
    "rotor_mass": "15 lb",
    "rotor_diameter": "11.6 in",
    "drum_mass": "18 lb",
    "width": "2.5 in",
}


@pytest.mark.parametrize("front, rear", BRAKES)
def test_what_a_short_file_asks_for_is_enough_for_heat_and_each_of_it_is_needed(front, rear):
    """Given what is needed for heat too, the first screen misses nothing of it, and names each line
    that was left out."""
    start = short(front, rear, "--units", "us", "--country", "us")
    parts = {"rotor_mass", "rotor_diameter"} if "disc" in (front, rear) else set()
    parts |= {"drum_mass", "width"} if "drum" in (front, rear) else set()
    for left_out in (None, *parts):
        measured = {**MEASURED, **{k: v for k, v in HEAT.items() if k != left_out}}
        done = plain.run("check", "/dev/stdin", given=filled(start, measured)[0])
        measure = done.stdout.decode().partition("\nMeasure")[2].partition("\n  falls")[0]
        told = " ".join(measure.split())
        assert ("heat cannot be said without" in told) == (left_out is not None), told
        assert left_out is None or f".{left_out}" in told


@pytest.mark.parametrize("assist", ASSIST)
@pytest.mark.parametrize("front, rear", BRAKES)
def test_on_the_way_there_every_refusal_says_which_lines_to_write(front, rear, assist):
    """Given the lines typed one after the other, each refusal names lines that stand in the file
    with dots, and the last of them is the last that is missing."""
    start = short(front, rear, "--assist", assist, "--units", "us", "--country", "us")
    known = {}
    for name, value in MEASURED.items():
        text, _ = filled(start, known)
        done = plain.run("check", "/dev/stdin", given=text)
        known[name] = value
        if done.returncode != 2:
            continue
        said = done.stderr.decode()
        assert " is missing" in said, said
        also = said.partition("Also missing: ")[2].strip().split(", ")
        first = said.partition("Write ")[2].partition(":")[0].split(" and ")
        for path in (part for part in also + first if part):
            line = path.rpartition(".")[2]
            assert f"\n{line} " in text, (path, said)


def test_a_short_file_wants_both_axles_and_no_other_file(tmp_path):
    for words, says in (
        (["--front", "disc"], "--front disc|drum --rear disc|drum"),
        (["--units", "us"], "--front disc|drum --rear disc|drum"),
        (["--front", "disc", "--rear", "disc", "mine.ini"], "leave out 'mine.ini'"),
        (["--front", "discs", "--rear", "disc"], "did you mean disc?"),
    ):
        done = plain.run("new", *words, folder=tmp_path)
        assert done.returncode == 2 and says in done.stderr.decode(), done.stderr.decode()
    done = plain.run("new", "--front", "disc", "--rear", "disc", "--country", "USA")
    assert done.returncode == 2 and "vehicle.country: got 'USA'" in done.stderr.decode()
    assert done.stdout == b""
