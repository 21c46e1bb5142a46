"""The Line-up tab without its widgets: its numbers are the front door's, and its sentences say what weighs."""

from datetime import date
from fractions import Fraction

import pytest

import explorer as ex
from explorer.collection import Collection
from explorer.pairing import cross, mean_text, percent
from explorer.panels.desk import Desk
from explorer.panels.line_up_tab.line_up_beside_model import beside_looks, beside_pairings
from explorer.panels.line_up_tab.line_up_model import LineUpModel

TODAY = date(2026, 11, 25)
HEAD = "id,name,sex,genes,hatched,weight_g,dam,sire,status"
ROWS = (
    "F1,Juniper,female,Leopard het Desert Ghost,2019-07-01,2000,,M3,kept",
    "F2,Sedge,female,Pinstripe,2019-07-01,2000,,,kept",
    "F3,Vetch,female,Leopard 66% het Desert Ghost,2019-07-01,2000,,,kept",
    "F4,Tansy,female,Leopard Desert Ghost,2019-07-01,1400,,,kept",
    "F5,Thistle,female,Spider,2019-07-01,2000,,,kept",
    "F6,Curlew,female,Mojave,2019-07-01,2000,,,kept",
    "F7,Teal,female,Leopard Desert Ghost,2019-07-01,2000,,,sold",
    "M1,Alder,male,Desert Ghost,2019-07-01,900,,M3,kept",
    "M2,Plover,male,Pinstripe,2019-07-01,900,,,kept",
    "M3,Larch,male,Desert Ghost,2014-07-01,900,,,retired",
    "M4,Teasel,male,Leopard Desert Ghost,2026-07-01,90,,,kept",
    "U1,Egret,,Leopard,2019-07-01,2000,,,kept",
)
LDG = "Leopard Desert Ghost"
NOTHING = "cannot give the target this season, nor a hatchling nearer to it than its parents."


def desk_with(*rows, target=LDG):
    desk = Desk("animals.csv", TODAY)
    desk.animals = Collection.from_text("\n".join((HEAD, *rows)) + "\n")
    desk.aim(target)
    return desk


@pytest.fixture
def desk():
    return desk_with(*ROWS)


@pytest.fixture
def model(desk):
    made = LineUpModel(desk)
    made.choose("M1")
    return made


def front_door(desk, key, target=LDG, **more):
    return ex.line_up(key, desk.animals, target, husbandry=desk.care, today=TODAY, **more)


@pytest.mark.parametrize("key", ["M1", "M4", "F1", "F5"])
def test_table__every_number_and_word_is_that_of_line_up(desk, key):
    model = LineUpModel(desk)
    model.choose(key)
    table = front_door(desk, key)
    assert [row["id"] for row in model.table] == list(table["id"])
    for shown, (_, row) in zip(model.table, table.iterrows(), strict=True):
        assert shown["egg"] == percent(row["fraction"])
        assert shown["clutch"] == percent(row["per_clutch"])
        assert shown["expected"] == mean_text(row["expected"])
        assert shown["progress"] == mean_text(row["progress"])
        assert shown["likeliest"].split("\n") == [f"{percent(chance)} {look}" for look, chance in row["likeliest"]]
        nearest = f"{row['nearest']}: {percent(row['nearest_chance'])}" if row["nearest"] else "nothing of it"
        assert shown["nearest"] == nearest
        assert shown["related"].startswith(row["related"])
        assert (percent(row["kinship"]) in shown["related"]) == bool(row["kinship"])
        assert shown["ready"] == row["readiness"]
        assert (shown["mark"] == "not-ready") == (not row["ready"])
        assert all(text in shown["cautions"] for text in row["cautions"].split("; ") if text)
        assert all(reason in shown["genes"] for reason in (*row["helps"][:1], *row["spoils"][:1]))
        assert shown["order"]["clutch"] == row["per_clutch"]
        assert shown["order"]["related"] == row["kinship"]


def test_grid__numbers_are_those_of_every_line_up(model, desk):
    aim = model.aim
    model.grid.take(model.grid.work(aim)(lambda share, text: None))
    seen = 0
    for key in ("M1", "M2", "M4"):
        other = LineUpModel(desk)
        other.choose(key)
        for row in other.line.rows:
            pair = model.grid._pairs[row.mate.id, key]
            assert (pair.per_clutch, pair.progress) == (row.per_clutch, row.progress)
            assert pair.kinship == row.relation.kinship
            assert pair.cautions == tuple(item.caution for item in row.cautions)
            assert pair.kept_out == row.kept_out
            seen += 1
    assert seen == len(model.grid._pairs) == 18


def test_choices__those_ready_first_and_nobody_of_unknown_sex(model):
    ids = [choice.id for choice in model.choices()]
    assert ids[:2] == ["M1", "M2"]
    assert set(ids[-5:]) == {"M3", "M4", "F4", "F5", "F7"}
    assert "U1" not in ids
    assert model.choices("teasel not yet")[0].label.startswith("male · M4 Teasel · Leopard Desert Ghost · not yet")
    assert LineUpModel(model.desk).key == "M1"


def test_against__who_is_shown(model):
    assert [row["id"] for row in model.table] == ["F1", "F3", "F2", "F6", "F4", "F5"]
    model.against = "ready only"
    assert [row["id"] for row in model.table] == ["F1", "F3", "F2", "F6"]
    model.against = "ticked only"
    assert model.table == []
    assert model.headline == model.empty == "Nobody is ticked. Show everybody, and tick the females to compare."
    model.tick(["F4", "F2"])
    assert [row["id"] for row in model.table] == ["F2", "F4"]


def test_headline__the_best_is_kin_and_another_is_not_ready(model):
    assert model.headline == (
        "F1 Juniper gives M1 Alder the best chance of the target (1 in 4 an egg, 82 % a clutch), though they are half "
        "siblings (same sire); not related on record: F3 Vetch, 1 in 6 an egg. F4 Tansy would do better (1 in 2 an "
        "egg), but is not ready before 2027/28."
    )


def test_headline__what_comes_nearest_if_the_target_is_out_of_reach(desk):
    desk.aim("Leopard Pinstripe Desert Ghost")
    model = LineUpModel(desk)
    model.choose("F1")
    assert model.headline == (
        "F1 Juniper cannot give the target this season. Nearest with M2 Plover: 1 in 4 shows Leopard Pinstripe."
    )
    model.choose("F6")
    desk.aim("Clown")
    assert model.headline == f"F6 Curlew {NOTHING}"


def test_headline__several_that_do_equally_well_are_named_or_counted():
    rows = [f"F{n},,female,Leopard,2019-07-01,2000,,,kept" for n in range(1, 6)]
    model = LineUpModel(desk_with("M1,,male,Normal,2019-07-01,900,,,kept", *rows[:2], target="Leopard"))
    assert model.headline.startswith("F1 and F2 give M1 the best chance of the target (1 in 2 an egg, 98.4 % a clutch)")
    model = LineUpModel(desk_with("M1,,male,Normal,2019-07-01,900,,,kept", *rows, target="Leopard"))
    assert model.headline.startswith("F1 and 4 more give M1")


def test_headline__of_an_animal_that_is_not_ready_says_what_could_be(desk):
    model = LineUpModel(desk)
    model.choose("M4")
    assert model.headline.startswith("F1 Juniper would give M4 Teasel the best chance of the target")
    (warning,) = model.warnings
    assert warning.startswith("M4 Teasel, not yet: too young")
    assert warning.endswith("what follows is what could be, not what can be made this season.")


def test_warnings__cautions_on_the_animal_and_on_the_best_with_their_evidence(desk):
    model = LineUpModel(desk)
    model.choose("F5")
    assert model.warnings[0].startswith("F5 Thistle is kept out of plans by a caution")
    assert model.warnings[1].startswith("Caution on F5 Thistle: Spider: wobble")
    assert model.warnings[1].endswith("[published study]")
    assert any(text.startswith("Caution with M1 Alder: Spider") for text in model.warnings)
    assert all("published study" in row["cautions"] for row in model.table)
    desk.aim("Spider")
    model.choose("M1")
    assert model.headline == (
        f"M1 Alder {NOTHING} F5 Thistle would give the target (1 in 2 an egg), but a caution keeps that out."
    )


def test_ticks__two_or_three_are_set_side_by_side_and_stay_with_another_of_that_sex(model):
    assert model.ticking == "Tick two or three females in the table to see what could hatch, side by side."
    model.tick(["F3"])
    assert model.beside == ()
    assert model.ticking == "F3 Vetch is ticked. Tick another female to set the two side by side."
    model.tick(["F3", "F1"])
    assert [row.mate.id for row in model.beside] == ["F1", "F3"]
    model.tick(["F2", "F3", "F1", "F6"])
    assert [row.mate.id for row in model.beside] == ["F1", "F3", "F6"]
    assert model.ticking.endswith("side by side. Four are ticked; these are the last three.")
    model.choose("M2")
    assert model.ticked == ["F2", "F3", "F1", "F6"]
    model.choose("F1")
    assert model.ticked == []


def test_pick__a_cell_of_the_grid_takes_its_animal_and_ticks_the_mate(model):
    model.pick("M2", "F2")
    assert (model.key, model.ticked, model.picked) == ("M2", ["F2"], "F2")
    model.pick("M2", "F3")
    model.pick("M2", "F2")
    assert model.ticked == ["F3", "F2"]
    model.tick(["F3"])
    assert model.picked == ""
    model.pick("F6")
    assert (model.key, model.ticked, model.picked) == ("F6", [], "")
    model.pick("M1", "F2")
    assert (model.key, model.ticked) == ("F2", ["M1"])


def test_beside__looks_of_all_in_one_order_with_exact_chances(model, desk):
    model.tick(["F1", "F2", "F6"])
    rows = model.beside
    looks, left = beside_looks(rows, model.aim)
    names = [look.name for look in looks]
    assert len(names) == len(set(names))
    for look in looks:
        for chance, row in zip(look.chances, rows, strict=True):
            assert chance == cross(desk.animals[row.mate.id], desk.animals["M1"]).chance(look.name, exactly=True)
    tops = [max(look.chances) for look in looks]
    assert tops == sorted(tops, reverse=True)
    assert {look.name: look.closeness for look in looks}[LDG] == 1
    assert {look.name: look.closeness for look in looks}["Leopard"] == Fraction(1, 2)
    assert left == ("", "", "")
    assert [sum(look.chances[at] for look in looks) for at in range(3)] == [1, 1, 1]


def test_beside__facts_say_why_not_and_all_cautions(model):
    model.tick(["F4", "F5"])
    one, two = beside_pairings(model.line, model.beside, model.aim)
    assert one.name == "with F4 Tansy"
    assert one.warning.startswith("Cannot be paired this season: not yet: 1,500 g needed")
    facts = dict(two.facts)
    assert [what for what, _ in one.facts] == [what for what, _ in two.facts]
    assert facts[LDG] == ("0 %: Leopard and Desert Ghost are missing",)
    assert any("[published study]" in text for text in facts["cautions"])
    assert dict(one.facts)[LDG] == ("1 in 2 an egg (50 %)",)
    assert all("[" in text for text in dict(one.facts)["helps"])


def test_columns__the_nearest_look_only_where_something_is_missing(model, desk):
    assert "nearest" in [column["key"] for column in model.columns]
    model.against = "ticked only"
    model.tick(["F1", "F3"])
    assert "nearest" not in [column["key"] for column in model.columns]


def test_blockers__said_in_plain_words(desk):
    assert LineUpModel(Desk("none.csv", TODAY)).headline.startswith("No collection is open.")
    assert LineUpModel(desk_with(ROWS[-1])).headline.startswith("There is no animal of known sex")
    alone = LineUpModel(desk_with(ROWS[1]))
    assert alone.headline == "There is no male to put beside F2 Sedge. Add one in the Collection tab."
    assert (alone.table, alone.beside, alone.ticking, alone.warnings) == ([], (), "", ())


def test_animals_that_are_gone_are_chosen_anew(model, desk):
    model.tick(["F1", "F2"])
    desk.animals = Collection.from_text("\n".join((HEAD, *ROWS[1:6], ROWS[8])) + "\n")
    model.refresh()
    assert (model.key, model.ticked) == ("M2", ["F2"])
    assert model.headline
