# SPDX-License-Identifier: MIT
"""What is told of the verbs comes from the lists by which they read their words."""
import os
import pathlib
import re
import shutil
import subprocess

import pytest

from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")
CAUTION = (
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a"
    " qualified inspector before the vehicle is driven on the road."
)
VERBS = [
    "new", "check", "compare", "size", "spread", "sweep", "heat", "drivelog", "shakedown", "report",
    "explain", "help",
]  # fmt: skip


def told(*words):
    done = plain.run(*words)
    assert (done.returncode, done.stderr) == (0, b""), words
    return done.stdout.decode()


def flat(text):
    return " ".join(text.split())


def accepted(verb):
    """Options that the verb's own reader takes: it lists them, and the one of all verbs behind
    them, when it is given another."""
    complaint = plain.run(verb, "--no-such-option-at-all").stderr.decode().splitlines()[0]
    found = re.fullmatch(r"stopmargin: unknown option '.*?'; accepts (.*)", complaint)
    *names, last = found[1].split(", ")
    assert last == "--help"
    return names


def helped(verb):
    """Options that begin a line of its help, those of every verb left out."""
    names = re.findall(r"^  (-[-\w]*)", told("help", verb), re.MULTILINE)
    assert names[-2:] == ["-h", "--"]
    return names[:-2]


# ---- a verb --------------------------------------------------------------------------------------


def test_the_list_names_every_verb_and_no_other():
    assert re.findall(r"^  (\w+) .*\S  +\S", told("help"), re.MULTILINE) == VERBS


@pytest.mark.parametrize("verb", VERBS)
def test_the_help_of_a_verb_has_the_options_that_it_takes_and_no_other(verb):
    assert helped(verb) == accepted(verb)


@pytest.mark.parametrize("verb", VERBS)
def test_a_verb_is_called_with_its_options_and_no_other(verb):
    usage = flat(told("help", verb)).partition(" Exit status:")[0].partition("Usage: ")[2]
    (line,) = [flat(one) for one in re.split(r"\n(?=stopmargin)", told("help", "--usage"))
               if one.split()[1] == verb]  # fmt: skip
    assert usage.startswith(line)
    assert set(re.findall(r"(?<![\w-])--?[a-z]+", line)) == set(accepted(verb))


@pytest.mark.parametrize("verb", VERBS)
def test_every_way_to_ask_gives_the_same_help_of_that_verb_alone(verb):
    """Given help asked for in any way, then it is that of the verb, with what it does, each option
    in words, what its status says and the caution in a line, in 80 columns."""
    text = told("help", verb)
    for words in ([verb, "--help"], [verb, "-h"], [verb, "no such file", "--wrong", "--help"]):
        assert told(*words) == text
    assert text.startswith(f"Usage: stopmargin {verb} ")
    assert re.search(r"^Exit status: 0\b", text, re.MULTILINE)
    assert text.endswith(
        "CAUTION: a calculation is not an approval; an inspector must check the brakes.\n"
    )
    assert max(map(len, text.splitlines())) <= 80
    rows = re.split(r"\n(?=  \S)", text.partition("\n\nExit status")[0].split("\n\n", 2)[2])
    for row in rows:
        assert re.search(r"\S(?:  +|\n +)\S", row.strip()), f"nothing is told of {row}"


@pytest.mark.parametrize("words", [("help",), ("--help",), ("-h",)])
def test_the_short_list_ends_with_the_whole_caution(words):
    text = told(*words)
    assert flat(text).endswith("CAUTION: " + CAUTION)
    first = "A first hour: `stopmargin new --front disc --rear drum --country at -o mine.ini`"
    assert first in flat(text)
    assert "4 the machine failed" in flat(text)
    assert max(map(len, text.splitlines())) <= 80


def test_the_version_has_two_names():
    assert told("-V") == told("--version")


@pytest.mark.parametrize("verb", ["check", "spread", "heat", "report"])
def test_an_option_without_help_does_not_compile(verb, tmp_path):
    """Given a row that stops short of its help, when it is built, then the compiler refuses it; the
    same file as it is, is taken."""
    tree = tmp_path / "tree"
    shutil.copytree(plain.ROOT / "libbrake", tree / "libbrake")
    shutil.copy(plain.ROOT / "Makefile", tree)
    calm = {name: value for name, value in os.environ.items() if not name.startswith("MAKE")}
    object_file = f"b/libbrake/command/{verb}.o"

    def compiles():
        done = subprocess.run(
            ["make", "BUILD=b", object_file], cwd=tree, env=calm, capture_output=True
        )
        return done.returncode == 0, done.stderr.decode()

    source = tree / "libbrake" / "command" / f"{verb}.c"
    assert compiles()[0]
    text = source.read_text()
    shorter = re.sub(r"(offsetof\(struct options, set\)),\s*words_help_set\}", r"\1}", text)
    assert shorter != text
    source.write_text(shorter)
    good, why = compiles()
    assert not good and "missing-field-initializers" in why


# ---- what is made of the same lists --------------------------------------------------------------


def page():
    """The manual page as it is read."""
    source = told("help", "--man")
    done = subprocess.run(["man", "--warnings=w", "-l", "-"], input=source, text=True,
                          capture_output=True,
                          env={**os.environ, "MANWIDTH": "78", "LC_ALL": "C",
                               "MANROFFOPT": "-c"})  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    return source, flat(re.sub(r".\x08", "", done.stdout).replace("- ", "-"))


def test_the_manual_page_holds_every_option_of_every_verb():
    source, text = page()
    parts = re.split(r"^\.SS ", source, flags=re.MULTILINE)[1:]
    assert [part.split("\n")[0] for part in parts] == VERBS
    for verb, part in zip(VERBS, parts):
        names = re.findall(r"^\.TP\n\\fB(\S+?)\\fR", part, re.MULTILINE)
        assert [name.replace("\\-", "-") for name in names] == accepted(verb)
    assert "Local codes rule" in text and "EXIT STATUS" in text and "A FIRST HOUR" in text


def completed(*words):
    """What bash offers for the last of the words."""
    script = told("help", "--bash") + (
        'COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _stopmargin; printf "%s\\n" "${COMPREPLY[@]}"\n'
    )
    done = subprocess.run(
        ["bash", "-c", script, "bash", "stopmargin", *words], capture_output=True, text=True
    )
    assert (done.returncode, done.stderr) == (0, "")
    return done.stdout.split()


@pytest.mark.parametrize("verb", VERBS)
def test_bash_completes_the_options_of_a_verb(verb):
    assert completed(verb, "-") == [*accepted(verb), "--help"]


def test_bash_completes_verbs_and_the_words_of_a_choice():
    assert completed("") == VERBS
    assert completed("help", "sh") == ["shakedown"]
    assert completed("check", HERON, "--rules", "u") == ["us", "un"]
    assert completed("heat", HERON, "--load", "") == ["empty", "full"]
    assert completed("check", "") == []


# ---- what was meant ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "words, meant",
    [
        (("chekc",), "check"),
        (("help", "shakdown"), "shakedown"),
        (("check", HERON, "--jsn"), "--json"),
        (("check", HERON, "-json"), "--json"),
        (("check", HERON, "--rules", "ux"), "us"),
        (("heat", HERON, "--load", "ful"), "full"),
        (("report", HERON, "--driven", "emty"), "empty"),
        (("spread", HERON, "--shape", "normall"), "normal"),
        (("spread", HERON, "--shape", "vehicle.mas=normal"), "vehicle.mass"),
        (("check", HERON, "--set", "vehicle.wheelbas=2 m"), "vehicle.wheelbase"),
        (("check", HERON, "--set", "frnt.tyre.rollout=2 m"), "front.tyre.rollout"),
        (("check", HERON, "--set", "front.tyre.rollout=2000 mmm"), "mm"),
        (("check", HERON, "--set", "vehicle.mass=2000 kq"), "kg"),
        (("explain", "vehicle.wheelbas"), "vehicle.wheelbase"),
        (("explain", "full.stop.distanse"), "full.stop.distance"),
        (("sweep", HERON, "--axis", "vehicle.mas=1t,2t"), "vehicle.mass"),
        (("sweep", HERON, "--axis", "vehicle.mass=1tt,2t"), "t"),
        (("sweep", HERON, "--axis", "vehicle.mass=1t,2t", "--out", "us.135.colt"), "us.135.cold"),
        (("size", HERON, "--by", "vehicle.mas", "--for", "all"), "vehicle.mass"),
        (("size", HERON, "--by", "vehicle.mass", "--for", "us.135.colt"), "us.135.cold"),
    ],
    ids=" ".join,
)  # fmt: skip
def test_a_slip_gets_the_word_that_was_meant(words, meant):
    done = plain.run(*words)
    assert (done.returncode, done.stdout) == (2, b"")
    assert re.search(rf"did you mean {re.escape(meant)}\?", done.stderr.decode())


def test_the_option_that_was_given_is_named():
    """Given a wrong load case for --driven, then --driven is complained of: it was --load."""
    done = plain.run("report", HERON, "--driven", "laden", "--text")
    assert done.stderr.startswith(b"stopmargin: --driven 'laden'; accepts empty, full\n")


@pytest.mark.parametrize("words", [("--colour",), ("--zz",), ("--rules", "japan")], ids=" ".join)
def test_what_is_near_to_nothing_gets_no_guess(words):
    done = plain.run("check", HERON, *words)
    assert done.returncode == 2
    assert b"did you mean" not in done.stderr and b"; accepts " in done.stderr


def test_a_section_asked_for_tells_its_lines():
    done = plain.run("explain", "load.full")
    assert done.returncode == 0
    names = re.findall(rb"^  (\w+) ", done.stdout.partition(b"Its lines")[2], re.MULTILINE)
    assert names == [b"line", b"mass", b"behind_front_axle", b"height", b"front_axle", b"rear_axle"]


# ---- -- and - ------------------------------------------------------------------------------------


def test_behind_two_dashes_nothing_is_an_option(tmp_path):
    """Given files whose names look like options, then they are read behind --, and not before."""
    for name in ("--json", "-h", "--"):
        (tmp_path / name).write_text(plain.VEHICLE)
        there = plain.run("check", "--set", "vehicle.name=X", "--", name, folder=tmp_path)
        assert there.stdout.startswith(b"X\n"), there.stderr
    assert b"wants a vehicle file" in plain.run("check", "--json", folder=tmp_path).stderr
    assert b"wants a vehicle file" in plain.run("check", "--").stderr


VEHICLE_VERBS = {
    "check": ("check", "-"),
    "compare, before": ("compare", "-", HERON),
    "compare, after": ("compare", HERON, "-"),
    "size": ("size", "-", "--by", "vehicle.mass", "--for", "us.135.cold"),
    "spread": ("spread", "-", "--samples", "1024"),
    "sweep": ("sweep", "-", "--axis", "vehicle.mass=1600kg,1700kg"),
    "heat": ("heat", "-", "--stop", "100km/h"),
    "drivelog": ("drivelog", "-", str(plain.ROOT / "examples" / "heron-drive.csv")),
    "shakedown": ("shakedown", "-", "--text"),
    "report": ("report", "-", "--text"),
    "report, before": ("report", HERON, "--before", "-", "--text"),
    "new": ("new", "-"),
}


@pytest.mark.parametrize("words", VEHICLE_VERBS.values(), ids=VEHICLE_VERBS)
def test_a_dash_is_the_vehicle_on_standard_input(words, tmp_path, monkeypatch):
    """Given the same bytes as file and as standard input, then the answers differ in nothing but
    the name that a report tells of its file."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "0")
    given = pathlib.Path(HERON).read_bytes()
    (tmp_path / "v.ini").write_bytes(given)
    piped = plain.run(*words, given=given)
    named = plain.run(*["v.ini" if word == "-" else word for word in words], folder=tmp_path)
    assert piped.returncode == named.returncode and piped.stdout != b""
    assert flat(piped.stdout.decode().replace("standard input", "v.ini")) == flat(
        named.stdout.decode()
    )


@pytest.mark.parametrize("words", VEHICLE_VERBS.values(), ids=VEHICLE_VERBS)
def test_what_is_wrong_on_standard_input_is_told_by_its_name(words):
    done = plain.run(*words, given="[vehicle]\nmas = 1 kg\n")
    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr.startswith(b"standard input:2: vehicle.mas: unknown name; did you mean")


def test_a_drive_may_come_by_standard_input():
    log = (plain.ROOT / "examples" / "heron-drive.csv").read_bytes()
    piped = plain.run("drivelog", HERON, "-", given=log)
    assert (
        piped.stdout
        == plain.run("drivelog", HERON, str(plain.ROOT / "examples" / "heron-drive.csv")).stdout
    )
    wrong = plain.run("heat", HERON, "--cycle", "-", given="time\n")
    assert (wrong.returncode, wrong.stderr[:17]) == (2, b"standard input:1:")


def test_standard_input_is_one_file():
    """Given - twice, then the second is refused: it would be an empty vehicle."""
    done = plain.run("compare", "-", "-", given=plain.VEHICLE)
    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr == b"standard input: was read to its end already; - stands for one file\n"


def test_standard_input_that_is_closed_is_a_failure_of_the_machine():
    done = subprocess.run(["bash", "-c", '"$0" check - <&-', plain.PROGRAM], capture_output=True)
    assert (done.returncode, done.stderr[:31]) == (4, b"standard input: cannot be read:")


def test_what_standard_input_comes_from_is_not_written_over(tmp_path):
    file = tmp_path / "v.ini"
    file.write_text(plain.VEHICLE)
    with file.open("rb") as stream:
        done = subprocess.run(
            [plain.PROGRAM, "report", "-", "-o", file], stdin=stream, capture_output=True
        )
    assert done.returncode == 2 and b"is not written over" in done.stderr
    assert file.read_text() == plain.VEHICLE
