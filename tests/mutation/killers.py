# SPDX-License-Identifier: MIT
"""The tests that a fault must get past, quick ones first. Each is timed once without a fault; one
that then takes several times as long is stuck, and the fault is found."""
import dataclasses
import json
import math
import os
import resource
import subprocess
import sys
import types

LONGEST = 6.0  # seconds of the processor: what takes longer is asked of few faults
OWN = 60.0  # seconds that it may take then
FEW = 3  # so many tests of a line, and slow ones of other files need not be asked
COUNTED = 600.0  # and on the build that counts, which is slower
# Second solvers on fewer cases than `make check` takes, the command's answers, the lists.
_CASES = {
    "ORACLE_CASES": "200", "BRAKING_CASES": "6", "BRAKING_HOT_CASES": "2", "THERMAL_CASES": "12",
    "SURFACE_CASES": "60", "EXTREME_CASES": "20",
}  # fmt: skip
_PYTHON = (
    "oracle/test_oracle oracle/test_published oracle/test_size oracle/test_ring"
    " command/test_heat command/test_drivelog command/test_cooldown"
    " reference/test_lists"
).split()
_CALM = {
    "OMP_WAIT_POLICY": "passive", "OMP_NUM_THREADS": "2", "PYTHONDONTWRITEBYTECODE": "1",
    "MALLOC_PERTURB_": "165", "CMOCKA_TEST_ABORT": "1",
}  # fmt: skip


@dataclasses.dataclass
class Test:
    """A test program, or a file of Python tests."""

    name: str
    command: list
    seconds: float = 0.0
    sanitized: bool = False

    @property
    def kind(self):
        return "sanitized C" if self.sanitized else "C" if len(self.command) == 1 else "Python"


def tests(shop):
    for program in sorted(shop.build.glob("tests/*/*")):
        if program.suffix == "" and program.stem.startswith(("test_", "published")):
            yield Test(program.relative_to(shop.build / "tests").as_posix(), [program])
    for name in _PYTHON:
        yield Test(name, [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider",
                          shop.tree / f"tests/{name}.py"])  # fmt: skip


def passes(shop, test, seconds, more=types.MappingProxyType({})):
    """Whether a test passes within some processor time: others use the machine too."""
    environment = {**os.environ, **_CASES, **_CALM, **more, "LIBBRAKE_BUILD": str(shop.build),
                   "STOPMARGIN": str(shop.build / "stopmargin"),
                   "PYTHONPATH": str(shop.tree / "tests")}  # fmt: skip
    with subprocess.Popen(
        ["prlimit", f"--cpu={math.ceil(seconds)}", "--core=0", *test.command],
        cwd=shop.tree, env=environment, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL, start_new_session=True,
    ) as running:  # fmt: skip
        try:
            return running.wait(60.0 + 30.0 * seconds) == 0
        except subprocess.TimeoutExpired:
            os.killpg(running.pid, 9)
            return False


def _spent():
    """Processor time of everything that was run and has ended."""
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


class Notes:
    """What tests take, and which pass without a fault: kept beside the build until the library or
    the test is another."""

    def __init__(self, shop):
        self.shop, self.path = shop, shop.folder / "times.json"
        self.known = json.loads(self.path.read_text()) if self.path.exists() else {}

    def good(self, test, longest):
        """Whether a test passes, and in some seconds; one that took longer is not asked again."""
        key = self.shop.key(test)
        took, of, passed = self.known.get(test.name, (0.0, "", True))
        if of != key and took < longest:
            begun = _spent()
            passed = passes(self.shop, test, OWN)
            took = _spent() - begun
            self.known[test.name] = took, key, passed
            self.path.write_text(json.dumps(self.known))
        test.seconds = took
        return passed and took < longest


def timed(shop, longest=LONGEST):
    """The tests that pass without a fault in some seconds, those that take longer, and the rest."""
    notes = Notes(shop)
    quick, slow, broken = [], [], []
    for test in tests(shop):
        good = notes.good(test, longest)
        (quick if good else slow if test.seconds >= longest else broken).append(test)
    return quick, slow, broken


def _stem(path):
    return path.rpartition("/")[2].partition(".")[0]


class Killers:
    """Runs tests on a mutant until one fails; what found faults of the same file comes first, what
    takes long last, and only when it is named after the file."""

    def __init__(self, shop, layer, quick, slow=(), may_see=lambda *_: True):
        self.shop, self.layer, self.quick, self.slow = shop, layer, quick, slow
        self.may_see, self.last = may_see, {}

    def _order(self, path):
        stem, last = _stem(path), self.last.get(path)

        def late(test):
            folder, _, name = test.name.partition("/")
            near = 0.0 if f"test_{stem}" == name else 0.3 if folder == self.layer else 1.0
            return test.name != last, near * test.seconds

        own = [test for test in self.slow
               if test.name.startswith(f"{self.layer}/test_{stem}")]  # fmt: skip
        return [*sorted(self.quick, key=late), *own]

    def asked(self, mutant):
        """The tests that may find a mutant: those that run its line; of slow ones those of its own
        file, or all where there are few others."""
        see = [test for test in self._order(mutant.path)
               if self.may_see(test, mutant.path, mutant.line)]  # fmt: skip
        if len(see) >= FEW:
            return see
        return see + [test for test in self.slow if test not in see
                      and self.may_see(test, mutant.path, mutant.line)]  # fmt: skip

    def killer(self, mutant):
        """The first test that a mutant fails; None when it passes them all."""
        for test in self.asked(mutant):
            limit = OWN if test in self.slow else 2.0 + 4.0 * test.seconds
            if not passes(self.shop, test, limit):
                self.last[mutant.path] = test.name
                return test
        return None


class Sanitized:
    """Asks what all tests let pass anew, of the C tests on a build with the sanitizers: they see
    what is read or written past the end and changes no number."""

    SLOWER = 5.0  # than without them

    def __init__(self, shop):
        self.shop, self.trusted = shop, {}

    def _is_trusted(self, test):
        """Whether a test passes there without a fault: asked once, of the tests that find one."""
        if test.name not in self.trusted:
            self.shop.link({})
            self.trusted[test.name] = passes(self.shop, test, OWN)
        return self.trusted[test.name]

    def killer(self, mutant, tests):
        """The first of some tests that a mutant fails there."""
        fitted = False
        for one in tests:
            if one.kind != "C":
                continue
            test = dataclasses.replace(
                one, command=[self.shop.build / "tests" / one.name], sanitized=True
            )
            if not fitted:
                self.shop.fit(mutant)
            fitted = passes(self.shop, test, self.SLOWER * (2.0 + 4.0 * test.seconds))
            if not fitted and self._is_trusted(test):
                return test
        return None
