# SPDX-License-Identifier: MIT
"""The JSON Schema of answers of one verb: their shape from the answers, their names from the
tables.

A number that is not known is null, so every number may be. A name that a table of the library has
is one of that table. Objects whose members are named by a table are open to all of it; others are
closed."""
import collections
import os
import re
import subprocess

from file import plain

DRIVER = os.path.join(
    os.environ.get("LIBBRAKE_BUILD", str(plain.ROOT / "build")), "tests", "schema-driver"
)
DIALECT = "https://json-schema.org/draft/2020-12/schema"
# Members that hold a name of a table, or a word of a verdict; those of the second line may be null.
ALWAYS = {"id", "path"}
SOMETIMES = {"limiting", "measure_next", "took_most", "gave_most", "group",
             "verdict", "verdict_before", "verdict_after", "from", "to"}  # fmt: skip
# Words for what went wrong, which it need not have done in any answer.
TROUBLE = {"reason", "refused", "refused_for"}
UNITS = {"unit", "second_unit"}
PART = r"^part\.[A-Za-z0-9_-]{1,40}\.(%s)$"


class Unshown(Exception):
    """No answer shows what something holds: one more belongs in answers.py."""


def tables():
    """Names by table."""
    names = collections.defaultdict(list)
    for line in subprocess.run(
        [DRIVER], check=True, capture_output=True, text=True
    ).stdout.splitlines():
        table, name = line.split("\t")
        names[table].append(name)
    return names


def definitions(names):
    """A schema for the names of each table."""
    found = {table: {"enum": sorted(set(rows))} for table, rows in names.items()}
    part = "part.NAME."
    lines = [name for name in names["quantity"] if not name.startswith(part)]
    of_part = sorted(name.removeprefix(part) for name in names["quantity"] if name.startswith(part))
    found["quantity"] = {"anyOf": [{"enum": sorted(lines)}, {"pattern": PART % "|".join(of_part)}]}
    return found


def _is(schema, name):
    return any(
        name in one["enum"] if "enum" in one else re.search(one["pattern"], name)
        for one in schema.get("anyOf", [schema])
    )


class Shape:
    """Schemas of values, `definitions` being of the names; `used` are those that some value has."""

    def __init__(self, defined):
        self.defined, self.used = defined, set()

    def names(self, found):
        """The first table that has all of the names; None when there is none."""
        for table, schema in self.defined.items():
            if table != "unit" and all(_is(schema, name) for name in found):
                self.used.add(table)
                return {"$ref": f"#/$defs/{table}"}
        return None

    def text(self, key, texts):
        """More than that it is a text."""
        if key in UNITS:
            self.used.add("unit")
            return {"$ref": "#/$defs/unit"}
        return self.names(texts) if key in ALWAYS | SOMETIMES else None

    def of(self, key, values):
        """The schema of what stands under a key."""
        kinds = collections.defaultdict(list)
        for value in values:
            kinds[_kind(value)].append(value)
        if set(kinds) == {"null"}:
            if key not in TROUBLE:
                raise Unshown(key)
            kinds["string"] = []
        if "number" in kinds:
            kinds["null"] = []
        schema = {}
        if "object" in kinds:
            schema |= self._object(key, kinds["object"])
        if "array" in kinds:
            schema |= self._array(key, kinds["array"])
        name = self.text(key, kinds["string"]) if "string" in kinds else None
        if name is not None and set(kinds) <= {"string", "null"}:
            if key in SOMETIMES:
                kinds["null"] = []
            return {"anyOf": [name, {"type": "null"}]} if "null" in kinds else name
        types = sorted(kinds)
        return {"type": types[0] if len(types) == 1 else types} | schema

    def _array(self, key, arrays):
        items = [item for array in arrays for item in array]
        if not items:
            raise Unshown(key)
        return {"items": self.of(key, items)}

    def _object(self, key, objects):
        keys = list(dict.fromkeys(name for one in objects for name in one))
        if any("." in name or name.isdigit() for name in keys) or (
            keys and all(_is(self.defined["change"], key) for key in keys)
        ):
            members = [member for one in objects for member in one.values()]
            named = self.names(keys)
            return ({"propertyNames": named} if named else {}) | {
                "additionalProperties": self.of(key, members)
            }
        members = {
            name: self.of(name, [one[name] for one in objects if name in one]) for name in keys
        }
        required = [name for name in keys if all(name in one for one in objects)]
        return {"properties": members, "required": required, "additionalProperties": False}


def _kind(value):
    for kind, name in (
        (dict, "object"),
        (list, "array"),
        (str, "string"),
        (bool, "boolean"),
        (type(None), "null"),
    ):
        if isinstance(value, kind):
            return name
    return "number"


def schema_of(verb, answers):
    """The schema of a verb's answers, each of which begins with the version, the form and the
    caution."""
    shape = Shape(definitions(tables()))
    body = shape.of("", answers)
    first = answers[0]
    body["properties"] |= {
        "libbrake": {"type": "string", "pattern": r"^\d+\.\d+\.\d+$"},
        "format": {"const": first["format"]},
        "caution": {"const": first["caution"]},
    }
    return {
        "$schema": DIALECT,
        "$id": f"urn:libbrake:format:{first['format']}:{verb}",
        "title": f"stopmargin {verb} --json",
        "description": "Numbers are in SI units; what is not known is null.",
        **body,
        "$defs": {table: shape.defined[table] for table in sorted(shape.used)},
    }
