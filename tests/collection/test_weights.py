"""Weights over time, in a file beside the collection."""

from __future__ import annotations

from datetime import date, datetime
from fractions import Fraction
from itertools import permutations
from pathlib import Path

import pytest

from explorer.collection import (
    Collection,
    CollectionError,
    SaveRefused,
    Weighing,
    Weights,
    read_collection,
    read_weights,
    weighed,
    weights_file,
)

ANIMALS = Collection.from_text(
    "id,sex,genes,hatched,weight_g,weighed_on,notes\n"
    "F01,f,Pastel,2023-07-01,1320,2026-11-02,kept as is\n"
    "F02,f,Leopard,2024-07-01,900,,\n"
    "M01,m,Enchi,,,,\n"
)
NOW = datetime(2026, 11, 25, 10, 15)
DAY = date(2026, 11, 25)

ODD = (
    "\ufeffID; weight_G ;Weighed_on;scale;notes\r\n"
    'F01; 1100 ;2026-05-01;kitchen;"after a ""meal"""\r\n'
    "\r\n"
    "F01;1210.5;2026-08-03;;\r"
    "M01;640;2026-08-03;;=1+1"
)


def written(*rows: str) -> str:
    return "\n".join(["id,weighed_on,weight_g,notes", *rows, ""])


def history(weights: Weights, key: str) -> list[tuple[float, str]]:
    return [(one.grams, str(one.on)) for one in weights.of(key)]


def errors(text: str, animals: Collection = ANIMALS) -> list[str]:
    with pytest.raises(CollectionError) as caught:
        Weights.from_text(text, animals)
    return [str(finding) for finding in caught.value.findings if finding.severity == "error"]


def test_reading__an_odd_file_is_read_and_kept() -> None:
    weights = Weights.from_text(ODD, ANIMALS)
    assert weights.text == ODD
    assert weights.findings == ()
    assert history(weights, "F01") == [(1100.0, "2026-05-01"), (1210.5, "2026-08-03"), (1320.0, "2026-11-02")]
    assert weights.written("F01")[0] == Weighing(1100.0, date(2026, 5, 1), 'after a "meal"', 2)
    assert weights.columns == ("id", "weight_g", "weighed_on", "scale", "notes")


def test_reading__the_order_of_the_rows_does_not_matter() -> None:
    rows = ["F01,2026-05-01,1100,", "F01,2026-08-03,1210,", "F01,2025-12-30,900,", "F01,2026-01-02,910,"]
    found = [history(Weights.from_text(written(*order), ANIMALS), "F01") for order in permutations(rows)]
    assert all(one == found[0] for one in found)
    assert [day for _, day in found[0]] == sorted(day for _, day in found[0])


def test_reading__what_the_collection_holds_is_one_more() -> None:
    weights = Weights.from_text(written("F02,2026-05-01,700,"), ANIMALS)
    assert history(weights, "F01") == [(1320.0, "2026-11-02")]
    assert history(weights, "F02") == [(700.0, "2026-05-01"), (900.0, "None")]
    assert weights.of("M01") == ()
    with pytest.raises(KeyError):
        weights.of("F09")


def test_reading__the_same_weighing_in_both_files_is_one() -> None:
    weights = Weights.from_text(written("F01,2026-11-02,1320,", "F02,2026-05-01,900,"), ANIMALS)
    assert history(weights, "F01") == [(1320.0, "2026-11-02")]
    assert history(weights, "F02") == [(900.0, "2026-05-01")]
    assert weights.findings == ()


def test_reading__the_collection_counts_where_they_differ() -> None:
    weights = Weights.from_text(written("F01,2026-11-02,1230,"), ANIMALS)
    assert history(weights, "F01") == [(1320.0, "2026-11-02")]
    (finding,) = weights.findings
    assert (finding.severity, finding.row, finding.id) == ("notice", 2, "F01")
    assert "1,230 g on 2026-11-02, and 1,320 g in the collection (row 2)" in finding.found


def test_reading__all_that_is_wrong_at_once() -> None:
    found = errors(
        written(
            "F1,2026-05-01,1000,",
            "F01,01.05.2026,1000,",
            "F01,2026-05-01,1.1 kg,",
            "F01,2026-05-01,13200,",
            "F01,2026-05-01,0,",
            "F01,,1000,",
            "F01,2026-05-02,,",
            ",2026-05-02,900,",
            "F01,2023-06-30,50,",
            "F01,2026-06-01,1100,",
            "F01,2026-06-01,1101,",
            "Q77,2026-06-01,1100,",
        )
    )
    assert found == [
        "row 2, F1, id: F1 is not in the collection. Needed: an animal of the collection. Nearest: F01.",
        "row 3, F01, weighed_on: '01.05.2026'. Needed: a day as YYYY-MM-DD. "
        "Write 2026-05-01 or 2026-01-05, whichever is meant.",
        "row 4, F01, weight_g: '1.1 kg'. Needed: a number of grams alone. Write it like 1820, or leave it blank.",
        "row 5, F01, weight_g: 13200. Needed: grams, over 0 and at most 10,000. Check the number and the unit.",
        "row 6, F01, weight_g: 0. Needed: grams, over 0 and at most 10,000. Check the number and the unit.",
        "row 7, F01, weighed_on: no day. Needed: the day of the weighing as YYYY-MM-DD. Write it like 2026-11-02.",
        "row 8, F01, weight_g: no weight. Needed: a number of grams alone. Write it like 1320, or delete the row.",
        "row 9, id: no id. Needed: an animal of the collection. Write whose weight it is.",
        "row 10, F01, weighed_on: weighed on 2023-06-30, before it hatched on 2023-07-01. Mend one of the two days.",
        "row 12, F01, weight_g: 1,101 g on 2026-06-01, and 1,100 g in row 11. Needed: one weight a day. "
        "Delete one of the two rows.",
        "row 13, Q77, id: Q77 is not in the collection. Needed: an animal of the collection. "
        "Add it to the collection first.",
    ]


def test_reading__a_header_is_needed() -> None:
    assert errors("id,weight_g\nF01,1000\n")[0].startswith("row 1, weighed_on: no column of this name")
    assert "an empty file" in errors("")[0]
    assert "is no text" in errors(written("F01,2026-05-01,1000,\0"))[0]


def test_reading__notices_do_not_stop_it() -> None:
    weights = Weights.from_text(
        written("F01,2026-05-01,1100,", "F01,2026-05-01,1100,again", "F01,2026-06-01,110,", "F01,2026-07-01,1150,"),
        ANIMALS,
    )
    assert [(one.severity, one.row) for one in weights.findings] == [("notice", 3), ("notice", 4)]
    assert "the same weight of the same day as in row 2" in weights.findings[0].found
    assert "110 g, between 1,100 g on 2026-05-01 and 1,150 g on 2026-07-01" in weights.findings[1].found


def test_reading__no_weight_is_said_to_be_more_than_it_is() -> None:
    found = errors(written("F01,2026-05-01,1499.999,", "F01,2026-05-01,1500,"))
    assert "1,500 g on 2026-05-01, and 1,499.999 g in row 2" in found[0]


def test_reading__a_youngster_that_doubles_is_no_slip() -> None:
    rows = ["F02,2024-08-01,60,", "F02,2024-11-01,150,", "F02,2025-03-01,400,"]
    assert Weights.from_text(written(*rows), ANIMALS).findings == ()


def test_change__a_weighing_is_added_at_the_end_in_the_style_of_the_file() -> None:
    weights = Weights.from_text(ODD, ANIMALS).with_reading("F02", DAY, 912.5, "before a meal")
    assert weights.text == ODD + "\r\nF02;912.5;2026-11-25;;before a meal"
    assert history(weights, "F02")[0] == (912.5, "2026-11-25")


def test_change__notes_get_a_column_only_if_there_are_any() -> None:
    weights = Weights.from_text("id,weighed_on,weight_g\n", ANIMALS)
    assert weights.with_reading("F01", DAY, 1400).text == "id,weighed_on,weight_g\nF01,2026-11-25,1400\n"
    noted = weights.with_reading("F01", DAY, 1400, "moved")
    assert noted.text == "id,weighed_on,weight_g,notes\nF01,2026-11-25,1400,moved\n"


def test_change__the_same_weighing_again_changes_nothing() -> None:
    weights = Weights.from_text(written("F01,2026-11-25,1400,"), ANIMALS)
    assert weights.with_reading("F01", DAY, 1400.0).text == weights.text


@pytest.mark.parametrize(
    ("key", "grams", "words"),
    [
        ("F01", 1401, "one weight a day"),
        ("F3", 1400, "F3 is not in the collection"),
        ("F02", 0, "grams, over 0"),
        ("F02", -3, "a weight is over 0"),
        ("F02", float("nan"), "a number of grams alone"),
        ("F02", 20_000, "at most 10,000"),
    ],
)
def test_change__what_makes_no_sense_is_refused(key: str, grams: float, words: str) -> None:
    weights = Weights.from_text(written("F01,2026-11-25,1400,"), ANIMALS)
    with pytest.raises(CollectionError) as caught:
        weights.with_reading(key, DAY, grams)
    assert words.casefold() in str(caught.value).casefold()


@pytest.mark.parametrize(
    ("grams", "text"),
    [
        (1500, "1500"),
        (1499.9, "1499.9"),
        (Fraction(14999, 10), "1499.9"),
        (Fraction(15 * 10**20 - 1, 10**18), "1499.999"),
        (Fraction(4000, 3), "1333.333"),
        (100.0, "100"),
    ],
)
def test_change__a_weight_is_never_written_as_more_than_it_is(grams: float | Fraction, text: str) -> None:
    weights = Weights.from_text("id,weighed_on,weight_g\n", ANIMALS).with_reading("F02", DAY, grams)
    assert weights.text.splitlines()[1] == f"F02,2026-11-25,{text}"


def test_change__a_weighing_is_taken_back() -> None:
    weights = Weights.from_text(ODD, ANIMALS)
    added = weights.with_reading("M01", DAY, 700).without_reading("M01", DAY)
    assert [row for row in added.text.splitlines() if row] == [row for row in ODD.splitlines() if row]
    with pytest.raises(KeyError, match="no weight of F02 on 2026-11-25"):
        weights.without_reading("F02", DAY)


def test_scales__set_the_weight_and_keep_the_one_before() -> None:
    weights = Weights.from_text("id,weighed_on,weight_g\n", ANIMALS)
    animals, after = weighed(ANIMALS, weights, {"F01": 1350, "F02": Fraction(18005, 20), "M01": 610}, DAY)
    assert after.text.splitlines()[1:] == [
        "F01,2026-11-02,1320",
        "F01,2026-11-25,1350",
        "F02,2026-11-25,900.25",
        "M01,2026-11-25,610",
    ]
    assert [(one.weight_g, one.weighed_on) for one in animals] == [(1350, DAY), (900.25, DAY), (610, DAY)]
    assert animals["F01"].notes == "kept as is"
    assert animals.weights is after
    assert [one.grams for one in animals["F01"].weighings] == [1320, 1350]
    assert after.of("F01") == animals["F01"].weighings
    assert weights.text == "id,weighed_on,weight_g\n"
    assert ANIMALS["F01"].weight_g == 1320


def test_scales__an_earlier_day_is_only_added_to_the_history() -> None:
    weights = Weights.from_text("id,weighed_on,weight_g\n", ANIMALS)
    animals, after = weighed(ANIMALS, weights, {"F01": 1200}, date(2026, 8, 1))
    assert (animals["F01"].weight_g, animals["F01"].weighed_on) == (1320, date(2026, 11, 2))
    assert animals.text == ANIMALS.text
    assert history(after, "F01") == [(1200.0, "2026-08-01"), (1320.0, "2026-11-02")]


def test_scales__the_same_day_again_mends_the_collection() -> None:
    weights = Weights.from_text("id,weighed_on,weight_g\n", ANIMALS)
    animals, after = weighed(ANIMALS, weights, {"F01": 1330}, date(2026, 11, 2))
    assert animals["F01"].weight_g == 1330
    assert after.findings == ()
    assert history(after, "F01") == [(1330.0, "2026-11-02")]


def test_scales__what_the_file_has_of_a_day_is_not_written_again() -> None:
    weights = Weights.from_text(written("F01,2026-11-02,1230,"), ANIMALS)
    _, after = weighed(ANIMALS, weights, {"F01": 1350}, DAY)
    assert history(after, "F01") == [(1230.0, "2026-11-02"), (1350.0, "2026-11-25")]


def test_scales__all_that_is_wrong_at_once_and_nothing_done() -> None:
    weights = Weights.from_text(written(), ANIMALS)
    with pytest.raises(CollectionError) as caught:
        weighed(ANIMALS, weights, {"F01": -1, "G01": 900, "F02": 950}, DAY)
    assert [finding.id for finding in caught.value.findings] == ["F01", "G01"]
    assert weights.text == written()


def test_collection__carries_its_weights_through_changes() -> None:
    weights = Weights.from_text(written("F01,2026-05-01,1100,"), ANIMALS)
    animals = ANIMALS.with_weights(weights)
    assert [one.grams for one in animals["F01"].weighings] == [1100, 1320]
    changed = animals.with_animal({"id": "F01", "weight_g": "1400", "weighed_on": "2026-12-01"})
    assert [one.grams for one in changed["F01"].weighings] == [1100, 1400]
    assert [one.grams for one in changed.updated(())["F01"].weighings] == [1100, 1400]
    assert [one.grams for one in changed.without("F02")["F01"].weighings] == [1100, 1400]
    assert [one.grams for one in changed.with_weights(None)["F01"].weighings] == [1400]


def test_file__lies_beside_the_collection_and_need_not_be_there(tmp_path: Path) -> None:
    file = tmp_path / "mine.csv"
    ANIMALS.save(file, now=NOW)
    animals = read_collection(file)
    beside = weights_file(file)
    assert beside.name == "mine.weights.csv"
    weights = read_weights(beside, animals)
    assert (weights.of("M01"), beside.exists()) == ((), False)
    weights = weights.with_reading("M01", DAY, 640)
    assert weights.save(beside, now=NOW) is None
    assert beside.read_bytes() == b"id,weighed_on,weight_g,notes\nM01,2026-11-25,640,\n"
    again = read_weights(beside, animals)
    assert history(again, "M01") == [(640.0, "2026-11-25")]
    backup = again.with_reading("F02", DAY, 950).save(beside, now=NOW)
    assert backup is not None and backup.read_bytes() == b"id,weighed_on,weight_g,notes\nM01,2026-11-25,640,\n"


@pytest.mark.parametrize("content", [b"", b" \r\n", b"\xef\xbb\xbf\n"])
def test_file__with_nothing_in_it_is_begun_anew(tmp_path: Path, content: bytes) -> None:
    file = tmp_path / "mine.weights.csv"
    file.write_bytes(content)
    read_weights(file, ANIMALS).with_reading("M01", DAY, 640).save(file, now=NOW)
    assert file.read_text() == "id,weighed_on,weight_g,notes\nM01,2026-11-25,640,\n"


def test_file__changed_by_somebody_else_is_not_overwritten(tmp_path: Path) -> None:
    file = tmp_path / "mine.weights.csv"
    file.write_text(written("F01,2026-05-01,1100,"))
    weights = read_weights(file, ANIMALS)
    file.write_text(written("F01,2026-05-01,1111,"))
    with pytest.raises(SaveRefused, match="changed by another program"):
        weights.with_reading("F01", DAY, 1400).save(file, now=NOW)
    assert file.read_text() == written("F01,2026-05-01,1111,")


def test_file__that_appeared_meanwhile_is_not_overwritten(tmp_path: Path) -> None:
    file = tmp_path / "mine.weights.csv"
    weights = read_weights(file, ANIMALS).with_reading("F01", DAY, 1400)
    file.write_text(written("F01,2026-05-01,1111,"))
    with pytest.raises(SaveRefused, match="changed by another program"):
        weights.save(file, now=NOW)


def test_file__is_named_in_what_is_said_of_it(tmp_path: Path) -> None:
    file = tmp_path / "mine.weights.csv"
    file.write_text(written("F09,2026-05-01,1100,"))
    with pytest.raises(CollectionError, match=r"1 error in mine\.weights\.csv"):
        read_weights(file, ANIMALS)
    file.write_bytes(b"PK\x03\x04zipped")
    with pytest.raises(CollectionError, match="spreadsheet workbook"):
        read_weights(file, ANIMALS)


def test_with_weights__takes_the_path_of_the_file(tmp_path):
    """As a script has it: from the front door alone."""
    import explorer as ex

    (tmp_path / "my.csv").write_text("id,sex,genes\nF1,female,Pastel\nM1,male,Clown\n")
    (tmp_path / "my.weights.csv").write_text("id,weighed_on,weight_g\nF1,2026-11-01,1499\n")
    (tmp_path / "my.season.csv").write_text("season,dam,sire,event,on\n2026,F1,M1,introduced,2026-11-20\n")
    animals = ex.read_collection(tmp_path / "my.csv")
    animals = animals.with_weights(tmp_path / "my.weights.csv").with_log(str(tmp_path / "my.season.csv"))
    assert [one.grams for one in animals["F1"].weighings] == [1499]
    assert animals.log.pairing(2026, "F1").males == ("M1",)
    (tmp_path / "my.weights.csv").write_text("id,weighed_on,weight_g\nF9,2026-11-01,1499\n")
    with pytest.raises(ex.CollectionError, match=r"my\.weights\.csv"):
        animals.with_weights(tmp_path / "my.weights.csv")
