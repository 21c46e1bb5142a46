"""The males of a season shared out: by hand, with every option, and what is said of those that are left out."""

import random
import re
from collections import Counter
from datetime import date
from fractions import Fraction

import pytest

import explorer as ex
from explorer.collection import Collection
from explorer.husbandry import Husbandry
from explorer.pairing import cross, progress
from explorer.planner import ImpossibleAllotment, allotments

TODAY = date(2026, 11, 25)
CARE = Husbandry(eggs=6, hatch_rate=1, lay_rate=1, clutches_per_male=2)
HEAD = "id,name,sex,genes,hatched,weight_g,dam,sire,status"
ROWS = (
    "M1,Alder,male,Pastel Clown,2017-07-01,900,,,kept",
    "M2,Larch,male,Clown,2019-07-01,900,,,kept",
    "M3,Heron,male,Normal,2019-07-01,900,,,kept",
    "M4,Finch,male,Clown,2026-07-01,90,,,kept",
    "M5,Swift,male,Spider,2019-07-01,900,,,kept",
    "F1,Juniper,female,Leopard het Clown,2019-07-01,2000,,,kept",
    "F2,Sorrel,female,Pastel,2019-07-01,2000,,,kept",
    "F3,Sedge,female,Leopard,2019-07-01,2000,,,kept",
    "F4,Vetch,female,Leopard het Clown,2022-07-01,2000,F3,M1,kept",
    "F5,Teal,female,Leopard Clown,2019-07-01,1499,,,kept",
    "F6,Curlew,female,Mojave,2019-07-01,2000,,,kept",
    "F7,Quince,female,Leopard,2019-07-01,2000,,,sold",
    "U1,Egret,,Leopard,2019-07-01,2000,,,kept",
)
TARGETS = {"Leopard Clown": 1, "Pastel Clown": 0.5}


def shed(rows=ROWS):
    return Collection.from_text("\n".join([HEAD, *rows]))


def shared(animals=None, targets=TARGETS, **options):
    return ex.allot(animals or shed(), targets, husbandry=CARE, today=TODAY, **options)


def pairs(table):
    return set(zip(table["dam"], table["sire"], strict=True))


def test_best__by_hand():
    """63/64 is the chance that at least one of six has what half of the eggs have.

    F1 and F4 bring 3367/4096 with either Clown male and nothing more elsewhere. F3 brings half of 63/64 with either. F2
    brings a quarter of 63/64 with M2 and nothing with M1, who is the second target himself.
    """
    table = shared()
    quarter = 1 - Fraction(3, 4) ** 6
    assert table.attrs["value"] == 2 * quarter + Fraction(63, 128) + Fraction(63, 256)
    assert set(table["dam"]) == {"F1", "F2", "F3", "F4"}
    assert dict(zip(table["dam"], table["sire"], strict=True))["F2"] == "M2"
    assert list(table["fraction"]) == sorted(table["fraction"], reverse=True)
    assert dict(zip(table["dam"], table["target"], strict=True)) == {
        **dict.fromkeys(("F1", "F3", "F4"), "Leopard Clown"),
        "F2": "Pastel Clown",
    }
    assert table.attrs["by_target"] == {
        "Leopard Clown": 2 * quarter + Fraction(63, 128),
        "Pastel Clown": Fraction(63, 128),
    }


def test_table__numbers_are_those_of_the_pairings_alone():
    animals, targets = shed(), {"Leopard Clown": 1, "Pastel Clown": 0.5}
    table = shared(animals, targets)
    for _, row in table.iterrows():
        odds = cross(animals[row["dam"]], animals[row["sire"]])
        brings = {t: progress(odds, t, eggs=6) for t in targets}
        assert row["progress"] == {t: float(one) for t, one in brings.items()}
        assert row["fraction"] == sum(Fraction(str(w)) * brings[t] for t, w in targets.items())
        assert row["value"] == float(row["fraction"])
        assert row["per_clutch"] == float(odds.chance_in_clutch(row["target"], eggs=6))
        assert row["kinship"] == float(animals.inbreeding(row["dam"], row["sire"]))


def test_limits__are_kept():
    table = shared()
    assert max(Counter(table["sire"]).values()) <= 2
    assert len(set(table["dam"])) == len(table)
    assert max(Counter(shared(per_male=1)["sire"]).values()) == 1
    assert "M2" not in set(shared(per_male={"M2": 0})["sire"])
    assert Counter(shared(per_male={"M2": 4, "M1": 0})["sire"]) == {"M2": 4}


def test_not_ready__is_never_paired():
    for options in ({}, {"per_male": 9}, {"allow": ["all"]}, {"targets": "Leopard Clown"}):
        table = shared(**options)
        assert not set(table["dam"]) & {"F5", "F7", "U1"}
        assert not set(table["sire"]) & {"M4"}
    assert "F5" in set(shared(shed([row.replace("1499", "1500") for row in ROWS]), "Pastel Leopard Clown")["dam"])


def test_ties__do_not_hang_on_the_order_of_rows():
    rows = [*ROWS, "F8,Tansy,female,Leopard het Clown,2019-07-01,2000,,,kept"]
    first = shared(shed(rows))
    for seed in range(8):
        random.Random(seed).shuffle(rows)
        assert shared(shed(rows)).equals(first)


def test_ties__go_to_the_least_inbred():
    """F4's sire M1 and M2 bring the same; she goes with M2, as long as he has room."""
    table = shared(per_male=4)
    assert ("F4", "M2") in pairs(table)
    assert table["kinship"].sum() == 0


def test_inbreeding__no_more_than_the_limit():
    assert ("F4", "M1") in pairs(shared(per_male={"M2": 0, "M1": 4}))
    table = shared(per_male={"M2": 0, "M1": 4}, most_inbreeding=0.125)
    assert ("F4", "M1") not in pairs(table)
    assert table.attrs["left_out"]["F4"] == (
        "with M2: he may have no female this season; "
        "with M1: too closely related: offspring's inbreeding coefficient 25 % or more, over your limit of 12.5 %; "
        "no other pairing brings a target nearer"
    )


def test_targets__that_read_the_same_are_one():
    one = shared(targets={"Leopard Clown": 1, "Pastel Clown": 1})
    two = shared(targets={"Leopard Clown": 0.25, "clown leopard": 0.75, "Pastel Clown": 1})
    assert one.equals(two)
    assert shared(targets="Leopard Clown").equals(shared(targets={"Leopard Clown": 1}))


@pytest.mark.parametrize("weight", [1_000_000, 5e-324, Fraction(1, 10**400)])
def test_weights__only_their_ratio_counts(weight):
    plain = shared(targets={"Leopard Clown": 2, "Pastel Clown": 1})
    found = shared(targets={"Leopard Clown": weight, "Pastel Clown": Fraction(str(weight)) / 2})
    assert found.attrs["by_target"] == plain.attrs["by_target"]
    assert pairs(found) == pairs(plain)


def test_weights__decide_who_serves_what():
    few = {"per_male": {"M1": 0, "M2": 1}}
    assert pairs(shared(**few)) < {("F1", "M2"), ("F4", "M2")}
    assert pairs(shared(targets={"Leopard Clown": 1, "Pastel Clown": 9}, **few)) == {("F2", "M2")}


def test_forced_and_forbidden__are_heeded():
    table = shared(forced=[("F6", "M3"), ("F3", "M1")], forbidden=[("F1", "M1"), ("F1", "M2")])
    assert {("F6", "M3"), ("F3", "M1")} <= pairs(table)
    assert "F1" not in set(table["dam"])
    row = table.set_index("dam").loc["F6"]
    assert (row["target"], row["value"], row["per_clutch"]) == ("", 0, 0)
    assert "forbidden by you" in table.attrs["left_out"]["F1"]


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ({"forced": [("F5", "M1")]}, "F5 with M1 cannot be made: F5 is not ready: 1,500 g needed"),
        ({"forced": [("F1", "M4")]}, "F1 with M4 cannot be made: M4 is not ready: too young"),
        ({"forced": [("F7", "M1")]}, "F7 with M1 cannot be made: F7 is sold"),
        ({"forced": [("F1", "M5")]}, "M5 is kept out by a caution on Spider"),
        ({"forced": [("F1", "M1"), ("F1", "M2")]}, "F1 cannot go with M1 and M2"),
        ({"forced": [("F1", "M1"), ("F2", "M1")], "per_male": 1}, "M1 cannot go with F1, F2: he may have 1"),
        ({"forced": [("F1", "M1")], "forbidden": [("F1", "M1")]}, "F1 with M1 cannot be made: forbidden by you"),
        ({"forced": [("F4", "M1")], "most_inbreeding": 0.1}, "F4 with M1 cannot be made: too closely related"),
    ],
)
def test_forced__that_cannot_be_made_is_named(options, words):
    with pytest.raises(ImpossibleAllotment, match=re.escape(words)):
        shared(**options)


def test_forced__all_faults_at_once():
    with pytest.raises(ImpossibleAllotment) as caught:
        shared(forced=[("F5", "M1"), ("F1", "M4")])
    assert len(caught.value.problems) == 2


@pytest.mark.parametrize(
    ("options", "error", "words"),
    [
        ({"targets": {}}, ValueError, "a season needs a target"),
        ({"targets": {"Leopard": 0}}, ValueError, "a number above 0"),
        ({"targets": {"Leopard": -1}}, ValueError, "a number above 0"),
        ({"targets": {"Leopard": "much"}}, ValueError, "a number above 0"),
        ({"targets": {"Leopard": 1e300}}, ValueError, "at most 1,000,000"),
        ({"targets": {"Leopard": float("inf")}}, ValueError, "a number above 0"),
        ({"targets": ["Leopard"]}, ValueError, "targets are a text, or target -> weight"),
        ({"targets": {"Lepard": 1}}, ex.UnreadableGenes, "Lepard"),
        ({"per_male": -1}, ValueError, "whole number of females"),
        ({"per_male": 1.5}, ValueError, "whole number of females"),
        ({"per_male": {"F1": 1}}, ValueError, "F1, which is no male"),
        ({"per_male": {"M9": 1}}, KeyError, "no animal 'M9'"),
        ({"forced": ["F1", "M1"]}, ValueError, "forced takes pairs of ids"),
        ({"forbidden": [("M1", "F1")]}, ValueError, "M1 is a male, not a female"),
        ({"forbidden": [("F1", "M9")]}, KeyError, "no animal 'M9'"),
    ],
)
def test_options__that_make_no_sense_are_refused(options, error, words):
    with pytest.raises(error, match=words):
        shared(**options)


def test_cautions__keep_pairings_out_until_allowed():
    rows = [
        "F1,,female,Lesser Leopard,2019-07-01,2000,,,kept",
        "M1,,male,Lesser Pastel,2019-07-01,900,,,kept",
        "M2,,male,Pastel,2019-07-01,900,,,kept",
    ]
    barred = shared(shed(rows), "Leopard Pastel Lesser", per_male=1)
    assert pairs(barred) == {("F1", "M2")}
    assert "with F1: an egg could meet a caution: two copies of Lesser" in barred.attrs["left_out"]["M1"]
    assert pairs(shared(shed(rows), "Leopard Pastel Lesser", allow="Lesser")) == {("F1", "M1")}
    assert shared(shed(rows[:2]), "Leopard Pastel").empty


def test_left_out__every_kept_animal_that_is_not_used_with_its_reason():
    animals, options = shed(), {"targets": "Leopard Clown", "per_male": {"M1": 1, "M2": 1}}
    table = shared(animals, **options)
    left = table.attrs["left_out"]
    used = {*table["dam"], *table["sire"]}
    assert set(left) == {one.id for one in animals if one.status == "kept"} - used
    assert used == {"F1", "F4", "M1", "M2"}
    assert left["F3"] == "every male she would go with (M1 and M2) has his one female; with M1 she would bring 0.49"
    assert left["F2"] == "no pairing of hers brings a target nearer"
    assert left["M3"] == "no pairing of his brings a target nearer"
    assert left["F5"].startswith("not ready: 1,500 g needed")
    assert left["M5"] == "kept out by a caution on Spider, until you allow it"
    assert "sex unknown" in left["U1"]


def test_left_out__a_male_whose_females_go_further_with_another():
    rows = [
        "M1,,male,Leopard Clown,2019-07-01,900,,,kept",
        "M2,,male,het Clown,2019-07-01,900,,,kept",
        "F1,,female,Leopard,2019-07-01,2000,,,kept",
        "F2,,female,Pastel het Clown,2019-07-01,2000,,,kept",
    ]
    table = shared(shed(rows), "Pastel Clown")
    assert pairs(table) == {("F2", "M1")}
    assert table.attrs["left_out"]["M2"] == (
        "every female he would go with has another male; F2 with M1 brings 0.82, with him 0.55"
    )
    assert shared(shed(rows), "Pastel Clown", per_male={"M2": 0}).attrs["left_out"]["M2"] == (
        "may have no female this season"
    )
    alone = shared(shed(rows[2:]), "Pastel Clown")
    assert alone.empty
    assert set(alone.attrs["left_out"].values()) == {"no male is ready"}


def test_second_choice__is_the_best_other_male_with_room():
    other = {"M1": "M2", "M2": "M1"}
    full = shared(targets="Leopard Clown", per_male=1).set_index("dam")
    assert set(full.index) == {"F1", "F4"}
    for _, row in full.iterrows():
        assert row["second_choice"] == ""
        assert row["second_reason"] == (
            f"the only other male she would go with, {other[row['sire']]}, has his one female"
        )
    wide = shared(targets="Leopard Clown", per_male=3).set_index("dam")
    for _, row in wide.iterrows():
        assert (row["second_choice"], row["second_value"]) == (other[row["sire"]], row["value"])
    table = shared(targets="Leopard Clown", forbidden=[("F3", "M2")]).set_index("dam")
    assert table.loc["F3", "second_choice"] == ""
    assert table.loc["F3", "second_reason"] == "with M2: forbidden by you"
    one = shared(targets="Leopard Clown", per_male={"M1": 1, "M2": 0}).set_index("dam")
    assert one.iloc[0]["second_reason"] == "with M2: he may have no female this season"
    assert one.iloc[0]["sire"] == "M1"


def test_ways__are_different_and_say_what_they_give_up():
    found = allotments(shed(), TARGETS, husbandry=CARE, today=TODAY, best=3, per_male=1)
    assert len(found.ways) == 3
    sets = [frozenset((one.dam, one.sire) for one in way.pairings) for way in found.ways]
    assert len(set(sets)) == 3
    assert [way.value for way in found.ways] == sorted((way.value for way in found.ways), reverse=True)
    for way, given_up, mine in zip(found.ways, found.differences, sets, strict=True):
        assert given_up.value == found.best.value - way.value
        assert set(given_up.instead) == mine - sets[0]
        assert set(given_up.without) == sets[0] - mine
        weights = found.targets
        assert sum(weights[t] * one for t, one in given_up.by_target.items()) == given_up.value
        assert set(way.left_out) == {
            one.id for one in shed() if one.status == "kept"
        } - {key for pair in mine for key in pair}
    assert found.best.table.equals(shared(per_male=1))


def test_ways__fewer_if_there_are_no_more():
    rows = ["M1,,male,Clown,2019-07-01,900,,,kept", "F1,,female,Leopard,2019-07-01,2000,,,kept"]
    found = allotments(shed(rows), "Leopard Clown", husbandry=CARE, today=TODAY, best=5)
    assert [len(way.pairings) for way in found.ways] == [1, 0]
    assert found.ways[1].left_out["F1"].startswith("left out in this way alone; with M1 0.49 could be had")
    with pytest.raises(ValueError, match="from 1 up"):
        allotments(shed(rows), "Leopard Clown", husbandry=CARE, today=TODAY, best=0)


def test_progress__is_told_and_may_stop_the_work():
    told: list[float] = []
    allotments(shed(), TARGETS, husbandry=CARE, today=TODAY, progress=lambda share, _: told.append(share))
    assert told[0] == 0 and told == sorted(told) and told[-1] <= 1

    def stop(share, text):
        raise InterruptedError

    with pytest.raises(InterruptedError):
        allotments(shed(), TARGETS, husbandry=CARE, today=TODAY, progress=stop)


def test_nobody__an_empty_table_with_reasons():
    table = shared(shed(ROWS[5:6]))
    assert table.empty
    assert table.attrs["value"] == 0
    assert table.attrs["left_out"] == {"F1": "no male is ready"}
