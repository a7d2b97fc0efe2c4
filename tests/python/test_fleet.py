# SPDX-License-Identifier: MIT
"""Many vehicles in one call. Expected: what each of them gives by itself."""
import csv
import pathlib
import shutil

import pytest

import libbrake
from libbrake import errors

ROOT = pathlib.Path(__file__).resolve().parents[2]
TABLE = ROOT / "examples" / "heron-fleet.csv"
OUT = ["full.stop.distance", "hazard.circuit"]
MU, TYRE = "front.disc.pads.mu", "front.tyre.rollout"


def alone(vehicle, lines):
    """Outputs of one vehicle; None when it is refused."""
    other = vehicle.copy()
    try:
        other.set(lines)
    except errors.Refused:
        return None
    return other.outputs(OUT)


def test_a_table_gives_what_each_vehicle_gives(heron):
    """Numbers, texts with units, choices, empty cells and refusals mixed, to the bit."""
    rows = [{TYRE: 2.5, MU: 0.4}, {TYRE: 2.6, MU: 0.35}, {TYRE: 99.0, MU: 0.3},
            {TYRE: "99 in"}, {MU: 0.4, "circuits.split": "diagonal"}, {}, {MU: 7.0}]  # fmt: skip
    paths = [TYRE, MU, "circuits.split"]
    columns = {path: [row.get(path) for row in rows] for path in paths}
    found = libbrake.fleet(columns, OUT, check=False, base=heron)
    assert len(found) == len(rows)
    for one, lines in zip(found, rows):
        expected = alone(heron, lines)
        assert bool(one.refused) == (expected is None), one
        if expected is not None:
            assert {name: one[name] for name in OUT} == expected
    assert "accepts" in found[2].refused and TYRE in found[2].refused
    assert found.column("hazard.circuit")[0] == found[0]["hazard.circuit"]


def test_a_check_is_that_of_each_vehicle_for_any_number_of_threads(heron):
    other = heron.copy()
    other.rear.drum.cylinder_diameter = "25.4 mm"
    done = []
    fleets = [libbrake.fleet([heron, other], rules="own", threads=threads,
                             progress=lambda at, of: done.append((at, of)))
              for threads in (1, 2)]  # fmt: skip
    assert fleets[0] == fleets[1] and done == [(1, 2), (2, 2)] * 2
    for row, vehicle in zip(fleets[0], (heron, other)):
        summary = vehicle.check().summary
        assert row.name == heron.vehicle.name and not row.refused
        for name in ("verdict", "meets", "falls_short", "limiting", "p_all", "do"):
            assert row[name] == summary[name]


def test_a_csv_names_its_files_and_units_and_a_dataframe_is_as_good(heron):
    pandas = pytest.importorskip("pandas")
    found = libbrake.fleet(TABLE, OUT, check=False)
    assert [row.name[:7] for row in found] == [f"Heron {at}" for at in range(1, 8)]
    assert found[1]["full.stop.distance"] == alone(heron, {
        TYRE: "98 in", "rear.tyre.rollout": "98 in"})["full.stop.distance"]  # fmt: skip
    before = libbrake.load(ROOT / "examples" / "heron-before.ini")
    assert found[5]["full.stop.distance"] == before.outputs(OUT[0])[OUT[0]]
    assert found[6].refused and found[6]["hazard.circuit"] != found[6]["hazard.circuit"]
    frame = pandas.read_csv(TABLE, comment="#")
    frame["file"] = [str(TABLE.parent / name) for name in frame["file"]]
    again = libbrake.fleet(frame, OUT, check=False)
    assert [[row[name] for name in OUT] for row in again[:6]] == [
        [row[name] for name in OUT] for row in found[:6]]  # fmt: skip


def test_a_folder_is_read_file_by_file_and_what_is_no_vehicle_says_so(heron, tmp_path):
    shutil.copy(ROOT / "examples" / "heron.ini", tmp_path / "b.ini")
    (tmp_path / "a.ini").write_text("[vehicle]\nmas = 3 kg\n")
    (tmp_path / "notes.txt").write_text("no vehicle")
    found = libbrake.fleet(tmp_path, OUT[0], check=False)
    assert [row.file for row in found] == ["a.ini", "b.ini"]
    assert "a.ini:2: vehicle.mas: unknown name; did you mean" in found[0].refused
    assert found[1][OUT[0]] == heron.outputs(OUT[0])[OUT[0]]


def test_a_fleet_is_written_as_a_table_with_its_caution(heron, tmp_path):
    found = libbrake.fleet([heron], OUT, check=False)
    found.to_csv(tmp_path / "fleet.csv")
    caution, *rows = (tmp_path / "fleet.csv").read_text().splitlines()
    assert caution.startswith("# A calculation is not an approval")
    (row,) = csv.DictReader(rows)
    assert float(row["full.stop.distance [m]"]) == found[0]["full.stop.distance"]
    assert row["name"] == heron.vehicle.name and row["refused"] == ""
    frame = pytest.importorskip("pandas") and found.to_pandas()
    assert frame.attrs["units"]["full.stop.distance"] == "m" and len(frame) == 1
    assert "inspector" in frame.attrs["caution"] and "inspector" in str(found)


def test_parquet_is_written_where_an_engine_is_and_refused_in_words_where_not(heron, tmp_path):
    pandas = pytest.importorskip("pandas")
    found = libbrake.fleet([heron], OUT[0], check=False)
    try:
        pandas.io.parquet.get_engine("auto")
    except ImportError:
        with pytest.raises(ImportError, match="pyarrow and fastparquet.*to_csv"):
            found.to_parquet(tmp_path / "fleet.parquet")
        assert not list(tmp_path.iterdir())
        return
    found.to_parquet(tmp_path / "fleet.parquet")
    again = pandas.read_parquet(tmp_path / "fleet.parquet")
    assert again[OUT[0]][0] == found[0][OUT[0]] and "inspector" in again["caution"][0]


def stops(at, of):
    """A watcher that ends the work."""
    raise KeyboardInterrupt


@pytest.mark.parametrize(
    "vehicles, more, refusal, words",
    [
        ({"front.tyre.rolout": [2.5]}, {}, errors.RefusedUnknown, "did you mean front.tyre.rol"),
        ({TYRE: [2.5]}, {}, ValueError, "give base="),
        ({TYRE: [2.5], f"{TYRE} [in]": [98]}, {}, ValueError, "two columns of front.tyre.rollout"),
        ([], {}, ValueError, "got none"),
        ([ROOT / "examples/heron.ini"], {"check": False}, ValueError, "wants a check"),
        ([ROOT / "examples/heron.ini"], {"check": "no"}, TypeError, "check: got 'no'"),
        ([ROOT / "examples/heron.ini"], {"threads": 0}, ValueError, "threads: got 0"),
        ([ROOT / "examples/heron.ini"], {"rules": "ours"}, ValueError, "rules: got 'ours'"),
        ([ROOT / "examples/nobody.ini"], {}, FileNotFoundError, "nobody.ini"),
        ([ROOT / "examples/heron.ini"] * 3, {"progress": stops}, KeyboardInterrupt, ""),
    ],
)
def test_what_is_no_fleet_is_refused_in_words(vehicles, more, refusal, words):
    with pytest.raises(refusal, match=words):
        libbrake.fleet(vehicles, **more)
