# SPDX-License-Identifier: MIT
"""Every public function is documented, as every number, with its unit and source; C++ can call
it."""
import re

from lint import layers, source

_DOC_BEFORE = re.compile(r"/\*\*(?!<)((?:(?!\*/).)*)\*/\s*\Z", re.DOTALL)
_FUNCTION = re.compile(
    r"(?P<type>[\w\s*]+?)\b(?P<name>\w+)\s*\((?P<arguments>.*)\)[^()]*[;{]", re.DOTALL
)
# The unit of a quantity or a result of the vehicle stands once, in its row of a table.
_FIELDS_ELSEWHERE = {"vehicle", "results"}

_FIELD = re.compile(r"\bdouble\b[^;()]*;[ \t]*(/\*\*<(?:(?!\*/).)*\*/)?", re.DOTALL)
_UNIT = re.compile(r"\[[^\[\]]+\]")
_FOR_CPLUSPLUS = re.compile(
    r'#ifdef __cplusplus\nextern "C" \{\n#endif\n.*#ifdef __cplusplus\n\}\n#endif\n', re.DOTALL
)


def _tags(doc):
    """Tags of a doc block: {"param": {name: text}, "return": {"": text}, "source": ...}."""
    lines = [re.sub(r"^\s*\*? ?", "", line) for line in doc.splitlines()]
    tags = {"param": {}, "return": {}, "source": {}}
    for block in re.split(r"^@", "\n".join(lines), flags=re.MULTILINE)[1:]:
        tag, _, text = block.partition(" ")
        key = ""
        if tag == "param":
            key, _, text = text.strip().partition(" ")
        tags.setdefault(tag, {})[key] = " ".join(text.split())
    return tags


def _argument_name(argument):
    pointer = re.search(r"\(\s*\*\s*(\w+)", argument)
    return pointer.group(1) if pointer else re.findall(r"\w+", re.sub(r"\[.*?\]", "", argument))[-1]


def _is_number(argument):
    """Whether an argument is a double, or points to some; a function is neither."""
    return re.search(r"\bdouble\b", argument) is not None and "(" not in argument


def functions(text):
    """Functions that a header declares, as (offset, name, type, arguments)."""
    code = source.code_only(text)
    for start, end in source.top_level(code):
        piece = code[start:end]
        found = _FUNCTION.match(piece.strip())
        if found and not piece.strip().startswith("typedef"):
            offset = start + len(piece) - len(piece.lstrip())
            yield (
                offset,
                found["name"],
                " ".join(found["type"].split()),
                source.split_arguments(found["arguments"]),
            )


def _lacks(text, offset, kind, arguments, needs_source):
    """What the doc block of one function lacks."""
    block = _DOC_BEFORE.search(text[:offset])
    if not block:
        yield "has no doc block right before it"
        return
    tags = _tags(block.group(1))
    names = [_argument_name(argument) for argument in arguments]
    if list(tags["param"]) != names:
        yield f"documents ({', '.join(tags['param'])}), takes ({', '.join(names)})"
    for argument, name in zip(arguments, names):
        if _is_number(argument) and not _UNIT.match(tags["param"].get(name, "")):
            yield f"@param {name}: no [unit] first"
    if kind == "void" and tags["return"]:
        yield "@return of a void function"
    if kind != "void" and not tags["return"].get(""):
        yield "no @return"
    if kind == "double" and not _UNIT.match(tags["return"].get("", "")):
        yield "@return: no [unit] first"
    if needs_source and not tags["source"].get(""):
        yield "no @source"


def function_findings(text, shown, needs_source):
    """Findings on the functions that the text of a header declares."""
    for offset, name, kind, arguments in functions(text):
        for what in _lacks(text, offset, kind, arguments, needs_source):
            yield f"{shown}:{source.line_of(text, offset)}: {name} {what}"


def field_findings(text, shown):
    """Findings on the numbers in the structs of a header."""
    code = source.code_only(text)
    for field in _FIELD.finditer(text):
        if code.startswith("double", field.start()) and not _UNIT.match(
            (field.group(1) or "")[4:].strip()
        ):
            line = source.line_of(text, field.start())
            yield f"{shown}:{line}: {field.group().split(';')[0]}: no /**< [unit] ... */"


def linkage_findings(text, shown):
    """Functions that a header declares where C++ would take them for its own."""
    block = _FOR_CPLUSPLUS.search(text)
    inside = range(*block.span()) if block else ()
    for offset, name, _, _ in functions(text):
        if offset not in inside:
            line = source.line_of(text, offset)
            yield f'{shown}:{line}: {name}: not within extern "C", so no C++ program links with it'


def declared():
    """Names of all public functions."""
    return {
        name
        for header in source.INCLUDE.glob("*.h")
        for _, name, _, _ in functions(header.read_text())
    }


def findings():
    """Findings in the public headers."""
    for header in sorted(source.INCLUDE.glob("*.h")):
        text, shown = header.read_text(), source.name(header)
        yield from function_findings(text, shown, header.stem in layers.SOURCED)
        yield from linkage_findings(text, shown)
        if header.stem not in _FIELDS_ELSEWHERE:
            yield from field_findings(text, shown)
