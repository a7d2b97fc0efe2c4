# SPDX-License-Identifier: MIT
"""The version is the same wherever it shows."""
import re

from lint import source


def stated():
    """The version in version.h."""
    text = (source.INCLUDE / "version.h").read_text()
    return re.search(r'^#define BRAKE_VERSION "(\d+\.\d+\.\d+)"$', text, re.MULTILINE)[1]


def findings(build):
    """Findings in the build folder and in the files that carry a version of their own."""
    version = stated()
    soname = f"libbrake.so.{version.rpartition('.')[0]}"
    for link, target in (
        ("libbrake.so", soname),
        (soname, f"libbrake.so.{version}"),
    ):
        if not (build / link).is_symlink() or str((build / link).readlink()) != target:
            yield f"{build / link}: does not lead to {target}"
    for path, pattern in (
        (build / "libbrake.pc", r"^Version: (.*)$"),
        (source.ROOT / "CHANGELOG.md", r"^## \[?(\d+\.\d+\.\d+)"),
        (source.ROOT / "bindings" / "python" / "pyproject.toml", r'^version *= *"(.*)"'),
    ):
        found = re.search(pattern, path.read_text(), re.MULTILINE) if path.exists() else None
        if found and found[1] != version:
            yield f"{source.name(path)}: {found[1]} where version.h says {version}"
