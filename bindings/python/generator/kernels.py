# SPDX-License-Identifier: MIT
"""The loops in C over the functions of the model, one a function."""

_HEAD = """/* Made from the headers by generator/kernels.py. */
#include <string.h>

#include "columns.h"

#include "brake/brake.h"

"""


def _value(ctype, column, case="i"):
    """C text of one number of a column."""
    value = f"column_at(c{column}, {case})"
    return value if ctype == "double" else f"({ctype}){value}"


def _declare(call):
    """Lines that declare what the function works on."""
    column = 0
    for parameter in call.inputs:
        name, count = parameter.variable.name, len(parameter.columns)
        if parameter.variable.type.startswith("struct") and count:
            yield f"    {parameter.variable.type} {name};"
            yield f"    const bool {name}_moves = columns_move(in + {column}, {count});"
        column += count
    for at in range(column):
        yield f"    const struct column c{at} = in[{at}];"
    for parameter in call.outputs:
        if parameter not in call.inputs:
            yield f"    {parameter.variable.type} {parameter.variable.name};"
    for parameter in call.inputs:
        if parameter.series == "record":
            yield f"    {parameter.variable.type} {parameter.variable.name};"
    for at, parameter in enumerate(call.series):
        if parameter.series == "record" and parameter in call.inputs:
            name = parameter.variable.name
            yield f"    memcpy(&{name}, series[{at}].at, sizeof {name});"


def _fill(call, case, when):
    """Lines that fill the structs of a case: those of which some number moves, or all."""
    column = 0
    for parameter in call.inputs:
        name, count = parameter.variable.name, len(parameter.columns)
        if parameter.variable.type.startswith("struct") and count:
            yield f"    if ({when.format(name)}) {{"
            for offset, (member, ctype) in enumerate(parameter.columns):
                yield f"        {name}{member} = {_value(ctype, column + offset, case)};"
            yield "    }"
        column += count


def _argument(call, parameter, column):
    """C text of one argument of the call."""
    variable = parameter.variable
    if parameter.series and parameter.series != "record":
        return f"series[{call.series.index(parameter)}].at"
    if variable.type.startswith("struct") or (variable.pointer and not variable.const):
        return ("&" if variable.pointer else "") + variable.name
    return _value(variable.type, column)


def _arguments(call):
    """Arguments in the order of the declaration."""
    inputs = {p.variable.name: p for p in (*call.outputs, *call.inputs)}
    places, column = {}, 0
    for parameter in call.inputs:
        places[parameter.variable.name] = column
        column += len(parameter.columns)
    for variable in call.function.arguments:
        if variable.name not in inputs:
            yield f"(int)(series[0].size / (long)sizeof({call.series[0].variable.type}))"
        else:
            yield _argument(call, inputs[variable.name], places.get(variable.name))


def _result(call):
    return {"void": "", "enum brake_status": "status = "}.get(call.function.type, "result = ")


def _give(call):
    """Lines that write the results into their columns."""
    column = 0
    for parameter in call.outputs:
        for member, ctype in parameter.columns:
            cast = "" if ctype == "double" else "(double)"
            yield f"        o{column}[i] = {cast}{parameter.variable.name}{member};"
            column += 1
        if parameter.series:
            name = parameter.variable.name
            at = call.series.index(parameter)
            yield f"        memcpy(series[{at}].at, &{name}, sizeof {name});"


def _lists(call):
    """Lines that refuse lists of different lengths, which have one count."""
    lists = [at for at, parameter in enumerate(call.series) if parameter.series == "list"]
    for at in lists[1:]:
        yield f"    if (series[{at}].size != series[0].size)"
        yield "        return BRAKE_E_SIZE;"


def _loop(number, call):
    function = call.function.name
    lines = [
        f"/* {function} */",
        f"static enum brake_status loop_{number}(const struct series *series, "
        "const struct column *in,",
        "    double *const *out, long count)",
        "{",
        "    enum brake_status status = BRAKE_OK;",
        "    (void)series;",
        "    (void)in;",
        "    (void)out;",
        *_lists(call),
        *_declare(call),
        *(f"    double *const o{at} = out[{at}];" for at in range(call.width[1])),
        *_fill(call, "0", "count > 0"),
        "    for (long i = 0; i < count; i++) {",
        *_fill(call, "i", "{}_moves"),
        f"        {_result(call)}{function}({', '.join(_arguments(call))});",
        *_give(call),
        "    }",
        "    return status;",
        "}",
    ]
    return "\n".join(lines)


def _row(number, call):
    """Row of the table of functions."""
    sizes = [f"sizeof({p.variable.type})" if p.series == "record" else "0" for p in call.series]
    written = sum(1 << at for at, p in enumerate(call.series) if p in call.outputs)
    names = ", ".join(p.variable.name + member for p in call.inputs for member, _ in p.columns)
    return (
        f'    {{"{names}",\n     '
        f"{call.width[0]}, {call.width[1]}, 0x{call.whole:x}u, {len(sizes)}, 0x{written:x}u,"
        f" {{{', '.join(sizes) or '0'}}}, loop_{number}}}"
    )


def source(model):
    """Text of kernels.c."""
    loops = "\n\n".join(_loop(number, call) for number, call in enumerate(model.calls))
    rows = ",\n".join(_row(number, call) for number, call in enumerate(model.calls))
    return (
        f"{_HEAD}{loops}\n\nconst struct kernel kernels[] = {{\n{rows}\n}};\n\n"
        f"const int kernels_count = {len(model.calls)};\n"
    )
