"""Every row of known_crosses.csv: this pair gives this fraction. A failure prints the whole cross, to be bisected.

asked: "look" and "genotype" are rows of the tables, "daughters" and "sons" genotypes of one sex as shares of all
hatchlings; "shows" and "exactly" are what `chance` answers.
"""

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from explorer.pairing import cross

FILE = Path(__file__).with_name("known_crosses.csv")
with FILE.open(encoding="utf-8", newline="") as lines:
    ROWS = list(csv.DictReader(lines))


def answer(odds, asked, what):
    if asked in ("shows", "exactly"):
        return odds.chance(what, exactly=asked == "exactly")
    table = odds.looks() if asked == "look" else odds.genotypes()
    if asked in ("daughters", "sons"):
        table = table[table.sex == {"daughters": "female", "sons": "male"}[asked]]
    column = "look" if asked == "look" else "genotype"
    return sum(table.fraction[table[column] == what], Fraction(0))


def breakdown(row, odds, found):
    tables = [odds.looks()[["look", "fraction"]], odds.genotypes()[["genotype", "sex", "fraction"]]]
    return "\n".join(
        [
            f"{row['dam']} x {row['sire']}: {row['asked']} {row['what']}",
            f"found {found}, the file says {row['fraction']} ({row['source']})",
            *(table.to_string(index=False) for table in tables),
            f"viable eggs: {odds.viable}",
        ]
    )


def named(row):
    return f"{row['dam']} x {row['sire']} {row['asked']} {row['what']}"


@pytest.mark.parametrize("row", ROWS, ids=named)
def test_cross__as_in_the_file(row):
    odds = cross(row["dam"], row["sire"])
    found = answer(odds, row["asked"], row["what"])
    assert found == Fraction(row["fraction"]), breakdown(row, odds, found)


TURNED = [row for row in ROWS if row["asked"] not in ("daughters", "sons") and "Banana" not in row["dam"] + row["sire"]]


@pytest.mark.parametrize("row", TURNED, ids=named)
def test_cross__autosomal_rows_hold_with_the_parents_exchanged(row):
    odds = cross(row["sire"], row["dam"])
    assert answer(odds, row["asked"], row["what"]) == Fraction(row["fraction"]), row


def test_file__is_whole():
    assert len(ROWS) >= 40
    assert {row["asked"] for row in ROWS} == {"look", "genotype", "daughters", "sons", "shows", "exactly"}
    assert all(row["source"] for row in ROWS)


def test_breakdown__names_the_cross_the_source_and_every_class():
    row = ROWS[3]
    text = breakdown(row, cross(row["dam"], row["sire"]), Fraction(1, 3))
    first, second = "het Clown x het Clown: look Clown", "found 1/3, the file says 1/4"
    for words in (first, second, "derived", "Normal", "viable eggs: 1"):
        assert words in text
