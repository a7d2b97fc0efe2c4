# SPDX-License-Identifier: MIT
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


def stock_of(path):
    """The file of the vehicle as it was, where there is one beside it."""
    family = path.stem.split("-")[0]
    others = [path.with_name(f"{family}-{word}.ini") for word in ("before", "stock")]
    return next((other for other in others if other != path and other.exists()), None)


def first_screen(path, stock):
    """Words of the command but for the vehicle's name and what only a command line can do."""
    done = subprocess.run(
        [os.environ["STOPMARGIN"], "check", path, *(["--before", stock] if stock else [])],
        capture_output=True, text=True,
    )
    words = " ".join(done.stdout.split("\n", 1)[1].split())
    words = re.sub(r"Changes not known: name .*? FILE\. ", "", words)
    return re.sub(r": --full.*? (?=Caution )", ". ", words)


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


WINDOWS = {"phone": PHONE, "desk": chromium.DESKTOP}


@pytest.mark.parametrize("window", WINDOWS)
def test_a_person_measures_drops_a_log_prints_and_saves(page, window, tmp_path):
    page.open(WINDOWS[window])
    page.shot(f"{window}-begin")
    page.tap("#kind button")
    page.wait("!document.getElementById('measure').hidden")
    page.shot(f"{window}-new")
    for path, value in lines_of(AFTERNOON):
        fill(page, path, value)
    page.wait("!/eat is being/.test(document.getElementById('answer').textContent)")
    page.shot(f"{window}-filled")
    native = check(page.file())
    for label, following in (("Verdict", "Yardstick"), ("Limits", "Do"), ("Do", "Measure")):
        assert sentence(native, label, following) in page.answer(), label
    page.drop("main", ROOT / "examples" / "heron-drive.csv")
    page.wait(SHEET)
    page.shot(f"{window}-drive")
    page.js("document.getElementById('sheet').contentWindow.print ="
            " () => { document.body.dataset.printed = 'yes'; }")
    page.tap("#print")
    assert page.js("document.body.dataset.printed") == "yes"
    paper = page.saved("[data-save=sheet]", tmp_path, "my-truck-minimal-drive.html")
    assert "A calculation is not an approval" in paper
    page.tap("[data-view=measure]")
    assert page.saved("[data-save=file]", tmp_path, "my-truck-minimal.ini") == page.file()


SHEET = "document.getElementById('sheet').contentDocument?.body?.innerText.length > 500"


def test_whoever_says_the_word_gets_the_plan_in_spite_of_what_is_wrong(page):
    page.open(PHONE)
    page.give("#open", ROOT / "tests" / "vehicles" / "lynx-rear-heavy.ini")
    page.wait("!document.getElementById('measure').hidden")
    page.tap("[data-view=paper]")
    page.tap("[data-paper=plan]")
    page.wait("!document.getElementById('despite').hidden")
    assert "rear wheels lock first" in page.js("document.getElementById('despite').textContent")
    page.tap("#despite button")
    assert page.js("document.getElementById('sheet').hidden")
    for number in range(page.js("document.querySelectorAll('#despite input').length")):
        page.tap(f"#despite label:nth-of-type({number + 1}) input")
    page.tap("#despite button")
    page.wait(SHEET)


def test_the_stock_vehicle_is_kept_beside_and_taken_away(page):
    page.open(PHONE)
    page.give("#open", HERON)
    page.wait("document.querySelector('#answer [data-do=stock]') !== null")
    page.tap("[data-view=begin]")
    page.give("#stock", BEFORE)
    page.wait("/kept beside/.test(document.getElementById('stock-said').textContent)")
    assert "torque per need" in page.answer()
    page.tap("#stock-away")
    assert "Open the file of the vehicle as it was" in page.answer()
    page.tap("[data-heat=stop]")
    page.tap("[data-heat=again]")


def test_the_whole_answer_and_every_requirement_are_one_tap_away(page):
    page.open(PHONE)
    page.give("#open", AFTERNOON)
    page.wait("/Verdict/.test(document.getElementById('answer').textContent)")
    assert page.js("document.querySelector('#answer ul').checkVisibility()") is False
    page.tap("#whole")
    assert page.js("document.querySelector('#answer ul').checkVisibility()") is True
    page.tap("#answer [data-do=all]")
    page.wait(SHEET)


# Heat takes seconds a vehicle: `make check-page` looks at all.
SOME = [ROOT / "tests" / "vehicles" / "ibex-33s.ini"]
EVERY = [*sorted((ROOT / "examples").glob("*.ini")), *sorted(SOME[0].parent.glob("*.ini"))]
FILES = EVERY if "EVERY_VEHICLE" in os.environ else SOME


@pytest.mark.parametrize("path", FILES, ids=[path.stem for path in FILES])
def test_with_heat_the_first_screen_is_the_command_s_word_for_word(page, path):
    page.open(chromium.DESKTOP)
    stock = stock_of(path)
    if stock:
        page.give("#stock", stock)
    page.give("#open", path)
    page.wait("document.querySelector('#answer dl') && !document.querySelector('#answer > .heat')",
              seconds=300)
    assert page.first_screen() == first_screen(path, stock)


def test_a_part_and_a_section_are_added(page):
    page.open(PHONE)
    page.give("#open", AFTERNOON)
    page.wait("!document.getElementById('measure').hidden")
    page.tap(".more summary")
    page.tap("[data-add=part]")
    assert page.js("document.activeElement.id") == "part-name"
    page.type("#part-name", "Winch, front")
    page.tap("[data-add=part]")
    page.type("[data-path='part.winch_front.mass'] [data-part=number]", "80 lb")
    page.tap("[data-path='part.winch_front.mass'] [value=estimated]")
    assert "[part.winch_front]\nmass = 80 lb, estimated\n" in page.file()
    page.tap("[data-path='part.winch_front.mass'] [value=estimated]")
    assert "mass = 80 lb\n" in page.file()
    page.tap(".more summary")
    page.tap("[data-add=tilt]")
    assert page.js("document.activeElement.closest('[data-section]').dataset.section") == "tilt"


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
    page.wait(f"{said} === ''")


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
    page.type("[data-try='master.bore'] input", "21")
    page.tap("#keep")
    assert re.search(r"bore += 21 mm", page.file())
    page.type("[data-try='master.bore'] input", "20")
    page.wait("document.querySelector('#curve svg') !== null")
    assert page.answer() != before
    assert not re.search(r"bore += 20 mm", page.file())
    page.tap("#back")
    assert page.js("document.querySelector(\"[data-try='master.bore'] input\").value") != "20"


def test_the_log_of_a_drive_comes_as_a_sheet_and_counts_when_it_is_told_to(page):
    page.tap("[data-view=paper]")
    page.give("#log", ROOT / "examples" / "heron-drive.csv")
    page.wait(SHEET)
    page.tap("#count")
    assert "[drive]\nlog = heron-drive.csv\n" in page.file()
    assert " Drive " in page.answer()
    page.js("localStorage.removeItem('stopmargin.log')")
    page.open_again(PHONE)
    page.wait("document.querySelector('#answer [data-do=log]') !== null")
    page.tap("[data-heat=stop]")
    page.give("#log", ROOT / "examples" / "heron-drive.csv")
    page.wait("document.querySelector('#answer [data-do=log]') === null")


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


def test_every_function_of_the_page_ran(page):
    script = (ROOT / "bindings" / "web" / "page.mjs").read_text()
    assert set(re.findall(r"function (\w+)", script)) - page.functions() == set()
