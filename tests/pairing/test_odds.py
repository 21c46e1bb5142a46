"""The tables and chances of a pairing."""

import os
import subprocess
import sys
from fractions import Fraction
from itertools import islice
from pathlib import Path

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.catalogue import load_catalogue, load_species
from explorer.looks import shown
from explorer.notation import AmbiguousGenes, ImpossibleGenes, UnreadableGenes, read_genes, read_wanted
from explorer.pairing import checked_rate, cross

SECOND = load_species(Path(__file__).parents[1] / "catalogue" / "second_species")
HALF, QUARTER = Fraction(1, 2), Fraction(1, 4)

CROSSES = [
    ("Pastel het Clown", "Leopard het Clown"),
    ("Spider Pastel", "Spider Champagne"),
    ("Mojave Lesser 66% het Piebald", "Butter Clown 50% het Piebald"),
    ("Super Pinstripe", "Pinstripe Woma"),
    ("Clown Cryptic", "het Clown Woma"),
    ("Banana Calico", "female maker Banana Calico"),
    ("Normal", "Normal"),
    ("Hidden Gene Woma Enchi het Ghost", "Hidden Gene Woma Enchi Ghost"),
]

GENES = [
    *("Pastel", "Leopard", "Enchi", "Pinstripe", "Mojave", "Spider", "Champagne", "Calico", "Woma", "Fire", "Banana"),
    *("het Clown", "het Piebald", "66% het Ghost", "50% het Sunset"),
]
animals = st.lists(st.sampled_from(GENES), min_size=1, max_size=4, unique=True).map(" ".join)


def column(table, name):
    return dict(zip(table[name], table.fraction, strict=True))


@pytest.mark.parametrize(("dam", "sire"), CROSSES)
def test_looks__columns_sum_and_order(dam, sire):
    table = cross(dam, sire).looks()
    assert list(table.columns) == ["look", "nickname", "probability", "fraction", "cautions"]
    assert table.fraction.sum() == 1
    assert all(isinstance(chance, Fraction) and chance > 0 for chance in table.fraction)
    assert list(table.probability) == [float(chance) for chance in table.fraction]
    assert list(table.fraction) == sorted(table.fraction, reverse=True)
    assert table.look.is_unique
    assert all(isinstance(text, str) for name in ("look", "nickname", "cautions") for text in table[name])


@pytest.mark.parametrize(("dam", "sire"), CROSSES)
def test_genotypes__columns_sum_and_order(dam, sire):
    table = cross(dam, sire).genotypes()
    assert list(table.columns) == ["genotype", "sex", "probability", "fraction"]
    assert table.fraction.sum() == 1
    assert list(table.probability) == [float(chance) for chance in table.fraction]
    rows = list(zip(-table.fraction, table.genotype, table.sex, strict=True))
    assert rows == sorted(rows)
    assert len(set(zip(table.genotype, table.sex, strict=True))) == len(table)
    assert set(table.sex) == {"female", "male"}


def look_of(text, sex):
    """What an animal of this genotype shows, read from its text."""
    geno = read_genes(text, sex=sex)
    seen = [{shown(group, diplotype) for diplotype in geno.part(group)} for group in geno.genome.groups]
    assert all(len(looks) == 1 for looks in seen), "a genotype of the table is certain"
    return frozenset(pair for looks in seen for look in looks for pair in look)


@pytest.mark.parametrize(("dam", "sire"), CROSSES)
def test_genotypes__read_back_give_the_looks(dam, sire):
    odds = cross(dam, sire)
    found = {}
    for row in odds.genotypes().itertuples():
        look = look_of(row.genotype, row.sex)
        found[look] = found.get(look, 0) + row.fraction
    rows = column(odds.looks(), "look")
    assert found == {frozenset(read_wanted(look).items()): chance for look, chance in rows.items()}


@given(animals, animals)
def test_top_looks__are_the_head_of_looks(dam, sire):
    odds = cross(dam, sire)
    whole = odds.looks()
    for n in (1, 3, len(whole), len(whole) + 5):
        pd.testing.assert_frame_equal(odds.top_looks(n), whole.head(n))


def test_top_looks__of_none_has_the_columns():
    table = cross("Pastel", "Clown").top_looks(0)
    assert (len(table), list(table.columns)) == (0, ["look", "nickname", "probability", "fraction", "cautions"])


def test_tables__do_not_depend_on_hash_order():
    """The same rows in the same order in two processes that hash texts differently, draws included."""
    script = (
        "from explorer.pairing import cross, pretend_clutch\n"
        "odds = cross('Banana Mojave Spider 66% het Clown het Piebald', 'Banana Lesser Spider het Clown Woma')\n"
        "tables = odds.looks(), odds.top_looks(7), odds.genotypes()\n"
        "print(*(table.to_csv() for table in tables), pretend_clutch(odds, seed=4, eggs=9), odds.cautions)\n"
    )
    printed = {
        subprocess.run(
            [sys.executable, "-c", script],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(Path(__file__).parents[2])},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(printed) == 1
    assert len(printed.pop()) > 1000


def test_looks__ties_come_in_catalogue_order_and_wild_first():
    table = cross("Pastel Leopard", "Normal").looks()
    assert list(table.look) == ["Normal", "Leopard", "Pastel", "Pastel Leopard"]
    assert list(cross("Leopard Pastel", "Normal").looks().look) == list(table.look)


def test_tables__without_a_viable_egg_are_empty():
    """Two copies of each of two alleles whose compound does not hatch, in an invented species."""
    odds = cross("Super Cream", "Super Rag", catalogue=SECOND)
    assert odds.viable == odds.chance("Cream") == odds.chance_in_clutch("Normal", eggs=6) == 0
    assert (len(odds.looks()), len(odds.top_looks(3)), len(odds.genotypes())) == (0, 0, 0)
    assert list(odds.looks().columns) == ["look", "nickname", "probability", "fraction", "cautions"]
    assert list(odds.genotypes().columns) == ["genotype", "sex", "probability", "fraction"]


def shows(look, target):
    """Whether a row of the looks table shows at least the target: the obvious way, on the copies that are written."""
    seen, wanted = read_wanted(look), read_wanted(target)
    for name, copies in wanted.items():
        double = copies == 2 and not load_catalogue().gene(name).recessive
        if name not in seen or (double and seen[name] != 2):
            return False
    return True


TARGETS = [
    *("Pastel", "Clown", "Pastel Clown", "Super Pastel", "Spider", "Super Woma", "Banana", "Super Banana", "Calico"),
    *("Mojave", "Mojave Butter", "Cryptic", "Clown Cryptic", "Leopard Clown", "Normal", "Piebald", "Enchi Ghost"),
]


@pytest.mark.parametrize("target", TARGETS)
@pytest.mark.parametrize(("dam", "sire"), CROSSES)
def test_chance__is_the_sum_of_the_rows_that_show_it(dam, sire, target):
    odds = cross(dam, sire)
    rows = column(odds.looks(), "look")
    assert odds.chance(target) == sum(p for look, p in rows.items() if shows(look, target))


@pytest.mark.parametrize(("dam", "sire"), CROSSES)
def test_chance__exactly_is_the_row(dam, sire):
    odds = cross(dam, sire)
    rows = column(odds.looks(), "look")
    for look, chance in rows.items():
        assert odds.chance(look, exactly=True) == chance
    assert odds.chance("Monsoon", exactly=True) == 0


@pytest.mark.parametrize("unwanted", [["Pastel"], ["Spider"], ["Clown", "Calico"], ["Banana"], ["Mojave"], []])
@pytest.mark.parametrize(("dam", "sire"), CROSSES)
def test_chance__without_leaves_out_the_rows_that_show_it(dam, sire, unwanted):
    odds = cross(dam, sire)
    rows = column(odds.looks(), "look")
    for target in ("Normal", "Leopard", "Pastel", "Clown"):
        expected = sum(
            p for look, p in rows.items() if shows(look, target) and not any(shows(look, name) for name in unwanted)
        )
        assert odds.chance(target, without=unwanted) == expected


def test_chance__without_in_one_text_is_one_target():
    odds = cross("Pastel Leopard", "Enchi")
    assert odds.chance("Enchi", without="Pastel") == odds.chance("Enchi", without=["Pastel"]) == QUARTER
    assert odds.chance("Enchi", without=["Pastel", "Leopard"]) == Fraction(1, 8)


def test_chance__without_and_exactly_together():
    odds = cross("Pastel Leopard", "Enchi")
    assert odds.chance("Enchi", exactly=True, without=["Pastel"]) == Fraction(1, 8)
    assert odds.chance("Enchi", without=["Enchi"]) == 0


def test_chance__hidden_hets_do_not_matter_to_exactly():
    assert cross("het Clown", "Normal").chance("Normal", exactly=True) == 1


def test_chance__two_copies_count_as_one_unless_super_is_asked_for():
    odds = cross("Pastel", "Pastel")
    assert [odds.chance("Pastel"), odds.chance("Super Pastel")] == [Fraction(3, 4), QUARTER]
    assert odds.chance("Pastel", exactly=True) == HALF


def test_chance__same_look_rows():
    """Super Pinstripe looks like Pinstripe (common practice, no source): one row, but the copies can be asked for."""
    odds = cross("Super Pinstripe", "Pinstripe")
    assert column(odds.looks(), "look") == {"Pinstripe": 1}
    assert odds.chance("Pinstripe", exactly=True) == 1
    assert odds.chance("Super Pinstripe") == odds.chance("Super Pinstripe", exactly=True) == HALF
    assert set(odds.genotypes().genotype) == {"Pinstripe", "Super Pinstripe"}


@pytest.mark.parametrize(
    ("parent", "look", "mark"),
    [
        ("Calico", "Super Calico", "the two-copy form of Calico is not reported"),
        ("Gravel", "Super Gravel", "the two-copy form of Gravel has few records"),
        ("Calico", "Calico", ""),
        ("Pastel", "Super Pastel", ""),
        ("Pinstripe", "Pinstripe", ""),
    ],
)
def test_looks__marks_two_copy_forms_that_are_hardly_known(parent, look, mark):
    """Status of two-copy forms: common practice or from memory."""
    assert cross(parent, parent).looks().set_index("look").loc[look, "cautions"] == mark


@pytest.mark.parametrize(
    ("dam", "sire", "look", "nickname"),
    [
        ("Pastel", "Spider", "Pastel Spider", "Bumblebee"),
        ("Pastel", "Pastel Spider", "Super Pastel Spider", "Killer Bee"),
        ("Yellow Belly", "Yellow Belly", "Super Yellow Belly", "Ivory"),
        ("Candy", "Albino", "Candy Albino", "Candino"),
        ("Super Pastel", "Clown", "Pastel", ""),
    ],
)
def test_looks__nickname_in_a_column_of_its_own(dam, sire, look, nickname):
    """Nicknames: from memory, see the catalogue."""
    assert cross(dam, sire).looks().set_index("look").loc[look, "nickname"] == nickname


def test_top_looks__does_not_build_the_table():
    """Twenty loci of three looks each make 3,486,784,401 rows."""
    genes = [gene for gene in load_catalogue().genes if gene.locus != "banana" and not gene.recessive]
    names = {gene.locus: gene.name for gene in genes if gene.two_copies in ("own look", "few records")}
    parent = " ".join(islice(names.values(), 20))
    table = cross(parent, parent).top_looks(50)
    assert len(table) == 50
    assert table.fraction[0] == HALF**20
    assert list(table.fraction) == sorted(table.fraction, reverse=True)


@pytest.mark.parametrize(
    ("dam", "sire", "eggs", "more", "expected"),
    [
        pytest.param("66% het Clown", "Clown", 6, {}, Fraction(21, 32), id="66 % het, visual mate"),
        pytest.param("het Clown", "het Clown", 6, {}, 1 - Fraction(3, 4) ** 6, id="both known"),
        pytest.param("het Clown", "Clown", 3, {"at_least": 2}, HALF, id="at least two"),
        pytest.param("het Clown", "Clown", 3, {"at_least": 0}, 1, id="at least none"),
        pytest.param("het Clown", "Clown", 3, {"at_least": 4}, 0, id="more than there are eggs"),
        pytest.param("Clown", "Clown", 0, {}, 0, id="no eggs"),
        pytest.param("Clown", "Clown", 1, {"hatch_rate": 0.81}, Fraction(81, 100), id="eggs that do not hatch"),
        pytest.param("66% het Clown", "Clown", 2, {"hatch_rate": 0}, 0, id="nothing hatches"),
        pytest.param("66% het Clown", "Clown", 2, {"hatch_rate": 0, "at_least": 0}, 1, id="nothing need hatch"),
        pytest.param("Clown", "Clown", {1: 0.5, 2: 0.5}, {"hatch_rate": 0.5}, Fraction(5, 8), id="clutch sizes"),
        pytest.param("het Clown", "Clown", 2, {"exactly": True}, Fraction(3, 4), id="exactly"),
        pytest.param("Clown", "Pastel Clown", 2, {"without": ["Pastel"]}, Fraction(3, 4), id="without"),
    ],
)
def test_chance_in_clutch__cases(dam, sire, eggs, more, expected):
    """Derived by hand; eggs counts eggs laid."""
    assert cross(dam, sire).chance_in_clutch("Clown", eggs=eggs, **more) == expected


def test_chance_in_clutch__lost_eggs_are_eggs_laid():
    """Of eggs laid by Spider with Spider 1/2 are Spider hatchlings; of hatchlings 2/3 are. Derived."""
    odds = cross("Spider", "Spider")
    assert odds.chance("Spider") == Fraction(2, 3)
    assert odds.chance_in_clutch("Spider", eggs=1) == HALF
    assert odds.chance_in_clutch("Spider", eggs=4, hatch_rate=0.5) == 1 - Fraction(3, 4) ** 4
    # A lethal that the target does not name costs eggs as well.
    pastel = cross("Spider Pastel", "Spider")
    assert pastel.chance("Pastel") == HALF
    assert pastel.chance_in_clutch("Pastel", eggs=1) == Fraction(3, 8)


def test_chance_in_clutch__one_sure_egg_is_the_chance():
    for dam, sire in CROSSES:
        odds = cross(dam, sire)
        for target in ("Pastel", "Clown", "Normal"):
            assert odds.chance_in_clutch(target, eggs=1) == odds.chance(target) * odds.viable


@pytest.mark.parametrize(("dam", "sire"), CROSSES)
def test_expected_in_clutch__is_the_sum_of_the_tails(dam, sire):
    odds = cross(dam, sire)
    law = {3: 0.25, 5: 0.75}
    for target in ("Pastel", "Clown"):
        tails = [odds.chance_in_clutch(target, eggs=law, hatch_rate=0.8, at_least=k) for k in range(1, 6)]
        assert odds.expected_in_clutch(target, eggs=law, hatch_rate=0.8) == sum(tails)


def test_expected_in_clutch__takes_exactly_and_without():
    odds = cross("Pastel Leopard", "Normal")
    assert odds.expected_in_clutch("Pastel", eggs=4) == 2
    assert odds.expected_in_clutch("Pastel", eggs=4, exactly=True) == 1
    assert odds.expected_in_clutch("Pastel", eggs=4, without=["Leopard"]) == 1


def test_viable__is_the_share_of_eggs():
    assert cross("Spider", "Spider").viable == Fraction(3, 4)
    assert cross("Spider Champagne", "Spider Champagne").viable == Fraction(9, 16)
    assert cross("50% Spider", "Spider").viable == Fraction(7, 8)
    assert cross("Pastel", "Pastel").viable == 1


CLUTCH = cross("het Clown", "66% het Clown")


@pytest.mark.parametrize("question", [CLUTCH.chance_in_clutch, CLUTCH.expected_in_clutch])
@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"eggs": -1}, "a clutch has a whole number of eggs from 0 up, found -1"),
        ({"eggs": 6.5}, "a clutch has a whole number of eggs from 0 up, found 6.5"),
        ({"eggs": "6"}, "a clutch has a whole number of eggs from 0 up, found '6'"),
        ({"eggs": {6: 0.5}}, "the chances of the clutch sizes must sum to 1, found 1/2"),
        ({"eggs": {6: 1.5, 5: -0.5}}, "the chance of 6 eggs lies from 0 to 1, found 3/2"),
        ({"eggs": 6, "hatch_rate": 1.2}, "a hatch rate lies from 0 to 1, found 1.2"),
        ({"eggs": 6, "hatch_rate": -0.1}, "a hatch rate lies from 0 to 1, found -0.1"),
        ({"eggs": 6, "hatch_rate": "most"}, "a number is needed, such as 0.81 or 3/4, found 'most'"),
        ({"eggs": 6, "hatch_rate": float("nan")}, "a number is needed, such as 0.81 or 3/4, found nan"),
    ],
)
def test_in_clutch__says_what_is_wrong(question, more, words):
    with pytest.raises(ValueError) as caught:
        question("Clown", **more)
    assert str(caught.value) == words


@pytest.mark.parametrize("number", [-1, 1.5, "one"])
def test_in_clutch__number_of_hatchlings(number):
    with pytest.raises(ValueError) as caught:
        CLUTCH.chance_in_clutch("Clown", eggs=6, at_least=number)
    assert str(caught.value) == f"a number of hatchlings from 0 up is needed, found {number!r}"


@pytest.mark.parametrize("number", [-1, 1.5])
def test_top_looks__number_of_looks(number):
    with pytest.raises(ValueError) as caught:
        CLUTCH.top_looks(number)
    assert str(caught.value) == f"a number of looks from 0 up is needed, found {number!r}"


def questions(text):
    return [
        lambda: CLUTCH.chance(text),
        lambda: CLUTCH.chance("Clown", without=[text]),
        lambda: CLUTCH.chance_in_clutch(text, eggs=6),
        lambda: CLUTCH.expected_in_clutch(text, eggs=6),
        lambda: CLUTCH.events(text),
    ]


@pytest.mark.parametrize("at", range(5))
@pytest.mark.parametrize(
    ("text", "kind", "words"),
    [
        (
            "Cloun",
            UnreadableGenes,
            '"Cloun" cannot be read: found "Cloun"; needed names of genes and words of shorthand.',
        ),
        ("", UnreadableGenes, '"" cannot be read: found no gene; needed the name of a gene.'),
        ("Snow", AmbiguousGenes, '"Snow" has more than one meaning: found "Snow"; needed one meaning.'),
        (
            "Pastel het Clown",
            ImpossibleGenes,
            '"Pastel het Clown" cannot be true: found Clown as carried, uncertain or placed; needed genes that show: a '
            "target names what shows.",
        ),
        (
            "male maker Banana",
            ImpossibleGenes,
            '"male maker Banana" cannot be true: found Banana as carried, uncertain or placed; needed genes that show: '
            "a target names what shows.",
        ),
        (
            "Mojave Lesser Butter",
            ImpossibleGenes,
            '"Mojave Lesser Butter" cannot be true: found more than two alleles of one complex (blue-eyed leucistic): '
            "Mojave, Lesser, Butter; needed at most two.",
        ),
    ],
)
def test_target__says_what_is_wrong(text, kind, words, at):
    with pytest.raises(kind) as caught:
        questions(text)[at]()
    assert str(caught.value).startswith(f"{words} To do: ")


@pytest.mark.parametrize(
    ("rate", "fraction"), [(0, 0), (1, 1), (0.81, Fraction(81, 100)), (Fraction(2, 3), Fraction(2, 3))]
)
def test_checked_rate__is_exact(rate, fraction):
    assert checked_rate(rate) == fraction
