# SPDX-License-Identifier: MIT
"""One Python module for each header of the model, and its types."""
from generator.model import class_name, python_name

_QUOTES = '"' * 3


def quoted(text, indent):
    """A text as a doc string."""
    lines = text.strip().replace("\\", "\\\\").split("\n")
    if len(lines) == 1:
        return f"{indent}{_QUOTES}{lines[0]}{_QUOTES}"
    body = "\n".join((indent + line).rstrip() for line in lines).lstrip()
    return f"{indent}{_QUOTES}{body}\n{indent}{_QUOTES}"


# ---- words ---------------------------------------------------------------------------------------


def _shape(parameter):
    """What an argument may be, where that is not a number."""
    kind, _, tag = parameter.variable.type.partition(" ")
    if parameter.series in ("pairs", "list"):
        return {"pairs": "pairs (x, y): ", "list": "numbers: "}[parameter.series]
    if parameter.series == "text" or kind == "char":
        return "str: "
    return f"{class_name(tag)}: " if tag else ""


def _spreads(call):
    """Whether its numbers may be arrays: records stay the same for all of them."""
    only_read = all(p.series == "record" and p not in call.outputs for p in call.series)
    return only_read and any(p.columns for p in call.inputs)


def _refuses(call):
    if call.function.type != "enum brake_status":
        return "where it is out of range the result is NaN"
    return "libbrake.errors.Refused when refused; in arrays NaN instead"


def function_doc(call):
    """The doc string of a function, from its comment in the header."""
    lines = [call.function.summary, ""]
    for parameter in call.inputs:
        text = call.function.params.get(parameter.variable.name, "")
        lines.append(f"{parameter.name}: {_shape(parameter)}{text}")
    given = [p for p in call.outputs if p.variable.name != "result"]
    for parameter in given:
        text = call.function.params.get(parameter.variable.name, "").replace("filled: ", "")
        lines.append(f"returns {parameter.name}: {text.replace('filled; ', '')}")
    if not given:
        lines.append(f"returns: {call.function.returns}")
    lines += ["", f"Refuses: {_refuses(call)}."]
    if _spreads(call):
        lines.append("Numbers or arrays of them, broadcast against each other.")
    return "\n".join([*lines, f"Source: {call.function.source}"])


def struct_doc(model, header, tag):
    """The doc string of a struct: a line a field."""
    fields = [f"{python_name(f.name)}: {f.doc}" for f in header.structs[tag]]
    return "\n".join([header.docs[tag], "", *fields])


# ---- code ----------------------------------------------------------------------------------------


def _spread(model, variable, name):
    """Expressions that put the numbers of a variable side by side."""
    kind, _, tag = variable.type.partition(" ")
    members = model.members(variable)
    for member in members:
        place = name + member
        if kind == "char":
            yield f"ord({place})"
        elif kind != "struct":
            yield place
        elif all(not f.length and not f.type.startswith("struct") for f in model.structs[tag]):
            yield f"*{place}"
        else:
            for field in model.structs[tag]:
                yield from _spread(model, field, f"{place}.{python_name(field.name)}")


def _gather(model, variable, numbers):
    """Expression that puts the numbers of a result back together."""
    kind, _, tag = variable.type.partition(" ")
    copies = []
    for _ in model.members(variable):
        if kind != "struct":
            copies.append(next(numbers))
        else:
            fields = [_gather(model, field, numbers) for field in model.structs[tag]]
            copies.append(f"{class_name(tag)}({', '.join(fields)})")
    return copies[0] if len(copies) == 1 else f"({', '.join(copies)})"


def _shape_name(parameter):
    return f"_{parameter.variable.type.partition('brake_')[2].upper()}"


def _beside(call, parameter):
    """Expression of a series."""
    if parameter in call.written:
        return f"_{parameter.name}"
    if parameter.series == "record":
        return f"_record({_shape_name(parameter)}, {parameter.name})"
    return f"_{parameter.series}({parameter.name})"


def _shapes(model, stem):
    """Lines that lay out the records of a module's functions."""
    found = {
        _shape_name(p): p.shape
        for call in model.calls
        if call.stem == stem
        for p in call.series
        if p.series == "record"
    }
    for name, shape in found.items():
        yield f"{name} = {shape}"


def _function(model, number, call):
    names = ", ".join(p.name for p in call.inputs)
    inputs = [text for p in call.inputs if not p.series
              for text in _spread(model, p.variable, p.name)]  # fmt: skip
    inside = f"{', '.join(inputs)}{',' if len(inputs) == 1 else ''}"
    found = f"_call({number}, ({inside}))"
    if call.series:
        beside = ", ".join(_beside(call, p) for p in call.series)
        found = f"_{'over' if _spreads(call) else 'serial'}({number}, ({beside},), ({inside}))"
    yield f"def {call.name}({names}):"
    yield quoted(function_doc(call), "    ")
    for parameter in call.written:
        have = f", {parameter.name}" if parameter in call.inputs else ""
        yield f"    _{parameter.name} = _record({_shape_name(parameter)}{have})"
    if call.written and not call.width[1]:
        yield f"    {found}"
        results = [f"_read({_shape_name(p)}, _{p.name})" for p in call.written]
        yield f"    return {', '.join(results)}"
        return
    numbers = iter([f"r[{at}]" for at in range(call.width[1])])
    if call.width[1] == 1:
        numbers = iter(["r"])
    results = [_gather(model, p.variable, numbers) for p in call.outputs]
    if results == ["r"]:
        yield f"    return {found}"
    else:
        yield f"    r = {found}"
        yield f"    return {', '.join(results)}"


def _needed(model, stem):
    """Structs and enumerations of other headers that this one's functions use."""
    tags = set()

    def visit(variable):
        tag = variable.type.partition(" ")[2]
        if tag and tag not in tags and tag in model.home:
            tags.add(tag)
            for field in model.structs.get(tag, []):
                visit(field)

    for call in model.calls:
        if call.stem == stem:
            for parameter in (*call.inputs, *call.outputs):
                visit(parameter.variable)
    return sorted(tags - {"brake_point"})


def _imports(model, stem):
    by_home = {}
    for tag in _needed(model, stem):
        if model.home[tag] != stem:
            by_home.setdefault(model.home[tag], []).append(class_name(tag))
    for home, names in sorted(by_home.items()):
        yield f"from libbrake.{home} import {', '.join(sorted(names))}"


def used(model, header):
    """Tags of a header that some function of the model uses."""
    everywhere = {tag for stem in {c.stem for c in model.calls} for tag in _needed(model, stem)}
    return [tag for tag in (*header.enums, *header.structs) if tag in everywhere]


def module(model, header):
    """Text of the module of a header."""
    yield quoted(header.summary, "")
    yield "from collections import namedtuple as _namedtuple"
    yield "from enum import IntEnum as _IntEnum\n"
    yield "from libbrake._core import model_call as _call"
    yield "from libbrake.arrays import list_ as _list, over as _over, pairs as _pairs"
    yield "from libbrake.arrays import serial as _serial, text as _text"
    yield "from libbrake.records import read as _read, record as _record"
    yield from _imports(model, header.stem)
    for tag in used(model, header):
        name = class_name(tag)
        if tag in header.enums:
            yield f"\n\nclass {name}(_IntEnum):"
            yield quoted(header.docs[tag] or name, "    ") + "\n"
            for member, number in header.enums[tag].items():
                yield f"    {member.removeprefix('BRAKE_')} = {number}"
        else:
            fields = " ".join(python_name(f.name) for f in header.structs[tag])
            yield f'\n\n{name} = _namedtuple("{name}", "{fields}")'
            yield f"{name}.__doc__ = {quoted(struct_doc(model, header, tag), '')}"
    yield "\n"
    yield from _shapes(model, header.stem)
    for number, call in enumerate(model.calls):
        if call.stem == header.stem:
            yield "\n"
            yield from _function(model, number, call)


# ---- types ---------------------------------------------------------------------------------------


def _type(model, variable, plain):
    """Type of a number or a struct; `plain`: that of one number."""
    kind, _, tag = variable.type.partition(" ")
    one = class_name(tag) if kind == "struct" else ("float" if plain else "Values")
    if kind == "char":
        one = "str"
    if model.members(variable) is None:
        return f"tuple[{'float' if kind != 'struct' else one}, ...]"
    count = len(model.members(variable))
    return one if count == 1 else f"tuple[{', '.join([one] * count)}]"


def _argument_type(model, parameter, plain):
    listed = {"text": "str", "pairs": "Iterable[tuple[float, float]]", "list": "Iterable[float]"}
    if parameter.series in listed:
        return listed[parameter.series]
    return _type(model, parameter.variable, plain)


def _result_type(model, call, plain):
    results = [_type(model, p.variable, plain) for p in call.outputs]
    if not plain:
        results = ["Array" if result == "Values" else result for result in results]
    return results[0] if len(results) == 1 else f"tuple[{', '.join(results)}]"


def _signatures(model, call):
    plain_only = (bool(call.series) and not _spreads(call)) or all(
        p.variable.type.startswith(("struct", "char")) for p in call.inputs
    )
    for plain in (True,) if plain_only else (True, False):
        arguments = ", ".join(f"{p.name}: {_argument_type(model, p, plain)}" for p in call.inputs)
        result = _result_type(model, call, plain)
        yield "" if plain_only else "@overload"
        yield f"def {call.name}({arguments}) -> {result}: ..."


def stub(model, header):
    """Text of the types of a module."""
    yield "from collections.abc import Iterable"
    yield "from enum import IntEnum"
    yield "from typing import NamedTuple, overload\n"
    yield "from libbrake.arrays import Array, Values"
    yield from _imports(model, header.stem)
    for tag in used(model, header):
        name = class_name(tag)
        if tag in header.enums:
            yield f"\nclass {name}(IntEnum):"
            for member, number in header.enums[tag].items():
                yield f"    {member.removeprefix('BRAKE_')} = {number}"
        else:
            yield f"\nclass {name}(NamedTuple):"
            for field in header.structs[tag]:
                yield f"    {python_name(field.name)}: {_type(model, field, False)}"
    yield ""
    for call in model.calls:
        if call.stem == header.stem:
            yield from _signatures(model, call)
