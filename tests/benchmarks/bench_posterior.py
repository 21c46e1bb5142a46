"""Times what clutches tell of a collection beside a library: `python tests/benchmarks/bench_posterior.py`.

The animals are those of `invented_keeper`. The Bayesian-network library is given one network for each gene, of the
animals that may carry it and of their mates, with one likelihood for each clutch; it works in floating point, and the
package in fractions. Answers are compared before anything is timed. Each time is the median of several runs.
"""

from __future__ import annotations

import argparse
import sys
import time
import warnings
from fractions import Fraction
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from explorer.collection import Collection
from explorer.collection.observations import chance_of_look
from explorer.genetics.pedigree import hatching
from tests.benchmarks.invented_keeper import GENES, kept_by, look_of, shown

LIMITS = {200: 0.5, 800: 2.0}
"""Animals -> most seconds that an update may take, with every genotype read."""
TOLERANCE = 1e-9
LONGEST = 5.0
"""Seconds after which no further run is begun."""


def update(animals, clutches):
    """The work that is timed: a new collection, and what each of its animals carries."""
    told = animals.updated(clutches)
    return told, {animal.id: animal.genotype for animal in told}


def chance_of_copies(animals, key, gene):
    group, _ = animals.knowledge.genome.home[gene]
    found = [0.0, 0.0, 0.0]
    for (one, two), chance in animals[key].genotype.part(group).items():
        found[(one == (gene,)) + (two == (gene,))] += float(chance)
    return found


def carriers(keeper, gene):
    """Ids of the animals that may carry the gene, those that others descend from first."""
    found = set()
    for one in keeper.snakes.values():
        if one.dam in found or one.sire in found or one.prior.get(gene, (1,))[0] != 1:
            found.add(one.id)
    return found


def egg_chances(dam, sire):
    """Chances of 0, 1 and 2 copies in an egg of parents with these numbers."""
    p, q = Fraction(dam, 2), Fraction(sire, 2)
    return [float(chance) for chance in ((1 - p) * (1 - q), p + q - 2 * p * q, p * q)]


MENDEL = [egg_chances(dam, sire) for sire in range(3) for dam in range(3)]


def library_networks(gum, keeper):
    """Gene -> (network, likelihoods): a node for each animal, and one with a single likelihood for each clutch."""
    return {gene: library_network(gum, keeper, gene) for gene in GENES}


def library_network(gum, keeper, gene):
    net, evidence, snakes = gum.BayesNet(), {}, keeper.snakes
    carrying = carriers(keeper, gene)
    told = [one for one in keeper.clutches if {one.dam, *one.sires} & carrying]
    bred = [key for key in carrying if snakes[key].dam]
    needed = {*carrying, *(p for key in bred for p in (snakes[key].dam, snakes[key].sire))}
    needed |= {p for one in told for p in (one.dam, *one.sires)}
    for one in snakes.values():
        if one.id in needed:
            net.add(gum.LabelizedVariable(one.id, "", 3))
            if one.id in bred:
                net.addArc(one.dam, one.id)
                net.addArc(one.sire, one.id)
                net.cpt(one.id).fillWith([chance for row in MENDEL for chance in row])
                seen = dict(look_of(one.copies)).get(gene, 0)
                evidence[one.id] = [float(shown(gene, copies) == seen) for copies in range(3)]
            else:
                net.cpt(one.id).fillWith([float(p) for p in one.prior.get(gene, (1, 0, 0))])
    for one in told:
        net.add(gum.LabelizedVariable(one.id, "", 2))
        net.addArc(one.dam, one.id)
        net.addArc(one.sires[0], one.id)
        chances = [clutch_chance(keeper, one, gene, row) for row in MENDEL]
        chances = [chance / max(chances) for chance in chances]
        net.cpt(one.id).fillWith([part for chance in chances for part in (chance, 1 - chance)])
        evidence[one.id] = [1.0, 0.0]
    return net, evidence


def clutch_chance(keeper, clutch, gene, bred):
    """Chance of the looks of the hatchlings that were not kept. bred: chances of 0, 1 and 2 copies."""
    numbers = {0: 0, 1: 0, 2: 0}
    for row in clutch.hatchlings:
        numbers[dict(row.seen.get(gene.lower(), ())).get(gene, 0)] += row.count
    for one in keeper.snakes.values():
        if one.clutch == clutch.id:
            numbers[dict(look_of(one.copies)).get(gene, 0)] -= 1
    found = 1.0
    for seen, number in numbers.items():
        found *= sum(chance for copies, chance in enumerate(bred) if shown(gene, copies) == seen) ** number
    return found


def library_answers(gum, networks):
    """(animal, gene) -> chances of 0, 1 and 2 copies."""
    found = {}
    for gene, (net, evidence) in networks.items():
        engine = gum.LazyPropagation(net)
        for node, weights in evidence.items():
            engine.addEvidence(node, weights)
        engine.makeInference()
        for node in net.names():
            if net.variable(node).domainSize() == 3:
                found[node, gene] = engine.posterior(node).tolist()
    return found


def compared(told, answers):
    """The largest difference of two chances."""
    return max(
        abs(mine - theirs)
        for (key, gene), law in answers.items()
        for mine, theirs in zip(chance_of_copies(told, key, gene), law, strict=True)
    )


def timed(work, repeats, ready=lambda: ()):
    """Median seconds of `work`; fewer runs than asked for once they have taken some seconds together.

    ready: makes what `work` is given, before each run and untimed.
    """
    times = []
    while len(times) < repeats and sum(times) < LONGEST:
        given = ready()
        start = time.perf_counter()
        work(*given)
        times.append(time.perf_counter() - start)
    return median(times)


def fresh(keeper):
    """The animals as after a start: nothing worked out before is at hand."""
    hatching.cache_clear()
    chance_of_look.cache_clear()
    return Collection.from_text(keeper.text), keeper.clutches


def growth_rows(gum, sizes, library_up_to, repeats):
    """(animals, clutches, hatchlings, seconds to read, to update, library with its networks built anew, and once built)

    Library times are None beyond `library_up_to` animals, or without the library.
    """
    rows = []
    for count in sizes:
        keeper = kept_by(count)
        reading = timed(lambda keeper=keeper: Collection.from_text(keeper.text), 1)
        animals = Collection.from_text(keeper.text)
        told, _ = update(animals, keeper.clutches)
        assert not told.findings, [str(finding) for finding in told.findings]
        mine = timed(update, repeats, lambda k=keeper: fresh(k))
        anew = built = None
        if gum and count <= library_up_to:
            networks = library_networks(gum, keeper)
            difference = compared(told, library_answers(gum, networks))
            assert difference < TOLERANCE, difference
            built = timed(lambda n=networks: library_answers(gum, n), repeats)
            anew = timed(lambda k=keeper: library_answers(gum, library_networks(gum, k)), repeats)
        hatchlings = sum(row.count for one in keeper.clutches for row in one.hatchlings)
        rows.append((count, len(keeper.clutches), hatchlings, reading, mine, anew, built))
    return rows


def unsure_rows(count, numbers, repeats):
    """(clutches of two sires; seconds to update, and clutches left out, if each is of one of them, and if of both)"""
    rows = []
    for number in numbers:
        row = [number]
        for several in (False, True):
            keeper = kept_by(count, unsure=number, several=several)
            told, _ = update(*fresh(keeper))
            assert not told.knowledge.disputes
            row += [timed(update, repeats, lambda k=keeper: fresh(k)), len(told.knowledge.told.crowded)]
        rows.append(tuple(row))
    return rows


def written(rows):
    heads = (("animals", 7), ("clutches", 9), ("hatchlings", 11), ("read", 9), ("update", 9), ("library", 9))
    lines = ["".join(f"{word:>{width}}" for word, width in (*heads, ("ratio", 7), ("built", 9), ("ratio", 7)))]
    for count, clutches, hatchlings, reading, mine, *library in rows:
        line = f"{count:>7}{clutches:>9}{hatchlings:>11}{reading:>9.3f}{mine:>9.3f}"
        lines.append(line + "".join("" if one is None else f"{one:>9.3f}{one / mine:>7.2f}" for one in library))
    return "\n".join(lines)


def library():
    """The library, or None; its import warns of its own extension types."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            import pyagrum
        except ImportError:
            return None
        return pyagrum


def main(arguments=None):
    """Prints both tables. Returns 1 if an update took longer than its limit, else 0."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sizes", type=int, nargs="+", default=[50, 100, 200, 400, 800], help="animals")
    parser.add_argument("--library-up-to", type=int, default=800, help="most animals that the library is given")
    parser.add_argument("--unsure", type=int, nargs="*", default=[1, 4, 8, 12], help="clutches of two possible sires")
    parser.add_argument("--unsure-animals", type=int, default=200, help="animals of the second table")
    parser.add_argument("--repeats", type=int, default=3, help="runs of which the median is taken")
    given = parser.parse_args(arguments)
    gum = library()
    print(f"{len(GENES)} genes; seconds; ratio: library to update" + ("" if gum else "; the library is not installed"))
    rows = growth_rows(gum, given.sizes, given.library_up_to, given.repeats)
    print(written(rows))
    print(f"\n{given.unsure_animals} animals; clutches of two sires; seconds, and left out, if of one, of both")
    for number, one, few, both, fewer in unsure_rows(given.unsure_animals, given.unsure, given.repeats):
        print(f"{number:>3}{one:>9.3f}{few:>3}{both:>9.3f}{fewer:>3}")
    slow = [(count, mine) for count, _, _, _, mine, *_ in rows if mine > LIMITS.get(count, mine)]
    kept = ", ".join(f"{count} animals in {limit:g} s" for count, limit in LIMITS.items() if count in given.sizes)
    print(f"\nLimits: {kept or 'none of these sizes'}: {'not kept' if slow else 'kept'}.")
    return 1 if slow else 0


if __name__ == "__main__":
    raise SystemExit(main())
