# SPDX-License-Identifier: MIT
"""What the built library holds and needs, by its symbols."""
import re
import subprocess

from lint import headers

# All that the physics may call: itself, mathematics, and plain work on memory and text. No
# allocation, no input or output, no errno, no process. What the processor can do is a constant.
_ALLOWED = re.compile(
    r"brake_\w+|_GLOBAL_OFFSET_TABLE_|__stack_chk_fail|__cpu_model"
    r"|mem(?:cpy|move|set|cmp)|str(?:len|cmp|ncmp|chr)|__mem(?:cpy|move|set)_chk"
    r"|a?(?:sin|cos|tan)h?|atan2|sincos|exp|exp2|expm1|log|log2|log10|log1p|pow|sqrt|cbrt|hypot"
    r"|erfc?|tgamma|lgamma|fmod|fmin|fmax|fdim|fma|fabs|floor|ceil|round|trunc|copysign|nextafter"
)
# Constants that hold addresses are relocated once and read-only from then on.
_WRITABLE = re.compile(r"\.t?(?:data|bss)(?!\.rel\.ro)|\*COM\*")


def _nm(*arguments):
    run = subprocess.run(
        ["nm", "-f", "sysv", *map(str, arguments)], check=True, capture_output=True, text=True
    )
    for line in run.stdout.splitlines():
        fields = [field.strip() for field in line.split("|")]
        if len(fields) == 7:
            yield fields[0], fields[2], fields[6]


def object_findings(path):
    """Findings in one object file of the model."""
    for name, kind, section in _nm(path):
        if kind in "Uw" and not _ALLOWED.fullmatch(name):
            yield f"{path}: calls {name}"
        elif _WRITABLE.match(section):
            yield f"{path}: {name} can be written to ({section})"


def exported(library):
    """Names that a shared library offers."""
    return {name for name, _, _ in _nm("--dynamic", "--defined-only", library)}


def export_findings(library):
    """Findings in the names that the shared library offers."""
    names = exported(library)
    for name in sorted(names):
        if not name.startswith("brake_"):
            yield f"{library}: exports {name}"
    for name in sorted(headers.declared() - names):
        yield f"{library}: {name} is declared in a public header and defined nowhere"


def findings(build):
    """Findings in the build folder."""
    for path in sorted((build / "libbrake" / "model").glob("*.o")):
        yield from object_findings(path)
    yield from export_findings(build / "libbrake.so")
