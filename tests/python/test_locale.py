# SPDX-License-Identifier: MIT
"""A program may have set a locale with a decimal comma: the package reads and writes points."""
import os
import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = """
import locale, sys
if sys.argv[1] != "C":
    locale.setlocale(locale.LC_ALL, sys.argv[1])
    assert locale.localeconv()["decimal_point"] == ","
import libbrake
before, vehicle = libbrake.load("examples/heron-before.ini"), libbrake.load("examples/heron.ini")
vehicle.front.tyre.rollout = "2.70 m +- 0.5 %"
vehicle.vehicle.mass = 1990.5
for answer in (vehicle.check(), vehicle.check().to_dict(), libbrake.compare(before, vehicle),
               vehicle.heat(stop="100.5 km/h")):
    print(answer)
paper = vehicle.report(before=before, date="2026-01-01")
print(paper.html, paper.text)
"""


def said(folder, name):
    path = os.pathsep.join(sys.path)
    environment = {**os.environ, "LOCPATH": str(folder), "PYTHONPATH": path}
    run = subprocess.run([sys.executable, "-c", PROGRAM, name], cwd=ROOT, env=environment,
                         capture_output=True, text=True)  # fmt: skip
    assert run.returncode == 0, run.stderr
    return run.stdout


def test_a_decimal_comma_of_the_program_changes_nothing(tmp_path):
    """Given a locale with a decimal comma, when a vehicle is loaded, changed, checked, compared and
    reported, then every word is that of the locale C."""
    subprocess.run(["localedef", "-c", "-f", "UTF-8", "-i", ROOT / "tests/locale/comma",
                    tmp_path / "comma"], stderr=subprocess.DEVNULL)  # fmt: skip
    assert said(tmp_path, "comma") == said(tmp_path, "C")
