"""What animals may carry, jointly: worked cases, and a slow twin that counts every case."""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import product

import pytest

from explorer.collection import Collection
from explorer.genetics import Diplotype
from explorer.looks import carried
from explorer.notation import write_genes

HEADER = "id,sex,genes,dam,sire\n"
R = Fraction(7, 100)


def collection(*rows: str) -> Collection:
    return Collection.from_text(HEADER + "\n".join(rows))


def chance(animals: Collection, key: str, gene: str) -> Fraction:
    """Chance that the animal carries the gene."""
    group, _ = animals.knowledge.genome.home[gene]
    return sum((p for d, p in animals[key].genotype.part(group).items() if gene in carried(group, d)), Fraction(0))


def copies(animals: Collection, gene: str, *ids: str) -> dict[tuple[int, ...], Fraction]:
    """Joint distribution of copy numbers."""
    group, _ = animals.knowledge.genome.home[gene]
    found: dict[tuple[int, ...], Fraction] = {}
    for diplotypes, p in animals.knowledge.joint_of(group, ids).items():
        key = tuple(carried(group, d).get(gene, 0) for d in diplotypes)
        found[key] = found.get(key, Fraction(0)) + p
    return found


def phases(animals: Collection, key: str) -> dict[str, Fraction]:
    """Where Banana lies in a male: chromosome(s) -> chance."""

    def where(diplotype: Diplotype) -> str:
        return "".join(h[0] for h in diplotype if "Banana" in h)

    part = animals[key].genotype.part(animals.knowledge.genome.groups[0])
    found: dict[str, Fraction] = {}
    for diplotype, p in part.items():
        found[where(diplotype)] = found.get(where(diplotype), Fraction(0)) + p
    return found


PARENTS = ("D,f,het Clown,,", "S,m,het Clown,,")


def test_the_normal_sibling_of_a_visual() -> None:
    animals = collection(*PARENTS, "V,f,Clown,D,S", "N,f,Normal,D,S")
    assert chance(animals, "N", "Clown") == Fraction(2, 3)
    assert write_genes(animals["N"].genotype) == "66% het Clown"


def test_a_visual_child_proves_an_uncertain_parent() -> None:
    animals = collection("D,f,66% het Clown,,", "S,m,Clown,,", "V,f,Clown,D,S")
    assert chance(animals, "D", "Clown") == 1
    assert animals["D"].genes == "66% het Clown"


def test_normal_offspring_lower_the_chance_of_a_possible_het() -> None:
    animals = collection("D,f,66% het Clown,,", "S,m,Clown,,", "N1,f,het Clown,D,S", "N2,f,het Clown,D,S")
    assert chance(animals, "D", "Clown") == Fraction(1, 3)
    assert animals.findings == ()


def test_offspring_of_a_possible_het_and_a_het() -> None:
    animals = collection("D,f,66% het Clown,,", "S,m,het Clown,,", "N,f,Normal,D,S")
    # 1/3 wild x het: 1/2 het. 2/3 het x het: 1/4 visual, 1/2 het. Normal-looking: 1/6 + 1/3 of 1/3 + 1/2.
    assert chance(animals, "N", "Clown") == Fraction(1, 2) / Fraction(5, 6)


def test_half_siblings_share_what_is_uncertain() -> None:
    animals = collection("S,m,50% het Clown,,", "D1,f,Normal,,", "D2,f,Normal,,", "A,f,Normal,D1,S", "B,m,Normal,D2,S")
    assert copies(animals, "Clown", "A", "B") == {
        (0, 0): Fraction(5, 8),
        (0, 1): Fraction(1, 8),
        (1, 0): Fraction(1, 8),
        (1, 1): Fraction(1, 8),
    }
    pair = animals.knowledge.pair("A", "B")
    assert sum(pair["clown"].values()) == 1
    assert len(pair["clown"]) == 4


def test_two_possible_hets_and_their_six_normal_hatchlings() -> None:
    young = [f"N{i},f,Normal,D,S" for i in range(6)]
    animals = collection("D,f,50% het Clown,,", "S,m,50% het Clown,,", *young)
    both = Fraction(3, 4) ** 6
    assert copies(animals, "Clown", "D", "S")[1, 1] == both / (3 + both)


def test_a_loop() -> None:
    animals = collection(
        "S,m,50% het Clown,,", "D,f,Normal,,", "A,f,Normal,D,S", "B,f,Normal,A,S", "C,f,Normal,B,S", "E,f,Normal,C,S"
    )
    labels = {"S": "50% het Clown"} | dict.fromkeys("DABCE", "Normal")
    cases = counted(labels, {"A": ("D", "S"), "B": ("A", "S"), "C": ("B", "S"), "E": ("C", "S")})
    assert copies(animals, "Clown", "E", "S") == marginal(cases, (5, 0))
    assert sum(animals.knowledge.pair("A", "S")["clown"].values()) == 1


def test_the_label_is_compared_not_multiplied_in() -> None:
    animals = collection("D,f,Normal,,", "S,m,het Clown,,", "A,f,66% het Clown,D,S", "B,f,Pastel het Piebald,D,S")
    assert chance(animals, "A", "Clown") == Fraction(1, 2)
    assert [str(finding) for finding in animals.findings] == [
        "row 4, A, genes: the label says 66% het Clown; from its recorded parents D and S it is 50%. The recorded "
        "parents are taken at their word; mend whichever is wrong.",
        "row 5, B, genes: Pastel (pastel) cannot come from its recorded parents D and S. Check the genes and the "
        "parents: who could be wrong, if 1% of records are: the record of B (74.6%); the record of D (13.1%); the "
        "record of S (13.1%). Until then its own label alone counts for this gene.",
        "row 5, B, genes: the label says het Piebald; from its recorded parents D and S it is 0%. The recorded "
        "parents are taken at their word; mend whichever is wrong.",
    ]
    assert write_genes(animals["B"].genotype) == "Pastel 50% het Clown"


def test_a_label_that_says_nothing_is_no_finding() -> None:
    animals = collection("D,f,Clown,,", "S,m,Normal,,", "A,f,Normal,D,S")
    assert animals.findings == ()
    assert chance(animals, "A", "Clown") == 1


def test_a_look_that_parents_force_is_missed() -> None:
    animals = collection("D,f,Super Pastel,,", "S,m,Normal,,", "A,f,Normal,D,S")
    assert [finding.found for finding in animals.findings] == [
        "showing nothing at that place (pastel) cannot come from its recorded parents D and S"
    ]
    assert write_genes(animals["A"].genotype) == "Normal"


def test_records_that_clash_only_together() -> None:
    """Each of two siblings is possible by itself, and both are not: the later id counts with its own label."""
    animals = collection(
        "D,f,50% het Candy 50% het Toffee,,", "S,m,Albino,,", "A,f,Candy Albino,D,S", "B,f,Albino Toffee,D,S"
    )
    assert [finding.id for finding in animals.findings] == ["B"]
    assert chance(animals, "D", "Candy") == 1
    assert write_genes(animals["B"].genotype) == "Toffee Albino"


def test_two_copies_that_look_like_one() -> None:
    animals = collection("D,f,Pinstripe,,", "S,m,Pinstripe,,", "A,f,Pinstripe,D,S")
    double = copies(animals, "Pinstripe", "A")[(2,)]
    assert double == Fraction(1, 3)
    assert animals.findings == ()


class TestOneRecordedParent:
    def test_wild_from_the_missing_one_where_that_explains_the_label(self) -> None:
        animals = collection("D,f,Clown,,", "A,f,Normal,D,", "B,f,het Clown,D,", "E,m,Pastel,D,")
        assert [chance(animals, key, "Clown") for key in "ABE"] == [1, 1, 1]
        assert animals.findings == ()
        assert copies(animals, "Pastel", "E") == {(1,): 1}

    def test_what_the_recorded_one_cannot_have_passed(self) -> None:
        animals = collection(
            "D,f,Normal,,", "A,f,het Clown,D,", "B,f,66% het Clown,D,", "E,f,Super Pastel,P,", "P,f,Pastel,,"
        )
        assert chance(animals, "A", "Clown") == 1
        assert chance(animals, "B", "Clown") == Fraction(2, 3)
        assert copies(animals, "Pastel", "E") == {(2,): 1}
        assert animals.findings == ()

    def test_a_certain_label_above_what_the_recorded_one_gives(self) -> None:
        animals = collection("D,f,het Clown,,", "A,f,het Clown,D,")
        assert chance(animals, "A", "Clown") == Fraction(1, 2)
        assert "from its recorded parent D it is 50%" in animals.findings[0].found

    def test_a_visual_proves_the_recorded_one(self) -> None:
        animals = collection("D,f,50% het Clown,,", "A,f,Clown,D,")
        assert chance(animals, "D", "Clown") == 1

    def test_a_compound(self) -> None:
        animals = collection("D,f,Candy,,", "A,f,Candy Albino,D,", "B,f,Clown,D,")
        assert write_genes(animals["A"].genotype) == "Candy Albino"
        assert [finding.id for finding in animals.findings] == ["B"]

    def test_the_sex_of_the_missing_one(self) -> None:
        animals = collection(
            "D,f,Normal,,",
            "S,m,Normal,,",
            *(f"{a}{b},{a},Normal,{d},{s}" for a in "fm" for b, d, s in (("D", "D", ""), ("S", "", "S"))),
        )
        sexes = {animal.id: animal.genotype.sex for animal in animals}
        assert sexes == {"D": "female", "S": "male", "fD": "female", "fS": "female", "mD": "male", "mS": "male"}

    def test_unknown_sex(self) -> None:
        animals = collection("D,f,Banana,,", "A,?,Normal,D,")
        assert animals["A"].genotype.sex is None
        assert sorted(animals["A"].genotype.part(animals.knowledge.genome.groups[0]).values()) == [Fraction(1, 2)] * 2


class TestBanana:
    """The cases of the sex-linked model, with a recombination fraction of 0.07 between Banana and the sexes."""

    def test_phase_unknown(self) -> None:
        animals = collection("S,m,Banana,,")
        assert phases(animals, "S") == {"X": Fraction(1, 2), "Y": Fraction(1, 2)}
        assert "may lie on X or Y" in animals.findings[0].found

    def test_only_the_dam_has_it(self) -> None:
        animals = collection("D,f,Banana,,", "S,m,Normal,,", "A,m,Banana,D,S", "B,m,Banana,D,")
        assert phases(animals, "A") == phases(animals, "B") == {"X": 1}
        assert animals.findings == ()

    def test_only_the_sire_has_it(self) -> None:
        animals = collection("D,f,Normal,,", "S,m,Banana,,", "A,m,Banana,D,S", "B,m,Banana,,S")
        assert phases(animals, "A") == phases(animals, "B") == {"Y": 1}
        # Each Banana son counts 1 - r to r against a sire with it on X.
        assert phases(animals, "S") == {"X": R**2 / (R**2 + (1 - R) ** 2), "Y": (1 - R) ** 2 / (R**2 + (1 - R) ** 2)}

    @pytest.mark.parametrize(("maker", "on_x"), [("female maker", 1 - R), ("male maker", R)])
    def test_both_have_it(self, maker: str, on_x: Fraction) -> None:
        animals = collection("D,f,Banana,,", f"S,m,{maker} Banana,,", "A,m,Banana,D,S")
        assert phases(animals, "A") == {"X": on_x, "Y": 1 - on_x}

    @pytest.mark.parametrize(("maker", "sire"), [("female maker", "X"), ("male maker", "Y")])
    def test_hatchlings_of_a_known_sire(self, maker: str, sire: str) -> None:
        animals = collection("D,f,Normal,,", f"S,m,{maker} Banana,,", "A,f,Banana,D,S")
        assert phases(animals, "S") == {sire: 1}
        assert phases(animals, "A") == {"X": 1}

    def test_a_daughter_tells_of_her_sire(self) -> None:
        animals = collection("D,f,Normal,,", "S,m,Banana,,", "A,f,Banana,D,S")
        assert phases(animals, "S") == {"X": 1 - R, "Y": R}

    def test_a_stated_phase_is_evidence(self) -> None:
        animals = collection("D,f,Banana,,", "S,m,female maker Banana,,", "A,m,male maker Banana,D,S")
        assert phases(animals, "A") == {"Y": 1}
        impossible = collection("D,f,Normal,,", "S,m,Banana,,", "A,m,female maker Banana,D,S")
        assert "Banana" in impossible.findings[-1].found
        assert phases(impossible, "A") == {"X": 1}

    def test_sexes_of_a_pair(self) -> None:
        animals = collection("D,?,Banana,,", "S,?,Normal,,", "M,m,Normal,,")
        pair = animals.knowledge.pair("D", "S")["sex"]
        assert sum(pair.values()) == 1
        assert {(dam[1][0], sire[1][0]) for dam, sire in pair} == {("X", "Y")}
        with pytest.raises(ValueError, match="M is no female"):
            animals.knowledge.pair("M", "S")


def test_unknown_animals() -> None:
    animals = collection("D,f,Banana,,")
    with pytest.raises(KeyError):
        animals.knowledge.genotype("X")
    with pytest.raises(KeyError):
        animals.knowledge.joint_of(animals.knowledge.genome.groups[0], ("D", "X"))


LABELS = {"Normal": {0: Fraction(1)}, "50% het Clown": {0: Fraction(1, 2), 1: Fraction(1, 2)}}
LABELS |= {
    "66% het Clown": {0: Fraction(1, 3), 1: Fraction(2, 3)},
    "het Clown": {1: Fraction(1)},
    "Clown": {2: Fraction(1)},
}


def counted(labels: dict[str, str], parents: dict[str, tuple[str, str]]) -> dict[tuple[int, ...], Fraction]:
    """Every assignment of copy numbers, weighed: the slow twin. Missing parents ("") pass what the look needs."""
    keys = list(labels)
    total: dict[tuple[int, ...], Fraction] = {}
    for values in product((0, 1, 2), repeat=len(keys)):
        at = dict(zip(keys, values, strict=True))
        weight = Fraction(1)
        for key, label in labels.items():
            if key not in parents:
                weight *= LABELS[label].get(at[key], Fraction(0))
                continue
            visual = label == "Clown"
            passing = [Fraction(at[p], 2) if p else Fraction(int(visual)) for p in parents[key]]
            one, two = passing
            weight *= (one * two, one + two - 2 * one * two, (1 - one) * (1 - two))[2 - at[key]]
            weight *= (at[key] == 2) == visual
            if not weight:
                break
        if weight:
            total[values] = weight
    return total


def marginal(cases: dict[tuple[int, ...], Fraction], places: tuple[int, ...]) -> dict[tuple[int, ...], Fraction]:
    """The share of each way in which the animals at these places can be."""
    found: dict[tuple[int, ...], Fraction] = {}
    for values, weight in cases.items():
        key = tuple(values[place] for place in places)
        found[key] = found.get(key, Fraction(0)) + weight
    return {key: weight / sum(cases.values()) for key, weight in found.items()}


@pytest.mark.parametrize("seed", range(60))
def test_random_pedigrees_against_counting_in_any_row_order(seed: int) -> None:
    dice = random.Random(seed)
    labels, parents, sexes = {}, {}, {}
    for i in range(7):
        key = f"{'FM'[i % 2]}{dice.randrange(100):02}{i}"
        sexes[key] = "fm"[i % 2]
        dams = [other for other in labels if sexes[other] == "f"]
        sires = [other for other in labels if sexes[other] == "m"]
        if i > 2 and dice.random() < 0.8:
            one = dice.choice(dams), dice.choice(sires)
            lost = dice.random()
            parents[key] = (one[0] if lost > 0.1 else "", one[1] if not 0.1 < lost < 0.2 else "")
            labels[key] = dice.choice(["Normal", "Normal", "Normal", "Clown"])
        else:
            labels[key] = dice.choice(list(LABELS))
    rows = [f"{k},{sexes[k]},{labels[k]},{','.join(parents.get(k, ('', '')))}" for k in labels]
    asked = tuple(dice.sample(list(labels), 2))
    cases = counted(labels, parents)
    animals = collection(*rows)
    assert bool(cases) == (not any("cannot come" in finding.found for finding in animals.findings))
    order = list(labels)
    if cases:
        assert copies(animals, "Clown", *asked) == marginal(cases, tuple(order.index(key) for key in asked))
        for i, key in enumerate(order):
            assert copies(animals, "Clown", key) == marginal(cases, (i,))
    dice.shuffle(rows)
    again = collection(*rows)
    group, _ = animals.knowledge.genome.home["Clown"]
    assert again.knowledge.joint_of(group, asked) == animals.knowledge.joint_of(group, asked)
    assert sorted(f.found for f in again.findings) == sorted(f.found for f in animals.findings)
