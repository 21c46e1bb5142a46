"""What animals carry, given everything at once, equals counting every case: exactly, as fractions."""

from collections import Counter

import pytest

from explorer.collection import Collection, Knowledge
from tests.oracle.pedigree_brute_force import posterior
from tests.oracle.random_pedigrees import make

FAMILIES, BATCHES = 360, 12
TRIED = {
    "complex",
    "covering look",
    "kept",
    "kept, of several rows",
    "kept, sex not known",
    "kept, sire recorded",
    "lethal",
    "linked",
    "loop",
    "one sire of several",
    "several genes",
    "several sires",
    "sex not known",
    "sex-linked",
    "shed test",
    "unsure look",
    "ZW, on Z alone",
}


def knowledge_of(family):
    """By way of a collection file where that can say everything."""
    if family.tested or family.kind != "python":
        return Knowledge(family.catalogue, family.kin, tested=family.tested).updated(family.clutches)
    return Collection.from_text(family.text, family.catalogue).updated(family.clutches).knowledge


def compare(family):
    """True if the records can all be true; asserts that both sides agree on that and on every chance."""
    possible, marginals, paternity = posterior(family.species, family.beasts, family.litters)
    knowledge = knowledge_of(family)
    assert knowledge.told.strangers == knowledge.told.crowded == ()
    assert possible == (not knowledge.disputes and not [*knowledge.clashes()])
    if not possible:
        return False
    for (key, name), expected in marginals.items():
        group = knowledge.genome.by_name[name]
        found = {diplotype: chance for (diplotype,), chance in knowledge.joint_of(group, (key,)).items()}
        assert found == expected, (key, name)
        assert dict(knowledge.genotype(key).part(group)) == expected, (key, name)
    unsure = {litter.key for litter in family.litters if len(litter.sires) > 1}
    assert knowledge.paternity == {key: shares for key, shares in paternity.items() if key in unsure}
    return True


@pytest.mark.parametrize("batch", range(BATCHES))
def test_posterior__equals_brute_force(batch):
    for seed in range(batch, FAMILIES, BATCHES):
        try:
            compare(make(seed))
        except AssertionError as error:
            error.add_note(f"seed {seed}")
            raise


def test_families__try_everything():
    """At least 200 whose records can all be true, at least 20 that contradict themselves, everything tried often."""
    families = [make(seed) for seed in range(FAMILIES)]
    tried = Counter(feature for family in families for feature in family.features)
    assert tried.keys() == TRIED
    assert min(tried.values()) >= 20, tried
    outcomes = Counter(posterior(one.species, one.beasts, one.litters)[0] for one in families)
    assert outcomes[True] >= 200, outcomes
    assert outcomes[False] >= 20, outcomes
