# SPDX-License-Identifier: MIT
"""Where a small fault can stand, which tests find it, and the list of those that are none."""
import pathlib
import sys
import types

import pytest

from lint import source
from mutation import __main__ as run, equals, killers, mutants, reach

TEXT = """\
#define TWICE 2.0
enum { ROOM = 4 };
static const double given[3] = {1.5, -2.0, 1e-9}; /* 3 < 4 */

/* a + b */
static double sum(const double *a, int n)
{
    double whole = 0.0;
    for (int i = 0; i < n && !(a[i] > 7u); i++)
        whole += a[i] * 3;
    return whole; // 1 + 1
}
const char *word = "1 + 1";
"""


def found(text, header=False):
    return [(before, choices) for _, before, choices in mutants.sites(text, header)]


def test_operators_comparisons_and_numbers_are_sites():
    assert found(TEXT) == [
        ("1.5", ("1.515",)), ("-", ("",)), ("2.0", ("2.02",)), ("1e-9", ("1e-6",)),
        ("0.0", ("1.0",)), ("0", ("1",)), ("<", ("<=", ">=")), ("&&", ("||",)), ("!", ("",)),
        (">", (">=", "<=")), ("7u", ("8u",)), ("+=", ("-=",)), ("*", ("/",)), ("3", ("4",)),
    ]  # fmt: skip


def test_of_a_header_only_functions_are():
    assert found(TEXT, header=True) == found(TEXT)[4:]


def test_how_much_there_is_room_for_is_none():
    text = "void f(double *to)\n{\n    double end[PIECES + 1];\n    to[PIECES + 1] = end[0];\n}\n"
    assert found(text) == [("+", ("-",)), ("+", ("-",)), ("1", ("2",)), ("0", ("1",))]


def test_a_mutant_is_one_token_of_one_line():
    offset = TEXT.index("* 3;")
    mutant = mutants.Mutant("x.c", source.line_of(TEXT, offset), offset, "*", "/")
    assert mutant.lines(TEXT) == ("whole += a[i] * 3;", "whole += a[i] / 3;")
    with pytest.raises(AssertionError):
        mutant.applied("\n" + TEXT)


@pytest.mark.parametrize("layer", ["model", "vehicle", "criteria", "study"])
def test_a_draw_comes_back_by_its_seed_and_has_every_place_once(layer):
    first = list(mutants.draw(source.ROOT, layer, 1))
    assert first == list(mutants.draw(source.ROOT, layer, 1))
    assert first != list(mutants.draw(source.ROOT, layer, 2))
    assert len({(one.path, one.offset) for one in first}) == len(first) > 500
    for one in first[:50]:
        text = (source.ROOT / one.path).read_text(encoding="utf-8")
        before, after = one.lines(text)
        assert before != after


def program(text):
    return killers.Test("any/test_x", [sys.executable, "-c", text])


@pytest.mark.parametrize(
    ("text", "good"),
    [("pass", True), ("raise SystemExit(1)", False), ("import os; os.abort()", False),
     ("while True: pass", False)],
)  # fmt: skip
def test_a_failure_a_crash_and_an_endless_loop_find_a_fault(tmp_path, text, good):
    shop = types.SimpleNamespace(build=tmp_path, tree=tmp_path)
    assert killers.passes(shop, program(text), 1.0) == good


def test_what_found_a_fault_of_a_file_comes_first(monkeypatch):
    tests = [killers.Test(f"study/test_{name}", [name], seconds) for name, seconds in
             (("slow", 0.9), ("quick", 0.1), ("roots", 0.5))]  # fmt: skip
    tried = []

    def passes(_, test, __):
        tried.append(test.name[11:])
        return test.name != "study/test_slow"

    monkeypatch.setattr(killers, "passes", passes)
    killer = killers.Killers(None, "study", tests)
    mutant = mutants.Mutant("libbrake/study/roots.c", 1, 0, "+", "-")
    assert killer.killer(mutant).name == "study/test_slow"
    assert tried == ["roots", "quick", "slow"]
    killer.killer(mutant)
    assert tried[3:] == ["slow"]


@pytest.mark.parametrize(("broken", "finder"), [(False, "study/test_b"), (True, None)])
def test_what_all_let_pass_is_shown_to_the_sanitizers(monkeypatch, broken, finder):
    """A test that fails there without a fault finds none; Python tests are not asked there."""
    tests = [killers.Test("study/test_a", ["a"]), killers.Test("oracle/test_c", ["c", "c"]),
             killers.Test("study/test_b", ["b"])]  # fmt: skip
    asked, fitted = [], []
    shop = types.SimpleNamespace(build=pathlib.Path("sanitized"), fit=fitted.append,
                                 link=lambda _: fitted.append(None))  # fmt: skip

    def passes(_, test, __):
        asked.append(test.command)
        return test.name != "study/test_b" or (fitted[-1] is None and not broken)

    monkeypatch.setattr(killers, "passes", passes)
    found = killers.Sanitized(shop).killer("a mutant", tests)
    assert (found.name if found else None) == finder
    assert found is None or found.kind == "sanitized C"
    of_b = [pathlib.Path("sanitized/tests/study/test_b")]
    assert asked == [[pathlib.Path("sanitized/tests/study/test_a")], of_b, of_b]
    assert fitted == ["a mutant", None]


@pytest.mark.parametrize(("others", "files"), [(3, ["spread"]), (2, ["roots", "spread"])])
def test_what_takes_long_is_asked_of_its_own_file_or_where_few_others_are(others, files):
    slow = killers.Test("study/test_spread", ["spread"], 9.0)
    quick = [killers.Test(f"study/test_{i}", [str(i)], 0.1) for i in range(others)]
    killer = killers.Killers(None, "study", quick, [slow])
    mutant = {name: mutants.Mutant(f"libbrake/study/{name}.c", 1, 0, "+", "-")
              for name in ("roots", "spread")}  # fmt: skip
    assert [name for name in mutant if slow in killer.asked(mutant[name])] == files


COUNTED = """\
SF:%slibbrake/study/roots.c
DA:3,%d
DA:4,0
end_of_record
"""


def test_a_list_of_llvm_is_read_by_file_and_line():
    assert reach.read(COUNTED % ("./", 7), "/shop") == {"libbrake/study/roots.c": {3: 7, 4: 0}}
    assert reach.read(COUNTED % ("/shop/", 7), "/shop") == reach.read(COUNTED % ("", 7), "/shop")


def test_a_fault_is_shown_to_those_that_run_its_line(monkeypatch, tmp_path):
    runs, blind, other = tests = [killers.Test(name, [name]) for name in ("runs", "blind", "other")]
    counts, asked = {"runs": {"x.c": {3: 7, 4: 0}}, "other": {"x.c": {3: 0, 4: 0}}}, []

    def measured(_, __, test):
        asked.append(test.name)
        return counts.get(test.name, {})

    monkeypatch.setattr(reach, "measured", measured)
    shop = types.SimpleNamespace(folder=tmp_path, key=lambda test: test.name)
    for _ in range(2):
        found = reach.Reach(shop, None, tests)
        assert [found.may_see(test, "x.c", 3) for test in tests] == [True, True, False]
        assert [found.may_see(test, "x.c", 4) for test in tests] == [False, True, False]
        assert [found.may_see(test, "x.c", 1) for test in tests] == [True, True, False]
        assert all(found.may_see(test, "table.c", 1) for test in tests)
    assert asked == ["runs", "blind", "other"]
    killer = killers.Killers(None, "study", tests, may_see=found.may_see)
    assert killer.asked(mutants.Mutant("x.c", 3, 0, "+", "-")) == [runs, blind]
    shop.key = lambda _: "another build"
    reach.Reach(shop, None, [other])
    assert asked[3:] == ["other"]


def test_equivalent_faults_are_not_counted_among_the_real():
    tally = run.Tally()
    tally.killed.update({"C": 17, "Python": 2})
    tally.survived.append(None)
    tally.equivalent.extend([None, None])
    assert tally.tried == 22
    assert tally.summary(7) == (
        "19 of 20 found (95.0 %: 17 by C tests, 2 by Python tests); 2 more of 22 change no answer;"
        " seed 7"
    )


def test_the_list_of_equivalent_faults_is_that_of_the_sources():
    reasons = equals.read(equals.LIST.read_text(encoding="utf-8"))
    assert not list(equals.stale(reasons, source.ROOT))


def test_each_entry_is_a_fault_that_may_be_drawn():
    """One that is misspelt would excuse nothing, and nobody would see it."""
    drawn = set()
    for layer in ("model", "vehicle", "criteria", "study"):
        for path, line, offset, before, choices in mutants.all_sites(source.ROOT, layer):
            text = (source.ROOT / path).read_text(encoding="utf-8")
            faults = (mutants.Mutant(path, line, offset, before, after) for after in choices)
            drawn.update((path, *fault.lines(text)) for fault in faults)
    reasons = equals.read(equals.LIST.read_text(encoding="utf-8"))
    assert not [entry for entry in reasons if entry not in drawn]


def test_an_entry_without_a_reason_is_refused():
    entry = "x.c\n- a < b\n+ a <= b\n"
    assert equals.read(entry + "why\nnot\n") == {("x.c", "a < b", "a <= b"): "why not"}
    with pytest.raises(ValueError):
        equals.read(entry)
    assert list(equals.stale({("x.c", "a < b", "a <= b"): ""}, pathlib.Path("nowhere")))


@pytest.mark.parametrize(("text", "good"), [("a < b", True), ("", False), ("a < b\na < b", False)])
def test_an_entry_is_of_one_line(tmp_path, text, good):
    (tmp_path / "x.c").write_text(f"{text}\n", encoding="utf-8")
    assert good != any(equals.stale({("x.c", "a < b", "a <= b"): ""}, tmp_path))
