"""Parents of a clutch book: their sexes, and males of whom one or several sired a clutch."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.collection.test_told import CLOWN, HALF, PASTEL, chance, clutch, collection, genotypes, sires, young


class TestRoles:
    """Who laid is a female, and who sired a male; a record that says otherwise leaves the clutch out."""

    PAIR = ("D,?,50% het Clown,,,", "S,?,Clown,,,")

    def test_a_sex_that_is_not_written_is_known_by_the_role(self) -> None:
        told = collection(*self.PAIR, "N,?,Clown,,,").updated([clutch("c", "D", "S", young(4))])
        assert {one.id: (one.sex, one.genotype.sex) for one in told} == {
            "D": ("female", "female"),
            "S": ("male", "male"),
            "N": (None, None),
        }
        assert chance(told, "D") == Fraction(1, 17)
        assert told.findings == ()
        assert told.updated([])["D"].sex is None

    def test_all_that_may_be_the_sire_are_males(self) -> None:
        told = collection(*self.PAIR, "T,?,Normal,,,").updated([clutch("c", "D", ["S", "T"], young(1))])
        assert [told[key].sex for key in "ST"] == ["male", "male"]

    def test_what_a_sex_says_of_its_genes(self) -> None:
        """A Banana of unknown sex that laid carries it on an X: of her sons one in two shows it."""
        animals = collection("D,?,Banana,,,", "S,m,Normal,,,", "K,m,Normal,,,c")
        told = animals.updated([clutch("c", "D", "S", young(1, sex="male"))])
        group = told.knowledge.genome.groups[0]
        assert list(told["D"].genotype.part(group)) == [(("X", ""), ("X", "Banana"))]

    @pytest.mark.parametrize(
        ("dam", "sires", "key", "role"),
        [
            ("M", "S", "M", "dam"),
            ("D", "F", "F", "sire"),
            ("D", ["S", "F"], "F", "sire"),
            ("D", "D", "D", "dam and sire"),
        ],
    )
    def test_of_the_other_sex(self, dam: str, sires: str | list[str], key: str, role: str) -> None:
        animals = collection(*self.PAIR, "M,m,50% het Clown,,,", "F,f,Clown,,,", "K,f,Normal,,,c")
        told = animals.updated([clutch("c", dam, sires, young(3))])
        (finding,) = told.findings
        assert finding.id == key
        assert f"{key} cannot be the {role} of clutch c" in finding.found
        assert genotypes(told) == genotypes(animals)
        assert (told["K"].dam, told["K"].sire) == (None, None)

    def test_dam_of_one_and_sire_of_another(self) -> None:
        """The earlier of the two by name counts."""
        animals = collection(*self.PAIR, "F,f,Clown,,,")
        told = animals.updated([clutch("b", "F", "D", young(1)), clutch("a", "D", "S", young(1))])
        assert told["D"].sex == "female"
        assert [finding.found for finding in told.findings] == ["D cannot be the sire of clutch b, being female"]
        assert chance(told, "D") == Fraction(1, 3)


class TestManyUnsure:
    def test_one_that_does_not_fit_takes_no_other_with_it(self) -> None:
        animals = collection("D,f,50% het Clown,,,", "N,f,Normal,,,", "M1,m,Clown,,,", "M2,m,Normal,,,")
        bad = clutch("a", "N", ["M1", "M2"], young(1, CLOWN))
        good = [clutch(key, "D", ["M1", "M2"], young(1)) for key in "bc"]
        told = animals.updated([bad, *good])
        assert [(one.clutch.id, one.group) for one in told.knowledge.disputes] == [("a", "clown")]
        assert genotypes(told) == genotypes(animals.updated(good))
        unsettled = {"a": {"M1": HALF, "M2": HALF}}
        assert told.knowledge.paternity == {**animals.updated(good).knowledge.paternity, **unsettled}

    def test_two_recorded_sires_in_a_clutch_of_one(self) -> None:
        males = "M1,m,Normal,,,", "M2,m,Normal,,,"
        animals = collection("D,f,het Clown,,,", *males, "K,f,Normal,D,M1,c", "L,f,Normal,D,M2,c")
        told = animals.updated([clutch("c", "D", ["M1", "M2"], young(3))])
        assert [one.clutch.id for one in told.knowledge.disputes] == ["c"]
        assert chance(told, "K") == HALF

    @pytest.mark.parametrize("several", [True, False])
    def test_a_kept_hatchling_that_may_be_its_own_grandsire(self, several: bool) -> None:
        """K of clutch a may be the sire of L, of clutch b, and L that of K: the later clutch gives way."""
        animals = collection("D,f,het Clown,,,", "M,m,Clown,,,", "K,m,Normal,,,a", "L,m,Normal,,,b")
        first = clutch("a", "D", ["M", "L"], young(1), several=several)
        second = clutch("b", "D", ["M", "K"], young(1), several=several)
        told = animals.updated([second, first])
        assert [finding.id for finding in told.findings] == ["L"]
        assert (told["K"].dam, told["L"].dam) == ("D", None)

    def test_twelve_clutches_of_the_same_two_males(self) -> None:
        """Each dam is het, each clutch one normal: by the Clown with 1/3, whatever the others are."""
        rows = [f"D{i},f,het Clown,,," for i in range(12)]
        animals = collection(*rows, "M1,m,Clown,,,", "M2,m,Normal,,,")
        told = animals.updated([clutch(f"c{i}", f"D{i}", ["M1", "M2"], young(1)) for i in range(12)])
        assert told.knowledge.told.crowded == ()
        assert set(told.knowledge.paternity) == {f"c{i}" for i in range(12)}
        assert all(shares["M1"] == Fraction(1, 3) for shares in told.knowledge.paternity.values())

    def test_eight_hatchlings_of_four_looks(self) -> None:
        """Each hatchling is of either male, whatever its siblings are."""
        animals = collection("D,f,50% het Clown,,,", "M1,m,Clown Pastel,,,", "M2,m,Enchi,,,")
        enchi = {"enchi": (("Enchi", 1),)}
        rows = [young(3), young(2, PASTEL), young(2, enchi), young(1, CLOWN | PASTEL)]
        told = animals.updated([clutch("c", "D", ["M1", "M2"], *rows, several=True)])
        # The dam is het, since one is Clown. Pastels are of M1, Enchis of M2; a normal is with 1/4 of M1, 1/2 of M2.
        assert chance(told, "D") == 1
        assert sires(told, "c")["M1"] == (3 * Fraction(1, 3) + 3) / 8
