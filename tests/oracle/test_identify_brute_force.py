"""Reading an animal equals the plainest Bayes: every genotype and every answer multiplied out, as fractions."""

import math
import random
from fractions import Fraction

import pytest

import explorer as ex
from explorer.pairing import read_animal
from tests.agreement.simulated_cues import (
    answered,
    chances_of_genotypes,
    cues_of_the_facts,
    from_candidates,
    from_one_parent,
    from_parents,
    genes_in,
    hatchling,
    likelihood,
    outcomes,
    shorthand,
)

CUES = cues_of_the_facts()
KEYS = [cue.key for cue in CUES]
HALF, QUARTER, TENTH = Fraction(1, 2), Fraction(1, 4), Fraction(1, 10)

CASES = [
    from_parents((("Pastel", ""), ("", "")), (("Clown", ""), ("Clown", "")), (("Fire", ""), ("Fire", ""))),
    from_parents((("Mojave", ""), ("Lesser", "")), (("Enchi", "Enchi"), ("Enchi", "")), (("", ""), ("Pinstripe", ""))),
    from_parents((("Cinnamon", "Black Pastel"), ("Cinnamon", "")), (("Spider", ""), ("Spider", ""))),
    from_parents((("Piebald", "Piebald"), ("Piebald", "")), (("Banana", ""), ("", "")), (("Calico", ""), ("", ""))),
    from_parents((("Calico", ""), ("Calico", "")), (("Yellow Belly", ""), ("Gravel", ""))),
    from_candidates({"Pastel": QUARTER}, {"Clown": QUARTER}, {"Orange Dream": TENTH}),
    from_candidates({"Mojave": QUARTER, "Lesser": TENTH}, {"Spider": TENTH}, {"Pinstripe": HALF}),
    from_candidates({"Banana": QUARTER}, {"Champagne": TENTH}, {"Piebald": QUARTER}),
    from_one_parent("dam", (("Pastel", "Pastel"), {"Pastel": TENTH}), (("Clown", ""), {"Clown": QUARTER})),
    from_one_parent("sire", (("", ""), {"Spider": QUARTER}), (("Enchi", ""), {}), (("", ""), {"Fire": QUARTER})),
]


def answer_sets(case, seed):
    """Nothing; one cue; half of them; all of them; and none seen of a third."""
    rng = random.Random(seed)
    yield {}
    for count in (1, len(KEYS) // 2, len(KEYS)):
        yield answered(rng, CUES, hatchling(rng, case), rng.sample(KEYS, count))
    yield dict.fromkeys(rng.sample(KEYS, len(KEYS) // 3), False)


def after(case, answers):
    weights = {g: chance * likelihood(outcomes(CUES, g), answers) for g, chance in chances_of_genotypes(case).items()}
    total = sum(weights.values())
    return {genotype: weight / total for genotype, weight in weights.items()}


def unphased(table):
    """Genotype -> chance, whichever sex chromosome a gene lies on."""
    found = {}
    for text, chance in zip(table.genotype, table.fraction, strict=True):
        genotype = ex.read_genes(text.replace("female maker ", "").replace("male maker ", ""))
        found[genotype] = found.get(genotype, 0) + chance
    return found


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_identify__equals_brute_force(case):
    for answers in answer_sets(case, seed=CASES.index(case)):
        slow = after(case, answers)
        table = unphased(ex.identify(answers, **case.origin))
        assert table == {ex.read_genes(shorthand(genotype)): chance for genotype, chance in slow.items()}, answers


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_gene_chances__equal_brute_force(case):
    prior = chances_of_genotypes(case)
    for answers in answer_sets(case, seed=CASES.index(case)):
        slow = after(case, answers)
        found = read_animal(answers, **case.origin).genes
        assert {item.gene for item in found} == {gene for genotype in slow for gene in genes_in(genotype)}
        for item in found:
            assert item.before == sum(chance for g, chance in prior.items() if item.gene in genes_in(g))
            assert item.carries == sum(chance for g, chance in slow.items() if item.gene in genes_in(g))
            shown = [chance for g, chance in slow.items() if item.gene in ex.stack(shorthand(g)).look]
            assert item.shows == sum(shown)


def information(slow, groups, answers, key):
    """Mutual information of genotype and one more answer, in bits: the sum over its whole table."""
    table = {}
    for genotype, chance in slow.items():
        yes = likelihood(groups[genotype], {**answers, key: True}) / likelihood(groups[genotype], answers)
        table[genotype, True], table[genotype, False] = chance * yes, chance * (1 - yes)
    column = {seen: sum(table[genotype, seen] for genotype in slow) for seen in (True, False)}
    return sum(
        chance * math.log2(chance / (slow[genotype] * column[seen]))
        for (genotype, seen), chance in table.items()
        if chance > 0
    )


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_further_cues__tell_the_mutual_information(case):
    for answers in answer_sets(case, seed=CASES.index(case)):
        slow = {genotype: float(chance) for genotype, chance in after(case, answers).items()}
        groups = {g: [[(key, float(p)) for key, p in group] for group in outcomes(CUES, g)] for g in slow}
        found = {cue.key: bits for cue, bits in read_animal(answers, **case.origin).further_cues()}
        assert found.keys() == set(KEYS) - set(answers)
        for key, bits in found.items():
            assert bits == pytest.approx(information(slow, groups, answers, key), abs=1e-9), (answers, key)
