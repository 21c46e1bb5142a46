"""The collection that comes with the project."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from explorer.collection import Collection, read_collection
from explorer.husbandry import Husbandry, readiness
from explorer.notation import read_wanted

DEMO = Path(__file__).parents[2] / "demo_collection.csv"
TARGET = "Leopard Pinstripe Desert Ghost"


@pytest.fixture(scope="module")
def animals() -> Collection:
    return read_collection(DEMO)


def test_it_has_no_findings_and_its_labels_are_what_the_pedigree_says(animals: Collection) -> None:
    assert animals.findings == ()
    assert len(animals) == 24
    for animal in animals:
        group = animals.knowledge.genome.groups
        apart = [g.name for g in group[1:] if dict(animal.genotype.part(g)) != dict(animal.label.part(g))]
        assert apart == []


def test_it_shows_what_the_tool_is_for(animals: Collection) -> None:
    assert {animal.status for animal in animals} == {"kept", "sold", "retired"}
    assert any(animal.sire == "M02" and animal.dam == "F03" for animal in animals)
    assert animals["M02"].sire == animals["F03"].sire == "M01"
    assert list(animals["M06"].genotype.part(animals.knowledge.genome.groups[0])) == [(("X", "Banana"), ("Y", ""))]


def test_no_animal_shows_the_target_and_the_living_carry_all_of_it(animals: Collection) -> None:
    wanted = read_wanted(TARGET)
    assert all(sum(gene in animal.genes for gene in wanted) < len(wanted) for animal in animals)
    kept = [animal.genes for animal in animals if animal.status == "kept"]
    assert all(any(gene in genes for genes in kept) for gene in wanted)


def test_who_is_ready(animals: Collection) -> None:
    care, today = Husbandry(), date(2026, 11, 25)
    lines = {animal.id: str(readiness(animal, care, today)) for animal in animals}
    assert sum(line == "ready" for line in lines.values()) == 16
    assert {key: line for key, line in lines.items() if line != "ready"} == {
        "F05": "sold",
        "F09": "not yet: 1,500 g needed; about season 2027/28",
        "F11": "not yet: too young, 1,500 g needed; about season 2027/28",
        "F12": "weigh it: no weight is written",
        "F13": "not yet: too young, 1,500 g needed; about season 2028/29",
        "M01": "retired",
        "M04": "not yet: too young, 500 g needed; about season 2027/28",
        "M08": "not yet: 500 g needed; about season 2027/28",
    }
    assert {animal.id for animal in animals if readiness(animal, care, today).barred} == {"F14", "F15", "M07"}
