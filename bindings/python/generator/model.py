# SPDX-License-Identifier: MIT
"""Which functions of the model take and give plain numbers, and how those are laid side by side.

A struct is spread into its numbers, one column each. One that holds tables (a curve, a grid of
temperatures) goes as the bytes that it is, a record: one for all cases.
"""
import dataclasses
import keyword

# Functions that are not for Python, and what serves there.
LEFT_OUT = {
    "brake_balance_locks": "balance.lock takes arrays",
    "brake_balance_points": "balance.pressure and balance.at take arrays",
    "brake_braking_begin": "Vehicle.heat; a rig points to what it is made of",
    "brake_braking_advance": "Vehicle.heat; a rig points to what it is made of",
    "brake_status_message": "the exceptions of libbrake.errors tell it",
}
# Pointers that are read before they are written.
_BOTH_WAYS = {"brake_fit_booster", "brake_thermal_advance"}
# Types of numbers, with their letters in the module struct of Python.
_NUMBERS = {"double": "d", "int": "i", "bool": "?", "char": "c", "long": "l"}


@dataclasses.dataclass
class Parameter:
    """An argument: its columns as (member, C type); a series has none, a record has a shape."""

    variable: object
    columns: list
    series: str = ""
    shape: str = ""

    @property
    def name(self):
        return python_name(self.variable.name)


@dataclasses.dataclass
class Call:
    """A function as Python sees it."""

    function: object
    inputs: list
    outputs: list
    stem: str

    @property
    def name(self):
        """Its name in the module of its header."""
        return python_name(self.function.name.removeprefix("brake_").removeprefix(self.stem + "_"))

    @property
    def series(self):
        """What goes beside the numbers, in the order of the declaration."""
        sides = {p.name: p for p in (*self.outputs, *self.inputs)}
        order = [python_name(v.name) for v in self.function.arguments]
        return [sides[name] for name in order if name in sides and sides[name].series]

    @property
    def written(self):
        """Records among the results."""
        return [p for p in self.outputs if p.series == "record"]

    @property
    def whole(self):
        """Bits of the columns that hold whole numbers."""
        types = [ctype for p in self.inputs for _, ctype in p.columns]
        return sum(1 << at for at, ctype in enumerate(types) if ctype != "double")

    @property
    def width(self):
        """Number of columns that go in and come out."""
        return [sum(len(p.columns) for p in side) for side in (self.inputs, self.outputs)]


def python_name(name):
    """A name that is no keyword."""
    return name + "_" if keyword.iskeyword(name) else name


def class_name(tag):
    """`brake_axle_brakes` is AxleBrakes."""
    return "".join(word.capitalize() for word in tag.removeprefix("brake_").split("_"))


class Model:
    """The headers of the model together."""

    def __init__(self, headers):
        self.headers = headers
        self.structs = {tag: f for header in headers for tag, f in header.structs.items()}
        self.enums = {tag: m for header in headers for tag, m in header.enums.items()}
        self.home = {
            tag: header.stem for header in headers for tag in (*header.structs, *header.enums)
        }
        self._constants = {
            name: value
            for header in headers
            for names in (header.constants, *header.enums.values())
            for name, value in names.items()
        }
        self.calls = [
            self._call(function, header.stem)
            for header in headers
            for function in header.functions
            if function.name not in LEFT_OUT
        ]

    def length(self, text):
        """Number that a length stands for: a number, a name, or a sum of them."""
        terms = [term.strip() for term in str(text).split("+")]
        if len(terms) > 1:
            return sum(self.length(term) for term in terms)
        return int(text) if str(text).isdigit() else self.length(self._constants[text])

    def members(self, variable):
        """Names of a variable's copies: one, or one for each axle; None for a table."""
        return {"": [""], "BRAKE_AXLES": ["[0]", "[1]"]}.get(variable.length)

    def shape(self, variable):
        """How a record is laid out, as Python text; "" where something in it points elsewhere."""
        kind, _, tag = variable.type.partition(" ")
        inner = repr(_NUMBERS.get(kind, "i"))
        if kind == "struct":
            fields = [self.shape(field) for field in self.structs[tag]]
            if "" in fields or any(field.pointer for field in self.structs[tag]):
                return ""
            inner = f"({class_name(tag)}, [{', '.join(fields)}])"
        return f"({self.length(variable.length)}, {inner})" if variable.length else inner

    def columns(self, variable):
        """Numbers of a variable as (member, C type); None when it holds anything else."""
        kind, _, tag = variable.type.partition(" ")
        members = self.members(variable)
        if members is None or (kind not in _NUMBERS and tag not in {**self.structs, **self.enums}):
            return None
        if kind != "struct":
            return [(member, variable.type) for member in members]
        inner = [(f, self.columns(f)) for f in self.structs[tag]]
        if any(f.pointer or of is None for f, of in inner):
            return None
        return [
            (f"{member}.{f.name}{tail}", ctype)
            for member in members
            for f, of in inner
            for tail, ctype in of
        ]

    def _parameter(self, variable, listed):
        """An argument with its columns, its kind of series or its shape."""
        if variable.type == "char" and variable.pointer:
            return Parameter(variable, [], "text")
        if listed:
            return Parameter(
                variable, [], "pairs" if variable.type.startswith("struct") else "list"
            )
        columns = self.columns(variable)
        if columns is not None:
            return Parameter(variable, columns)
        shape = self.shape(variable)
        if not shape:
            raise ValueError(f"{variable.type} {variable.name} is nothing that Python can give")
        return Parameter(variable, [], "record", shape)

    def _call(self, function, stem):
        arguments = function.arguments
        counted = next((at for at in range(1, len(arguments)) if arguments[at].name == "count"
                        and arguments[at - 1].pointer), 0)  # fmt: skip
        parameters = [
            self._parameter(variable, at < counted and variable.pointer)
            for at, variable in enumerate(arguments)
            if at != counted or not counted
        ]
        outputs = [p for p in parameters if p.variable.pointer and not p.variable.const]
        both = function.name in _BOTH_WAYS
        inputs = [p for p in parameters if both or p not in outputs]
        if function.type not in ("void", "enum brake_status"):
            result = dataclasses.replace(function.arguments[0], name="result", length="",
                                         type=function.type, pointer=False)  # fmt: skip
            outputs = [Parameter(result, self.columns(result)), *outputs]
        return Call(function, inputs, outputs, stem)
