"""What a keeper changes among their own figures counts at once in every tab that was shown before."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from explorer.husbandry import Husbandry
from explorer.panels.clutch_tab.holdback_model import HoldbackModel
from explorer.panels.desk import Desk
from explorer.panels.line_up_tab.line_up_model import LineUpModel
from explorer.panels.pairing_tab.pairing_model import PairingModel
from explorer.panels.pairing_tab.pairing_view import PairingPanel
from explorer.panels.season_tab.season_model import SeasonModel

ANIMALS = """id,sex,genes,hatched,weight_g,weighed_on,status
F1,female,Leopard het Desert Ghost,2020-07-01,1550,2026-11-08,kept
F2,female,Leopard,2020-07-01,1900,2026-11-08,kept
M1,male,Desert Ghost,2020-07-01,900,2026-11-08,kept
"""


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    file = tmp_path / "mine.csv"
    file.write_text(ANIMALS, encoding="utf-8")
    made = Desk(file, date(2026, 11, 25))
    assert made.open(file)
    made.aim("Leopard Desert Ghost")
    return made


def test_line_up__readiness_and_chances_follow(desk: Desk) -> None:
    model = LineUpModel(desk)
    model.choose("M1")
    before = {row.mate.id: (row.readiness.ready, row.per_clutch) for row in model.line.rows}
    model.grid.take(model.grid.work(model.aim)(lambda share, text: None))
    assert before["F1"][0] and model.grid.known(model.aim)
    desk.season.use(Husbandry(female_min_g=1600, eggs=3))
    after = {row.mate.id: (row.readiness.ready, row.per_clutch) for row in model.line.rows}
    assert not after["F1"][0] and after["F2"][0]
    assert 0 < after["F1"][1] < before["F1"][1]
    assert not model.grid.known(model.aim), "the grid is worked out again"


def test_season__a_pairing_that_may_not_be_made_any_more_is_marked(desk: Desk) -> None:
    model = SeasonModel(desk)
    assert model.plan.write("F1", "M1") == ()
    brought = model.headline
    model.shares.take(model.shares.begin()(lambda share, text: None))
    desk.season.use(Husbandry(eggs=2))
    model.refresh()
    assert model.shares.stale and model.headline != brought
    desk.season.use(Husbandry(female_min_g=1600, clutches_per_male=2))
    model.refresh()
    assert "1,600 g needed" in " ".join(model.remarks)
    assert model.wishes.per_male == 2


def test_pairing__eggs_and_hatch_rate_are_the_keepers(desk: Desk) -> None:
    panel = PairingPanel(desk)
    six = panel.model.headline
    desk.season.use(Husbandry(eggs=16, hatch_rate=0.81))
    assert (panel.model.eggs, panel.model.hatch_percent) == (16, 81)
    assert (panel.eggs.value, panel.rate.value) == (16, 81)
    assert (panel.rate.value - panel.rate.min) % panel.rate.step == 0, "the slider can stand there"
    assert panel.model.headline != six
    panel.eggs.value = 4
    desk.tell("animals")
    assert panel.model.eggs == panel.eggs.value == 4, "what the keeper set stays until the figures change"


def test_pairing__begins_with_the_keepers_figures(desk: Desk) -> None:
    desk.season.use(Husbandry(eggs=5))
    assert PairingModel(desk).eggs == 5


def test_hold_back__the_best_path_is_looked_for_again(desk: Desk) -> None:
    rows = [{"look": "Leopard", "sex": "female", "count": "1"}]
    desk.write_clutch({"clutch": "C1", "dam": "F1", "sire": "M1", "hatched": "2026-11-20"}, rows)
    model = HoldbackModel(desk)
    before = model.plan_state
    desk.season.use(Husbandry(female_wait=4))
    assert model.plan_state != before
