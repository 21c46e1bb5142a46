"""The benchmark script runs, with tiny sizes, and compares its answers."""

import subprocess
import sys
from pathlib import Path

import pytest

from explorer.collection import Collection
from tests.benchmarks import bench_posterior as bench

SCRIPT = Path(bench.__file__)


def test_script__runs_and_prints_both_tables(tmp_path):
    tiny = ["--sizes", "20", "40", "--unsure", "1", "--unsure-animals", "40", "--repeats", "1"]
    done = subprocess.run([sys.executable, SCRIPT, *tiny], cwd=tmp_path, capture_output=True, text=True, timeout=120)
    assert done.stderr == ""
    lines = done.stdout.splitlines()
    assert [line.split()[:3] for line in lines[2:4]] == [
        ["20", "6", lines[2].split()[2]],
        ["40", "12", lines[3].split()[2]],
    ]
    assert lines[-1] == "Limits: none of these sizes: kept."


def test_keeper__is_as_large_as_asked_and_contradicts_nothing():
    keeper = bench.kept_by(200)
    animals = Collection.from_text(keeper.text)
    told = animals.updated(keeper.clutches)
    assert len(animals) == 200
    assert len(keeper.clutches) == 60
    assert sum(bool(one.dam) for one in animals) == 90
    assert len(bench.GENES) == 10
    assert len({one.sires for one in keeper.clutches}) < len({one.dam for one in keeper.clutches}) / 2
    assert animals.findings == told.findings == ()
    assert bench.kept_by(200).text == keeper.text


def test_truth__is_possible_after_all_that_is_told():
    keeper = bench.kept_by(100)
    told = Collection.from_text(keeper.text).updated(keeper.clutches)
    for one in keeper.snakes.values():
        for gene, copies in one.copies.items():
            assert bench.chance_of_copies(told, one.id, gene)[copies] > 0


def test_library__finds_the_same():
    gum = bench.library()
    if gum is None:
        pytest.skip("pyagrum is not installed")
    keeper = bench.kept_by(100)
    told, read = bench.update(Collection.from_text(keeper.text), keeper.clutches)
    answers = bench.library_answers(gum, bench.library_networks(gum, keeper))
    assert len(answers) > 400
    assert bench.compared(told, answers) < bench.TOLERANCE
    assert read.keys() == keeper.snakes.keys()


def test_update__two_hundred_animals():
    """Some 0.1 s here; ten times that would mean that the work grows faster than the collection."""
    (row,) = bench.growth_rows(None, [200], 0, 3)
    assert row[4] < 1
