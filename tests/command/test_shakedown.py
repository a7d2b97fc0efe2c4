"""`stopmargin shakedown`: the plan as page and as text, and whether it tells the vehicle's
numbers."""
import html.parser
import re

import pytest

from file import plain

CAUTION = (
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a"
    " qualified inspector before the vehicle is driven on the road."
)
HERON = str(plain.ROOT / "examples" / "heron.ini")
VOID = {"meta", "br", "link"}


def words(text):
    return " ".join(text.split())


def shakedown(*options, vehicle=HERON):
    done = plain.run("shakedown", vehicle, *options)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def stages(text):
    """Speed [km/h], force [N], deceleration and its half width, distance, limit, travel [mm]: a
    line each, below the line of these units; the US numbers stand between."""
    part = text.split("2. Stages\n")[1].split("\nStop the drive")[0]
    head = re.search(
        r"^ +km/h +N +m/s2 +m +m/s2 +mm\n +mph +lbf +ft/s2 +ft +ft/s2 +in\n", part, re.M
    )
    line = re.compile(
        r"^ +(\d+) +(\d+) +([\d.]+) \+-([\d.]+) +([\d.]+) \+-[\d.]+ +([\d.]+) +(\d+)$"
    )
    rows = part[head.end() :].splitlines()[::2] if head else []
    return [tuple(map(float, line.match(row).groups())) for row in rows if line.match(row)]


class Balanced(html.parser.HTMLParser):
    """Every element that is opened is closed; collects the words and the heads of tables."""

    def __init__(self):
        super().__init__()
        self.open, self.words, self.seen = [], [], []

    def handle_starttag(self, tag, attrs):
        self.seen.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.words.append(data)


def page(text):
    parser = Balanced()
    parser.feed(text)
    parser.close()
    assert parser.open == []
    return parser


def test_the_plan_is_written_as_one_page(tmp_path):
    path = tmp_path / "plan.html"
    assert shakedown("-o", str(path)) == (0, "", "")
    text = path.read_text(encoding="utf-8")
    parsed = page(text)
    found = words(" ".join(parsed.words))
    assert found.count(CAUTION) == 2
    for needed in (
        "closed area", "qualified person", "local rules", "Break off", "Bedding in", "Log sheet",
        "FMVSS 135, S7.1", "check against the current text", "schedule of the maker", "Signature",
    ):  # fmt: skip
        assert needed in found
    tags = [tag for tag, _ in parsed.seen]
    assert "script" not in tags and "http" not in text
    assert all(attrs.get("scope") in ("col", "row") for tag, attrs in parsed.seen if tag == "th")
    assert tags.count("table") == tags.count("caption")


def test_the_text_says_the_same_in_80_columns():
    status, text, error = shakedown("--text")
    assert (status, error) == (0, "")
    assert max(map(len, text.splitlines())) <= 80
    assert words(text).count(CAUTION) == 1 and text.splitlines()[1].startswith("CAUTION: ")
    assert text.isascii()
    found = words(" ".join(page(shakedown()[1]).words))
    for speed, force, _, _, _, _, travel in stages(text):
        assert f"{speed:.0f} km/h" in found
        assert f"{force:.0f} N" in found and f"{travel:.0f} mm" in found


def test_stages_go_from_slow_and_light_to_fast_and_hard():
    found = stages(shakedown("--text")[1])
    assert len(found) == 8
    speeds = [stage[0] for stage in found]
    assert speeds == sorted(speeds) == [20, 20, 40, 40, 60, 60, 80, 80]
    for light, firm in zip(found[::2], found[1::2]):
        assert light[1] < firm[1] and light[2] < firm[2]


def test_a_stage_is_what_check_gives_at_its_pedal_force():
    """Deceleration, distance by v (t_d + t_b/2) + v^2/2a - a t_b^2/24, travel of the pedal."""
    for speed, force, deceleration, half, distance, limit, _ in stages(shakedown("--text")[1]):
        done = plain.run("check", HERON, "--json", "--set", f"driver.pedal_force={force} N")
        results = plain.json.loads(done.stdout)["results"]
        expected = results["empty.deceleration.at_pedal_force"]["value"]
        assert deceleration == pytest.approx(expected, abs=0.051 + 0.013)  # shown: 0.1, and 1/2 N
        v = speed / 3.6
        assert distance == pytest.approx(
            v * (0.08 + 0.14) + v * v / 2 / expected - expected * 0.28**2 / 24, rel=0.01
        )
        assert limit == pytest.approx(deceleration - half, abs=0.11)


def test_no_stage_goes_near_the_lock():
    status, text, _ = shakedown("--text", "--set", "road.adhesion=0.3")
    lock = float(re.search(r"lock at ([\d.]+) m/s2", words(text))[1])
    assert status == 0
    assert max(stage[2] for stage in stages(text)) <= 0.85 * lock + 0.1


def test_no_stage_is_faster_than_the_vehicle():
    found = stages(shakedown("--text", "--set", "vehicle.top_speed=50 km/h")[1])
    assert max(stage[0] for stage in found) == 40


def test_the_other_load_takes_more_pedal():
    empty, full = (stages(shakedown("--text", "--load", load)[1]) for load in ("empty", "full"))
    assert all(f[1] > e[1] for e, f in zip(empty, full))


def test_what_is_not_known_is_told(tmp_path):
    path = tmp_path / "plain.ini"
    path.write_text(plain.VEHICLE)
    status, text, error = shakedown("--text", vehicle=str(path))
    assert (status, error) == (0, "")
    assert "cannot say" in text and "nan" not in text and "inf" not in words(text).split()
    assert "no booster in the file" in text


@pytest.mark.parametrize(
    "name", ['<script>alert("x")</script>', "a & b", "\u5c71\u5cb3 \u05d4\u05e8"]
)
def test_a_name_is_text_and_nothing_else(tmp_path, name):
    path = tmp_path / "named.ini"
    path.write_text(plain.changed(f"[vehicle] name = {name}"), encoding="utf-8")
    parsed = page(shakedown(vehicle=str(path))[1])
    assert "script" not in [tag for tag, _ in parsed.seen]
    assert name in parsed.words


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (("--pdf",), "unknown option"),
        (("--load", "half"), "empty, full"),
        (("-o",), "-o wants a file"),
        (("-o", "/nonexistent/plan.html"), "cannot be written"),
        (("more.ini",), "one file at a time"),
        (("--set", "road.adhesion=wet"), "number"),
    ],
)
def test_wrong_words_are_refused(options, message):
    status, out, error = shakedown(*options)
    assert (status, out) == (2, "")
    assert message in error


def test_the_vehicle_is_not_written_over(tmp_path):
    path = tmp_path / "plain.ini"
    path.write_text(plain.VEHICLE)
    status, out, error = shakedown("-o", str(path), vehicle=str(path))
    assert (status, out) == (2, "") and "is not written over" in error
    assert path.read_text() == plain.VEHICLE


def test_a_dash_is_standard_output():
    assert shakedown("-o", "-") == shakedown()


def test_files_that_are_no_vehicle_are_refused():
    for vehicle in ("/nonexistent.ini", "/dev/null", "/"):
        status, out, error = shakedown(vehicle=vehicle)
        assert (status, out) == (2, "") and error != ""
    assert plain.run("shakedown").returncode == 2


def test_the_json_tells_what_the_text_tells():
    status, text, error = shakedown("--json")
    assert (status, error) == (0, "")
    found = plain.json.loads(text)
    assert found["caution"] == CAUTION and found["load"] == "empty"
    told = stages(shakedown("--text")[1])
    assert len(found["stages"]) == len(told)
    for one, (speed, force, deceleration, half, distance, limit, travel) in zip(
        found["stages"], told
    ):
        assert one["speed"] * 3.6 == pytest.approx(speed, abs=0.5)
        assert one["pedal_force"] == pytest.approx(force, abs=0.5)
        expected = one["deceleration"]
        assert expected["value"] == pytest.approx(deceleration, abs=0.05)
        assert expected["p95"] - expected["value"] == pytest.approx(half, abs=0.05)
        assert expected["p05"] == pytest.approx(limit, abs=0.05)
        assert one["distance"]["value"] == pytest.approx(distance, abs=0.05)
        assert one["travel"]["p95"] * 1e3 == pytest.approx(travel, abs=0.5)


@pytest.mark.parametrize("other", [["--text"], ["-o", "plan.json"]])
def test_json_goes_to_standard_output_only(other):
    status, text, error = shakedown("--json", *other)
    assert (status, text) == (2, "") and "--json goes to standard output" in error
