# SPDX-License-Identifier: MIT
"""Words of the command line and names of files cannot steer the terminal that shows them."""
import re
import shutil

import pytest

from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")
# A colour, a title of the window, an override and an isolate of direction (Unicode Standard Annex
# 9), a control of one letter, a carriage return, a new line, a tab, a broken letter.
NASTY = "\x1b[31m\x1b]0;x\x07\u202e\u2066\u061c\x9b31m\r\n\t\udcff"
STEERS = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]")


def assert_plain(text):
    """Text that a terminal shows as it is: UTF-8, and nothing that steers."""
    assert not STEERS.search(text.decode())


@pytest.mark.parametrize(
    "words",
    [
        (NASTY,),
        ("check", NASTY),
        ("check", HERON, NASTY),
        ("check", "--" + NASTY),
        ("check", HERON, "--set", NASTY),
        ("check", HERON, "--set", NASTY + "=1"),
        ("check", HERON, "--set", "vehicle.mass=" + NASTY),
        ("check", HERON, "--rules", NASTY),
        ("compare", HERON, NASTY),
        ("explain", NASTY),
        ("heat", HERON, "--load", NASTY),
        ("heat", HERON, "--stop", NASTY),
        ("heat", HERON, "--snubs", NASTY),
        ("heat", HERON, "--cycle", NASTY),
        ("spread", HERON, "--shape", NASTY),
        ("sweep", HERON, "--axis", NASTY),
        ("sweep", HERON, "--axis", "vehicle.mass=" + NASTY),
        ("sweep", HERON, "--axis", "vehicle.mass=1t:2t:1t", "--out", NASTY),
        ("size", HERON, "--by", NASTY, "--for", "all"),
        ("size", HERON, "--by", "pedal.ratio", "--for", NASTY),
        ("size", HERON, "--by", "pedal.ratio", "--for", "all", "--within", NASTY),
        ("drivelog", HERON, NASTY),
        ("drivelog", HERON, str(plain.ROOT / "examples/heron-drive.csv"), "--columns", NASTY),
        ("drivelog", HERON, str(plain.ROOT / "examples/heron-drive.csv"), "--nominal", NASTY),
        ("report", HERON, "-o", "/nonexistent/" + NASTY),
        ("shakedown", HERON, "-o", "/nonexistent/" + NASTY),
    ],
    ids=lambda words: " ".join(words)
    .replace(str(plain.ROOT), "")
    .encode("ascii", "replace")
    .decode(),
)
def test_a_refused_word_does_not_steer_the_terminal(words):
    done = plain.run(*words)
    assert (done.returncode in (2, 4), done.stdout) == (True, b"")
    assert_plain(done.stderr)
    assert done.stderr.count(b"\n") <= 2  # a line, and where help is


def test_the_name_of_a_file_does_not_steer_whoever_reads_the_report(tmp_path):
    name = tmp_path / NASTY.replace("/", "")
    shutil.copy(plain.without_heat("heron.ini"), name)
    words = ("report", str(name), "--before", str(name), "-o", "-")
    assert_plain(plain.run(*words, "--text").stdout)
    assert_plain(plain.run(*words).stdout)
