# SPDX-License-Identifier: MIT
"""The plan of the first drive in a browser: on a phone, on a desk, on paper."""
import pytest

from browser import chromium
from browser.page import (
    HOSTILE, PAPERS, SIZES, assert_caution_at_both_ends, assert_cells_lie_apart,
    assert_does_not_overflow, assert_fonts_are_embedded, assert_holds_everything,
    assert_landmarks_heads_and_language, assert_no_heading_ends_a_page, assert_on_paper, text_of,
    tree, write,
)
from file import plain

ALL = "no-reserve,rear-first,one-circuit"
HERON = plain.ROOT / "examples" / "heron.ini"


@pytest.fixture(scope="module")
def plan(folder):
    return write(folder, "plan", "shakedown", HERON)


@pytest.fixture(scope="module")
def hostile(folder):
    """A vehicle with a script for a name, on which next to nothing else is known."""
    vehicle = folder / "<b>hostile & 'quoted'.ini"
    vehicle.write_text(plain.changed(f"[vehicle] name = {HOSTILE['markup']}"))
    return write(folder, "hostile", "shakedown", vehicle, "--despite", ALL)


@SIZES
def test_page_does_not_overflow(measure, plan, hostile, size):
    for page in (plan, hostile):
        assert_does_not_overflow(measure(page, size), size)


@SIZES
def test_cells_of_tables_do_not_lie_over_each_other(measure, plan, size):
    assert_cells_lie_apart(measure(plan, size))


def test_ink_is_black(measure, plan):
    """Contrast 21 to 1, and nothing that only a colour tells."""
    assert measure(plan, chromium.DESKTOP)["ink"] == ["rgb(0, 0, 0)"]


def test_no_console_message_and_nothing_fetched(browser, plan):
    assert browser.open(plan, chromium.PHONE) == ([], [plan.as_uri()])


@PAPERS
def test_paper_has_numbered_pages_that_are_not_empty(printed, plan, paper):
    assert_on_paper(printed(plan, paper), paper, 3, 8)


@PAPERS
def test_fonts_are_in_the_pdf(printed, plan, paper):
    assert_fonts_are_embedded(printed(plan, paper))


@PAPERS
def test_no_heading_ends_a_page(printed, plan, paper):
    assert_no_heading_ends_a_page(printed(plan, paper), plan)


def test_page_is_html_and_holds_everything_it_needs(plan, hostile):
    for page in (plan, hostile):
        assert_holds_everything(page)


def test_landmarks_heads_and_language(plan):
    assert_landmarks_heads_and_language(plan)


def test_parts_come_in_their_order(plan):
    ids = [s.get("aria-labelledby") for s in tree(plan).iter("section")]
    # Parts within parts are numbered.
    assert [one for one in ids if "-" not in one] == [
        "by", "before", "standing", "walking", "stages", "bedding", "afterwards", "log"]


def test_caution_at_both_ends(plan):
    assert_caution_at_both_ends(plan, HERON)


@pytest.mark.parametrize("name", HOSTILE.values(), ids=HOSTILE)
def test_names_are_words_and_nothing_else(folder, name):
    vehicle = folder / "named.ini"
    vehicle.write_text(plain.changed(f"[vehicle] name = {name}"))
    root = tree(write(folder, "named", "shakedown", vehicle, "--despite", ALL))
    assert " ".join(name.split()) in text_of(next(root.iter("title")))
    assert len(list(root.iter("h1"))) == 1
    assert list(root.iter("script")) == []
