# SPDX-License-Identifier: MIT
"""What `check` says of a vehicle."""
import json
from array import array

from libbrake import _core
from libbrake.tree import Named, Tree

RULES = {}
while word := _core.rules_word(len(RULES)):
    RULES[word] = _core.rules_bits(len(RULES))


class Check(Tree):
    """Results by name (`c.full.stop.distance`, SI, NaN when it cannot be said), `criteria`,
    `warnings`, `summary`, `inspector`, `caution`, and `changes` when the vehicle before is told.
    Printed, it is the report of the command.
    """

    def __init__(self, sheet, rules, before=None):
        exact = array("d", bytes(8 * _core.result_count()))
        self._sheet, self._rules, self._before = sheet, rules, before
        self._text = _core.sheet_check_json(sheet, before, rules, [exact])
        found = json.loads(self._text)
        # JSON keeps all but the last bit of a number.
        super().__init__(dict(zip(found["results"], exact)))
        self.criteria = [Named(one) for one in found["criteria"]]
        self.warnings = [Named(one) for one in found["warnings"]]
        self.summary = Named(found["summary"])
        self.changes = Named(found["changes"]) if before is not None else None
        self.inspector = found["inspector"]
        self.caution = found["caution"]

    def to_dict(self):
        """The object that `stopmargin check --json` prints."""
        return json.loads(self._text)

    def __eq__(self, other):
        return isinstance(other, Check) and self._text == other._text

    __hash__ = None

    def __repr__(self):
        return _core.sheet_report(self._sheet, self._before, self._rules)

    def _repr_html_(self):
        from libbrake.html import check

        return check(self)

    def __reduce__(self):
        from libbrake.vehicle import Vehicle

        before = None if self._before is None else Vehicle(bytes(self._before))
        return _restore, (Vehicle(self._sheet), self._rules, before)


def rules_bits(rules):
    """Families of rules as the library has them."""
    if rules not in RULES:
        raise ValueError(f"rules: got {rules!r}; accepts {', '.join(RULES)}")
    return RULES[rules]


def fitted(before, after):
    """Sheet of the vehicle before, made ready to stand beside the other; None stays None."""
    if before is None:
        return None
    sheet = bytearray(before._sheet)
    _core.sheet_fit(sheet, after._sheet)
    return sheet


def is_full(load, name="load"):
    """Whether a load case is the full one."""
    if load not in ("empty", "full"):
        raise ValueError(f"{name}: got {load!r}; accepts empty, full")
    return load == "full"


def _restore(vehicle, rules, before):
    """A check that was pickled, worked out anew."""
    return Check(vehicle._sheet, rules, None if before is None else before._sheet)


def check(sheet, rules, before):
    """Check a vehicle; `before`: what it was before it was changed."""
    return Check(sheet, rules_bits(rules), before)
