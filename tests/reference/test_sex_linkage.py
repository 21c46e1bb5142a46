"""Traits on the sex chromosomes.

Banana: Mallery CS, Carrillo MM, Phyllomedusa 15(1):29-42, 2016, for the model (abstract seen); the recombination
fraction 7/100 is from memory, and the shares follow from it.
"""

import math
from fractions import Fraction
from pathlib import Path

import pytest

from explorer.catalogue import load_catalogue, load_species
from explorer.genetics import Brood, Genome, Group, genome_of
from explorer.pairing import cross
from tests.reference.genomes import animal, looks, on_x, recessive, single_copy

SECOND = load_species(Path(__file__).parents[1] / "catalogue" / "second_species")
QUARTER, HALF = Fraction(1, 4), Fraction(1, 2)
R = Fraction(7, 100)


def classes(dam, sire):
    """"sex copies" -> share of all hatchlings; copies of Banana."""
    odds = cross(dam, sire)
    group = odds.brood.genome.groups[0]
    found = {}
    for diplotype, chance in odds.brood.distribution(group).items():
        copies = sum(haplotype[1] == "Banana" for haplotype in diplotype)
        key = f"{odds.brood.genome.sex_of(diplotype)} {copies}"
        found[key] = found.get(key, 0) + chance
    return found


def percents(**shares):
    return {key.replace("_", " "): Fraction(share) / 100 for key, share in shares.items()}


ROWS = {
    "female maker with wild": (
        "Normal",
        "female maker Banana",
        percents(female_1="46.5", female_0="3.5", male_1="3.5", male_0="46.5"),
    ),
    "male maker with wild": (
        "Normal",
        "male maker Banana",
        percents(male_1="46.5", male_0="3.5", female_1="3.5", female_0="46.5"),
    ),
    "wild with a one-copy dam": ("Banana", "Normal", percents(female_0=25, female_1=25, male_0=25, male_1=25)),
    "wild with a two-copy dam": ("Super Banana", "Normal", percents(female_1=50, male_1=50)),
    "female maker with a one-copy dam": (
        "Banana",
        "female maker Banana",
        percents(female_2="23.25", female_1=25, female_0="1.75", male_2="1.75", male_1=25, male_0="23.25"),
    ),
}


@pytest.mark.parametrize(("dam", "sire", "expected"), ROWS.values(), ids=ROWS)
def test_banana__five_rows(dam, sire, expected):
    assert genome_of(load_catalogue()).groups[0].rates == (R,)
    assert classes(dam, sire) == expected


def test_banana__unknown_phase_is_the_mean_of_both():
    x, y, unknown = (classes("Normal", f"{word}Banana") for word in ("female maker ", "male maker ", ""))
    assert unknown == {key: (x[key] + y[key]) / 2 for key in x}
    assert unknown == dict.fromkeys(x, QUARTER)


def phases(dam, sire):
    """Genotype text of the sons -> share among sons."""
    table = cross(dam, sire).genotypes()
    sons = table[table.sex == "male"]
    return {text: share * 2 for text, share in zip(sons.genotype, sons.fraction, strict=True)}


@pytest.mark.parametrize(
    ("dam", "sire", "expected"),
    [
        pytest.param(
            "Normal", "male maker Banana", {"male maker Banana": 1 - R, "Normal": R}, id="from the sire, on Y"
        ),
        pytest.param(
            "Normal", "female maker Banana", {"male maker Banana": R, "Normal": 1 - R}, id="moved to Y, and stays there"
        ),
        pytest.param("Banana", "Normal", {"female maker Banana": HALF, "Normal": HALF}, id="from the dam, on X"),
        pytest.param("Super Banana", "Normal", {"female maker Banana": Fraction(1)}, id="from a two-copy dam"),
        pytest.param("Normal", "Super Banana", {"male maker Banana": Fraction(1)}, id="a two-copy sire, to everyone"),
    ],
)
def test_banana__phase_of_a_son(dam, sire, expected):
    assert phases(dam, sire) == expected


@pytest.mark.parametrize(("word", "on_x_share"), [("female maker", 1 - R), ("male maker", R)])
def test_banana__phase_of_a_one_copy_son_of_two_carriers(word, on_x_share):
    """On X with 1 - r if the sire has it on X: it then came from the dam, or moved in the sire and from him."""
    found = phases("Banana", f"{word} Banana")
    one_copy = {text: share for text, share in found.items() if text in ("female maker Banana", "male maker Banana")}
    total = sum(one_copy.values())
    assert total == HALF
    assert {text: share / total for text, share in one_copy.items()} == {
        "female maker Banana": on_x_share,
        "male maker Banana": 1 - on_x_share,
    }


def test_banana__daughters_of_a_two_copy_sire_all_have_one():
    assert classes("Normal", "Super Banana") == {"female 1": HALF, "male 1": HALF}


@pytest.mark.parametrize(
    ("rate", "per_offspring", "least"),
    [
        ("0", 0.3010, 595),
        (".03", 0.2425, 739),
        (".05", 0.2148, 834),
        (".07", 0.1909, 939),
        (".10", 0.1598, 1121),
        (".15", 0.1174, 1525),
    ],
)
def test_banana__offspring_behind_the_published_lod_score(rate, per_offspring, least):
    """LOD above 179.1 for linkage to sex (Mallery and Carrillo 2016): the fewest offspring at an assumed r. Derived.

    The LOD score per offspring is the mean of log10 of the chance with linkage over that without.
    """

    def chances(r):
        group = Group("sex", (single_copy("b"),), (Fraction(r),), sex=True)
        genome = Genome((group,))
        brood = Brood.of(animal(genome, "female"), animal(genome, "male", sex=(("",), ("b",))))
        return looks(brood, sexed=True)

    free, bound = chances("1/2"), chances(rate)
    lod = sum(float(p) * math.log10(p / free[key]) for key, p in bound.items())
    assert lod == pytest.approx(per_offspring, abs=6e-5)
    assert math.ceil(179.1 / lod) == least


def test_x_alone__criss_cross():
    """A visual male with a wild female: no visual offspring; all daughters carry. Derived, as are the next three."""
    genome = on_x(recessive("w"))
    odds = Brood.of(animal(genome, "female"), animal(genome, "male", sex=(("w",), ("",))))
    assert looks(odds, sexed=True) == {"female ": HALF, "male ": HALF}
    daughters = [d for d in odds.distribution(genome.groups[0]) if genome.sex_of(d) == "female"]
    assert daughters == [genome.pair(genome.groups[0], ("",), ("w",), "female")]


def test_x_alone__carrier_with_a_visual_male():
    genome = on_x(recessive("w"))
    carrier, visual = animal(genome, "female", sex=(("",), ("w",))), animal(genome, "male", sex=(("w",), ("",)))
    found = looks(Brood.of(carrier, visual), sexed=True)
    assert (found["female w"], found["male w"]) == (QUARTER, QUARTER)


def test_x_alone__visual_female_has_visual_sons_at_once():
    genome = on_x(recessive("w"))
    visual = animal(genome, "female", sex=(("w",), ("w",)))
    assert looks(Brood.of(visual, animal(genome, "male")), sexed=True) == {"female ": HALF, "male w": HALF}


def z_genotypes(dam, sire):
    table = cross(dam, sire, catalogue=SECOND).genotypes()
    return {f"{sex} {text}": share for text, sex, share in zip(table.genotype, table.sex, table.fraction, strict=True)}


@pytest.mark.parametrize(
    ("dam", "sire", "expected"),
    [
        ("Dusk", "Normal", {"male het Dusk": HALF, "female Normal": HALF}),
        ("Normal", "Dusk", {"male het Dusk": HALF, "female Dusk": HALF}),
        (
            "Dusk",
            "het Dusk",
            {"male Dusk": QUARTER, "female Dusk": QUARTER, "male het Dusk": QUARTER, "female Normal": QUARTER},
        ),
    ],
)
def test_z_alone__is_the_mirror(dam, sire, expected):
    """Females are ZW: the same three crosses with the sexes exchanged, in the invented second species."""
    assert z_genotypes(dam, sire) == expected
