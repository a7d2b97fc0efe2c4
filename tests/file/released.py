# SPDX-License-Identifier: MIT
"""Vehicle files of released versions: what each gave, which lines there were.

usage: PYTHONPATH=tests python3 -m file.released   keeps what this version makes of its folder
"""
import json
import re

from file import plain
from lint import versions

FOLDER = plain.ROOT / "tests" / "file" / "released"


def read(path):
    """{line: [value in SI, where it came from]} of a vehicle file, as the command reads it."""
    done = plain.run("check", str(path), "--json")
    assert done.returncode in (0, 1, 3), done.stderr.decode()
    told = json.loads(done.stdout)["vehicle"]
    return {name: [row["value"], row["from"]] for name, row in told.items()
            if row["from"] != "default" and not row["worked_out"]}  # fmt: skip


def lines():
    """Every line that a file may have, as section.name."""
    section, found = "", []
    for line in plain.run("new").stdout.decode().splitlines():
        if line.startswith("[") or line.startswith("; ["):
            section = line.strip("; []")
        elif match := re.match(r"; (\w+) = ", line):
            found.append(f"{section}.{match[1]}")
    return found


def main():
    """Writes what is kept of the present version."""
    folder = FOLDER / versions.stated()
    kept = {path.name: read(path) for path in sorted(folder.glob("*.ini"))}
    text = json.dumps(kept).replace("], ", "],\n ").replace("{", "{\n ").replace("}", "\n}")
    (folder / "read.json").write_text(f"{text}\n", encoding="utf-8")
    (folder / "lines.txt").write_text("".join(f"{line}\n" for line in lines()), encoding="utf-8")


if __name__ == "__main__":
    main()
