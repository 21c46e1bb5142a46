"""Notices on labels: where they say another thing than all else that is known, and not where they were rounded."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from explorer.collection import Clutch, Collection, Hatchlings
from explorer.notation import write_genes
from explorer.pairing.hatchlings import hatched

CLOWN = {"clown": (("Clown", 2),)}


def collection(*rows: str) -> Collection:
    return Collection.from_text("\n".join(["id,sex,genes,dam,sire,clutch", *rows]))


def clutch(key: str, dam: str, sire: str, *rows: tuple[int, dict]) -> Clutch:
    groups = tuple(Hatchlings("as written", count, None, seen) for count, seen in rows)
    return Clutch(key, dam, tuple(sire.split(" or ")), False, None, None, None, groups)


def carries(animals: Collection, key: str) -> Fraction:
    group, _ = animals.knowledge.genome.home["Clown"]
    return sum((p for d, p in animals[key].genotype.part(group).items() if ("Clown",) in d), Fraction(0))


def found(animals: Collection) -> list[tuple[str, str]]:
    return [(finding.id, finding.found) for finding in animals.findings]


PAIR = ("D,f,50% het Clown,,,", "S,m,het Clown,,,")
FOUR = clutch("c", "D", "S", (4, {}))
"""Four normals: she is het with 81/337, and each of them with 1/2 of that and of what their looks tell."""


def test_disagreement__a_label_worked_out_with_the_clutch_book_is_right() -> None:
    known = carries(collection(*PAIR, "K,f,Normal,D,S,c").updated([FOUR]), "K")
    assert known == (256 * Fraction(1, 2) + 81 * Fraction(2, 3)) / 337
    for label in ("54% het Clown", f"{float(known):.1%} het Clown", "54.0059% het Clown"):
        animals = collection(*PAIR, f"K,f,{label},D,S,c")
        assert [key for key, _ in found(animals)] == ["K"], "not by the recorded parents alone"
        assert found(animals.updated([FOUR])) == []


def test_disagreement__a_label_that_the_clutch_book_contradicts() -> None:
    animals = collection(*PAIR, "K,f,66% het Clown,D,S,c")
    assert found(animals.updated([FOUR])) == [
        ("K", "the label says 66% het Clown; from its recorded parents D and S, and the clutch book, it is 54%")
    ]
    proved = clutch("c", "D", "S", (1, {}), (1, CLOWN))
    assert found(animals.updated([proved])) == []


def test_disagreement__of_parents_that_the_clutch_book_alone_names() -> None:
    animals = collection(*PAIR, "K,f,66% het Clown,,,c")
    assert found(animals) == []
    assert [key for key, _ in found(animals.updated([FOUR]))] == ["K"]
    assert found(animals.updated([FOUR]).updated([])) == []


def test_disagreement__its_own_young_do_not_count_against_it() -> None:
    """A label of 50 % is right by the parents; two normals from a visual leave 1/5, and she was not mislabelled."""
    rows = "D,f,Normal,,,", "S,m,het Clown,,,", "K,f,50% het Clown,D,S,", "M,m,Clown,,,"
    told = collection(*rows).updated([clutch("c", "K", "M", (2, {}))])
    assert carries(told, "K") == Fraction(1, 5)
    assert found(told) == []
    relabelled = collection(*rows[:2], "K,f,20% het Clown,D,S,", rows[3]).updated([clutch("c", "K", "M", (2, {}))])
    assert found(relabelled) == [], "with her young, that is what is known"


@pytest.mark.parametrize(("label", "right"), [("66%", True), ("67%", True), ("66.7%", True), ("65%", False)])
def test_disagreement__rounded_figures_are_right(label: str, right: bool) -> None:
    animals = collection("D,f,het Clown,,,", "S,m,het Clown,,,", f"K,f,{label} het Clown,D,S,")
    assert (found(animals) == []) == right


def test_clash__is_gone_when_the_clutch_book_explains_it() -> None:
    """K alone would have had no Clown to pass on; in the clutch book she is of a visual sire."""
    rows = "D,f,Normal,,,", "S,m,Clown,,,", "K,f,Normal,,,c", "V,f,Clown,K,S,"
    animals = collection(*rows)
    assert found(animals) == [("V", "Clown (clown) cannot come from its recorded parents K and S")]
    for sires in ("S", "S or M"):
        told = collection(*rows, "M,m,Normal,,,").updated([clutch("c", "D", sires, (1, {}))])
        assert found(told) == []
        assert carries(told, "K") == 1


def test_clash__is_back_when_the_clutch_is_taken_out() -> None:
    animals = collection("D,f,Normal,,,", "S,m,Clown,,,", "K,f,Normal,,,c", "V,f,Clown,K,S,")
    told = animals.updated([clutch("c", "D", "S", (1, {}))])
    assert found(told.updated([])) == found(animals) != []


def test_disagreement__names_all_males_that_may_be_the_sire() -> None:
    animals = collection(*PAIR, "M,m,Normal,,,", "K,f,66% het Clown,D,,c")
    told = animals.updated([clutch("c", "D", "S or M", (1, {}))])
    (only,) = found(told)
    assert "from its recorded parents D and S or M, and the clutch book, it is" in only[1]


def test_disagreement__her_own_clutches_do_not_count_against_her_even_without_kept_young() -> None:
    rows = "D,f,het Clown,,,", "S,m,het Clown,,,", "K,f,66% het Clown,D,S,", "M,m,Clown,,,"
    told = collection(*rows).updated([clutch("c", "K", "M", (3, {}))])
    assert carries(told, "K") == Fraction(1, 5)
    assert found(told) == []


@pytest.mark.parametrize(("sires", "several"), [("S", False), ("S or M", False), ("S or M", True)])
def test_disagreement__not_with_what_the_clutch_book_itself_said_of_a_hatchling(sires: str, several: bool) -> None:
    """A hatchling is labelled with what was known of it and then held back; nothing new is known."""
    animals = collection(*PAIR, "M,m,50% het Clown,,,")
    book = replace(clutch("c", "D", sires, (4, {})), several=several)
    told = animals.updated([book])
    label = write_genes(hatched(told, book)[0].genotype)
    assert "%" in label
    sire = "S" if sires == "S" else ""
    kept = told.with_animal({"id": "K", "sex": "f", "genes": label, "dam": "D", "sire": sire, "clutch": "c"})
    assert found(kept) == []
    assert carries(kept, "D") == carries(told, "D")
