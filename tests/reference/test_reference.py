# SPDX-License-Identifier: MIT
"""The pages of reference that are made: they are those that `make reference` writes, no name is
missing, and every link of every page leads somewhere."""
import re
import subprocess

import pytest

from file import plain
from reference import __main__ as writer, book, links, runs, tables


def _pages():
    """Every Markdown page that git knows or would take."""
    command = ["git", "ls-files", "--cached", "--others", "--exclude-standard", "*.md"]
    done = subprocess.run(
        command, cwd=plain.ROOT, capture_output=True, check=True, encoding="utf-8"
    )
    return sorted(set(done.stdout.split()))


@pytest.mark.parametrize(
    ("path", "text"), writer.texts(), ids=lambda value: getattr(value, "stem", "")
)
def test_a_page_is_what_make_reference_writes(path, text):
    assert path.read_text(encoding="utf-8") == text, f"{path.name}: make reference writes it anew"


def test_every_name_that_explain_lists_has_its_entry():
    """Given the list of `explain`, which is made of the tables, without its heads."""
    names = {name for _, _, found in tables.groups() for name in found}
    entries = {
        name.strip("`").rpartition(" ")[2]
        for page in tables.PAGES
        for head in links.headings(tables.FOLDER / f"{page}.md")
        for name in head.split(", ")
    }
    words = {name.rpartition(" ")[2] for name in names}
    assert words <= {part for entry in entries for part in (entry, entry.rpartition(".")[2])}


@pytest.mark.parametrize("path", sorted(writer.GUIDE.glob("*.md")), ids=lambda path: path.stem)
def test_every_number_of_the_guide_is_behind_a_run(path):
    """Digits stand in answers alone; the sizes that the story is named after, and its 4x4, not."""
    names = re.compile(r"\b4x4\b|\b29 to 35 inches\b|^\d\. ", re.M)
    told = names.sub("", runs.prose(path.read_text()))
    assert re.findall(r".*\d.*", told) == []


def test_a_stale_number_is_found():
    """Given a page with another number where the command says 2.64 m, then it is written anew."""
    page = "<!-- stopmargin explain front.tyre.rollout heron.ini: value -->2.5 m<!-- -->"
    assert runs.filled(page) == page.replace("2.5 m", "2.64 m (8.661 ft)")


def test_the_guide_is_one_page_that_needs_no_network():
    """Given all of it in one, then pictures are inside, and each link leads to a place in it."""
    page = book.book()
    led = set(re.findall(r'href="#([^"]+)"', page))
    assert led <= set(re.findall(r'id="([^"]+)"', page))
    assert all(source.startswith("data:") for source in re.findall(r'src="([^"]+)"', page))
    assert not re.search(r'href="(?!#)|<script|url\(', page)
    assert page.count("A calculation is not an approval") >= len(book.GUIDE)


def test_the_comments_of_the_headers_make_pages_without_a_warning(tmp_path):
    """By Doxygen, which ends with a status of its own when it has one."""
    words = (tables.FOLDER / "Doxyfile").read_text() + f"OUTPUT_DIRECTORY = {tmp_path}\n"
    done = subprocess.run(["doxygen", "-"], input=words, capture_output=True, text=True,
                          cwd=plain.ROOT)  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert (tmp_path / "html" / "index.html").exists()


@pytest.mark.parametrize("page", _pages())
def test_every_link_leads_somewhere(page):
    """A file of this tree, and in it a heading of that name."""
    path = plain.ROOT / page
    for file, anchor in links.links(path):
        target = (path.parent / file).resolve() if file else path
        assert target.exists(), f"{page}: there is no {file}"
        if anchor:
            found = {links.anchor(head) for head in links.headings(target)}
            assert anchor in found, f"{page}: {file or page} has no heading #{anchor}"
