"""How related the animals of a path are, and paths below a limit."""

from datetime import date
from fractions import Fraction

from explorer.collection import Collection
from explorer.planner import closest_kinship, find_paths, step_relations

TODAY = date(2026, 11, 25)
ROWS = """id,sex,genes,hatched,weight_g,dam,sire
F1,f,Leopard,2018-01-01,2000,,
M1,m,Clown,2018-01-01,900,,
F2,f,Leopard het Clown,2020-01-01,2000,F1,M1
M2,m,Leopard het Clown,2020-01-01,900,F1,M1
F3,f,Leopard het Clown,2020-01-01,2000,,
"""


def test_step_relations__of_owned_animals_and_of_hatchlings() -> None:
    animals = Collection.from_text(ROWS)
    for path in find_paths(animals, "Leopard Clown", 8, today=TODAY):
        relations = step_relations(animals, path)
        assert len(relations) == len(path.steps)
        for step, found in zip(path.steps, relations, strict=True):
            if {step.dam, step.sire} == {"F2", "M2"}:
                assert (found.words, found.kinship) == ("full siblings", Fraction(1, 4))
            if step.dam.startswith("hatchling") and step.sire.startswith("hatchling"):
                assert found.kinship > 0
        assert closest_kinship(animals, path) == max(found.kinship for found in relations)


def test_find_paths__below_a_limit() -> None:
    animals = Collection.from_text(ROWS)
    free = find_paths(animals, "Leopard Clown", 8, today=TODAY)
    below = find_paths(animals, "Leopard Clown", 8, today=TODAY, most_inbreeding=0)
    assert max(closest_kinship(animals, path) for path in free) > 0
    assert below and all(closest_kinship(animals, path) == 0 for path in below)
    assert below[0].chance_by_season[-1] <= free[0].chance_by_season[-1]


def test_find_paths__none_below_the_limit_is_an_empty_list() -> None:
    related = Collection.from_text(ROWS.rsplit("F3", 1)[0])
    only = find_paths(related, "Super Leopard Clown", 8, today=TODAY)
    assert only and all(closest_kinship(related, path) > 0 for path in only)
    assert find_paths(related, "Super Leopard Clown", 8, today=TODAY, most_inbreeding=Fraction(0)) == []
