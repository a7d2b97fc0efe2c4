# SPDX-License-Identifier: MIT
"""Pages of every line, result, requirement, warning and verdict word, from what `explain` says."""
import functools
import re
import textwrap

from file import plain
from reference import links

FOLDER = plain.ROOT / "reference"
CAUTION = (
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a\n"
    "qualified inspector before the vehicle is driven on the road."
)
PAGES = {
    "lines": "Every line of the vehicle file",
    "results": "Every result",
    "requirements": "Every requirement and hazard",
    "warnings": "Every warning and every word of a verdict",
}
HEADS = {"Results": "results", "Requirements": "requirements", "Warnings and verdicts": "warnings"}
# What `explain` says alike of everything, or what the page's own head says.
LEFT_OUT = {"Caution"}


def explained(*words):
    """Lines that `explain` prints between its caution and its end."""
    text = plain.run("explain", *words).stdout.decode()
    lines = text.splitlines()
    return lines[2 : lines.index(next(line for line in lines if line.startswith("Caution ")))]


@functools.cache
def groups():
    """(page, head, names) of every group that `explain` lists."""
    found, page = [], "lines"
    for line in explained():
        if line in HEADS:
            page = HEADS[line]
            found.append((page, "", []))
        elif section := re.match(r"\[(.*?)\] (.*)", line):
            found.append((page, line, []))
        elif name := re.match(r"  (\S+(?: \S+)*)  +\S", line):
            found[-1][2].append(name[1])
        elif group := re.match(r"  (\S.*):$", line):
            found.append((page, group[1], []))
    return [(page, head, names[1:]) for page, head, names in found if names]


def facts(name):
    """(key, text) of one name."""
    found = []
    for line in explained(name):
        if line[:10].strip():
            found.append([line[:10].strip(), line[10:]])
        elif line.strip():
            found[-1][1] += " " + line.strip()
    return [(key, text) for key, text in found if key not in LEFT_OUT]


def _path(page, head, name):
    """The name as `explain` takes it."""
    if page == "lines":
        return f"{re.match(r'.(.*?)]', head)[1]}.{name}"
    return f"full.{name}" if page == "results" and "each load case" in head else name


def _entry(names, found):
    """One entry of a page: what is told in the order in which `explain` tells it."""
    (_, first), *rest = found
    items = [_filled(f"- {key}: {_linked(text)}", "  ") for key, text in rest]
    names = ", ".join(f"`{name}`" for name in names)
    return "\n".join([f"### {names}", "", _filled(first), "", *items, *([""] if items else [])])


def _filled(text, indent=""):
    """Lines that fit; a link stays whole."""
    return textwrap.fill(
        text, 99, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    )


def _linked(text):
    """The text, sections of the method page as links."""
    return re.sub(r"reference/method\.md, section (\d+)", _section, text)


def _section(found):
    head = links.headings(FOLDER / "method.md", found[1])[0]
    return f"[{head}](method.md#{links.anchor(head)})"


def _twin(name):
    return re.sub(r"^front\.", "rear.", name)


def page_of(page):
    """The text of a page."""
    told = {}
    for group, head, names in groups():
        if group == page:
            told |= {_path(page, head, name): (head, name) for name in names}
    known = {path: facts(path) for path in told}
    parts, last, done = [], None, set()
    for path, (head, _) in told.items():
        if path in done:
            continue
        twin = _twin(path)
        names = [path]
        if twin != path and known.get(twin) == known[path]:
            names.append(twin)
            done.add(twin)
        if head != last:
            parts += [f"## {head}", ""] if head else []
            last = head
        parts.append(_entry([name.replace("full.", "", 1) if page == "results" else name
                             for name in names], known[path]))  # fmt: skip
    return "\n".join([f"# {PAGES[page]}", "", CAUTION, "", _opening(page), "", *parts])


def _opening(page):
    """What stands over the entries: where they come from, and how one is asked for."""
    text = {
        "lines": "`stopmargin explain NAME` says the same of one line, and of your file with "
        "`stopmargin explain NAME FILE`. A line of an axle stands once for front and rear where "
        "both are alike.",
        "results": "Those of a load case are asked for as `empty.NAME` and `full.NAME`. "
        "`stopmargin explain NAME FILE` tells the value and the lines it depends on.",
        "requirements": "Restated: check each against the current text of its clause. How each was "
        "read stands beside it; [sources](sources.md) says where.",
        "warnings": "Warnings are given by `stopmargin check --full`, those of heat by "
        "`stopmargin heat` too.",
    }[page]
    return textwrap.fill(f"{text} This page is made by `make reference`.", 99)
