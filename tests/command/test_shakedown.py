# SPDX-License-Identifier: MIT
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
COLD = plain.without_heat("heron.ini")
VOID = {"meta", "br", "link"}
# Heron with brakes that are known well enough for more than measuring stops.
SURE = (
    "--set", "front.disc.pads.mu=0.38 +- 0.01", "--set", "rear.drum.lining.mu=0.39 +- 0.01",
    "--set", "booster.gain=4.2 +- 0.1",
)  # fmt: skip
VEHICLES = plain.ROOT / "tests" / "vehicles"
ALL = "no-reserve,rear-first,one-circuit"


def words(text):
    return " ".join(text.split())


def shakedown(*options, vehicle=HERON):
    done = plain.run("shakedown", vehicle, *options)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def stages(text):
    """Speed [km/h], force [N], deceleration and its half width, distance, limit, cone [m], travel
    [mm]: a line each, below the line of these units; the US numbers stand between."""
    part = text.split("3. Stages\n")[1].split("\nStop the drive")[0]
    head = re.search(
        r"^ +km/h +N +m/s2 +m +m/s2 +m +mm\n +mph +lbf +ft/s2 +ft +ft/s2 +ft +in\n", part, re.M
    )
    line = re.compile(
        r"^ +(\d+) +(\d+) +([\d.]+) \+-([\d.]+) +([\d.]+) \+-[\d.]+ +([\d.]+) +([\d.]+) +(\d+)$"
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
        "closed area", "qualified person", "local rules", "break off", "Bedding in", "Log sheet",
        "observer", "chocks", "stands", "Do not drive back", "roller or plate tester", "Signature",
        "schedule of the maker", "Deceleration with either circuit failed",
    ):  # fmt: skip
        assert needed in found
    tags = [tag for tag, _ in parsed.seen]
    assert "script" not in tags and "http" not in text
    assert all(attrs.get("scope") in ("col", "row") for tag, attrs in parsed.seen if tag == "th")
    assert tags.count("table") == tags.count("caption")


def test_the_text_says_the_same_in_80_columns():
    status, text, error = shakedown("--text", *SURE)
    assert (status, error) == (0, "")
    assert max(map(len, text.splitlines())) <= 80
    assert words(text).count(CAUTION) == 1 and text.splitlines()[1].startswith("CAUTION: ")
    assert text.isascii()
    found = words(" ".join(page(shakedown(*SURE)[1]).words))
    for speed, force, _, _, _, _, _, travel in stages(text):
        assert f"{speed:.0f} km/h" in found
        assert f"{force:.0f} N" in found and f"{travel:.0f} mm" in found


def test_stages_go_from_slow_and_light_to_fast_and_hard():
    found = stages(shakedown("--text", *SURE)[1])
    assert len(found) == 8
    speeds = [stage[0] for stage in found]
    assert speeds == sorted(speeds) == [20, 20, 40, 40, 60, 60, 80, 80]
    for light, firm in zip(found[::2], found[1::2]):
        assert light[1] < firm[1] and light[2] < firm[2]


def test_a_stage_is_what_check_gives_at_its_pedal_force():
    """Deceleration, distance by v (t_d + t_b/2) + v^2/2a - a t_b^2/24, travel of the pedal."""
    for speed, force, deceleration, half, distance, limit, cone, _ in stages(
        shakedown("--text", *SURE)[1]
    ):
        done = plain.run("check", COLD, "--json", "--set", f"driver.pedal_force={force} N")
        results = plain.json.loads(done.stdout)["results"]
        expected = results["empty.deceleration.at_pedal_force"]["value"]
        assert deceleration == pytest.approx(expected, abs=0.051 + 0.013)  # shown: 0.1, and 1/2 N
        v = speed / 3.6
        for a, shown in ((expected, distance), (limit, cone)):
            stop = v * (0.08 + 0.14) + v * v / 2 / a - a * 0.28**2 / 24
            assert shown == pytest.approx(stop, rel=0.01 if shown == distance else 0.03)
        assert limit == pytest.approx(deceleration - half, abs=0.11)


def test_no_stage_goes_near_the_lock():
    status, text, _ = shakedown("--text", *SURE, "--set", "road.adhesion=0.3")
    lock = float(re.search(r"lock at ([\d.]+) m/s2", words(text))[1])
    assert status == 0
    assert max(stage[2] for stage in stages(text)) <= 0.85 * lock + 0.1


def test_no_stage_is_faster_than_the_vehicle():
    found = stages(shakedown("--text", *SURE, "--set", "vehicle.top_speed=50 km/h")[1])
    assert max(stage[0] for stage in found) == 40


def test_the_other_load_takes_more_pedal():
    empty, full = (
        stages(shakedown("--text", *SURE, "--load", load)[1]) for load in ("empty", "full")
    )
    assert all(f[1] > e[1] for e, f in zip(empty, full))


def test_what_is_not_known_is_told(tmp_path):
    path = tmp_path / "plain.ini"
    path.write_text(plain.VEHICLE)
    status, text, error = shakedown("--text", "--despite", ALL, vehicle=str(path))
    assert (status, error) == (0, "")
    assert "cannot say" in words(text) and "nan" not in text and "inf" not in words(text).split()
    assert "no booster in the file" in text


@pytest.mark.parametrize(
    "name", ['<script>alert("x")</script>', "a & b", "\u5c71\u5cb3 \u05d4\u05e8"]
)
def test_a_name_is_text_and_nothing_else(tmp_path, name):
    path = tmp_path / "named.ini"
    path.write_text(plain.changed(f"[vehicle] name = {name}"), encoding="utf-8")
    parsed = page(shakedown("--despite", ALL, vehicle=str(path))[1])
    assert "script" not in [tag for tag, _ in parsed.seen]
    assert name in parsed.words


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (("--pdf",), "unknown option"),
        (("--load", "half"), "empty, full"),
        (("--despite", "rear"), "--despite: got 'rear'; accepts no-reserve,rear-first,one-circuit"),
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
    status, out, error = shakedown("-o", str(path), "--despite", ALL, vehicle=str(path))
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
    for one, (speed, force, deceleration, half, distance, limit, cone, travel) in zip(
        found["stages"], told
    ):
        assert one["speed"] * 3.6 == pytest.approx(speed, abs=0.5)
        assert one["pedal_force"] == pytest.approx(force, abs=0.5)
        expected = one["deceleration"]
        assert expected["value"] == pytest.approx(deceleration, abs=0.05)
        assert expected["p95"] - expected["value"] == pytest.approx(half, abs=0.05)
        assert one["least"] == pytest.approx(limit, abs=0.05)
        assert one["cone"] == pytest.approx(cone, abs=0.05)
        assert one["distance"]["value"] == pytest.approx(distance, abs=0.05)
        assert one["most_travel"] * 1e3 == pytest.approx(travel, abs=0.5)


@pytest.mark.parametrize("other", [["--text"], ["-o", "plan.json"]])
def test_json_goes_to_standard_output_only(other):
    status, text, error = shakedown("--json", *other)
    assert (status, text) == (2, "") and "--json goes to standard output" in error


# ---- what keeps a vehicle from being driven ------------------------------------------------------


@pytest.mark.parametrize(
    ("vehicle", "despite", "message"),
    [
        ("marten-long-pedal", "no-reserve", "the pedal has no reserve"),
        ("marten-discs", "rear-first", "the rear wheels lock first"),
        ("tapir-one-circuit", "one-circuit", "a single circuit"),
    ],
)
def test_a_vehicle_that_would_hurt_somebody_gets_no_plan(vehicle, despite, message):
    """The vehicles' first lines say why they are so."""
    path = str(VEHICLES / f"{vehicle}.ini")
    status, out, error = shakedown("--text", vehicle=path)
    assert (status, out) == (1, "")
    assert "do not drive it" in error and message in error and f"--despite {despite}" in error
    status, out, error = shakedown("--text", "--despite", despite, vehicle=path)
    assert (status, error) == (0, "")
    assert message in words(out).split("Before anything else")[0]


def test_every_reason_against_it_must_be_said():
    path = str(VEHICLES / "mule-after.ini")
    status, out, error = shakedown("--text", "--despite", "rear-first", vehicle=path)
    assert (status, out) == (1, "")
    assert "single circuit" in error and "rear wheels" not in error


# ---- what is not known well enough ---------------------------------------------------------------


def test_a_wide_range_gets_three_measuring_stops_and_no_more():
    """Heron's 139 N +- 21 N for 4 m/s2: 42 N are more than a quarter of it."""
    status, text, error = shakedown("--text")
    assert (status, error) == (0, "")
    found = stages(text)
    assert [stage[0] for stage in found] == [30, 30, 30]
    assert [round(stage[2], 1) for stage in found] == [2.0, 3.0, 4.0]
    assert "three measuring stops" in words(text) and "None by this plan" in text
    assert plain.json.loads(shakedown("--json")[1])["measuring_only"]
    assert not plain.json.loads(shakedown("--json", *SURE)[1])["measuring_only"]


@pytest.mark.parametrize("mu", ["0.38 +- 0.1", "0.38 +- 0.3"])
def test_no_limit_lets_the_drive_go_on_with_less_than_half(mu):
    """However wide the range; a pedal that comes near the floor ends it too."""
    text = shakedown("--json", "--set", f"front.disc.pads.mu={mu}")[1]
    found = plain.json.loads(text)
    for stage in found["stages"]:
        assert stage["least"] >= 0.5 * stage["deceleration"]["value"]
        assert stage["most_travel"] <= 0.8 * found["standing"]["travel_to_floor"]


# ---- bedding in ----------------------------------------------------------------------------------


def bedding(*options):
    return plain.json.loads(shakedown("--json", *SURE, *options)[1])["bedding"]


def test_bedding_in_keeps_the_limits_of_the_plan():
    """The heat of the same stops by `heat`: below 300 degC, and the fluid 30 K below boiling."""
    found = bedding()
    assert found["stops"] >= 10 and found["none"] is None
    snubs = (
        f"{found['stops']},{3.6 * found['speed']}km/h,0km/h,{found['interval']}s,"
        f"{found['deceleration']}m/s2"
    )
    done = plain.run("heat", HERON, *SURE, "--load", "empty", "--snubs", snubs, "--json")
    heat = plain.json.loads(done.stdout)["results"]
    faces = [heat[f"heat.{axle}_face"]["value"] for axle in ("front", "rear")]
    assert found["hottest"] == pytest.approx(max(faces), abs=0.5)
    assert max(faces) <= 573.15 and found["fluid"] < 400


def test_brakes_that_get_hotter_are_bedded_in_slower():
    light = ("--set", "front.disc.rotor_mass=2.5 kg", "--set", "front.disc.hat_mass=1 kg")
    usual, found = bedding(), bedding(*light)
    assert found["hottest"] <= 573.15
    pace = [(one["stops"], one["speed"], -one["interval"]) for one in (found, usual)]
    assert pace[0] < pace[1]


@pytest.mark.parametrize("adhesion", [0.35, 0.3])
def test_bedding_in_stays_away_from_the_lock(adhesion):
    """It was done with the most that the driver gives, past the lock."""
    found = plain.json.loads(
        shakedown("--json", *SURE, "--set", f"road.adhesion={adhesion}")[1]
    )
    assert found["bedding"]["deceleration"] <= 0.85 * found["lock_deceleration"] + 1e-9
    assert found["bedding"]["pedal_force"] < 100


def test_the_full_plan_comes_after_the_empty_one_and_anti_lock_is_untried():
    full = words(shakedown("--text", "--load", "full")[1])
    assert "comes after the whole plan driven empty" in full
    fitted = shakedown("--text", "--set", "vehicle.antilock=fitted")[1]
    assert "untried on these tyres" in words(fitted)
    assert "untried on these tyres" not in words(shakedown("--text")[1])
