"""Which step of the best path a hatchling takes: what is said is the planner's own answer for a collection with it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from explorer.pairing import percent
from explorer.pairing.holdbacks import holdbacks
from explorer.panels.choosing import ready_of
from explorer.panels.clutch_tab.clutch_model import ClutchModel
from explorer.panels.clutch_tab.holdback_steps import SEASONS, Use, animal_row, unusable, use_in_words, uses
from explorer.panels.desk import Desk
from explorer.planner import find_paths, season_title

ANIMALS = (
    "id,name,sex,genes,hatched,weight_g,status\n"
    "F01,Juniper,f,Leopard het Desert Ghost,2020-01-01,1900,kept\n"
    "F02,Sedge,f,Pinstripe,2020-01-01,2000,kept\n"
    "M01,Alder,m,het Desert Ghost,2020-01-01,900,kept\n"
)
TODAY = date(2026, 11, 25)


def silent(share: float, text: str) -> None:
    pass


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    file = tmp_path_factory.mktemp("collection") / "mine.csv"
    file.write_text(ANIMALS, encoding="utf-8")
    desk = Desk(file, TODAY)
    assert desk.open(file)
    rows = (("Leopard Desert Ghost", "female"), ("Leopard Desert Ghost", "male"), ("Normal", "male"), ("Leopard", ""))
    desk.write_clutch(
        {"clutch": "C01", "dam": "F01", "sire": "M01", "hatched": "2026-11-20"},
        [{"look": look, "sex": sex, "count": "1"} for look, sex in rows],
    )
    return desk


@pytest.fixture(scope="module")
def known(desk: Desk) -> dict[str, Use | None]:
    """Label and sex -> what the hatchling does for the best path."""
    return found(desk)


def found(desk: Desk) -> dict[str, Use | None]:
    clutch = desk.book["C01"]
    ranked = holdbacks(desk.animals, clutch, desk.target)
    options = {"husbandry": desk.care, "today": desk.today}
    made = uses(desk.animals, clutch, ranked, desk.target, options, silent)
    return {f"{one.label}, {one.hatchling.row.sex}": use for one, use in zip(ranked, made, strict=True)}


def test_uses__are_the_best_paths_of_a_collection_with_that_hatchling(
    desk: Desk, known: dict[str, Use | None]
) -> None:
    without = find_paths(desk.animals, desk.target, SEASONS, husbandry=desk.care, today=TODAY)[0]
    ranked = holdbacks(desk.animals, desk.book["C01"], desk.target)
    checked = 0
    for one, use in zip(ranked, known.values(), strict=True):
        if use is None:
            continue
        more = desk.animals.with_animal(animal_row(desk.book["C01"], one, "Z9"))
        path = find_paths(more, desk.target, SEASONS, husbandry=desk.care, today=TODAY)[0]
        assert use.chance == path.chance_by_season[-1] >= use.before == without.chance_by_season[-1]
        mine = [step for step in path.steps if "Z9" in (step.dam, step.sire)]
        assert [step.season for step in use.steps] == [step.season for step in mine]
        checked += bool(mine)
    assert checked


def test_words__say_the_season_the_part_and_the_mate(desk: Desk, known: dict[str, Use | None]) -> None:
    female, male = known["Leopard Desert Ghost, female"], known["Leopard Desert Ghost, male"]
    assert female is not None and male is not None
    for use, part in ((female, "the dam"), (male, "the sire")):
        said = use_in_words(use, desk.care)
        step = use.steps[0]
        assert use.path is not None
        assert said.startswith(f"could be {part} in {season_title(use.path, step.season, desk.care)}, bred to ")
        assert said.endswith(f"{percent(use.chance)} with it, {percent(use.before)} without")
    assert "bred to F02 Sedge" in use_in_words(male, desk.care)
    assert male.steps[0].season == ready_of(desk, male.animals[male.id]).season
    assert "still to hatch (" in use_in_words(female, desk.care)


def test_words__where_no_step_is_its(desk: Desk, known: dict[str, Use | None]) -> None:
    use = known["66% het Desert Ghost, male"]
    assert use is not None and use.steps == () and use.chance == use.before
    assert use_in_words(use, desk.care) == "the best path does without it"
    assert use_in_words(Use(use.animals, use.id, None, 0.0), desk.care) == (
        f"no path reaches the target within {SEASONS} seasons, with it or without"
    )


def test_unusable__says_what_is_not_written(desk: Desk, known: dict[str, Use | None]) -> None:
    clutch = desk.book["C01"]
    ranked = holdbacks(desk.animals, clutch, desk.target)
    unknown = next(one for one in ranked if one.hatchling.row.sex is None)
    assert unusable(clutch, unknown) == "no path can count on it before its sex is written"
    assert known[f"{unknown.label}, None"] is None
    undated = replace(clutch, hatched=None)
    assert unusable(undated, unknown) == "no path can count on it before its sex and the day it hatched are written"
    assert set(uses(desk.animals, undated, ranked, desk.target, {}, silent)) == {None}


def test_uses__a_target_that_only_the_hatchling_makes_reachable(tmp_path: Path) -> None:
    file = tmp_path / "mine.csv"
    file.write_text(ANIMALS.replace("Pinstripe,", "Normal,"), encoding="utf-8")
    desk = Desk(file, TODAY)
    assert desk.open(file)
    values = {"clutch": "C01", "dam": "F01", "sire": "M01", "hatched": "2026-11-20"}
    desk.write_clutch(values, [{"look": "Leopard Pinstripe", "sex": "female", "count": "1"}], despite=True)
    (use,) = found(desk).values()
    assert use is not None and use.before == 0 < use.chance and use.steps


def test_model__the_chance_of_the_target_leads_once_it_is_known(desk: Desk, known: dict[str, Use | None]) -> None:
    model = ClutchModel(desk)
    before = [row.title for row in model.hold.rows]
    assert before[:2] == ["Leopard Desert Ghost, female", "Leopard Desert Ghost, male"]
    assert model.hold.unplanned
    model.hold.take_plan(((), ()))
    assert model.hold.unplanned, "what was found for another state is not taken"
    planned = model.hold.plan()(silent)
    model.hold.take_plan(planned)
    assert not model.hold.unplanned
    rows = model.hold.rows
    uses_now = [known[f"{row.found.label}, {row.found.hatchling.row.sex}"] for row in rows]
    chances = [use.chance for use in uses_now if use is not None]
    assert len(chances) == 3 and chances == sorted(chances, reverse=True)
    assert rows[0].step.startswith("could be the sire in season ")
    assert [row.rank for row in rows] == [1, 2, 3, 4]
    desk.aim("Clown")
    assert not model.hold.unplanned, "none of them is worth holding back"
    assert {row.step for row in model.hold.rows} == {""}
