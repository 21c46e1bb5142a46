"""The broods of many pairings are those of `cross`, kin and clutches included."""

import random
from collections import Counter

import pytest

from explorer.collection import Clutch, Collection, Hatchlings
from explorer.pairing import Couples, cross
from tests.benchmarks.invented_keeper import kept_by


@pytest.mark.parametrize(("seed", "unsure"), [(1, 0), (2, 0), (3, 2)])
def test_broods__equal_those_of_cross(seed: int, unsure: int) -> None:
    keeper = kept_by(60, seed=seed, unsure=unsure)
    animals = Collection.from_text(keeper.text).updated(keeper.clutches)
    dams, sires = ([one for one in animals if one.sex == sex] for sex in ("female", "male"))
    couples, seen, rng = Couples(animals), Counter[str](), random.Random(seed)
    pairs = [(dam, sire) for dam in dams for sire in sires]
    for dam, sire in rng.sample(pairs, k=150):
        mine, plain = couples.brood(dam.id, sire.id), cross(dam, sire).brood
        for group in animals.knowledge.genome.groups:
            wild = {(animals.knowledge.genome.wild(group, "female"),) * 2: 1}
            one, two = mine.parents.get(group.name, wild), plain.parents.get(group.name, wild)
            assert dict(one) == dict(two), (dam.id, sire.id, group.name)
            mother, father = dam.genotype.part(group), sire.genotype.part(group)
            alone = {(d, s): p * q for d, p in mother.items() for s, q in father.items()}
            if len(mother) > 1 and len(father) > 1:
                seen["dependent" if alone != dict(two) else "independent"] += 1
    assert seen["independent"] > 0
    assert seen["dependent"] > 0


def test_brood__only_of_the_groups_asked_about() -> None:
    animals = Collection.from_text("id,sex,genes\nF1,female,Pastel het Clown\nM1,male,Leopard")
    home = animals.knowledge.genome.home
    some = Couples(animals).brood("F1", "M1", lambda group: group is home["Clown"][0])
    assert {group.name for group in some.groups} == {"sex", home["Clown"][0].name}


@pytest.mark.parametrize("sires", [("M1",), ("M1", "M2")])
def test_broods__parents_of_a_clutch_that_was_not_kept_depend_on_one_another(sires: tuple[str, ...]) -> None:
    rows = ["F1,female,50% het Clown", "M1,male,50% het Clown", "M2,male,50% het Clown"]
    plain = (Hatchlings("Normal", 6, None, {}),)
    animals = Collection.from_text("\n".join(["id,sex,genes", *rows]))
    animals = animals.updated([Clutch("C1", "F1", sires, False, None, None, None, plain)])
    group = animals.knowledge.genome.home["Clown"][0]
    mother, father = (animals[key].genotype.part(group) for key in ("F1", "M1"))
    mine = dict(Couples(animals).brood("F1", "M1").parents[group.name])
    assert mine == dict(cross(animals["F1"], animals["M1"]).brood.parents[group.name])
    assert mine != {(d, s): p * q for d, p in mother.items() for s, q in father.items()}
