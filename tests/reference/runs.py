# SPDX-License-Identifier: MIT
"""What pages of the guide show of the command: whole answers and single values, run anew.

In a page, `<!-- run: stopmargin check heron.ini -->` stands over a block that shows the answer
(`run 9:` the first nine lines of it), `<!-- stopmargin check heron.ini: Verdict -->...<!-- -->`
around what stands beside that word in the answer.
"""
import functools
import re
import shlex
import subprocess

from file import plain

BLOCK = re.compile(r"<!-- run(?: (\d+))?: stopmargin (.*?) -->\n+```console\n.*?^```$", re.S | re.M)
VALUE = re.compile(r"<!-- stopmargin ([^>]*?): ([^>:]*?) -->(.*?)<!-- -->", re.S)


@functools.cache
def answer(words):
    """What the command says in the folder of the examples; whatever its verdict."""
    done = subprocess.run(
        [plain.PROGRAM, *shlex.split(words)],
        cwd=plain.ROOT / "examples",
        capture_output=True,
        encoding="utf-8",
    )
    assert done.returncode in (0, 1, 3), f"stopmargin {words}: {done.stderr}"
    return done.stdout


def fact(words, key):
    """What stands beside a word of the answer, its lines joined."""
    lines = answer(words).splitlines()
    beside = re.compile(rf" *{re.escape(key)}  ")
    first = next((i for i, line in enumerate(lines) if beside.match(line)), None)
    assert first is not None, f"stopmargin {words} says nothing of {key}"
    found = [lines[first].strip()[len(key) :].strip()]
    for line in lines[first + 1 :]:
        if not line.startswith(" " * 8):
            break
        found.append(line.strip())
    return " ".join(found)


def _block(found):
    words, count = found[2], found[1]
    lines = answer(words).rstrip("\n").split("\n")
    if count:
        lines = [*lines[: int(count)], "..."]
    head = f"<!-- run{' ' + count if count else ''}: stopmargin {words} -->"
    return "\n".join([head, "", "```console", f"$ stopmargin {words}", *lines, "```"])


def _value(found):
    return f"<!-- stopmargin {found[1]}: {found[2]} -->{fact(found[1], found[2])}<!-- -->"


def filled(text):
    """The page with all its answers as they are now."""
    return VALUE.sub(_value, BLOCK.sub(_block, text))


def prose(text):
    """What is left of a page that no run stands behind."""
    return re.sub(r"```.*?^```$|`[^`]*`|\]\([^)]*\)|^#.*$", "", VALUE.sub("", BLOCK.sub("", text)),
                  flags=re.S | re.M)  # fmt: skip
