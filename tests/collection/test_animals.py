"""The collection as its users see it."""

from __future__ import annotations

from datetime import date

import pandas as pd
import pytest

from explorer.collection import COLUMNS, Collection
from explorer.notation import write_genes

TEXT = """id,name,sex,genes,hatched,weight_g,weighed_on,sire,dam,clutch,status,notes,box
M01,Larch,M,Desert Ghost,2019-07-20,1150,2026-11-08,,,,retired,,1
F01,Bracken,F,Leopard,,,,,,,,,2
F02,Juniper,♀,Leopard het Desert Ghost,2022-07-14,1820.5,,M01,F01,22-1,kept,"calm, eats well",3
"""


def test_an_animal() -> None:
    animal = Collection.from_text(TEXT)["F02"]
    assert (animal.id, animal.name, animal.sex, animal.genes) == (
        "F02",
        "Juniper",
        "female",
        "Leopard het Desert Ghost",
    )
    assert (animal.hatched, animal.weight_g, animal.weighed_on) == (date(2022, 7, 14), 1820.5, None)
    assert (animal.sire, animal.dam, animal.clutch, animal.status) == ("M01", "F01", "22-1", "kept")
    assert (animal.notes, dict(animal.extra), animal.row) == ("calm, eats well", {"box": "3"}, 4)
    assert write_genes(animal.genotype) == "Leopard het Desert Ghost"
    assert {animal} == {Collection.from_text(TEXT)["F02"]}


def test_a_collection() -> None:
    animals = Collection.from_text(TEXT)
    assert [animal.id for animal in animals] == ["M01", "F01", "F02"]
    assert len(animals) == 3
    assert "F01" in animals
    assert "F09" not in animals
    with pytest.raises(KeyError, match="no animal 'f1'; nearest: F01"):
        animals["f1"]


def test_the_table() -> None:
    table = Collection.from_text(TEXT).table
    assert list(table.columns) == [*COLUMNS, "box"]
    assert list(table["id"]) == ["M01", "F01", "F02"]
    assert list(table["status"]) == ["retired", "kept", "kept"]
    assert table["hatched"].iloc[2] == pd.Timestamp("2022-07-14")
    assert pd.isna(table["hatched"].iloc[1])
    assert table["weight_g"].iloc[2] == 1820.5
    assert pd.isna(table["sire"].iloc[0])
    assert table["box"].iloc[0] == "1"


def test_an_empty_collection() -> None:
    animals = Collection.from_text("id,sex,genes\n")
    assert len(animals) == 0
    assert [finding.found for finding in animals.findings] == ["no animals yet"]
    assert animals.table.empty
    assert "weight_g" in animals.table


def test_a_parent_that_is_not_in_the_file() -> None:
    animals = Collection.from_text("id,sex,genes,sire\nF01,f,Pastel,M1\nM01,m,Normal,\n")
    assert animals["F01"].sire is None
    assert [str(finding) for finding in animals.findings] == [
        "row 2, F01, sire: M1 is not in this file, and is taken as unknown. Nearest: M01."
    ]


def test_a_parent_of_unknown_sex_is_what_its_role_says() -> None:
    animals = Collection.from_text("id,sex,genes,sire\nF01,f,Pastel,X01\nX01,?,Normal,\n")
    assert animals["X01"].sex == "male"
    assert animals["X01"].genotype.sex == "male"
    assert animals.findings[0].found == "unknown, but another row names it as sire: taken as male"


def test_a_parent_that_is_taken_out_becomes_unknown() -> None:
    animals = Collection.from_text(TEXT).without("M01")
    assert animals["F02"].sire is None
    assert [finding.column for finding in animals.findings] == ["sire"]
    assert write_genes(animals["F02"].genotype) == "Leopard het Desert Ghost"


def test_what_a_label_leaves_open_is_said() -> None:
    animals = Collection.from_text("id,sex,genes,weight_g\nF01,f,possible het Clown,3\n")
    assert [(finding.column, finding.severity) for finding in animals.findings] == [
        ("genes", "notice"),
        ("weight_g", "notice"),
    ]
    assert "lighter than any hatchling" in animals.findings[1].found
