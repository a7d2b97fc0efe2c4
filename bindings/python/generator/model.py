"""Which functions of the model take and give plain numbers, and how those are laid side by side.

A struct is spread into its numbers, one column each; a function whose structs hold tables (a
curve, a grid of temperatures) has no such columns and is left out.
"""
import dataclasses
import keyword

# Their result is what another function gives for arrays already.
_SERVED = {"brake_balance_locks"}
# Pointers that are read before they are written.
_BOTH_WAYS = {"brake_fit_booster"}
_NUMBERS = {"double", "int", "bool", "char"}


@dataclasses.dataclass
class Parameter:
    """An argument: its columns as (member, C type); a series has none."""

    variable: object
    columns: list
    series: str = ""

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
        return next((p.series for p in self.inputs if p.series), "")

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
        self.calls = [
            call
            for header in headers
            for function in header.functions
            if (call := self._call(function, header.stem))
        ]

    def members(self, variable):
        """Names of a variable's copies: one, or one for each axle; None for a table."""
        return {"": [""], "BRAKE_AXLES": ["[0]", "[1]"]}.get(variable.length)

    def columns(self, variable):
        """Numbers of a variable as (member, C type); None when it holds anything else."""
        kind, _, tag = variable.type.partition(" ")
        members = self.members(variable)
        if members is None or (kind not in _NUMBERS and tag not in {**self.structs, **self.enums}):
            return None
        if kind != "struct":
            return [(member, variable.type) for member in members]
        inner = [(f, self.columns(f)) for f in self.structs[tag]]
        if any(f.pointer or columns is None for f, columns in inner):
            return None
        return [
            (f"{member}.{f.name}{tail}", ctype)
            for member in members
            for f, columns in inner
            for tail, ctype in columns
        ]

    def _parameters(self, arguments):
        """Arguments with their columns; None when one has none. A count belongs to its series."""
        found, skip = [], False
        for at, variable in enumerate(arguments):
            if skip:
                skip = False
                continue
            following = arguments[at + 1].name if at + 1 < len(arguments) else ""
            if variable.type == "char" and variable.pointer:
                found.append(Parameter(variable, [], "text"))
            elif variable.type == "struct brake_point" and following == "count":
                found.append(Parameter(variable, [], "pairs"))
                skip = True
            elif (following == "count" and variable.pointer) or (columns := self.columns(variable)) is None:
                return None
            else:
                found.append(Parameter(variable, columns))
        return found

    def _call(self, function, stem):
        parameters = self._parameters(function.arguments)
        if parameters is None or function.name in _SERVED or "*" in function.type:
            return None
        outputs = [p for p in parameters if p.variable.pointer and not p.variable.const]
        both = function.name in _BOTH_WAYS
        inputs = [p for p in parameters if both or p not in outputs]
        if function.type not in ("void", "enum brake_status"):
            result = dataclasses.replace(function.arguments[0], name="result", length="",
                                         type=function.type, pointer=False)  # fmt: skip
            columns = self.columns(result)
            if columns is None:
                return None
            outputs = [Parameter(result, columns), *outputs]
        return Call(function, inputs, outputs, stem) if outputs else None
