# SPDX-License-Identifier: MIT
"""Every source compiles for a processor of another kind, where there is a compiler for it."""
import shutil

import pytest

from install.built import make

CROSS = "aarch64-linux-gnu-gcc"


@pytest.mark.skipif(not shutil.which(CROSS), reason=f"there is no {CROSS}")
def test_every_source_compiles_for_arm64():
    # gcc 12 ended with a fault of its own over one loop.
    said = make("check-arm64")
    assert "sources compiled" in said


def test_without_the_compiler_it_says_which_package_holds_it():
    said = make("check-arm64", "ARM64_CC=no-such-compiler")
    assert said.startswith("check-arm64: skipped, there is no no-such-compiler")
    assert "gcc-aarch64-linux-gnu" in said
    assert "compiled" not in said
