"""The benchmark script runs, with a tiny shed, and compares its answers."""

import subprocess
import sys
from pathlib import Path

from explorer.collection import Collection
from tests.benchmarks import bench_season as bench

SCRIPT = Path(bench.__file__)


def test_script__runs_and_prints_its_table(tmp_path):
    tiny = ["--males", "2", "--females", "6", "--repeats", "1"]
    done = subprocess.run([sys.executable, SCRIPT, *tiny], cwd=tmp_path, capture_output=True, text=True, timeout=120)
    assert done.stderr == ""
    lines = done.stdout.splitlines()
    assert lines[0].startswith("2 males, 6 females")
    assert lines[-1].endswith("kept.")


def test_shed__has_hets_complexes_and_kin_and_nothing_to_mend():
    text = bench.shed(12, 60)
    animals = Collection.from_text(text)
    assert len(animals) == 72
    assert animals.findings == ()
    assert sum(animal.dam is not None for animal in animals) == 20
    assert "Mojave Mystic" in text and "66% het" in text and "50% het" in text
    assert bench.shed(12, 60) == text


def test_allotment__twelve_males_and_sixty_females():
    """Some 0.7 s here; ten times that would mean that nothing is shared between pairings."""
    text = bench.shed(12, 60)
    seconds, found = bench.timed(lambda a: bench.allotments(a, bench.TARGETS, today=bench.TODAY, best=1), text, 1)
    assert seconds < 7
    assert len(found.best.pairings) > 20
