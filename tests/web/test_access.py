# SPDX-License-Identifier: MIT
"""Whether the page can be used by keyboard, by screen reader, enlarged, in the dark and at rest."""
import json
import os
import pathlib

import pytest

from browser import chromium

ROOT = pathlib.Path(__file__).parents[2]
HERON, BEFORE = ROOT / "examples" / "heron.ini", ROOT / "examples" / "heron-before.ini"
RULES = pathlib.Path(os.environ["LIBBRAKE_BUILD"]) / "npm/node_modules/axe-core/axe.min.js"
PHONE = (390, 844)
VIEWS = ("begin", "measure", "try", "paper")
# name: window, scheme of colours. At 200 % a desktop window has the width of a small one.
SIGHTS = {"phone": (PHONE, "light"), "desk, dark": (chromium.DESKTOP, "dark"),
          "200 %, dark": ((640, 450), "dark")}


@pytest.fixture
def rules():
    if not RULES.exists():
        pytest.skip(f"axe-core is not in {RULES.parent}: make deps gets it")
    return RULES.read_text(encoding="utf-8")


def see(page, sight):
    """The page with a vehicle, every section open."""
    size, scheme = SIGHTS[sight]
    page.colours(scheme)
    page.open(size)
    page.give("#stock", BEFORE)
    page.give("#open", HERON)
    page.wait("/Verdict/.test(document.getElementById('answer').textContent)")
    page.tap("[data-heat=stop]")
    page.js("document.querySelectorAll('details').forEach(one => { one.open = true; })")


def violations(page):
    return json.loads(page.js(
        "axe.run(document, {iframes: false}).then(({violations}) => JSON.stringify(violations"
        ".map(({id, nodes}) => [id, nodes[0].html.slice(0, 200), nodes[0].failureSummary])))"))


@pytest.mark.parametrize("sight", SIGHTS)
def test_the_rules_of_accessibility_find_nothing_in_any_view(page, rules, sight):
    see(page, sight)
    page.js(f"{{ {rules} }}")
    for view in VIEWS:
        page.tap(f"[data-view={view}]")
        assert violations(page) == [], view


def test_the_rules_find_what_is_wrong(page, rules):
    page.open(PHONE)
    page.js(f"{{ {rules} }}")
    page.js("document.body.insertAdjacentHTML('beforeend', '<main><input></main>')")
    assert "label" in [name for name, _, _ in violations(page)]


# What has the focus, where it stands in the page, and whether nothing covers it.
FOCUS = """(() => { const node = document.activeElement, box = node.getBoundingClientRect();
  const seen = document.elementFromPoint(box.left + box.width / 2,
    Math.max(0, box.top) + Math.min(box.height, 30) / 2);
  return [[...document.querySelectorAll('*')].indexOf(node), node.outerHTML.slice(0, 80),
    node.parentElement.contains(seen)]; })()"""
STEPS = 40


@pytest.mark.parametrize("view", VIEWS)
def test_the_keyboard_goes_through_each_view_in_its_order_and_sees_where_it_is(page, view):
    see(page, "phone")
    page.tap(f"[data-view={view}]")
    page.js("document.querySelector('nav button').focus()")
    steps = [page.js(FOCUS)]
    for _ in range(STEPS):
        page.press("Tab")
        steps.append(page.js(FOCUS))
    assert [step for step in steps if not step[2]] == []
    places = [place for place, _, _ in steps]
    around = places.index(max(places)) + 1
    assert places[:around] == sorted(set(places[:around]))
    assert around > 10


def test_nothing_moves_by_itself_whatever_the_person_asked_for(page):
    page.open(PHONE)
    assert page.js("getComputedStyle(document.documentElement).scrollBehavior") == "auto"
    assert page.js("document.getAnimations().length") == 0


def test_without_scripts_it_says_what_to_do(page, tmp_path):
    page.browser._ask("Emulation.setScriptExecutionDisabled", value=True)
    try:
        page.browser.print_out(page.file_of(), "A4", tmp_path / "asleep.pdf")
    finally:
        page.browser._ask("Emulation.setScriptExecutionDisabled", value=False)
    text = " ".join(chromium.pages_of(tmp_path / "asleep.pdf")[0].split())
    assert "CAUTION: a calculation is not an approval" in text
    assert "Nothing to fill in below?" in text
    assert "Start a new file" not in text
