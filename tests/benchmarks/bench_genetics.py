"""Times the factored engine beside brute force, in one run: `python tests/benchmarks/bench_genetics.py`.

Both parents carry one copy of every gene of an invented species; every gene has a chromosome of its own, and recessive
genes alternate with genes that one copy shows. Each time is the median of several runs. Answers are compared as
fractions before anything is timed.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from fractions import Fraction
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from explorer.catalogue import load_species
from explorer.genetics import Brood, genome_of
from explorer.looks import wanted_events
from explorer.notation import read_genes, read_wanted
from explorer.pairing import Offspring, cross
from tests.oracle import brute_force

LIMIT_MS = 5.0
"""Most that the engine may take for the chance of the target, with the largest parents."""


def species(count):
    """A catalogue of `count` genes, G00, G01, ...; those with an odd number are recessive."""
    head = ['[species]\nkey = "invented"\nname = "invented"\nlatin = "Invented"\nheterogametic = "male"']
    head.append('chromosomes = ["X", "Y"]\nevidence = "from memory"\nfiles = ["genes.toml"]\n')
    genes = [
        f'[[gene]]\nname = "{name(i)}"\ninheritance = "{"recessive" if i % 2 else "incomplete dominant"}"\n'
        'two_copies = "own look"\nevidence = "from memory"\n'
        for i in range(count)
    ]
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "species.toml").write_text("\n".join(head), encoding="utf-8")
        (Path(folder) / "genes.toml").write_text("\n".join(genes), encoding="utf-8")
        return load_species(folder)


def name(i):
    return f"G{i:02}"


def parent_text(count):
    return " ".join([*(name(i) for i in range(0, count, 2)), *(f"het {name(i)}" for i in range(1, count, 2))])


def target_text(count):
    return " ".join(map(name, range(count)))


def brute(count, wanted):
    """Chance that an egg shows the first `wanted` genes, everything multiplied out."""
    chromosomes = [{"loci": [name(i)], "rates": [], "sex": False, "hemi": set()} for i in range(count)]
    animal = [[(Fraction(1), ("",), (name(i),))] for i in range(count)]
    recessive, asked = {name(i) for i in range(1, count, 2)}, {name(i) for i in range(wanted)}
    total = Fraction(0)
    for genotype, chance in brute_force.whole_table(chromosomes, animal, animal).items():
        if asked <= {gene for gene, _ in brute_force.visible(chromosomes, recessive, set(), genotype)}:
            total += chance
    return total


def timed(work, repeats):
    """Median seconds of `work`, called once unmeasured before."""
    work()
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return median(times)


def chance_rows(sizes, large, wanted, repeats):
    """(loci, what was timed, seconds, brute force as a multiple or None)"""
    rows = []
    for count in [*sizes, large]:
        catalogue, asked = species(count), min(wanted, count)
        genome, text, target = genome_of(catalogue), parent_text(count), target_text(asked)
        dam, sire = (read_genes(text, sex=sex, catalogue=catalogue) for sex in ("female", "male"))
        events = wanted_events(genome, read_wanted(target, catalogue))
        warm = Brood.of(dam, sire)
        answer = Fraction(3, 4) ** ((asked + 1) // 2) * Fraction(1, 4) ** (asked // 2)
        assert warm.chance(events) == Offspring(warm, catalogue).chance(target) == answer
        engine = timed(lambda dam=dam, sire=sire, events=events: Brood.of(dam, sire).chance(events), repeats)
        again = timed(lambda warm=warm, events=events: warm.chance(events), repeats)
        first = timed(
            lambda dam=dam, sire=sire, catalogue=catalogue, target=target: cross(
                dam, sire, catalogue=catalogue
            ).chance(target),
            repeats,
        )
        ask = Offspring(warm, catalogue)
        whole = timed(lambda ask=ask, target=target: ask.chance(target), repeats)
        slow = None
        if count in sizes:
            assert brute(count, asked) == answer
            slow = timed(lambda count=count, asked=asked: brute(count, asked), 1 if count > 8 else repeats)
        rows += [
            (count, f"engine, {asked} genes, new pair", engine, slow / engine if slow else None),
            (count, f"engine, {asked} genes, same pair again", again, slow / again if slow else None),
            (count, "cross of two genotypes and chance(text)", first, slow / first if slow else None),
            (count, "chance(text), same pair again", whole, slow / whole if slow else None),
        ]
        if slow:
            rows.append((count, "brute force", slow, 1.0))
    return rows


def look_rows(count, top, repeats):
    """(loci, what was timed, seconds, full table as a multiple)"""
    catalogue, text = species(count), parent_text(count)

    def odds():
        return cross(text, text, catalogue=catalogue)

    start = time.perf_counter()
    table = odds().looks()
    full = time.perf_counter() - start
    assert odds().top_looks(top).equals(table.head(top))
    part = timed(lambda: odds().top_looks(top), repeats)
    return [
        (count, f"cross and top_looks({top})", part, full / part),
        (count, f"cross and looks(), {len(table):,} rows, one run", full, 1.0),
    ]


def written(rows, against):
    lines = [f"{'loci':>4}  {'':<44}{'ms':>12}  {against:>22}"]
    for count, what, seconds, ratio in rows:
        times = "" if ratio is None else f"{ratio:,.1f} times"
        lines.append(f"{count:>4}  {what:<44}{seconds * 1000:>12,.3f}  {times:>22}")
    return "\n".join(lines)


def main(arguments=None):
    """Prints both tables. Returns 1 if the engine took longer than the limit with the largest parents, else 0."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sizes", type=int, nargs="+", default=[4, 6, 8, 10], help="loci at which brute force runs")
    parser.add_argument("--large", type=int, default=40, help="loci of the largest parents")
    parser.add_argument("--genes", type=int, default=12, help="genes of the target")
    parser.add_argument("--look-loci", type=int, default=12, help="loci of the cross whose looks are listed")
    parser.add_argument("--top", type=int, default=50, help="looks asked for")
    parser.add_argument("--repeats", type=int, default=7, help="runs of which the median is taken")
    given = parser.parse_args(arguments)
    chances = chance_rows(given.sizes, given.large, given.genes, given.repeats)
    print(written(chances, "brute force takes"))
    print()
    print(written(look_rows(given.look_loci, given.top, given.repeats), "the full table takes"))
    slowest = 1000 * next(seconds for count, what, seconds, _ in chances if count == given.large and "new pair" in what)
    kept = slowest < LIMIT_MS
    print(f"\nEngine at {given.large} loci: {slowest:.3f} ms; limit {LIMIT_MS} ms: {'kept' if kept else 'not kept'}.")
    return 0 if kept else 1


if __name__ == "__main__":
    raise SystemExit(main())
