# SPDX-License-Identifier: MIT
"""What `explain` knows, and what it says of one vehicle."""
import json
import re

import pytest

from file import plain

HERON = str(plain.ROOT / "examples" / "heron.ini")
CAUTION = "A calculation is not an approval."


def explained(*words):
    done = plain.run("explain", *words)
    assert (done.returncode, done.stderr) == (0, b"")
    text = done.stdout.decode()
    assert max(map(len, text.splitlines())) <= 80
    assert CAUTION in " ".join(text.split())
    return text


def checked(path, *words):
    """Answer of check; its status is that of the verdict."""
    return json.loads(plain.run("check", path, *words, "--json").stdout)


ANSWER = checked(HERON)
ALL = {row["id"]: row for row in checked(HERON, "--rules", "all")["criteria"]}
WARNINGS = sorted({row["id"] for row in ANSWER["warnings"]})


# ---- words ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ALL)
def test_every_requirement_is_explained(name):
    row = ALL[name]
    text = " ".join(explained(name).split())
    assert text.startswith(f"{name} (a requirement)")
    assert row["title"] in text and row["clause"] in text
    assert "check against the current text" in text
    labels = "Measure", "Limit at ", "Force", "Load", "Applies to ", "Text ", "Read ", "Method"
    for label in labels:
        assert f" {label}" in text
    assert (row["read_in"] or "memory") in text


def test_a_requirement_says_what_it_asks_for():
    """49 CFR 571.135, S7.5: 70 m from 100 km/h, 500 N."""
    text = explained("us.135.cold")
    assert "Limit     at most 0.1 V + 0.006 V^2 m, V the speed in km/h: 70 m" in text
    assert "Force     500 N on the pedal" in text
    assert "Applies   to a rated mass up to 3,500 kg" in text
    assert "State" not in text
    failed = "State     first circuit failed, or second circuit failed; the worse counts\n"
    assert failed in explained("us.135.circuit_failed")


@pytest.mark.parametrize("name", WARNINGS)
def test_every_warning_that_is_given_is_explained(name):
    assert explained(name).startswith(f"{name} (a warning)\n")


@pytest.mark.parametrize("word", ["meets", "falls short", "cannot say", "agrees", "regained"])
def test_words_of_verdicts_are_explained(word):
    assert explained(word).startswith(f"{word} (a verdict)\n")


@pytest.mark.parametrize("name", ["heat.front_face", "drive.friction_factor", "fade.hot_share"])
def test_results_of_every_verb_are_explained(name):
    """Lost before: results of heat and drivelog were unknown."""
    assert re.search(r"Method    reference/method.md, section (8|11)\n", explained(name))


def test_a_meaning_stands_by_itself():
    """Lost before: `That over the cold stop's.`"""
    text = " ".join(explained("fade.hot_share").split())
    words = "Mean fully developed deceleration of the first hot stop over that of the cold stop."
    assert words in text


def test_every_section_that_is_named_is_on_the_method_page():
    page = (plain.ROOT / "reference" / "method.md").read_text()
    for name in ("front.disc.pistons", "heat.cooling", "full.stop.distance", "us.135.cold"):
        (section,) = re.findall(r"method.md, section (\d+)", explained(name))
        assert f"\n## {section}. " in page


def test_without_a_name_everything_is_listed():
    text = explained()
    for name in (*ALL, *WARNINGS, "heat.front_face", "drive.fade", "falls short"):
        assert re.search(rf"^  {re.escape(name)} ", text, re.MULTILINE), name


def test_a_line_comes_before_a_result_of_the_same_name():
    assert explained("pedal.travel").startswith("pedal.travel (a line)\n")
    assert explained("full.pedal.travel").startswith("full.pedal.travel (a result)\n")
    assert explained("stop.distance").startswith("empty.stop.distance (a result)\n")


# ---- one vehicle ---------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["full.stop.distance", "empty.mass.total", "fade.hot_share"])
def test_the_value_is_that_of_check(name):
    entry = ANSWER["results"][name]
    value = entry["value"] * (100 if name == "fade.hot_share" else 1)
    (shown,) = re.findall(r"^  value +(\S+) ", explained(name, HERON), re.MULTILINE)
    assert float(shown) == pytest.approx(value, rel=6e-4)


@pytest.mark.parametrize("name", ["us.135.cold", "us.135.hot"])
def test_the_margin_of_a_requirement_is_that_of_check(name):
    row = ALL[name]
    text = explained(name, HERON)
    (margin,) = re.findall(r"^  margin +(\S+) %", text, re.MULTILINE)
    assert float(margin) == pytest.approx(100 * row["margin"], rel=6e-3)  # three digits
    assert f"  {row['verdict']}\n" in text
    assert "changes it by" in text


def listed(text):
    """Lines that move the number, with the change as it is shown."""
    return dict(re.findall(r"^  ([a-z_]+\.[a-z_.]+) +\w+ .*?([-+][\d.e-]+)", text, re.MULTILINE))


def test_a_value_comes_with_the_lines_that_it_depends_on(tmp_path):
    """Given 1600 kg and 400 kg of load, then 1 % of each moves the mass by 16 kg and 4 kg."""
    file = tmp_path / "plain.ini"
    file.write_text(plain.VEHICLE)
    moved = listed(explained("full.mass.total", str(file)))
    assert moved == {"vehicle.mass": "+16", "load.full.mass": "+4"}


def test_a_line_that_is_worked_out_tells_from_what(tmp_path):
    file = tmp_path / "plain.ini"
    file.write_text(
        plain.changed("[pedal] ratio", "[pedal] pad_arm = 300 mm", "[pedal] rod_arm = 75 mm")
    )
    text = explained("pedal.ratio", str(file))
    assert re.search(r"^  from +worked out$", text, re.MULTILINE)
    # 1 % more of 300 mm over 75 mm; 1 % more of 75 mm below it.
    assert listed(text) == {"pedal.pad_arm": "+0.04", "pedal.rod_arm": "-0.0396"}


def test_a_line_of_the_file_tells_where_it_stands(tmp_path):
    file = tmp_path / "plain.ini"
    file.write_text(plain.VEHICLE)
    text = explained("vehicle.mass", str(file))
    assert re.search(r"^  line of the file +3$", text, re.MULTILINE)
    assert "changes it by" not in text


@pytest.mark.parametrize("path, least, most", [
    ("front.disc.pads.gap", "0.33", "2.5"), ("valve.anti_lift", "0.2", "1.8")])  # fmt: skip
def test_a_rule_tells_how_far_vehicles_lie_from_it(path, least, most):
    """Multiples: common practice, no source. Half of their distance is the tolerance with which a
    line left out stands (reference/method.md, section 12: 95 of 100 from (1 - q) t below to
    (1 + q) t above)."""
    interval = f"within {least} to {most} times that"
    assert f"Left out  95 of 100 vehicles lie {interval}\n" in explained(path)
    line = ANSWER["vehicle"][path]
    assert line["from"] == "default"
    half = line["value"] * (float(most) - float(least)) / 2
    assert line["tolerance"] == pytest.approx(half, rel=1e-12)


def test_a_usual_value_tells_between_which_vehicles_lie():
    """Interval: service manuals ask for 1 to 6 mm and 3 to 8 mm, as the line says."""
    interval = "within 1 mm (0.03937 in) to 8 mm (0.315 in)"
    assert f"Left out  95 of 100 vehicles lie {interval}\n" in explained("pedal.free_play")
    assert ANSWER["vehicle"]["pedal.free_play"]["tolerance"] == pytest.approx(3.5e-3, rel=1e-12)


@pytest.mark.parametrize("path", ["vehicle.mass", "parking.force", "vehicle.tyres"])
def test_what_is_measured_or_chosen_has_no_interval(path):
    assert "Left out" not in explained(path)


def test_set_is_heeded():
    text = explained("load.full.height", HERON, "--set", "load.full.height=1234 mm")
    assert "  1234 mm (" in text


def test_a_warning_tells_whether_it_is_given(tmp_path):
    file = tmp_path / "plain.ini"
    file.write_text(plain.VEHICLE)
    assert "It is not given." in explained("hoses_at_droop", str(file))
    file.write_text(plain.changed("[lift] suspension = 50 mm"))
    assert "The body sits 50 mm higher" in explained("hoses_at_droop", str(file))


def test_what_takes_a_duty_says_so():
    assert "takes a duty" in explained("heat.front_face", HERON)


@pytest.mark.parametrize(
    "wrong, right",
    [
        ("us.135.cld", "us.135.cold"),
        ("rear_lock_first", "rear_locks_first"),
        ("heat.front_fac", "heat.front_face"),
        ("full.stop.distnce", "full.stop.distance"),
        ("fals short", "falls short"),
    ],
)
def test_a_mistyped_name_gets_the_one_that_was_meant(wrong, right):
    done = plain.run("explain", wrong)
    assert done.returncode == 2
    assert f"unknown name '{wrong}'; did you mean {right}?" in done.stderr.decode()


def test_a_line_of_a_part_that_is_not_there_is_refused():
    done = plain.run("explain", "part.nothing.mass", HERON)
    assert done.returncode == 2 and b"unknown path 'part.nothing.mass'" in done.stderr
    assert explained("part.nothing.mass").startswith("part.nothing.mass (a line)\n")


@pytest.mark.parametrize(
    "word, says",
    [
        ("hydraulic assist", "booster = hydraulic"),
        ("Hydraulic-Booster", "the line reserve"),
        ("EBD", "kind = ebd of [valve]"),
        ("brake force distribution", "vehicle.antilock = fitted"),
        ("dually", "the line wheels = dual"),
        ("dual wheels", "the second load index"),
        ("GVWR", "vehicle.rated_mass"),
        ("curb weight", "vehicle.mass"),
        ("front.caliper.pistons", "[front.disc]"),
    ],
)
def test_a_word_of_the_trade_is_answered_with_what_to_write(word, says):
    done = plain.run("explain", word)
    assert done.returncode == 0
    assert says in " ".join(done.stdout.decode().split())


@pytest.mark.parametrize(
    "text, says",
    [
        ("[booster]\nhydraulic = fitted\n", "booster = hydraulic"),
        ("[hydraulic]\n", "piston_diameter and pressure"),
        ("[vehicle]\nebd = fitted\n", "kind = ebd of [valve]"),
        ("[rear.tyre]\ndual = yes\n", "the line wheels = dual"),
        ("[vehicle]\ncurb_weight = 4360 lb\n", "vehicle.mass"),
    ],
)
def test_a_line_of_what_is_not_modelled_is_refused_with_what_to_write(text, says):
    done = plain.run("check", "/dev/stdin", given=text)
    assert done.returncode == 2
    assert says in done.stderr.decode()


# ---- pads ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "lines, told",
    [
        ("shape = sector\ninner_radius = 100 mm\nouter_radius = 152 mm", "integral over its shape"),
        ("shape = circle\ncentre_radius = 126 mm\ndiameter = 60 mm", "the handbooks' table"),
        (
            "shape = circle\ncentre_radius = 126 mm\ndiameter = 60 mm\ncontact = uniform_pressure",
            "even pressure (a new pad): integral over its shape",
        ),
    ],
)
def test_the_pressure_that_is_assumed_under_a_pad_is_told(lines, told, tmp_path):
    vehicle = tmp_path / "vehicle.ini"
    sections = [part for part in re.split(r"(?m)^(?=\[)", open(HERON).read())]
    kept = [part for part in sections if not part.startswith("[front.disc.pads]")]
    kept = [re.sub(r"(?m)^before .*$", "", part) for part in kept]
    vehicle.write_text("".join(kept) + f"[front.disc.pads]\n{lines}\n")
    text = " ".join(explained("front.disc.effective_radius", str(vehicle)).split())
    assert " assumes even " in text and told in text
    assert "assumes" not in explained("front.disc.rotor_diameter", str(vehicle))
