# SPDX-License-Identifier: MIT
"""What counts as the same answer of two builds, and what is said where a compiler is not there."""
import math

import pytest

from ports import answers, toolchains

TEXT = "Limits   Parking brake on 16 %, loaded: holds 15.1 % (met by 31 of 100), 2.60e-3 m"
JSON = '{"value": 15.125, "times": [1.0e-05, 3], "name": "gear 4x4"}'


@pytest.mark.parametrize(
    "before, after, far",
    [
        ("15.1", "15.2", 1),
        ("15.1", "15.3", 2),
        ("2.60e-3", "2.61e-3", 1),
        ("2.60e-3", "2.63e-3", 3),
        ("16 %, loaded", "16 %,  loaded", 0),
        ("holds", "meets", math.inf),
        ("31 of", "31, 4 of", math.inf),
    ],
)
def test_text_is_held_to_its_last_digit(before, after, far):
    assert answers.apart(TEXT, TEXT, True) == 0
    assert answers.apart(TEXT, TEXT.replace(before, after), True) == pytest.approx(far, rel=1e-6)


@pytest.mark.parametrize(
    "before, after, far",
    [
        ("15.125", "15.12500001", 0.661),
        ("15.125", "15.1250001", 6.61),
        ("1.0e-05", "1.2e-05", 2e-6 / 1e-12),
        ("4x4", "4x5", math.inf),
        ('"value": 15.125', '"value": null', math.inf),
    ],
)
def test_numbers_for_programs_are_held_to_a_share_of_them(before, after, far):
    assert answers.apart(JSON, JSON, False) == 0
    changed = JSON.replace(before, after)
    assert answers.apart(JSON, changed, False) == pytest.approx(far, rel=1e-2)


def test_a_compiler_that_is_not_there_is_named_with_its_package():
    port = toolchains._native("gcc-2", "-O3")
    assert port.lacking == "there is no gcc-2; install the package gcc-2"


def test_every_level_of_every_compiler_is_asked(tmp_path, monkeypatch):
    monkeypatch.setattr(toolchains, "_foreign", lambda name, folder: toolchains.Port(name, ()))
    names = [port.name for port in toolchains.ports(tmp_path, None)]
    assert len(names) == len(set(names)) == 4 * (5 + 4) + 2 + 1 + 1
    assert {f"clang-19 {level}" for level in ("-O0", "-O1", "-O2", "-O3")} < set(names)
