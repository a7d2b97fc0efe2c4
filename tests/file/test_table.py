# SPDX-License-Identifier: MIT
"""Tables as loggers, telephones and spreadsheets write them: each dialect of Python's csv module
comes back as it went in, or is refused in words. RFC 4180 for quotes; the rest is common practice,
no source."""
import csv
import io
import itertools
import math
import os
import subprocess

import pytest
from hypothesis import HealthCheck, assume, given, settings, strategies as st

from file import plain

BUILD = os.environ.get("LIBBRAKE_BUILD", str(plain.ROOT / "build"))
DRIVER = os.path.join(BUILD, "tests", "table-driver")

HEADS = ["time [s]", "speed [m/s]", "pedal_force [N]"]
ROWS = [[0.0, 20.25, 0.5], [0.5, 19.75, 150.25], [1.0, 18.5, 151.0]]


class Refused(Exception):
    """A table that is refused: line, column, what is wrong."""

    def __init__(self, line, field, text):
        super().__init__(f"{line}: {field}: {text}")
        self.line, self.field, self.text = int(line), field, text


def read(table, *units):
    """Rows (line, time, speed, pedal force) of the bytes, or the text, of a table, and its
    notes."""
    data = table if isinstance(table, bytes) else table.encode()
    done = subprocess.run([DRIVER, *units], input=data, capture_output=True, check=True)
    rows, notes = [], []
    for line in done.stdout.decode().split("\n")[:-1]:
        kind, *fields = line.split("\t")
        if kind == "refused":
            raise Refused(*fields)
        if kind == "row":
            rows.append((int(fields[0]), *map(float, fields[1:4])))
        else:
            notes.append(fields[0])
    return rows, notes


def numbers(table, *units):
    return [list(row[1:]) for row in read(table, *units)[0]]


def written(rows, heads=tuple(HEADS), mark=".", **dialect):
    """A table as the csv module writes it, numbers with this decimal mark."""
    stream = io.StringIO()
    writer = csv.writer(stream, **dialect)
    writer.writerow(heads)
    for row in rows:
        writer.writerow([c if isinstance(c, str) else repr(c).replace(".", mark) for c in row])
    return stream.getvalue()


def same(found, rows):
    assert len(found) == len(rows)
    for one, other in zip(found, rows):
        for x, y in zip(one, other):
            assert x == y or (math.isnan(x) and math.isnan(y))


# ---- dialects ------------------------------------------------------------------------------------

SEPARATORS = {",": [".", ","], ";": [".", ","], "\t": [".", ","]}
QUOTING = [csv.QUOTE_MINIMAL, csv.QUOTE_ALL, csv.QUOTE_NONNUMERIC]


@pytest.mark.parametrize("mark_of_file", ["", "\ufeff"], ids=["bare", "marked"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"], ids=["LF", "CRLF", "CR"])
@pytest.mark.parametrize("quoting", QUOTING, ids=["minimal", "all", "texts"])
@pytest.mark.parametrize(("separator", "mark"), [(s, m) for s in SEPARATORS for m in SEPARATORS[s]])
def test_every_dialect_means_the_same(separator, mark, quoting, end, mark_of_file):
    table = written(ROWS, mark=mark, delimiter=separator, quoting=quoting, lineterminator=end)
    same(numbers(mark_of_file + table), ROWS)


@pytest.mark.parametrize("order", itertools.permutations(range(3)))
def test_columns_stand_in_any_order_among_others(order):
    heads = ["lap", *[HEADS[i] for i in order], "where"]
    rows = [["1", *[row[i] for i in order], 'at the "oak", left'] for row in ROWS]
    found, notes = read(written(rows, heads))
    same([row[1:] for row in found], ROWS)
    assert notes == [
        f"line 1: column '{name}' is not known and left aside" for name in ("lap", "where")
    ]


@pytest.mark.parametrize(
    ("heads", "factor"),
    [
        ("Time (s),Speed (mph)", 0.44704),
        ("TIME [S],SPEED [KM/H]", 1 / 3.6),
        ("time_s,Speed_kmh", 1 / 3.6),
        ("Time (sec),speed km/h", 1 / 3.6),
        ('"Time (seconds)","Speed ( kph )"', 1 / 3.6),
        ("Time_ms,speed_m/s", 1.0),
        ("time [s],speed(ft/s)", 0.3048),
    ],
)
def test_heads_are_read_as_telephones_write_them(heads, factor):
    rows, _ = read(f"{heads}\n0,50.5\n1000,20\n")
    assert rows[0][2] == pytest.approx(50.5 * factor, rel=1e-15)
    assert rows[1][1] == (1.0 if "_ms" in heads else 1000.0)


def test_a_head_that_only_begins_like_a_column_is_left_aside():
    """speed_limit is no speed, time_of_day no time: neither is a unit."""
    _, notes = read(
        "time [s],speed [m/s],speed_limit,time_of_day,speed (m/s) raw\n0,1,2,3,4\n1,1,2,3,4\n"
    )
    assert [note.split("'")[1] for note in notes] == [
        "speed_limit",
        "time_of_day",
        "speed (m/s) raw",
    ]


def test_what_is_left_aside_is_told_in_its_own_letters():
    """But for those that steer a terminal, and beyond 40 bytes."""
    heads = "Rotor FL (°C),\x1b[31mred," + 30 * "é"
    _, notes = read(f"time [s],speed [m/s],{heads}\n0,1,2,3,4\n1,1,2,3,4\n")
    assert [note.split("'")[1] for note in notes] == ["Rotor FL (°C)", "?[31mred", 20 * "é"]


def test_comments_empty_rows_and_the_line_that_names_the_separator_are_passed_over():
    table = '# one "quote, not closed\nsep=x\n'
    with pytest.raises(Refused, match="no such column"):
        read(table + "time [s],speed [m/s]\n0,1\n1,1\n")  # only the first line may name it
    rows, _ = read("sep=;\n# ours\n\ntime [s];speed [m/s]\n;\n0;1\n# on the way\n1;1\n")
    assert [row[0] for row in rows] == [6, 8]


def test_a_cell_in_quotes_may_hold_lines_and_the_next_row_knows_its_own():
    rows, _ = read('time [s],note,speed [m/s]\n0,"two\r\nlines, ""so""",1\n1,x,2\n')
    assert [(row[0], row[2]) for row in rows] == [(2, 1.0), (4, 2.0)]


def test_a_quote_inside_a_cell_without_quotes_is_a_letter():
    assert numbers('time [s],speed [m/s],what\n0,1,5" disc\n1,2,6" disc\n')[1][1] == 2.0


# ---- nothing guessed, nothing dropped ------------------------------------------------------------


# fmt: off
@pytest.mark.parametrize(
    ("table", "line", "field", "words"),
    [
        ("time [s],speed [m/s]\n0,5,20,5\n", 2, "", "has 4 cells, the header has 2; decimals take a point, or a comma where semicolons"),
        ("time [s];speed [m/s]\n0,5,20,5\n", 2, "", "has 1 cells, the header has 2"),
        ("time [s];speed [m/s]\n0,5;20.5\n", 2, "speed", "got '20.5', but decimals take a comma in line 2"),
        ("time [s]\tspeed [m/s]\n0\t1.5\n1\t1,5\n", 3, "speed", "got '1,5', but decimals take a point in line 2"),
        ("time [s];pedal_force [N];speed [m/s]\n0;1.234,5;20\n", 2, "pedal_force", "accepts one decimal mark and no marks of thousands"),
        ("time [s];pedal_force [N];speed [m/s]\n0;1,234;20\n1;1,100;20\n", 2, "", "every comma, here and below, stands before three digits"),
        ("time [s]\tpedal_force [N]\tspeed [m/s]\n0\t1.234\t20\n1\t2\t20\n", 2, "", "every point, here and below"),
        ('time [s],pedal_force [N],speed [m/s]\n0,"1,234",20\n1,1,20\n', 2, "", "every comma"),
        ('time [s],pedal_force [N],speed [m/s]\n0,"1,234",20.5\n', 2, "speed", "but decimals take a comma"),
        ("time [s],speed [m/s],\n0,1,\n1,2,9\n", 3, "", "cell 3 holds '9' and has no head"),
        ("time [s],speed [m/s],Speed_kmh\n0,1,2\n", 1, "speed", "two columns of that name"),
        ("time [s],speed []\n0,1\n", 1, "speed", "has no unit"),
        ("time [s],speed (knots)\n0,1\n", 1, "speed", "got the unit 'knots'; accepts m/s, km/h, mph, ft/s"),
        ("time [s] speed [m/s]\n0 1\n", 1, "time", "no such column in 'time [s] speed [m/s]'; line 1 must be a header"),
        ('time [s],speed [m/s]\n0,"1"2\n', 2, "", "cell 2 goes on behind its closing quote"),
        ('time [s],speed [m/s]\n0,1\n1,"2\n2,3\n', 3, "", "a quote that opens here is not closed"),
        ("time [s],speed [m/s]\n0,1\n1,\x002\n", 3, "", "a NUL byte in cell 2"),
        ("time [s],speed [m/s],x\n0,1," + 1001 * "y" + "\n", 2, "", "cell 3 is longer than 1000 bytes"),
        ('time [s],speed [m/s]\n0,"' + (2**20 + 9) * "y" + "\n", 2, "", "is longer than 1048576 bytes, from a quote"),
        ("time [s],speed [m/s]\n0," + 61 * "1" + "\n", 2, "speed", "accepts a plain number"),
    ],
    ids=lambda value: str(value)[:40],
)
# fmt: on
def test_what_can_be_read_in_two_ways_or_is_too_large_is_refused(table, line, field, words):
    with pytest.raises(Refused) as refused:
        read(table)
    assert (refused.value.line, refused.value.field) == (line, field)
    assert words in refused.value.text


def test_one_decimal_mark_that_cannot_be_of_thousands_decides_for_all():
    head = "time [s];pedal_force [N];speed [m/s]\n"
    assert numbers(head + "0;1,234;20\n1;2;0,125\n")[0][2] == 1.234
    assert numbers(head + "0;1,234;20\n1,5;2;20\n")[0][2] == 1.234


def test_a_file_that_cannot_be_read_on_is_told(tmp_path):
    folder = os.open(tmp_path, os.O_RDONLY)
    said = subprocess.run([DRIVER], stdin=folder, capture_output=True, check=True).stdout
    os.close(folder)
    assert said.startswith(b"refused\t0\t\tcannot be read: Is a directory")


# ---- there and back ------------------------------------------------------------------------------

FINITE = st.floats(-90, 5000, allow_nan=False, width=64)
SPEEDS = st.floats(0, 149, allow_nan=False)
TEXTS = st.text(
    st.characters(blacklist_characters="\x00", blacklist_categories=("Cs",)), max_size=20
)


@st.composite
def tables(draw):
    """Rows whose time rises, a pedal force that may be missing, and a text."""
    times = sorted(draw(st.lists(st.floats(-1e6, 1e6), min_size=2, max_size=9, unique=True)))
    row = st.tuples(SPEEDS, st.one_of(st.none(), FINITE), TEXTS)
    return [(time, *draw(row)) for time in times]


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    rows=tables(), separator=st.sampled_from(",;\t"), mark=st.sampled_from(".,"),
    quoting=st.sampled_from(QUOTING), end=st.sampled_from(["\n", "\r\n", "\r"]),
    marked=st.booleans(),
)  # fmt: skip
def test_what_is_written_reads_back_bit_for_bit(rows, separator, mark, quoting, end, marked):
    """Given any text beside it, each number is the same, or the marks are said to be uncertain."""
    # the csv module puts quotes around no other end of line than its own
    ends = {letter for *_, text in rows for letter in text} & set("\r\n")
    assume(quoting != csv.QUOTE_MINIMAL or ends <= set(end))
    cells = [
        [time, speed, "" if force is None else force, text] for time, speed, force, text in rows
    ]
    table = written(
        cells, [*HEADS, "note"], mark, delimiter=separator, quoting=quoting, lineterminator=end
    )
    try:
        found = numbers(("\ufeff" if marked else "") + table)
    except Refused as refused:
        assert "stands before three digits" in refused.text
        return
    same(found, [[t, v, math.nan if f is None else f] for t, v, f, _ in rows])


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.binary(max_size=200), st.integers(0, 60))
def test_any_bytes_end_in_rows_or_in_words(noise, at):
    whole = written(ROWS).encode()
    try:
        assert len(read(whole[:at] + noise + whole[at:])[0]) >= 2
    except Refused as refused:
        assert refused.text
