# SPDX-License-Identifier: MIT
"""Small faults that could stand in a source file: another operator, another comparison, another
number. They are drawn from what clang-format laid out: an operator of two operands stands between
blanks, one of a single operand does not."""
import dataclasses
import random
import re

from lint import source

_OTHERS = {
    "+": ("-",), "-": ("+",), "*": ("/",), "/": ("*",), "%": ("*",),
    "+=": ("-=",), "-=": ("+=",), "*=": ("/=",), "/=": ("*=",),
    "<": ("<=", ">="), "<=": ("<", ">"), ">": (">=", "<="), ">=": (">", "<"),
    "==": ("!=",), "!=": ("==",), "&&": ("||",), "||": ("&&",),
    "&": ("|",), "|": ("&",), "<<": (">>",), ">>": ("<<",),
}  # fmt: skip
_BETWEEN = r"(?<=\s)(?:[-+*/]=?|%|[<>]=?|[=!]=|&&?|\|\|?|<<|>>)(?=\s)"
_SIGN = r"(?<=[\s(\[{,])[-!](?=[\w(])"
_NUMBER = r"(?<![\w.])(?:\d+\.\d*|\.?\d+)(?:[eE][-+]?\d+)?(?:[uUlL]*)(?![\w.])"
_TOKEN = re.compile(f"(?P<between>{_BETWEEN})|(?P<sign>{_SIGN})|(?P<number>{_NUMBER})")
# How many bytes, nodes or steps there is room for is no formula: one more changes no answer.
_ROOM = re.compile(
    r"\benum\s*\{[^}]*\}|\w[\s*]+\w+(?:\[\d+\])+(?=\s*[;,=)])"
    r"|\b(?:double|struct \w+) \w+(?:\[\w+ \+ \d+\])+"
)
# Half the numbers of its layer; `spread/test_samples.py` holds each of them against SciPy's.
_TABLES = ("directions.c",)
_FUNCTION = re.compile(r"^\{\n.*?^\}", re.MULTILINE | re.DOTALL)
_SMALL = re.compile(r"(\d+(?:\.\d+)?[eE])([-+]?\d+)$")


@dataclasses.dataclass(frozen=True)
class Mutant:
    """One fault: a file below the root, where in it, what stands there and what comes instead."""

    path: str
    line: int
    offset: int
    before: str
    after: str

    def applied(self, text):
        end = self.offset + len(self.before)
        assert text[self.offset : end] == self.before, f"{self.path}: the text has changed"
        return text[: self.offset] + self.after + text[end:]

    def lines(self, text):
        """The line as it is and as it would be, without the blanks around."""
        return tuple(
            version.splitlines()[self.line - 1].strip() for version in (text, self.applied(text))
        )


def other_number(number):
    """One more for a whole number, 1 % more for another, three decades more for a tolerance."""
    digits = number.rstrip("uUlL")
    tolerance = _SMALL.match(digits)
    if tolerance and int(tolerance.group(2)) <= -6:
        return f"{tolerance.group(1)}{int(tolerance.group(2)) + 3}"
    if digits.isdigit():
        return f"{int(digits) + 1}{number[len(digits):]}"
    return repr(float(f"{float(digits) * 1.01:.12g}")) if float(digits) else "1.0"


def _others(match):
    token = match.group()
    if match.lastgroup == "number":
        return (other_number(token),)
    return _OTHERS[token] if match.lastgroup == "between" else ("",)


def sites(text, header=False):
    """Where a fault can stand, with what could stand there instead: (offset, before, choices)."""
    code = source.code_only(text)
    for room in _ROOM.finditer(code):
        code = code[: room.start()] + re.sub(r"\d", " ", room.group()) + code[room.end() :]
    # What a header declares is compiled into the tests too: only its functions.
    inside = [match.span() for match in _FUNCTION.finditer(code)] if header else [(0, len(code))]
    for start, end in inside:
        for match in _TOKEN.finditer(code, start, end):
            yield match.start(), match.group(), _others(match)


def all_sites(root, layer):
    for path in sorted((root / "libbrake" / layer).glob("*.[ch]")):
        if path.name in _TABLES:
            continue
        text = path.read_text(encoding="utf-8")
        for offset, before, choices in sites(text, path.suffix == ".h"):
            line = source.line_of(text, offset)
            yield path.relative_to(root).as_posix(), line, offset, before, choices


def draw(root, layer, seed):
    """Every place of a layer once, in the order of a seed, each with one of its faults."""
    any_of = random.Random(f"{layer} {seed}")
    found = list(all_sites(root, layer))
    any_of.shuffle(found)
    for path, line, offset, before, choices in found:
        yield Mutant(path, line, offset, before, any_of.choice(choices))
