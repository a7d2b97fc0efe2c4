# SPDX-License-Identifier: MIT
"""`stopmargin compare` as a user meets it: verdict, shares, what differs, exit status."""
import json
import re

import pytest

from file import plain

CAUTION = (
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a"
    " qualified inspector before the vehicle is driven on the road."
)
BEFORE = str(plain.ROOT / "examples" / "heron-before.ini")
AFTER = str(plain.ROOT / "examples" / "heron.ini")
# A rear disc in place of the drum of plain.VEHICLE.
DISC = plain.VEHICLE.partition("[rear.axle]")[0] + (
    "[rear.axle]\nbrake = disc\n[rear.disc]\nmounting = floating\npistons = 1 x 34 mm\n"
    "[rear.disc.pads]\ninner_radius = 90 mm\nouter_radius = 130 mm\n[pedal]"
) + plain.VEHICLE.partition("[pedal]")[2]


def compare(*words):
    done = plain.run("compare", *words)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def report(*words):
    status, text, error = compare(*words, "--json")
    assert status in (0, 1, 3), error
    return json.loads(text, parse_constant=plain.refuse_constant)


def words(text):
    return " ".join(text.split())


def written(tmp_path, name, text):
    path = tmp_path / name
    path.write_text(text)
    return str(path)


def compared(one):
    """Every number of a report that is held side by side."""
    yield from one["margins"]
    yield from one["shared_results"]
    for axles in one["like_for_like"].values():
        yield from axles.values()


# ---- JSON ----------------------------------------------------------------------------------------


def test_shares_of_every_margin_add_up_to_its_difference():
    found = report(BEFORE, AFTER, "--rules", "all")
    groups = {group["id"] for group in found["groups"]}
    shared = 0
    for one in compared(found):
        if one["shares"] is None:
            assert one["reason"]
            continue
        shared += 1
        assert one["reason"] is None
        assert one["shares"].keys() == groups
        assert sum(one["shares"].values()) == pytest.approx(one["difference"], abs=1e-9)
        assert one["difference"] == pytest.approx(one["after"] - one["before"], abs=1e-12)
    assert shared > 60


def test_both_sides_are_those_of_check():
    found = report(BEFORE, AFTER)
    for side, file in (("before", BEFORE), ("after", AFTER)):
        alone = json.loads(plain.run("check", file, "--json", "--rules", "all").stdout)
        margins = {one["id"]: one["margin"] for one in alone["criteria"]}
        assert found[side]["name"] == alone["vehicle"]["vehicle.name"]["value"]
        assert found["margins"] and found["shared_results"] and found["results"]
        for one in found["margins"]:
            assert one[side] == margins[one["id"]]
        for one in found["shared_results"] + found["results"]:
            assert one[side] == alone["results"][one["path"]]["value"]


def test_json_has_its_keys():
    found = report(BEFORE, AFTER)
    assert found["caution"] == CAUTION
    assert set(found) == {
        "libbrake", "format", "caution", "changes", "verdict", "before", "after", "groups",
        "like_for_like", "margins", "shared_results", "results", "lines",
    }
    assert found["verdict"]["regained"] is None
    assert found["verdict"]["took_most"] == "tyre"
    assert found["verdict"]["gave_most"] == "caliper"


def test_lines_that_differ_are_told_with_their_group():
    lines = {line["path"]: line for line in report(BEFORE, AFTER)["lines"]}
    pistons = lines["front.disc.pistons"]
    assert (pistons["before"], pistons["after"]) == ([[1, 0.057]], [[2, 0.048]])
    assert pistons["group"] == "caliper"
    assert lines["part.winch.mass"]["before"] is None
    assert lines["part.winch.mass"]["after"] == 38
    assert "rear.drum.diameter" not in lines


def test_what_one_file_lacks_is_null_with_a_reason():
    sides = next(one for one in report(BEFORE, AFTER)["margins"] if one["id"] == "eu.45.sides")
    assert sides["before"] is not None and sides["after"] is None
    assert sides["shares"] is None
    assert sides["reason"] == "cannot be said of the vehicle after"
    assert sides["reason_after"] == "axle.side_difference must be measured, front and rear"


def test_rules_can_be_chosen():
    ids = {one["id"] for one in report(BEFORE, AFTER, "--rules", "eu")["margins"]}
    assert ids and all(one.startswith(("eu.", "hazard.")) for one in ids)


def test_the_same_file_twice_differs_in_nothing():
    found = report(AFTER, AFTER)
    assert found["groups"] == found["lines"] == found["results"] == []
    assert found["verdict"] == {
        "regained": True, "missing": 0, "load": "full", "took_most": None, "gave_most": None,
        "lost": [],
    }
    assert all(one["difference"] in (0, None) for one in compared(found))


def test_a_rear_disc_in_place_of_a_drum_is_one_change(tmp_path):
    drum = written(tmp_path, "drum.ini", plain.VEHICLE)
    disc = written(tmp_path, "disc.ini", DISC)
    found = report(drum, disc)
    assert [group["id"] for group in found["groups"]] == ["drum"]
    rear = found["like_for_like"]["full"]["rear"]
    assert rear["shares"]["drum"] == pytest.approx(rear["difference"]) != 0


def test_a_disc_and_other_changes_share_without_gaps(tmp_path):
    drum = written(tmp_path, "drum.ini", plain.VEHICLE)
    disc = written(
        tmp_path,
        "disc.ini",
        plain.changed(
            "[front.disc] pistons = 2 x 48 mm", "[front.tyre] rollout = 2.3 m", text=DISC
        ),
    )
    found = report(drum, disc)
    assert [group["id"] for group in found["groups"]] == ["tyre", "caliper", "drum"]
    assert all(one["shares"] for axles in found["like_for_like"].values() for one in axles.values())


# ---- text ----------------------------------------------------------------------------------------


def test_the_verdict_comes_first_in_plain_words():
    status, text, error = compare(BEFORE, AFTER)
    assert (status, error) == (1, "")  # a failed circuit was enough before, and is not now
    found = report(BEFORE, AFTER)
    start = words(text)
    lines = text.splitlines()
    assert lines[0] == "Heron (invented), after refit" and lines[1].startswith("CAUTION: ")
    assert lines[2] == "Before    Heron (invented), before refit"
    assert lines[3] == "After     Heron (invented), after refit"
    changes = found["changes"]
    both = changes["torque_per_need"][2]
    assert f"Changes {100 * abs(both['ratio'] - 1):.0f} % less in brake torque per need" in start
    assert (
        "Verdict cannot say whether it is regained: more than 3 % of the brake torque per need is"
        f" missing in {100 * changes['p_less']:.0f} of 100; rear axle, empty: "
    ) in start
    assert found["verdict"]["regained"] is None
    now = found["after"]
    assert now["falls_short"] == 0 or "Now FALLS SHORT. " in start
    assert f"tyre {100 * both['shares']['tyre']:+.0f} %" in start
    assert found["verdict"]["lost"] == ["hazard.circuit"]
    assert "Lost met before, FALLS SHORT now: hazard.circuit Like" in start
    heads = [after for before, after in zip(lines, lines[1:]) if before == ""]
    assert heads == [
        "Like for like", "Margins, and what each change did to them",
        "Results that differ", "Lines that differ",
        "Caution   A calculation is not an approval. Local codes rule, and road brakes",
    ]


def test_what_was_met_before_and_falls_short_now_is_named(tmp_path):
    """Given a vehicle that meets everything, when its front pads lose three quarters of their
    friction, then that is not regained, and each requirement that is lost is told."""
    meets = written(tmp_path, "meets.ini", plain.MEETS)
    worn = written(
        tmp_path, "worn.ini", plain.changed("[front.disc.pads] mu = 0.1", text=plain.MEETS)
    )
    status, text, _ = compare(meets, worn)
    lost = report(meets, worn)["verdict"]["lost"]
    assert status == 1 and lost
    assert "Verdict   NOT REGAINED: more than 3 % of the brake torque per need is missing" in text
    assert f"Lost met before, FALLS SHORT now: {', '.join(lost)} Like" in words(text)


@pytest.mark.parametrize("files", [(BEFORE, AFTER), (AFTER, AFTER), (AFTER, BEFORE)])
def test_text_has_80_columns_and_the_caution_at_both_ends(files):
    _, text, _ = compare(*files)
    assert max(map(len, text.splitlines())) <= 80
    assert all(line == line.rstrip() for line in text.splitlines())
    assert words(text).count(CAUTION) == 1 and text.splitlines()[1].startswith("CAUTION: ")
    assert not re.search(r"\b(safe|legal|approved|nan|inf)\b", text)


def test_numbers_stand_in_both_trades():
    text = words(compare(BEFORE, AFTER)[1])
    assert re.search(r"mass\.total 1690 2027 \+337 kg 3726 4469 \+743 lb", text)
    side, change = r"[\d.]+ {0} [\d.]+ {0}", r"[+-][\d.]+ {0}"
    row = " ".join(f"{side} {change}".format(unit) for unit in ("m", "ft"))
    assert re.search(rf"full\.stop\.distance {row}", text)


def test_a_change_of_any_size_has_its_sign_in_both_trades():
    """Given an energy that rises by 102 kJ, when compared, then that is +75 thousand ft*lbf,
    signed; and a torque that rises by 1214 N*m is told in its digits, without an exponent."""
    text = words(compare(BEFORE, AFTER)[1])
    assert re.search(r" stop\.energy [\d.]+ [\d.]+ \+101 kJ \d+ \d+ \+74\d{3} ft\*lbf", text)
    assert re.search(r" torque\.front_available \d+ \d+ \+\d{4} N\*m \d+ \d+ \+\d{4} lbf\*ft", text)
    assert not re.search(r"\de\+\d", text)


def test_the_same_file_twice_in_words():
    status, text, _ = compare(AFTER, AFTER)
    assert status == 3  # the difference left to right cannot be said
    assert "Changes   as before in brake torque per need, " in text
    assert "Verdict   regained: more than 3 % of the brake torque per need is missing in 0" in text
    assert "Lost      nothing that was met before falls short now" in text
    assert "Lines that differ\n  None.\n" in text


def test_exit_status_0_when_all_is_said_and_regained(tmp_path):
    file = written(tmp_path, "meets.ini", plain.MEETS)
    assert compare(file, file)[0] == 0


@pytest.mark.parametrize("name", ["%s%n%d", "[{]}<b>&\"'", "x" * 63, "\u00e9t\u00e9 \u00d7 4"])
def test_names_are_shown_as_they_are(tmp_path, name):
    file = written(tmp_path, "named.ini", plain.changed(f"[vehicle] name = {name}"))
    status, text, _ = compare(file, AFTER)
    assert status in (0, 1, 3)
    assert text.splitlines()[2] == f"Before    {name}"
    assert report(file, AFTER)["before"]["name"] == name


# ---- several -------------------------------------------------------------------------------------

BADGER, TYRES, KIT = (
    str(plain.ROOT / "tests" / "vehicles" / f"badger-{name}.ini")
    for name in ("before", "after", "kit")
)


@pytest.fixture(scope="module")
def kits():
    return {form: compare(BADGER, TYRES, KIT, *form) for form in ((), ("--json",))}


def test_each_of_several_kits_says_what_check_says_of_it(kits):
    """Given a stock vehicle and two ways to change it, when they are compared, then each has the
    loss, the verdict and the words that `check --before` gives it alone."""
    status, text, _ = kits[()]
    found = json.loads(kits[("--json",)][1])
    assert status == kits[("--json",)][0] == 1
    for number, (file, kit) in enumerate(zip((TYRES, KIT), found["kits"]), 1):
        done = plain.run("check", file, "--before", BADGER, "--json")
        alone = json.loads(done.stdout)
        both = alone["changes"]["torque_per_need"][2]
        assert (kit["ratio"], kit["ratio_p05"]) == (both["ratio"], both["ratio_p05"])
        assert alone["summary"]["verdict"].lower().startswith(kit["verdict"] + ". ")
        assert f"Kit {number} {file}: {kit['name']} Changes " in words(text)
        verdicts = {one["id"]: one["verdict"] for one in alone["criteria"]}
        for row in found["open"][1:]:
            assert row["verdict"][str(number)] == verdicts[row["id"]]


def test_lines_of_several_kits_stand_beside_what_was(kits):
    found = json.loads(kits[("--json",)][1])
    lines = {line["path"]: line for line in found["lines"]}
    assert lines["master.bore"]["before"] == pytest.approx(0.0254 * 15 / 16)
    assert lines["master.bore"]["kits"] == {"1": pytest.approx(0.0254 * 15 / 16), "2": 0.0254}
    assert lines["rear.disc.pistons"]["kits"]["1"] is None
    assert lines["rear.drum.width"]["kits"]["2"] is None
    assert len(lines) == len(found["lines"])


def test_several_kits_fit_the_page_and_end_with_the_caution(kits):
    text = kits[()][1]
    assert max(map(len, text.splitlines())) <= 80
    assert words(text).count(CAUTION) == 1 and text.splitlines()[1].startswith("CAUTION: ")


# ---- refusals ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("options", "message"),
    [
        ((), "compare wants two vehicle files"),
        ((BEFORE,), "compare wants two vehicle files"),
        ((BEFORE,) + 7 * (AFTER,), "compare takes 6 changed vehicles; got "),
        ((BEFORE, AFTER, "/dev/null"), "/dev/null:1: the file holds no [section]"),
        ((BEFORE, AFTER, "--rules", "uk"), plain.ACCEPTED),
        ((BEFORE, AFTER, "--rules"), plain.ACCEPTED),
        ((BEFORE, AFTER, "--csv"), "unknown option '--csv'"),
        ((BEFORE, "/nonexistent/%s.ini"), "/nonexistent/%s.ini: cannot be opened"),
        ((BEFORE, "/dev/null"), "/dev/null:1: the file holds no [section]"),
    ],
)
def test_wrong_words_are_refused(options, message):
    status, out, error = compare(*options)
    assert (status, out) == (2, "")
    assert message in error


@pytest.mark.parametrize("which", [0, 1])
@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "the file holds no [section]"),
        (plain.changed("[master] bore = nan mm"), "master.bore"),
        (plain.changed("[vehicle] name = a\x1b[31m"), "control character"),
        (plain.changed("[front.drum] diameter = 200 mm"), "does not belong"),
    ],
    ids=["empty", "nan", "control", "drum"],
)
def test_a_wrong_file_is_refused_and_named(tmp_path, which, text, message):
    wrong = written(tmp_path, "wrong.ini", text)
    files = [AFTER, AFTER]
    files[which] = wrong
    status, out, error = compare(*files)
    assert (status, out) == (2, "")
    assert error.startswith(wrong) and message in error


# ---- hot performance -----------------------------------------------------------------------------


def refitted(tmp_path):
    text = (plain.ROOT / "examples" / "heron.ini").read_text()
    for old, new in (("= 7.1 kg", "= 6.5 kg"), ("= 2.640 m", "= 2.550 m")):
        assert text.count(old) == 1
        text = text.replace(old, new)
    return written(tmp_path, "refitted.ini", text)


def margin_in_check(file, name):
    found = json.loads(plain.run("check", file, "--json", "--rules", "all").stdout)
    (one,) = [one for one in found["criteria"] if one["id"] == name]
    return one["margin"]


def test_hot_performance_is_shared_out_too_when_asked_for(tmp_path):
    """Given two vehicles that differ in tyre and rotor, the margins are those of check and the
    shares add up (efficiency of Shapley's value)."""
    other = refitted(tmp_path)
    found = report(AFTER, other, "--fade", "--rules", "all")
    hot = {one["id"]: one for one in found["margins"] if ".hot" in one["id"]}
    assert set(hot) >= {"us.135.hot", "us.135.hot_kept", "un.13h.hot"}
    for name, one in hot.items():
        assert one["before"] == pytest.approx(margin_in_check(AFTER, name), rel=1e-12)
        assert one["after"] == pytest.approx(margin_in_check(other, name), rel=1e-12)
        assert sum(one["shares"].values()) == pytest.approx(one["after"] - one["before"], abs=1e-12)
        assert one["shares"]["tyre"] != 0.0 and one["shares"]["rotor"] != 0.0


def test_without_it_hot_performance_is_left_out():
    assert not [one for one in report(BEFORE, AFTER)["margins"] if ".hot" in one["id"]]
