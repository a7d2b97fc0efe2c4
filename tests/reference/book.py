# SPDX-License-Identifier: MIT
"""The guide and what stands behind it as one page that needs no network: make docs."""
import base64
import pathlib
import re
import sys

import markdown

from file import plain
from reference import links, tables

GUIDE = ("README", "measure", "tyres", "answer", "inspector", "sweep")
BEHIND = ("command", *tables.PAGES, "method", "sources", "glossary")
PAGES = [*(f"guide/{name}.md" for name in GUIDE), *(f"{name}.md" for name in BEHIND)]
STYLE = """
body{margin:0 auto;padding:1rem;max-width:52rem;font:1rem/1.5 Georgia,'DejaVu Serif',serif}
body{color:#000;background:#fff;overflow-wrap:break-word}
pre{overflow-x:auto;border:1px solid #999;padding:.6rem;font-size:.8rem}
table{border-collapse:collapse}td,th{border:1px solid #999;padding:.2rem .5rem;vertical-align:top}
img{max-width:100%}
blockquote{margin:1rem 0;border:1px solid #000;border-width:2px 0;padding:.3rem .8rem}
article{border-top:3px double #000;margin-top:3rem}
"""


def _picture(path):
    """A picture inside the page."""
    kind = "svg+xml" if path.suffix == ".svg" else "png"
    return f"data:image/{kind};base64,{base64.b64encode(path.read_bytes()).decode()}"


def _name(page):
    return page.removesuffix(".md").replace("/", "-").lower()


def _led(page, found):
    """A link as it is within the one page: to another chapter of it, or to nothing."""
    attribute, target = found[1], found[2]
    if re.match(r"[a-z]+:", target):
        return found[0]
    file, _, anchor = target.partition("#")
    path = ((tables.FOLDER / page).parent / file).resolve()
    if attribute == "src":
        return f'src="{_picture(path)}"'
    inside = {(tables.FOLDER / other).resolve(): other for other in PAGES}
    if file and path not in inside:
        return f'title="{target}"'
    name = _name(inside[path] if file else page)
    return f'href="#{name}{"--" + anchor if anchor else ""}"'


def chapter(page):
    """One page as a part of the whole."""
    text = (tables.FOLDER / page).read_text(encoding="utf-8")
    text = re.sub(r"<!--.*?-->\n*", "", text, flags=re.S)
    name = _name(page)
    maker = markdown.Markdown(
        extensions=["tables", "fenced_code", "sane_lists", "toc"],
        extension_configs={"toc": {"slugify": lambda head, _: f"{name}--{links.anchor(head)}"}},
    )
    html = maker.convert(text)
    html = re.sub(r'(href|src)="([^"]*)"', lambda found: _led(page, found), html)
    return f'<article id="{name}">{html}</article>'


def book():
    """The page."""
    body = "\n".join(chapter(page) for page in PAGES)
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>libbrake: the guide</title><style>{STYLE}</style></head>\n"
        f"<body>\n{body}\n</body></html>\n"
    )


def main():
    """Writes it to the file that is named."""
    pathlib.Path(sys.argv[1]).write_text(book(), encoding="utf-8")
    print(f"docs {pathlib.Path(sys.argv[1]).relative_to(plain.ROOT)}")


if __name__ == "__main__":
    main()
