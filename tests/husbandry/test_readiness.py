"""Who may breed, from when, and why not yet."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

import pytest

from explorer.collection import Animal, ClutchBook, Collection, SeasonLog, Weights
from explorer.husbandry import Husbandry, Readiness, grams, readiness
from explorer.planner import find_paths

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


HISTORY = "id,weighed_on,weight_g\n"


def weighed_female(weight: str, day: str, *rows: str, hatched: str = "2023-07-01", log: str = "") -> Animal:
    text = f"id,sex,genes,hatched,weight_g,weighed_on\nA1,f,Pastel,{hatched},{weight},{day}\nM1,m,Normal,,,\n"
    animals = Collection.from_text(text)
    animals = animals.with_weights(Weights.from_text(HISTORY + "".join(f"A1,{row}\n" for row in rows), animals))
    events = SeasonLog.from_text(f"season,dam,sire,event,on\n{log}", animals)
    return animals.with_log(events)["A1"]


@pytest.mark.parametrize(
    ("weight", "ready"),
    [("1499", False), ("1499.9", False), ("1499.999", False), ("1500", True), ("1500.0", True), ("1500.1", True)],
)
def test_threshold__is_never_rounded(weight: str, ready: bool) -> None:
    found = readiness(animal("f", "2022-07-14", weight), CARE, TODAY)
    assert found.ready == ready
    assert found.state == ("ready" if ready else "not yet")
    said = found.because[0]
    assert said == {"1499": "1,499 g", "1500.1": "1,500.1 g"}.get(weight, "1,500 g" if ready else "1,499.9 g")


@pytest.mark.parametrize("least", [1500, 1500.0, Fraction(1500), Fraction(15001, 10), 1499.95])
def test_threshold__may_be_any_number(least: float) -> None:
    care = Husbandry(female_min_g=least)
    assert readiness(animal("f", "2022-07-14", "1500.2"), care, TODAY).ready
    assert not readiness(animal("f", "2022-07-14", "1499.9"), care, TODAY).ready


def test_threshold__is_rounded_up_where_a_weight_is_rounded_down() -> None:
    found = readiness(animal("f", "2022-07-14", "1499.97"), Husbandry(female_min_g=1499.98), TODAY)
    assert found.because[:2] == ("1,499.9 g", "1,500 g needed")
    assert (grams(1499.9), grams(Fraction(14999, 10)), grams(1499.999)) == ("1,499.9 g",) * 3
    assert (grams(1500), grams(0.04), grams(12.25, needed=True)) == ("1,500 g", "0 g", "12.3 g")


@pytest.mark.parametrize(
    ("found", "state", "words"),
    [
        (
            weighed_female("1320", "2026-11-02", "2026-05-04,1050"),
            "not yet",
            "1,320 g on 2 Nov; 1,500 g needed; at 45 g a month heavy enough about 4 Mar: weigh it then; "
            "until then it is planned for next season",
        ),
        (
            weighed_female("1220", "2026-11-02", "2026-05-04,950"),
            "not yet",
            "1,220 g on 2 Nov; 1,500 g needed; at 45 g a month ready for next season",
        ),
        (
            weighed_female("900", "2026-11-02", "2026-05-04,630"),
            "not yet",
            "900 g on 2 Nov; 1,500 g needed; at 45 g a month ready for next season",
        ),
        (
            weighed_female("900", "2026-11-02", "2026-05-04,750"),
            "not yet",
            "900 g on 2 Nov; 1,500 g needed; at 25 g a month ready for the season after next",
        ),
        (
            weighed_female("700", "2026-11-02", "2026-05-04,550"),
            "not yet",
            "700 g on 2 Nov; 1,500 g needed; at 25 g a month ready for season 2029/30",
        ),
        (
            weighed_female("1320", "2026-11-02", "2026-05-04,1400"),
            "not yet",
            "1,320 g on 2 Nov; 1,500 g needed; no forecast: it loses 13 g a month",
        ),
        (
            weighed_female("1320", "2025-11-02", "2025-05-04,1230"),
            "not yet",
            "1,320 g on 2 Nov 2025; 1,500 g needed; at 15 g a month it should be heavy enough by now: weigh it; "
            "until then it is planned for next season",
        ),
        (
            weighed_female("1320", "2026-11-02"),
            "not yet",
            "1,320 g on 2 Nov; 1,500 g needed; behind the usual growth, so next season at the earliest",
        ),
        (
            weighed_female("600", "2026-11-02", hatched="2025-07-01"),
            "not yet",
            "600 g on 2 Nov; 1,500 g needed; too young before next season; at the usual growth ready for next season",
        ),
        (
            weighed_female("1600", "2026-11-02", hatched="2025-07-01"),
            "not yet",
            "1,600 g on 2 Nov; too young before next season; ready for next season",
        ),
        (
            weighed_female("1600", "", hatched=""),
            "not yet",
            "1,600 g; hatch date missing, and 1,700 g needed without it; ready for next season",
        ),
        (
            weighed_female("", ""),
            "not yet",
            "no weight is written: weigh it; until then it is planned for next season",
        ),
        (weighed_female("1600", "2026-11-02"), "ready", "1,600 g on 2 Nov"),
    ],
)
def test_words(found: Animal, state: str, words: str) -> None:
    ready = readiness(found, CARE, TODAY)
    assert (ready.state, ready.words) == (state, words)


def test_words__a_warning_bars_and_says_so() -> None:
    found = readiness(animal("f", "2020-07-14", "1900", genes="Desert"), CARE, TODAY)
    assert found.state == "not to be bred"
    assert found.words.startswith("kept out of plans by a caution: females do not reproduce")
    allowed = readiness(animal("f", "2020-07-14", "1900", genes="Desert"), CARE, TODAY, allow="all")
    assert (allowed.state, allowed.words) == ("ready", "1,900 g")
    sold = readiness(animal("f", "2020-07-14", "1900", status="sold"), CARE, TODAY)
    assert (sold.state, sold.words, sold.weight_g) == ("not to be bred", "sold", 1900)
    unsexed = readiness(animal("?", "2020-07-14", "1900"), CARE, TODAY)
    assert (unsexed.state, unsexed.words) == ("not yet", "sex unknown")


def test_fields__for_a_table() -> None:
    found = readiness(weighed_female("1220", "2026-11-02", "2026-05-04,950"), CARE, TODAY)
    assert (found.weight_g, found.weighed_on, found.needed_g) == (1220, date(2026, 11, 2), 1500)
    assert round(found.rate or 0, 1) == 45.2
    assert (found.basis, found.expected) == ("own records", date(2027, 5, 10))
    assert (found.season, found.about) == (2, "2027/28")
    ready = readiness(weighed_female("1600", "2026-11-02"), CARE, TODAY)
    assert (ready.rate, ready.basis, ready.expected) == (None, "", None)


def test_history__counts_where_the_collection_is_older() -> None:
    assert readiness(weighed_female("1400", "2026-06-01", "2026-11-20,1510"), CARE, TODAY).ready
    assert not readiness(weighed_female("1510", "2026-06-01", "2026-11-20,1400"), CARE, TODAY).ready


@pytest.mark.parametrize(
    ("found", "remarks"),
    [
        (weighed_female("1600", "2026-11-02", "2026-05-04,1500"), ()),
        (weighed_female("1600", "2026-11-02", "2026-05-04,1777"), ()),
        (weighed_female("1620", "2026-11-02", "2026-05-04,1800"), ()),
        (
            weighed_female("1600", "2026-11-02", "2026-05-04,1778"),
            ("1,600 g now, and 1,778 g on 2026-05-04: it has lost weight",),
        ),
        (weighed_female("1600", "2026-11-02", "2025-05-04,1900"), ()),
        (weighed_female("1400", "2026-11-02", "2026-02-04,1900", log="2025,A1,,laid,2026-04-10\n"), ()),
        (
            weighed_female("1600", "", "2026-11-20,1499"),
            ("1,600 g has no day and counts as current, not 1,499 g of 2026-11-20",),
        ),
        (weighed_female("1499", "", "2026-11-20,1499"), ()),
        (weighed_female("1600", "2027-11-02"), ("1,600 g is written of 2027-11-02, which is still to come",)),
        (weighed_female("1600", "2027-11-02", "2026-11-02,1600"), ()),
    ],
)
def test_remarks__what_speaks_against_the_weight(found: Animal, remarks: tuple[str, ...]) -> None:
    assert readiness(found, CARE, TODAY).remarks == remarks


def test_history__may_be_given_apart() -> None:
    animals = Collection.from_text("id,sex,genes,hatched,weight_g,weighed_on\nA1,f,Pastel,2023-07-01,1300,2026-11-02\n")
    weights = Weights.from_text(HISTORY + "A1,2026-05-04,1030\n", animals)
    found = readiness(animals["A1"], CARE, TODAY, weights=weights)
    assert found == readiness(animals.with_weights(weights)["A1"], CARE, TODAY)
    assert found.basis == "own records"
    assert readiness(animals["A1"], CARE, TODAY).basis == "catalogue"


def test_history__a_losing_animal_has_no_season() -> None:
    found = readiness(weighed_female("1320", "2026-11-02", "2026-05-04,1400"), CARE, TODAY)
    assert (found.season, found.about, found.state) == (None, "", "not yet")
    assert str(found) == "1,500 g needed, no forecast: it loses 13 g a month"


def test_rest__none_by_default() -> None:
    log = "2025,A1,,laid,2026-04-10\n"
    assert CARE.rest_seasons == 0
    assert readiness(weighed_female("1600", "2026-11-02", log=log), CARE, TODAY).ready


@pytest.mark.parametrize(
    ("rest", "laid", "season", "words"),
    [
        (1, "2025,A1,,laid,2026-04-10\n", 2, "laid in season 2025/26; ready for next season"),
        (2, "2025,A1,,laid,2026-04-10\n", 3, "laid in season 2025/26; ready for the season after next"),
        (3, "2025,A1,,laid,2026-04-10\n", 4, "laid in season 2025/26; ready for season 2029/30"),
        (2, "2024,A1,,laid,2025-04-10\n", 2, "laid in season 2024/25; ready for next season"),
        (1, "2024,A1,,laid,2025-04-10\n2025,A1,,laid,2026-04-10\n", 2, "laid in season 2025/26; ready for next season"),
        (1, "2025,A1,,laid,2026-04-10\n2024,A1,,laid,2025-04-10\n", 2, "laid in season 2025/26; ready for next season"),
        (0, "2026,A1,,laid,2026-11-20\n", 2, "has laid this season; ready for next season"),
        (1, "2026,A1,,laid,2026-11-20\n", 3, "has laid this season; ready for the season after next"),
    ],
)
def test_rest__after_a_season_in_which_she_laid(rest: int, laid: str, season: int, words: str) -> None:
    found = readiness(weighed_female("1600", "2026-11-02", log=laid), Husbandry(rest_seasons=rest), TODAY)
    assert (found.season, found.words) == (season, f"1,600 g on 2 Nov; {words}")
    assert (found.state, found.resting, found.ready) == ("not to be bred", True, False)
    assert str(found).startswith("resting: ")


def test_rest__is_over_in_time() -> None:
    care = Husbandry(rest_seasons=1)
    assert readiness(weighed_female("1600", "2026-11-02", log="2024,A1,,laid,2025-04-10\n"), care, TODAY).ready
    resting = weighed_female("1600", "2026-11-02", log="2025,A1,,laid,2026-04-10\n")
    assert readiness(resting, care, date(2027, 3, 31)).resting
    assert readiness(resting, care, date(2027, 4, 1)).ready


def test_rest__seasons_may_be_given_apart() -> None:
    care, plain = Husbandry(rest_seasons=1), weighed_female("1600", "2026-11-02")
    assert readiness(plain, care, TODAY, laid=(2025, 2021)).resting
    assert readiness(plain, care, TODAY, laid=()).ready
    resting = weighed_female("1600", "2026-11-02", log="2025,A1,,laid,2026-04-10\n")
    assert readiness(resting, care, TODAY, laid=()).ready


def test_rest__of_the_clutch_book() -> None:
    animals = Collection.from_text("id,sex,genes,hatched,weight_g\nA1,f,Pastel,2020-07-01,1600\nM1,m,Normal,,\n")
    rows = "25-1,A1,M1,{},{},,\n"

    def after(laid: str, hatched: str) -> Readiness:
        book = ClutchBook.from_text("clutch,dam,sire,laid,hatched,look,count\n" + rows.format(laid, hatched), animals)
        return readiness(animals.updated(book)["A1"], Husbandry(rest_seasons=1), TODAY)

    assert after("2026-04-10", "").resting
    assert after("", "2026-06-10").resting
    assert not after("2025-04-10", "").resting
    assert not after("", "2025-06-10").resting
    unplaced = after("", "")
    assert unplaced.ready
    assert unplaced.remarks == ("clutch 25-1 has no day, so no rest is counted after it",)


def test_growth__counts_from_the_day_that_a_clutch_was_laid_at_the_latest() -> None:
    """Hatched on 10 June, it was laid by 16 April: her weighings from 1 May on tell how fast she recovers."""
    text = "id,sex,genes,hatched,weight_g,weighed_on\nA1,f,Pastel,2020-07-01,1420,2026-11-02\nM1,m,Normal,,,\n"
    animals = Collection.from_text(text)
    weights = Weights.from_text(HISTORY + "A1,2026-02-01,1900\nA1,2026-05-01,1200\n", animals)
    book = ClutchBook.from_text("clutch,dam,sire,hatched,look,count\n25-1,A1,M1,2026-06-10,,\n", animals)
    found = readiness(animals.updated(book).with_weights(weights)["A1"], CARE, TODAY)
    assert found.rate == pytest.approx(220 / 185 * 365.25 / 12)
    assert found.remarks == ()


def test_rest__males_need_none() -> None:
    males = Collection.from_text("id,sex,genes,hatched,weight_g\nA1,m,Pastel,2020-07-01,900\n")
    assert readiness(males["A1"], Husbandry(rest_seasons=3), TODAY, laid=(2025,)).ready


def test_rest__in_the_southern_year() -> None:
    south = Husbandry(season_first_month=5, season_last_month=9, rest_seasons=1)
    resting = weighed_female("1600", "2026-04-02", log="2025,A1,,laid,2025-10-10\n")
    found = readiness(resting, south, date(2026, 5, 2))
    assert (found.words, found.about) == ("1,600 g on 2 Apr; laid in season 2025; ready for next season", "2027")


def test_seen_from_later_seasons__the_wait_grows_shorter() -> None:
    slow = weighed_female("700", "2026-11-02", "2026-05-04,550")
    assert [readiness(slow, CARE, date(year, 11, 25)).season for year in (2026, 2027, 2028)] == [4, 3, 2]


def test_paths__find_the_history_by_themselves() -> None:
    rows = ("A1,f,Pastel,2023-07-01,700,2026-11-02", "M1,m,Enchi,2022-07-01,900,")
    animals = Collection.from_text("\n".join(["id,sex,genes,hatched,weight_g,weighed_on", *rows, ""]))
    weights = Weights.from_text(HISTORY + "A1,2026-05-04,550\n", animals)

    def first(collection: Collection) -> int:
        (path, *_) = find_paths(collection, "Pastel Enchi", seasons=6, husbandry=CARE, today=TODAY)
        return next(season for season, chance in enumerate(path.chance_by_season, 1) if chance > 0)

    assert first(animals) == 2
    assert first(animals.with_weights(weights)) == 4
