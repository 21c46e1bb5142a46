"""A small shed that the tests of the Season tab share, and its tab without widgets."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path

from explorer.panels.desk import Desk
from explorer.panels.offers import Problem
from explorer.panels.season_tab.season_model import SeasonModel

__all__ = ["ANIMALS", "TARGET", "TODAY", "opened", "said", "tab"]

TODAY = date(2026, 11, 25)
TARGET = "Leopard Pinstripe Desert Ghost"
ANIMALS = """id,name,sex,genes,hatched,weight_g,weighed_on,sire,dam,status
F01,Bracken,female,Leopard,2018-08-05,2450,2026-11-08,,,kept
F02,Juniper,female,Leopard het Desert Ghost,2021-07-14,1820,2026-11-08,M01,F01,kept
F03,Sedge,female,Pinstripe,2021-07-02,1499,2026-11-08,,,kept
F04,Thistle,female,Spider,2021-06-27,1870,2026-11-08,,,kept
F05,Tansy,female,Pinstripe het Desert Ghost,2021-06-27,1870,2026-11-08,,,kept
M01,Larch,male,Desert Ghost,2017-07-20,1150,2026-11-08,,,kept
M02,Alder,male,Pinstripe het Desert Ghost,2021-07-30,860,2026-11-08,,,kept
M03,Burdock,male,Champagne,2021-07-15,1040,2026-11-08,,,kept
"""
"""F03 is one gram short; F04 and M03 are kept out by cautions; F02 is the daughter of M01."""


def opened(folder: Path, animals: str = ANIMALS) -> Desk:
    """A desk with these animals open."""
    file = folder / "mine.csv"
    file.write_text(animals, encoding="utf-8")
    desk = Desk(file, TODAY)
    assert desk.open(file), desk.refused
    return desk


def tab(desk: Desk) -> SeasonModel:
    """The tab's model, told of changes on the desk as its view tells it."""
    made = SeasonModel(desk)
    for topic in ("animals", "season", "target"):
        desk.listen(topic, made.refresh)  # type: ignore[arg-type]
    return made


def said(problems: Iterable[Problem]) -> str:
    """All that is wrong, in one text."""
    return " ".join(problem.text for problem in problems)
