# SPDX-License-Identifier: MIT
"""The page in the other browsers of Debian, from a file, without a network."""
import os
import pathlib
import re
import subprocess

import pytest

from engines import engines

ROOT = pathlib.Path(__file__).parents[2]
PAGE = pathlib.Path(os.environ["LIBBRAKE_BUILD"]) / "stopmargin.html"
IBEX = ROOT / "tests" / "vehicles" / "ibex-33s.ini"


@pytest.fixture(scope="module", params=[engines.Firefox, engines.WebKit],
                ids=["Firefox", "WebKit"])
def page(request):
    lacking = engines.missing(request.param)
    if lacking:
        pytest.skip(f"not installed: {', '.join(lacking)}")
    browser = request.param()
    yield engines.Page(browser, PAGE)
    browser.close()


def test_it_begins_with_the_caution_and_without_the_notice(page):
    assert "CAUTION: a calculation is not an approval" in page.answer()
    assert page.js("document.getElementById('asleep').hidden")


def test_the_answer_with_heat_is_the_command_s(page):
    page.give("#open", IBEX)
    page.wait("/Verdict|So far/.test(document.getElementById('answer').textContent)")
    page.wait("!/eat is being/.test(document.getElementById('answer').textContent)")
    native = subprocess.run([os.environ["STOPMARGIN"], "check", IBEX], text=True,
                            capture_output=True).stdout
    told = " ".join(native.split())
    for label, after in (("Verdict", "(?:Yardstick|Limits)"), ("Limits", "Do"), ("Do", "Measure")):
        assert re.search(rf"\b{label} (.*?) {after}\b", told)[1] in page.answer(), label


def test_a_refusal_stands_beside_its_field(page):
    page.type("[data-path='vehicle.wheelbase'] [data-part=number]", "2")
    assert "accepts" in page.js(
        "document.querySelector(\"[data-path='vehicle.wheelbase'] .said\").textContent")
    page.tap("#undo")
    assert "accepts" not in page.answer()


def test_the_report_comes_to_be_printed(page):
    page.tap("[data-view=paper]")
    page.tap("[data-paper=report]")
    page.wait("!document.getElementById('sheet').hidden")
    assert page.js("document.getElementById('sheet').srcdoc.length") > 50_000


def test_it_keeps_the_file_or_says_that_it_does_not(page):
    said = page.js("document.getElementById('kept').textContent")
    kept = page.js("localStorage.getItem('stopmargin.file') !== null")
    assert ("Kept" in said) == kept
