# SPDX-License-Identifier: MIT
"""Words of the trade: those that `reference/glossary.md` retires come in no name, no comment, no
printed text and no page. Its table is the only list of them."""
import re

from lint import source

GLOSSARY = source.ROOT / "reference" / "glossary.md"
# What may tell of them: the list itself, and what a name was before.
_TELLING = {GLOSSARY, source.ROOT / "reference" / "CHANGELOG.md"}
_ROW = re.compile(r"^\| ([a-z ]+?) +\| (.+?) +\|$", re.MULTILINE)


def retired(glossary):
    """{word: what to say} of the table at the end of a glossary."""
    return {word: use for word, use in _ROW.findall(glossary.split("\n## Retired words\n")[1])
            if word != "retired"}  # fmt: skip


def _pattern(word):
    """The word, or its plural, alone or as a part of a name; its blanks may be line ends."""
    blank = r"[\s*/_]+"
    return re.compile(rf"(?<![a-z]){blank.join(word.split())}s?(?![a-z])", re.IGNORECASE)


def findings_in(shown, text, words):
    """Findings in one file, whose text is given."""
    for word, use in words.items():
        for found in _pattern(word).finditer(text):
            yield f"{shown}:{source.line_of(text, found.start())}: '{word}' is retired; say {use}"


def _written():
    """Sources of the library, the command and the bindings, and the pages."""
    yield from source.sources()
    for path in sorted((source.ROOT / "bindings").rglob("*")):
        if path.suffix in {".c", ".h", ".i", ".py", ".pyi"}:
            yield path
    yield from sorted([*source.ROOT.glob("*.md"), *(source.ROOT / "reference").glob("*.md")])


def findings():
    """Findings in all of them."""
    words = retired(GLOSSARY.read_text(encoding="utf-8"))
    for path in _written():
        if path not in _TELLING:
            yield from findings_in(source.name(path), path.read_text(encoding="utf-8"), words)
