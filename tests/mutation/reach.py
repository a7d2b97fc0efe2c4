# SPDX-License-Identifier: MIT
"""Which test runs which line of the library: each is run once on a build that counts. A fault is
shown to those alone that run its line; where none does, no test can find it."""
import collections
import json
import os
import shutil
import subprocess

COMPILER = "clang"  # counts what the source says, whatever is made of it
FLAGS = "-O1 -fno-math-errno -fno-trapping-math -fprofile-instr-generate -fcoverage-mapping"


def read(told, root):
    """{file below root: {line: how often it was run}} of a list by llvm-cov (lcov)."""
    files, counts = {}, {}
    for row in told.splitlines():
        kind, _, rest = row.partition(":")
        if kind == "SF":
            counts = files.setdefault(os.path.relpath(os.path.join(root, rest), root), {})
        elif kind == "DA":
            line, count = map(int, rest.split(",")[:2])
            counts[line] = count
    return files


def measured(shop, run, test):
    """What a test runs; nothing of one that left no counts. `run(test, environment)` runs it."""
    raw = shop.folder / "profile"
    shutil.rmtree(raw, ignore_errors=True)
    run(test, {"LLVM_PROFILE_FILE": f"{raw}/%m.profraw"})
    parts, merged = list(raw.glob("*.profraw")), raw / "all.profdata"
    if not parts:
        return {}
    subprocess.run(["llvm-profdata", "merge", "-sparse", "-o", merged, *parts], check=True)
    command = ["llvm-cov", "export", "-format=lcov", f"-instr-profile={merged}", shop.shared]
    told = subprocess.run(command, check=True, capture_output=True, encoding="utf-8").stdout
    return read(told, shop.tree)


class Reach:
    """The lines that tests of a workshop run, kept beside its build until library or test is
    another."""

    def __init__(self, shop, run, tests):
        path = shop.folder / "reach.json"
        known = json.loads(path.read_text()) if path.exists() else {}
        self.runners, self.readers = collections.defaultdict(set), collections.defaultdict(set)
        self.blind = set()
        for test in tests:
            key, files = known.get(test.name, ("", {}))
            if key != shop.key(test):
                files = measured(shop, run, test)
                known[test.name] = shop.key(test), files
            if not files:
                self.blind.add(test.name)
            for file, counts in files.items():
                for line, count in counts.items():
                    self.runners[file, int(line)].update([test.name] if count else [])
                    self.readers[file].update([test.name] if count else [])
        path.write_text(json.dumps(known))

    def may_see(self, test, path, line):
        """Whether a test runs a line; of a table, which is not run, whether it runs anything of the
        file, if that can be."""
        ran = self.runners.get((path, line), self.readers.get(path))
        return ran is None or test.name in ran or test.name in self.blind
