# SPDX-License-Identifier: MIT
"""What the public headers of the model declare: enumerations, structs, functions, their words."""
import dataclasses
import re

_ITEM = re.compile(
    r"(?P<doc>/\*\*(?!<)(?:(?!\*/).)*\*/\s*)?"
    r"(?:(?P<kind>enum|struct)\s+(?P<tag>\w+)?\s*\{(?P<body>[^{}]*)\};"
    r"|(?P<type>[\w ]+?\**)\s*\b(?P<name>brake_\w+)\((?P<arguments>[^;{}]*)\);)",
    re.DOTALL,
)
_FIELD = re.compile(
    r"((?:const |enum |struct )*\w+[ \t*]+)(\w[^;()]*);\s*(?:/\*\*<((?:(?!\*/).)*)\*/)?", re.DOTALL
)


@dataclasses.dataclass
class Variable:
    """A field or an argument: `type` without const and pointer, `length` of an array or ''."""

    name: str
    type: str
    pointer: bool = False
    const: bool = False
    length: str = ""
    doc: str = ""


@dataclasses.dataclass
class Function:
    """A function with the tags of its doc block."""

    name: str
    type: str
    arguments: list
    summary: str
    params: dict
    returns: str
    source: str


@dataclasses.dataclass
class Header:
    """What one header declares, in its order."""

    stem: str
    summary: str
    enums: dict
    structs: dict
    docs: dict
    functions: list
    constants: dict  # of enumerations without a name: texts by name


def words(text):
    """A comment without its stars, as one text."""
    return "\n".join(re.sub(r"^\s*\*? ?", "", line) for line in text.strip("/* \n").splitlines())


def _tags(doc):
    """Summary and tags of a doc block."""
    summary, *blocks = re.split(r"^@", words(doc), flags=re.MULTILINE)
    tags = {"param": {}, "return": "", "source": ""}
    for block in blocks:
        tag, _, text = block.partition(" ")
        text = " ".join(text.split())
        if tag == "param":
            name, _, text = text.partition(" ")
            tags["param"][name] = text
        else:
            tags[tag] = text
    return summary.strip(), tags


def _variable(kind, name, doc=""):
    """A variable from its type and its declarator."""
    length = re.search(r"\[(.*?)\]", name)
    return Variable(
        re.search(r"\w+", name).group(),
        " ".join(re.sub(r"\bconst\b|\*", " ", kind).split()),
        "*" in kind,
        "const" in kind,
        length.group(1) if length else "",
        " ".join(words(doc or "").split()),
    )


def _fields(body):
    for kind, names, doc in _FIELD.findall(re.sub(r"/\*\*(?!<).*?\*/", "", body, flags=re.DOTALL)):
        for name in names.split(","):
            yield _variable(kind, name, doc)


def _arguments(text):
    for argument in " ".join(text.split()).split(","):
        if argument.strip() != "void":
            kind, name = re.fullmatch(r"(.*?[\s*]+)(\w+(?:\[.*\])?)", argument.strip()).groups()
            yield _variable(kind, name)


def _members(body):
    """Names and numbers of an enumeration."""
    number = -1
    for member in re.sub(r"/\*.*?\*/", "", body, flags=re.DOTALL).split(","):
        name, _, value = member.partition("=")
        if name.strip():
            number = int(value) if value.strip().lstrip("-").isdigit() else number + 1
            yield name.strip(), number


def _constants(body):
    """Names and values of an enumeration that only gives numbers names."""
    for member in re.sub(r"/\*.*?\*/", "", body, flags=re.DOTALL).split(","):
        name, _, value = member.partition("=")
        yield name.strip(), value.strip()


def read(path):
    """The declarations of one header."""
    text = path.read_text(encoding="utf-8")
    head = re.search(r"/\*\* @file \S+\n(.*?)\*/", text, re.DOTALL).group(1)
    found = Header(path.stem, words(head), {}, {}, {}, [], {})
    for item in _ITEM.finditer(text, text.index("#define")):
        doc = item["doc"] or ""
        if item["kind"] == "enum" and item["tag"]:
            found.enums[item["tag"]] = dict(_members(item["body"]))
        elif item["kind"] == "enum":
            found.constants.update(_constants(item["body"]))
        elif item["kind"] == "struct":
            found.structs[item["tag"]] = list(_fields(item["body"]))
        elif item["name"]:
            summary, tags = _tags(doc)
            arguments = list(_arguments(item["arguments"]))
            found.functions.append(
                Function(item["name"], item["type"].strip(), arguments, summary, tags["param"],
                         tags["return"], tags["source"])  # fmt: skip
            )
        if item["tag"]:
            found.docs[item["tag"]] = words(doc)
    return found
