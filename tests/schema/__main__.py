# SPDX-License-Identifier: MIT
"""Writes the schemas of all answers: make schema."""
import json
import re

from file import plain
from schema import answers, shape

FOLDER = plain.ROOT / "reference" / "schema"


def laid_out(schema):
    """Its text: what is short stands on one line."""
    text = json.dumps(schema, indent=1, ensure_ascii=False)
    while True:
        shorter = re.sub(r"([\[{])\n *([^\[\]{}]{1,80})\n *([\]}])", _on_one_line, text)
        if shorter == text:
            assert json.loads(text) == schema
            return text + "\n"
        text = shorter


def _on_one_line(found):
    inside = " ".join(found[2].split())
    return f"{found[1]}{inside}{found[3]}" if len(inside) <= 80 else found[0]


def texts():
    """(file, what it must hold) for every verb."""
    for verb, found in answers.answers().items():
        schema = shape.schema_of(verb, [answer for _, answer in found])
        yield FOLDER / f"{verb}.json", laid_out(schema)


def main():
    """Writes them."""
    FOLDER.mkdir(exist_ok=True)
    for path, text in texts():
        path.write_text(text, encoding="utf-8")
        print(f"schema {path.relative_to(plain.ROOT)}")


if __name__ == "__main__":
    main()
