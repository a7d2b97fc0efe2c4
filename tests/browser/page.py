# SPDX-License-Identifier: MIT
"""What every page must be: the report and the plan are held to the same."""
import itertools
import json
import re

import html5lib
import pytest

from browser import chromium
from file import plain

SIZES = pytest.mark.parametrize("size", [chromium.PHONE, chromium.DESKTOP], ids=["phone", "desk"])
PAPERS = pytest.mark.parametrize("paper", chromium.PAPERS)
# Outside the README's words: what a name may not do to a page. 63 bytes at most.
HOSTILE = {
    "markup": "<script>alert(\"1\")</script>&amp;'</title><h1>",
    "right-to-left": "سيارة الإنقاذ الجبلية",
    "chinese": "山岳救助車・改造後",
}


def write(folder, name, verb, *words):
    page = folder / f"{name}.html"
    done = plain.run(verb, *map(str, words), "-o", str(page))
    assert done.returncode in (0, 1, 3), done.stderr.decode()
    return page


def tree(page):
    """The page, read by the rules of HTML; a fault is an error."""
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    return parser.parse(page.read_text())


def text_of(node):
    return " ".join("".join(node.itertext()).split())


def overlap(a, b, slack=1.0):
    return (
        min(a["right"], b["right"]) - max(a["left"], b["left"]) > slack
        and min(a["bottom"], b["bottom"]) - max(a["top"], b["top"]) > slack
    )


def assert_does_not_overflow(measured, size):
    assert measured["width"] == size[0]
    assert measured["scroll"] <= measured["width"]
    assert measured["wide"] == []


def assert_cells_lie_apart(measured):
    cells = [c for c in measured["cells"] if c["right"] > c["left"]]
    cells.sort(key=lambda c: c["top"])
    assert cells
    for i, cell in enumerate(cells):
        for other in cells[i + 1 : i + 12]:
            assert not overlap(cell, other), (cell["text"], other["text"])


def assert_on_paper(pdf, paper, fewest, most):
    """Of that size, numbered, no page without words, the caution on each."""
    size = re.findall(r"[\d.]+", chromium.facts_of(pdf)["Page size"])
    assert [float(side) / 72 for side in size[:2]] == pytest.approx(
        chromium.PAPERS[paper], abs=0.01
    )
    pages = chromium.pages_of(pdf)
    assert fewest <= len(pages) <= most
    for number, page in enumerate(pages, 1):
        assert f"Page {number} of {len(pages)}" in page
        assert "A calculation is not an approval" in page
        assert len(page.split()) > (60 if number < len(pages) else 40)  # the last may end early


def assert_fonts_are_embedded(pdf):
    fonts = chromium.fonts_of(pdf)
    assert 1 <= len(fonts) <= 6
    assert all(embedded == "yes" for _, embedded in fonts)


def assert_no_heading_ends_a_page(pdf, page):
    headings = [text_of(node) for node in tree(page).iter("h2")]
    for sheet in chromium.pages_of(pdf):
        lines = [line.strip() for line in sheet.splitlines() if line.strip()]
        assert lines[-1].startswith("Page ")
        assert lines[-2] not in headings


def assert_holds_everything(page):
    root = tree(page)
    assert list(root.iter("script")) == []
    for node in root.iter():
        for name, value in node.attrib.items():
            assert not str(name).startswith("on"), name
            assert name not in ("src", "href", "srcset", "action"), name
            assert not re.search(r"url\((?!#)", value)
    style = text_of(next(root.iter("style")))
    assert not re.search(r"url\(|@import|@font-face|https?:", style)


def assert_landmarks_heads_and_language(page):
    root = tree(page)
    assert root.get("lang") == "en"
    for landmark in ("header", "main", "footer"):
        assert len(list(root.find("body").iter(landmark))) == 1
    ids = [node.get("id") for node in root.iter() if node.get("id")]
    assert len(ids) == len(set(ids))
    for section in root.iter("section"):
        assert section.get("aria-labelledby") in ids
    for table in root.iter("table"):
        assert text_of(table.find("caption"))
        assert {th.get("scope") for th in table.find("thead").iter("th")} == {"col"}
        for row in table.find("tbody"):
            assert row[0].tag == "th" and row[0].get("scope") == "row"
    levels = [int(node.tag[1]) for node in root.iter() if re.fullmatch("h[1-6]", str(node.tag))]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(b - a <= 1 for a, b in itertools.pairwise(levels))


def assert_caution_at_both_ends(page, vehicle):
    text = text_of(tree(page).find("body"))
    caution = json.loads(plain.run("check", str(vehicle), "--json").stdout)["caution"]
    assert text.startswith(f"Caution. {caution}")
    assert f"Caution. {caution}" in text[-len(caution) - 60 :]
