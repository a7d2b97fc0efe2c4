# SPDX-License-Identifier: MIT
"""What was written stays: a full disk, a kill or a closed stream leaves the old file or the whole
new one, and nothing else is written into it."""
import os
import stat
import subprocess

import pytest

from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")
OLD = b"old\n"
REPORT = ("report", HERON, "-o")
PLAN = ("shakedown", HERON, "-o")
WRITERS = pytest.mark.parametrize("verb", [REPORT, PLAN], ids=lambda words: words[0])


@pytest.fixture(autouse=True)
def day(monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1767312000")


def only(path):
    """Whether a folder holds this file and no other."""
    return list(path.parent.iterdir()) == [path]


# ---- files that are written aside ----------------------------------------------------------------


@WRITERS
def test_a_file_has_the_bytes_of_standard_output_and_nothing_lies_beside_it(tmp_path, verb):
    path = tmp_path / "out"
    done = plain.run(*verb, str(path))
    assert done.returncode in (0, 1) and done.stdout == b""
    assert path.read_bytes() == plain.run(*verb, "-").stdout
    assert only(path)


@WRITERS
def test_a_file_that_could_not_be_written_whole_leaves_the_old_one(tmp_path, verb):
    """Given room for 8 KiB, a file keeps what it held, in words, and the half that was is gone."""
    path = tmp_path / "out"
    path.write_bytes(OLD)
    done = subprocess.run(
        ["sh", "-c", 'ulimit -f 16; exec "$@"', "sh", plain.PROGRAM, *verb, str(path)],
        capture_output=True,
        env={**os.environ, "LLVM_PROFILE_FILE": "/dev/null"},  # longer than that
    )
    assert done.returncode == 4
    assert done.stderr.decode() == f"{path}: cannot be written: File too large\n"
    assert path.read_bytes() == OLD and only(path)


@WRITERS
def test_a_full_disk_leaves_the_old_file(small_disk, verb):
    path = small_disk / "out"
    path.write_bytes(OLD)
    done = plain.run(*verb, str(path))
    assert done.returncode == 4 and b"No space left" in done.stderr
    assert path.read_bytes() == OLD and only(path)


@pytest.fixture
def small_disk(tmp_path):
    """A file system of 8 KiB."""
    mount = ["mount", "-t", "tmpfs", "-o", "size=8k", "none", str(tmp_path)]
    if subprocess.run(mount, capture_output=True).returncode != 0:
        pytest.skip("a file system cannot be mounted here")
    yield tmp_path
    subprocess.run(["umount", str(tmp_path)], check=True)


@WRITERS
def test_a_device_that_is_full_is_told(verb):
    done = plain.run(*verb, "/dev/full")
    assert done.returncode == 4
    assert done.stderr == b"/dev/full: cannot be written: No space left on device\n"


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o666])
def test_the_permissions_of_the_old_file_stay(tmp_path, mode):
    path = tmp_path / "out"
    path.write_bytes(OLD)
    path.chmod(mode)
    plain.run(*PLAN, str(path))
    assert stat.S_IMODE(path.stat().st_mode) == mode


def test_a_new_file_has_the_usual_permissions(tmp_path):
    path = tmp_path / "out"
    words = [plain.PROGRAM, *PLAN, str(path)]
    subprocess.run(["sh", "-c", 'umask 027; exec "$@"', "sh", *words], check=True)
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


def test_a_file_that_may_not_be_written_is_not_replaced(tmp_path):
    path = tmp_path / "out"
    path.write_bytes(OLD)
    path.chmod(0o444)
    if os.access(path, os.W_OK):
        pytest.skip("this user may write everything")
    done = plain.run(*PLAN, str(path))
    assert done.returncode == 2 and b"Permission denied" in done.stderr
    assert path.read_bytes() == OLD


@pytest.mark.parametrize("there", [True, False], ids=["there", "not there"])
def test_a_link_stays_and_the_file_that_it_names_is_written(tmp_path, there):
    (tmp_path / "far").mkdir()
    path = tmp_path / "far" / "out"
    link = tmp_path / "link"
    link.symlink_to("second")
    (tmp_path / "second").symlink_to("far/out")
    if there:
        path.write_bytes(OLD)
    plain.run(*PLAN, str(link))
    assert os.readlink(link) == "second"
    assert path.read_bytes() == plain.run(*PLAN, "-").stdout and only(path)


def test_a_pipe_is_written_as_it_is(tmp_path):
    path = tmp_path / "pipe"
    os.mkfifo(path)
    with subprocess.Popen([plain.PROGRAM, *PLAN, str(path)]):
        text = path.read_bytes()
    assert text == plain.run(*PLAN, "-").stdout
    assert stat.S_ISFIFO(path.stat().st_mode)


def test_standard_output_by_its_name_goes_where_the_shell_sends_it(tmp_path):
    """Given a file that is appended to, /dev/stdout does not replace it."""
    path = tmp_path / "out"
    path.write_bytes(OLD)
    with open(path, "ab") as out:
        subprocess.run([plain.PROGRAM, *PLAN, "/dev/stdout"], stdout=out, check=True)
    assert path.read_bytes() == OLD + plain.run(*PLAN, "-").stdout


# ---- streams that are closed ---------------------------------------------------------------------


def closed(stream, *words):
    """Runs the command with a stream closed: "1>&-"."""
    return subprocess.run(
        ["sh", "-c", f'exec "$@" {stream}', "sh", plain.PROGRAM, *words], capture_output=True
    )


@pytest.mark.parametrize("words", [("check", HERON), ("--version",), ("--help",), (*PLAN, "-")])
def test_closed_standard_output_is_told_and_no_verdict(words):
    done = closed(">&-", *words)
    assert done.returncode == 4
    assert done.stderr.startswith(b"stopmargin: the output could not be written: ")


def test_closed_streams_write_nothing_into_a_report(tmp_path):
    path = tmp_path / "out"
    whole = plain.run(*REPORT, "-")
    done = closed("<&- >&- 2>&-", *REPORT, str(path))
    assert done.returncode == whole.returncode
    assert path.read_bytes() == whole.stdout


@pytest.mark.parametrize("bare", [(), ("--bare",)], ids=["marked", "bare"])
def test_closed_standard_error_writes_nothing_into_a_table(tmp_path, bare):
    """Given a caution that goes to standard error, and none: the table holds its rows alone, and
    can be gone on with."""
    path = tmp_path / "out.csv"
    words = ("sweep", HERON, "--axis", "vehicle.mass=1500kg:2400kg:100kg", *bare)
    assert closed("2>&-", *words, "--into", str(path)).returncode == 0
    assert path.read_bytes() == plain.run(*words).stdout
    if not bare:
        assert plain.run(*words, "--into", str(path), "--resume").returncode == 0


def test_a_folder_given_as_a_vehicle_is_told():
    done = plain.run("check", str(plain.ROOT))
    assert done.returncode == 2 and b"cannot be read" in done.stderr
