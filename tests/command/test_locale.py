# SPDX-License-Identifier: MIT
"""The command never follows a locale."""
import os
import subprocess

from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")


def test_a_decimal_comma_of_the_session_changes_nothing(tmp_path):
    """Given a session with a decimal comma, when a vehicle is checked, then no byte differs."""
    source = plain.ROOT / "tests" / "locale" / "comma"
    subprocess.run(["localedef", "-c", "-f", "UTF-8", "-i", source, tmp_path / "comma"],
                   stderr=subprocess.DEVNULL)  # fmt: skip
    session = {**os.environ, "LOCPATH": str(tmp_path), "LC_ALL": "comma"}
    half = subprocess.run(["/usr/bin/printf", "%.1f", "0,5"], env=session, capture_output=True)
    assert half.stdout == b"0,5"  # the session has its comma
    for verb in (("check", HERON), ("check", HERON, "--json"), ("report", HERON, "-o", "-"),
                 ("new", HERON), ("heat", HERON, "--stop", "100.5km/h", "--csv")):  # fmt: skip
        there = subprocess.run([plain.PROGRAM, *verb], env=session, capture_output=True)
        here = plain.run(*verb)
        assert (there.returncode, there.stdout) == (here.returncode, here.stdout)
