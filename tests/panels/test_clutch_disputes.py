"""What a clutch contradicts: said of it, or of the other clutch that can no longer be true."""

from __future__ import annotations

from explorer.collection import Collection
from explorer.collection.clutch_book import ClutchBook
from explorer.panels.clutch_disputes import contradiction, dispute_in_words, fresh_disputes

ANIMALS = Collection.from_text(
    "id,sex,genes,sire,dam\nF1,f,Candy,,\nF2,f,Albino,,\nF3,f,het Candy,,\nM2,m,het Albino,,\nM1,m,Normal,M2,F3\n"
)
"""M1 may carry Candy or Albino, which are of one place, and not both, or it would show."""

HEADER = "clutch,dam,sire,hatched,look,count\n"
CANDY = "C1,F1,M1,2026-03-01,Candy,1\n"


def told(*rows: str) -> Collection:
    return ANIMALS.updated(ClutchBook.from_text(HEADER + "".join(rows), ANIMALS))


def test_fresh_disputes__none_where_all_can_be_true() -> None:
    assert fresh_disputes(ANIMALS, told(CANDY), "C1") == ()


def test_fresh_disputes__an_earlier_clutch_may_make_a_later_one_untrue() -> None:
    """The one with two Albinos is likelier right."""
    before, after = told(CANDY), told(CANDY, "C2,F2,M1,2026-02-01,Albino,2\n")
    (one,) = fresh_disputes(before, after, "C2")
    said = dispute_in_words(after, one, "C2")
    assert said.startswith("clutch C1, at albino: who could be wrong, if 1 % of records are: ")
    assert "one hatchling written as Candy" in said and "the record of M1" in said
    assert fresh_disputes(after, after, "C2") == (), "it is known, and of another clutch"
    assert fresh_disputes(after, after, "C1") == (one,), "it is of the clutch that is written"
    assert dispute_in_words(after, one, "C1") == said.removeprefix("clutch C1, ")
    refused = contradiction(after, (one,), "C2")
    assert [finding.severity for finding in refused.findings] == ["error"]
    assert str(refused).startswith("1 error in clutch C2\nclutch C1, at albino")


def test_dispute__where_no_sire_fits() -> None:
    """M1 could give the Toffee, M2 the Pastel."""
    animals = Collection.from_text("id,sex,genes\nF1,f,het Albino\nM1,m,het Toffee\nM2,m,Pastel\n")
    rows = "C1,F1,M1 or M2,2026-03-01,Albino Toffee,1\nC1,,,,Pastel,1\n"
    after = animals.updated(ClutchBook.from_text(HEADER + rows, animals))
    (one,) = fresh_disputes(animals, after, "C1")
    assert dispute_in_words(after, one, "C1") == "the whole clutch: no sire fits"
