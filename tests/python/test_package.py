# SPDX-License-Identifier: MIT
"""Installing: as the README has it, in empty environments, without an index; types."""
import ast
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tarfile
import zipfile

import pytest

import libbrake

ROOT = pathlib.Path(__file__).resolve().parents[2]
BINDINGS = ROOT / "bindings" / "python"
DEBIAN = "/usr/lib/python3/dist-packages"
pytestmark = pytest.mark.skipif(not BINDINGS.exists(), reason="only in a checkout")
ALONE = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
ALONE.update(PIP_NO_INDEX="1", PIP_DISABLE_PIP_VERSION_CHECK="1")


def run(*words, cwd=ROOT, **more):
    """Output of a program that must succeed."""
    found = subprocess.run([*map(str, words)], cwd=cwd, env={**ALONE, **more}, text=True,
                           stdout=subprocess.PIPE, stderr=subprocess.STDOUT)  # fmt: skip
    assert found.returncode == 0, found.stdout
    return found.stdout


def environment(folder):
    """The Python of an empty virtual environment."""
    run(sys.executable, "-m", "venv", folder)
    return folder / "bin" / "python"


def test_the_commands_of_the_readme_work_in_an_empty_environment(tmp_path):
    python = environment(tmp_path / "env")
    run(python, "-m", "pip", "install", "--no-build-isolation", "./bindings/python")
    script = "import libbrake; v = libbrake.load('examples/heron.ini'); print(v.check())"
    text = run(python, "-c", script)
    assert re.match(r"Heron \(invented\), after refit\nCAUTION: .*\nVerdict", text)
    for terms in ("LICENSE", "NOTICE"):
        (kept,) = (tmp_path / "env").glob(f"lib/*/site-packages/libbrake-*.dist-info/**/{terms}")
        assert kept.read_text() == (ROOT / terms).read_text()
    assert "qualified inspector" in " ".join(text.split())


def test_an_editable_install_follows_the_checkout(tmp_path):
    """Of a wheel, here one of no C at all: what is written is a link, what is made is not."""
    script = (
        "import pathlib, sys, zipfile, editable\n"
        "package, target = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])\n"
        "def wheel(folder, settings):\n"
        "    with zipfile.ZipFile(pathlib.Path(folder) / 'x-1-py3-none-any.whl', 'w') as archive:\n"
        "        for path in package.iterdir():\n"
        "            if path.is_file(): archive.write(path, f'libbrake/{path.name}')\n"
        "        archive.writestr('x-1.dist-info/METADATA', 'Name: x')\n"
        "        archive.writestr('x-1.dist-info/RECORD', '')\n"
        "    return 'x-1-py3-none-any.whl'\n"
        "editable._folder = lambda: target / 'editable'\n"
        "print(editable.build(wheel, target, None))\n"
    )
    package = pathlib.Path(libbrake.__file__).parent
    name = run(sys.executable, "-c", script, package, tmp_path, PYTHONPATH=str(BINDINGS))
    made = tmp_path / "editable" / "libbrake"
    assert (made / "vehicle.py").resolve() == (BINDINGS / "libbrake" / "vehicle.py").resolve()
    assert not (made / "made.py").is_symlink() and not (made / "__init__.pyi").is_symlink()
    with zipfile.ZipFile(tmp_path / name.strip()) as archive:
        (way,) = (one for one in archive.namelist() if one.endswith(".pth"))
        folder = archive.read(way).decode().strip()
        record = archive.read("x-1.dist-info/RECORD").decode()
    assert way in record and "METADATA,sha256=" in record
    text = run(sys.executable, "-c", "import libbrake; print(libbrake.load('examples/heron.ini'))",
               PYTHONPATH=folder)  # fmt: skip
    assert "qualified inspector" in " ".join(text.split())


def test_the_source_archive_builds_elsewhere_and_the_tests_pass_without_the_checkout(tmp_path):
    script = f"import backend; print(backend.build_sdist({str(tmp_path)!r}))"
    before = sorted(BINDINGS.parent.iterdir())
    run(sys.executable, "-c", script, cwd=BINDINGS, PYTHONPATH=str(BINDINGS),
        PYTHONDONTWRITEBYTECODE="1")  # fmt: skip
    (archive,) = tmp_path.glob("*.tar.gz")
    assert sorted(BINDINGS.parent.iterdir()) == before, "nothing is left behind"
    with tarfile.open(archive) as opened:
        links = [one.name for one in opened if one.issym() or one.islnk()]
        assert not links
        opened.extractall(tmp_path / "source")
    (source,) = (tmp_path / "source").iterdir()
    python = environment(tmp_path / "env")
    # No option: what builds is Debian's, asked for by nobody.
    run(python, "-m", "pip", "install", source, cwd=tmp_path)

    away = tmp_path / "away"
    shutil.copytree(ROOT / "examples", away / "examples")
    shutil.copytree(ROOT / "reference", away / "reference")
    tests = away / "tests" / "python"
    tests.mkdir(parents=True)
    shutil.copy(ROOT / "tests" / "pytest.ini", tests.parent)
    # Quick ones: all of them are run with the package in build/.
    for name in ("conftest.py", "test_vehicle.py", "test_model.py", "test_drive.py",
                 "test_report.py", "test_study.py", "test_tables.py"):  # fmt: skip
        shutil.copy(ROOT / "tests/python" / name, tests)
    (tests.parent / "file").mkdir()
    shutil.copy(ROOT / "tests/file/plain.py", tests.parent / "file")
    where = run(python, "-c", "import libbrake; print(libbrake.__file__)", cwd=away)
    assert str(tmp_path / "env") in where
    known = {name: ALONE[name] for name in ("LIBBRAKE_BUILD", "STOPMARGIN") if name in ALONE}
    text = run(python, "-m", "pytest", "-q", "-x", tests, cwd=away,
               PYTHONPATH=f"{DEBIAN}:{tests.parent}", LIBBRAKE_INSTALLED="1", **known)  # fmt: skip
    assert " passed" in text and "failed" not in text


def test_what_building_lacks_is_named_all_of_it(tmp_path):
    """Given neither swig nor a compiler, as on a fresh Debian machine."""
    build = "egg_info", "--egg-base", tmp_path, "build", "--build-base", tmp_path
    found = subprocess.run([sys.executable, "setup.py", "-q", *build], cwd=BINDINGS,
                           env={"PATH": str(tmp_path), "PYTHONDONTWRITEBYTECODE": "1"},
                           capture_output=True, text=True)  # fmt: skip
    assert found.returncode
    assert "libbrake: not installed: the program swig, which writes a part of the package; the C " \
        "compiler " in found.stderr
    assert "apt-get install swig gcc" in found.stderr



USER = """
import libbrake
from libbrake.disc import Contact, Disc

v = libbrake.load("examples/heron.ini")
v.front.tyre.rollout = 2.52
v.front.tyre.rollout = "99 in"
length: float = v.front.tyre.rollout
kind: str = v.front.axle.brake
distance: float = v.check().full.stop.distance
torque: float = libbrake.disc.torque(Disc(0.0036, 0.12, 0.38, 0.95, 5e4), 8e6)
radius: float = libbrake.disc.radius_sector(0.1, 0.15, Contact.UNIFORM_WEAR)
many = libbrake.stop.energy([1.0, 2.0], 3.0)
print(length, kind, distance, torque, radius, many, v.part.winch.mass, v.part["winch"].height)
swept = v.sweep({"front.tyre.rollout": [2.4, 2.5]}, out="full.stop.distance")
fitting = v.size("front.disc.piston_diameter", "us.135.cold", within=("40 mm", "60 mm"))
print(swept["full.stop.distance"], fitting.answers, libbrake.compare(v, v).margins)
hot = v.heat(stop="100 km/h")
print(hot.history.to_pandas(), hot.warnings[0].text)
driven = v.drivelog({"time": [0.0, 1.0], "speed": many}, nominal=["60 km/h", 22.0], load="full")
print(v.drivelog("log.csv", columns="time=s").stops.column("pedal_force"), driven.to_dict())
plan = v.shakedown(despite=["no-reserve", "rear-first", "one-circuit"])
print(plan.html, plan.stages.column("pedal_force"))
del v.pedal.ratio
v.part["rack"] = {"mass": "30 kg", "height": 1.9}
v["front.tyre.rollout"] = None
print(v["front.tyre.rollout"], dict(v.items()), v.front.tyre.keys())
told = libbrake.identify(v, ["log.csv"], ["booster.gain"], load="empty")
gain: float = told.tolerances().booster.gain
fleet = libbrake.fleet("fleet.csv", out="full.stop.distance", base=v)
fleet.to_csv("checked.csv")
v.take_parts({"master.bore": ["7/8 in", 0.0254]})
print(told.condition, fleet[0].verdict, v.size(["master.bore"], "all", rules="us", before=v))
print(v.cooldown("log.csv").summary.cooling)
print(v.report(before=v, drivelog="log.csv", date="2026-01-02", rules="us").html)
try:
    v.set({"front.tyre.rollout": 50.0})
except libbrake.errors.RefusedRange as refusal:
    print(refusal.field, refusal.line)
"""


def mypy(tmp_path, *words):
    """mypy's complaints."""
    where = str(pathlib.Path(libbrake.__file__).parents[1])
    found = subprocess.run(["/usr/bin/mypy", "--strict", "--cache-dir", tmp_path / "cache", *words],
                           env={**ALONE, "MYPYPATH": where}, text=True, cwd=tmp_path,
                           stdout=subprocess.PIPE, stderr=subprocess.STDOUT)  # fmt: skip
    return found.stdout


@pytest.mark.skipif(not os.path.exists("/usr/bin/mypy"), reason="mypy is not installed")
def test_types_are_strict_and_tell_right_from_wrong(tmp_path):
    stubs = sorted(pathlib.Path(libbrake.__file__).parent.glob("*.pyi"))
    assert "Success" in mypy(tmp_path, *stubs)
    user = tmp_path / "user.py"
    user.write_text(USER)
    assert "Success" in mypy(tmp_path, user)
    user.write_text(USER + "v.front.tyre.rollout = [1]\nv.front.tyre.rolout\nlength.x\n")
    assert "Found 3 errors" in mypy(tmp_path, user)


PYRIGHT = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", ROOT / "build")) / (
    "npm/node_modules/pyright/index.js"
)


def pyright(tmp_path, *folders, paths=()):
    """Errors that a second checker finds as Python 3.9 has it, and its words."""
    config = {"include": folders, "extraPaths": [str(one) for one in paths], "exclude": ["**/*.py"],
              "typeCheckingMode": "strict", "pythonVersion": "3.9",
              "reportMissingModuleSource": False, "reportUnusedImport": False}  # fmt: skip
    if paths:
        del config["exclude"]
    (tmp_path / "pyrightconfig.json").write_text(json.dumps(config))
    found = subprocess.run(["node", PYRIGHT, "-p", tmp_path, "--outputjson"], env=ALONE, text=True,
                           cwd=tmp_path, stdout=subprocess.PIPE)  # fmt: skip
    told = json.loads(found.stdout)
    assert told["summary"]["filesAnalyzed"] > 0
    return told["summary"]["errorCount"], found.stdout


@pytest.mark.skipif(not PYRIGHT.exists(), reason="pyright is not there; make deps gets it")
def test_a_second_checker_tells_right_from_wrong(tmp_path):
    package = pathlib.Path(libbrake.__file__).parent
    stubs = tmp_path / "stubs" / "libbrake"
    stubs.mkdir(parents=True)
    for path in package.glob("*.pyi"):
        shutil.copy(path, stubs)
    errors, words = pyright(tmp_path, "stubs")
    assert errors == 0, words
    user = tmp_path / "user" / "user.py"
    user.parent.mkdir()
    user.write_text(USER)
    errors, words = pyright(tmp_path, "user", paths=[package.parent])
    assert errors == 0, words
    user.write_text(USER + "v.front.tyre.rollout = [1]\nv.front.tyre.rolout\nlength.x\n")
    assert pyright(tmp_path, "user", paths=[package.parent])[0] >= 3


def test_every_module_is_in_the_grammar_of_the_oldest_python():
    """3.9, of pyproject.toml; and zip() knows no strict there. Names of the standard library in
    stubs are held by the checkers."""
    package = pathlib.Path(libbrake.__file__).parent
    for path in [*package.glob("*.py"), *package.glob("*.pyi"), *BINDINGS.rglob("*.py")]:
        tree = ast.parse(path.read_text(encoding="utf-8"), str(path), feature_version=(3, 9))
        for call in (node for node in ast.walk(tree) if isinstance(node, ast.Call)):
            strict = "strict" in {word.arg for word in call.keywords}
            assert not (strict and getattr(call.func, "id", "") == "zip"), path


def test_every_module_has_types():
    folder = pathlib.Path(libbrake.__file__).parent
    untyped = {path.stem for path in folder.glob("*.py")} - {p.stem for p in folder.glob("*.pyi")}
    assert untyped == {"made", "html", "records"} and (folder / "py.typed").exists()
