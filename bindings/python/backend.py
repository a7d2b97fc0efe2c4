# SPDX-License-Identifier: MIT
"""How pip builds the package: setuptools, Debian's where the environment has none.

An empty virtual environment sees no package of the system, and may reach no index. Debian's
setuptools and wheel are in pure Python and are as good.
"""
import contextlib
import importlib.util
import os
import pathlib
import sys
import tempfile

_DEBIAN = "/usr/lib/python3/dist-packages"
_TOOLS = "setuptools", "wheel"

# The generator stands beside this file.
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))


def _lacking():
    return [tool for tool in _TOOLS if importlib.util.find_spec(tool) is None]


if _lacking() and os.path.isdir(_DEBIAN):
    sys.path.append(_DEBIAN)


def _requires(config_settings=None):
    """What has to be fetched from an index: nothing on Debian."""
    return _lacking()


get_requires_for_build_wheel = _requires
get_requires_for_build_sdist = _requires
get_requires_for_build_editable = _requires


@contextlib.contextmanager
def _elsewhere():
    """Keeps what is built out of the checkout, and what was built before out of the wheel."""
    with tempfile.TemporaryDirectory() as folder:
        settings = pathlib.Path(folder) / "setup.cfg"
        settings.write_text(f"[build]\nbuild_base = {folder}\n[egg_info]\negg_base = {folder}\n")
        os.environ["DIST_EXTRA_CONFIG"] = str(settings)
        yield


def build_wheel(wheel_directory, config_settings=None, metadata_directory=None):
    """A wheel, by setuptools."""
    from setuptools import build_meta

    with _elsewhere():
        return build_meta.build_wheel(wheel_directory, config_settings)


def build_sdist(sdist_directory, config_settings=None):
    """A source archive, by setuptools."""
    from setuptools import build_meta

    with _elsewhere():
        return build_meta.build_sdist(sdist_directory, config_settings)


def build_editable(wheel_directory, config_settings=None, metadata_directory=None):
    """A wheel that points to the checkout, for `pip install -e`."""
    import editable

    return editable.build(build_wheel, wheel_directory, config_settings)
