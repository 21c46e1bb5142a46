"""What a test of a shed tells: near-certain evidence, that relatives and hatchlings may still outweigh."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from explorer.catalogue import load_catalogue
from explorer.collection import Knowledge
from explorer.collection.clutch import Clutch, Hatchlings
from explorer.collection.lineage import Kin
from explorer.collection.shed_tests import ShedTest, agreement
from explorer.genetics import Diplotype, genome_of
from explorer.looks import carried
from explorer.notation import read_genes

CATALOGUE = load_catalogue()
GENOME = genome_of(CATALOGUE)
HALF, RARE = Fraction(1, 2), Fraction(1, 100)
DETECTS_NINE_IN_TEN = Fraction(1, 6)
"""With this error a carrier is called clear a tenth as often as an animal that is clear: 1/12 against 5/6."""


def kin(sex: str, genes: str, dam: str | None = None, sire: str | None = None, clutch: str = "") -> Kin:
    return Kin(sex, read_genes(genes, sex=sex, catalogue=CATALOGUE), dam, sire, clutch)


def result(gene: str, copies: int, error: Fraction = RARE) -> ShedTest:
    return ShedTest(date(2024, 6, 1), gene, copies, error)


def chance(knowledge: Knowledge, key: str, gene: str = "Clown", copies: int = 1) -> Fraction:
    """Chance that the animal has just so many copies."""
    group, _ = GENOME.home[gene]
    part = knowledge.genotype(key).part(group)
    return sum((p for d, p in part.items() if carried(group, d).get(gene, 0) == copies), Fraction(0))


def diplotype(one: str, two: str) -> Diplotype:
    first, second = sorted(((one,), (two,)))
    return first, second


FAMILY = {
    "D": kin("female", "50% het Clown"),
    "S": kin("male", "Normal"),
    "K": kin("male", "Normal", "D", "S"),
    "L": kin("female", "Normal", "D", "S"),
}
PAIR = {"D": kin("female", "50% het Clown"), "S": kin("male", "Clown")}


class TestAgreement:
    CLOWN = GENOME.by_name["clown"]

    def test_none_of_this_place(self) -> None:
        assert agreement(GENOME, self.CLOWN, [result("Pastel", 1)]) is None
        assert agreement(GENOME, self.CLOWN, []) is None

    @pytest.mark.parametrize(
        ("one", "two", "copies"), [("", "", 0), ("", "Clown", 1), ("Clown", "Clown", 2), ("Clown", "Cryptic", 1)]
    )
    def test_a_wrong_result_is_one_of_the_two_others(self, one: str, two: str, copies: int) -> None:
        """Copies of another gene of the complex are not counted."""
        for said in (0, 1, 2):
            fits = agreement(GENOME, self.CLOWN, [result("Clown", said)])
            assert fits is not None
            assert fits(diplotype(one, two)) == (1 - RARE if said == copies else RARE / 2)

    def test_results_multiply(self) -> None:
        fits = agreement(GENOME, self.CLOWN, [result("Clown", 1), result("Cryptic", 1, HALF), result("Pastel", 2)])
        assert fits is not None
        assert fits(diplotype("Clown", "Cryptic")) == (1 - RARE) * HALF
        assert fits(diplotype("", "")) == RARE / 2 * HALF / 2


class TestPosterior:
    @pytest.mark.parametrize(("copies", "found"), [(1, Fraction(198, 199)), (0, Fraction(1, 199))])
    def test_a_possible_het(self, copies: int, found: Fraction) -> None:
        told = Knowledge(CATALOGUE, {"D": kin("female", "50% het Clown")}, {"D": [result("Clown", copies)]})
        assert chance(told, "D") == found

    def test_the_same_result_twice(self) -> None:
        told = Knowledge(CATALOGUE, {"D": kin("female", "50% het Clown")}, {"D": [result("Clown", 1)] * 2})
        assert chance(told, "D") == Fraction(198**2, 198**2 + 1)

    @pytest.mark.parametrize(
        ("label", "found"), [("66% het Clown", Fraction(1, 6)), ("4% het Clown", Fraction(1, 241))]
    )
    def test_a_test_that_finds_nine_carriers_in_ten(self, label: str, found: Fraction) -> None:
        """A normal sibling (2/3) and an animal of a population with one carrier in 25, both called clear."""
        told = Knowledge(CATALOGUE, {"D": kin("female", label)}, {"D": [result("Clown", 0, DETECTS_NINE_IN_TEN)]})
        assert chance(told, "D") == found

    def test_two_copies_that_look_like_one(self) -> None:
        """Offspring of two Pinstripes: one copy to two as 2 to 1, told apart by a test alone."""
        family = {
            "D": kin("female", "Pinstripe"),
            "S": kin("male", "Pinstripe"),
            "K": kin("female", "Pinstripe", "D", "S"),
        }
        assert chance(Knowledge(CATALOGUE, family), "K", "Pinstripe", 2) == Fraction(1, 3)
        told = Knowledge(CATALOGUE, family, {"K": [result("Pinstripe", 2)]})
        assert chance(told, "K", "Pinstripe", 2) == (1 - RARE) / (1 - RARE + 2 * RARE / 2)

    def test_which_chromosome_a_test_does_not_tell(self) -> None:
        told = Knowledge(CATALOGUE, {"S": kin("male", "Banana")}, {"S": [result("Banana", 1)]})
        assert sorted(told.genotype("S").part(GENOME.groups[0]).values()) == [HALF, HALF]


class TestRelatives:
    def test_parents_and_siblings(self) -> None:
        """K het: 1/4. Tested so: 198 to 3 times 1 that he is, and then D is het for certain and L with 1/2."""
        told = Knowledge(CATALOGUE, FAMILY, {"K": [result("Clown", 1)]})
        het, clear = Fraction(1, 4) * (1 - RARE), Fraction(3, 4) * RARE / 2
        assert chance(told, "K") == het / (het + clear)
        assert chance(told, "D") == (het + clear / 3) / (het + clear)
        assert chance(told, "L") == chance(told, "D") / 2

    def test_without_a_test_nothing_changes(self) -> None:
        plain = Knowledge(CATALOGUE, FAMILY)
        told = Knowledge(CATALOGUE, FAMILY, {"K": [result("Pastel", 0)]})
        assert [told.genotype(key) for key in FAMILY] == [plain.genotype(key) for key in FAMILY]


class TestWithClutches:
    def told(self, copies: int, *rows: Hatchlings) -> Knowledge:
        book = [Clutch("c", "D", ("S",), False, None, None, None, rows)]
        return Knowledge(CATALOGUE, PAIR, {"D": [result("Clown", copies)]}).updated(book)

    def test_both_count(self) -> None:
        """199 to 1 against, and 8 to 1 against."""
        assert chance(self.told(0, Hatchlings("Normal", 3, None, {})), "D") == Fraction(1, 1 + 198 * 8)

    def test_a_visual_hatchling_outweighs_a_test(self) -> None:
        told = self.told(0, Hatchlings("Clown", 1, None, {"clown": (("Clown", 2),)}))
        assert chance(told, "D") == 1
        assert told.disputes == ()

    def test_a_test_of_a_kept_hatchling_tells_of_its_sire(self) -> None:
        """K is het by M1 for certain and by M2 with 1/2, and by either Normal: 1/2 to 1 before the test."""
        family = {
            "D": kin("female", "het Clown"),
            "M1": kin("male", "Clown"),
            "M2": kin("male", "Normal"),
            "K": kin("female", "Normal", "D", None, "c"),
        }
        book = [Clutch("c", "D", ("M1", "M2"), False, None, None, None, (Hatchlings("Normal", 1, None, {}),))]
        for copies in (0, 1):
            told = Knowledge(CATALOGUE, family, {"K": [result("Clown", copies)]}).updated(book)
            het, clear = (1 - RARE, RARE / 2) if copies else (RARE / 2, 1 - RARE)
            first, second = HALF * het, HALF * het + HALF * clear
            assert told.paternity["c"]["M1"] == first / (first + second)

    def test_a_test_at_a_gene_that_one_sire_has(self) -> None:
        """K of M2 has no Pinstripe for certain; of M1 it would show with 1/2, and then match no other row."""
        family = {
            "D": kin("female", "Normal"),
            "M1": kin("male", "Pinstripe"),
            "M2": kin("male", "Normal"),
            "K": kin("female", "Normal", None, None, "c"),
        }
        book = [Clutch("c", "D", ("M1", "M2"), False, None, None, None, (Hatchlings("Normal", 1, None, {}),))]
        told = Knowledge(CATALOGUE, family, {"K": [result("Pinstripe", 0)]}).updated(book)
        assert told.paternity["c"] == {"M1": Fraction(1, 3), "M2": Fraction(2, 3)}
