# SPDX-License-Identifier: MIT
"""What a study that takes long shows on a terminal, and how it is stopped. No published source: the
lines are ours; 128 + the number of the signal is POSIX's, Shell Command Language, 2.8.2."""
import os
import pty
import re
import signal
import subprocess
import time

import pytest

from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")
BEFORE = str(plain.ROOT / "examples" / "heron-before.ini")
LONG = ("spread", HERON, "--samples", "262144")


def seen_until(terminal, pattern):
    """What comes on a terminal until a pattern is in it."""
    text = b""
    while not re.search(pattern, text):
        text += os.read(terminal, 4096)
    return text


def test_a_long_study_says_on_a_terminal_how_far_it_is_and_ends_when_it_is_told_to():
    terminal, end = pty.openpty()
    with subprocess.Popen(
        [plain.PROGRAM, *LONG], stdout=subprocess.PIPE, stderr=end
    ) as run:
        os.close(end)
        text = seen_until(terminal, rb"left +")
        run.send_signal(signal.SIGINT)
        out = run.stdout.read()
    os.close(terminal)
    assert re.search(rb"[\d.]+ % of [\d.e+]+ samples, [\d.e+]+ a second, .* left", text)
    assert run.returncode == 128 + signal.SIGINT
    assert out == b""


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_a_study_that_is_stopped_prints_no_part_of_an_answer(number):
    terminal, end = pty.openpty()
    with subprocess.Popen(
        [plain.PROGRAM, *LONG, "--json"], stdout=subprocess.PIPE, stderr=end
    ) as run:
        os.close(end)
        seen_until(terminal, rb"left +")  # it is well under way
        run.send_signal(number)
        out = run.stdout.read()
    os.close(terminal)
    assert run.returncode == 128 + number
    assert out == b""


@pytest.mark.parametrize(
    "words",
    [
        ("compare", BEFORE, HERON),
        (
            "size",
            HERON,
            "--by",
            "vehicle.mass",
            "--for",
            "us.135.cold",
            "--within",
            "1500kg,2500kg",
        ),
        ("spread", HERON, "--samples", "1024"),
    ],
    ids=lambda words: words[0],
)
def test_a_short_study_says_nothing_of_how_far_it_is(words):
    terminal, end = pty.openpty()
    begun = time.monotonic()
    done = subprocess.run([plain.PROGRAM, *words], stdout=subprocess.PIPE, stderr=end)
    lasted = time.monotonic() - begun  # a second or more under other tools: then a line is right
    os.write(end, b"nothing more")
    os.close(end)
    text = seen_until(terminal, rb"nothing more")
    os.close(terminal)
    assert text == b"nothing more" or lasted > 1.0
    assert done.returncode in (0, 1, 3)
