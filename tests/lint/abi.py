# SPDX-License-Identifier: MIT
"""What a program linked with the library relies on: its functions, structs and enums.

abidw (Debian's abigail-tools) reads them from a build with debug information; reference/abi.txt
holds them, one a line.

usage: PYTHONPATH=tests python3 -m lint.abi LIBRARY.so   writes reference/abi.txt
"""
import shutil
import subprocess
import sys
import textwrap
import xml.etree.ElementTree as ElementTree

from lint import source
from trust import record

RECORD = source.ROOT / "reference" / "abi.txt"
HEADERS = "libbrake/include/brake/"
LACKING = "abi: skipped, there is no abidw; install the package abigail-tools"
HEAD = """\
# What a program that is linked with the library relies on, on x86-64: functions, structs with the
# place of each member in bytes, enums. Written by `make abi`, held by `make lint`.
"""


def there():
    """Whether it can be read here."""
    return shutil.which("abidw") is not None


class _Types:
    """Names of the types of one abidw document."""

    def __init__(self, corpus):
        self.by_id = {one.get("id"): one for one in corpus.iter() if one.get("id")}

    def name(self, number):
        """A type as C has it, but for the place of stars and brackets."""
        one = self.by_id[number]
        known = getattr(self, "_" + one.tag.replace("-", "_"), None)
        return known(one) if known else one.get("name")

    def _pointer_type_def(self, one):
        return self.name(one.get("type-id")) + "*"

    def _qualified_type_def(self, one):
        words = [word for word in ("const", "volatile") if one.get(word) == "yes"]
        return " ".join([*words, self.name(one.get("type-id"))])

    def _array_type_def(self, one):
        sizes = "".join(f"[{part.get('length')}]" for part in one.iter("subrange"))
        return self.name(one.get("type-id")) + sizes

    def _class_decl(self, one):
        unnamed = one.get("is-anonymous") == "yes"
        return f"struct {{{self.members(one)}}}" if unnamed else "struct " + one.get("name")

    def members(self, one):
        """The members of a struct, each with its place."""
        return "; ".join(self._member(part) for part in one.findall("data-member"))

    def _member(self, one):
        declared = one.find("var-decl")
        place, bits = divmod(int(one.get("layout-offset-in-bits")), 8)
        at = f"{place}:{bits}" if bits else place
        return f"{at} {self.name(declared.get('type-id'))} {declared.get('name')}"

    def _enum_decl(self, one):
        return "enum " + one.get("name")

    def _function_type(self, one):
        return self.call("", one)

    def call(self, name, one):
        """A function with what it takes and gives."""
        takes = ["..." if part.get("is-variadic") == "yes" else self.name(part.get("type-id"))
                 for part in one.findall("parameter")]  # fmt: skip
        gives = one.find("return")
        return f"{name}({', '.join(takes)}) -> {self.name(gives.get('type-id'))}"


def _struct(types, one):
    size = int(one.get("size-in-bits")) // 8
    return f"struct {one.get('name')} {size}: {types.members(one)}"


def _enum(one):
    values = (f"{part.get('name')} {part.get('value')}" for part in one.findall("enumerator"))
    return f"enum {one.get('name')}: {', '.join(values)}"


def lines(document):
    """Lines of the record, of what abidw wrote: what public headers declare."""
    corpus = ElementTree.fromstring(document)
    types = _Types(corpus)
    offered = {one.get("name") for one in corpus.iter("elf-symbol")}
    public = [one for one in corpus.iter() if HEADERS in (one.get("filepath") or "")]
    found = {types.call(one.get("name"), one) for one in corpus.iter("function-decl")
             if one.get("name") in offered}  # fmt: skip
    for one in public:
        if one.get("is-anonymous") == "yes":
            continue  # stands in the struct that holds it
        if one.tag == "class-decl" and one.get("size-in-bits"):
            found.add(_struct(types, one))
        elif one.tag == "enum-decl":
            found.add(_enum(one))
    return ["library " + corpus.get("soname"), *sorted(found)]


def read(library):
    """Lines of the record, of a library with debug information."""
    run = subprocess.run(["abidw", library], capture_output=True, text=True, check=True)
    return lines(run.stdout)


def recorded():
    """Lines of the record as it is kept."""
    kept = []
    for line in RECORD.read_text(encoding="utf-8").splitlines():
        if line.startswith(" "):
            kept[-1] += " " + line.strip()
        elif not line.startswith("#"):
            kept.append(line)
    return kept


def _short(line):
    return textwrap.shorten(line, 80, placeholder=" ...")


def differences(kept, now):
    """What is told of two lists of lines. What is gone or changed breaks programs that are linked
    with this version: the next minor one has another soname."""
    same_library = kept[:1] == now[:1]
    for line in sorted(set(kept) - set(now)):
        broken = " and the soname is the same" if same_library else ""
        yield f"{RECORD.name}: gone or changed{broken} (`make abi` records it): {_short(line)}"
    for line in sorted(set(now) - set(kept)):
        yield f"{RECORD.name}: new (`make abi` records it): {_short(line)}"


def findings(library):
    """What the library with debug information has and the record has not, and the other way."""
    if not there():
        print(LACKING)
        return []
    return list(differences(recorded(), read(library)))


def main():
    if not there():
        sys.exit(LACKING)
    wrap = textwrap.TextWrapper(100, subsequent_indent="   ", break_on_hyphens=False)
    found = read(sys.argv[1])
    kinds = [line.split()[0] for line in found]
    structs, enums = kinds.count("struct"), kinds.count("enum")
    functions = len(found) - structs - enums - 1
    record.record(
        "abi", "What linked programs rely on",
        {"recorded": f"{functions} functions, {structs} structs, {enums} enums"},
        "Symbols of the shared library, layouts of public structs and enums, as abidw reads them "
        "from a build with debug information; make lint and make check hold them to the record.",
        "Other processors than x86-64; what a function does.")  # fmt: skip
    wrapped = (wrap.fill(line) for line in found)
    RECORD.write_text(HEAD + "".join(f"{line}\n" for line in wrapped), encoding="utf-8")


if __name__ == "__main__":
    main()
