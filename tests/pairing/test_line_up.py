"""One animal beside several: what each row says, in which order, and who is refused."""

from datetime import date, datetime
from fractions import Fraction

import pytest

import explorer as ex
from explorer.collection import Collection
from explorer.husbandry import Husbandry
from explorer.pairing import LineUp, cross, nearest, progress

TODAY = date(2026, 11, 25)
TARGET = "Leopard Pinstripe Desert Ghost"
CARE = Husbandry(eggs=5, hatch_rate=0.9, lay_rate=0.8)
HEAD = "id,name,sex,genes,hatched,weight_g,dam,sire,status"
ROWS = (
    "M1,Alder,male,Pinstripe Desert Ghost,2019-07-01,900,,,kept",
    "M2,Larch,male,Desert Ghost,2026-07-01,90,,,kept",
    "F1,Juniper,female,Leopard het Desert Ghost,2019-07-01,2000,,,kept",
    "F2,Sorrel,female,Leopard Desert Ghost,2019-07-01,1499,,,kept",
    "F3,Sedge,female,Pinstripe,2019-07-01,1500,,,kept",
    "F4,Vetch,female,Leopard 66% het Desert Ghost,2022-07-01,2000,F1,M1,kept",
    "F5,Teal,female,Leopard,2019-07-01,2000,,,sold",
    "F6,Curlew,female,Spider,2019-07-01,2000,,,kept",
    "F7,Quince,female,Mojave,2019-07-01,2000,,,kept",
    "F8,Tansy,female,Leopard het Desert Ghost,2019-07-01,2000,,,kept",
    "U1,Egret,,Leopard,2019-07-01,2000,,,kept",
)


def shed(rows: tuple[str, ...] = ROWS) -> Collection:
    return Collection.from_text("\n".join([HEAD, *rows]))


def test_table__a_row_for_each_kept_female_best_first() -> None:
    table = ex.line_up("M1", shed(), TARGET, husbandry=CARE, today=TODAY)
    assert list(table["id"]) == ["F1", "F8", "F4", "F3", "F7", "F2", "F6"]
    assert list(table["ready"]) == [True, True, True, True, True, False, False]
    assert list(table.columns) == [
        *("id", "name", "per_egg", "fraction", "per_clutch", "expected", "likeliest", "nearest", "nearest_chance"),
        *("progress", "kinship", "related", "ready", "readiness", "helps", "spoils", "cautions"),
    ]


def test_row__numbers_are_those_of_the_pairing_alone() -> None:
    animals = shed()
    table = ex.line_up("M1", animals, TARGET, husbandry=CARE, today=TODAY).set_index("id")
    for key, row in table.iterrows():
        odds = cross(animals[key], animals["M1"])
        assert row["fraction"] == odds.chance(TARGET)
        assert row["per_egg"] == float(odds.chance(TARGET))
        assert row["per_clutch"] == float(odds.chance_in_clutch(TARGET, eggs=5, hatch_rate=0.9))
        assert row["expected"] == float(odds.expected_in_clutch(TARGET, eggs=5, hatch_rate=0.9))
        assert row["progress"] == float(progress(odds, TARGET, eggs=5, hatch_rate=0.9, lay_rate=0.8))
        top = odds.top_looks(3)
        assert row["likeliest"] == list(zip(top["look"], top["probability"], strict=True))
        near = nearest(odds, TARGET)
        assert (row["nearest"], row["nearest_chance"]) == (near.look, float(near.chance))
    assert table.loc["F1", "fraction"] == Fraction(1, 8)
    assert table.loc["F4", "related"] == "M1 is the sire of F4"
    assert table.loc["F4", "kinship"] == 0.25
    assert table.loc["F3", "kinship"] == 0


def test_row__what_helps_is_that_of_the_nearest_look() -> None:
    table = ex.line_up("M1", shed(), TARGET, husbandry=CARE, today=TODAY).set_index("id")
    stack = ex.stack(TARGET)
    assert table.loc["F1", "helps"] == [verdict.reason for verdict in stack.helps]
    assert table.loc["F1", "spoils"] == [verdict.reason for verdict in stack.clashes]
    assert table.loc["F1", "helps"]
    assert table.loc["F3", "helps"] == []


def test_not_ready__has_a_row_after_the_others_with_the_reason() -> None:
    table = ex.line_up("M1", shed(), TARGET, husbandry=CARE, today=TODAY).set_index("id")
    assert table.loc["F2", "per_egg"] == 0.25
    assert not table.loc["F2", "ready"]
    assert "1,500 g" in table.loc["F2", "readiness"]
    assert table.loc["F3", "readiness"] == "ready"
    assert "caution" in table.loc["F6", "readiness"]


def test_not_ready__the_animal_itself_makes_no_pairing_ready() -> None:
    table = ex.line_up("M2", shed(), TARGET, husbandry=CARE, today=TODAY)
    assert not table["ready"].any()
    assert all("M2 is out" in words for words in table["readiness"])


def test_order__is_the_same_whatever_the_order_of_rows() -> None:
    one = ex.line_up("M1", shed(), TARGET, husbandry=CARE, today=TODAY)
    other = ex.line_up("M1", shed(ROWS[::-1]), TARGET, husbandry=CARE, today=TODAY)
    assert one.equals(other)
    some = ex.line_up("M1", shed(), TARGET, husbandry=CARE, today=TODAY, against=["F3", "F1", "F3"])
    assert list(some["id"]) == ["F1", "F3"]


def test_order__what_is_kept_out_comes_after_what_may_be_made() -> None:
    rows = (
        "M1,,male,Lesser,2019-07-01,900,,,kept",
        "F1,,female,Lesser Leopard,2019-07-01,2000,,,kept",
        "F2,,female,Pastel,2019-07-01,2000,,,kept",
    )
    table = ex.line_up("M1", shed(rows), "Leopard", today=TODAY)
    assert list(table["id"]) == ["F2", "F1"]
    assert list(table["per_egg"]) == [0, 0.5]
    assert list(ex.line_up("M1", shed(rows), "Leopard", today=TODAY, allow="Lesser")["id"]) == ["F1", "F2"]


def test_order__of_like_chances_progress_decides() -> None:
    table = ex.line_up("M1", shed(), f"{TARGET} Clown", today=TODAY, against=["F7", "F8"])
    assert list(table["per_clutch"]) == [0, 0]
    assert list(table["id"]) == ["F8", "F7"]
    assert list(table["progress"] > 0) == [True, False]


def test_dam__is_put_beside_males() -> None:
    table = ex.line_up("F1", shed(), TARGET, husbandry=CARE, today=TODAY)
    assert list(table["id"]) == ["M1", "M2"]
    assert list(table["ready"]) == [True, False]


def test_against__may_name_an_animal_that_is_no_longer_kept() -> None:
    table = ex.line_up("M1", shed(), TARGET, husbandry=CARE, today=TODAY, against="F5")
    assert list(table["id"]) == ["F5"]
    assert list(table["ready"]) == [False]
    assert table.loc[0, "readiness"] == "sold"


def test_allow__takes_the_bar_away() -> None:
    table = ex.line_up("M1", shed(), TARGET, husbandry=CARE, today=TODAY, allow=["Spider"]).set_index("id")
    assert table.loc["F6", "ready"]
    assert "Spider" in table.loc["F6", "cautions"]


def test_cautions__say_when_a_pairing_is_kept_out() -> None:
    butter = "F9,Rook,female,Butter,2019-07-01,2000,,,kept"
    rows = (*ROWS[:3], "M3,Heron,male,Mojave Butter,2019-07-01,900,,,kept", butter)
    line = LineUp.of("M3", shed(rows), "Leopard", husbandry=CARE, today=TODAY)
    by_id = {row.mate.id: row for row in line.rows}
    assert [caution.parts[0].gene for caution in by_id["F9"].kept_out] == ["Butter"]
    assert by_id["F1"].kept_out == ()
    assert [row.mate.id for row in line.rows] == ["F1", "F9"]
    assert "kept out of plans" in line.table.set_index("id").loc["F9", "cautions"]


def test_without__bars_the_target() -> None:
    rows = (*ROWS, "F9,Rook,female,Super Pastel Leopard Desert Ghost,2019-07-01,2000,,,kept")
    table = ex.line_up("M1", shed(rows), TARGET, husbandry=CARE, today=TODAY, without=["Pastel"]).set_index("id")
    assert table.loc["F9", "per_egg"] == 0
    assert table.loc["F9", "progress"] == 0


@pytest.mark.parametrize(
    ("key", "against", "error", "words"),
    [
        ("M1", ["M1"], ValueError, "M1 cannot be paired with itself"),
        ("M1", ["M2"], ValueError, "M2 and M1 are both males"),
        ("M1", ["U1"], ValueError, "U1 is of unknown sex"),
        ("U1", None, ValueError, "U1 is of unknown sex"),
        ("M9", None, KeyError, "no animal 'M9'"),
        ("M1", ["F77"], KeyError, "no animal 'F77'"),
    ],
)
def test_refused__clearly(key: str, against: list[str] | None, error: type[Exception], words: str) -> None:
    with pytest.raises(error, match=words):
        ex.line_up(key, shed(), TARGET, husbandry=CARE, today=TODAY, against=against)


def test_refused__a_target_that_cannot_be_read_and_a_day_that_is_none() -> None:
    with pytest.raises(ex.GenesError):
        ex.line_up("M1", shed(), "Lepard", today=TODAY)
    with pytest.raises(ValueError, match="today must be a date"):
        ex.line_up("M1", shed(), TARGET, today="2026-11-25")  # type: ignore[arg-type]
    at_noon = ex.line_up("M1", shed(), TARGET, today=datetime(2026, 11, 25, 12))
    assert at_noon.equals(ex.line_up("M1", shed(), TARGET, today=TODAY))


def test_alone__an_empty_table_with_all_columns() -> None:
    table = ex.line_up("M1", shed(ROWS[:2]), TARGET, today=TODAY)
    assert table.empty
    assert "progress" in table.columns
