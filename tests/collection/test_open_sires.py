"""Kinship where a clutch book settles a sire, and where it leaves him open."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from itertools import product
from random import Random

import pytest

from explorer.collection import Collection, relation
from explorer.genetics import Kinship
from explorer.planner import closest_kinship, find_paths
from tests.collection.test_told import PASTEL, clutch, young

QUARTER = Fraction(1, 4)
FAMILY = ("F,f,Normal,,,", "M,m,Pastel,,,", "M2,m,Normal,,,", "K,f,{},,,C1", "L,m,Normal,,,C1")


def told(genes: str, *, several: bool = False, males: tuple[str, ...] = ("M", "M2")) -> Collection:
    rows = [row.format(genes) for row in FAMILY]
    animals = Collection.from_text("\n".join(["id,sex,genes,dam,sire,clutch", *rows]))
    return animals.updated([clutch("C1", "F", males, young(2, PASTEL), young(2), several=several)])


def test_settled__the_sire_is_filled_in() -> None:
    """A Pastel of a Normal dam is of the Pastel male, and so is its whole clutch."""
    animals = told("Pastel")
    assert [(animals[key].dam, animals[key].sire, animals[key].sires) for key in "KL"] == [("F", "M", ())] * 2
    assert animals.inbreeding("K", "M") == animals.inbreeding("K", "L") == QUARTER
    assert animals.inbreeding("K", "M2") == 0
    assert relation(animals, "K", "M").words == "M is the sire of K"
    assert relation(animals, "K", "L").words == "full siblings"
    assert animals.updated([])["K"].sire is None
    assert animals.text.count(",M") == 0, "the file says what it said"


def test_open__the_greatest_that_any_male_allows() -> None:
    """In a clutch of several sires the normal one may be of either."""
    animals = told("Pastel", several=True)
    assert (animals["K"].sire, animals["L"].sires) == ("M", ("M", "M2"))
    assert animals.inbreeding("L", "M2") == animals.inbreeding("L", "M") == QUARTER
    assert animals.inbreeding("K", "L") == QUARTER
    assert animals.kinship().loc["L", "M2"] == 0.25
    assert relation(animals, "L", "M2").words == "M or M2 may be the sire of L"
    assert relation(animals, "K", "L").words == "full siblings, if M is the sire of L"
    assert relation(animals, "L", "F").words == "F is the dam of L"


def test_open__a_limit_on_inbreeding_holds_for_every_male() -> None:
    """A Super Pastel needs K or young of hers, and one of the males, of whom either may be her sire."""
    rows = "F,2020-05-01,f,Normal,,2000", "M,2020-05-01,m,Pastel,,900", "N,2020-05-01,m,Pastel,,900"
    text = "\n".join(["id,hatched,sex,genes,clutch,weight_g", *rows, "K,2021-06-01,f,Pastel,C1,2000"])
    animals = Collection.from_text(text).updated([clutch("C1", "F", ["M", "N"], young(1, PASTEL), several=True)])
    assert animals["K"].sires == ("M", "N")
    free = find_paths(animals, "Super Pastel", 4, today=date(2025, 9, 1))
    assert {(step.dam, step.sire) for path in free for step in path.steps} & {("K", "M"), ("K", "N")}
    assert max(closest_kinship(animals, path) for path in free) >= QUARTER
    limited = find_paths(animals, "Super Pastel", 4, today=date(2025, 9, 1), most_inbreeding=Fraction(1, 10))
    assert not {(step.dam, step.sire) for path in limited for step in path.steps} & {("K", "M"), ("K", "N")}


@pytest.mark.parametrize("seed", range(30))
def test_kinship__is_no_less_than_with_any_choice_of_sires(seed: int) -> None:
    """Nor than twice as much as the closest choice gives."""
    rng = Random(seed)
    parents: dict[str, tuple] = dict.fromkeys("ABCD", (None, None))
    for i in range(8):
        earlier = sorted(parents)
        parents[f"y{i}"] = (rng.choice(earlier), rng.choice(earlier))
    open_ones = rng.sample([f"y{i}" for i in range(8)], k=1 if seed % 2 else 2)
    for key in open_ones:
        earlier = [other for other in parents if other < key]
        parents[key] = (parents[key][0], tuple(rng.sample(earlier, k=2)))
    found, ids = Kinship(parents), sorted(parents)
    choices = [
        Kinship({**parents, **{k: (parents[k][0], male) for k, male in zip(open_ones, males, strict=True)}})
        for males in product(*(parents[key][1] for key in open_ones))
    ]
    for one, two in product(ids, repeat=2):
        greatest = max(choice.between(one, two) for choice in choices)
        assert greatest <= found.between(one, two) <= 2 * greatest
