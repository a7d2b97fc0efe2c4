# SPDX-License-Identifier: MIT
"""The version stands in one header; what has to repeat it repeats it."""
import re

from file import plain

VERSION = re.search(
    r'#define BRAKE_VERSION "(.*)"',
    (plain.ROOT / "libbrake/include/brake/version.h").read_text(encoding="utf-8"),
)[1]


def test_citation_and_package_have_the_version_of_the_header():
    citation = (plain.ROOT / "reference/CITATION.cff").read_text(encoding="utf-8")
    package = (plain.ROOT / "bindings/debian/changelog").read_text(encoding="utf-8")
    assert re.search(r"^version: (.*)$", citation, re.M)[1] == VERSION
    assert re.match(r"libbrake \((.*)-\d+\) ", package)[1] == VERSION


def test_the_package_of_the_library_is_named_by_its_soname():
    """Debian Policy Manual, 8.1: the name holds the version of the soname, major.minor here."""
    control = (plain.ROOT / "bindings/debian/control").read_text(encoding="utf-8")
    assert f"Package: libbrake{VERSION.rpartition('.')[0]}\n" in control
