"""The report in a browser: on a phone, on a desk, on paper."""
import functools
import itertools
import json
import re

import html5lib
import pytest

from browser import chromium
from file import plain

HERON = plain.ROOT / "examples" / "heron.ini"
BEFORE = plain.ROOT / "examples" / "heron-before.ini"
DRIVE = plain.ROOT / "examples" / "heron-drive.csv"
# Outside the README's words: what a name may not do to a page. 63 bytes at most.
HOSTILE = {
    "markup": "<script>alert(\"1\")</script>&amp;'</title><h1>",
    "right-to-left": "سيارة الإنقاذ الجبلية",
    "chinese": "山岳救助車・改造後",
    "override": "a\u202eb<c>\u202e",
}
SIZES = pytest.mark.parametrize("size", [chromium.PHONE, chromium.DESKTOP], ids=["phone", "desk"])
PAPERS = pytest.mark.parametrize("paper", chromium.PAPERS)


def write(folder, name, *words):
    page = folder / f"{name}.html"
    done = plain.run("report", *map(str, words), "-o", str(page))
    assert done.returncode in (0, 1, 3), done.stderr.decode()
    return page


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("pages")


@pytest.fixture(scope="module")
def browser():
    running = chromium.Chromium()
    yield running
    running.close()


@pytest.fixture(scope="module")
def measure(browser):
    """Boxes on a page at a size of the window; each is measured once."""
    return functools.cache(browser.measure)


@pytest.fixture(scope="module")
def printed(browser, folder, heron):
    """The report on paper; each size is printed once."""

    @functools.cache
    def of(paper):
        pdf = folder / f"heron-{paper}.pdf"
        browser.print_out(heron, paper, pdf)
        return pdf

    return of


@pytest.fixture(scope="module")
def heron(folder):
    return write(folder, "heron", HERON, "--before", BEFORE, "--drivelog", DRIVE)


@pytest.fixture(scope="module")
def hostile(folder):
    """A vehicle with a script for a name, on which next to nothing else is known."""
    vehicle = folder / "<b>hostile & 'quoted'.ini"
    vehicle.write_text(plain.changed(f"[vehicle] name = {HOSTILE['markup']}"))
    return write(folder, "hostile", vehicle)


@pytest.fixture(scope="module")
def other(folder):
    """Another vehicle with every picture: boosted, known friction, of goods, in US units."""
    vehicle = folder / "other.ini"
    vehicle.write_text(plain.changed(
        "[vehicle] name = Other", "[vehicle] category = N1", "[front.disc] rotor_mass = 11 lb",
        "[front.disc.pads] friction = (50 degC, 0.38) (300 degC, 0.40) (600 degC, 0.28)",
        "[rear.drum] drum_mass = 12 lb", "[rear.drum] width = 1.8 in",
        "[rear.drum.lining] friction = (50 degC, 0.38) (250 degC, 0.33)", text=plain.MEETS))
    return write(folder, "other", vehicle)


@pytest.fixture(params=["heron", "other"])
def vehicle(request):
    return request.getfixturevalue(request.param)


def tree(page):
    """The page, read by the rules of HTML; a fault is an error."""
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    return parser.parse(page.read_text())


def text_of(node):
    return " ".join("".join(node.itertext()).split())


# ---- screens -------------------------------------------------------------------------------------


@SIZES
def test_page_does_not_overflow(measure, vehicle, size):
    measured = measure(vehicle, size)
    assert measured["width"] == size[0]
    assert measured["scroll"] <= measured["width"]
    assert measured["wide"] == []


@SIZES
def test_hostile_names_do_not_overflow(measure, hostile, size):
    measured = measure(hostile, size)
    assert measured["width"] == size[0]
    assert measured["scroll"] <= measured["width"]
    assert measured["wide"] == []


def overlap(a, b, slack=1.0):
    return (
        min(a["right"], b["right"]) - max(a["left"], b["left"]) > slack
        and min(a["bottom"], b["bottom"]) - max(a["top"], b["top"]) > slack
    )


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
    cells = [c for c in measure(vehicle, size)["cells"] if c["right"] > c["left"]]
    cells.sort(key=lambda c: c["top"])
    for i, cell in enumerate(cells):
        for other in cells[i + 1 : i + 12]:
            assert not overlap(cell, other), (cell["text"], other["text"])


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
def test_paper_has_numbered_pages_that_are_not_empty(printed, paper):
    pdf = printed(paper)
    size = re.findall(r"[\d.]+", chromium.facts_of(pdf)["Page size"])
    assert [float(side) / 72 for side in size[:2]] == pytest.approx(chromium.PAPERS[paper], abs=0.01)
    pages = chromium.pages_of(pdf)
    assert 12 <= len(pages) <= 24
    for number, page in enumerate(pages, 1):
        assert f"Page {number} of {len(pages)}" in page
        assert "A calculation is not an approval" in page
        assert len(page.split()) > 60


@PAPERS
def test_fonts_are_in_the_pdf(printed, paper):
    fonts = chromium.fonts_of(printed(paper))
    assert 1 <= len(fonts) <= 6
    assert all(embedded == "yes" for _, embedded in fonts)


@PAPERS
def test_heads_of_tables_are_repeated_where_a_table_goes_on(printed, paper):
    pages = chromium.pages_of(printed(paper))
    by_head = {"Requirement and clause": " [", "May be off by": "measured"}
    for head, content in by_head.items():
        with_head = [i for i, page in enumerate(pages) if head in page]
        assert len(with_head) >= 2
        assert with_head == list(range(with_head[0], with_head[-1] + 1))
        for i in with_head:
            assert content in pages[i].split(head)[1], "a head without a row"


@PAPERS
def test_no_heading_ends_a_page(printed, heron, paper):
    headings = [text_of(node) for node in tree(heron).iter("h2")]
    for page in chromium.pages_of(printed(paper)):
        lines = [line.strip() for line in page.splitlines() if line.strip()]
        assert lines[-1].startswith("Page ")
        assert lines[-2] not in headings


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
    root = tree(heron)
    assert list(root.iter("script")) == []
    for node in root.iter():
        for name, value in node.attrib.items():
            assert not str(name).startswith("on"), name
            assert name not in ("src", "href", "srcset", "action"), name
            assert not re.search(r"url\((?!#)", value)
    style = text_of(next(root.iter("style")))
    assert not re.search(r"url\(|@import|@font-face|https?:", style)


def test_landmarks_heads_and_language(heron):
    root = tree(heron)
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


def test_parts_come_in_their_order(heron):
    ids = [s.get("aria-labelledby") for s in tree(heron).iter("section")]
    assert ids == ["vehicle", "verdict", "requirements", "warnings", "changes", "drive",
                   "pictures", "numbers", "inputs", "inspector", "method"]


def test_caution_at_both_ends(heron):
    text = text_of(tree(heron).find("body"))
    caution = json.loads(plain.run("check", str(HERON), "--json").stdout)["caution"]
    assert text.startswith(f"Caution. {caution}")
    assert f"Caution. {caution}" in text[-len(caution) - 60 :]


@pytest.mark.parametrize("name", HOSTILE.values(), ids=HOSTILE)
def test_names_are_words_and_nothing_else(folder, name):
    vehicle = folder / "named.ini"
    vehicle.write_text(plain.changed(f"[vehicle] name = {name}", f"[speedometer] rollout = 2 m",
                                     "[part.winch] mass = 10 kg",
                                     "[part.winch] behind_front_axle = 0 mm",
                                     "[part.winch] height = 700 mm"))
    root = tree(write(folder, "named", vehicle))
    assert text_of(next(root.iter("h1"))) == " ".join(name.split())
    assert len(list(root.iter("h1"))) == 1
    assert list(root.iter("script")) == []
    assert text_of(next(root.iter("title"))).endswith(" ".join(name.split()))


def test_name_of_the_file_is_escaped(hostile):
    root = tree(hostile)
    assert [text_of(dd) for dd in root.iter("dd") if "hostile" in text_of(dd)]
    assert list(root.iter("b")) == []
