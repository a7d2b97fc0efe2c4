# SPDX-License-Identifier: MIT
"""An editable install: what is made stands in a folder of its own, what is written there points to
the checkout, so that a change of a .py file needs no new install. C needs one."""
import base64
import hashlib
import pathlib
import shutil
import tempfile
import zipfile

HERE = pathlib.Path(__file__).resolve().parent
PACKAGE = HERE / "libbrake"
# Made from the one that is written.
MADE = {"__init__.pyi"}


def _folder():
    """Where the package is put together."""
    checkout = HERE.parents[1]
    return (checkout if (checkout / "libbrake").is_dir() else HERE) / "build" / "editable"


def _put_together(wheel, folder):
    """The package of a wheel, its written files as links."""
    shutil.rmtree(folder, ignore_errors=True)
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder, [name for name in archive.namelist() if "dist-info" not in name])
    for path in (folder / PACKAGE.name).iterdir():
        written = PACKAGE / path.name
        if written.exists() and path.name not in MADE:
            path.unlink()
            path.symlink_to(written)


def _row(name, data):
    """A row of RECORD."""
    digest = base64.urlsafe_b64encode(hashlib.sha256(data).digest()).rstrip(b"=").decode()
    return f"{name},sha256={digest},{len(data)}\n"


def _point(wheel, folder, target):
    """A wheel that holds nothing but the way to the folder, and what it is."""
    with zipfile.ZipFile(wheel) as archive:
        kept = {name: archive.read(name) for name in archive.namelist() if "dist-info" in name}
    (record,) = (name for name in kept if name.endswith("/RECORD"))
    del kept[record]
    kept["_libbrake.pth"] = f"{folder}\n".encode()
    with zipfile.ZipFile(target, "w") as archive:
        for name, data in kept.items():
            archive.writestr(name, data)
        archive.writestr(record, "".join(_row(*one) for one in kept.items()) + f"{record},,\n")


def build(build_wheel, wheel_directory, config_settings):
    """An editable wheel, of one that is built; gives its name."""
    with tempfile.TemporaryDirectory() as made:
        name = build_wheel(made, config_settings)
        wheel, folder = pathlib.Path(made) / name, _folder()
        _put_together(wheel, folder)
        _point(wheel, folder, pathlib.Path(wheel_directory) / name)
    return name
