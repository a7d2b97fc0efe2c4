# SPDX-License-Identifier: MIT
"""The licence stands in each source, on its first line (after the line that names an interpreter);
in a notebook, which is JSON and has no comments, as the last line of its first cell.

usage: PYTHONPATH=tests python3 -m lint.licences   writes it where it lacks
"""
import json

from lint import source

LINE = "SPDX-License-Identifier: MIT"
_MARKS = {".c": ("/* ", " */"), ".h": ("/* ", " */"), ".i": ("/* ", " */"), ".css": ("/* ", " */"),
          ".mjs": ("// ", ""), ".py": ("# ", ""), ".pyi": ("# ", "")}  # fmt: skip
_FOLDERS = "libbrake", "bindings", "examples", "tests", ".ci"


def _marks(path, text):
    """What stands around the line in a file; nothing where it is no source."""
    return _MARKS.get(path.suffix) or (("# ", "") if text.startswith("#!") else None)


def _sources():
    """(path, text, the line as it must stand) of every source."""
    for folder in _FOLDERS:
        for path in sorted((source.ROOT / folder).rglob("*")):
            inside = path.relative_to(source.ROOT).parts
            if not path.is_file() or "build" in inside or path.suffix == ".pyc":
                continue
            text = path.read_text(encoding="utf-8", errors="replace")
            marks = _marks(path, text)
            if marks:
                yield path, text, LINE.join(marks) + "\n"
    path = source.ROOT / "Makefile"
    yield path, path.read_text(encoding="utf-8"), f"# {LINE}\n"


def _place(text):
    """Where the line must stand."""
    return text.index("\n") + 1 if text.startswith("#!") else 0


def _notebooks():
    """Notebooks that lack it."""
    for path in sorted((source.ROOT / "examples").glob("*.ipynb")):
        first = json.loads(path.read_text(encoding="utf-8"))["cells"][0]
        if first["source"][-1:] != [LINE]:
            yield f"{source.name(path)}: no '{LINE}' at the end of the first cell"


def findings():
    """Sources that lack it."""
    yield from _notebooks()
    for path, text, line in _sources():
        if not text.startswith(line, _place(text)):
            yield f"{source.name(path)}: no '{line.strip()}' first (`make format` writes it)"


def main():
    """Writes it where it lacks."""
    for path, text, line in _sources():
        place = _place(text)
        if not text.startswith(line, place):
            path.write_text(text[:place] + line + text[place:], encoding="utf-8")


if __name__ == "__main__":
    main()
