"""Reading a clutch book: what its rows mean, and all that can be wrong with them, found at once."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from itertools import product
from pathlib import Path

import pytest

from explorer.catalogue import load_catalogue
from explorer.collection import Collection, CollectionError
from explorer.collection.clutch import Hatchlings
from explorer.collection.clutch_book import ClutchBook, read_clutches
from explorer.collection.clutch_looks import read_look
from explorer.genetics import genome_of
from explorer.looks import shown
from explorer.notation import GenesError, read_genes

CATALOGUE = load_catalogue()
GENOME = genome_of(CATALOGUE)

ANIMALS = """id,sex,genes,hatched,sire,dam,clutch
F01,f,Pastel het Clown,2018-07-01,,,
F02,f,Leopard,2018-07-01,,,
M01,m,het Clown,2019-07-01,,,
M04,m,Yellow Belly,2019-07-01,,,
X01,?,Normal,2019-07-01,,,
X02,?,Normal,2019-07-01,,,
K01,f,Pastel,2026-07-01,M01,F01,C01
K02,m,Pastel,2026-07-01,,F01,C01
K03,?,Clown,2026-07-01,,,C01
"""
HEADER = "clutch,dam,sire,laid,hatched,eggs,look,sex,count,slugs,died,deformed,clutch_weight_g,incubation_c,notes\n"
FIRST = "C01,F01,M01,2026-05-01,2026-06-29,8,Pastel,female,3,1,,1,520,31.5,calm dam\n"
REST = 'C01,,,,,,Normal,,2,,,,,,\nC01,,,2026-05-01,,,"Clown, maybe Yellow Belly",m,1,,,,,,second shelf\n'


@pytest.fixture(scope="module")
def animals() -> Collection:
    return Collection.from_text(ANIMALS)


def row(text: str = "", **cells: str) -> str:
    """A row of the clutch book: clutch C09 of F02 and M04 with one Leopard, but for what is given."""
    columns = HEADER.strip().split(",")
    texts = {"clutch": "C09", "dam": "F02", "sire": "M04", "look": "Leopard", "count": "1", **cells}
    return text + ",".join(f'"{texts.get(name, "")}"' for name in columns) + "\n"


def findings(text: str, animals: Collection) -> list[str]:
    try:
        return [str(one) for one in ClutchBook.from_text(HEADER + text, animals).findings]
    except CollectionError as error:
        assert any(one.severity == "error" for one in error.findings)
        return [str(one) for one in error.findings]


def test_a_clutch(animals: Collection) -> None:
    book = ClutchBook.from_text(HEADER + FIRST + REST, animals)
    (clutch,) = book.clutches
    assert (clutch.id, clutch.dam, clutch.sires, clutch.several, clutch.row) == ("C01", "F01", ("M01",), False, 2)
    assert (clutch.laid, clutch.hatched, clutch.eggs) == (date(2026, 5, 1), date(2026, 6, 29), 8)
    assert clutch.further == {
        **{"slugs": "1", "died": "", "deformed": "1", "clutch_weight_g": "520", "incubation_c": "31.5"},
        "notes": "calm dam; second shelf",
    }
    assert clutch.hatchlings == (
        Hatchlings("Pastel", 3, "female", {"pastel": (("Pastel", 1),)}, row=2),
        Hatchlings("Normal", 2, None, {}, row=3),
        Hatchlings(
            *("Clown, maybe Yellow Belly", 1, "male", {"clown": (("Clown", 2),)}),
            maybe={"Yellow Belly": Fraction(3)},
            row=4,
        ),
    )
    assert book.kept == {"C01": ("K01", "K02", "K03")}
    assert book.findings == ()


def test_an_empty_book(animals: Collection) -> None:
    book = ClutchBook.from_text(HEADER, animals)
    assert (book.clutches, dict(book.kept), len(book)) == ((), {}, 0)
    assert [finding.found for finding in book.findings] == ["no clutches yet"]


def test_a_clutch_without_hatchlings_yet(animals: Collection) -> None:
    (clutch,) = ClutchBook.from_text(HEADER + row(look="", count="", eggs="7"), animals)
    assert (clutch.eggs, clutch.hatchlings) == (7, ())


def test_optional_columns_may_be_missing(animals: Collection) -> None:
    book = ClutchBook.from_text("Count;look;sire;clutch;dam\n2;Leopard;M04;C09;F02\n", animals)
    (clutch,) = book
    assert (clutch.laid, clutch.eggs, clutch.hatchlings[0].sex, clutch.further) == (None, None, None, {})


@pytest.mark.parametrize(
    ("text", "sires", "several"),
    [
        ("M01", ("M01",), False),
        ("M01 or M04", ("M01", "M04"), False),
        ("M04 AND M01", ("M04", "M01"), True),
        ("M01, M04 or X01", ("M01", "M04", "X01"), False),
        ("M01, M04, and X01", ("M01", "M04", "X01"), True),
    ],
)
def test_sires(text: str, sires: tuple[str, ...], several: bool, animals: Collection) -> None:
    (clutch,) = ClutchBook.from_text(HEADER + row(sire=text), animals)
    assert (clutch.sires, clutch.several) == (sires, several)


def test_an_id_that_looks_like_two() -> None:
    animals = Collection.from_text("id,sex,genes\nF01,f,Normal\nthis or that,m,Normal\n")
    (clutch,) = ClutchBook.from_text(HEADER + row(dam="F01", sire="this or that", look="Normal"), animals)
    assert clutch.sires == ("this or that",)


@pytest.mark.parametrize(
    ("text", "seen", "unsure"),
    [
        ("Normal", {}, []),
        ("Super Pastel Leopard", {"Pastel": 2, "Leopard": 1}, []),
        ("Mojave Lesser", {"Mojave": 1, "Lesser": 1}, []),
        ("Banana", {"Banana": 1}, []),
        ("Pastel, maybe Yellow Belly", {"Pastel": 1}, ["Yellow Belly"]),
        ("Pastel maybe YB", {"Pastel": 1}, ["Yellow Belly"]),
        ("Pastel, Yellow Belly perhaps", {"Pastel": 1}, ["Yellow Belly"]),
        ("Pastel Yellow Belly?", {"Pastel": 1}, ["Yellow Belly"]),
        ("Yellow Belly? Pastel", {"Pastel": 1}, ["Yellow Belly"]),
        ("Pastel ?Yellow Belly", {"Pastel": 1}, ["Yellow Belly"]),
        ("Pastel (possibly Desert Ghost) Enchi", {"Pastel": 1, "Enchi": 1}, ["Desert Ghost"]),
        ("Desert Ghost (?)", {}, ["Desert Ghost"]),
        ("maybe Pastel, maybe Enchi?", {}, ["Pastel", "Enchi"]),
        ("Mojave maybe Lesser", {"Mojave": 1}, ["Lesser"]),
        ("Desert, Ghost?", {"Desert": 1}, ["Ghost"]),
    ],
)
def test_a_look(text: str, seen: dict[str, int], unsure: list[str]) -> None:
    look = read_look(text, "female", CATALOGUE)
    assert {gene: copies for part in look.seen.values() for gene, copies in part} == seen
    assert (list(look.unsure), look.covered, look.notices) == (unsure, text == "Mojave Lesser", ())


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Pastell", ["Pastell", "Pastel"]),
        ("maybe", ['"maybe" without a gene']),
        ("maybe Yellow Belly Enchi", ["one gene after it", '"maybe Yellow Belly, Enchi"', "maybe Enchi"]),
        ("Pastel, maybe Super Pastel", ["number of copies", '"maybe Pastel"']),
        ("Super Pastel?", ["number of copies"]),
        ("Pastel, maybe Pastel", ["as sure and as unsure"]),
        ("maybe het Clown", ['"het Clown" as unsure']),
        ("maybe Bumblebee", ["write nicknames out"]),
        ("50% Pastel", ["more than one look", "maybe Pastel"]),
        ("Super Spider", ["not viable"]),
        ("Super Mojave, maybe Lesser", ["Mojave beside an unsure Lesser", "two places"]),
        ("Candy Albino, maybe Toffee", ["room for the gene"]),
        ("Mojave Lesser Butter", ["more than two alleles"]),
    ],
)
def test_a_look_that_cannot_be_used(text: str, words: list[str]) -> None:
    with pytest.raises(GenesError) as caught:
        read_look(text, None, CATALOGUE)
    assert all(word in str(caught.value) for word in words), str(caught.value)


@pytest.mark.parametrize(
    "text", ["Pastel", "Normal", "Super Pastel", "maybe Pastel", "Clown", "maybe Clown", "Pastel Clown?"]
)
def test_what_was_read_fits_what_looks_so(text: str) -> None:
    look = read_look(text, None, CATALOGUE)
    row = Hatchlings(text, 1, None, look.seen, dict.fromkeys(look.unsure, Fraction(3)), look.covered)
    wanted = dict(gene for part in look.seen.values() for gene in part)
    for pastel, clown in product(("", "Pastel", "Super Pastel"), ("", "het Clown", "Clown")):
        genotype = read_genes(f"{pastel} {clown}".strip() or "Normal")
        groups = [GENOME.home[gene][0] for gene in ("Pastel", "Clown")]
        diplotypes = {group.name: next(iter(genotype.part(group))) for group in groups}
        weights = [row.fits(GENOME, group, diplotypes[group.name]) for group in groups]
        visible = {gene: n for group in groups for gene, n in shown(group, diplotypes[group.name])}
        sure = {gene: n for gene, n in visible.items() if gene not in look.unsure}
        expected = Fraction(3) ** sum(gene in visible for gene in look.unsure) if sure == wanted else 0
        assert weights[0] * weights[1] == expected, (text, pastel, clown)


def test_hets_say_nothing_and_it_is_said(animals: Collection) -> None:
    (clutch,) = ClutchBook.from_text(HEADER + row(look="Leopard 66% het Clown"), animals)
    assert dict(clutch.hatchlings[0].seen) == {"leopard": (("Leopard", 1),)}
    assert findings(row(look="Leopard poss het Clown"), animals) == [
        "row 2, C09, look: het Clown cannot be seen on a hatchling, so that it says nothing here."
    ]
    assert findings(row(look="male maker Banana", sex="m"), animals) == [
        'row 2, C09, look: "male maker" cannot be seen on a hatchling, so that it says nothing here.'
    ]


def test_an_unsure_gene_in_place_of_one_of_two_recessive_copies(animals: Collection) -> None:
    """A Clown that is perhaps a Clown Cryptic: three to one that it was written so of one that is."""
    (clutch,) = ClutchBook.from_text(HEADER + row(look="Clown, maybe Cryptic"), animals)
    group, _ = GENOME.home["Clown"]
    looks = {text: read_genes(text).part(group) for text in ("Clown", "Clown Cryptic", "Cryptic", "het Clown")}
    fits = {text: {clutch.hatchlings[0].fits(GENOME, group, d) for d in part} for text, part in looks.items()}
    assert fits == {"Clown": {1}, "Clown Cryptic": {3}, "Cryptic": {0}, "het Clown": {0}}


def test_the_odds_of_a_maybe_are_the_catalogues(tmp_path: Path) -> None:
    own = '[[figure]]\nname = "maybe_odds"\nvalue = "5/2"\nunit = "times as likely"\nevidence = "from memory"\n'
    (tmp_path / "own.toml").write_text(own)
    animals = Collection.from_text("id,sex,genes\nF02,f,Leopard\nM04,m,Normal\n", load_catalogue(tmp_path))
    (clutch,) = ClutchBook.from_text(HEADER + row(look="Leopard?"), animals)
    assert clutch.hatchlings[0].maybe == {"Leopard": Fraction(5, 2)}


# the rows of a book, and its findings: row, column, words of the text
FAULTS: dict[str, tuple[str, list[tuple[int, str, list[str]]]]] = {
    "strangers": (
        row(dam="F2", sire="M1 or M4"),
        [(2, "dam", ["F2 is not in", "Nearest: F02"]), (2, "sire", ["M1 and M4 are not in", "M01", "M04"])],
    ),
    "no parents": (
        row(dam="", sire=""),
        [(2, "dam", ["no dam", "in a row of the clutch"]), (2, "sire", ["no sire"])],
    ),
    "a sire twice": (row(sire="M01 or M01"), [(2, "sire", ["names a sire twice"])]),
    "or and and": (
        row(sire="M01 or M04 and X01"),
        [(2, "sire", ['"M01 or M04 or X01" if', '"M01 and M04 and X01" if'])],
    ),
    "sires without a word": (row(sire="M01, M04"), [(2, "sire", ['"or" or "and" between'])]),
    "wrong sexes": (
        row(dam="M01", sire="M04 or F02"),
        [(2, "dam", ["M01 (row 4 of the collection) is male"]), (2, "sire", ["F02 (row 3", "is female"])],
    ),
    "young parents": (
        row(laid="2019-07-01", dam="F02", sire="M01 or M04"),
        [(2, "sire", ["M01 (row 4", "laid on 2019-07-01"]), (2, "sire", ["M04"])],
    ),
    "young dam, by the day of hatching": (
        row(hatched="2018-06-01", sire="X01"),
        [(2, "dam", ["F02", "hatched on 2018-06-01"]), (2, "sire", ["X01"]), (2, "sire", ["taken as male"])],
    ),
    "days": (
        row(laid="2026-05-02", hatched="2026-05-02") + row(clutch="C10", laid="2/5/26", hatched="soon"),
        [
            (2, "hatched", ["hatched on 2026-05-02, and laid on 2026-05-02"]),
            (3, "laid", ["'2/5/26'", "YYYY-MM-DD"]),
            (3, "hatched", ["'soon'"]),
        ],
    ),
    "too few eggs": (
        row(eggs="6", count="4", slugs="1", died="2"),
        [(2, "eggs", ["6 eggs, and 4 hatchlings + 1 slug + 2 that died in the egg = 7"])],
    ),
    "too few eggs over several rows": (
        row(eggs="6", count="4") + row(dam="", sire="", count="3", look="Normal"),
        [(2, "eggs", ["6 eggs, and 7 hatchlings."])],
    ),
    "deformed": (row(eggs="4", slugs="2", deformed="3"), [(2, "deformed", ["3 deformed, of 4 eggs with 2 slugs"])]),
    "contradictory repeats": (
        row(laid="2026-05-01", eggs="6")
        + row(dam="F01", laid="2026-05-03", look="Normal")
        + row(dam="F02", sire="M01", eggs="06", look="Pastel"),
        [
            (3, "dam", ["F01, and F02 in row 2", "one for the clutch"]),
            (3, "laid", ["2026-05-03, and 2026-05-01 in row 2"]),
            (4, "sire", ["M01, and M04 in row 2"]),
        ],
    ),
    "groups": (
        row(count="") + row(look="", sex="f", count="2") + row(look="Pastell", sex="hen", count="0"),
        [
            (2, "count", ["no count"]),
            (3, "look", ["no look", "write Normal"]),
            (4, "look", ["Pastell", "Nearest: Pastel"]),
            (4, "sex", ["'hen'", "female, male or unknown"]),
            (4, "count", ["'0'", "from 1 to 99"]),
        ],
    ),
    "numbers": (
        row(eggs="six", slugs="-1", died="1.5", deformed="100", clutch_weight_g="1,2 kg", incubation_c="88"),
        [
            (2, "eggs", ["'six'", "whole number from 0 to 99"]),
            (2, "slugs", ["'-1'"]),
            (2, "died", ["'1.5'"]),
            (2, "deformed", ["'100'"]),
            (2, "clutch_weight_g", ["grams"]),
            (2, "incubation_c", ["20 to 40", "31.1, if it is in Fahrenheit"]),
        ],
    ),
    "degrees": (
        row(incubation_c="31,5") + row(clutch="C10", incubation_c="32 C") + row(clutch="C11", incubation_c="50"),
        [
            (2, "incubation_c", ["write 31.5, with a point"]),
            (3, "incubation_c", ["number alone"]),
            (4, "incubation_c", ["50", "check the number"]),
        ],
    ),
    "no clutch": (row(clutch=""), [(2, "clutch", ["no clutch", "C01"])]),
    "a sire here and a dam there": (
        row(dam="X01") + row(clutch="C10", sire="X01 or M01"),
        [(2, "dam", ["X01 (row 6 of the collection) is a dam in C09 and a sire in C10"])],
    ),
    "short row": (row() + "C09,F02\n", [(3, "", ["2 columns", "15, as in the header"])]),
}


@pytest.mark.parametrize("name", FAULTS)
def test_every_fault_is_found_at_once(name: str, animals: Collection) -> None:
    text, expected = FAULTS[name]
    with pytest.raises(CollectionError) as caught:
        ClutchBook.from_text(HEADER + text, animals)
    found = list(caught.value.findings)
    assert [(one.row, one.column) for one in found] == [(line, column) for line, column, _ in expected]
    for one, (_, _, words) in zip(found, expected, strict=True):
        assert all(word.casefold() in str(one).casefold() for word in words), str(one)


def test_a_parent_of_unknown_sex_is_what_its_role_says(animals: Collection) -> None:
    assert findings(row(dam="X01", sire="X02 or M01"), animals) == [
        "row 2, C09, dam: the sex of X01 (row 6 of the collection) is not written: taken as female. "
        "Write it in the collection.",
        "row 2, C09, sire: the sex of X02 (row 7 of the collection) is not written: taken as male. "
        "Write it in the collection.",
    ]


def test_columns(animals: Collection) -> None:
    with pytest.raises(CollectionError) as caught:
        ClutchBook.from_text("clutch,dam,sire,looks,count\nC01,F01,M01,Pastel,1\n", animals)
    assert [str(one) for one in caught.value.findings] == [
        "row 1, look: no column of this name. Needed: clutch, dam, sire, look, count. "
        'Is it the column "looks"? Rename it.'
    ]


KEPT = "id,sex,genes,hatched,sire,dam,clutch\nF01,f,Normal,,,,\nF02,f,Normal,,,,\nM01,m,Normal,,,,\nM04,m,Normal,,,,\n"


@pytest.mark.parametrize(
    ("kept", "rows", "column", "words"),
    [
        ("K01,f,Normal,,M04,F01,C09", "Normal,,1", "dam", ["K01 (row 6 of the collection)", "its dam is F01", "F02"]),
        ("K01,f,Normal,,M01,F02,C09", "Normal,,1", "sire", ["its sire is M01", "Needed: M04"]),
        ("K01,f,Normal,,,,C09", "Normal,m,2", "count", ["1 female animal is", "(K01)", "no such hatchlings"]),
        ("K01,f,Normal,,,,C09\nK02,f,Normal,,,,C09", "Normal,m,2/Normal,,1", "count", ["2 female animals", "1 such"]),
        ("K01,m,Normal,,,,C09\nK02,m,Normal,,,,C09", "Normal,m,1/Pastel,f,3", "count", ["2 male animals", "K01, K02"]),
        ("K01,f,Normal,,,,C09\nK02,m,Normal,,,,C09", "Normal,,1", "count", ["2 animals are", "1 such hatchling is"]),
        ("K01,?,Normal,,,,C09", "", "count", ["no such hatchlings are written"]),
    ],
)
def test_kept_hatchlings_that_contradict_the_clutch(kept: str, rows: str, column: str, words: list[str]) -> None:
    lines = [dict(zip(("look", "sex", "count"), one.split(","), strict=True)) for one in rows.split("/") if rows]
    text = "".join(row(**line) for line in lines) or row(look="", count="")
    with pytest.raises(CollectionError) as caught:
        ClutchBook.from_text(HEADER + text, Collection.from_text(f"{KEPT}{kept}\n"))
    assert [(one.row, one.column) for one in caught.value.findings] == [(2, column)]
    assert all(word in str(caught.value) for word in words), str(caught.value)


def test_kept_hatchlings_of_two_sires() -> None:
    animals = Collection.from_text(f"{KEPT}K01,f,Normal,,M01,F02,C09\nK02,f,Normal,,M04,,C09\n")
    assert findings(row(sire="M01 and M04", look="Normal", count="2"), animals) == []
    (found,) = findings(row(sire="M01 or M04", look="Normal", count="2"), animals)
    assert "K01 (row 6 of the collection) is of M01 and K02 (row 7 of the collection) is of M04" in found
    assert 'write "M01 and M04" if the clutch has several sires' in found.replace("Write", "write")


def test_kept_hatchlings_are_not_counted_where_a_row_cannot_be_read() -> None:
    animals = Collection.from_text(f"{KEPT}K01,f,Normal,,,,C09\n")
    assert len(findings(row(look="Pastell"), animals)) == 1
    assert len(findings(row(look="", count="") + "C09,short\n", animals)) == 1


def test_a_kept_hatchling_is_no_ancestor_of_its_clutch() -> None:
    animals = Collection.from_text(f"{KEPT}K01,f,Normal,,,,C09\nK02,f,Normal,,,K01,\n")
    (found,) = findings(row(dam="K02", look="Normal"), animals)
    assert "K01 (row 6 of the collection) hatched in this clutch, and is an ancestor of its dam K02" in found
    (found,) = findings(row(dam="K01", look="Normal"), animals)
    assert "hatched in this clutch, and is its dam." in found


def test_clutches_in_a_circle() -> None:
    animals = Collection.from_text(f"{KEPT}K01,f,Normal,,,,C09\nK02,f,Normal,,,,C10\n")
    found = findings(row(dam="K02", look="Normal") + row(clutch="C10", dam="K01", look="Normal"), animals)
    assert len(found) == 2 and all("an ancestor of its dam" in one for one in found)


def test_files_that_are_no_clutch_book(tmp_path: Path, animals: Collection) -> None:
    file = tmp_path / "clutches.csv"
    for data, words in (
        (b"", "start with: clutch,dam,sire,look,count"),
        (b"\xef\xbb\xbf\r\n", "group of like hatchlings"),
        (HEADER.replace(",", "\t").encode(), "tabs"),
        (HEADER.encode() + b"C01,\xff\n", "UTF-8"),
    ):
        file.write_bytes(data)
        with pytest.raises(CollectionError) as caught:
            read_clutches(file, animals)
        assert words.casefold() in str(caught.value).casefold()
        assert file.read_bytes() == data
    with pytest.raises(CollectionError, match="which is no text"):
        ClutchBook.from_text(HEADER + "C01,\ud800", animals)
    with pytest.raises(CollectionError, match="there is no file"):
        read_clutches(tmp_path / "gone.csv", animals)
