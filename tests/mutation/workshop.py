# SPDX-License-Identifier: MIT
"""A copy of the tree, built once; then one faulty file at a time, compiled and linked anew. The
library is a shared object that every test program looks up: a fault costs one link."""
import hashlib
import os
import pathlib
import shutil
import subprocess

from lint import source

# A step past the end of an array ends the program instead of going unseen.
FLAGS = (
    "-O1 -fno-math-errno -fno-trapping-math -fsanitize=bounds -fsanitize-undefined-trap-on-error"
)
# What lies behind memory that was asked for, and what C leaves undefined, ends it as well.
SANITIZED = "-O1 -fsanitize=address,undefined -fno-sanitize-recover=all"
LIBRARY_LAYERS = ("model", "vehicle", "criteria", "study", "file", "answer")


class Uncompilable(Exception):
    """The fault is no C."""


def _run(command, **options):
    return subprocess.run(command, check=True, **options)


class Workshop:
    def __init__(self, folder, compiler, language, build="build", flags=FLAGS):
        self.folder = pathlib.Path(folder).resolve()
        self.tree, self.build = self.folder / "tree", self.folder / build
        self.shared = self.build / "libmutant.so"
        self.compiler, self.language, self.flags = compiler, language.split(), flags

    def copy(self):
        """The tree that git has or would take; a file that is the same keeps its time."""
        command = ["git", "ls-files", "--cached", "--others", "--exclude-standard"]
        listed = _run(command, cwd=source.ROOT, capture_output=True, encoding="utf-8").stdout
        names = {name for name in listed.splitlines() if (source.ROOT / name).is_file()}
        for stale in self.tree.rglob("*") if self.tree.exists() else ():
            if stale.is_file() and stale.relative_to(self.tree).as_posix() not in names:
                stale.unlink()
        for name in names:
            old, new = self.tree / name, source.ROOT / name
            if not old.exists() or old.read_bytes() != new.read_bytes():
                old.parent.mkdir(parents=True, exist_ok=True)
                shutil.copy(new, old)

    def _object(self, path):
        return self.build / path.relative_to(self.tree).with_suffix(".o")

    def _sources(self, *patterns):
        return sorted(path for pattern in patterns for path in self.tree.glob(pattern))

    def prepare(self):
        """Objects by make, then the shared library and the programs on top of it."""
        self.copy()
        self.library = self._sources(*(f"libbrake/{layer}/*.c" for layer in LIBRARY_LAYERS))
        command = self._sources("libbrake/command/*.c")
        published = self._sources("tests/published/*.c")
        programs = {
            self.build / "stopmargin": command,
            self.build / "tests/published/published": published,
            **{self._object(path).with_suffix(""): [path]
               for path in self._sources("tests/*/test_*.c")},
            **{self.build / f"tests/{path.parent.name}-driver": [path]
               for path in self._sources("tests/*/driver.c")},
        }  # fmt: skip
        compiled = {self._object(path) for paths in programs.values() for path in paths}
        compiled |= {self._object(path) for path in self.library}
        make = ["make", "-s", f"CC={self.compiler}", f"BUILD={self.build}",
                f"CFLAGS={self.flags}"]  # fmt: skip
        if subprocess.run(
            [*make, *sorted(map(str, compiled))], cwd=self.tree, stdout=subprocess.DEVNULL
        ).returncode:
            raise SystemExit("mutate: without a fault the tree does not compile")
        self.link({})
        for program, paths in programs.items():
            objects = [self._object(path) for path in paths]
            if not program.exists() or program.stat().st_mtime < max(
                one.stat().st_mtime for one in objects
            ):
                _run([*self._linker(), "-o", program, *objects, self.shared,
                      f"-Wl,-rpath,{self.build}", "-lcmocka", "-lcjson", "-lm"])  # fmt: skip

    def _linker(self):
        return [self.compiler, "-fopenmp", *self.flags.split()]

    def key(self, test):
        """Of the library and a test: another one when either is changed."""
        content = self.shared.read_bytes() + pathlib.Path(test.command[-1]).read_bytes()
        return hashlib.sha256(content).hexdigest()

    def link(self, instead):
        """The shared library, some of its objects replaced; written aside: one may be in use."""
        objects = [instead.get(one, one) for one in map(self._object, self.library)]
        aside = self.shared.with_suffix(".new")
        _run([*self._linker(), "-shared", "-o", aside, *objects, "-lm"])
        os.replace(aside, self.shared)

    def _users(self, name):
        """The sources of the library that a file is compiled into."""
        if name.endswith(".c"):
            return [self.tree / name]
        return [
            path
            for path in self.library
            if f" {name} " in self._object(path).with_suffix(".d").read_text().replace("\n", " ")
        ]

    def _compile(self, path):
        object_file = self.folder / "mutant" / self._object(path).relative_to(self.build)
        object_file.parent.mkdir(parents=True, exist_ok=True)
        command = [self.compiler, *self.language, "-w", "-fPIC", "-fno-semantic-interposition",
                   *self.flags.split(), "-c", "-o", object_file,
                   path.relative_to(self.tree)]  # fmt: skip
        done = subprocess.run(command, cwd=self.tree, capture_output=True, timeout=120)
        if done.returncode:
            raise Uncompilable(done.stderr.decode(errors="replace"))
        return object_file

    def fit(self, mutant):
        """Links a mutant; whether any object differs from the one without the fault."""
        file = self.tree / mutant.path
        text, times = file.read_text(encoding="utf-8"), file.stat()
        try:
            file.write_text(mutant.applied(text), encoding="utf-8")
            instead = {self._object(path): self._compile(path) for path in self._users(mutant.path)}
        finally:
            # With its time: make need not compile it again.
            file.write_text(text, encoding="utf-8")
            os.utime(file, ns=(times.st_atime_ns, times.st_mtime_ns))
        if all(old.read_bytes() == new.read_bytes() for old, new in instead.items()):
            return False
        self.link(instead)
        return True
