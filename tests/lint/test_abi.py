# SPDX-License-Identifier: MIT
"""The record of what linked programs rely on is that of this library, and a change is told."""
import subprocess

import pytest

from install.built import BUILD, make
from lint import abi

pytestmark = pytest.mark.skipif(not abi.there(), reason=abi.LACKING)

HEADER = """
enum brake_end { BRAKE_LOW, BRAKE_HIGH };
struct brake_pair {
    double a;
    struct { enum brake_end end[2]; } held;
};
double brake_sum(const struct brake_pair *pair);
"""
SOURCE = """
#include "brake/sum.h"
struct other { int not_told; };
static struct other other;
double brake_sum(const struct brake_pair *pair) { return pair->a + other.not_told; }
"""


def test_the_record_is_of_this_library():
    make("abi-library")
    assert abi.findings(BUILD / "abi" / "libbrake.so") == []


@pytest.fixture(name="told")
def _told(tmp_path):
    """Lines of the record of a library with this header."""
    folder = tmp_path / "libbrake" / "include" / "brake"
    folder.mkdir(parents=True)
    (tmp_path / "sum.c").write_text(SOURCE)

    def told(header, soname="libbrake.so.0.1"):
        (folder / "sum.h").write_text(header)
        subprocess.run(["gcc", "-g", "-shared", "-fPIC", f"-Wl,-soname,{soname}", "-o", "sum.so",
                        "-Ilibbrake/include", "sum.c"], cwd=tmp_path, check=True)  # fmt: skip
        return abi.read(tmp_path / "sum.so")

    return told


def test_a_line_says_what_stands_where(told):
    assert told(HEADER) == [
        "library libbrake.so.0.1",
        "brake_sum(const struct brake_pair*) -> double",
        "enum brake_end: BRAKE_LOW 0, BRAKE_HIGH 1",
        "struct brake_pair 16: 0 double a; 8 struct {0 enum brake_end[2] end} held",
    ]


@pytest.mark.parametrize(
    "before, after, told_of",
    [
        ("double a;", "double b, a;", "struct brake_pair"),
        ("double a;", "float a;", "struct brake_pair"),
        ("BRAKE_LOW,", "BRAKE_MIDDLE, BRAKE_LOW,", "enum brake_end"),
        ("[2]", "[3]", "struct brake_pair"),
    ],
)
def test_a_change_is_told(told, before, after, told_of):
    gone, new = abi.differences(told(HEADER), told(HEADER.replace(before, after)))
    assert f"gone or changed and the soname is the same (`make abi` records it): {told_of}" in gone
    assert f"new (`make abi` records it): {told_of}" in new


def test_with_another_soname_nothing_breaks(told):
    changed = HEADER.replace("double a;", "float a;")
    found = list(abi.differences(told(HEADER), told(changed, "libbrake.so.0.2")))
    assert len(found) == 4
    assert not any("the same" in finding for finding in found)
