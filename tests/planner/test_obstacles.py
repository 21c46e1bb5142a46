"""What stands in the way of a path, and why there is none."""

from datetime import date

import pytest

from explorer.collection import Collection
from explorer.planner import find_paths, obstacles, why_no_path

TODAY = date(2026, 11, 25)
ADULT = "2020-01-01"


def collection(*rows):
    lines = [",".join(map(str, row)) for row in (("id", "sex", "genes", "hatched", "weight_g", "status"), *rows)]
    return Collection.from_text("\n".join(lines) + "\n")


def adult(key, sex, genes, weight=2000, hatched=ADULT, status="kept"):
    return key, sex, genes, hatched, weight, status


def test_obstacles__genes_with_cautions_and_whom_they_keep_out():
    animals = collection(adult("F1", "f", "Spider Leopard"), adult("F2", "f", "Desert"), adult("M1", "m", "Clown"))
    found = {one.gene: one for one in obstacles(animals, "Leopard", today=TODAY)}
    assert {"Spider", "Desert"} <= found.keys()
    assert found["Spider"].animals == ("F1",)
    assert found["Desert"].animals == ("F2",)
    cautions = [caution for one in found.values() for caution in one.cautions]
    assert all(caution.keeps_out or caution.severity == "infertile" for caution in cautions)


def test_obstacles__a_caution_that_only_bars_pairings_names_nobody():
    animals = collection(adult("F1", "f", "Spotnose"), adult("M1", "m", "Spotnose"))
    (found,) = obstacles(animals, "Leopard", today=TODAY)
    assert (found.gene, found.animals) == ("Spotnose", ())


def test_obstacles__none():
    assert obstacles(collection(adult("F1", "f", "Pastel")), "Pastel", today=TODAY) == ()


@pytest.mark.parametrize(
    ("rows", "seasons", "said"),
    [
        ([adult("F1", "f", "Leopard")], 3, "No male can breed within 3 seasons."),
        ([adult("M1", "m", "Leopard")], 1, "No female can breed within 1 season."),
        (
            [adult("F1", "f", "Spider"), adult("F2", "f", "Pastel"), adult("M1", "m", "Leopard")],
            4,
            "Every carrier of Spider is out (F1: kept out by a caution).",
        ),
        (
            [adult("F1", "f", "Leopard", 300, "2026-07-01"), adult("F2", "f", "Pastel"), adult("M1", "m", "Clown")],
            1,
            "Every carrier of Leopard is out (F1: not before season",
        ),
    ],
)
def test_why_no_path(rows, seasons, said):
    animals = collection(*rows)
    genes = {"Spider": "Leopard Spider"}.get("Spider" if "Spider" in said else "", "Leopard")
    assert any(reason.startswith(said) for reason in why_no_path(animals, genes, seasons, today=TODAY))


def test_why_no_path__too_few_seasons():
    animals = collection(adult("F1", "f", "Leopard"), adult("M1", "m", "Clown"))
    assert find_paths(animals, "Leopard Clown", 2, today=TODAY) == []
    (reason,) = why_no_path(animals, "Leopard Clown", 2, today=TODAY)
    assert reason == "The generations that it takes do not fit in; try a later season."


def test_why_no_path__points_at_cautions():
    animals = collection(adult("F1", "f", "Leopard"), adult("M1", "m", "Clown"), adult("M2", "m", "Spider Clown"))
    assert why_no_path(animals, "Leopard Clown", 2, today=TODAY)[-1] == (
        "Or allow a gene that a caution keeps out, if you accept the risk."
    )
