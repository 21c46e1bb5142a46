"""The season log: who was meant for whom, who was with whom, and what was seen of each female."""

from __future__ import annotations

from datetime import date, datetime
from itertools import permutations
from pathlib import Path

import pytest

from explorer.collection import (
    Collection,
    CollectionError,
    SaveRefused,
    SeasonEvent,
    SeasonLog,
    read_season_log,
    season_file,
)
from explorer.collection.clutch_book import ClutchBook
from explorer.collection.season_log_events import Laying

ANIMALS = Collection.from_text(
    "id,sex,genes,hatched\nF01,f,Pastel,2020-07-01\nF02,f,Leopard,\nM01,m,Enchi,\nM04,m,Clown,\nX1,?,Normal,\n"
)
NOW = datetime(2026, 11, 25, 10, 15)

ODD = (
    "\ufeffSeason;DAM ; sire;Event;On;who;notes\r\n"
    '2026/27; F01;M01;Planned;;me;"first; choice"\r\n'
    "\r\n"
    "2026;F01;M04;second_choice;;;\r\n"
    "2026;F01;M01;LOCK SEEN;2026-12-20;;\r"
    "2026;F01;M01;introduced;2026-11-05;;=2+2"
)
ROWS = (
    "2026,F01,M01,planned,,",
    "2026,F01,M04,second choice,,",
    "2026,F01,M01,introduced,2026-11-05,",
    "2026,F01,M01,lock seen,2026-11-06,",
    "2026,F01,M04,introduced,2027-01-10,",
    "2026,F01,M04,lock seen,2027-01-11,",
    "2026,F01,,ovulation,2027-02-20,",
    "2026,F01,,pre-lay shed,2027-03-12,",
    "2026,F01,,laid,2027-04-10,",
)


def log(*rows: str, animals: Collection = ANIMALS) -> SeasonLog:
    return SeasonLog.from_text("\n".join(["season,dam,sire,event,on,notes", *rows, ""]), animals)


def errors(*rows: str, header: str = "season,dam,sire,event,on,notes") -> list[str]:
    with pytest.raises(CollectionError) as caught:
        SeasonLog.from_text("\n".join([header, *rows, ""]), ANIMALS)
    return [str(finding) for finding in caught.value.findings if finding.severity == "error"]


def test_reading__an_odd_file_is_read_and_kept() -> None:
    found = SeasonLog.from_text(ODD, ANIMALS)
    assert found.text == ODD
    assert found.findings == ()
    assert found.events[0] == SeasonEvent(2026, "F01", "planned", "M01", None, "first; choice", 2)
    assert [(one.event, one.row) for one in found][1:] == [("second choice", 4), ("lock seen", 5), ("introduced", 6)]
    assert found.seasons == (2026,)


def test_reading__all_that_is_wrong_at_once() -> None:
    found = errors(
        "26,F01,M01,planned,,",
        "2026/29,F01,M01,planned,,",
        ",F02,M01,planned,,",
        "2026,F1,M01,planned,,",
        "2026,M01,F01,planned,,",
        "2026,,M01,planned,,",
        "2026,F02,M99,planned,,",
        "2026,F02,,planned,,",
        "2026,F02,M01,lok seen,2026-12-01,",
        "2026,F02,M01,,2026-12-01,",
        "2026,F02,M01,introduced,,",
        "2026,F02,,laid,10.4.2027,",
        "2026,F02,,ovulation,2025-01-01,",
        "2019,F01,M01,introduced,2020-05-01,",
    )
    assert found == [
        "row 2, F01, season: '26'. Needed: the year in which the season starts. Write it like 2026.",
        "row 3, F01, season: '2026/29'. Needed: the year in which the season starts. Write it like 2026.",
        "row 4, F02, season: no season. Needed: the year in which the season starts. Write it like 2026.",
        "row 5, F1, dam: F1 is not in the collection. Needed: an animal of the collection. Nearest: F01.",
        "row 6, M01, dam: M01 is male. Needed: female. Mend its sex, or name another dam.",
        "row 6, M01, sire: F01 is female. Needed: male. Mend its sex, or name another sire.",
        "row 7, dam: no dam. Needed: an animal of the collection. Write whose event it is.",
        "row 8, F02, sire: M99 is not in the collection. Needed: an animal of the collection. "
        "Add it to the collection first.",
        "row 9, F02, sire: no sire, and this is a plan. Needed: the male. Write which male it is.",
        "row 10, F02, event: 'lok seen'. Needed: one of planned, second choice, introduced, lock seen, ovulation, "
        "pre-lay shed, laid, given up. Nearest: lock seen.",
        "row 11, F02, event: no event. Needed: one of planned, second choice, introduced, lock seen, ovulation, "
        "pre-lay shed, laid, given up. Write one of planned, second choice, introduced, lock seen, ovulation, "
        "pre-lay shed, laid, given up.",
        "row 12, F02, on: no day, and this is an introduction. Needed: a day as YYYY-MM-DD. Write when it was.",
        "row 13, F02, on: '10.4.2027'. Needed: a day as YYYY-MM-DD. "
        "Write 2027-04-10 or 2027-10-04, whichever is meant.",
        "row 14, F02, on: 2025-01-01 in season 2026. Needed: a day of the season that starts in this year, or of the "
        "months after. Mend the season or the day.",
        "row 15, F01, dam: F01 hatched on 2020-07-01, and this is of 2020-05-01. Mend one of the two days.",
    ]


def test_reading__columns_that_are_needed() -> None:
    assert [line.split(":")[0] for line in errors(header="dam,sire,on")] == ["row 1, season", "row 1, event"]


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        (("2026,F01,M01,planned,,", "2026,F01,M04,planned,,"), "planned for the second time in season 2026; row 2"),
        (
            ("2026,F01,,laid,2027-04-10,", "2026,F01,,laid,2027-06-10,"),
            "laid for the second time in season 2026; row 2 has it too",
        ),
        (
            ("2026,F01,,laid,2027-04-10,", "2026,F01,,ovulation,2027-04-10,"),
            "laid on 2027-04-10, and ovulation on 2027-04-10 (row 3)",
        ),
        (
            ("2026,F01,,pre-lay shed,2027-02-10,", "2026,F01,,ovulation,2027-03-10,"),
            "pre-lay shed on 2027-02-10, and ovulation on 2027-03-10 (row 3)",
        ),
        (
            ("2026,F01,M01,introduced,2027-05-10,", "2026,F01,,laid,2027-04-10,"),
            "laid on 2027-04-10, and introduced on 2027-05-10 (row 2)",
        ),
        (("2026,F01,M01,planned,,", "2026,F01,M01,second choice,,"), "M01, who is planned for her in row 2"),
    ],
)
def test_reading__what_cannot_be_together(rows: tuple[str, ...], words: str) -> None:
    for order in permutations(rows):
        found = errors(*order)
        assert len(found) == 1
    assert words in errors(*rows)[0]


def test_reading__what_can_be_together() -> None:
    more = ("2026,F01,M01,introduced,2027-05-01,", "2026,F02,,laid,2027-04-01,", "2025,F01,,laid,2026-04-01,")
    found = log(*ROWS, *more)
    assert found.findings == ()
    assert found.seasons == (2025, 2026)


def test_reading__a_row_twice_is_a_notice() -> None:
    found = log("2026,F01,M01,introduced,2026-11-05,", "2026,F01,M01,introduced,2026-11-05,")
    assert [(one.severity, one.row) for one in found.findings] == [("notice", 3)]
    assert found.pairing(2026, "F01").males == ("M01",)


def test_reading__a_lock_before_any_introduction_is_a_notice() -> None:
    found = log("2026,F01,M01,lock seen,2026-11-01,", "2026,F01,M01,introduced,2026-11-05,")
    assert [(one.severity, one.row) for one in found.findings] == [("notice", 2)]
    assert "before M01 was introduced on 2026-11-05 (row 3)" in found.findings[0].found
    assert found.pairing(2026, "F01").introduced == date(2026, 11, 1)


def test_reading__an_animal_of_unknown_sex_may_be_either() -> None:
    assert len(log("2026,X1,M01,planned,,", "2026,F01,X1,planned,,")) == 2


def test_pairing__is_put_together_in_any_order_of_rows() -> None:
    plain = log(*ROWS).pairings(2026)
    found = plain["F01"]
    assert (found.planned, found.second_choice) == ("M01", "M04")
    assert found.males == ("M01", "M04")
    assert found.last_with == "M04"
    assert (found.introduced, found.locked) == (date(2026, 11, 5), date(2027, 1, 11))
    assert (found.ovulated, found.shed, found.laid) == (date(2027, 2, 20), date(2027, 3, 12), date(2027, 4, 10))
    assert not found.given_up
    for turn in range(len(ROWS)):
        assert log(*ROWS[turn:], *ROWS[:turn]).pairings(2026) == plain
    assert log(*reversed(ROWS)).pairings(2026) == plain


def test_pairing__of_nobody_is_blank() -> None:
    assert log().pairings(2026) == {}
    found = log(*ROWS).pairing(2026, "F02")
    assert (found.planned, found.males, found.last_with, found.introduced) == ("", (), "", None)


def test_pairing__given_up() -> None:
    found = log("2026,F01,,given up,,thin", "2026,F02,M01,given up,2027-01-01,", "2026,F02,M01,planned,,")
    assert found.pairing(2026, "F01").given_up
    assert not found.pairing(2026, "F02").given_up
    assert found.pairing(2026, "F02").males_given_up == ("M01",)


@pytest.mark.parametrize(
    ("rows", "sires"),
    [
        (("2026,F01,M01,planned,,",), "M01"),
        (("2026,F01,M01,planned,,", "2026,F01,M04,second choice,,", "2026,F01,M01,given up,,"), "M04"),
        (("2026,F01,M01,planned,,", "2026,F01,M04,introduced,2026-12-01,"), "M04"),
        (("2026,F01,M01,introduced,2026-11-05,", "2026,F01,M04,introduced,2027-01-10,"), "M04 or M01"),
        (
            (
                "2026,F01,M01,introduced,2026-11-05,",
                "2026,F01,M01,lock seen,2026-11-06,",
                "2026,F01,M04,introduced,2027-01-10,",
            ),
            "M01 or M04",
        ),
        (
            (
                "2026,F01,M01,lock seen,2026-11-06,",
                "2026,F01,M04,lock seen,2026-12-06,",
                "2026,F01,M01,introduced,2026-12-20,",
            ),
            "M04 or M01",
        ),
        ((), ""),
        (("2026,F01,M01,lock seen,2026-11-06,", "2026,F01,M04,lock seen,2026-11-06,"), "M01 or M04"),
    ],
)
def test_sires__the_last_lock_leads(rows: tuple[str, ...], sires: str) -> None:
    for order in permutations(rows):
        assert log(*order).sire_text(2026, "F01") == sires


@pytest.mark.parametrize(
    ("seen", "introduced", "sires"),
    [
        ("ovulation,2027-02-20", "2027-02-20", "M04 or M01"),
        ("ovulation,2027-02-20", "2027-02-21", "M01"),
        ("pre-lay shed,2027-03-12", "2027-02-26", "M04 or M01"),
        ("pre-lay shed,2027-03-12", "2027-02-27", "M01"),
        ("laid,2027-04-10", "2027-03-01", "M04 or M01"),
        ("laid,2027-04-10", "2027-03-02", "M01"),
    ],
)
def test_sires__who_came_too_late_is_none(seen: str, introduced: str, sires: str) -> None:
    """14 days at least from ovulation to the shed, 40 to laying."""
    rows = ("2026,F01,M01,introduced,2026-11-05,", f"2026,F01,M04,introduced,{introduced},", f"2026,F01,,{seen},")
    assert log(*rows).sire_text(2026, "F01") == sires


def test_sires__only_of_the_season() -> None:
    found = log("2025,F01,M01,lock seen,2026-01-06,", "2026,F01,M04,introduced,2026-11-06,")
    assert found.possible_sires(2026, "F01") == ("M04",)
    assert found.possible_sires(2025, "F01") == ("M01",)


def test_clutch_row__feeds_the_clutch_book() -> None:
    row = log(*ROWS).clutch_row(2026, "F01")
    assert row == {"dam": "F01", "sire": "M04 or M01", "laid": "2027-04-10"}
    book = ClutchBook.from_text("clutch,dam,sire,laid,look,count\n", ANIMALS).with_clutch({"clutch": "27-1", **row})
    assert (book["27-1"].dam, book["27-1"].sires, book["27-1"].laid) == ("F01", ("M04", "M01"), date(2027, 4, 10))
    assert not book["27-1"].several


def test_change__an_event_is_added_at_the_end_in_the_style_of_the_file() -> None:
    found = SeasonLog.from_text(ODD, ANIMALS).with_event(2026, "F01", "ovulation", on=date(2027, 2, 20))
    assert found.text == ODD + "\r\n2026;F01;;ovulation;2027-02-20;;"


def test_change__an_event_that_is_once_a_season_is_moved() -> None:
    plain = SeasonLog.from_text(ODD, ANIMALS)
    found = plain.with_event(2026, "F01", "planned", sire="X1")
    assert found.text == ODD.replace("2026/27; F01;M01;Planned", "2026/27; F01;X1;planned")
    assert found.events[0].notes == "first; choice"
    later = log("2026,F01,,laid,2027-04-10,", "2025,F01,,laid,2026-04-10,").with_event(
        2026, "F01", "laid", on=date(2027, 4, 12)
    )
    assert later.text.splitlines()[1:] == ["2026,F01,,laid,2027-04-12,", "2025,F01,,laid,2026-04-10,"]


def test_change__meetings_add_up_and_the_same_again_changes_nothing() -> None:
    found = log(*ROWS[:3]).with_event(2026, "F01", "introduced", sire="M01", on=date(2026, 12, 5))
    assert len(found) == 4
    assert found.with_event(2026, "F01", "introduced", sire="M01", on=date(2026, 12, 5)).text == found.text


def test_change__what_makes_no_sense_is_refused() -> None:
    found = log(*ROWS)
    with pytest.raises(CollectionError, match="laid on 2027-03-01, and pre-lay shed on 2027-03-12"):
        found.with_event(2026, "F01", "laid", on=date(2027, 3, 1))
    with pytest.raises(CollectionError, match="no sire, and this is a lock"):
        found.with_event(2026, "F01", "lock seen", on=date(2027, 1, 1))
    with pytest.raises(CollectionError, match="'hatched'"):
        found.with_event(2026, "F01", "hatched", on=date(2027, 6, 1))


def test_change__an_event_is_taken_back() -> None:
    plain = SeasonLog.from_text(ODD, ANIMALS)
    added = plain.with_event(2026, "F02", "given up")
    assert added.without_event(added.events[-1]).text.rstrip() == ODD.rstrip()
    without = plain.without_event(plain.events[2])
    assert without.text == ODD.replace("2026;F01;M01;LOCK SEEN;2026-12-20;;\r", "")
    with pytest.raises(KeyError, match="no such event in the log: laid of F01, season 2026"):
        plain.without_event(SeasonEvent(2026, "F01", "laid"))


def test_change__the_log_is_read_again_beside_a_changed_collection() -> None:
    found = log(*ROWS)
    assert found.beside(ANIMALS.with_animal({"id": "F01", "notes": "x"})).text == found.text
    with pytest.raises(CollectionError, match="F01 is not in the collection"):
        found.beside(ANIMALS.without("F01"))


def test_last_with__of_several_on_one_day_is_who_was_seen_locked() -> None:
    rows = ("2026,F01,M01,lock seen,2026-12-05,", "2026,F01,M04,introduced,2026-12-05,")
    assert log(*rows).pairing(2026, "F01").last_with == "M01"
    assert log(*rows[::-1]).pairing(2026, "F01").last_with == "M01"


def test_collection__knows_who_laid() -> None:
    book = ClutchBook.from_text(
        "clutch,dam,sire,laid,hatched,look,count\n27-1,F01,M01,2027-04-10,,,\n25-1,F01,M01,,2025-06-20,,\n"
        "24-9,F02,M01,,,,\n",
        ANIMALS,
    )
    animals = ANIMALS.updated(book).with_log(log(*ROWS, "2025,F01,,laid,2026-04-01,"))
    assert animals["F01"].layings == (
        Laying(None, None, date(2025, 6, 20), "25-1"),
        Laying(2025, date(2026, 4, 1)),
        Laying(2026, date(2027, 4, 10)),
    )
    assert animals["F02"].layings == (Laying(None, None, None, "24-9"),)
    assert animals["M01"].layings == ()
    changed = animals.with_animal({"id": "F01", "notes": "x"})
    assert changed["F01"].layings == animals["F01"].layings
    assert changed.log is animals.log
    assert animals.with_log(None)["F01"].layings[1:] == (Laying(None, date(2027, 4, 10), None, "27-1"),)


def test_file__lies_beside_the_collection_and_need_not_be_there(tmp_path: Path) -> None:
    beside = season_file(tmp_path / "mine.csv")
    assert beside.name == "mine.season.csv"
    found = read_season_log(beside, ANIMALS)
    assert (len(found), beside.exists()) == (0, False)
    found = found.with_event(2026, "F01", "planned", sire="M01")
    assert found.save(beside, now=NOW) is None
    assert beside.read_bytes() == b"season,dam,sire,event,on,notes\n2026,F01,M01,planned,,\n"
    again = read_season_log(beside, ANIMALS)
    assert again.events == found.events
    backup = again.with_event(2026, "F01", "given up").save(beside, now=NOW)
    assert backup is not None and backup.name == "mine.season.2026-11-25T101500.bak.csv"


def test_file__changed_by_somebody_else_is_not_overwritten(tmp_path: Path) -> None:
    file = tmp_path / "mine.season.csv"
    file.write_text("season,dam,sire,event,on,notes\n")
    found = read_season_log(file, ANIMALS).with_event(2026, "F01", "planned", sire="M01")
    file.write_text("season,dam,sire,event,on,notes\n2026,F02,M01,planned,,\n")
    with pytest.raises(SaveRefused, match="changed by another program"):
        found.save(file, now=NOW)


def test_file__is_named_in_what_is_said_of_it(tmp_path: Path) -> None:
    file = tmp_path / "mine.season.csv"
    file.write_text("season,dam,sire,event,on,notes\n2026,F9,M01,planned,,\n")
    with pytest.raises(CollectionError, match=r"1 error in mine\.season\.csv"):
        read_season_log(file, ANIMALS)


def test_notice__a_day_two_years_after_the_season_began() -> None:
    """A wrong season would let a female off her rest."""
    (finding,) = log("2024,F01,,laid,2026-04-10,").findings
    assert (finding.severity, finding.row) == ("notice", 2)
    assert finding.found == "2026-04-10 in season 2024, two years after it began"
    assert log("2025,F01,,laid,2026-04-10,").findings == ()
