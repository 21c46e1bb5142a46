"""What the Pairing tab says of looks, and its ranking by taste: every number is the front door's."""

from datetime import date

import pytest

import explorer as ex
from explorer.collection import Collection, opinion
from explorer.panels.desk import Desk
from explorer.panels.pairing_tab.pairing_model import PairingModel

ROWS = (
    "F1,Juniper,f,Leopard het Desert Ghost,2020-01-01,1900,kept",
    "F2,Sedge,f,Cinnamon,2020-01-01,2000,kept",
    "F3,Thistle,f,Spider,2020-01-01,2000,kept",
    "F4,Tansy,f,Pastel,2026-01-01,300,kept",
    "M1,Alder,m,Desert Ghost,2020-01-01,900,kept",
    "M2,Larch,m,Pastel,2020-01-01,900,kept",
)


@pytest.fixture
def desk(tmp_path):
    desk = Desk(tmp_path / "animals.csv", date(2026, 11, 25))
    desk.animals = Collection.from_text("id,name,sex,genes,hatched,weight_g,status\n" + "\n".join(ROWS) + "\n")
    return desk


def pairing(desk, dam, sire):
    model = PairingModel(desk)
    model.choose("dam", dam)
    model.choose("sire", sire)
    return model


def test_hatchlings__likeliest_nearest_and_best_each_once(desk):
    seen = pairing(desk, "F1", "M1").looks.hatchlings
    assert [one.title for one in seen] == [
        "One of four equally likely: Normal",
        "Nearest to the target and best for your taste: Leopard Desert Ghost",
    ]
    odds = ex.cross(desk.animals["F1"], desk.animals["M1"])
    assert odds.chance("Leopard Desert Ghost", exactly=True) * 4 == 1
    assert seen[1].lines[0] == "25 % an egg; at least one in a clutch of six: 82 %"
    assert seen[1].stack.score == ex.stack("Leopard Desert Ghost").score
    assert seen[1].lines[1] == "meets your taste 1.6 of 3"


def test_helps_and_spoils__have_reason_and_evidence(desk):
    good, bad = pairing(desk, "F1", "M1").looks, pairing(desk, "F2", "M2").looks
    assert good.helps == (
        "Leopard and Desert Ghost both thin the dark pattern, brighten and raise the contrast. "
        "[trade opinion; effects: common practice, no source]",
    )
    assert good.spoils == ()
    assert bad.spoils[0].startswith("Cinnamon darkens where Pastel brightens")
    assert "[trade opinion; effects: common practice, no source]" in bad.spoils[0]


def test_looks__follow_taste_and_opinions(desk):
    desk.like({"bright": -2})
    titles = [one.title for one in pairing(desk, "F2", "M2").looks.hatchlings]
    assert any(title.casefold().endswith("best for your taste: cinnamon") for title in titles), titles
    desk.like({"bright": 1})
    desk.think(opinion("Cinnamon", 1, "brightness", 3, "Rowan", "", desk.catalogue))
    helps = pairing(desk, "F2", "M2").looks.helps
    assert helps and "Rowan's own" in helps[0]


def test_ranking__is_of_those_ready_that_no_caution_keeps_out(desk):
    ranked = pairing(desk, "F1", "M1").ranked
    assert {(dam.id, sire.id) for dam, sire in ranked.pairs} == {(d, s) for d in ("F1", "F2") for s in ("M1", "M2")}
    desk.allow = ("Spider",)
    assert ("F3", "M1") in {(dam.id, sire.id) for dam, sire in ranked.pairs}


def test_ranking__best_first_and_old_once_something_changes(desk):
    model = pairing(desk, "F1", "M1")
    ranked = model.ranked
    assert (ranked.summary, ranked.rows) == ("", [])
    ranked.take(ranked.work()(lambda share, text: None))
    assert ranked.rows[0]["dam"] == "F1 Juniper"
    assert ranked.summary.startswith(f"F1 Juniper with {ranked.rows[0]['sire']} promises most: ")
    worth = [best.worth for *_, best in ranked.found]
    assert worth == sorted(worth, reverse=True)
    assert not ranked.stale
    model.choose("dam", "F2")
    assert not ranked.stale
    before = desk.taste
    desk.like({"clean": 2})
    assert ranked.stale
    desk.like(dict(before))
    model.eggs = 12
    assert ranked.stale
    assert ranked.summary.endswith("Something changed since; rank again.")


def test_ranking__nothing_pleases(desk):
    desk.like({"white": 1})
    model = pairing(desk, "F1", "M1")
    model.ranked.take(model.ranked.work()(lambda share, text: None))
    assert model.ranked.summary.startswith("No pairing that is ready this season")


def test_ranking__says_its_cautions_and_leaves_out_what_they_keep_out(desk):
    ranked = pairing(desk, "F1", "M1").ranked
    grown = {"hatched": "2020-01-01", "weight_g": "2000"}
    desk.animals = desk.animals.with_animal({"id": "F5", "sex": "f", "genes": "Spider", **grown})
    desk.animals = desk.animals.with_animal({"id": "M5", "sex": "m", "genes": "Champagne", **grown})
    ranked.take(ranked.work()(lambda share, text: None))
    assert not any(row["dam"].startswith("F5") for row in ranked.rows)
    desk.allow = ("all",)
    ranked.take(ranked.work()(lambda share, text: None))
    both = next(row for row in ranked.rows if row["dam"].startswith("F5") and row["sire"].startswith("M5"))
    assert "together: reported not viable or severely affected" in both["cautions"]
    assert "[anecdotal, widely repeated] (25 % of eggs)" in both["cautions"]
    assert both["mark"] == "caution"
