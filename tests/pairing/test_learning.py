"""What a clutch tells of the animals: proofs, smaller chances, and nobody else's business."""

from __future__ import annotations

from fractions import Fraction

from explorer.collection import Collection
from explorer.collection.clutch_book import ClutchBook
from explorer.pairing.learning import Change, told_by

HEADER = "clutch,dam,sire,look,sex,count\n"
ANIMALS = (
    "id,sex,genes,dam,sire,clutch\n"
    "F1,f,Leopard 66% het Clown,,,\nF2,f,Pinstripe 50% Super Pinstripe,,,\nF3,f,Pastel,,,\n"
    "F4,f,50% het Clown,F1,,\nM1,m,50% het Clown,,,\nM2,m,Enchi,,,\n"
)


def told(*rows: str, key: str = "C1", animals: str = ANIMALS) -> tuple[Change, ...]:
    collection = Collection.from_text(animals)
    book = ClutchBook.from_text(HEADER + "".join(f"{row}\n" for row in rows), collection)
    return told_by(collection.updated(book), book[key])


def test_told_by__one_visual_hatchling_proves_both_parents() -> None:
    found = told("C1,F1,M1,Clown,f,1")
    assert [(one.id, one.before, one.after) for one in found] == [
        ("M1", "50% het Clown", "het Clown"),
        ("F1", "66% het Clown", "het Clown"),
        ("F4", "33% het Clown", "50% het Clown"),
    ]
    assert [[claim.words() for claim in one.claims if claim.proved] for one in found[:2]] == [["carries Clown"]] * 2
    assert not any(claim.proved for claim in found[2].claims)


def test_told_by__hatchlings_without_it_lower_the_chance() -> None:
    dam = next(one for one in told("C1,F1,M1,Leopard,f,4") if one.id == "F1")
    (claim,) = dam.claims
    both, whole = Fraction(1, 3) * Fraction(3, 4) ** 4, Fraction(1, 3) * Fraction(3, 4) ** 4 + Fraction(2, 3)
    carries = (both + Fraction(1, 3)) / whole
    assert (claim.fewer, claim.was, claim.now) == (True, Fraction(1, 3), 1 - carries)
    assert claim.words() == "does not carry Clown"
    assert claim.words(plural=True) == "do not carry Clown"


def test_told_by__a_second_copy_is_ruled_out() -> None:
    (one,) = told("C1,F2,M2,Enchi,f,1")
    assert one.id == "F2"
    assert one.claims[0].proved
    assert one.claims[0].words() == "has only one copy of Pinstripe"


def test_told_by__what_is_certain_does_not_change() -> None:
    assert told("C1,F3,M2,Pastel Enchi,f,3") == ()


def test_told_by__the_other_clutches_are_known_already() -> None:
    rows = ("C1,F1,M1,Clown,f,1", "C2,F1,M1,Leopard,m,3")
    assert told(*rows, key="C2") == ()
    assert [one.id for one in told(*rows)] == ["M1", "F1", "F4"]


def test_told_by__a_kept_hatchling_proves_as_much_and_is_not_listed() -> None:
    before = told("C1,F1,M1,Clown,f,1")
    kept = told("C1,F1,M1,Clown,f,1", animals=f"{ANIMALS}F9,f,Clown,F1,M1,C1\n")
    assert kept == before
