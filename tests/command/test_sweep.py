# SPDX-License-Identifier: MIT
"""`stopmargin sweep` as a user meets it: the rows, stopping and going on, what is refused."""
import csv
import json
import re
import signal
import subprocess
import time

import pytest

from file import plain

CAUTION = "CAUTION: A calculation is not an approval."
HERON = str(plain.ROOT / "examples" / "heron.ini")
COLD = plain.without_heat("heron.ini")
ROLLOUT = ("--axis", "front.tyre.rollout=2.2m:2.9m:0.01m")
MASS = ("--axis", "vehicle.mass=1500kg:2500kg:10kg")
GRID = (*ROLLOUT, *MASS)


def sweep(*options, file=HERON):
    done = plain.run("sweep", file, *options)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def lines(text):
    """Header and rows, without the line that marks the table."""
    mark, *rest = text.splitlines()
    assert mark.startswith("# libbrake ")
    return rest


def table(*options, file=HERON):
    status, text, _ = sweep(*options, file=file)
    assert status == 0
    return list(csv.DictReader(lines(text)))


def refused(*options, file=HERON):
    """What a refused sweep says; it writes no row."""
    status, text, said = sweep(*options, file=file)
    assert status == 2 and text == ""
    return " ".join(said.split())


@pytest.fixture
def vehicle(tmp_path):
    path = tmp_path / "vehicle.ini"
    path.write_text(plain.VEHICLE)
    return str(path)


# ---- the rows ------------------------------------------------------------------------------------


def test_the_same_bytes_for_any_number_of_threads():
    runs = {plain.run("sweep", HERON, *GRID, "--threads", str(n)).stdout for n in (1, 2, 7)}
    (text,) = runs
    assert text.count(b"\n") == 2 + 71 * 101


def test_header_names_every_column_with_its_unit():
    _, text, _ = sweep(
        "--axis",
        "front.tyre.rollout=100in,104in",
        "--axis",
        "road.adhesion=0.5,0.8",
        "--out",
        "full.stop.distance,us.135.cold,empty.torque.front_available",
    )
    assert lines(text)[0] == (
        "front.tyre.rollout [in],road.adhesion,full.stop.distance [m],us.135.cold,"
        "empty.torque.front_available [N*m],note"
    )


def test_the_last_axis_runs_fastest_and_decimal_steps_stay_decimal():
    rows = table(
        "--axis", "front.tyre.rollout=2.2m:2.4m:0.1m", "--axis", "road.adhesion=30%:80%:25%"
    )
    cells = [(row["front.tyre.rollout [m]"], row["road.adhesion [%]"]) for row in rows]
    assert cells == [(a, b) for a in ("2.2", "2.3", "2.4") for b in ("30", "55", "80")]


def test_a_list_may_mix_units_and_is_written_in_the_first():
    rows = table("--axis", "front.tyre.rollout=2540mm,102in")
    assert [float(row["front.tyre.rollout [mm]"]) for row in rows] == pytest.approx([2540, 2590.8])


def test_an_axis_in_equal_ratios():
    rows = table("--axis", "vehicle.unsprung_mass=100kg:800kg:4@log")
    values = [float(row["vehicle.unsprung_mass [kg]"]) for row in rows]
    assert values == pytest.approx([100, 200, 400, 800], rel=1e-12)
    assert (values[0], values[-1]) == (100, 800)


def test_every_row_is_what_check_says_of_the_same_values():
    names = "full.stop.distance,empty.pedal.force_for_target,full.parking.grade_up"
    for row in table(
        "--axis",
        "front.tyre.rollout=2.5m,2.7m",
        "--axis",
        "vehicle.mass=1900kg,4400lb",
        "--out",
        names,
    ):
        settings = [
            word
            for path, unit in (("front.tyre.rollout", "m"), ("vehicle.mass", "kg"))
            for word in ("--set", f"{path}={row[f'{path} [{unit}]']} {unit}")
        ]
        results = json.loads(plain.run("check", COLD, *settings, "--json").stdout)["results"]
        for name in names.split(","):
            (cell,) = (row[column] for column in row if column.split()[0] == name)
            assert float(cell) == pytest.approx(results[name]["value"], rel=1e-14)


def test_a_setting_holds_for_all_cases():
    plain_rows = table(*ROLLOUT)
    set_rows = table(*ROLLOUT, "--set", "road.adhesion=0.3")
    assert all(
        float(b["full.stop.distance [m]"]) > float(a["full.stop.distance [m]"])
        for a, b in zip(plain_rows, set_rows)
    )


def test_what_cannot_be_said_is_an_empty_cell(vehicle):
    (row,) = table("--axis", "vehicle.mass=1500kg", "--out", "full.parking.margin,full.mass.total",
                   file=vehicle)
    assert row["full.parking.margin"] == "" and row["full.mass.total [kg]"] == "1900"
    assert row["note"] == ""


def test_a_case_that_contradicts_itself_has_a_note_and_the_others_stand():
    status, text, said = sweep("--axis", "vehicle.mass=1900kg,2450kg,2000kg")
    rows = list(csv.DictReader(lines(text)))
    assert status == 0
    assert [row["full.stop.distance [m]"] != "" for row in rows] == [True, False, True]
    assert rows[1]["note"].startswith("load.full.front_axle: the axle readings add up to 2440 kg")
    assert "the vehicle refused 1 of 3 cases" in said


def test_a_sweep_that_the_vehicle_refuses_whole_ends_with_3():
    status, text, _ = sweep("--axis", "vehicle.mass=2450kg,2500kg")
    assert status == 3
    assert len(lines(text)) == 3


def test_the_caution_stands_in_the_first_line_of_the_table():
    """Given a table that is kept while standard error is gone, it still says what it is not."""
    _, text, said = sweep(*ROLLOUT)
    assert CAUTION in text.splitlines()[0] and text.startswith("# ")
    assert said == ""


def test_a_bare_table_begins_with_its_header_and_the_caution_goes_to_standard_error():
    _, text, _ = sweep(*ROLLOUT)
    _, bare, said = sweep(*ROLLOUT, "--bare")
    assert bare.splitlines() == lines(text)
    assert CAUTION in said


def mark(*options, file=HERON):
    """The digest of a sweep."""
    return re.match(r"# libbrake \S+, sweep ([0-9a-f]{64})\. ", sweep(*options, file=file)[1])[1]


def test_the_digest_tells_vehicles_axes_and_results_apart():
    """Given the same sweep twice the digest is the same; whatever moves a row moves it."""
    short = ("--axis", "front.tyre.rollout=2.2m:2.4m:0.1m")
    marks = [mark(*short), mark(*short, "--set", "driver.pedal_force=300 N"),
             mark("--axis", "front.tyre.rollout=2.2m:2.5m:0.1m"),
             mark("--axis", "front.tyre.rollout=2.2m,2.31m,2.4m"),
             mark(*short, "--out", "full.stop.time")]
    assert len(set(marks)) == len(marks)
    assert mark(*short) == mark(*short, "--threads", "2") == marks[0]


def test_no_progress_line_where_there_is_no_terminal():
    _, _, said = sweep(*GRID)
    assert "\r" not in said


# ---- into a file ---------------------------------------------------------------------------------


@pytest.fixture
def whole():
    return plain.run("sweep", HERON, *GRID).stdout


def into(path, *options, axes=GRID, file=HERON):
    done = plain.run("sweep", file, *axes, "--into", str(path), *options)
    return done.returncode, done.stderr.decode()


def test_into_a_file_writes_what_standard_output_would_hold(tmp_path, whole):
    path = tmp_path / "out.csv"
    assert into(path)[0] == 0
    assert path.read_bytes() == whole


def test_a_file_that_is_there_is_not_written_over(tmp_path):
    path = tmp_path / "out.csv"
    path.write_text("mine\n")
    status, said = into(path)
    assert status == 2 and "--resume" in said
    assert path.read_text() == "mine\n"


@pytest.mark.parametrize("length", [0.1, 0.5, 0.77777, 1])
@pytest.mark.parametrize("threads", ["1", "7"])
def test_a_file_cut_anywhere_is_resumed_to_the_same_bytes(tmp_path, whole, length, threads):
    path = tmp_path / "out.csv"
    path.write_bytes(whole[: int(length * len(whole))])
    assert into(path, "--resume", "--threads", threads)[0] == 0
    assert path.read_bytes() == whole


def test_resume_of_a_header_alone_and_of_no_file_begins(tmp_path, whole):
    path = tmp_path / "out.csv"
    path.write_bytes(whole[: whole.index(b"\n", whole.index(b"\n") + 1) + 1])
    assert into(path, "--resume")[0] == 0
    assert path.read_bytes() == whole
    fresh = tmp_path / "fresh.csv"
    assert into(fresh, "--resume")[0] == 0
    assert fresh.read_bytes() == whole


@pytest.mark.parametrize(
    "axes, options, why",
    [
        (GRID, ("--out", "full.stop.time"), "it is of another vehicle, other axes or results"),
        (("--axis", "front.tyre.rollout=2.3m:2.9m:0.01m", *MASS), (), "other axes"),
        ((*ROLLOUT, "--axis", "vehicle.mass=1500kg:1510kg:10kg"), (), "other axes"),
        (GRID, ("--set", "road.adhesion=0.7"), "it is of another vehicle"),
        (GRID, ("--set", "driver.pedal_force=300 N"), "it is of another vehicle"),
    ],
    ids=["outputs", "values", "fewer", "setting", "force"],
)
def test_a_file_of_another_sweep_is_not_resumed(tmp_path, whole, axes, options, why):
    path = tmp_path / "out.csv"
    begun = whole[: len(whole) // 2]
    path.write_bytes(begun)
    status, said = into(path, "--resume", *options, axes=axes)
    assert status == 2 and why in said
    assert path.read_bytes() == begun


def test_rows_that_were_changed_by_hand_are_not_gone_on_with(tmp_path, whole):
    """Given more rows than the sweep has, or a last one that it does not give, nothing is
    written."""
    path = tmp_path / "out.csv"
    for text, why in ((whole + b"1,2\n", "more rows"),
                      (whole[:10_000].rpartition(b"\n")[0] + b"9\n", "its last row is another")):
        path.write_bytes(text)
        status, said = into(path, "--resume")
        assert status == 2 and why in said
        assert path.read_bytes() == text


@pytest.mark.parametrize("text", [b"\n", b"front.tyre.rollout [m]", b"\0\0\0", b"mine\n"])
def test_a_file_of_somebody_else_is_not_resumed(tmp_path, text):
    path = tmp_path / "out.csv"
    path.write_bytes(text)
    status, said = into(path, "--resume")
    assert status == 2 and "it is of another vehicle" in said
    assert path.read_bytes() == text


@pytest.mark.parametrize("length", [0, 1, 10, 89, 200, 300])
def test_a_file_that_was_cut_within_its_head_is_begun_again(tmp_path, whole, length):
    path = tmp_path / "out.csv"
    path.write_bytes(whole[:length])
    assert into(path, "--resume")[0] == 0
    assert path.read_bytes() == whole


def test_two_runs_do_not_write_one_file(tmp_path):
    """Given a run that is at it, another that would go on with its file is refused in words."""
    axes = (
        "--axis",
        "front.tyre.rollout=2.2m:2.9m:0.0005m",
        "--axis",
        "vehicle.mass=1500kg:2390kg:1kg",
    )
    path = tmp_path / "out.csv"
    words = [plain.PROGRAM, "sweep", HERON, *axes, "--into", str(path)]
    with subprocess.Popen(words, stderr=subprocess.DEVNULL) as run:
        while not path.exists() or path.stat().st_size < 1000:
            assert run.poll() is None
            time.sleep(0.001)
        status, said = into(path, "--resume", axes=axes)
        run.kill()
    assert status == 2 and said == f"{path}: another run is writing it\n"


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_an_interrupted_sweep_ends_at_a_whole_row_and_is_resumed_to_the_same_bytes(
    tmp_path, number
):
    axes = (
        "--axis",
        "front.tyre.rollout=2.2m:2.9m:0.0005m",
        "--axis",
        "vehicle.mass=1500kg:2390kg:1kg",
    )
    path = tmp_path / "out.csv"
    words = [plain.PROGRAM, "sweep", HERON, *axes, "--into", str(path), "--threads", "2"]
    with subprocess.Popen(words, stderr=subprocess.PIPE) as run:
        while not path.exists() or path.stat().st_size < 100_000:
            assert run.poll() is None
            time.sleep(0.001)
        run.send_signal(number)
        said = run.stderr.read().decode()
    begun = path.read_bytes()
    rows = begun.count(b"\n") - 2
    assert run.returncode == 128 + number
    assert begun.endswith(b"\n")
    assert f"stopped after {rows} of {1401 * 891} cases; --resume goes on" in said
    assert into(path, "--resume", axes=axes)[0] == 0
    whole = plain.run("sweep", HERON, *axes).stdout
    assert path.read_bytes() == whole
    assert whole.startswith(begun)


def test_a_full_device_is_told():
    with open("/dev/full", "wb") as full:
        done = subprocess.run(
            [plain.PROGRAM, "sweep", HERON, *GRID], stdout=full, stderr=subprocess.PIPE
        )
    assert done.returncode == 4
    assert b"could not be written" in done.stderr


def test_a_folder_that_is_not_there_is_told(tmp_path):
    status, said = into(tmp_path / "none" / "out.csv")
    assert status == 2 and "cannot be opened" in said


# ---- what is refused -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "axis, why",
    [
        (
            "front.tyre.rollot=1m:2m:1m",
            "unknown path 'front.tyre.rollot'; did you mean front.tyre.rollout? [front.tyre] takes",
        ),
        ("nonsense=1:2:1", "unknown path"),
        ("", "accepts PATH=LOW:HIGH:STEP"),
        ("=1:2:1", "accepts PATH=LOW:HIGH:STEP"),
        ("vehicle.mass", "accepts PATH=LOW:HIGH:STEP"),
        ("vehicle.mass=", "a number is wanted"),
        ("vehicle.mass=1500kg,", "a number is wanted"),
        ("vehicle.mass=1500:2500:10", "has no unit; accepts kg"),
        ("vehicle.mass=1500kg:2500kg:10", "has no unit; accepts kg"),
        ("vehicle.mass=1500m:2500m:10m", "a mass is wanted"),
        ("vehicle.mass=1500kg:2500kg", "accepts LOW:HIGH:STEP"),
        ("vehicle.mass=1500kg:2500kg:1kg:1kg", "accepts LOW:HIGH:STEP"),
        ("vehicle.mass=1500kg:2500kg:0kg", "a STEP above 0"),
        ("vehicle.mass=1500kg:2500kg:-10kg", "a STEP above 0"),
        ("vehicle.mass=2500kg:1500kg:10kg", "HIGH not below LOW"),
        ("vehicle.mass=1500kg:2500kg:1e-300kg", "no more than 1e15 steps"),
        ("vehicle.mass=1500kg:2500kg:1e-320kg", "1e15 steps"),
        ("vehicle.mass=nankg:2500kg:10kg", "a number is wanted"),
        ("vehicle.mass=1500kg:infkg:10kg", "a number is wanted"),
        ("vehicle.mass=1500kg:2500kg:5@lin", "accepts @log"),
        ("vehicle.mass=1500kg:2500kg:1@log", "from 2"),
        ("vehicle.mass=1500kg:2500kg:2.5@log", "from 2"),
        ("vehicle.mass=1500kg:2500kg:@log", "from 2"),
        ("vehicle.mass=100kg:2500kg:10kg", "got 100 kg; accepts 300 to 12000 kg"),
        ("vehicle.mass=1500kg,99999kg", "got 99999 kg; accepts 300 to 12000 kg"),
        ("vehicle.mass=1500lb:99999lb:1lb", "got 99999 lb; accepts 661.4 to 26450 lb"),
        ("front.axle.brake=disc,drum", "is no number"),
        ("vehicle.name=Heron", "is no number"),
        ("front.disc.pistons=2x48mm", "is no number"),
        ("valve.gauge_pairs=(1bar,1bar)", "is no number"),
    ],
)
def test_a_wrong_axis_is_refused_in_words(axis, why):
    assert why in refused("--axis", axis)


def test_an_axis_that_is_of_no_use_to_this_vehicle_is_refused(vehicle):
    assert "booster.gain: is not used" in refused("--axis", "booster.gain=2:4:1", file=vehicle)


@pytest.mark.parametrize(
    "options, why",
    [
        ((), "wants --axis"),
        ((*MASS, *MASS), "vehicle.mass: is an axis twice"),
        (
            (*MASS, "--out", "full.stop.distanc"),
            "'full.stop.distanc'; did you mean full.stop.distance?",
        ),
        ((*MASS, "--out", ""), "unknown result or criterion ''"),
        ((*MASS, "--threads", "0"), "--threads '0'; accepts 1 to 1024"),
        ((*MASS, "--threads", "two"), "--threads 'two'; accepts 1 to 1024"),
        ((*MASS, "--resume"), "--resume wants --into"),
        ((*MASS, "--into=x.csv", "--resume", "--bare"), "which --bare leaves out"),
        ((*MASS, "--json"), "unknown option '--json'"),
        ((*MASS, "other.ini"), "one file at a time"),
        ((*MASS, "--set", "vehicle.mass=3 m"), "a mass is wanted"),
        (("--axis", "vehicle.mass=1000kg:2000kg:1e-6kg", "--axis",
          "vehicle.wheelbase=2m:3m:1e-8m"), "more than 1e+15 cases"),
    ],
)
def test_wrong_words_are_refused(options, why):
    assert why in refused(*options)


@pytest.mark.parametrize("file", ["/dev/null", "/none.ini"])
def test_a_file_that_holds_no_vehicle_is_refused(file):
    assert refused(*MASS, file=file).startswith(file)


def test_the_list_of_verbs_names_it():
    assert b"sweep" in plain.run("swep").stderr


# ---- hot performance -----------------------------------------------------------------------------


def test_a_fade_procedure_is_run_for_every_row_that_asks_for_it():
    """Given results and a margin of hot performance, a row holds what check says of that
    vehicle."""
    names = ("fade.front_face", "fade.fluid_margin", "us.135.hot")
    done = plain.run(
        "sweep", HERON, "--axis", "vehicle.mass=1800kg,2100kg", "--out", ",".join(names)
    )
    rows = [row.split(",") for row in lines(done.stdout.decode())[1:]]
    assert len(rows) == 2
    for row in rows:
        check = plain.run(
            "check", HERON, "--json", "--rules", "us", "--set", f"vehicle.mass={row[0]} kg"
        ).stdout
        found = json.loads(check)
        (hot,) = [one for one in found["criteria"] if one["id"] == names[2]]
        for text, name in zip(row[1:], names[:2]):
            value = found["results"][name]["value"]
            assert float(text) == pytest.approx(value, rel=1e-14)  # JSON keeps 15 digits or more
        assert float(row[3]) == pytest.approx(hot["margin"], rel=1e-14)
