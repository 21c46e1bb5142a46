"""Reading an animal: the prior is the clutch or the candidates, the cues move it, and each refusal says why."""

import math
from fractions import Fraction
from pathlib import Path

import pandas as pd
import pytest

import explorer as ex
from explorer.catalogue import Catalogue, Effect, Evidence, Part, load_catalogue, load_species
from explorer.collection import Collection
from explorer.looks import likeliest_look, may_carry
from explorer.notation import GenesError
from explorer.pairing import GeneChance, Reading, read_animal

SECOND = load_species(Path(__file__).parents[1] / "catalogue" / "second_species")

OWN_CUES = """
[[cue]]
key = "white-lips"
zone = "head"
text = "the lips are white"
shown_by = [{ gene = "Pastel", chance = 0.8 }]
otherwise = 0.1
evidence = "planning default"

[[cue]]
key = "mark-below-eye"
zone = "head"
text = "a dark mark below the eye"
shown_by = [{ gene = "Clown", chance = 0.7 }]
otherwise = 0.2
evidence = "planning default"
"""


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Catalogue:
    """The bundled catalogue with two cues whose figures stand here."""
    folder = tmp_path_factory.mktemp("own")
    (folder / "cues.toml").write_text(OWN_CUES, encoding="utf-8")
    return load_catalogue(folder)


def chances(table: pd.DataFrame) -> dict[str, Fraction]:
    return dict(zip(table.genotype, table.fraction, strict=True))


def gene(reading: Reading, name: str) -> GeneChance:
    return next(item for item in reading.genes if item.gene == name)


# Without cues: what is known beforehand.


@pytest.mark.parametrize(
    ("dam", "sire"),
    [
        ("Pastel het Clown", "Fire het Clown"),
        ("Mojave Enchi", "Lesser 66% het Piebald"),
        ("Spider Cinnamon", "Spider Black Pastel"),
        ("Banana", "Normal"),
        ("Normal", "male maker Banana Pinstripe"),
        ("Super Banana", "Banana"),
        ("50% het Clown", "50% het Clown"),
        ("Normal", "Normal"),
    ],
)
def test_no_cues__the_clutch_itself(dam: str, sire: str) -> None:
    clutch = ex.cross(dam, sire).genotypes().groupby("genotype").fraction.sum()
    assert chances(ex.identify([], dam, sire)) == clutch.to_dict()
    assert chances(ex.identify({}, dam, sire, ["Enchi"])) == clutch.to_dict()


def test_no_cues__candidates_in_textbook_proportions() -> None:
    """One gene on a quarter of the chromosomes: 9/16, 6/16, 1/16; two genes: their products."""
    one = {"Normal": Fraction(9, 16), "Pastel": Fraction(6, 16), "Super Pastel": Fraction(1, 16)}
    assert chances(ex.identify([], candidates={"Pastel": 0.25})) == one
    two = chances(ex.identify([], candidates={"Pastel": 0.25, "Clown": 0.5}))
    assert two["Super Pastel het Clown"] == Fraction(1, 16) * Fraction(1, 2)
    clown = chances(ex.identify([], candidates={"Clown": Fraction(1, 10)}))
    assert clown == {"Normal": Fraction(81, 100), "het Clown": Fraction(18, 100), "Clown": Fraction(1, 100)}


def test_no_cues__no_candidate_is_a_normal() -> None:
    assert chances(ex.identify(["bright"], candidates=[])) == {"Normal": 1}


def test_no_cues__candidates_stand_in_for_a_missing_parent() -> None:
    """A sire with q = 1/4 hands Pastel on to a quarter."""
    expected = {"Pastel": Fraction(3, 8), "Pastel het Clown": Fraction(1, 8)}
    expected |= {"Normal": Fraction(3, 8), "het Clown": Fraction(1, 8)}
    for parents in ({"dam": "Pastel"}, {"sire": "Pastel"}):
        assert chances(ex.identify([], **parents, candidates={"Clown": 0.25})) == expected


def test_no_cues__banana_of_unknown_sex() -> None:
    """Females and males half each; of males with one copy half have it on either chromosome."""
    found = chances(ex.identify([], candidates={"Banana": 0.25}))
    assert found == {
        "Normal": Fraction(9, 16),
        "Banana": Fraction(1, 2) * Fraction(6, 16),
        "female maker Banana": Fraction(1, 2) * Fraction(3, 16),
        "male maker Banana": Fraction(1, 2) * Fraction(3, 16),
        "Super Banana": Fraction(1, 16),
    }
    carried = gene(read_animal([], candidates={"Banana": 0.25}), "Banana")
    assert carried == GeneChance("Banana", Fraction(7, 16), Fraction(7, 16), Fraction(7, 16))


def test_banana__from_a_male_maker() -> None:
    """7 in 100 change chromosomes: the sons have it 93 times in 100, the daughters 7 times."""
    reading = read_animal([], "Normal", "male maker Banana")
    assert chances(reading.genotypes()) == {
        "Normal": Fraction(1, 2),
        "male maker Banana": Fraction(93, 200),
        "Banana": Fraction(7, 200),
    }
    seen = read_animal(["freckles"], "Normal", "male maker Banana")
    table = chances(seen.genotypes())
    assert gene(seen, "Banana").carries == 1 - table["Normal"] > Fraction(1, 2)
    assert table["male maker Banana"] / table["Banana"] == Fraction(93, 7)


# Cues move it.


def test_one_cue__by_hand(own: Catalogue) -> None:
    """Of pastels 8 in 10 have white lips, of others 1 in 10: 8 to 1 if seen, 2 to 9 if not."""
    seen = read_animal(["white-lips"], "Pastel", "Normal", catalogue=own)
    assert gene(seen, "Pastel") == GeneChance("Pastel", Fraction(8, 9), Fraction(8, 9), Fraction(1, 2))
    unseen = ex.identify({"white-lips": False}, "Pastel", "Normal", catalogue=own)
    assert chances(unseen) == {"Pastel": Fraction(2, 11), "Normal": Fraction(9, 11)}


def test_two_cues__by_hand(own: Catalogue) -> None:
    """Pastel 1/2, Clown 1/4: the odds 8 to 1, and (1/4 3/10) to (3/4 8/10) = 1 to 8."""
    found = read_animal({"white-lips": True, "mark-below-eye": False}, "Pastel het Clown", "het Clown", catalogue=own)
    assert gene(found, "Pastel").carries == Fraction(8, 9)
    assert gene(found, "Clown").shows == Fraction(1, 9)
    assert gene(found, "Clown").carries == Fraction(1, 9) + Fraction(2, 3) * Fraction(8, 9)
    assert chances(found.genotypes())["Pastel Clown"] == Fraction(8, 9) * Fraction(1, 9)


def test_candidates__by_hand(own: Catalogue) -> None:
    """9/16 without, 7/16 with: 9 x 1 to 7 x 8, and two copies look as likely to have white lips as one."""
    found = chances(ex.identify(["white-lips"], candidates={"Pastel": 0.25}, catalogue=own))
    assert found == {"Normal": Fraction(9, 65), "Pastel": Fraction(48, 65), "Super Pastel": Fraction(8, 65)}


@pytest.mark.parametrize("cues", [{}, {"mark-below-eye": False}, {"mark-below-eye": True, "dark": True}])
def test_normal_looking__from_two_hets_is_het_with_two_thirds(cues: dict[str, bool]) -> None:
    found = chances(ex.identify(cues, "het Clown", "het Clown"))
    assert found["het Clown"] / (found["het Clown"] + found["Normal"]) == Fraction(2, 3)


def test_visual_parent__all_offspring_carry_it_whatever_is_seen() -> None:
    for cues in ({}, {"mark-below-eye": False}, {"mark-below-eye": True}):
        clown = gene(read_animal(cues, "Clown", "Normal"), "Clown")
        assert clown == GeneChance("Clown", Fraction(0), Fraction(1), Fraction(1))


def test_covered_all__what_lies_beneath_stays_as_likely_as_before() -> None:
    reading = read_animal(["white-parts", "white-lips", "yellow"], "Fire Pastel", "Fire")
    found = {frozenset(look.items()): chance for look, chance in reading.looks()}
    assert found[frozenset({("Fire", 2)})] == found[frozenset({("Fire", 2), ("Pastel", 1)})]
    assert found[frozenset({("Fire", 1)})] < found[frozenset({("Fire", 1), ("Pastel", 1)})]


@pytest.mark.parametrize("quality", ["brightness", "flank", "yellow", "pattern"])
def test_cues_of_one_quality__one_seen_says_the_other_is_not(quality: str) -> None:
    one, two = (cue.key for cue in load_catalogue().cues if cue.quality == quality)
    parents = "Pastel Enchi", "Cinnamon het Clown"
    for seen, other in ((one, two), (two, one)):
        assert chances(ex.identify([seen], *parents)) == chances(ex.identify({seen: True, other: False}, *parents))
    neither = chances(ex.identify({one: False, two: False}, *parents))
    assert neither != chances(ex.identify({one: False}, *parents)) != chances(ex.identify([], *parents))


def test_cues__a_list_names_those_seen_and_the_others_were_not_looked_at() -> None:
    listed = chances(ex.identify(["bright"], "Pastel", "Normal"))
    assert listed == chances(ex.identify({"bright": True}, "Pastel", "Normal"))
    assert listed != chances(ex.identify({"bright": True, "white-lips": False}, "Pastel", "Normal"))


def test_order__does_not_matter() -> None:
    cues = {"bright": True, "dark": False, "bands": True, "white-lips": False, "flames": True}
    candidates = {"Pastel": 0.25, "Enchi": 0.1, "Mojave": 0.2, "Lesser": 0.1}
    turned = dict(reversed(cues.items())), None, None, dict(reversed(candidates.items()))
    pd.testing.assert_frame_equal(ex.identify(cues, candidates=candidates), ex.identify(*turned))
    one = read_animal(cues, "Pastel Enchi het Clown", "Mojave het Clown")
    two = read_animal(turned[0], "Mojave het Clown", "het Clown Enchi Pastel")
    assert chances(one.genotypes()) == chances(two.genotypes())
    assert (one.genes, one.looks(), one.further_cues()) == (two.genes, two.looks(), two.further_cues())


def test_opinions__win_over_the_catalogue() -> None:
    """Whoever finds pastels dark takes a bright animal for no pastel."""
    mine = Effect((Part("Pastel"),), {"brightness": -2}, Evidence("trade opinion"), by="Rowan")
    usual, turned = (
        gene(read_animal(["bright"], "Pastel", "Normal", opinions=opinions), "Pastel") for opinions in ((), [mine])
    )
    assert turned.carries < turned.before == usual.before < usual.carries
    assert gene(read_animal(["dark"], "Pastel", "Normal", opinions=[mine]), "Pastel").carries > Fraction(1, 2)


# What can be asked of a reading.

READINGS = [
    read_animal({"bright": True, "marked-belly": False}, "Pastel Enchi het Clown", "Mojave 50% het Clown"),
    read_animal(["white-parts"], "Fire Mojave", "Fire Lesser"),
    read_animal(["flames", "freckles"], candidates=["Yellow Belly", "Gravel", "Banana"]),
    read_animal({"fine-web": True}, "Spider", None, ["Spider", "Piebald"]),
]


@pytest.mark.parametrize("reading", READINGS, ids=lambda reading: ", ".join(reading.cues))
def test_reading__everything_sums_to_1_exactly(reading: Reading) -> None:
    table = reading.genotypes()
    assert list(table.columns) == ["genotype", "probability", "fraction"]
    assert sum(table.fraction) == sum(reading.posterior) == sum(chance for _, chance in reading.looks()) == 1
    assert list(table.probability) == [float(chance) for chance in table.fraction]
    assert table.genotype.is_unique
    assert list(table.fraction) == sorted(table.fraction, reverse=True)


@pytest.mark.parametrize("reading", READINGS, ids=lambda reading: ", ".join(reading.cues))
def test_reading__gene_chances_agree_with_the_table(reading: Reading) -> None:
    rows = [(ex.read_genes(text), chance) for text, chance in chances(reading.genotypes()).items()]
    assert {item.gene for item in reading.genes} == {name for genotype, _ in rows for name in may_carry(genotype)}
    for item in reading.genes:
        assert item.carries == sum(chance for genotype, chance in rows if item.gene in may_carry(genotype))
        assert item.shows == sum(chance for genotype, chance in rows if item.gene in likeliest_look(genotype))
    assert list(reading.genes) == sorted(reading.genes, key=lambda item: -item.carries)


@pytest.mark.parametrize("reading", READINGS, ids=lambda reading: ", ".join(reading.cues))
def test_reading__looks_agree_with_the_table(reading: Reading) -> None:
    from_table: dict[frozenset[tuple[str, int]], Fraction] = {}
    for text, chance in chances(reading.genotypes()).items():
        key = frozenset(likeliest_look(ex.read_genes(text)).items())
        from_table[key] = from_table.get(key, Fraction(0)) + chance
    assert {frozenset(look.items()): chance for look, chance in reading.looks()} == from_table


def test_identify__is_the_table_of_the_reading() -> None:
    asked = ({"bright": True}, "Pastel", "Enchi")
    pd.testing.assert_frame_equal(ex.identify(*asked), read_animal(*asked).genotypes())


@pytest.mark.parametrize("reading", READINGS, ids=lambda reading: ", ".join(reading.cues))
def test_further_cues__most_telling_first_and_never_below_0(reading: Reading) -> None:
    found = reading.further_cues()
    bits = [value for _, value in found]
    assert {cue.key for cue, _ in found} == {cue.key for cue in load_catalogue().cues} - set(reading.cues)
    assert bits == sorted(bits, reverse=True)
    assert 0 <= bits[-1] < bits[0] <= 1


def test_further_cues__by_hand(own: Catalogue) -> None:
    """A cue noted on 8 in 10 of one half and 1 in 10 of the other: H(9/20) less the mean of H(4/5) and H(1/10)."""

    def entropy(p: float) -> float:
        return -p * math.log2(p) - (1 - p) * math.log2(1 - p)

    bits = {cue.key: value for cue, value in read_animal([], "Pastel", "Normal", catalogue=own).further_cues()}
    assert bits["white-lips"] == pytest.approx(entropy(0.45) - (entropy(0.8) + entropy(0.1)) / 2)
    assert bits["mark-below-eye"] == pytest.approx(0, abs=1e-12)


def test_further_cues__what_is_settled_tells_nothing() -> None:
    bits = {cue.key: value for cue, value in read_animal(["bright"], "Pastel Enchi", "Cinnamon").further_cues()}
    assert bits["dark"] == 0 < bits["bands"]
    certain = read_animal({"bright": False}, "Normal", "Normal").further_cues()
    assert {value for _, value in certain} == {0}


# Animals of a collection.

KIN = Collection.from_text(
    "id,sex,genes,dam,sire\n"
    "M,male,Pastel 50% het Clown,,\n"
    "F,female,Normal,,\n"
    "D,female,Normal,F,M\n"
)


def test_animals__as_parents() -> None:
    assert chances(ex.identify(["bright"], KIN["F"], KIN["M"])) == chances(
        ex.identify(["bright"], "Normal", "Pastel 50% het Clown")
    )
    assert chances(ex.identify(["bright"], None, KIN["M"], ["Enchi"])) == chances(
        ex.identify(["bright"], None, "Pastel 50% het Clown", ["Enchi"])
    )


def test_animals__kin_are_not_taken_as_strangers() -> None:
    """Sire 50 % het and his normal daughter: both het with 1/4, not 1/8."""
    assert gene(read_animal([], KIN["D"], KIN["M"]), "Clown").shows == Fraction(1, 16)
    assert gene(read_animal([], KIN["D"], KIN["M"].genotype), "Clown").shows == Fraction(1, 32)


def test_animals__bring_their_catalogue(own: Catalogue) -> None:
    animals = Collection.from_text("id,sex,genes\nF,female,Pastel\nM,male,Normal\n", own)
    for parents in ((animals["F"], animals["M"]), (animals["F"], "Normal"), ("Pastel", animals["M"])):
        assert gene(read_animal(["white-lips"], *parents), "Pastel").carries == Fraction(8, 9)


# Refusals.


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (
            (["brigth"], "Pastel", "Normal"),
            "no cue is called 'brigth'; the nearest are bright, light-headstamp, orange",
        ),
        (({"Bright": False}, "Pastel", "Normal"), "no cue is called 'Bright'; the nearest are bright, "),
        ((["bright", "dark"], "Pastel", "Normal"), "'bright' and 'dark' cannot both be seen; leave one out"),
        (
            ({"grey": True, "bands": True, "yellow": True}, "Pastel", "Normal"),
            "'yellow' and 'grey' cannot both be seen; leave one out",
        ),
        (([],), "where the animal comes from is needed: a dam and a sire, or candidate genes"),
        (([], "Pastel"), "the sire is needed as well, or candidate genes that it may carry"),
        (([], None, "Pastel"), "the dam is needed as well, or candidate genes that it may carry"),
        (
            ([], None, None, {"Pastel": 1.5}),
            "frequencies at one place lie from 0 to 1 and sum to at most 1, found Pastel 3/2",
        ),
        (
            ([], "Pastel", None, {"Mojave": 0.75, "Lesser": 0.5}),
            "frequencies at one place lie from 0 to 1 and sum to at most 1, found Mojave 3/4, Lesser 1/2",
        ),
    ],
)
def test_identify__says_what_is_wrong(asked: tuple[object, ...], words: str) -> None:
    with pytest.raises(ValueError) as caught:
        ex.identify(*asked)  # type: ignore[arg-type]
    assert str(caught.value).startswith(words)


def test_identify__too_many_looks() -> None:
    """Eight genes that show with one copy and differently with two: 3 to the eighth."""
    eight = ["Pastel", "Enchi", "Orange Dream", "Leopard", "Mahogany", "Chocolate", "Spotnose", "GHI"]
    with pytest.raises(ValueError) as caught:
        ex.identify([], candidates=eight)
    assert str(caught.value) == "6,561 looks are possible, more than 6,000; name fewer candidates"


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (([], "Pastell", "Normal"), '"Pastell" cannot be read'),
        (([], None, None, ["Pastell"]), '"Pastell" cannot be read'),
        (([], "Normal", None, ["het Clown"]), "found Clown as carried"),
        (([], ex.read_genes("Clown", sex="male"), "Normal"), "found a male as the dam"),
    ],
)
def test_identify__genes_that_cannot_be_read(asked: tuple[object, ...], words: str) -> None:
    with pytest.raises(GenesError, match=words):
        ex.identify(*asked)  # type: ignore[arg-type]


def test_identify__another_catalogue() -> None:
    with pytest.raises(ValueError, match="the dam was read with another catalogue"):
        ex.identify([], ex.read_genes("Clown", sex="female"), "Ink", catalogue=SECOND)
    assert chances(ex.identify([], "Ink", "Ink", catalogue=SECOND)) == {
        "Ink": Fraction(2, 3),
        "Normal": Fraction(1, 3),
    }


def test_answered__is_as_reading_anew() -> None:
    first = read_animal(["bright"], candidates=["Pastel", "Enchi"])
    assert first.genes
    again = first.answered({"bright": False, "bands": True})
    anew = read_animal({"bright": False, "bands": True}, candidates=["Pastel", "Enchi"])
    assert again.genes == anew.genes
    assert [cue.key for cue, _ in again.further_cues()] == [cue.key for cue, _ in anew.further_cues()]
    assert first.genes == read_animal(["bright"], candidates=["Pastel", "Enchi"]).genes
    with pytest.raises(ValueError, match="no cue is called 'brigt'"):
        first.answered(["brigt"])


def test_identify__one_text_is_one_cue_and_one_list_of_genes() -> None:
    one = ex.identify("bright", candidates="Pastel Enchi")
    assert one.equals(ex.identify(["bright"], candidates=["Pastel", "Enchi"]))


def test_identify__an_answer_is_true_or_false() -> None:
    with pytest.raises(ValueError, match="bright: True or False is needed, found 'no'"):
        ex.identify({"bright": "no"}, candidates=["Pastel"])  # type: ignore[dict-item]


def test_identify__too_many_genotypes_are_refused() -> None:
    recessives = [gene.name for gene in load_catalogue().genes if gene.recessive and gene.name != "Clown"][:11]
    with pytest.raises(ValueError, match="genotypes are possible, more than 30,000; name fewer candidates"):
        ex.identify([], candidates=recessives)


def test_identify__no_viable_egg() -> None:
    with pytest.raises(ValueError, match="no egg of these parents is viable"):
        ex.identify([], "Super Cream", "Super Rag", catalogue=SECOND)


def test_identify__a_covering_form_shows_cues_of_its_own_copies_alone() -> None:
    white = read_animal({"flames": True}, "Yellow Belly", "Yellow Belly")
    chance = {gene: chance for look, chance in white.looks() for gene in [tuple(look.items())]}
    assert chance[(("Yellow Belly", 2),)] < Fraction(1, 10)
