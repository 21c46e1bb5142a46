"""What chosen pairings bring: as the allotment reckons it, and what stands against those that may not be made."""

from fractions import Fraction

import pytest
from season_example import ANIMALS, TARGET, TODAY

from explorer.collection import Collection
from explorer.notation import UnreadableGenes
from explorer.planner import allot, allotments
from explorer.planner.allotment_chosen import chosen_pairings

TARGETS = {TARGET: 1, "Leopard Desert Ghost": Fraction(5, 2)}


@pytest.fixture(scope="module")
def animals():
    return Collection.from_text(ANIMALS)


def test_every_pairing__has_the_numbers_of_the_allotment(animals):
    shed = allotments(animals, TARGETS, today=TODAY).shed
    found = chosen_pairings(animals, shed.couples, TARGETS, today=TODAY)
    assert len(found.pairings) == len(shed.couples) == 6
    assert any(one.value for one in found.pairings)
    for one in found.pairings:
        couple = shed.couples[one.dam, one.sire]
        assert (one.value, tuple(one.progress.values())) == (couple.value, couple.progress)
        assert (one.relation.kinship, one.barrier, one.unfit) == (couple.kinship, couple.barrier, ())


def test_made_pairings__have_the_rows_of_the_table(animals):
    table = allot(animals, TARGETS, today=TODAY)
    pairs = list(zip(table["dam"], table["sire"], strict=True))
    found = chosen_pairings(animals, pairs, TARGETS, today=TODAY)
    for one, row in zip(found.pairings, table.itertuples(), strict=True):
        assert one.value == row.fraction
        assert float(one.per_clutch[row.target]) == row.per_clutch
    assert found.summed(table["dam"]) == (table.attrs["value"], table.attrs["by_target"])
    assert found.summed([]) == (0, dict.fromkeys(TARGETS, 0))


def test_unfit__are_named_and_their_numbers_are_there_all_the_same(animals):
    [light, spider] = chosen_pairings(animals, [("F03", "M01"), ("F04", "M03")], TARGET, today=TODAY).pairings
    assert light.unfit == ("F03",) and light.value > 0 and light.to_allow == ()
    assert spider.unfit == ("F04", "M03") and spider.to_allow == ("Champagne", "Spider")
    assert "an egg could meet a caution" in spider.barrier
    assert {item.chance for item in spider.met} >= {Fraction(1, 2), Fraction(1, 4)}


def test_allowed__no_longer_bar(animals):
    [one] = chosen_pairings(animals, [("F04", "M02")], TARGET, today=TODAY, allow="Spider").pairings
    assert (one.unfit, one.barrier, one.to_allow) == ((), "", ())
    [one] = chosen_pairings(animals, [("F04", "M03")], TARGET, today=TODAY, allow="Spider").pairings
    assert one.unfit == ("M03",) and one.to_allow == ("Champagne",)


def test_limits__bar_as_in_the_allotment(animals):
    options = {"most_inbreeding": 0.2, "forbidden": [("F01", "M02")]}
    close, forbidden = chosen_pairings(
        animals, [("F02", "M01"), ("F01", "M02")], TARGET, today=TODAY, **options
    ).pairings
    assert "too closely related" in close.barrier
    assert forbidden.barrier == "forbidden by you"


def test_nonsense__is_refused(animals):
    with pytest.raises(UnreadableGenes):
        chosen_pairings(animals, [("F01", "M02")], "Leopardd", today=TODAY)
    with pytest.raises(KeyError):
        chosen_pairings(animals, [("F99", "M02")], TARGET, today=TODAY)
