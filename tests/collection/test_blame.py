"""Who could be wrong where a clutch contradicts the records: shares worked by hand, at a rate of one record in 100.

One wrong hatchling: the rate, times the chance of the rest. One wrong parent's record: the rate, times the chance of
all hatchlings over every genotype it might have instead, each as likely.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import pytest

from explorer.collection import Collection
from explorer.collection.blame import suspects
from explorer.collection.clutch import Clutch, Hatchlings
from explorer.looks import Look

RATE = Fraction(1, 100)
CLOWN = {"clown": (("Clown", 2),)}
CANDY_ALBINO = {"albino": (("Candy", 1), ("Albino", 1))}


def young(look: str, count: int, seen: Mapping[str, Look] | None = None) -> Hatchlings:
    return Hatchlings(look, count, None, seen or {})


def told(rows: tuple[str, ...], *hatchlings: Hatchlings, sires: tuple[str, ...] = ("S",)) -> Collection:
    """What one clutch of D, called c, makes of a collection."""
    animals = Collection.from_text("\n".join(["id,sex,genes,dam,sire,clutch", *rows]))
    return animals.updated([Clutch("c", "D", sires, False, None, None, None, hatchlings)])


def blamed(animals: Collection, rate: Fraction = RATE) -> dict[str, Fraction]:
    (dispute,) = animals.knowledge.disputes
    return dict(suspects(animals.knowledge, dispute, rate))


def shares(**weights: Fraction | int) -> dict[str, Fraction]:
    """The weights (dam, sire, hatchling), scaled to sum to 1."""
    names = {"dam": "the record of D", "sire": "the record of S", "hatchling": "one hatchling written as Clown"}
    total = sum(weights.values(), Fraction(0))
    return {names[key]: weight / total for key, weight in weights.items()}


def test_a_visual_from_two_recorded_non_carriers() -> None:
    """No other record of one parent alone would explain it."""
    animals = told(("D,f,Normal,,,", "S,m,Normal,,,"), young("Normal", 4), young("Clown", 1, CLOWN))
    assert blamed(animals) == shares(hatchling=1)
    (finding,) = animals.findings
    assert finding.found == "clutch c at clown cannot be as it is written, given the records of the animals"
    assert "one hatchling written as Clown (100%)" in finding.advice


def test_two_visuals_from_two_recorded_non_carriers() -> None:
    """One wrong hatchling is not enough, nor is one wrong parent."""
    animals = told(("D,f,Normal,,,", "S,m,Normal,,,"), young("Normal", 4), young("Clown", 2, CLOWN))
    assert blamed(animals) == {"the records of D and S both": 1}


@pytest.mark.parametrize(("dam", "sire", "doubted"), [("het Clown", "Normal", "sire"), ("Normal", "het Clown", "dam")])
def test_a_visual_from_a_carrier_and_a_recorded_non_carrier(dam: str, sire: str, doubted: str) -> None:
    """Two normals and one visual. The non-carrier is het (9/16 x 1/4) or visual (1/4 x 1/2), each with 1/3."""
    animals = told((f"D,f,{dam},,,", f"S,m,{sire},,,"), young("Normal", 2), young("Clown", 1, CLOWN))
    wrong = (Fraction(9, 64) + Fraction(1, 8)) / 3
    assert blamed(animals) == shares(hatchling=1, **{doubted: wrong})
    assert blamed(animals)["one hatchling written as Clown"] == Fraction(192, 209)


def test_a_normal_from_two_visuals() -> None:
    """The normal is wrong, or either parent is het (1/2 x 1/4) in place of visual, with 1/3; never wild."""
    animals = told(("D,f,Clown,,,", "S,m,Clown,,,"), young("Normal", 1), young("Clown", 2, CLOWN))
    assert blamed(animals) == {
        "one hatchling written as Normal": Fraction(12, 13),
        "the record of D": Fraction(1, 26),
        "the record of S": Fraction(1, 26),
    }


def test_the_more_visuals_the_less_a_hatchling_is_blamed() -> None:
    """From a visual and a recorded non-carrier: two visuals cannot both be wrong; he is het (1/4) or visual (1)."""
    rows = "D,f,Clown,,,", "S,m,Normal,,,"
    assert blamed(told(rows, young("Clown", 1, CLOWN))) == shares(hatchling=1, sire=(Fraction(1, 2) + 1) / 3)
    assert blamed(told(rows, young("Clown", 2, CLOWN))) == {"the record of S": 1}


def test_one_wrong_hatchling_does_not_explain_three() -> None:
    """Normals from two visuals: one may be wrong, three may not; a parent is wild (1 each) or het (1/2 each)."""
    one, three = (told(("D,f,Clown,,,", "S,m,Clown,,,"), young("Normal", n)) for n in (1, 3))
    assert blamed(one)["one hatchling written as Normal"] == Fraction(1) / (1 + 2 * (Fraction(1, 2) + 1) / 3)
    assert blamed(three).keys() == {"the record of D", "the record of S"}


def test_what_is_known_of_the_animals_counts() -> None:
    """A possible het dam: blaming the sire costs her 1/2; blaming the hatchling costs nothing but her chance to fit."""
    animals = told(("D,f,50% het Clown,,,", "S,m,Normal,,,"), young("Clown", 1, CLOWN))
    het_sire, visual_sire = Fraction(1, 2) * Fraction(1, 4), Fraction(1, 2) * Fraction(1, 2)
    assert blamed(animals) == shares(hatchling=1, sire=(het_sire + visual_sire) / 3)


def test_a_complex() -> None:
    """Candy Albino of a Candy and a recorded non-carrier: of six genotypes of the genes met he could have four.

    Wild, Candy or both copies Candy pass no Albino. With one Albino beside wild or Candy he passes it with 1/2, with
    two for certain. The hatchling could be any of three other looks.
    """
    animals = told(("D,f,Candy,,,", "S,m,Normal,,,"), young("Candy Albino", 1, CANDY_ALBINO))
    wrong, sire = Fraction(1, 3), (Fraction(1, 2) + Fraction(1, 2) + 1) / 6
    assert blamed(animals) == {
        "one hatchling written as Candy Albino": wrong / (wrong + sire),
        "the record of S": sire / (wrong + sire),
    }


def test_no_record_is_ever_wrong() -> None:
    animals = told(("D,f,Clown,,,", "S,m,Normal,,,"), young("Clown", 1, CLOWN))
    assert blamed(animals, Fraction(0)) == {}


def test_the_likeliest_comes_first_and_all_sum_to_one() -> None:
    animals = told(("D,f,Clown,,,", "S,m,Clown,,,"), young("Normal", 1), young("Clown", 2, CLOWN))
    (dispute,) = animals.knowledge.disputes
    chances = [chance for _, chance in suspects(animals.knowledge, dispute, RATE)]
    assert chances == sorted(chances, reverse=True)
    assert sum(chances) == 1


def test_a_clutch_that_none_of_its_sires_fits() -> None:
    rows = "D,f,Clown,,,", "S,m,Normal,,,", "T,m,Normal,,,"
    animals = told(rows, young("Clown", 1, CLOWN), sires=("S", "T"))
    assert blamed(animals) == {}
    assert animals.findings[-1].found.startswith("clutch c cannot be as it is written")
    assert animals.findings[-1].advice.startswith("none of its sires fits")


def test_nothing_is_overruled() -> None:
    """The animals are what they were without the clutch, and the file says what it said."""
    rows = "D,f,66% het Clown,,,", "S,m,Normal,,,", "K,f,Normal,D,S,"
    animals = told(rows, young("Clown", 1, CLOWN))
    before = animals.updated([])
    assert animals.knowledge.disputes
    assert {one.id: one.genotype for one in animals} == {one.id: one.genotype for one in before}
    assert animals.text == before.text
    assert [one.genes for one in animals] == ["66% het Clown", "Normal", "Normal"]


class TestWholeFamily:
    def test_a_grandparent(self) -> None:
        """Clown of a visual sire and D, normal of two normals: D herself, her dam or her sire, or the hatchling.

        A wrong record of D: het (1/2) or visual (1), each with 1/3. Of a parent of hers: het passes it with 1/2, visual
        for certain, and D, normal-looking, is het with that; then half of the eggs show it.
        """
        rows = "G,f,Normal,,,", "H,m,Normal,,,", "D,f,Normal,G,H,", "S,m,Clown,,,"
        dam, grand = (Fraction(1, 2) + 1) / 3, (Fraction(1, 2) + 1) / 3 / 2
        weights = {"the record of D": dam, "the record of G": grand, "the record of H": grand}
        weights["one hatchling written as Clown"] = Fraction(1)
        total = sum(weights.values())
        found = blamed(told(rows, young("Clown", 1, CLOWN)))
        assert found == {name: weight / total for name, weight in weights.items()}

    def test_a_great_grandparent_is_named_as_well(self) -> None:
        rows = "A,f,Normal,,,", "B,m,Normal,,,", "G,f,Normal,A,B,", "H,m,Normal,,,", "D,f,Normal,G,H,", "S,m,Clown,,,"
        found = blamed(told(rows, young("Clown", 1, CLOWN)))
        assert {f"the record of {key}" for key in "ABDGH"} == {name for name in found if "record of" in name}

    def test_an_earlier_daughter(self) -> None:
        """G passes Candy or Toffee, and her daughter A proves Candy. Neither sire could help: G passes no Albino."""
        rows = "G,f,50% het Candy 50% het Toffee,,,", "H,m,Albino,,,", "A,f,Candy Albino,G,H,", "S,m,Albino,,,"
        toffee = {"albino": (("Toffee", 1), ("Albino", 1))}
        animals = Collection.from_text("\n".join(["id,sex,genes,dam,sire,clutch", *rows]))
        clutch = Clutch("c", "G", ("S",), False, None, None, None, (young("Albino Toffee", 1, toffee),))
        names = blamed(animals.updated([clutch])).keys()
        assert names == {"one hatchling written as Albino Toffee", "the record of A", "the record of G"}

    def test_the_mate_of_an_earlier_litter(self) -> None:
        """A is Clown of D, who must carry it. D's clutch with S is Pastel from two that are not: no matter of A's."""
        rows = "D,f,66% het Clown,,,", "H,m,Clown,,,", "A,f,Clown,D,H,", "S,m,Clown,,,"
        found = blamed(told(rows, young("Normal", 1), young("Pastel", 1, {"pastel": (("Pastel", 1),), **CLOWN})))
        assert found.keys() == {"one hatchling written as Pastel", "the record of D", "the record of S"}

    def test_a_hatchling_of_another_clutch(self) -> None:
        """Two clutches of a dam with Candy or Toffee and never both: either hatchling may be wrong, or any record."""
        animals = Collection.from_text("id,sex,genes\nD,f,50% het Candy 50% het Toffee\nS,m,Albino")
        toffee = {"albino": (("Toffee", 1), ("Albino", 1))}
        one = Clutch("a", "D", ("S",), False, None, None, None, (young("Candy Albino", 1, CANDY_ALBINO),))
        two = Clutch("b", "D", ("S",), False, None, None, None, (young("Albino Toffee", 1, toffee),))
        found = blamed(animals.updated([one, two]))
        first, second = "one hatchling written as Candy Albino in clutch a", "one hatchling written as Albino Toffee"
        assert found[first] == found[second]
        assert "the record of D" in found

    def test_strangers_are_not_named(self) -> None:
        rows = "D,f,Normal,,,", "S,m,Clown,,,", "X,f,het Clown,,,", "Y,m,Clown,,,", "Z,f,Clown,X,Y,"
        assert blamed(told(rows, young("Clown", 1, CLOWN))).keys() == {
            "one hatchling written as Clown",
            "the record of D",
        }
