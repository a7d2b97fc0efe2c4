# SPDX-License-Identifier: MIT
"""Whose work is passed on: the terms of all of it go along. What building lacks is named."""
import os
import pathlib
import re
import subprocess
import sys
import tarfile

import pytest

import libbrake._core

ROOT = pathlib.Path(__file__).resolve().parents[2]
BINDINGS = ROOT / "bindings" / "python"
pytestmark = pytest.mark.skipif(not BINDINGS.exists(), reason="only in a checkout")


def words(text):
    """A text without its line breaks and the stars of a comment."""
    return " ".join(word for word in text.split() if word not in ("*", "/*", "*/"))


def pip_wheel(folder, **environment):
    """pip's making of a wheel into a folder, without an index."""
    command = [sys.executable, "-m", "pip", "wheel", "--no-deps", "--no-build-isolation"]
    return subprocess.run(
        [*command, "--no-index", "-w", folder, BINDINGS], text=True, capture_output=True,
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1", **environment})  # fmt: skip


# Those of an installed package: test_package.py.
TERMS = {name: (ROOT / name).read_text() for name in ("LICENSE", "NOTICE")}


def test_the_source_archive_holds_the_terms(tmp_path):
    script = f"import backend; backend.build_sdist({str(tmp_path)!r})"
    subprocess.run([sys.executable, "-c", script], cwd=BINDINGS, check=True, capture_output=True,
                   env={**os.environ, "PYTHONPATH": ".", "PYTHONDONTWRITEBYTECODE": "1"})  # fmt: skip
    (archive,) = tmp_path.glob("*.tar.gz")
    with tarfile.open(archive) as opened:
        names = [one.name for one in opened if re.search("^[^/]*/(LICENSE|NOTICE)$", one.name)]
        held = {name.rpartition("/")[2]: opened.extractfile(name).read().decode()
                for name in names}  # fmt: skip
    assert held == TERMS


def test_the_notice_has_the_terms_of_the_direction_numbers_word_for_word():
    text = (ROOT / "libbrake/study/directions.c").read_text()
    terms = words(text[text.index("Copyright (c)") :].partition("*/")[0])
    assert len(terms) > 1000
    assert terms in words(TERMS["NOTICE"])


def test_the_notice_names_whatever_the_package_is_linked_with():
    linked = subprocess.run(["readelf", "-d", libbrake._core.__file__], text=True, check=True,
                            capture_output=True).stdout  # fmt: skip
    libraries = re.findall(r"NEEDED.*\[(lib\w+)\.so", linked)
    assert "libc" in libraries
    missing = [one for one in libraries if not re.search(rf"\b{one}\b", TERMS["NOTICE"])]
    assert not missing


def test_pip_names_the_package_that_building_lacks(tmp_path):
    made = pip_wheel(tmp_path, PATH=str(tmp_path))
    assert made.returncode != 0
    assert "apt-get install swig" in made.stdout + made.stderr
    assert "Traceback" not in made.stdout + made.stderr
