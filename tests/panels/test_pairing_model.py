"""The Pairing tab without its widgets: every number it says is the front door's."""

from datetime import date
from fractions import Fraction

import pytest

from explorer.collection import Collection
from explorer.pairing import cross, one_in, percent
from explorer.panels.desk import Desk
from explorer.panels.pairing_tab.pairing_model import PairingModel

ROWS = (
    "F1,Juniper,f,Leopard het Desert Ghost,2020-01-01,1900,kept",
    "F2,Sedge,f,Pinstripe,2020-01-01,2000,kept",
    "F3,Thistle,f,Spider,2020-01-01,2000,kept",
    "F4,Tansy,f,Leopard,2026-01-01,300,kept",
    "F5,Wren,f,Pinstripe het Desert Ghost,2020-01-01,2000,sold",
    "M1,Alder,m,het Desert Ghost,2020-01-01,900,kept",
    "M2,Larch,m,Spider,2020-01-01,900,kept",
    "M3,Teasel,m,Pinstripe het Desert Ghost,2026-07-18,95,kept",
)
LDG = "Leopard Desert Ghost"


def desk_with(*rows):
    desk = Desk("animals.csv", date(2026, 11, 25))
    desk.animals = Collection.from_text("id,name,sex,genes,hatched,weight_g,status\n" + "\n".join(rows) + "\n")
    return desk


@pytest.fixture
def desk():
    return desk_with(*ROWS)


@pytest.fixture
def model(desk):
    made = PairingModel(desk)
    made.choose("dam", "F1")
    made.choose("sire", "M1")
    return made


def test_choices__those_ready_first_and_nobody_left_out(desk):
    labels = [choice.label for choice in PairingModel(desk).choices("dam")]
    assert labels[0] == "F1 Juniper · Leopard het Desert Ghost · ready"
    assert labels[2] == "F3 Thistle · Spider · ready · caution: kept out of plans"
    assert "F4 Tansy · Leopard · not yet: " in labels[3]
    assert labels[4] == "F5 Wren · Pinstripe het Desert Ghost · sold"


@pytest.mark.parametrize(
    ("search", "ids"), [("jun", ["F1"]), ("pin SEDGE", ["F2"]), ("ghost", ["F1", "F5"]), ("x y", [])]
)
def test_choices__search(desk, search, ids):
    assert [choice.id for choice in PairingModel(desk).choices("dam", search)] == ids


def test_begins_with_the_pair_nearest_to_the_target_of_those_ready(desk):
    model = PairingModel(desk)
    assert (model.dam, model.sire) == ("F1", "M1")


def test_headline__what_is_missing_and_the_nearest_look(model):
    assert model.headline == (
        "Pinstripe is missing. Nearest to the target: 1 in 8 shows Leopard Desert Ghost. "
        "A clutch of six has it with a chance of 55 %."
    )
    assert ("its chance here", "0 %: Pinstripe is missing") in model.facts


def test_numbers__are_those_of_cross(model, desk):
    odds = cross(desk.animals["F1"], desk.animals["M1"])
    model.eggs, model.hatch_percent = 7, 85
    rate = Fraction(85, 100)
    facts = dict(model.facts)
    assert facts["one hatchling"] == f"{one_in(odds.chance(LDG))} ({percent(odds.chance(LDG))})" == "1 in 8 (12.5 %)"
    clutch = odds.chance_in_clutch(LDG, eggs=7, hatch_rate=rate)
    assert facts["a clutch of seven"] == f"at least one: {percent(clutch)}"
    assert facts["expected in it"] == "0.74"
    assert odds.expected_in_clutch(LDG, eggs=7, hatch_rate=rate) == Fraction(119, 160)
    assert facts["hatch rate"] == "85 % of viable eggs, counted in"


def test_headline__about_the_target_once_the_pair_can_give_it(model, desk):
    model.choose("sire", "M3")
    assert model.headline == (
        "1 in 16 shows Leopard Pinstripe Desert Ghost. A clutch of six has it with a chance of 32 %."
    )
    (choice,) = (choice for choice in model.choices("sire") if choice.id == "M3")
    assert model.not_ready == (f"M3 Teasel, {choice.label.split(' · ')[2]}",)


def test_headline__follows_the_target(model, desk):
    desk.aim("Leopard", ("Desert Ghost",))
    model.refresh()
    odds = cross(desk.animals["F1"], desk.animals["M1"])
    assert odds.chance("Leopard", without=["Desert Ghost"]) == Fraction(3, 8)
    assert model.headline.startswith("3 in 8 show Leopard and not Desert Ghost.")


def test_bars__looks_and_genotypes_with_their_chances(model, desk):
    odds = cross(desk.animals["F1"], desk.animals["M1"])
    bars, total = model.bars
    table = odds.looks()
    assert {bar.label: bar.chance for bar in bars} == dict(zip(table["look"], table["fraction"], strict=True))
    assert total == len(bars) == 4
    assert {bar.label: bar.closeness for bar in bars}[LDG] == Fraction(2, 3)
    model.genotypes = True
    bars, total = model.bars
    assert {bar.label: bar.chance for bar in bars}["Leopard het Desert Ghost"] == Fraction(1, 4)
    assert sum(bar.chance for bar in bars) == 1


def test_cautions__of_parents_and_hatchlings_with_the_strength_of_evidence(model):
    model.choose("dam", "F3")
    (caution,) = model.cautions
    assert caution.startswith("Spider: wobble")
    assert caution.endswith("[published study] (F3 Thistle and 1 in 2 eggs)")
    model.choose("sire", "M2")
    assert any("two copies of Spider" in text and "(1 in 4 eggs)" in text for text in model.cautions)
    assert model.losses.startswith("1 in 4 eggs does not hatch: two copies of Spider")
    assert [bar.label for bar in model.bars[0] if bar.cautions] == ["Spider"]


def test_ask__any_look_whatever_the_target(model):
    assert model.ask("leopard").lines == (
        "1 in 2 shows Leopard. A clutch of six has it with a chance of 98.4 %.",
        "Expected in a clutch of six: 3.",
        "That and nothing else to see: 3 in 8 (37.5 %).",
    )
    assert model.ask("Pinstripe").lines == ("No hatchling shows Pinstripe.", "Pinstripe is missing.")
    assert model.ask("  ").lines == ()


def test_ask__errors_name_the_nearest(model):
    (problem,) = model.ask("Leopord").problems
    assert 'Found "Leopord"' in problem.text
    assert problem.offers[0].text == "Leopard"
    (problem,) = model.ask("het Clown").problems
    assert "het" in problem.text


def test_pretend_clutch__same_seed_same_clutch(model):
    model.hatch(7)
    first, summary = model.hatched, model.clutch_summary
    model.hatch(8)
    assert model.hatched != first
    model.hatch(7)
    assert (model.hatched, model.clutch_summary) == (first, summary)
    assert len(first) == 6
    assert summary.startswith("A clutch of six: six hatched;")


def test_pretend_clutch__hits_are_those_that_show_the_aim(model):
    for seed in range(40):
        model.hatch(seed)
        for egg in model.hatched:
            assert egg.hit == (LDG in egg.text)


def test_pretend_clutch__a_hit_does_not_show_what_must_not_show(model, desk):
    desk.aim("Leopard", ("Desert Ghost",))
    model.refresh()
    for seed in range(20):
        model.hatch(seed)
        assert all(not egg.hit for egg in model.hatched if "Desert Ghost" in egg.text)


def test_pretend_clutch__eggs_that_are_lost(model):
    model.choose("dam", "F3")
    model.choose("sire", "M2")
    model.eggs, model.hatch_percent = 15, 50
    model.hatch(3)
    said = {egg.text.split(": ")[1] for egg in model.hatched if not egg.hatched}
    assert said <= {"did not hatch", "not viable"}
    assert said


def test_refresh__forgets_an_animal_that_is_gone_and_the_clutch(model, desk):
    model.hatch(7)
    desk.animals = desk.animals.without("M1")
    model.refresh()
    assert model.sire != "M1"
    assert model.dam == "F1"
    assert model.hatched == ()


def test_blockers__nobody_to_pair():
    model = PairingModel(desk_with(ROWS[0]))
    assert model.odds is None
    assert model.headline == "There is no male to choose. Add one in the Collection tab."
    assert (model.bars, model.facts, model.cautions, model.ask("Leopard").lines) == (((), 0), (), (), ())
    assert model.dam == "F1"
    empty = PairingModel(Desk("animals.csv", date(2026, 11, 25)))
    assert empty.headline == "No collection is open. Open a file in the Collection tab."


def test_blockers__an_animal_of_unknown_sex_is_not_paired_with_itself():
    model = PairingModel(desk_with(ROWS[0], "U1,Moth,?,Pastel,2020-01-01,1800,kept"))
    assert (model.dam, model.sire) == ("F1", "U1")
    model.choose("dam", "U1")
    assert model.headline == "U1 cannot be both the dam and the sire. Choose another for one of them."
    assert model.bars == ((), 0)
    model.choose("dam", "F1")
    assert model.odds is not None
