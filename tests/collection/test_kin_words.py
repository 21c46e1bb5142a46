"""Kinship in a collection, and relations in a breeder's words."""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import combinations, pairwise

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.collection import Collection, kin_sentence, read_collection, relation
from tests.oracle.kinship_paths import family, kinship

HEAD = "id,sex,genes,dam,sire"

STANDARD = {
    "the same animal": "1/2",
    **dict.fromkeys(("is the dam of", "is the sire of", "full siblings"), "1/4"),
    "three-quarter siblings": "3/16",
    **dict.fromkeys(("half siblings", "grandsire", "granddam", "aunt", "uncle", "double first cousins"), "1/8"),
    **dict.fromkeys(("great-grandsire", "great-granddam", "great-aunt", "great-uncle", "first cousins"), "1/16"),
    **dict.fromkeys(("half aunt", "half uncle"), "1/16"),
    **dict.fromkeys(("half first cousins", "first cousins once removed"), "1/32"),
    "second cousins": "1/64",
}
"""Standard values of single matings (Wright 1922, recalled; derived), by how the words begin or what they hold."""

MANY = family("""
    old daughter        = matriarch x patriarch
    second daughter     = matriarch x patriarch
    son                 = matriarch x patriarch
    half sister         = second wife x patriarch
    three-quarter niece = old daughter x in-law
    three-quarter twin  = second daughter x in-law
    from the sister     = sister of the second wife x patriarch
    second wife         = old dam x old sire
    sister of the second wife = old dam x old sire
    from the daughter   = daughter of the third x patriarch
    from the third      = third wife x patriarch
    daughter of the third = third wife x stranger 1
    granddaughter       = old daughter x stranger 2
    grandson            = stranger 3 x son
    half cousin         = half sister x stranger 4
    great-grandson      = granddaughter x stranger 5
    other great-grandson = stranger 6 x grandson
    great-great-grandson = stranger 7 x other great-grandson
    wife of the son     = their mother x their father
    brother of his wife = their mother x their father
    double              = wife of the son x son
    other double        = second daughter x brother of his wife
    triple              = second daughter x his other brother
    his other brother   = their mother x their father
    fourth              = old daughter x brother of his wife
""")

LOOPED = family("""
    daughter             = dam x sire
    inbred daughter      = daughter x sire
    twice                = inbred daughter x sire
    son                  = dam x sire
    inbred son           = daughter x son
    his                  = other dam x inbred son
    hers                 = third dam x inbred son
    with the dam         = dam x inbred son
    double half cousin   = half 1 x half 2
    double half cousin 2 = half 3 x half 4
    half 1               = - x old sire
    half 2               = old dam x -
    half 3               = - x old sire
    half 4               = old dam x -
    aunt of her uncle    = first mother x first son
    uncle of his aunt    = first daughter x first father
    first daughter       = first mother x -
    first son            = - x first father
    theirs               = aunt of her uncle x uncle of his aunt
""")

RELATIONS = [
    ("son", "son", "the same animal"),
    ("old daughter", "great-grandson", "granddam and grandson"),
    ("old daughter", "granddaughter", "old daughter is the dam of granddaughter"),
    ("grandson", "son", "son is the sire of grandson"),
    ("son", "old daughter", "full siblings"),
    ("son", "half sister", "half siblings (same sire)"),
    ("half sister", "from the sister", "three-quarter siblings (same sire)"),
    ("three-quarter niece", "three-quarter twin", "three-quarter siblings (same sire)"),
    ("from the daughter", "from the third", "three-quarter siblings (same sire)"),
    ("daughter of the third", "from the third", "half siblings (same dam)"),
    ("patriarch", "grandson", "grandsire and grandson"),
    ("grandson", "matriarch", "granddam and grandson"),
    ("patriarch", "granddaughter", "grandsire and granddaughter"),
    ("matriarch", "great-grandson", "great-granddam and great-grandson"),
    ("old daughter", "grandson", "aunt and nephew"),
    ("granddaughter", "son", "uncle and niece"),
    ("half sister", "granddaughter", "half aunt and half niece"),
    ("old daughter", "other great-grandson", "great-aunt and great-nephew"),
    ("double", "other double", "double first cousins"),
    ("triple", "fourth", "double first cousins"),
    ("granddaughter", "grandson", "first cousins"),
    ("half cousin", "grandson", "half first cousins"),
    ("granddaughter", "other great-grandson", "first cousins once removed"),
    ("great-grandson", "other great-grandson", "second cousins"),
    ("great-grandson", "great-great-grandson", "related"),
    ("stranger 1", "son", "not related, as far as is recorded"),
]

SEXES = {name: sex for dam, sire in MANY.values() for name, sex in ((dam, "female"), (sire, "male"))}
SEXES |= dict.fromkeys(("great-grandson", "great-great-grandson"), "male")


def collected(pedigree, sexes=None):
    sexes = sexes or {}
    rows = [f"{key},{sexes.get(key, '')},Normal,{dam or ''},{sire or ''}" for key, (dam, sire) in pedigree.items()]
    return Collection.from_text("\n".join([HEAD, *rows]) + "\n")


def standard(words):
    """The standard value of the relation that words name; the longest phrase that fits counts."""
    fits = [phrase for phrase in STANDARD if words.startswith(phrase) or f" {phrase} " in words]
    return Fraction(STANDARD[max(fits, key=len)])


@pytest.mark.parametrize(("one", "two", "words"), RELATIONS, ids=lambda value: value)
def test_relation__in_words(one, two, words):
    found = relation(collected(MANY, SEXES), one, two)
    assert found.words == words
    assert found.kinship == kinship(MANY, one, two)
    if words not in ("related", "not related, as far as is recorded"):
        assert found.kinship == standard(words)


@pytest.fixture(scope="module")
def joined():
    """The same animals, but all founders descend from one animal, in lines of nine generations that part at once."""
    pedigree = {"first": (None, None)}
    for key, parents in MANY.items():
        line = ["first", *(f"{key} {t}" for t in range(8)), key]
        pedigree |= {key: parents} if any(parents) else {younger: (None, elder) for elder, younger in pairwise(line)}
    return collected(pedigree, SEXES)


@pytest.mark.parametrize(("one", "two", "words"), RELATIONS, ids=lambda value: value)
def test_relation__further_back(one, two, words, joined):
    found = relation(joined, one, two).words
    if words in ("the same animal", "related"):
        assert found == words
    else:
        assert found == ("related" if words.startswith("not") else f"{words} and related otherwise too")


@pytest.mark.parametrize("pedigree", [pytest.param(MANY, id="plain"), pytest.param(LOOPED, id="looped")])
def test_relation__same_in_either_order(pedigree):
    for one, two in combinations(pedigree, 2):
        there, back = relation(pedigree, one, two), relation(pedigree, two, one)
        assert (there.words, there.kinship, there.recorded) == (back.words, back.kinship, back.recorded)


@pytest.mark.parametrize(
    ("one", "two", "words"),
    [
        ("grandparent", "child", "grandsire and grandchild"),
        ("grandparent", "daughter", "grandsire and granddaughter"),
        ("aunt or uncle", "child", "aunt or uncle and niece or nephew"),
        ("aunt or uncle", "daughter", "aunt or uncle and niece"),
    ],
)
def test_relation__sexes_that_parents_do_not_tell(one, two, words):
    """From parents alone, a sex is known of those that are a dam or sire."""
    pedigree = family("""
        dam           = - x grandparent
        sire          = grandmother x grandfather
        aunt or uncle = grandmother x grandfather
        child         = dam x sire
        daughter      = dam x sire
        grandchild    = daughter x -
    """)
    assert relation(pedigree, one, two).words == words


@pytest.mark.parametrize(
    ("one", "two", "words", "figure"),
    [
        ("daughter", "inbred daughter", "daughter is the dam of inbred daughter and related otherwise too", "3/8"),
        ("sire", "inbred daughter", "sire is the sire of inbred daughter and related otherwise too", "3/8"),
        ("his", "hers", "half siblings (same sire) and related otherwise too", "5/32"),
        ("daughter", "son", "full siblings", "1/4"),
        ("daughter", "with the dam", "half siblings (same dam) and related otherwise too", "5/16"),
        ("double half cousin", "double half cousin 2", "half first cousins and related otherwise too", "1/16"),
        ("uncle of his aunt", "aunt of her uncle", "half aunt and half nephew and related otherwise too", "1/8"),
    ],
)
def test_relation__closest_and_further_back(one, two, words, figure):
    found = relation(LOOPED, one, two)
    assert (found.words, found.kinship) == (words, Fraction(figure))


@pytest.mark.parametrize(
    ("one", "two", "recorded", "lower_bound"),
    [
        ("founder", "complete", False, "parents of founder are not recorded"),
        ("no dam", "complete", False, "no dam's dam is not recorded"),
        ("no dam", "no sire", False, "no dam's dam and no sire's sire are not recorded"),
        ("no dam", "founder", False, "no dam's dam and parents of founder are not recorded"),
        ("founder", "other founder", False, "parents of founder and other founder are not recorded"),
        ("founder", "founder", False, "parents of founder are not recorded"),
        ("complete", "deep", True, "not all of their grandparents are recorded"),
        ("deep", "deep", True, "not all of its great-grandparents are recorded"),
        ("deepest", "deepest", True, "not all of its ancestors are recorded"),
    ],
)
def test_relation__what_is_not_recorded(one, two, recorded, lower_bound):
    pedigree = family("""
        no dam     = - x other founder
        no sire    = founder x -
        complete   = founder x other founder
        complete 2 = founder x other founder
        deep       = complete x complete 2
        deep 2     = complete x complete 2
        deepest    = deep x deep 2
    """)
    found = relation(pedigree, one, two)
    assert (found.recorded, found.lower_bound) == (recorded, lower_bound)


def test_kin_sentence():
    pedigree = family("""
        F03 = - x M01
        M04 = F01 x M01
    """)
    assert kin_sentence(relation(pedigree, "F03", "M04"), "12.5 %") == (
        "half siblings (same sire): offspring's inbreeding coefficient 12.5 %, or more: F03's dam is not recorded"
    )


@given(st.integers(0, 10**6))
def test_relation__fits_the_figure(seed):
    """On random pedigrees: a named relation explains its figure or says that there is more; 0 is not related."""
    rng = random.Random(seed)
    pedigree = {f"f{i}" if i % 2 else f"m{i}": (None, None) for i in range(4)}
    for i in range(4, 14):
        mothers, fathers = ([key for key in pedigree if key[0] == sex] for sex in "fm")
        parents = (rng.choice([*mothers, None]), rng.choice([*fathers, None]))
        pedigree[f"{rng.choice('fm')}{i}"] = parents
    for one, two in combinations(pedigree, 2):
        found = relation(pedigree, one, two)
        plain = found.words.removesuffix(" and related otherwise too")
        if plain == "not related, as far as is recorded":
            assert found.kinship == 0
        elif plain == "related":
            assert found.kinship > 0
            assert not set(pedigree[one]) & set(pedigree[two]) - {None}
        else:
            generic = plain.replace("grandparent", "grandsire").replace("aunt or uncle", "aunt")
            assert found.kinship >= standard(generic)
            assert (found.kinship > standard(generic)) == (plain != found.words)


def test_relation__unknown_ids():
    with pytest.raises(KeyError, match="no animal 'm1'; nearest: M01"):
        relation(Collection.from_text(f"{HEAD}\nM01,male,Normal,,\n"), "M01", "m1")
    with pytest.raises(KeyError, match="m1"):
        relation({"M01": (None, None)}, "M01", "m1")


def test_collection_kinship__in_file_order():
    """Offspring may stand above their parents; a parent that is not in the file is taken as unknown."""
    text = f"{HEAD}\nF02,female,Normal,F01,M01\nM01,male,Normal,,\nF01,female,Normal,,M01\nM02,male,Normal,F99,M01\n"
    animals = Collection.from_text(text)
    table = animals.kinship()
    assert list(table.index) == list(table.columns) == ["F02", "M01", "F01", "M02"]
    assert table.loc["F02"].tolist() == [0.625, 0.375, 0.375, 0.1875]
    assert table.loc["M01", "F01"] == 0.25
    assert set(table.dtypes.astype(str)) == {"float64"}


def test_collection_kinship__agrees_with_inbreeding(demo_collection):
    animals = read_collection(demo_collection)
    table = animals.kinship()
    assert table.shape == (len(animals), len(animals))
    pd.testing.assert_frame_equal(table, table.T)
    for one, two in combinations([animal.id for animal in animals], 2):
        assert table.loc[one, two] == animals.inbreeding(one, two)


def test_collection_kinship__a_changed_table_changes_nothing():
    animals = collected(family("child = dam x sire"))
    changed = animals.kinship()
    changed.loc["dam", "sire"] = 1.0
    assert animals.inbreeding("dam", "sire") == 0
    assert animals.kinship().loc["dam", "child"] == 0.25


def test_collection_inbreeding(demo_collection):
    """F11 is by M02 from F03, half siblings by M01; M01 is so her grandsire twice."""
    animals = read_collection(demo_collection)
    found = animals.inbreeding("F11", "M01")
    assert found == Fraction(1, 4)
    assert isinstance(found, Fraction)
    assert animals.inbreeding("F03", "M02") == Fraction(1, 8)
    assert relation(animals, "F03", "M02").words == "half siblings (same sire)"
    for pair in (("F11", "m1"), ("m1", "F11")):
        with pytest.raises(KeyError, match="no animal 'm1'; nearest: M01"):
            animals.inbreeding(*pair)


def test_collection_kinship__of_no_animals():
    assert Collection.from_text(f"{HEAD}\n").kinship().shape == (0, 0)
