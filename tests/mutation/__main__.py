# SPDX-License-Identifier: MIT
"""How many small faults of a layer the tests find.

usage: python -m mutation --layer LAYER --count N --seed N --folder DIR --flags FLAGS
           [--compiler CC] [--longest SECONDS]   (of the processor, that a test may take)
"""
import argparse
import collections
import sys
import time

from mutation import equals, killers, mutants, reach, workshop
from trust import record

SAME_CODE = "the compiler makes the same code of both"


class Tally:
    """What became of the mutants of one layer."""

    def __init__(self):
        self.killed, self.equivalent, self.survived = collections.Counter(), [], []

    @property
    def tried(self):
        return self.killed.total() + len(self.equivalent) + len(self.survived)

    def summary(self, seed):
        found = self.killed.total()
        real = found + len(self.survived)
        share = 100.0 * found / real if real else 100.0
        by = ", ".join(f"{count} by {kind} tests" for kind, count in sorted(self.killed.items()))
        return (
            f"{found} of {real} found ({share:.1f} %: {by or 'none'}); {len(self.equivalent)} more"
            f" of {self.tried} change no answer; seed {seed}"
        )


def shown(mutant, lines, said):
    return f"{mutant.path}:{mutant.line}: {said}\n- {lines[0]}\n+ {lines[1]}"


def named(tests):
    return ", ".join(test.name for test in tests) or "none"


def beside(shop, compiler, build, flags):
    """Another build of the same tree."""
    other = workshop.Workshop(shop.folder, compiler, " ".join(shop.language), build, flags)
    other.prepare()
    return other


def runners(shop):
    """Which test runs which line, learned on a second build."""
    counting = beside(shop, reach.COMPILER, "counting", reach.FLAGS)

    def run(test, environment):
        killers.passes(counting, test, killers.COUNTED, environment)

    return reach.Reach(counting, run, list(killers.tests(counting)))


def tried(shop, mutant, lines, known, killer, sanitized):
    """What is said of a mutant, and under which head it is counted; None: it is no C."""
    try:
        reason = known.get((mutant.path, *lines))
        if reason is None and not shop.fit(mutant):
            reason = SAME_CODE
    except workshop.Uncompilable:
        return None
    if reason is not None:
        return "equivalent", reason
    test = killer.killer(mutant) or sanitized.killer(mutant, killer.asked(mutant))
    if test is None:
        return "survived", f"SURVIVES {len(killer.asked(mutant))} tests that run it"
    return test.kind, f"found by {test.name}"


def run(shop, options):
    shop.prepare()
    quick, slow, broken = killers.timed(shop, options.longest)
    print(f"mutate: {len(quick)} tests, {sum(test.seconds for test in quick):.0f} s; of few"
          f" faults: {named(slow)}; not asked, they fail without a fault: {named(broken)}",
          flush=True)  # fmt: skip
    known = equals.read(equals.LIST.read_text(encoding="utf-8"))
    killer, tally = killers.Killers(
        shop, options.layer, quick, slow, runners(shop).may_see), Tally()
    sanitized = killers.Sanitized(
        beside(shop, shop.compiler, "sanitized", workshop.SANITIZED))
    for mutant in mutants.draw(shop.tree, options.layer, options.seed):
        if tally.tried == options.count:
            break
        begun = time.monotonic()
        lines = mutant.lines((shop.tree / mutant.path).read_text(encoding="utf-8"))
        found = tried(shop, mutant, lines, known, killer, sanitized)
        if found is None:
            continue
        head, said = found
        if head in ("equivalent", "survived"):
            getattr(tally, head).append(mutant)
        else:
            tally.killed[head] += 1
        print(shown(mutant, lines, f"{said} ({time.monotonic() - begun:.1f} s)"), flush=True)
    print(f"mutate: {options.layer}: {tally.summary(options.seed)}")
    return tally


def keep(tally, options):
    """Leaves what was measured for `make trust`."""
    record.record(
        "mutate",
        "Small faults that the tests find",
        {f"faults of {options.layer}": tally.summary(options.seed)},
        "An operator, a comparison or a number is changed at a place drawn by a seed; the C tests"
        " and the quick Python ones that run its line run until one fails; on what passes them"
        " all, the C tests once more under the address and undefined-behaviour sanitizers. What"
        " changes no answer, or none by more than the tolerance that it is worked out to, is"
        " listed with its reason in tests/mutation/equivalent.txt, or compiles to the same code;"
        " of what was drawn it was listed after the draw where it had come up there for the first"
        " time.",
        "Faults of more than one place, missing code, sizes of arrays, the layers file, answer and"
        f" command; tests of more than {options.longest:g} s are asked of their own file, and"
        f" of lines that fewer than {killers.FEW} others run.",
    )


def main():
    parser = argparse.ArgumentParser(prog="mutation")
    parser.add_argument("--layer", required=True, choices=("model", "vehicle", "criteria", "study"))
    parser.add_argument("--count", type=int, required=True)
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--longest", type=float, default=killers.LONGEST)
    parser.add_argument("--folder", required=True)
    parser.add_argument("--compiler", default="cc")
    parser.add_argument("--flags", required=True)
    options = parser.parse_args()
    keep(run(workshop.Workshop(options.folder, options.compiler, options.flags), options), options)
    return 0


if __name__ == "__main__":
    sys.exit(main())
