"""What a clutch's hatchlings carry, and which of them to hold back: by hand, and against the posterior of kept ones."""

from __future__ import annotations

from fractions import Fraction

import pytest

from explorer.collection import Collection
from explorer.collection.clutch_book import ClutchBook
from explorer.notation import write_genes
from explorer.pairing.hatchlings import hatched
from explorer.pairing.holdbacks import holdbacks

HEADER = "clutch,dam,sire,look,sex,count\n"
ANIMALS = (
    "id,sex,genes\n"
    "F1,f,Leopard 66% het Clown\nF2,f,Pastel\nF3,f,Spider\nF4,f,Banana 50% het Piebald\n"
    "M1,m,Pinstripe het Clown\nM2,m,50% het Clown\nM3,m,50% het Piebald\nM4,m,Enchi\nM5,m,female maker Banana\n"
)
TARGET = "Leopard Pinstripe Clown"


def told(*rows: str, animals: str = ANIMALS) -> tuple[Collection, ClutchBook]:
    collection = Collection.from_text(animals)
    book = ClutchBook.from_text(HEADER + "".join(f"{row}\n" for row in rows), collection)
    return collection.updated(book), book


def labels(collection: Collection, book: ClutchBook, key: str = "C1") -> list[str]:
    return [write_genes(one.genotype) for one in hatched(collection, book[key])]


def test_hatched__what_one_hatchling_carries_by_hand() -> None:
    """Four that show no Clown: the dam carries with 2/3·(3/4)^4 : 1/3, and a carrier's are het with 2 in 3."""
    animals, book = told("C1,F1,M1,Leopard Pinstripe,f,1", "C1,,,Normal,m,3")
    carries = Fraction(2, 3) * Fraction(3, 4) ** 4
    dam = carries / (carries + Fraction(1, 3))
    het = dam * Fraction(2, 3) + (1 - dam) * Fraction(1, 2)
    for one in hatched(animals, book["C1"]):
        clown = animals.knowledge.genome.by_name["clown"]
        assert one.genotype.part(clown)[(("",), ("Clown",))] == het
        assert one.explained and one.sire == "M1"


def test_hatched__a_proved_pair_gives_66_percent_hets() -> None:
    animals, book = told("C1,F1,M1,Leopard Clown,f,1", "C1,,,Pinstripe,m,2")
    assert labels(animals, book) == ["Leopard Clown", "Pinstripe 66% het Clown"]


@pytest.mark.parametrize(
    ("rows", "dam", "sire"),
    [
        (("C1,F1,M1,Leopard Pinstripe,f,2", "C1,,,Normal,m,3"), "F1", "M1"),
        (("C1,F4,M5,Super Banana,f,1", "C1,,,Banana,f,1", "C1,,,Normal,m,1"), "F4", "M5"),
        (("C1,F1,M2,Clown,,1", "C1,,,Leopard,,3", "C2,F2,M2,Pastel,f,2", "C2,,,Normal,m,1"), "F1", "M2"),
        (("C1,F1,M2 or M3,Leopard,f,2", "C1,,,Normal,m,2"), "F1", ""),
        (("C1,F1,M2 and M3,Leopard,f,2", "C1,,,Normal,m,1"), "F1", ""),
        (("C1,F1,M1,Leopard,f,1", "C2,F1,M2 and M3,Leopard,f,2", "C2,,,Normal,m,1"), "F1", "M1"),
    ],
)
def test_hatched__as_the_same_hatchling_once_it_is_an_animal(rows: tuple[str, ...], dam: str, sire: str) -> None:
    animals, book = told(*rows)
    found = hatched(animals, book["C1"])
    assert sum(one.left for one in found) == sum(row.count for row in book["C1"].hatchlings)
    for one in found:
        row = {"id": "Z1", "sex": one.row.sex or "?", "genes": one.look, "dam": dam, "sire": sire, "clutch": "C1"}
        kept = animals.with_animal(row)
        genotype = kept["Z1"].genotype
        assert all(genotype.part(g) == one.genotype.part(g) for g in genotype.genome.groups)
        assert sum(other.left for other in hatched(kept, book["C1"])) == sum(other.left for other in found) - 1
        for key in ("F1", "F4", "M1", "M2", "M3"):
            assert kept[key].genotype == animals[key].genotype, "it was counted before, so that nobody else changes"


def test_hatched__of_one_of_two_males_by_hand() -> None:
    """Two that show no Clown, of a het or of a male without it: 2/3·(3/4)^2 + 1/3 : 1."""
    text = "id,sex,genes\nF,f,66% het Clown\nA,m,het Clown\nB,m,het Piebald\n"
    animals, book = told("C1,F,A or B,Normal,f,2", animals=text)
    (one,) = hatched(animals, book["C1"])
    carries = Fraction(2, 3) * Fraction(3, 4) ** 2
    of_a = (carries + Fraction(1, 3)) / (carries + Fraction(4, 3))
    assert one.sires == {"A": of_a, "B": 1 - of_a}
    assert one.sire is None
    dam = carries / (carries + Fraction(1, 3))
    het = of_a * (dam * Fraction(2, 3) + (1 - dam) * Fraction(1, 2)) + (1 - of_a) * Fraction(2, 3) * Fraction(1, 2)
    assert one.genotype.part(animals.knowledge.genome.by_name["clown"])[(("",), ("Clown",))] == het


def test_hatched__an_unsure_look_counts_as_much_as_its_figure_says() -> None:
    animals, book = told('C1,F2,M4,"Pastel, maybe Enchi",f,1')
    (one,) = hatched(animals, book["C1"])
    odds = animals.catalogue.figure("maybe_odds").value
    assert one.look == "Pastel"
    assert one.genotype.part(animals.knowledge.genome.by_name["enchi"])[(("",), ("Enchi",))] == odds / (odds + 1)


def test_hatched__a_look_that_the_parents_cannot_give_counts_by_itself() -> None:
    animals, book = told("C1,F2,M4,Pastel Clown,f,1")
    (one,) = hatched(animals, book["C1"])
    assert not one.explained
    assert write_genes(one.genotype) in ("Pastel Clown", "Pastel Clown 50% Enchi")


def test_holdbacks__by_look_then_by_what_is_carried_then_by_taste() -> None:
    rows = ("C1,F1,M1,Normal,m,1", "C1,,,Leopard,f,2", "C1,,,Leopard Pinstripe,m,1", "C1,,,Pinstripe Clown,f,1")
    animals, book = told(*rows, "C1,,,Clown,f,1")
    found = holdbacks(animals, book["C1"], TARGET)
    assert [one.label for one in found] == [
        "Pinstripe Clown",
        "Leopard Pinstripe 66% het Clown",
        "Clown",
        "Leopard 66% het Clown",
        "66% het Clown",
    ]
    best, second, *_ = found
    assert (best.closeness, best.share, best.shows) == (Fraction(2, 3), Fraction(3, 4), ("Pinstripe", "Clown"))
    assert best.hidden == (("Leopard", Fraction(0)),)
    assert (second.hidden, second.share) == ((("Clown", Fraction(2, 3)),), (2 + Fraction(2, 3)) / 4)
    assert all(one.recommended for one in found)
    order = [one.label for one in holdbacks(animals, book["C1"], TARGET, taste={"reduced pattern": -2})]
    assert order.index("Clown") < order.index("Leopard 66% het Clown"), "what is carried comes before taste"
    tastes = [holdbacks(animals, book["C1"], "Enchi", taste={"bright": weight}) for weight in (2, -2)]
    assert [one.hatchling.look for one in tastes[0]] != [one.hatchling.look for one in tastes[1]]
    assert not any(one.recommended for one in tastes[0]), "none of them has anything of Enchi"


def test_holdbacks__a_caution_keeps_out_unless_it_is_allowed() -> None:
    animals, book = told("C1,F3,M1,Pinstripe Spider,f,1", "C1,,,Normal,m,1")
    last = holdbacks(animals, book["C1"], TARGET)[-1]
    assert last.label == "Pinstripe Spider 50% het Clown"
    assert last.kept_out and not last.recommended
    assert [caution.parts[0].gene for caution in last.cautions] == ["Spider"]
    first = holdbacks(animals, book["C1"], TARGET, allow={"Spider"})[0]
    assert first.label == last.label
    assert first.recommended and first.cautions == last.cautions


def test_holdbacks__what_must_not_show_comes_last() -> None:
    animals, book = told("C1,F1,M1,Leopard Pinstripe,f,1", "C1,,,Normal,m,1")
    *_, last = holdbacks(animals, book["C1"], TARGET, ["Pinstripe"])
    assert (last.barred, last.closeness, last.recommended) == (("Pinstripe",), 0, False)


def test_holdbacks__those_that_are_kept_are_left_out() -> None:
    animals = Collection.from_text(ANIMALS).with_animal(
        {"id": "F9", "sex": "f", "genes": "Leopard", "dam": "F1", "sire": "M1", "clutch": "C1"}
    )
    animals, book = told("C1,F1,M1,Leopard,f,1", "C1,,,Normal,m,2", animals=animals.text)
    (left,) = holdbacks(animals, book["C1"], TARGET)
    assert (left.hatchling.look, left.hatchling.left) == ("Normal", 2)
