"""What may be written twice in a clutch book, or with a wrong day: notices, and nothing is left out for them."""

from __future__ import annotations

import pytest

from explorer.collection import Collection, CollectionError
from explorer.collection.clutch_book import ClutchBook

HEADER = "clutch,dam,sire,laid,hatched,eggs,slugs,deformed,look,sex,count\n"
ANIMALS = """id,sex,genes,hatched,sire,dam,clutch
F,f,50% het Clown,2018-07-01,,,
G,f,50% het Clown,2024-09-01,,,
M,m,Clown,2018-07-01,,,
N,m,Normal,2018-07-01,,,
"""


def said(*rows: str, kept: str = "") -> list[str]:
    animals = Collection.from_text(ANIMALS + kept)
    return [str(one) for one in ClutchBook.from_text(HEADER + "\n".join(rows), animals).findings]


def test_one_clutch_under_two_names() -> None:
    days = "2025-01-01,2025-03-01,6,,"
    assert said(f"C1,F,M,{days},Normal,,3", f"C2,F,M,{days},Normal,,4") == [
        "row 3, C2, clutch: C2 has the same parents, days and eggs as C1 (row 2). Delete one if it was written down "
        "twice; until then both count."
    ]


@pytest.mark.parametrize(
    "second",
    ["C2,F,M,2025-01-08,2025-03-01,6,,", "C2,F,M or N,2025-01-01,2025-03-01,6,,", "C2,F,M,2025-01-01,2025-03-01,7,,"],
)
def test_two_clutches(second: str) -> None:
    assert said("C1,F,M,2025-01-01,2025-03-01,6,,,Normal,,3", f"{second},Normal,,3") == []


def test_two_clutches_of_which_no_day_is_written() -> None:
    assert said("C1,F,M,,,,,,Normal,,3", "C2,F,M,,,,,,Normal,,3") == []


def test_rows_that_say_the_same() -> None:
    row = "C1,F,M,,,,,,Normal"
    assert said(f"{row},,3", f"{row},,3", f"{row},f,3", f"{row},,2") == [
        "row 3, C1, count: rows 2 and 3 of C1 say the same, and count as 6. Delete one if it was pasted twice."
    ]


def test_names_that_differ_in_capitals_alone() -> None:
    assert said("C1,F,M,,,,,,Normal,,3", "c1,G,M,,,,,,Normal,,3") == [
        "row 3, c1, clutch: c1 and C1 (row 2) differ in capitals alone. Write the name in one way if it is one clutch; "
        "until then they are two."
    ]
    assert said("C1,F,M,,,,,,Normal,,3", kept="K,f,Normal,,M,F,c1\n") == [
        "row 2, C1, clutch: K is of a clutch c1 in the collection, and here is a clutch C1. Write the name in one way "
        "if it is one clutch; until then they are two."
    ]


def test_a_hatchling_that_names_no_clutch() -> None:
    row = "C1,F,M,,2025-03-01,,,,Normal,,3"
    assert said(row, kept="K,f,Normal,2025-03-01,M,F,\n") == [
        "row 2, C1, clutch: K has the parents and the day of hatching of this clutch, and names no clutch. Write "
        '"C1" into its clutch column if it hatched here; until then it counts apart.'
    ]
    for other in ("K,f,Normal,2025-03-02,M,F,\n", "K,f,Normal,2025-03-01,N,F,\n", "K,f,Normal,,M,F,\n"):
        assert said(row, kept=other) == []


@pytest.mark.parametrize(
    ("laid", "hatched", "days"), [("2025-01-01", "2025-02-09", 39), ("2025-01-01", "2025-04-12", 101)]
)
def test_days_from_laying_to_hatching(laid: str, hatched: str, days: int) -> None:
    (only,) = said(f"C1,F,M,{laid},{hatched},,,,Normal,,3")
    assert only.startswith(f"row 2, C1, hatched: hatched on {hatched}, {days} days after it was laid on {laid}. Check")
    assert said("C1,F,M,2025-01-01,2025-02-10,,,,Normal,,3", "C2,F,M,2026-01-01,2026-04-11,,,,Normal,,3") == []


def test_a_young_parent() -> None:
    assert said("C1,G,M,2025-08-31,,,,,Normal,,3") == [
        "row 2, C1, dam: G (row 3 of the collection) hatched on 2024-09-01, 364 days before 2025-08-31. Check both "
        "days."
    ]
    assert said("C1,G,M,2025-09-01,,,,,Normal,,3") == []


def test_a_kept_hatchling_of_another_day() -> None:
    row = "C1,F,M,2025-01-01,2025-03-01,,,,Normal,,3"
    assert said(row, kept="K,f,Normal,2019-01-01,M,F,C1\n") == [
        "row 2, C1, hatched: K (row 6 of the collection) hatched on 2019-01-01, and its clutch on 2025-03-01. Mend one "
        "of the two days."
    ]
    assert said(row, kept="K,f,Normal,2025-03-08,M,F,C1\n") == [], "clutch mates take some days"
    (only,) = said("C1,F,M,2025-01-01,,,,,Normal,,3", kept="K,f,Normal,2019-01-01,M,F,C1\n")
    assert "its clutch was laid on 2025-01-01" in only


def test_too_many_slugs_are_one_mistake() -> None:
    with pytest.raises(CollectionError) as caught:
        said("C1,F,M,,,6,9,,Normal,,3")
    (only,) = caught.value.findings
    assert (only.column, only.found) == ("eggs", "6 eggs, and 3 hatchlings + 9 slugs = 12")


def test_a_name_with_signs_that_no_id_has() -> None:
    with pytest.raises(CollectionError) as caught:
        said("<b>C1</b>,F,M,,,,,,Normal,,3")
    (only,) = caught.value.findings
    assert only.column == "clutch" and "letters and digits" in only.needed


@pytest.mark.parametrize(("name", "meant"), [("died in the egg", "died"), ("incubation temperature", "incubation_c")])
def test_a_column_that_may_be_misnamed(name: str, meant: str) -> None:
    animals = Collection.from_text(ANIMALS)
    book = ClutchBook.from_text(f"clutch,dam,sire,look,count,{name}\nC1,F,M,Normal,3,2\n", animals)
    assert [str(one) for one in book.findings] == [
        f'row 1, {name}: a column that means nothing here, and is kept as it is. Is it "{meant}"? Rename it then.'
    ]
    assert ClutchBook.from_text("clutch,dam,sire,look,count,shelf\nC1,F,M,Normal,3,2\n", animals).findings == ()
