"""The factored engine equals brute force, as fractions, on random crosses."""

import random
from fractions import Fraction

import pytest

from explorer.genetics import Brood, at_least, exact
from explorer.looks import shown
from tests.oracle import brute_force
from tests.oracle.random_crosses import make

CROSSES = 600
BATCHES = 12


def pairs_of(diplotype):
    return tuple(tuple(sorted(pair)) for pair in zip(*diplotype, strict=True))


def shows_all(group, wanted):
    names = {allele.name for locus in group.loci for allele in locus.alleles}
    here = {item for item in wanted if item[0] in names}
    return lambda diplotype: here <= set(shown(group, diplotype))


def multiplied_out(brood):
    """(genotype -> chance among eggs laid) from the engine's per-configuration tables."""
    total = {(): Fraction(1)}
    for group in brood.genome.groups:
        here = {}
        for weight, table in brood.table(group):
            for diplotype, chance in table.items():
                key = pairs_of(diplotype)
                here[key] = here.get(key, 0) + weight * chance
        total = {(*key, more): p * q for key, p in total.items() for more, q in here.items()}
    return total


@pytest.mark.parametrize("batch", range(BATCHES))
def test_odds__equal_brute_force(batch):
    features = set()
    for seed in range(batch, CROSSES, BATCHES):
        cross = make(seed)
        brood = Brood.of(cross.genotype(cross.dam), cross.genotype(cross.sire))
        slow = brute_force.whole_table(cross.chromosomes, cross.dam, cross.sire)
        assert multiplied_out(brood) == {g: p for g, p in slow.items() if p}, f"seed {seed}"
        living = {g: p for g, p in slow.items() if p and brute_force.lives(cross.chromosomes, cross.lethal, g)}
        assert brood.viable == sum(living.values()), f"seed {seed}"
        features |= {"lethal"} if brood.viable < 1 else set()
        features |= {"uncertain"} if any(len(s) > 1 for s in (*cross.dam, *cross.sire)) else set()
        features |= {"linked"} if any(len(g.loci) > 1 for g in cross.genome.groups[1:]) else set()
        features |= {"sex-linked"} if cross.genome.groups[0].loci else set()
        features |= {"one chromosome alone"} if cross.genome.groups[0].hemizygous else set()
        features |= {"ZW"} if cross.genome.heterogametic == "female" else set()
        if not brood.viable:
            continue
        slow_looks = {}
        for genotype, chance in living.items():
            look = brute_force.visible(cross.chromosomes, cross.recessive, cross.same_look, genotype)
            slow_looks[look] = slow_looks.get(look, 0) + chance / brood.viable
        fast_looks = {frozenset(): Fraction(1)}
        for group in cross.genome.groups:
            step = {}
            for diplotype, chance in brood.distribution(group).items():
                for look, p in fast_looks.items():
                    key = look | frozenset(shown(group, diplotype))
                    step[key] = step.get(key, 0) + p * chance
            fast_looks = step
        assert fast_looks == slow_looks, f"seed {seed}"
        rng = random.Random(seed)
        wanted = rng.choice(sorted(slow_looks, key=sorted))
        events = {group.name: shows_all(group, wanted) for group in cross.genome.groups}
        slow_chance = sum(p for look, p in slow_looks.items() if wanted <= look)
        assert brood.chance(events) == slow_chance, f"seed {seed}"
        law, rate, fewest = {2: Fraction(1, 3), 4: Fraction(2, 3)}, exact(0.81), rng.choice([1, 2])
        rates = {}
        for q, weight in brood.rates(events).items():
            rates[q * rate] = rates.get(q * rate, 0) + weight

        def good(genotype, cross=cross, wanted=wanted):
            look = brute_force.visible(cross.chromosomes, cross.recessive, cross.same_look, genotype)
            return brute_force.lives(cross.chromosomes, cross.lethal, genotype) and wanted <= look

        slow_clutch = brute_force.chance_in_clutch(cross.chromosomes, cross.dam, cross.sire, good, law, rate, fewest)
        assert at_least(rates, law, fewest) == slow_clutch, f"seed {seed}"
    assert features == {"lethal", "uncertain", "linked", "sex-linked", "one chromosome alone", "ZW"}
