# SPDX-License-Identifier: MIT
"""Joins page, style, modules and core into one file, on standard output.

usage: join.py FOLDER CORE.wasm

A module is a scope of its own once its imports are gone: names of all of them must differ.
"""
import base64
import gzip
import pathlib
import re
import sys

# A module stands behind those that it uses.
MODULES = ["core", "words", "file", "value", "history", "heat", "drawings", "field", "form",
           "trial", "answer", "papers", "page"]
IMPORT = re.compile(r"^import [^;]*;\n", re.MULTILINE)
EXPORT = re.compile(r"^export ", re.MULTILINE)
NAME = re.compile(r"^(?:export )?(?:async )?(?:const|let|function|class) (\w+)", re.MULTILINE)


def joined(folder, modules):
    """The modules as one script; a name that two of them have is an error."""
    scripts, owner = [], {}
    for module in modules:
        text = (folder / f"{module}.mjs").read_text(encoding="utf-8")
        for name in NAME.findall(text):
            if name in owner:
                sys.exit(f"{module}.mjs: {name} is a name of {owner[name]}.mjs too")
            owner[name] = module
        scripts.append(EXPORT.sub("", IMPORT.sub("", text)))
    return "\n".join(scripts)


def page(folder, core):
    """The whole file."""
    parts = {
        "STYLE": (folder / "page.css").read_text(encoding="utf-8"),
        "SCRIPT": joined(folder, MODULES),
        # the worker is made of the same text
        "WORKER": joined(folder, ["core", "worker"]),
        "CORE": base64.b64encode(gzip.compress(core.read_bytes(), 9, mtime=0)).decode("ascii"),
    }
    text = (folder / "page.html").read_text(encoding="utf-8")
    return re.sub(r"@(STYLE|SCRIPT|WORKER|CORE)@", lambda mark: parts[mark[1]], text)


if __name__ == "__main__":
    sys.stdout.reconfigure(encoding="utf-8")
    sys.stdout.write(page(pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])))
