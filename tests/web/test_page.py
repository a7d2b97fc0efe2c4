"""The page in a browser, filled in as a person does, against what the command says."""
import os
import pathlib
import re
import subprocess

import pytest

from browser import chromium

ROOT = pathlib.Path(__file__).parents[2]
AFTERNOON = ROOT / "tests" / "vehicles" / "minimal-afternoon.ini"
HERON, BEFORE = ROOT / "examples" / "heron.ini", ROOT / "examples" / "heron-before.ini"
PHONE = (390, 844)
MOST_BYTES = 900_000


def check(text):
    """The first screen of the command, its lines joined."""
    done = subprocess.run(
        [os.environ["STOPMARGIN"], "check", "-"], input=text, capture_output=True, text=True
    )
    return " ".join(done.stdout.split())


def sentence(screen, label, following):
    return re.search(rf"{label} (.*?) {following}", screen).group(1)


def lines_of(path):
    """(path, number, unit or whole value) of a file."""
    section = ""
    for line in path.read_text().split("\n"):
        if head := re.match(r"\[(.*)\]", line):
            section = head[1]
        elif row := re.match(r"(\w+)\s*=\s*(.*?)\s*(?: ;.*)?$", line):
            yield f"{section}.{row[1]}", row[2]


def fill(page, path, value):
    """One field: a number and its unit, what is tapped, or words."""
    node = f"[data-path='{path}']"
    kind = page.js(f"document.querySelector(\"{node}\")?.dataset.kind ?? ''")
    parts = re.match(r"([\d.]+) (\S+?)(?: \+- (.*?))?(?:, (\w+))?$", value)
    assert kind, path
    if kind == "choice":
        page.choose(f"{node} select", value.split(",")[0])
    elif kind == "real" and parts and not parts[3]:
        page.choose(f"{node} [data-part=unit]", parts[2])
        page.type(f"{node} [data-part=number]", parts[1])
        if parts[4]:
            page.tap(f"{node} [value={parts[4]}]")
    else:
        page.type(f"{node} input", value)


def test_one_file_of_900_kB_that_asks_for_nothing(page):
    page_file = pathlib.Path(os.environ["LIBBRAKE_BUILD"]) / "stopmargin.html"
    said, fetched = page.open(PHONE)
    assert page_file.stat().st_size <= MOST_BYTES
    assert not said
    assert fetched == [page_file.as_uri()]


def test_a_form_filled_in_on_a_phone_gets_the_command_s_verdict(page):
    page.open(PHONE)
    page.tap("#kind button")
    page.wait("!document.getElementById('measure').hidden")
    for path, value in lines_of(AFTERNOON):
        fill(page, path, value)
    assert "Verdict" in page.answer() or "So far" in page.answer(), page.answer() + page.file()
    page.wait("!/eat is being/.test(document.getElementById('answer').textContent)")
    native = check(page.file())
    assert sentence(page.answer(), "Verdict", "Limits") == sentence(
        re.sub(r"Yardstick .*? Limits", "Limits", native), "Verdict", "Limits"
    ) or sentence(native, "Verdict", "Yardstick") in page.answer()


def test_a_refusal_stands_beside_its_field_and_goes_when_it_is_mended(page):
    page.open(PHONE)
    page.give("#open", AFTERNOON)
    page.wait("/Verdict|So far/.test(document.getElementById('answer').textContent)")
    node = "[data-path='vehicle.wheelbase']"
    said = f"document.querySelector(\"{node} .said\").textContent"
    page.type(f"{node} [data-part=number]", "2")
    assert "accepts" in page.js(said)
    assert "vehicle.wheelbase" in page.answer()
    page.tap("#undo")
    assert page.js(said) == ""


def test_heat_is_being_worked_out_and_can_be_stopped(page):
    page.open(chromium.DESKTOP)
    page.give("#stock", BEFORE)
    page.give("#open", HERON)
    page.wait("/Verdict/.test(document.getElementById('answer').textContent)")
    assert "Heat is being worked out." in page.answer()
    assert "Changes" in page.answer()
    page.tap("[data-heat=stop]")
    assert "Heat was stopped." in page.answer()


def test_the_next_measurement_leads_to_its_field(page):
    page.tap("#answer [data-jump='rear.drum.piston_travel']")
    focused = page.js("document.activeElement.closest('.field').dataset.path")
    assert focused == "rear.drum.piston_travel"


def test_a_change_is_tried_with_the_pedal_force_curve_and_taken_back(page):
    page.tap("[data-view=try]")
    before = page.answer()
    page.type("[data-try='master.bore'] input", "20")
    page.wait("document.querySelector('#curve svg') !== null")
    assert page.answer() != before
    assert not re.search(r"bore += 20 mm", page.file())
    page.tap("#back")
    assert page.js("document.querySelector(\"[data-try='master.bore'] input\").value") != "20"


def test_the_log_of_a_drive_comes_as_a_sheet_to_print(page):
    page.tap("[data-view=paper]")
    page.give("#log", ROOT / "examples" / "heron-drive.csv")
    page.wait("!document.getElementById('sheet').hidden")
    page.wait("document.getElementById('sheet').contentDocument?.body?.innerText.length > 500")


def test_the_report_is_the_command_s_own_sheet(page):
    page.tap("[data-view=begin]")
    page.give("#open", AFTERNOON)
    page.wait("/first_registered/.test(document.getElementById('answer').textContent)")
    page.tap("[data-view=paper]")
    page.tap("[data-paper=report]")
    page.wait("!document.getElementById('sheet').hidden")
    page.wait("/my truck/.test(document.getElementById('sheet').contentDocument?.title)")
    assert page.js("document.getElementById('print').hidden") is False


SIZES = {"phone": PHONE, "desk": chromium.DESKTOP, "200 %": (195, 422)}


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
def test_every_view_has_the_caution_and_fits_the_window(page, size):
    page.open(size)
    page.give("#open", AFTERNOON)
    page.wait("!document.getElementById('answer').hidden")
    for view in ("begin", "measure", "try", "paper"):
        page.tap(f"[data-view={view}]")
        assert "CAUTION: a calculation is not an approval" in page.answer()
        assert page.js("document.documentElement.scrollWidth <= innerWidth"), view


def test_whatever_can_be_worked_has_a_name(page):
    unnamed = page.js(
        "[...document.querySelectorAll('input, select, button, iframe')].filter(node =>"
        " !(node.labels?.length || node.textContent.trim() || node.title ||"
        " node.getAttribute('aria-label'))).map(node => node.outerHTML.slice(0, 80))"
    )
    assert unnamed == []
