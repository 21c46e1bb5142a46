"""Who could be wrong where records contradict one another: every set of wrong records counts, at the stated rate."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import pytest

from explorer.collection import Collection
from explorer.collection.blame import conflicts, strained, suspects
from explorer.collection.clutch import Clutch, Hatchlings
from explorer.looks import Look
from explorer.notation import write_genes
from tests.oracle.wrong_records import founder, wrong_chances
from tests.oracle.wrong_records import young as bred

RATE = Fraction(1, 100)
CLOWN = {"clown": (("Clown", 2),)}
CANDY_ALBINO = {"albino": (("Candy", 1), ("Albino", 1))}
ALBINO_TOFFEE = {"albino": (("Toffee", 1), ("Albino", 1))}
ALBINO = {"albino": (("Albino", 2),)}
NONE, HET, VISUAL = {0: 1}, {1: 1}, {2: 1}
HALF_HET = {0: Fraction(1, 2), 1: Fraction(1, 2)}


def collection(*rows: str) -> Collection:
    return Collection.from_text("\n".join(["id,sex,genes,dam,sire,clutch,dna", *rows]))


def young(look: str, count: int, seen: Mapping[str, Look] | None = None) -> Hatchlings:
    return Hatchlings(look, count, None, seen or {})


def clutch(key: str, dam: str, sires: str, *rows: Hatchlings, several: bool = False) -> Clutch:
    return Clutch(key, dam, tuple(sires.split()), several, None, None, None, rows)


def clowns(key: str, dam: str, sires: str, visual: int, normal: int = 0) -> Clutch:
    rows = [young("Clown", visual, CLOWN), young("Normal", normal)]
    return clutch(key, dam, sires, *(row for row in rows if row.count))


def blamed(animals: Collection, rate: Fraction = RATE) -> dict[str, Fraction]:
    """Of all clutches at once; all disputes of one conflict say the same."""
    (found,) = {suspects(animals.knowledge, one, rate) for one in animals.knowledge.disputes}
    return dict(found)


def named(expected: Mapping[object, Fraction]) -> dict[str, Fraction]:
    """What brute force found, as it is said: those likely enough to be named."""
    found = {}
    for key, chance in expected.items():
        if chance >= Fraction(1, 20):
            hatchling = f"one hatchling written as {'Clown' if key[1:] == (True,) else 'Normal'} in clutch {key[0]}"
            found[f"the record of {key}" if isinstance(key, str) else hatchling] = chance
    return found


FOUR = ("D,f,Normal,,,,", "S,m,Clown,,,,")
PAIR = [founder("D", NONE), founder("S", VISUAL)]


def test_three_clutches_with_a_visual_each() -> None:
    """One wrong record, of the dam, explains all three: r/3 x 1/64; three wrong hatchlings do: r^3."""
    book = [clowns("a", "D", "S", 1, 3), clowns("b", "D", "S", 1), clowns("c", "D", "S", 1)]
    animals = collection(*FOUR).updated(book)
    written = {"a": ("D", "S", {True: 1, False: 3}), "b": ("D", "S", {True: 1}), "c": ("D", "S", {True: 1})}
    assert blamed(animals) == named(wrong_chances(PAIR, written, RATE))
    assert blamed(animals)["the record of D"] > Fraction(98, 100)
    (finding,) = animals.findings
    found = "clutches a, b and c at clown cannot be as they are written, given the records of the animals"
    assert finding.found == found
    assert finding.advice.startswith("who could be wrong, if 1% of records are: the record of D (98.2%). Until")


@pytest.mark.parametrize(
    ("dam", "sire", "visual", "normal"),
    [
        ("Normal", "Normal", 1, 4),
        ("Normal", "Normal", 2, 4),
        ("Normal", "het Clown", 1, 2),
        ("het Clown", "Normal", 1, 2),
        ("50% het Clown", "Normal", 1, 0),
        ("Clown", "Clown", 2, 1),
        ("Clown", "Clown", 0, 3),
    ],
)
def test_one_clutch(dam: str, sire: str, visual: int, normal: int) -> None:
    labels = {"Normal": NONE, "het Clown": HET, "50% het Clown": HALF_HET, "Clown": VISUAL}
    animals = collection(f"D,f,{dam},,,,", f"S,m,{sire},,,,").updated([clowns("c", "D", "S", visual, normal)])
    pair = [founder("D", labels[dam]), founder("S", labels[sire])]
    rows = {key: n for key, n in ((True, visual), (False, normal)) if n}
    assert blamed(animals) == named(wrong_chances(pair, {"c": ("D", "S", rows)}, RATE))


def test_a_clutch_of_one_of_two_sires() -> None:
    """Only one of the two could have given a visual, so that the dam's record counts half."""
    animals = collection(*FOUR, "M,m,Normal,,,,").updated([clowns("c", "D", "S M", 2, 3)])
    family = [*PAIR, founder("M", NONE)]
    expected = named(wrong_chances(family, {"c": ("D", "SM", {True: 2, False: 3})}, RATE))
    assert blamed(animals) == expected
    assert expected.keys() == {"the record of D", "one hatchling written as Clown in clutch c"}


def test_a_kept_visual_is_evidence_like_its_siblings() -> None:
    """One visual was kept and one was not; two more have no clutch."""
    rows = "K,f,Clown,D,S,c,", "L,f,Clown,D,S,,", "N,f,Normal,D,S,,"
    animals = collection(*FOUR, *rows).updated([clowns("c", "D", "S", 2, 3)])
    family = [*PAIR, bred("K", True, "D", "S"), bred("L", True, "D", "S"), bred("N", False, "D", "S")]
    assert blamed(animals) == named(wrong_chances(family, {"c": ("D", "S", {True: 1, False: 3})}, RATE))
    assert max(blamed(animals), key=blamed(animals).get) == "the record of D"


def test_a_clash_without_any_clutch_names_its_suspects() -> None:
    animals = collection(*FOUR, "K,f,Clown,D,S,,", "L,f,Clown,D,S,,")
    family = [*PAIR, bred("K", True, "D", "S"), bred("L", True, "D", "S")]
    (one,) = conflicts(animals.knowledge, RATE)
    assert (one.clutches, one.clashing) == ((), ("K", "L"))
    assert dict(one.suspects) == named(wrong_chances(family, {}, RATE))
    assert all("who could be wrong, if 1% of records are: the record of D" in one.advice for one in animals.findings)


def test_a_grandparent_may_be_wrong() -> None:
    """D takes her hidden genes from her parents: her own label, of a normal, explains nothing."""
    rows = "G,f,Normal,,,,", "H,m,Normal,,,,", "D,f,Normal,G,H,,", "S,m,Clown,,,,"
    animals = collection(*rows).updated([clowns("c", "D", "S", 4)])
    family = [founder("G", NONE), founder("H", NONE), bred("D", False, "G", "H"), founder("S", VISUAL)]
    found = blamed(animals)
    assert found == named(wrong_chances(family, {"c": ("D", "S", {True: 4})}, RATE))
    assert {"the record of G", "the record of H"} <= found.keys()


def test_a_test_may_be_wrong() -> None:
    """A het by test who hatches a visual from a normal: the test says nothing against her, and all of the male."""
    animals = collection("D,f,het Clown,,,,", "S,m,Normal,,,,2026-03-01 not Clown").updated([clowns("c", "D", "S", 3)])
    family = [founder("D", HET), founder("S", NONE, [(0, Fraction(1, 1000))])]
    expected = wrong_chances(family, {"c": ("D", "S", {True: 3})}, RATE)
    result = expected.pop(("S", 0))
    assert blamed(animals) == named(expected) | {"the result of 2026-03-01 on S": result}


def test_two_clutches_that_contradict_one_another() -> None:
    """A dam with Candy or Albino and never both: the clutch is left out of which a hatchling is likelier wrong."""
    animals = collection("D,f,50% het Albino 50% het Candy,,,,", "S,m,Albino,,,,")
    few, many = young("Candy Albino", 1, CANDY_ALBINO), young("Albino", 5, ALBINO)
    for names in ("ab", "ba"):
        book = [clutch(key, "D", "S", row) for key, row in zip(names, (few, many), strict=True)]
        told = animals.updated(book)
        assert [one.clutch.id for one in told.knowledge.disputes] == [names[0]]
        likeliest, *_ = blamed(told)
        assert likeliest == f"one hatchling written as Candy Albino in clutch {names[0]}"


def test_an_innocent_clutch_is_not_left_out() -> None:
    animals = collection(*FOUR, "T,m,Clown,,,,", "E,f,50% het Clown,,,,")
    told = animals.updated([clowns("a", "D", "S T", 2), clowns("b", "E", "S T", 0, 4)])
    assert [(one.clutch.id, one.group) for one in told.knowledge.disputes] == [("a", "clown")]
    assert told["E"].genotype == animals.updated([clowns("b", "E", "S T", 0, 4)])["E"].genotype


def test_a_clutch_of_unsure_sire_is_left_out_where_it_contradicts_alone() -> None:
    """At Pastel it still tells who the sire is."""
    animals = collection("D,f,Normal,,,,", "S,m,Clown,,,,", "M,m,Pastel,,,,")
    rows = young("Clown", 1, CLOWN), young("Pastel", 1, {"pastel": (("Pastel", 1),)})
    told = animals.updated([clutch("c", "D", "S M", *rows)])
    assert [(one.clutch.id, one.group) for one in told.knowledge.disputes] == [("c", "clown")]
    assert told.knowledge.paternity == {"c": {"S": 0, "M": 1}}


def test_a_clutch_that_no_sire_fits_at_all_places() -> None:
    """Either male fits at one place; nobody is blamed at a single one."""
    animals = collection("D,f,het Clown,,,,", "S,m,Clown,,,,", "M,m,Pastel,,,,")
    rows = young("Clown", 1, CLOWN), young("Pastel", 1, {"pastel": (("Pastel", 1),)})
    told = animals.updated([clutch("c", "D", "S M", *rows)])
    assert [(one.clutch.id, one.group) for one in told.knowledge.disputes] == [("c", "")]
    assert told.findings[-1].advice.startswith("none of its sires fits at all places")


class TestStrained:
    """Records that can all be true and hardly are."""

    def test_a_het_of_thirty_normals(self) -> None:
        animals = collection("D,f,het Clown,,,,", "S,m,Clown,,,,").updated([clowns("c", "D", "S", 0, 30)])
        pair = [founder("D", HET), founder("S", VISUAL)]
        expected = wrong_chances(pair, {"c": ("D", "S", {False: 30})}, RATE)
        (one,) = strained(animals.knowledge, RATE)
        assert dict(one.suspects) == named(expected)
        assert {name for name, _ in one.suspects} == {"the record of D", "the record of S"}
        (finding,) = animals.findings
        assert finding.id == "D"
        assert finding.found.endswith("hardly goes with the records at clown: one of these records is likely wrong")
        assert write_genes(animals["D"].genotype) == "het Clown", "it is not overruled"

    def test_a_het_of_several_mates(self) -> None:
        """Each mate alone could be no visual; she alone explains all of it."""
        rows = "D,f,het Clown,,,,", "S,m,Clown,,,,", "T,m,Clown,,,,"
        animals = collection(*rows).updated([clowns("c", "D", "S", 0, 10), clowns("d", "D", "T", 0, 10)])
        family = [founder("D", HET), founder("S", VISUAL), founder("T", VISUAL)]
        expected = wrong_chances(family, {"c": ("D", "S", {False: 10}), "d": ("D", "T", {False: 10})}, RATE)
        (one,) = strained(animals.knowledge, RATE)
        assert dict(one.suspects) == named(expected)
        assert one.suspects[0][0] == "the record of D" and one.suspects[0][1] > Fraction(97, 100)

    def test_not_of_what_a_keeper_may_have_chosen(self) -> None:
        """Ten daughters that were kept, all visual; of the clutch in the book all ten hatchlings are known."""
        rows = ["D,f,het Clown,,,,", "S,m,Clown,,,,", *(f"K{i},f,Clown,D,S,{{}}," for i in range(10))]
        chosen = collection(*(row.format("") for row in rows))
        assert chosen.findings == ()
        told = collection(*(row.format("c") for row in rows)).updated([clowns("c", "D", "S", 10)])
        (one,) = strained(told.knowledge, RATE)
        assert one.suspects[0][0] == "the record of D" and one.suspects[0][1] > Fraction(1, 2)

    @pytest.mark.parametrize("normal", [3, 6])
    def test_not_of_a_few(self, normal: int) -> None:
        animals = collection("D,f,het Clown,,,,", "S,m,Clown,,,,").updated([clowns("c", "D", "S", 0, normal)])
        assert strained(animals.knowledge, RATE) == animals.findings == ()

    def test_a_test_outweighed_by_the_young(self) -> None:
        animals = collection("D,f,50% het Clown,,,,2026-03-01 not Clown", "S,m,Clown,,,,")
        told = animals.updated([clowns("c", "D", "S", 2, 1)])
        family = [founder("D", HALF_HET, [(0, Fraction(1, 1000))]), founder("S", VISUAL)]
        expected = wrong_chances(family, {"c": ("D", "S", {True: 2, False: 1})}, RATE)
        (one,) = strained(told.knowledge, RATE)
        assert dict(one.suspects)["one hatchling written as Clown in clutch c"] == expected["c", True]
        assert dict(one.suspects)["the result of 2026-03-01 on D"] == expected["D", 0]


def test_no_record_is_ever_wrong() -> None:
    animals = collection(*FOUR).updated([clowns("c", "D", "S", 1)])
    assert blamed(animals, Fraction(0)) == {}


def test_nothing_is_overruled() -> None:
    """The animals are what they were without the clutch, and the file says what it said."""
    animals = collection("D,f,66% het Clown,,,,", "S,m,Normal,,,,", "K,f,Normal,D,S,,")
    told = animals.updated([clowns("c", "D", "S", 1)])
    assert told.knowledge.disputes
    assert {one.id: one.genotype for one in told} == {one.id: one.genotype for one in animals}
    assert told.text == animals.text


def test_strangers_are_not_named() -> None:
    rows = *FOUR, "X,f,het Clown,,,,", "Y,m,Clown,,,,", "Z,f,Clown,X,Y,,"
    found = blamed(collection(*rows).updated([clowns("c", "D", "S", 1)]))
    assert found.keys() == {"one hatchling written as Clown in clutch c", "the record of D"}


def test_a_complex_and_its_many_genotypes() -> None:
    """Candy Albino of a Candy and a recorded non-carrier: six genotypes of the genes met, four looks.

    She is Candy (99 parts), or any of the six (1 part); he is wild, or any of the six. A wrong hatchling is of any of
    three other looks.
    """
    animals = collection("D,f,Candy,,,,", "S,m,Normal,,,,")
    told = animals.updated([clutch("c", "D", "S", young("Candy Albino", 1, CANDY_ALBINO))])
    gametes = {"ww": (0, 0), "wc": (1, 0), "wa": (0, 1), "cc": (2, 0), "ca": (1, 1), "aa": (0, 2)}
    total = sire = hatchling = Fraction(0)
    for dam_is, (dam_c, dam_a) in gametes.items():
        dam = RATE / 6 + (1 - RATE) * (dam_is == "cc")
        for sire_is, (sire_c, sire_a) in gametes.items():
            chance = Fraction(dam_c * sire_a + dam_a * sire_c, 4)
            right, wrong = (1 - RATE) * chance, RATE * (1 - chance) / 3
            true, hidden = (1 - RATE) * (sire_is == "ww"), RATE / 6
            total += dam * (true + hidden) * (right + wrong)
            sire += dam * hidden * (right + wrong)
            hatchling += dam * (true + hidden) * wrong
    found = blamed(told)
    assert found["the record of S"] == sire / total
    assert found["one hatchling written as Candy Albino in clutch c"] == hatchling / total
