"""The benchmark script runs, with tiny sizes, and compares its answers."""

import subprocess
import sys
from fractions import Fraction
from pathlib import Path

from tests.benchmarks import bench_genetics

SCRIPT = Path(bench_genetics.__file__)


def test_script__runs_and_prints_both_tables(tmp_path):
    tiny = ["--sizes", "2", "3", "--large", "5", "--genes", "3", "--look-loci", "3", "--top", "4", "--repeats", "1"]
    done = subprocess.run([sys.executable, SCRIPT, *tiny], cwd=tmp_path, capture_output=True, text=True, timeout=120)
    assert done.stderr == ""
    lines = done.stdout.splitlines()
    assert sum("brute force   " in line for line in lines) == 2
    assert any("top_looks(4)" in line for line in lines)
    assert any("18 rows" in line for line in lines)
    assert lines[-1].startswith("Engine at 5 loci: ")


def test_brute_force__equals_theory():
    """(3/4)^2 for the two that one copy shows, 1/4 for the recessive between them."""
    assert bench_genetics.brute(3, 3) == Fraction(9, 64)
    assert bench_genetics.brute(3, 1) == Fraction(3, 4)


def test_engine__forty_loci_and_twelve_genes():
    """Some 0.5 ms here; a hundred times that would mean that something is multiplied out (3^40 genotypes)."""
    rows = bench_genetics.chance_rows([], 40, 12, 3)
    assert all(seconds < 0.1 for _, _, seconds, _ in rows)
