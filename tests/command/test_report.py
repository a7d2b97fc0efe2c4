# SPDX-License-Identifier: MIT
"""`stopmargin report` as a user meets it: what is written where, what is refused, exit status."""
import os
import pathlib
import re
import subprocess

import pytest

from command import told
from file import plain

CAUTION = (
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a"
    " qualified inspector before the vehicle is driven on the road."
)
HERON = str(plain.ROOT / "examples" / "heron.ini")
BEFORE = str(plain.ROOT / "examples" / "heron-before.ini")
DRIVE = str(plain.ROOT / "examples" / "heron-drive.csv")
HEAT = (
    "[front.disc] rotor_mass = 5 kg",
    "[rear.drum] drum_mass = 5 kg",
    "[rear.drum] width = 45 mm",
)


def report(*words, day="0", **options):
    environment = {**os.environ, "SOURCE_DATE_EPOCH": day}
    if day is None:
        del environment["SOURCE_DATE_EPOCH"]
    done = subprocess.run(
        [plain.PROGRAM, "report", *map(str, words)], capture_output=True, env=environment, **options
    )
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def refused(*words, **options):
    status, text, complaint = report(*words, **options)
    assert status == 2 and text == ""
    return complaint


def vehicle(folder, *changes, text=plain.VEHICLE):
    path = folder / "vehicle.ini"
    path.write_text(plain.changed(*changes, text=text))
    return path


def flat(text):
    return " ".join(text.split())


# ---- nothing is cut off --------------------------------------------------------------------------


@pytest.mark.parametrize("how", [("--text",), ("-o", "-")], ids=["text", "page"])
def test_a_friction_curve_stands_to_its_last_point(how):
    """Given a curve of 16 points, longer than any number in words, then paper has all of them."""
    curve = " ".join(f"({20 + 40 * i} degC, 0.{380 - i})" for i in range(16))
    paper = report(HERON, "--set", f"front.disc.pads.friction={curve}", *how)[1]
    assert curve.replace("0.380", "0.38").replace("0.370", "0.37") in flat(paper)

# ---- the page is judged again --------------------------------------------------------------------

AS_IT_WAS = "its vehicle is as it was printed; heron.ini "


def judged(page, *options):
    done = plain.run("check", page, *options)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


@pytest.fixture(scope="module")
def page(tmp_path_factory):
    """The page of the changed vehicle, away from its files."""
    path = tmp_path_factory.mktemp("page") / "heron.html"
    report(HERON, "--before", BEFORE, "-o", path)
    return path


def test_a_page_carries_its_vehicles_and_is_judged_as_they_are(page):
    """Given the page alone, when it is checked, then both vehicles come from it, and the words are
    those of the files."""
    status, text, told_aside = judged(page)
    assert (status, text) == judged(HERON, "--before", BEFORE)[:2]
    assert f"{page}: a page made by libbrake 0.1.0, this is 0.1.0; {AS_IT_WAS}" in told_aside
    assert told_aside.endswith("heron.ini is not beside it\n")


def test_a_page_that_a_browser_saved_again_is_read(page, tmp_path):
    """Given the same page as a browser writes it: attributes with values, only & < > escaped, the
    first end of a line within <pre> gone (HTML Living Standard, section 13.3)."""
    saved = re.sub(r"<pre hidden id=(\S+)>\n", r'<pre hidden="" id=\1>', page.read_text())
    assert saved.count('hidden=""') == 2
    again = tmp_path / "again.html"
    again.write_text(saved.replace("&#39;", "'").replace("&quot;", '"'))
    assert judged(again)[1] == judged(page)[1]


def test_a_page_that_was_altered_is_told(page, tmp_path):
    altered = tmp_path / "altered.html"
    text = page.read_text()
    assert text.count("mu = 0.38 +- 0.04, catalogue") >= 1
    altered.write_text(text.replace("mu = 0.38 +- 0.04, catalogue", "mu = 0.58 +- 0.04, catalogue"))
    assert "; its vehicle IS NOT THAT WHICH WAS PRINTED; heron.ini " in judged(altered)[2]


@pytest.mark.parametrize(
    ("mass", "words"), [("38 kg", "beside it is the same"), ("39 kg", "beside it IS ANOTHER NOW")]
)
def test_the_file_beside_a_page_is_held_against_it(page, tmp_path, mass, words):
    beside = tmp_path / "heron.html"
    beside.write_bytes(page.read_bytes())
    lines = pathlib.Path(HERON).read_text()
    assert re.search(r"^mass +=+ 38 kg", lines, re.MULTILINE)
    (tmp_path / "heron.ini").write_text(re.sub(r"(?m)^(mass +=+) 38 kg", rf"\1 {mass}", lines))
    assert judged(beside)[2].endswith(f"{AS_IT_WAS}{words}\n")


def test_names_that_a_page_escapes_come_back(tmp_path):
    name = "<b>&amp; \"it's\" </pre> \u00d7"
    file = vehicle(tmp_path, f"[vehicle] name = {name}")
    page = tmp_path / "named.html"
    report(file, "-o", page)
    assert judged(page)[1] == judged(file)[1]
    assert judged(page)[1].splitlines()[0] == name


def test_a_page_without_a_vehicle_is_refused(tmp_path):
    bare = tmp_path / "bare.html"
    bare.write_text("<!doctype html>\n<p>lines-of-vehicle")
    status, text, complaint = judged(bare)
    assert (status, text) == (2, "")
    assert "bare.html:2: is a page that carries no vehicle; give a vehicle file" in complaint


def test_a_page_that_was_cut_off_is_refused(page, tmp_path):
    """Given a page whose download ended within the vehicle, then it is not taken for less."""
    cut = tmp_path / "cut.html"
    cut.write_text(page.read_text().partition("[pedal]")[0])
    status, text, complaint = judged(cut)
    assert (status, text) == (2, "")
    assert "ends within its vehicle; the page was cut off, save it anew" in complaint


def test_a_pipe_is_read_once(tmp_path):
    """Lost before: a vehicle that came through a named pipe was waited for a second time."""
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    writer = subprocess.Popen(["cp", HERON, pipe])
    done = subprocess.run([plain.PROGRAM, "check", pipe], capture_output=True, timeout=60)
    assert writer.wait(timeout=60) == 0
    assert done.stdout == plain.run("check", HERON).stdout


def test_a_name_of_a_file_may_hold_what_ends_a_mark(page, tmp_path):
    """Given a file whose name holds a semicolon, beside its page, then it is found."""
    file = tmp_path / "heron; made of tin.ini"
    file.write_bytes(pathlib.Path(HERON).read_bytes())
    report(file, "-o", tmp_path / "page.html")
    assert judged(tmp_path / "page.html")[2].endswith(f"{file.name} beside it is the same\n")


def test_paper_tells_the_digest_of_what_it_was_made_of(page):
    digest = re.search(r"SHA-256 of its values ([0-9a-f]{64})", page.read_text())[1]
    short = " ".join(digest[i : i + 4] for i in range(0, 16, 4))
    assert f"Digest of its values {short} " in flat(report(HERON, "--text")[1])


# ---- where it goes -------------------------------------------------------------------------------


def test_page_goes_to_its_file(tmp_path):
    page = tmp_path / "heron.html"
    status, text, complaint = report(HERON, "--before", BEFORE, "-o", page)
    assert (status, text, complaint) == (1, "", "")
    assert page.read_text().startswith("<!DOCTYPE html>")
    assert page.read_text().endswith("</html>\n")


def test_page_goes_to_standard_output(tmp_path):
    page = tmp_path / "heron.html"
    report(HERON, "-o", page)
    assert report(HERON, "-o", "-") == (1, page.read_text(), "")


def test_text_goes_to_standard_output_or_a_file(tmp_path):
    page = tmp_path / "heron.txt"
    status, text, _ = report(HERON, "--text")
    report(HERON, "--text", "-o", page)
    assert status == 1
    assert text == page.read_text()


@pytest.mark.parametrize("name", ["vehicle", "before", "link"])
def test_what_is_read_is_not_written_over(tmp_path, name):
    files = {}
    for file in ("vehicle", "before"):
        files[file] = tmp_path / f"{file}.ini"
        files[file].write_text(plain.VEHICLE)
    files["link"] = tmp_path / "link.html"
    files["link"].symlink_to(files["vehicle"])
    complaint = refused(files["vehicle"], "--before", files["before"], "-o", files[name])
    assert str(files[name]) in complaint and "is not written over" in complaint
    assert files["vehicle"].read_text() == files["before"].read_text() == plain.VEHICLE


@pytest.mark.parametrize("out, reason", [
    ("/nonexistent/heron.html", "No such file"), ("/", "directory")])
def test_what_cannot_be_written_is_told(out, reason):
    complaint = refused(HERON, "-o", out)
    assert complaint.startswith(f"{out}: cannot be written: ") and reason in complaint


def test_standard_output_that_is_full_is_told():
    with open("/dev/full", "w") as full:
        done = subprocess.run([plain.PROGRAM, "report", HERON, "-o", "-"], stdout=full,
                              stderr=subprocess.PIPE)
    assert done.returncode == 4 and b"could not be written" in done.stderr


# ---- words of the command line -------------------------------------------------------------------


@pytest.mark.parametrize("words, says", [
    ((), "wants a vehicle file"),
    ((HERON,), "wants -o OUT.html"),
    ((HERON, "-o", ""), "-o wants a file"),
    ((HERON, "-o"), "-o wants a file"),
    ((HERON, HERON, "--text"), "one file at a time"),
    ((HERON, "--text", "--json"), "unknown option '--json'"),
    ((HERON, "--text", "--rules", "mars"), f"--rules 'mars'; {plain.ACCEPTED}"),
    ((HERON, "--text", "--load", "half"), "--load 'half'; accepts empty, full"),
    ((HERON, "--text", "--set", "vehicle.mass=soft"), "vehicle.mass"),
    ((HERON, "--text", "--before", "/nonexistent.ini"), "/nonexistent.ini: cannot be opened"),
    ((HERON, "--text", "--columns", "time=s"), "--columns is for --drivelog CSV"),
    ((HERON, "--text", "--drivelog", "/nonexistent.csv"), "/nonexistent.csv: cannot be opened"),
    ((HERON, "--text", "--drivelog", HERON), "heron.ini:1: "),
    ((HERON, "--text", "--before", "/dev/null"), "/dev/null:1: the file holds no [section]"),
    (("/dev/null", "--text"), "/dev/null:1: the file holds no [section]"),
])
def test_wrong_words_are_refused(words, says):
    assert says in refused(*words)


def test_nothing_is_written_when_the_input_is_refused(tmp_path):
    page = tmp_path / "heron.html"
    refused("/dev/null", "-o", page)
    assert not page.exists()


def test_blanks_name_the_lines_that_take_them(tmp_path):
    """Given a vehicle whose change is dated, when it is reported, then the year stands in its
    identity, and beside the blanks of a brake tester stand lines that the file takes."""
    file = tmp_path / "changed.ini"
    file.write_text(plain.VEHICLE.replace("[vehicle]", "[vehicle]\nmodified = 2024.5", 1))
    text = " ".join(report(file, "--text")[1].split())
    assert "Year of the change 2024" in text
    named = re.findall(r"\[(tester\.\w+)", text)
    assert len(set(named)) == 5
    for path in set(named):
        assert plain.run("explain", path).returncode == 0


@pytest.mark.parametrize("rules", ["us", "un", "eu", "all"])
@pytest.mark.parametrize("text", [plain.VEHICLE, plain.MEETS], ids=["plain", "meets"])
def test_exit_status_is_that_of_check(tmp_path, rules, text):
    file = vehicle(tmp_path, text=text)
    checked = plain.run("check", str(file), "--rules", rules)
    assert report(file, "--text", "--rules", rules)[0] == checked.returncode


def test_setting_changes_the_vehicle_and_not_the_one_before(tmp_path):
    file = vehicle(tmp_path)
    text = flat(report(file, "--before", file, "--text", "--set", "vehicle.mass=1700 kg")[1])
    assert "vehicle.mass 1600 kg (3527 lb) 1700 kg (3748 lb)" in text
    assert re.search(
        r"vehicle\.mass 1700 kg \(3748 lb\); May be off by [^;]*; From estimated; Line no\. --set",
        text,
    )


# ---- the date ------------------------------------------------------------------------------------


def test_same_day_same_bytes():
    assert report(HERON, "-o", "-") == report(HERON, "-o", "-")


@pytest.mark.parametrize("day, date", [
    ("0", "1970-01-01"), ("86399", "1970-01-01"), ("951782400", "2000-02-29"),
    ("253402300799", "9999-12-31")])
def test_date_is_that_of_the_build(day, date):
    """Source: reproducible-builds.org, SOURCE_DATE_EPOCH: seconds since 1970, UTC."""
    assert f"Date {date} " in flat(report(HERON, "--text", day=day)[1])


@pytest.mark.parametrize("day", ["", "today", "12 ", "-1", "1e9", "253402300800", "9" * 30])
def test_date_that_is_none_is_refused(day):
    assert "SOURCE_DATE_EPOCH: got " in refused(HERON, "--text", day=day)


def test_date_of_today_without_it():
    assert re.search(r"Date 20\d\d-\d\d-\d\d ", flat(report(HERON, "--text", day=None)[1]))


# ---- the drive -----------------------------------------------------------------------------------


def test_text_says_of_the_drive_what_drivelog_says():
    """Verdict, stops, repeatability, fade and friction are the very lines of the other verb, but
    for what the vehicle comes to now: the report's own verdict."""
    said = plain.run("drivelog", HERON, DRIVE).stdout.decode()
    said = re.sub(r"\nNow {7}(?:.+\n)+", "\n", said)
    text = report(HERON, "--drivelog", DRIVE, "--text")[1]
    assert f"Drive log {pathlib.Path(DRIVE).name} " in flat(text)
    part = text.split("Drive: what was measured\n")[1]
    assert part.startswith(said[said.index("Verdict"):said.rindex("Caution")].rstrip())


def test_load_of_the_drive_is_its_own():
    """Stop, fade and descent are of the full vehicle, the drive of the empty one unless told."""
    for words, load in (((), "empty"), (("--driven", "full"), "full")):
        text = flat(report(HERON, "--drivelog", DRIVE, "--text", *words)[1])
        assert f"; load {load}, " in text.split("Drive: what was measured")[1]


@pytest.mark.parametrize("step, speeds, status, says", [
    (1.0, [80, 80, 80, 45, 10, 0, 0, 0], 2, "too coarse: one row every 1 s"),
    (1.0, [80] * 20, 3, "no stop: the speed never falls"),
])
def test_log_that_says_nothing_is_refused_as_by_drivelog(tmp_path, step, speeds, status, says):
    log = tmp_path / "drive.csv"
    page = tmp_path / "page.html"
    log.write_text("time [s],speed [km/h]\n"
                   + "".join(f"{step * i},{speed}\n" for i, speed in enumerate(speeds)))
    other = plain.run("drivelog", HERON, str(log))
    assert says in other.stderr.decode()
    assert report(HERON, "--drivelog", log, "-o", page) == (status, "", other.stderr.decode())
    assert other.returncode == status and not page.exists()


def test_log_is_not_written_over(tmp_path):
    log = tmp_path / "drive.csv"
    log.write_bytes(open(DRIVE, "rb").read())
    assert "is not written over" in refused(HERON, "--drivelog", log, "-o", log)


# ---- what cannot be said -------------------------------------------------------------------------


def test_missing_lines_stand_in_the_place_of_the_picture(tmp_path):
    page = report(vehicle(tmp_path), "-o", "-")[1]
    missing = re.findall(r'<p class="box"><strong>([^<]+)</strong> ([^<]+)</p>', page)
    heat = [title for title, why in missing if "rotor_mass" in why]
    assert len(heat) == 3
    assert all(why.startswith("This picture cannot be drawn: ") for _, why in missing)
    text = flat(report(vehicle(tmp_path), "--text")[1])
    assert text.count("Cannot be said: front.disc.rotor_mass") == 3


def test_pictures_are_there_when_the_lines_are(tmp_path):
    page = report(vehicle(tmp_path, *HEAT), "-o", "-")[1]
    assert page.count("<svg ") == 9 and "This picture cannot be drawn" not in page


def test_without_booster_there_is_no_knee(tmp_path):
    page = report(vehicle(tmp_path), "-o", "-")[1]
    assert "No booster, no knee." in page and "booster runs out" not in page


def test_no_number_is_none(tmp_path):
    for file in (HERON, vehicle(tmp_path), vehicle(tmp_path, *HEAT)):
        page = report(file, "-o", "-")[1]
        assert not re.search(r"\bnan\b|\binf\b|\(null\)", page, re.IGNORECASE)


# ---- the text ------------------------------------------------------------------------------------


@pytest.mark.parametrize("words", [(HERON, "--before", BEFORE), (HERON,)])
def test_text_fits_80_columns_and_has_the_caution_at_both_ends(words):
    lines = report(*words, "--text")[1].splitlines()
    assert max(map(len, lines)) <= 80
    text = flat(" ".join(lines))
    assert (
        lines[1] == "CAUTION: a calculation is not an approval; an inspector must check the brakes."
    )
    assert f"Caution {CAUTION} libbrake" in text[-260:]


def test_text_has_what_check_says_and_every_line_of_the_file():
    text = flat(report(HERON, "--text")[1])
    checked = plain.check((plain.ROOT / "examples" / "heron.ini").read_text())
    for criterion in checked["criteria"]:
        named = re.search(rf"\[{re.escape(criterion['id'])}, ", text) is not None
        assert named, criterion["id"]
    for path in checked["vehicle"]:
        assert path in text or path.startswith("rear.tyre.")
    for item in checked["inspector"]:
        assert flat(item) in text
    for head in ("Hardest stop", "Fade sequence", "Long descent", "To be measured and signed",
                 "Signature of the inspector", "Method and sources"):
        assert head in text


@pytest.mark.parametrize(
    "words", [(), ("--before", BEFORE, "--drivelog", DRIVE)], ids=["alone", "with all"]
)
def test_page_and_text_tell_the_same_numbers_in_the_same_units(words):
    """Part by part, as often as the page does: none lost, none told by one of them only."""
    asked = (HERON, *words, "--rules", "all")
    page = told.in_page(report(*asked, "-o", "-")[1])
    text = told.in_text(report(*asked, "--text")[1], page)
    # What a result means stands on the page; a terminal has `explain` for it, as the heading says.
    page["Results"] -= told.amounts(
        "Torque at the wheels to hold on 20 %."
    )
    for heading in ("Pictures", "Which axle locks first, and what the pedal gives"):
        assert page.pop(heading) == {}  # those are for the page
    assert text == page
    counts = {part: sum(amounts.values()) for part, amounts in page.items()}
    assert counts["Requirements"] > 150 and counts["Lines of the vehicle file"] > 300
    # 6 numbers a stop, 2 units; the note below tells three of the day
    assert not words or counts["Stop by stop"] == 6 * 12 + 3


def test_blank_lines_for_signatures_are_there_to_be_written_on():
    """Each was told as "-", as if there were nothing to fill in."""
    part = report(HERON, "--text")[1].split("\nTo be measured and signed\n")[1]
    for name in ("Inspector (name, number)", "Place and date", "Signature of the inspector"):
        assert re.search(rf"^  {re.escape(name)} +________+$", part, re.MULTILINE), name


def test_no_heading_stands_over_nothing():
    """Pictures are drawn on the page only: no heading of them in the text."""
    text = report(HERON, "--text")[1]
    assert "Pictures" not in text.splitlines()
    assert ">Pictures</h2>" in report(HERON, "-o", "-")[1]


def test_a_word_wider_than_its_place_keeps_to_80_columns(tmp_path):
    """Given a name of 63 letters without a blank, the most that is accepted, it went past the edge
    where it stands to the right of its line's path."""
    name = "x" * 63
    file = vehicle(tmp_path, f"[vehicle] name = {name}")
    for words in (("report", file, "--text", "--before", BEFORE), ("compare", HERON, file)):
        lines = plain.run(*map(str, words)).stdout.decode().splitlines()
        assert max(map(len, lines)) <= 80 and all(line == line.rstrip() for line in lines)
        assert sum(name in line for line in lines) >= 2
