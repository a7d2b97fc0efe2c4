# SPDX-License-Identifier: MIT
"""Writes what is made of reference: make reference."""
import json
import pathlib
import subprocess
import tempfile

from browser import chromium
from file import plain
from reference import runs, tables

GUIDE = tables.FOLDER / "guide"
PICTURES = GUIDE / "pictures"
DRAWINGS = """
import { drawing, drawn } from "%s/bindings/web/drawings.mjs";
console.log(JSON.stringify(Object.fromEntries(drawn.map((name) => [name, drawing(name)]))));
"""


def lists():
    """(file, what it must hold), of those that are made of the tables."""
    for page in tables.PAGES:
        yield tables.FOLDER / f"{page}.md", tables.page_of(page)


def texts():
    """(file, what it must hold), of those that hold runs and drawings."""
    others = tables.FOLDER / "command.md", plain.ROOT / "README.md"
    for path in (*sorted(GUIDE.glob("*.md")), *others):
        yield path, runs.filled(path.read_text(encoding="utf-8"))
    yield from drawings()


def drawings():
    """The line drawings of the page, a file each."""
    words = ["node", "--input-type=module", "--eval", DRAWINGS % plain.ROOT]
    done = subprocess.run(words, capture_output=True, check=True, encoding="utf-8")
    for name, figure in json.loads(done.stdout).items():
        picture = figure[figure.index("<svg") : figure.index("</svg>")]
        space = '<svg xmlns="http://www.w3.org/2000/svg" width="300" '
        picture = picture.replace("<svg ", space, 1)
        picture = picture.replace("<text ", '<text font-family="sans-serif" ')
        text = picture.replace("currentColor", "#333") + "</svg>\n"
        yield PICTURES / f"{name}.svg", text


def print_paper():
    """The first page of the paper as a picture: by a browser, as one prints it."""
    with tempfile.TemporaryDirectory() as folder:
        page, paper = (pathlib.Path(folder) / name for name in ("heron.html", "heron.pdf"))
        examples = plain.ROOT / "examples"
        plain.run("report", str(examples / "heron.ini"), "--before",
                  str(examples / "heron-before.ini"), "-o", str(page))  # fmt: skip
        browser = chromium.Chromium()
        browser.print_out(page, "A4", paper)
        browser.close()
        subprocess.run(["pdftoppm", "-png", "-gray", "-r", "70", "-singlefile", str(paper),
                        str(PICTURES / "paper")], check=True)  # fmt: skip


def main():
    """Writes them."""
    PICTURES.mkdir(exist_ok=True)
    for path, text in (*lists(), *texts()):
        path.write_text(text, encoding="utf-8")
        print(f"reference {path.relative_to(plain.ROOT)}")
    print_paper()


if __name__ == "__main__":
    main()
