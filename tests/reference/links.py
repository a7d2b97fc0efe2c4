# SPDX-License-Identifier: MIT
"""Links of Markdown pages: what they name, and what a page has to be named."""
import re


def anchor(heading):
    """The name by which a heading is linked to: words in lower case, joined by hyphens."""
    return re.sub(r"[^\w\- ]", "", heading.replace("`", "")).strip().lower().replace(" ", "-")


def prose(path):
    """The page without its blocks of code."""
    return re.sub(r"^```.*?^```$", "", path.read_text(encoding="utf-8"), flags=re.S | re.M)


def headings(path, begin=""):
    """Headings of a page, those that begin so."""
    return [head for head in re.findall(r"^#+ (.*)$", prose(path), re.M) if head.startswith(begin)]


def links(path):
    """(file, anchor) of every link to a place in this tree; one of them may be empty."""
    for target in re.findall(r"\]\(([^)\s]+)\)|src=\"([^\"]+)\"", prose(path)):
        target = target[0] or target[1]
        if not re.match(r"[a-z]+:", target):
            yield tuple(target.partition("#")[::2])
