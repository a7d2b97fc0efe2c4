# SPDX-License-Identifier: MIT
"""The examples that an engineer starts from: they run, and say what the library says."""
import csv
import importlib
import math
import os
import pathlib
import signal
import subprocess
import sys
import time

import pytest

import libbrake

ROOT = pathlib.Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "examples"
PACKAGE = pathlib.Path(libbrake.__file__).parents[1]


def example(name):
    """An example as a module, importable by its name as workers do."""
    if str(EXAMPLES) not in sys.path:
        sys.path.insert(0, str(EXAMPLES))
    return importlib.import_module(name)


def run(name, *words, cwd):
    """Output of an example run as a program."""
    found = subprocess.run([sys.executable, EXAMPLES / f"{name}.py", *map(str, words)], cwd=cwd,
                           env={**os.environ, "PYTHONPATH": str(PACKAGE)}, text=True,
                           stdout=subprocess.PIPE, stderr=subprocess.STDOUT)  # fmt: skip
    assert found.returncode == 0, found.stdout
    return found.stdout


@pytest.mark.parametrize("name, picture", [("design_chart", "chart.svg"), ("fade_map", "fade.svg"),
                                           ("spread", "spread.svg"),
                                           ("reliability", "reliability.svg"),
                                           ("identify", "identify.svg"), ("fleet", "fleet.svg")])  # fmt: skip
def test_a_picture_is_drawn_and_bears_the_caution(name, picture, tmp_path):
    pytest.importorskip("matplotlib")
    assert f"{picture} is drawn" in run(name, cwd=tmp_path)
    text = (tmp_path / picture).read_text()
    assert text.lstrip().startswith("<?xml") and "A calculation is not an approval" in text


def test_the_notebook_runs_and_says_what_the_library_says(heron, tmp_path, monkeypatch):
    """Every cell runs; a picture is drawn; answers are those of the library, caution and all."""
    pytest.importorskip("matplotlib")
    pytest.importorskip("numpy")
    pytest.importorskip("ipykernel", reason="python3-ipykernel is not installed")
    nbclient = pytest.importorskip("nbclient", reason="python3-nbclient is not installed")
    nbformat = pytest.importorskip("nbformat", reason="python3-nbclient is not installed")
    for name in ("JUPYTER_RUNTIME_DIR", "IPYTHONDIR", "JUPYTER_CONFIG_DIR", "MPLCONFIGDIR"):
        monkeypatch.setenv(name, str(tmp_path))
    monkeypatch.setenv("PYTHONPATH", str(PACKAGE))
    monkeypatch.delenv("MPLBACKEND", raising=False)
    book = nbformat.read(EXAMPLES / "heron.ipynb", 4)
    folder = {"metadata": {"path": EXAMPLES}}
    nbclient.NotebookClient(book, timeout=120, resources=folder).execute()
    data = [one.data for cell in book.cells for one in cell.get("outputs", []) if "data" in one]
    texts = [one.get("text/plain") for one in data]
    assert sum("image/png" in one for one in data) == 1
    assert repr(heron.check()).rstrip("\n") in texts
    lines = ["front.disc.pads.mu", "front.tyre.rollout", "booster.assist", "pedal.ratio"]
    assert repr(heron.gradient("full.pedal.force_for_target", lines)) in texts
    log = EXAMPLES / "heron-drive.csv"
    told = libbrake.identify(heron, log, ["front.disc.pads.mu", "booster.gain"])
    assert repr(told) in texts
    share = (heron.samples(4096, out="hazard.floor")["hazard.floor"] >= 0).mean()
    assert repr(float(share)) in texts


def test_the_chart_shows_that_larger_tyres_take_more_force_and_larger_pistons_less(heron, tmp_path):
    pytest.importorskip("matplotlib")
    chart = example("design_chart")
    force = chart.chart(heron, tmp_path / "chart.svg")[chart.FORCE]
    assert (force[1:, :] > force[:-1, :]).all() and (force[:, 1:] < force[:, :-1]).all()


def test_the_fade_map_is_hotter_where_it_is_steeper(heron, tmp_path):
    pytest.importorskip("matplotlib")
    fade = example("fade_map")
    found = fade.draw(heron, tmp_path / "fade.png")
    face, ratio = found[fade.FACE], found[fade.LAST] / found[fade.FIRST]
    assert (face[1:, :] > face[:-1, :]).all()
    assert ratio[-1, 1] > ratio[0, 1], "the steeper, the more the pads fade"
    one = heron.heat(descent=("8 %", fade.LENGTH, "45 km/h"), cool=0.0)
    assert face[2, 1] == one.heat.front_face


def test_the_optimum_holds_its_bounds_and_no_part_beside_it_is_better(heron):
    """Given the sizes that the optimiser found, then every bound holds, and of the sizes half a per
    cent away those that hold every bound ask for no less force."""
    optimise = example("optimise")
    found = optimise.best(heron)
    assert found.success, found.message

    def outputs(parts):
        other = heron.copy()
        other.set(dict(zip(optimise.PARTS, map(float, parts))))
        return other.outputs(optimise.OUTPUTS)

    def held(value, slack):
        short = [limit - value[name] for name, limit in optimise.BOUNDS.items()]
        return max(*short, value[optimise.TRAVEL[0]] - optimise.TRAVEL[1]) < slack

    best = outputs(found.x)
    assert held(best, 1e-6) and best[optimise.FORCE] < heron.outputs(optimise.FORCE)[optimise.FORCE]
    for at, (low, high) in enumerate(optimise.PARTS.values()):
        for share in (0.995, 1.005):
            beside = list(found.x)
            beside[at] = min(max(beside[at] * share, low), high)
            value = outputs(beside)
            assert not held(value, 0) or value[optimise.FORCE] >= best[optimise.FORCE] - 1e-6
    assert "Caution. A calculation is not an approval" in run("optimise", cwd=EXAMPLES)


def test_what_decides_a_row_is_what_fails_in_it(heron, tmp_path):
    """Given the rear circuit alone, then friction of its linings is lower where it fails."""
    pytest.importorskip("matplotlib")
    reliability = example("reliability")
    table, met = reliability.draw(heron, tmp_path / "r.svg", samples=1024)
    lines = [name for name in table if name not in reliability.ROWS]
    found = reliability.moved(table, lines, "hazard.circuit")
    assert 0 < met["hazard.circuit"] < 0.95
    assert "rear.drum.lining.mu" in list(found)[:2] and found["rear.drum.lining.mu"] < 0


# ---- past one machine
# ------------------------------------------------------------------------------


def read(path, study):
    """Rows of a study by their axes."""
    with open(path, newline="") as stream:
        mark, head, *rows = csv.reader(stream)
    assert mark[0].startswith("# distributed sweep ") and head == study.head()
    axes = 1 + len(study.axes)
    return {tuple(map(float, r[:axes])): list(map(float, r[axes:])) for r in rows}, len(rows)


@pytest.fixture
def cluster():
    """Two workers, each a process."""
    distributed = pytest.importorskip("distributed")
    example("distributed_sweep")
    path = os.pathsep.join([str(PACKAGE), str(EXAMPLES), os.environ.get("PYTHONPATH", "")])
    before = os.environ.get("PYTHONPATH")
    os.environ["PYTHONPATH"] = path
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None,
                                  silence_logs=50) as both:  # fmt: skip
        with distributed.Client(both) as client:
            yield client
    os.environ.pop("PYTHONPATH") if before is None else os.environ.update(PYTHONPATH=before)


def same(one, two):
    return one == two or (math.isnan(one) and math.isnan(two))


@pytest.mark.parametrize("kind", ["sweep", "fade"])
def test_a_worker_killed_in_the_middle_loses_nothing_and_memory_is_bounded(
    cluster, heron, tmp_path, monkeypatch, kind
):
    sweep = example("distributed_sweep")
    study, firsts = sweep.STUDIES[kind], sweep.even(*sweep.FIRSTS[kind], 16)
    path = tmp_path / "sweep.csv"
    workers = cluster.run(os.getpid)
    given, lost, waiting = [], [], []

    def submit(*args, **options):
        given.append(args)
        return type(cluster).submit(cluster, *args, **options)

    def kill_one(words):
        waiting.append(len(given) - len(waiting))
        if words.startswith("2 of"):
            lost.append(next(iter(workers.values())))
            os.kill(lost[0], signal.SIGKILL)

    monkeypatch.setattr(cluster, "submit", submit)
    sweep.run(cluster, study, heron, firsts, path, watch=kill_one)
    assert lost and not _alive(lost[0])
    assert len(waiting) == len(given) == 16 and max(waiting) == sweep.AHEAD * len(workers)
    assert _released(cluster), "what was written is no longer held"
    rows, count = read(path, study)
    assert count == len(rows) == study.size() * len(firsts), "every case, and none twice"
    axes = 1 + len(study.axes)
    for first in firsts[::5]:
        for row in sweep.block(study, heron, first)[1]:
            assert all(map(same, rows[tuple(row[:axes])], row[axes:]))


def test_a_block_of_fade_is_what_single_descents_are(heron):
    sweep = example("distributed_sweep")
    _, rows = sweep.block(sweep.STUDIES["fade"], heron, 0.06)
    for fall, mass, speed, *found in (rows[0], rows[-1]):
        one = heron.copy()
        one.front.disc.rotor_mass = mass
        heat = one.heat(descent=(fall, "4 km", speed)).heat
        assert found == [heat.front_face, heat.fluid_margin, heat.pedal_force_last]


def _released(client, patience=30):
    """Whether the client soon holds no block; it drops them a moment after it was told to."""
    until = time.monotonic() + patience
    while client.futures and time.monotonic() < until:
        time.sleep(0.05)
    return not client.futures


def _alive(pid):
    """Whether a process still runs; a zombie does not."""
    try:
        return pathlib.Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except FileNotFoundError:
        return False


def test_a_sweep_that_was_cut_off_goes_on(cluster, heron, tmp_path):
    sweep = example("distributed_sweep")
    study, rollouts = sweep.STUDIES["sweep"], sweep.even(2.2, 2.9, 3)
    path = tmp_path / "sweep.csv"
    sweep.run(cluster, study, heron, rollouts, path, watch=lambda words: None)
    whole, _ = read(path, study)
    text = path.read_text()
    path.write_text(text[: 2 * len(text) // 3])
    did = []
    sweep.run(cluster, study, heron, rollouts, path, watch=did.append)
    again, count = read(path, study)
    assert again == whole and count == len(whole) and 0 < len(did) < 3


def test_the_output_of_another_vehicle_or_of_somebody_else_is_left_alone(heron, tmp_path):
    """Given a file of another sweep, or any other table, it is refused in words and stays as it
    is."""
    sweep = example("distributed_sweep")
    other = heron.copy()
    other.driver.pedal_force = "300 N"
    study = sweep.STUDIES["sweep"]
    path = tmp_path / "sweep.csv"
    assert sweep.begin(path, study, heron) == set()
    begun = path.read_bytes()
    foreign = tmp_path / "precious.csv"
    foreign.write_text("a,b\n1,2\n")
    mine = [(path, study, other), (path, sweep.STUDIES["fade"], heron), (foreign, study, heron)]
    for one, asked, vehicle in mine:
        before = one.read_bytes()
        with pytest.raises(SystemExit, match="is not of this sweep and vehicle"):
            sweep.begin(one, asked, vehicle)
        assert one.read_bytes() == before
    assert sweep.begin(path, study, heron) == set() and path.read_bytes() == begun
