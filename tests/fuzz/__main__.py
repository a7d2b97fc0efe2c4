# SPDX-License-Identifier: MIT
"""Runs the targets of tests/fuzz one after the other: make fuzz SECONDS=n TARGETS='value log'.

Bytes are changed by words of the library too, those that it quotes and those of its lines. With
QUIET=n a target ends before its SECONDS when it came upon no new edge for n of them. Seconds are
those of the processor, so that other work beside it takes nothing away. What a target finds new
stays in the build folder, and it goes on from there the next time; a run of more than a minute goes
on from tests/fuzz/found too, where `make fuzz-keep` put few bytes that reach every edge found.
Bytes that broke a target stay beside what it found. Ends with 1 when one broke.
"""
import argparse
import contextlib
import io
import math
import os
import pathlib
import re
import signal
import subprocess
import sys
import tarfile
import tempfile
import threading
import time

from lint import source
from trust import record

HERE = pathlib.Path(__file__).resolve().parent
BUILD = pathlib.Path(os.environ.get("LIBBRAKE_BUILD", source.ROOT / "build"))
FOUND = BUILD / "fuzz" / "found"
WORDS = BUILD / "fuzz" / "words"  # a dictionary of libFuzzer
KEPT = HERE / "found"  # an archive for each target
SHORT = 60  # [s] a run no longer goes from the seeds alone: all that is kept takes minutes to show
PROGRAMS = sorted(path.stem for path in HERE.glob("*.c") if path.stem != "replay")
ARGUMENTS = "arguments"  # of the Python package
# Where there are more seeds than its own.
SEEDS = {"vehicle": ["tests/vehicles", "examples"]}
LONGEST = {"vehicle": 8000, "page": 8000, "log": 4000, "cycle": 2000, "changed": 65}


def processor(process):
    """[s] that a process took of the processor, so far."""
    stat = pathlib.Path(f"/proc/{process}/stat").read_text(encoding="ascii")
    user, system = stat.rpartition(")")[2].split()[11:13]
    return (int(user) + int(system)) / os.sysconf("SC_CLK_TCK")


def hear(stream, said):
    """Keeps the lines of a stream as they come."""
    for line in stream:
        said.append(line)


def listened(command, seconds, quiet):
    """Status of libFuzzer, what it said, how many seconds of the processor it took, and after how
    many it last came upon new edges: it is told to end at most so many later, or all in all."""
    said, took, last, most = [], 0.0, 0.0, 0
    with subprocess.Popen(command, stderr=subprocess.PIPE, stdout=subprocess.DEVNULL,
                          encoding="utf-8", errors="replace") as running:  # fmt: skip
        ear = threading.Thread(target=hear, args=[running.stderr, said])
        ear.start()
        while running.poll() is None:
            time.sleep(0.5)
            took = processor(running.pid)
            edges = figures("".join(said[-100:]))[1]
            if edges > most:
                most, last = edges, took
            if took > seconds or took - last > quiet:
                running.send_signal(signal.SIGUSR1)
        ear.join()
    return running.returncode, "".join(said), round(took), round(last)


def figures(said):
    """(runs, edges) that libFuzzer told at its end."""
    runs = re.findall(r"stat::number_of_executed_units: (\d+)", said)
    edges = re.findall(r" cov: (\d+) ft:", said)
    return [int(found[-1]) if found else 0 for found in (runs, edges)]


def write_words():
    """What files and words of the command line can be made of: what the library quotes, and what
    the reference of lines does."""
    told = [path.read_text(encoding="utf-8") for path in source.sources()]
    quoted = re.findall(r'"([^"\\\s%]{2,40})"', "\n".join(told))
    lines = (source.ROOT / "reference" / "lines.md").read_text(encoding="utf-8")
    quoted += re.findall(r"`([^`\s]{2,60})`", lines)
    escaped = ("".join(f"\\x{byte:02x}" for byte in word.encode()) for word in sorted({*quoted}))
    WORDS.parent.mkdir(parents=True, exist_ok=True)
    WORDS.write_text("".join(f'"{word}"\n' for word in escaped), encoding="ascii")


def unpack(target):
    """What is kept of a target, put where it looks for more: once."""
    with contextlib.suppress(FileNotFoundError), tarfile.open(KEPT / f"{target}.tar.xz") as archive:
        names = [entry for entry in archive if not (FOUND / target / entry.name).exists()]
        archive.extractall(FOUND / target, names)


def command_of(target, *options):
    """What runs a target on its corpus and its seeds."""
    corpus = FOUND / target
    corpus.mkdir(parents=True, exist_ok=True)
    seeds = [HERE / "seeds" / target, *(source.ROOT / folder for folder in SEEDS.get(target, ()))]
    return [BUILD / "fuzz" / "tests" / "fuzz" / target, f"-max_len={LONGEST.get(target, 400)}",
            "-timeout=60", "-rss_limit_mb=3000", "-close_fd_mask=3",
            f"-artifact_prefix={FOUND}/{target}-", *options, corpus,
            *(path for path in seeds if path.exists())]  # fmt: skip


def keep(target):
    """Archives the fewest of a target's bytes that reach every edge which all of them reach; what
    to say of it."""
    unpack(target)
    with tempfile.TemporaryDirectory() as fewest:
        command = command_of(target, "-merge=1", "-set_cover_merge=1", fewest)
        subprocess.run(command, check=True, stderr=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
        paths = sorted(pathlib.Path(fewest).iterdir())
        KEPT.mkdir(exist_ok=True)
        with tarfile.open(KEPT / f"{target}.tar.xz", "w:xz") as archive:
            for path in paths:
                content = path.read_bytes()
                entry = tarfile.TarInfo(path.name)
                entry.size = len(content)
                archive.addfile(entry, io.BytesIO(content))
    return f"{len(paths)} kept"


def run(target, seconds, quiet):
    """Runs one target; whether it stood, and what to say of it."""
    if seconds > SHORT:
        unpack(target)
    command = command_of(target, f"-dict={WORDS}", "-print_final_stats=1")
    status, said, took, last = listened(command, seconds, quiet)
    if status:
        print(said[-4000:])
    runs, edges = figures(said)
    return status == 0, (
        f"{runs} runs in {took} s of the processor, {edges} edges, the last new after {last} s"
    )


def run_arguments(seconds):
    """The same for arguments of the Python package, in a process of its own."""
    path = os.pathsep.join([str(BUILD / "python"), str(source.ROOT / "tests")])
    command = [sys.executable, "-W", "ignore", "-m", "fuzz.arguments", str(seconds)]
    done = subprocess.run(command, capture_output=True, encoding="utf-8", errors="replace",
                          env={**os.environ, "PYTHONPATH": path})  # fmt: skip
    if done.returncode:
        print(done.stdout[-2000:] + done.stderr[-4000:])
    return done.returncode == 0, (done.stdout.splitlines() or ["nothing"])[-1]


def main():
    """All of them, or those that are named."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--seconds", type=int, default=60)
    parser.add_argument("--quiet", type=int, default=math.inf)
    parser.add_argument("--keep", action="store_true", help="keep what was found, look for no more")
    parser.add_argument("targets", nargs="*", default=[*PROGRAMS, ARGUMENTS])
    told = parser.parse_args()
    if told.keep:
        for target in told.targets:
            if target != ARGUMENTS:
                print(f"fuzz: {target}: {keep(target)}", flush=True)
        return 0
    write_words()
    broken = 0
    for target in told.targets:
        if target == ARGUMENTS:
            stood, figure = run_arguments(told.seconds)
        else:
            stood, figure = run(target, told.seconds, told.quiet)
        broken += not stood
        print(f"fuzz: {target}: {figure}{'' if stood else ', BROKE'}", flush=True)
        verdict = "no fault" if stood else "a fault, not mended"
        record.record("fuzz", "Any bytes at all", {target: f"{figure}; {verdict}"}, RESTS, LEFT)
    return 1 if broken else 0


RESTS = (
    "Targets of `tests/fuzz`, each with what must be true of any bytes, under address and "
    "undefined-behaviour sanitizers (libFuzzer, clang); `arguments` calls the Python package with "
    "arguments drawn at random. Edges are those of the code that the target reached."
)
LEFT = (
    "The page's own modules; files larger than some kilobytes; heat over time but for one stop "
    "(`make oracle`); several threads at once. A target whose last new edge is late in its run "
    "would find more in a longer one."
)

if __name__ == "__main__":
    sys.exit(main())
