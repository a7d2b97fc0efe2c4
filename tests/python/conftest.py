# SPDX-License-Identifier: MIT
"""Where the package under test is: the one built beside the library, unless one is installed."""
import os
import pathlib
import subprocess
import sys

import pytest

ROOT = pathlib.Path(__file__).resolve().parents[2]
PACKAGE = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", ROOT / "build")) / "python"
INSTALLED = "LIBBRAKE_INSTALLED" in os.environ
if not INSTALLED:
    sys.path.insert(0, str(PACKAGE))


@pytest.fixture
def heron():
    """The rescue team's vehicle, after the refit."""
    import libbrake

    return libbrake.load(ROOT / "examples" / "heron.ini")


@pytest.fixture
def python():
    """Runs a script in another Python, in which `blocked` modules cannot be imported."""

    def run(script, blocked=()):
        head = f"import sys; sys.modules.update(dict.fromkeys({list(blocked)!r}))\n"
        path = [] if INSTALLED else [str(PACKAGE)]
        kept = {
            **os.environ,
            "PYTHONPATH": os.pathsep.join([*path, os.environ.get("PYTHONPATH", "")]),
        }
        found = subprocess.run([sys.executable, "-c", head + script], env=kept, text=True,
                               stdout=subprocess.PIPE, stderr=subprocess.STDOUT, cwd=ROOT)  # fmt: skip
        assert found.returncode == 0, found.stdout
        return found.stdout

    return run
