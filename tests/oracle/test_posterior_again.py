"""What was worked out before, for other clutches of the same animals, changes nothing."""

import pytest

from explorer.collection import Knowledge
from tests.oracle.random_pedigrees import make


def everything(knowledge):
    genotypes = {key: knowledge.genotype(key) for key in knowledge.kin}
    disputes = [(one.clutch.id, one.group) for one in knowledge.disputes]
    return genotypes, dict(knowledge.paternity), disputes, list(knowledge.clashes()), list(knowledge.disagreements())


@pytest.mark.parametrize("batch", range(4))
def test_updated__as_if_for_the_first_time(batch):
    for seed in range(batch, 120, 4):
        family = make(seed, 9, (3, 4), (2, 3))
        plain = Knowledge(family.catalogue, family.kin, family.tested)
        first, rest = family.clutches[:1], family.clutches[1:]
        again = plain
        for clutches in (first, family.clutches, rest, (), family.clutches):
            again = again.updated(clutches)
            anew = Knowledge(family.catalogue, family.kin, family.tested, clutches)
            assert everything(again) == everything(anew), f"seed {seed}"
            assert everything(plain.updated(clutches)) == everything(anew), f"seed {seed}"


def test_families__have_kept_hatchlings_of_open_sires():
    families = [make(seed, 9, (3, 4), (2, 3)) for seed in range(120)]
    open_kept = [f for f in families for one in f.litters if None in one.kept.values()]
    assert len(open_kept) >= 20
