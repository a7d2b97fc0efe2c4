# SPDX-License-Identifier: MIT
"""The scripts, and the notebook, that an engineer starts from need no private name, no loop over
cases and no parsing of strings: what they want is asked for as a whole."""
import ast
import json
import pathlib

import pytest

EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "examples"
# A map, Monte Carlo, optimisation, identification, fade, a fleet.
SCRIPTS = ["design_chart", "reliability", "optimise", "identify", "fade_map", "fleet"]
# What runs a vehicle, or works one out anew.
ASKS = set(
    "check heat outputs sweep cases samples gradient spread size set drivelog learn load loads"
    " compare identify fleet report shakedown copy".split()
)
PARSES = set(
    "split rsplit splitlines partition rpartition find index startswith endswith removeprefix"
    " fullmatch match search findall".split()
)
LOOPS = (ast.For, ast.While, ast.ListComp, ast.SetComp, ast.DictComp, ast.GeneratorExp)


def name_of(call):
    """The last name of what is called."""
    return getattr(call.func, "attr", getattr(call.func, "id", ""))


def repeated(loop):
    """What of a loop is done more than once: all but what the first `in` goes through."""
    if isinstance(loop, ast.While):
        return [loop.test, *loop.body]
    if isinstance(loop, ast.For):
        return loop.body
    first, *others = loop.generators
    parts = [loop.key, loop.value] if isinstance(loop, ast.DictComp) else [loop.elt]
    return [*parts, *first.ifs, *others]


def private(tree):
    """Names of the package that are not for others."""
    for node in ast.walk(tree):
        for name in (getattr(node, "attr", ""), getattr(node, "module", "") or ""):
            if any(part.startswith("_") and not part.endswith("__") for part in name.split(".")):
                yield node.lineno, f"private name {name}"


def looped(tree):
    """Questions that are asked in a loop."""
    for loop in ast.walk(tree):
        for part in repeated(loop) if isinstance(loop, LOOPS) else ():
            for node in ast.walk(part):
                if isinstance(node, ast.Call) and name_of(node) in ASKS:
                    yield node.lineno, f"{name_of(node)}() in a loop"


def parsed(tree):
    """Texts that are taken apart; the script's own words may be."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and name_of(node) in PARSES:
            of = getattr(node.func, "value", None)
            if getattr(of, "id", "") != "__doc__":
                yield node.lineno, f"{name_of(node)}() of a text"


def findings(text):
    tree = ast.parse(text)
    return sorted([*private(tree), *looped(tree), *parsed(tree)])


@pytest.mark.parametrize("name", SCRIPTS)
def test_a_script_asks_for_what_it_wants_as_a_whole(name):
    assert not findings((EXAMPLES / f"{name}.py").read_text())


def test_the_notebook_asks_for_what_it_wants_as_a_whole():
    """Its outputs are cleared; its first cell bears the caution."""
    cells = json.loads((EXAMPLES / "heron.ipynb").read_text(encoding="utf-8"))["cells"]
    code = [cell for cell in cells if cell["cell_type"] == "code"]
    asked = "\n\n".join("".join(cell["source"]) for cell in code)
    assert not findings(asked)
    assert not [node.lineno for node in ast.walk(ast.parse(asked)) if isinstance(node, LOOPS)]
    assert not any(cell["outputs"] or cell["execution_count"] for cell in code)
    assert "A calculation is not an approval." in "".join(cells[0]["source"])


@pytest.mark.parametrize(
    "text, words",
    [
        ("v._sheet", "private name _sheet"),
        ("from libbrake._core import x", "private name libbrake._core"),
        ("for a in b:\n    v.set({a: 1})", "set() in a loop"),
        ("x = [v.outputs(n) for n in names]", "outputs() in a loop"),
        ("x = {n: v.heat(stop=n) for n in names}", "heat() in a loop"),
        ("while True:\n    v.check()", "check() in a loop"),
        ("x = answer.split()[3]", "split() of a text"),
    ],
)
def test_what_is_not_wanted_is_found(text, words):
    assert [said for _, said in findings(text)] == [words]


def test_what_a_loop_goes_through_is_asked_once():
    assert not findings("for name, value in v.outputs(names).items():\n    print(name, value)")
    assert not findings("print(__doc__.split()[0])")
