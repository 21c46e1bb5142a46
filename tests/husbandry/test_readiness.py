"""Who may breed, from when, and why not yet."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import pytest

from explorer.collection import Animal, Collection
from explorer.husbandry import Husbandry, readiness

TODAY = date(2026, 11, 25)
CARE = Husbandry()


def animal(sex: str, hatched: str = "", weight: str = "", *, genes: str = "Pastel", status: str = "") -> Animal:
    text = f"id,sex,genes,hatched,weight_g,status\nA1,{sex},{genes},{hatched},{weight},{status}\n"
    return Collection.from_text(text)["A1"]


@dataclass(frozen=True)
class Case:
    animal: Animal
    season: int | None
    line: str


CASES = [
    Case(animal("f", "2022-07-14", "1820"), 1, "ready"),
    Case(animal("f", "2024-07-14", "1500"), 1, "ready"),
    Case(animal("f", "2024-07-14", "1499"), 2, "not yet: 1,500 g needed; about season 2027/28"),
    Case(animal("f", "2024-08-02", "1240"), 2, "not yet: 1,500 g needed; about season 2027/28"),
    Case(animal("f", "2025-07-14", "1600"), 2, "not yet: too young; about season 2027/28"),
    Case(animal("f", "2026-07-14", "120"), 3, "not yet: too young, 1,500 g needed; about season 2028/29"),
    Case(animal("f", "2026-08-14", "120"), 4, "not yet: too young, 1,500 g needed; about season 2029/30"),
    Case(animal("f", "2019-07-14", "1100"), 2, "not yet: 1,500 g needed; about season 2027/28"),
    Case(animal("f", "", "1700"), 1, "ready"),
    Case(animal("f", "", "1699"), 2, "not yet: hatch date missing; about season 2027/28"),
    Case(animal("f", "", "900"), 2, "not yet: hatch date missing, 1,500 g needed; about season 2027/28"),
    Case(animal("f", "2020-07-14", ""), 2, "weigh it: no weight is written"),
    Case(animal("f", "2026-07-14", ""), 3, "not yet: too young, no weight is written; about season 2028/29"),
    Case(animal("f", "", ""), 2, "not yet: hatch date missing, no weight is written; about season 2027/28"),
    Case(animal("m", "2025-07-14", "500"), 1, "ready"),
    Case(animal("m", "2025-07-14", "499"), 2, "not yet: 500 g needed; about season 2027/28"),
    Case(animal("m", "2026-07-14", "95"), 2, "not yet: too young, 500 g needed; about season 2027/28"),
    Case(animal("m", "", "700"), 1, "ready"),
    Case(animal("m", "", "699"), 2, "not yet: hatch date missing; about season 2027/28"),
    Case(animal("?", "2020-07-14", "1900"), None, "sex unknown"),
    Case(animal("f", "2020-07-14", "1900", status="sold"), None, "sold"),
    Case(animal("m", "2020-07-14", "900", status="for sale"), None, "for sale"),
    Case(animal("f", "2020-07-14", "1900", status="on loan"), None, "on loan"),
    Case(animal("f", "2020-07-14", "1900", status="dead"), None, "dead"),
    Case(animal("f", "2020-07-14", "1900", status="retired"), None, "retired"),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.animal.sex} {case.animal.hatched} {case.line}")
def test_readiness(case: Case) -> None:
    found = readiness(case.animal, CARE, TODAY)
    assert (found.season, str(found)) == (case.season, case.line)
    assert found.ready == (case.line == "ready")
    assert not found.barred


def test_a_season_later_a_youngster_is_ready() -> None:
    young = animal("f", "2025-07-14", "1600")
    assert readiness(young, CARE, date(2027, 3, 31)).season == 2
    assert readiness(young, CARE, date(2027, 4, 1)).ready


def test_the_southern_year() -> None:
    south = Husbandry(season_first_month=5, season_last_month=9)
    young = animal("f", "2023-12-20", "1600")
    assert readiness(young, south, date(2026, 5, 1)).ready
    assert str(readiness(young, south, date(2025, 10, 1))) == "ready"
    assert str(readiness(young, south, date(2025, 9, 30))) == "not yet: too young; about season 2026"


def test_figures_of_the_keeper() -> None:
    assert readiness(animal("f", "2025-07-14", "1300"), Husbandry(female_wait=2, female_min_g=1200), TODAY).ready


@pytest.mark.parametrize(
    ("sex", "genes", "barred", "words"),
    [
        ("f", "Pastel", False, ()),
        ("f", "Spider", True, ("wobble",)),
        ("f", "Desert", True, ("females do not reproduce",)),
        ("m", "Desert", False, ()),
        ("m", "Champagne", True, ("wobble",)),
        ("f", "Albino", False, ("sight",)),
        ("f", "het Caramel Albino", False, ()),
    ],
)
def test_cautions(sex: str, genes: str, barred: bool, words: tuple[str, ...]) -> None:
    found = readiness(animal(sex, "2020-07-14", "1900", genes=genes), CARE, TODAY)
    assert found.ready
    assert found.barred == barred
    assert len(found.cautions) == len(words)
    assert all(word in caution.text for word, caution in zip(words, found.cautions, strict=True))


def test_cautions_are_allowed_by_name() -> None:
    spider = animal("f", "2020-07-14", "1900", genes="Spider Desert")
    assert readiness(spider, CARE, TODAY, allow=("spider",)).barred
    assert not readiness(spider, CARE, TODAY, allow=("Spider", "Desert")).barred
    assert not readiness(spider, CARE, TODAY, allow="all").barred
    assert not readiness(spider, CARE, TODAY, allow=["all"]).barred
