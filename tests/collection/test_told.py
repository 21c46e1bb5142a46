"""What a clutch book tells of the animals: carriers, sires, kept hatchlings, and clutches that do not fit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import permutations
from math import comb
from pathlib import Path

import pytest

from explorer.catalogue import load_species
from explorer.collection import Collection, Knowledge
from explorer.collection.clutch import Clutch, Hatchlings
from explorer.collection.lineage import Kin
from explorer.collection.ways import MOST_WAYS
from explorer.genetics import Genotype
from explorer.looks import Look, carried
from explorer.notation import read_genes

HALF = Fraction(1, 2)
CLOWN = {"clown": (("Clown", 2),)}
BANANA = {"sex": (("Banana", 1),)}
PASTEL = {"pastel": (("Pastel", 1),)}
SECOND = Path(__file__).parents[1] / "catalogue" / "second_species"


def collection(*rows: str) -> Collection:
    return Collection.from_text("\n".join(["id,sex,genes,dam,sire,clutch", *rows]))


def young(
    count: int,
    seen: Mapping[str, Look] | None = None,
    sex: str | None = None,
    maybe: Mapping[str, Fraction] | None = None,
    covered: bool = False,
) -> Hatchlings:
    return Hatchlings("as written", count, sex, seen or {}, maybe or {}, covered)


def clutch(key: str, dam: str, sires: str | Sequence[str], *rows: Hatchlings, several: bool = False) -> Clutch:
    males = (sires,) if isinstance(sires, str) else tuple(sires)
    return Clutch(key, dam, males, several, None, None, None, rows)


def chance(animals: Collection, key: str, gene: str = "Clown") -> Fraction:
    """Chance that the animal carries the gene."""
    return of_genotype(animals[key].genotype, gene)


def of_genotype(genotype: Genotype, gene: str) -> Fraction:
    group, _ = genotype.genome.home[gene]
    return sum((p for d, p in genotype.part(group).items() if gene in carried(group, d)), Fraction(0))


def genotypes(animals: Collection) -> dict[str, Genotype]:
    return {animal.id: animal.genotype for animal in animals}


def sires(animals: Collection, key: str) -> dict[str, Fraction]:
    return animals.knowledge.paternity[key]


class TestCarrierRisk:
    """The worked values of carrier risk, by way of the clutch book: prior times likelihood."""

    @pytest.mark.parametrize(("label", "prior"), [("66% het Clown", Fraction(2, 3)), ("50% het Clown", HALF)])
    @pytest.mark.parametrize(("mate", "normal"), [("Clown", HALF), ("het Clown", Fraction(3, 4))])
    @pytest.mark.parametrize("n", range(7))
    def test_after_normal_hatchlings(self, label: str, prior: Fraction, mate: str, normal: Fraction, n: int) -> None:
        animals = collection(f"D,f,{label},,,", f"S,m,{mate},,,").updated([clutch("c", "D", "S", young(n))])
        assert chance(animals, "D") == prior * normal**n / (prior * normal**n + 1 - prior)
        if mate == "Clown":
            top = 2 if label.startswith("66") else 1
            assert chance(animals, "D") == Fraction(top, top + 2**n)

    @pytest.mark.parametrize(
        ("label", "printed"),
        [
            ("66% het Clown", (0.6667, 0.6, 0.5294, 0.4576, 0.3876, 0.3219, 0.2625)),
            ("50% het Clown", (0.5, 0.4286, 0.36, 0.2967, 0.2404, 0.1918, 0.1511)),
        ],
    )
    def test_with_a_het_mate_as_printed(self, label: str, printed: Sequence[float]) -> None:
        animals = collection(f"D,f,{label},,,", "S,m,het Clown,,,")
        found = [chance(animals.updated([clutch("c", "D", "S", young(n))]), "D") for n in range(7)]
        assert [round(float(p), 4) for p in found] == list(printed)

    def test_one_visual_proves_both_parents(self) -> None:
        animals = collection("D,f,66% het Clown,,,", "S,m,50% het Clown,,,")
        told = animals.updated([clutch("c", "D", "S", young(7), young(1, CLOWN))])
        assert chance(told, "D") == chance(told, "S") == 1

    @pytest.mark.parametrize("n", range(4))
    def test_eggs_that_do_not_hatch_say_nothing(self, n: int) -> None:
        """Two copies of Spider are lethal: of what hatches from two Spiders a third is normal, of one a half."""
        animals = collection("D,f,50% Spider,,,", "S,m,Spider,,,")
        told = animals.updated([clutch("c", "D", "S", young(n))])
        two, one = Fraction(1, 3) ** n, HALF**n
        assert chance(told, "D", "Spider") == two / (two + one)
        kept = collection("D,f,50% Spider,,,", "S,m,Spider,,,", *(f"K{i},f,Normal,D,S," for i in range(n)))
        assert chance(kept, "D", "Spider") == two / (two + one)

    def test_two_possible_hets_are_known_jointly(self) -> None:
        animals = collection("D,f,50% het Clown,,,", "S,m,50% het Clown,,,")
        told = animals.updated([clutch("c", "D", "S", young(6))])
        pair = told.knowledge.pair("D", "S")["clown"]
        both = sum(p for (dam, sire), p in pair.items() if ("Clown",) in dam and ("Clown",) in sire)
        assert both == Fraction(3, 4) ** 6 / (3 + Fraction(3, 4) ** 6)

    def test_the_normal_sibling_of_a_visual(self) -> None:
        animals = collection("D,f,50% het Clown,,,", "S,m,50% het Clown,,,", "N,f,Normal,,,c")
        told = animals.updated([clutch("c", "D", "S", young(1), young(1, CLOWN))])
        assert chance(told, "N") == Fraction(2, 3)

    def test_hatchlings_tell_of_grandparents_and_of_a_mate_s_other_young(self) -> None:
        """D passes Clown on to B or not; B's visual hatchling proves both, and half proves D's other daughter."""
        animals = collection(
            "D,f,50% het Clown,,,", "S,m,Normal,,,", "B,f,Normal,D,S,", "E,f,Normal,D,S,", "M,m,Clown,,,"
        )
        told = animals.updated([clutch("c", "B", "M", young(1, CLOWN))])
        assert [chance(told, key) for key in "DBE"] == [1, 1, HALF]

    @pytest.mark.parametrize("n", range(6))
    def test_on_the_z_chromosome_a_son_of_a_carrier(self, n: int) -> None:
        """1 / (1 + 2^n) after n daughters that do not show it: the X-linked carrier, with the sexes changed over."""
        species = load_species(SECOND)

        def kin(sex: str, genes: str, dam: str | None = None, sire: str | None = None) -> Kin:
            return Kin(sex, read_genes(genes, sex=sex, catalogue=species), dam, sire)

        family = {
            "D": kin("female", "Normal"),
            "S": kin("male", "het Dusk"),
            "son": kin("male", "Normal", "D", "S"),
            "grandson": kin("male", "Normal", "mate", "son"),
            "mate": kin("female", "Normal"),
        }
        told = Knowledge(species, family).updated([clutch("c", "mate", "son", young(n, sex="female"))])
        assert of_genotype(told.genotype("son"), "Dusk") == Fraction(1, 1 + 2**n)
        assert of_genotype(told.genotype("grandson"), "Dusk") == Fraction(1, 1 + 2**n) / 2


class TestUnsureLooks:
    PAIR = ("D,f,50% het Clown,,,", "S,m,Clown,,,")

    @pytest.mark.parametrize(("times", "found"), [(3, Fraction(2, 3)), (1, HALF), (Fraction(1, 5), Fraction(3, 8))])
    def test_the_strength_of_maybe(self, times: Fraction, found: Fraction) -> None:
        """A het dam: half of the eggs show Clown, so that (times + 1) / 2 is written for 1 of a wild dam."""
        row = young(1, maybe={"Clown": Fraction(times)})
        assert chance(collection(*self.PAIR).updated([clutch("c", "D", "S", row)]), "D") == found

    def test_a_covering_look_says_nothing_of_the_rest(self) -> None:
        told = collection(*self.PAIR).updated([clutch("c", "D", "S", young(5, covered=True))])
        assert chance(told, "D") == HALF

    def test_a_covering_look_says_what_it_lists(self) -> None:
        told = collection(*self.PAIR).updated([clutch("c", "D", "S", young(1, CLOWN, covered=True))])
        assert chance(told, "D") == 1


class TestWhichSire:
    MALES = ("M1,m,Clown,,,", "M2,m,Normal,,,")
    HET = ("D,f,het Clown,,,", *MALES)

    def test_parents_that_are_known_for_certain(self) -> None:
        """Five normals: 1/32 from the visual, 1 from the other."""
        told = collection(*self.HET).updated([clutch("c", "D", ["M1", "M2"], young(5))])
        assert sires(told, "c") == {"M1": Fraction(1, 33), "M2": Fraction(32, 33)}

    def test_a_visual_hatchling_settles_it(self) -> None:
        rows = young(3), young(1, CLOWN)
        told = collection("D,f,50% het Clown,,,", *self.MALES).updated([clutch("c", "D", ["M1", "M2"], *rows)])
        assert sires(told, "c") == {"M1": 1, "M2": 0}
        assert chance(told, "D") == 1

    def test_several_sires(self) -> None:
        """Each normal is of M1 with 1/3, the visual for certain: two of four."""
        rows = young(3), young(1, CLOWN)
        told = collection(*self.HET).updated([clutch("c", "D", ["M1", "M2"], *rows, several=True)])
        assert sires(told, "c") == {"M1": HALF, "M2": HALF}

    def test_several_sires_and_an_uncertain_dam(self) -> None:
        """Two normals. A het dam: 3/4 each; a wild one: 1."""
        animals = collection("D,f,50% het Clown,,,", *self.MALES)
        told = animals.updated([clutch("c", "D", ["M1", "M2"], young(2), several=True)])
        assert chance(told, "D") == Fraction(9, 16) / (1 + Fraction(9, 16))
        assert sires(told, "c")["M1"] == (Fraction(9, 16) * Fraction(1, 3) + HALF) / (1 + Fraction(9, 16))

    def test_genes_tell_of_one_another_through_the_sire(self) -> None:
        """Three normals: 9/16 if of the Clown, 1/8 if of the Pastel, so 9/11; and the dam is het with 2/11."""
        animals = collection("D,f,50% het Clown,,,", "M1,m,Clown,,,", "M2,m,Pastel,,,")
        told = animals.updated([clutch("c", "D", ["M1", "M2"], young(3))])
        assert sires(told, "c") == {"M1": Fraction(9, 11), "M2": Fraction(2, 11)}
        assert chance(told, "D") == Fraction(2, 11)
        pastels = animals.updated([clutch("c", "D", ["M1", "M2"], young(2), young(1, PASTEL))])
        assert sires(pastels, "c") == {"M1": 0, "M2": 1}
        assert chance(pastels, "D") == HALF

    def test_sexes_of_hatchlings(self) -> None:
        """A son of a sire with Banana on X shows nothing with 93/100; the sons of the other never do."""
        animals = collection("D,f,Normal,,,", "M1,m,female maker Banana,,,", "M2,m,Normal,,,")
        told = animals.updated([clutch("c", "D", ["M1", "M2"], young(1, sex="male"))])
        assert sires(told, "c") == {"M1": Fraction(93, 193), "M2": Fraction(100, 193)}

    @pytest.mark.parametrize("several", [True, False])
    def test_nothing_that_tells_them_apart(self, several: bool) -> None:
        animals = collection(*self.HET, "M3,m,Normal,,,")
        for rows in ((), (young(0),), (young(3, covered=True),)):
            told = animals.updated([clutch("c", "D", ["M1", "M2", "M3"], *rows, several=several)])
            assert sires(told, "c") == dict.fromkeys(("M1", "M2", "M3"), Fraction(1, 3))

    def test_two_clutches_of_the_same_pair(self) -> None:
        """M2 is het with 1/2: each clutch counts what the other tells of him."""
        animals = collection("D,f,Clown,,,", "M1,m,Normal,,,", "M2,m,50% het Clown,,,")
        first, second = clutch("a", "D", ["M1", "M2"], young(1)), clutch("b", "D", "M2", young(1, CLOWN))
        told = animals.updated([first, second])
        assert sires(told, "a") == {"M1": Fraction(2, 3), "M2": Fraction(1, 3)}

    def test_of_one_sire_alone_nothing_is_asked(self) -> None:
        assert collection(*self.HET).updated([clutch("c", "D", "M1", young(1))]).knowledge.paternity == {}


class TestKept:
    PAIR = ("D,f,66% het Clown,,,", "S,m,Clown,,,")

    def test_it_is_counted_once(self) -> None:
        three = clutch("c", "D", "S", young(3))
        told = collection(*self.PAIR, "K,f,Normal,D,S,c").updated([three])
        assert chance(told, "D") == Fraction(1, 5)
        assert chance(told, "K") == 1
        other = collection(*self.PAIR, "K,f,Normal,D,S,").updated([three])
        assert chance(other, "D") == Fraction(1, 9)

    @pytest.mark.parametrize("key", ["A", "K", "Z"])
    @pytest.mark.parametrize("parents", [",", "D,", ",S", "D,S"])
    def test_parents_are_filled_in(self, key: str, parents: str) -> None:
        """Whatever its id is: its row may stand before theirs."""
        animals = collection("D,f,het Clown,,,", "S,m,het Clown,,,", f"{key},f,Normal,{parents},c")
        told = animals.updated([clutch("c", "D", "S", young(1))])
        assert (told[key].dam, told[key].sire) == ("D", "S")
        assert chance(told, key) == Fraction(2, 3)
        assert told.inbreeding(key, "S") == Fraction(1, 4)

    def test_a_row_of_its_own_sex_comes_first(self) -> None:
        """The male row is used up by K; the other, of unknown sex, has one left."""
        animals = collection("D,f,Normal,,,", "S,m,female maker Banana,,,", "K,m,Normal,D,S,c")
        rows = young(1), young(1, sex="male")
        found = [animals.updated([clutch("c", "D", "S", *way)]).knowledge.told.seen["c"] for way in permutations(rows)]
        assert [{row.sex: left for row, left in one} for one in found] == [{None: 1, "male": 0}] * 2

    def test_it_may_be_of_either_sex(self) -> None:
        """One Banana daughter and one Banana son, of whom K is one: they say nothing of where the sire has it."""
        animals = collection("D,f,Normal,,,", "S,m,Banana,,,", "K,?,Banana,D,S,c")
        rows = [young(1, BANANA, "female"), young(1, BANANA, "male")]
        for way in permutations(rows):
            told = animals.updated([clutch("c", "D", "S", *way)])
            assert sorted(told["S"].genotype.part(told.knowledge.genome.groups[0]).values()) == [HALF, HALF]
            assert told["K"].sex is None

    def test_its_row_tells_its_sex(self) -> None:
        animals = collection("D,f,Normal,,,", "S,m,Banana,,,", "K,?,Banana,D,S,c")
        told = animals.updated([clutch("c", "D", "S", young(2), young(1, BANANA, "female"))])
        assert told["K"].sex == told["K"].genotype.sex == "female"

    @pytest.mark.parametrize("several", [None, False, True])
    def test_it_is_either_of_two_hatchlings(self, several: bool | None) -> None:
        """Both het: 3/4 that K is normal, and then 3/4 of the other if that is written normal, 3/2 if "maybe Clown"."""
        animals = collection("D,f,50% het Clown,,,", "S,m,50% het Clown,,,", "T,m,50% het Clown,,,", "K,f,Normal,D,,c")
        rows, both = [young(1, maybe={"Clown": Fraction(3)}), young(1)], Fraction(3, 4)
        either = (both * both + both * (both + Fraction(3, 4))) / 2
        for way in permutations(rows):
            if several is None:
                told = animals.updated([clutch("c", "D", "S", *way)])
                assert chance(told, "D") == (1 + either) / (3 + either)
            else:
                told = animals.updated([clutch("c", "D", ["S", "T"], *way, several=several)])
                assert sires(told, "c") == {"S": HALF, "T": HALF}
            assert told.knowledge.told.strangers == ()

    def test_a_place_is_found_for_all_if_there_is_one(self) -> None:
        """A may be either; B is the daughter."""
        animals = collection("D,f,Normal,,,", "S,m,Pastel,,,", "A,?,Pastel,D,S,c", "B,f,Pastel,D,S,c")
        for rows in permutations([young(1, PASTEL, "female"), young(1, PASTEL, "male")]):
            told = animals.updated([clutch("c", "D", "S", *rows)])
            assert told.findings == ()
            assert (told["A"].sex, told["B"].sex) == ("male", "female")

    def test_it_may_be_any_of_many(self) -> None:
        """Twelve kept of two rows each: too many ways to tell them apart, so that the clutch is left out."""
        kept = [f"K{i:02},f,Normal,D,S,c" for i in range(13)]
        animals = collection("D,f,50% het Clown,,,", "S,m,Clown,,,", *kept)
        told = animals.updated([clutch("c", "D", "S", young(20), young(20, sex="female"))])
        assert told.knowledge.told.crowded == ("c",)
        assert "too many ways" in told.findings[-1].found

    def test_a_recorded_sire_settles_a_clutch_of_one(self) -> None:
        animals = collection("D,f,het Clown,,,", "M1,m,Clown,,,", "M2,m,Normal,,,", "K,f,Normal,D,M1,c")
        told = animals.updated([clutch("c", "D", ["M1", "M2"], young(4))])
        assert sires(told, "c") == {"M1": 1, "M2": 0}
        several = animals.updated([clutch("c", "D", ["M1", "M2"], young(4), several=True)])
        assert sires(several, "c") == {"M1": Fraction(1, 3), "M2": Fraction(2, 3)}

    def test_a_sire_that_is_not_recorded(self) -> None:
        """One normal of a het dam: of the visual with 1/3, and then het for certain; else half."""
        animals = collection("D,f,het Clown,,,", "M1,m,Clown,,,", "M2,m,Normal,,,", "A,f,Normal,,,c")
        told = animals.updated([clutch("c", "D", ["M1", "M2"], young(1))])
        assert sires(told, "c") == {"M1": Fraction(1, 3), "M2": Fraction(2, 3)}
        assert chance(told, "A") == Fraction(1, 3) + Fraction(2, 3) * HALF
        assert (told["A"].dam, told["A"].sire) == ("D", None)

    def test_hidden_genes_come_from_the_possible_sires_alone(self) -> None:
        animals = collection("D,f,Normal,,,", "M1,m,Normal,,,", "M2,m,Normal,,,", "K,f,66% het Clown,,,c")
        told = animals.updated([clutch("c", "D", ["M1", "M2"], young(1))])
        assert chance(told, "K") == 0

    def test_its_young_are_explained_by_a_possible_sire(self) -> None:
        """A visual hatchling of K, itself in the file, settles K's sire. K alone would have nothing to pass on."""
        animals = collection(
            *(
                "D,f,Normal,,,",
                "M1,m,het Clown,,,",
                "M2,m,Normal,,,",
                "K,f,Normal,,,c",
                "S,m,Clown,,,",
                "V,f,Clown,K,S,",
            )
        )
        told = animals.updated([clutch("c", "D", ["M1", "M2"], young(1))])
        assert sires(told, "c") == {"M1": 1, "M2": 0}
        assert chance(told, "K") == 1
        assert chance(told, "V") == 1
        assert list(told.knowledge.clashes()) == []

    def test_one_that_matches_no_row(self) -> None:
        """It is no hatchling of any row, so all of them count, and it counts as their sibling."""
        animals = collection(*self.PAIR, "K,f,Clown,D,S,c")
        told = animals.updated([clutch("c", "D", "S", young(1))])
        assert told.knowledge.told.strangers == ("K",)
        assert [finding.id for finding in told.findings] == ["K"]
        assert "matches no row of clutch c" in told.findings[0].found
        assert chance(told, "D") == 1

    def test_more_kept_than_hatched(self) -> None:
        animals = collection(*self.PAIR, "K,f,Normal,D,S,c", "L,f,Normal,D,S,c")
        told = animals.updated([clutch("c", "D", "S", young(1))])
        assert told.knowledge.told.strangers == ("L",)

    def test_of_another_sex(self) -> None:
        animals = collection(*self.PAIR, "K,m,Normal,D,S,c")
        told = animals.updated([clutch("c", "D", "S", young(2, sex="female"))])
        assert told.knowledge.told.strangers == ("K",)

    @pytest.mark.parametrize("row", ["K,f,Normal,E,S,c", "K,f,Normal,D,T,c"])
    def test_of_other_parents_than_the_clutch(self, row: str) -> None:
        animals = collection(*self.PAIR, "E,f,Normal,,,", "T,m,Clown,,,", row)
        told = animals.updated([clutch("c", "D", "S", young(3))])
        assert any(finding.id == "K" for finding in told.findings)

    @pytest.mark.parametrize(
        "rows", [("D,f,66% het Clown,,,c", "B,f,Normal,,,"), ("D,f,66% het Clown,B,S,", "B,f,Normal,,,c")]
    )
    def test_its_own_ancestor(self, rows: Sequence[str]) -> None:
        """The dam, or her dam, is written down as hatched from the clutch: a finding, not a failure."""
        told = collection(*rows, "S,m,Clown,,,").updated([clutch("c", "D", "S", young(2))])
        assert told.findings


class TestLeftOut:
    def test_a_clutch_that_cannot_be(self) -> None:
        """It is left out at that gene alone."""
        animals = collection("D,f,Normal 50% het Piebald,,,", "M,m,Piebald,,,")
        told = animals.updated([clutch("c", "D", "M", young(2), young(1, CLOWN))])
        assert [(one.clutch.id, one.group) for one in told.knowledge.disputes] == [("c", "clown")]
        assert chance(told, "D", "Clown") == 0
        assert chance(told, "D", "Piebald") == Fraction(1, 9)
        assert "clutch c at clown" in told.findings[-1].found

    def test_the_others_still_count(self) -> None:
        animals = collection("D,f,50% het Clown,,,", "M,m,Normal,,,", "S,m,Clown,,,")
        good, bad = clutch("good", "D", "S", young(1)), clutch("bad", "D", "M", young(1, CLOWN))
        told = animals.updated([bad, good])
        assert [one.clutch.id for one in told.knowledge.disputes] == ["bad"]
        assert chance(told, "D") == Fraction(1, 3)

    def test_none_of_the_sires_fits(self) -> None:
        animals = collection("D,f,het Clown,,,", "M1,m,Normal,,,", "M2,m,Pastel,,,")
        told = animals.updated([clutch("c", "D", ["M1", "M2"], young(1, CLOWN))])
        assert [(one.clutch.id, one.group) for one in told.knowledge.disputes] == [("c", "clown")]
        assert told.knowledge.paternity == {"c": {"M1": Fraction(2, 3), "M2": Fraction(1, 3)}}, "no Pastel hatched"
        assert "one hatchling written as as written in clutch c" in told.findings[-1].advice

    def test_two_that_contradict_one_another(self) -> None:
        """A dam with Candy or Toffee and never both: whichever order they come in, the same one is left out."""
        animals = collection("D,f,50% het Candy 50% het Toffee,,,", "S,m,Albino,,,")
        one = clutch("one", "D", "S", young(1, {"albino": (("Candy", 1), ("Albino", 1))}))
        two = clutch("two", "D", "S", young(1, {"albino": (("Toffee", 1), ("Albino", 1))}))
        disputes = [
            [dispute.clutch.id for dispute in animals.updated(way).knowledge.disputes]
            for way in ([one, two], [two, one])
        ]
        assert len(disputes[0]) == 1
        assert disputes[0] == disputes[1]

    def test_too_many_ways(self) -> None:
        males = [f"M{i}" for i in range(4)]
        animals = collection("D,f,50% het Clown,,,", "S,m,Clown,,,", *(f"{key},m,Normal,,," for key in males))
        full = clutch("full", "D", males, young(30), young(10, covered=True), several=True)
        assert comb(33, 3) > MOST_WAYS
        told = animals.updated([full, clutch("c", "D", "S", young(1))])
        assert told.knowledge.told.crowded == ("full",)
        assert told.knowledge.paternity == {}
        assert "too many ways" in told.findings[-1].found
        assert chance(told, "D") == Fraction(1, 3)

    def test_animals_that_are_not_here(self) -> None:
        animals = collection("D,f,50% het Clown,,,", "S,m,Clown,,,")
        unknown = [clutch("x", "D", ["S", "gone"], young(1)), clutch("y", "gone", "S", young(1))]
        told = animals.updated([*unknown, clutch("c", "D", "S", young(1))])
        assert [finding.found for finding in told.findings] == [
            f"clutch {key} names an animal that is not here" for key in "xy"
        ]
        assert chance(told, "D") == Fraction(1, 3)


class TestUpdated:
    ROWS = (
        *("D,f,66% het Clown Pastel,,,", "E,f,50% het Clown 50% het Piebald,,,", "S,m,Clown het Piebald,,,"),
        *("T,m,50% het Clown Enchi,,,", "K,f,Pastel,,,two", "B,m,Normal,E,T,", "A,m,Enchi,,,three"),
    )
    BOOK = (
        clutch("one", "D", "S", young(2), young(3, PASTEL)),
        clutch("two", "D", ["S", "T"], young(1, PASTEL), young(1, CLOWN)),
        clutch("three", "E", ["S", "T"], young(1), young(2, {"enchi": (("Enchi", 1),)}), several=True),
        clutch("four", "E", "B", young(2), young(1, maybe={"Piebald": Fraction(2)})),
    )

    def test_the_order_of_rows_and_clutches_does_not_matter(self) -> None:
        first = collection(*self.ROWS).updated(self.BOOK)
        assert first.findings == ()
        for rows in (self.ROWS, self.ROWS[::-1]):
            for book in list(permutations(self.BOOK))[::5]:
                turned = [
                    clutch(one.id, one.dam, one.sires[::-1], *one.hatchlings[::-1], several=one.several) for one in book
                ]
                again = collection(*rows).updated(turned)
                assert genotypes(again) == genotypes(first)
                assert again.knowledge.paternity == first.knowledge.paternity
                assert again.findings == ()

    def test_rows_may_be_split(self) -> None:
        first = collection(*self.ROWS).updated(self.BOOK)
        split = [
            clutch(
                one.id,
                one.dam,
                one.sires,
                *(young(1, row.seen, row.sex, row.maybe) for row in one.hatchlings for _ in range(row.count)),
                several=one.several,
            )
            for one in self.BOOK
        ]
        again = collection(*self.ROWS).updated(split)
        assert genotypes(again) == genotypes(first)
        assert again.knowledge.paternity == first.knowledge.paternity

    def test_it_replaces_what_was_given_before(self) -> None:
        animals = collection(*self.ROWS)
        once, bad = animals.updated(self.BOOK), clutch("bad", "E", "gone", young(1))
        assert genotypes(once) != genotypes(animals)
        assert genotypes(once.updated(self.BOOK)) == genotypes(once)
        assert genotypes(once.updated([])) == genotypes(animals)
        assert len(once.updated([bad]).findings) == 1
        assert len(once.updated([bad]).updated([bad]).findings) == 1
        assert once.updated([bad]).updated(self.BOOK).findings == ()
        assert once.updated([]).clutches == ()

    def test_the_file_and_the_old_collection_stay(self) -> None:
        animals = collection(*self.ROWS)
        before, text = genotypes(animals), animals.text
        told = animals.updated(self.BOOK)
        assert told.text == animals.text == text
        assert [animal.genes for animal in told] == [animal.genes for animal in animals]
        assert [animal.label for animal in told] == [animal.label for animal in animals]
        assert genotypes(collection(*self.ROWS)) == before
        assert animals.clutches == ()
        assert animals.knowledge.paternity == {}

    def test_edits_keep_the_clutches(self) -> None:
        told = collection("D,f,66% het Clown,,,", "S,m,Clown,,,").updated([clutch("c", "D", "S", young(3))])
        more = told.with_animal({"id": "N", "sex": "m", "genes": "Normal"})
        assert more.clutches == told.clutches
        assert chance(more, "D") == Fraction(1, 5)
        relabelled = told.with_animal({"id": "D", "genes": "50% het Clown"})
        assert chance(relabelled, "D") == Fraction(1, 9)
        kept = told.with_animal({"id": "K", "sex": "f", "genes": "Normal", "clutch": "c"})
        assert chance(kept, "D") == Fraction(1, 5)
        assert kept["K"].sire == "S"
        fewer = told.without("S")
        assert fewer.clutches == told.clutches
        assert [finding.found for finding in fewer.findings] == ["clutch c names an animal that is not here"]
        assert chance(fewer, "D") == Fraction(2, 3)
