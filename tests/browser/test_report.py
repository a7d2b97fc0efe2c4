# SPDX-License-Identifier: MIT
"""The report in a browser: on a phone, on a desk, on paper."""
import itertools
import json
import re

import html5lib
import pytest

from browser import chromium
from browser.page import (
    HOSTILE, PAPERS, SIZES, assert_caution_at_both_ends, assert_cells_lie_apart,
    assert_does_not_overflow, assert_fonts_are_embedded, assert_holds_everything,
    assert_landmarks_heads_and_language, assert_no_heading_ends_a_page, assert_on_paper, overlap,
    text_of, tree, write,
)
from file import plain

HERON = plain.ROOT / "examples" / "heron.ini"
BEFORE = plain.ROOT / "examples" / "heron-before.ini"
DRIVE = plain.ROOT / "examples" / "heron-drive.csv"
@pytest.fixture(scope="module")
def heron(folder):
    return write(folder, "heron", "report", HERON, "--before", BEFORE, "--drivelog", DRIVE)


@pytest.fixture(scope="module")
def hostile(folder):
    """A vehicle with a script for a name, on which next to nothing else is known."""
    vehicle = folder / "<b>hostile & 'quoted'.ini"
    vehicle.write_text(plain.changed(f"[vehicle] name = {HOSTILE['markup']}"))
    return write(folder, "hostile", "report", vehicle)


@pytest.fixture(scope="module")
def other(folder):
    """Another vehicle with every picture: boosted, known friction, of goods, in US units."""
    vehicle = folder / "other.ini"
    vehicle.write_text(plain.changed(
        "[vehicle] name = Other", "[vehicle] category = N1", "[front.disc] rotor_mass = 11 lb",
        "[front.disc.pads] friction = (50 degC, 0.38) (300 degC, 0.40) (600 degC, 0.28)",
        "[rear.drum] drum_mass = 12 lb", "[rear.drum] width = 1.8 in",
        "[rear.drum.lining] friction = (50 degC, 0.38) (250 degC, 0.33)", text=plain.MEETS))
    return write(folder, "other", "report", vehicle)


@pytest.fixture(params=["heron", "other"])
def vehicle(request):
    return request.getfixturevalue(request.param)


# ---- screens -------------------------------------------------------------------------------------


@SIZES
def test_page_does_not_overflow(measure, vehicle, size):
    assert_does_not_overflow(measure(vehicle, size), size)


@SIZES
def test_hostile_names_do_not_overflow(measure, hostile, size):
    assert_does_not_overflow(measure(hostile, size), size)


@SIZES
def test_no_text_lies_over_text_in_a_picture(measure, vehicle, size):
    # letters stand closer than their boxes, which have room for accents: a sixth of the height
    for picture in measure(vehicle, size)["pictures"]:
        texts = picture["texts"]
        assert texts
        slack = min(t["bottom"] - t["top"] for t in texts) / 6
        both = [(a["text"], b["text"]) for a, b in itertools.combinations(texts, 2)
                if overlap(a, b, slack)]
        assert both == [], picture["title"]


@SIZES
def test_no_text_leaves_its_picture(measure, vehicle, size):
    for picture in measure(vehicle, size)["pictures"]:
        box = picture["box"]
        outside = [t["text"] for t in picture["texts"]
                   if t["left"] < box["left"] - 0.5 or t["right"] > box["right"] + 0.5
                   or t["top"] < box["top"] - 0.5 or t["bottom"] > box["bottom"] + 0.5]
        assert outside == [], picture["title"]


@SIZES
def test_cells_of_tables_do_not_lie_over_each_other(measure, vehicle, size):
    assert_cells_lie_apart(measure(vehicle, size))


def test_letters_in_pictures_can_be_read_on_a_phone(measure, heron):
    """8 px of a phone are 6 pt of paper; smaller is footnote print. Common practice, no source."""
    for picture in measure(heron, chromium.PHONE)["pictures"]:
        assert picture["size"] >= 8, picture["title"]


@SIZES
def test_every_picture_has_title_and_description(measure, vehicle, size):
    pictures = measure(vehicle, size)["pictures"]
    titles = [picture["title"] for picture in pictures]
    assert len(titles) == len(set(titles)) == 9
    for picture in pictures:
        assert picture["role"] == "img"
        assert picture["named"] == [picture["title"], picture["desc"]]
        assert len(picture["desc"]) > 40


def test_ink_is_black(measure, heron):
    """Contrast 21 to 1, and nothing that only a colour tells."""
    assert measure(heron, chromium.DESKTOP)["ink"] == ["rgb(0, 0, 0)"]


def test_no_console_message_and_nothing_fetched(browser, heron, hostile):
    for page in (heron, hostile):
        assert browser.open(page, chromium.PHONE) == ([], [page.as_uri()])


def test_console_messages_and_fetches_are_seen(browser, folder):
    """The test above can fail."""
    page = folder / "noisy.html"
    page.write_text("<!DOCTYPE html><title>t</title><img src=none.png><script>oh()</script>")
    said, fetched = browser.open(page, chromium.PHONE)
    assert any("oh is not defined" in json.dumps(message) for message in said)
    assert (folder / "none.png").as_uri() in fetched


# ---- paper ---------------------------------------------------------------------------------------


@PAPERS
def test_paper_has_numbered_pages_that_are_not_empty(printed, heron, paper):
    """At most three pages of paper, signatures on the last, and behind them six of annex."""
    assert_on_paper(printed(heron, paper), paper, 7, 9)
    signed = [
        number
        for number, page in enumerate(chromium.pages_of(printed(heron, paper)), 1)
        if "To be measured and signed" in page
    ]
    assert signed == [3]


@PAPERS
def test_fonts_are_in_the_pdf(printed, heron, paper):
    assert_fonts_are_embedded(printed(heron, paper))


@PAPERS
def test_heads_of_tables_are_repeated_where_a_table_goes_on(printed, heron, paper):
    pages = chromium.pages_of(printed(heron, paper))
    by_head = {r"Requirement in short\s+Verdict": "falls short|meets|cannot say",
               r"Line\s+Value": r"[a-z_]+\.[a-z_]+"}
    for head, content in by_head.items():
        with_head = [i for i, page in enumerate(pages) if re.search(head, page)]
        assert with_head
        assert with_head == list(range(with_head[0], with_head[-1] + 1))
        for i in with_head:
            below = re.split(head, pages[i], maxsplit=1)[1]
            assert re.search(content, below), "a head without a row"


@PAPERS
def test_no_heading_ends_a_page(printed, heron, paper):
    assert_no_heading_ends_a_page(printed(heron, paper), heron)


# ---- the page itself -----------------------------------------------------------------------------


def test_page_is_html(heron, hostile):
    for page in (heron, hostile):
        tree(page)


def test_a_fault_of_html_is_found(folder):
    """The test above can fail."""
    wrong = folder / "wrong.html"
    wrong.write_text("<!DOCTYPE html><html lang=en><title>t</title><p><div></p>")
    with pytest.raises(html5lib.html5parser.ParseError):
        tree(wrong)


def test_page_holds_everything_it_needs(heron):
    assert_holds_everything(heron)


def test_landmarks_heads_and_language(heron):
    assert_landmarks_heads_and_language(heron)


def test_parts_come_in_their_order(heron):
    ids = [s.get("aria-labelledby") for s in tree(heron).iter("section")]
    # Parts within parts are numbered.
    assert [one for one in ids if "-" not in one] == [
        "outcome", "vehicle", "held", "which", "not", "to", "warnings", "repair", "measuring",
        "also", "requirements", "changes", "drive", "pictures", "heat", "results", "lines",
        "method"]


def test_caution_at_both_ends(heron):
    assert_caution_at_both_ends(heron, HERON)


@pytest.mark.parametrize("name", HOSTILE.values(), ids=HOSTILE)
def test_names_are_words_and_nothing_else(folder, name):
    vehicle = folder / "named.ini"
    vehicle.write_text(plain.changed(f"[vehicle] name = {name}", f"[speedometer] rollout = 2 m",
                                     "[part.winch] mass = 10 kg",
                                     "[part.winch] behind_front_axle = 0 mm",
                                     "[part.winch] height = 700 mm"))
    root = tree(write(folder, "named", "report", vehicle))
    assert text_of(next(root.iter("h1"))) == " ".join(name.split())
    assert len(list(root.iter("h1"))) == 1
    assert list(root.iter("script")) == []
    assert text_of(next(root.iter("title"))).endswith(" ".join(name.split()))


def test_name_of_the_file_is_escaped(hostile):
    root = tree(hostile)
    assert [text_of(dd) for dd in root.iter("dd") if "hostile" in text_of(dd)]
    assert list(root.iter("b")) == []
