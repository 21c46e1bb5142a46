"""The clutch book as its users see it: changes touch their own rows alone, and undo brings back every byte."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from explorer.collection import Collection, CollectionError, SaveRefused, read_collection
from explorer.collection.clutch import Clutch
from explorer.collection.clutch_book import ClutchBook, read_clutches

ANIMALS = Collection.from_text("id,sex,genes\nF01,f,Pastel\nF02,f,Leopard\nM01,m,Enchi\nM04,m,Clown\n")
NOW = datetime(2026, 11, 25, 10, 15)

ODD = (
    "\ufeffClutch; dam ;sire;Laid;eggs;LOOK;sex;count;Shelf;notes\r\n"
    '"C01";F01;"M01 or M04";2026-05-01; 8 ;"Pastel, maybe Enchi";f;3;2;=1+1\r\n'
    "\r\n"
    ";;;;;;;;;\r\n"
    'C02 ;F02;M01;;;Leopard;;"1";;"two\r\nlines"\r\n'
    "C01;;;2026-05-01;;Normal;♂;2;;\r"
    "C03;F02;M04;;6;;;;;eggs only"
)


def rows(book: ClutchBook, key: str) -> list[tuple[str, str | None, int]]:
    return [(group.look, group.sex, group.count) for group in book[key].hatchlings]


def test_an_odd_file_is_read_and_kept() -> None:
    book = ClutchBook.from_text(ODD, ANIMALS)
    assert book.text == ODD
    assert [clutch.id for clutch in book] == ["C01", "C02", "C03"]
    assert rows(book, "C01") == [("Pastel, maybe Enchi", "female", 3), ("Normal", "male", 2)]
    assert [group.row for group in book["C01"].hatchlings] == [2, 7]
    assert dict(book["C02"].further) == {"shelf": "", "notes": "two\r\nlines"}
    assert book.columns[-2:] == ("shelf", "notes")


def test_a_book() -> None:
    book = ClutchBook.from_text(ODD, ANIMALS)
    assert len(book) == 3
    assert "C01" in book and "C09" not in book
    assert isinstance(book["C01"], Clutch)
    with pytest.raises(KeyError, match="no clutch 'c1'; nearest: C01"):
        book["c1"]


def test_a_clutch_is_added_at_the_end_in_the_style_of_the_file() -> None:
    book = ClutchBook.from_text(ODD, ANIMALS).with_clutch(
        {"Clutch": "C04", "dam": "F01", "sire": "M01 and M04", "eggs": "5"},
        [{"look": "Pastel; Enchi", "count": "2"}, {"look": "Normal", "sex": "male", "count": "1", "shelf": "4"}],
    )
    assert book.text == (f'{ODD}\r\nC04;F01;M01 and M04;;5;"Pastel; Enchi";;2;;\r\nC04;;;;;Normal;male;1;4;')
    assert (book["C04"].several, rows(book, "C04")) == (True, [("Pastel; Enchi", None, 2), ("Normal", "male", 1)])


def test_a_clutch_in_an_empty_book() -> None:
    for header in ("clutch,dam,sire,look,count", "clutch,dam,sire,look,count\n"):
        book = ClutchBook.from_text(header, ANIMALS).with_clutch({"clutch": "C1", "dam": "F01", "sire": "M01"})
        assert book.text == "clutch,dam,sire,look,count\nC1,F01,M01,,\n"


def test_a_known_column_is_added_where_the_file_lacks_it() -> None:
    book = ClutchBook.from_text(ODD, ANIMALS).with_clutch({"clutch": "C02", "hatched": "2026-06-30", "slugs": "1"})
    assert book.text == (
        "\ufeffClutch; dam ;sire;Laid;eggs;LOOK;sex;count;Shelf;notes;hatched;slugs\r\n"
        '"C01";F01;"M01 or M04";2026-05-01; 8 ;"Pastel, maybe Enchi";f;3;2;=1+1;;\r\n'
        "\r\n"
        ";;;;;;;;;\r\n"
        'C02 ;F02;M01;;;Leopard;;1;;"two\r\nlines";2026-06-30;1\r\n'
        "C01;;;2026-05-01;;Normal;♂;2;;;;\r"
        "C03;F02;M04;;6;;;;;eggs only;;"
    )


def test_a_text_that_is_repeated_is_changed_in_every_row() -> None:
    book = ClutchBook.from_text(ODD, ANIMALS).with_clutch({"clutch": "C01", "laid": "2026-05-02", "eggs": "8"})
    assert book.text == ODD.replace(
        '"C01";F01;"M01 or M04";2026-05-01; 8 ;"Pastel, maybe Enchi"',
        "C01;F01;M01 or M04;2026-05-02; 8 ;Pastel, maybe Enchi",
    ).replace("C01;;;2026-05-01", "C01;;;2026-05-02")
    cleared = book.with_clutch({"clutch": "C01", "laid": ""})
    assert cleared["C01"].laid is None


def test_a_change_that_changes_nothing_changes_no_byte() -> None:
    book = ClutchBook.from_text(ODD, ANIMALS)
    groups = [
        {"look": "pastel, maybe  enchi", "sex": "female", "count": "3"},
        {"look": "Normal", "sex": "m", "count": "2"},
    ]
    assert book.with_clutch({"clutch": "C01", "dam": "F01", "eggs": "8", "shelf": "2"}, groups).text == ODD
    assert book.with_clutch({"clutch": "C02"}).text == ODD


def test_a_count_is_changed_in_its_own_row() -> None:
    groups = [{"look": "Normal", "sex": "m", "count": "4"}, {"look": "Pastel, maybe Enchi", "sex": "f", "count": "3"}]
    book = ClutchBook.from_text(ODD, ANIMALS).with_clutch({"clutch": "C01"}, groups)
    assert book.text == ODD.replace("C01;;;2026-05-01;;Normal;♂;2;;\r", "C01;;;2026-05-01;;Normal;♂;4;;\r")


def test_another_look_takes_the_row_of_the_one_that_went() -> None:
    groups = [{"look": "Pastel Enchi", "sex": "f", "count": "3"}, {"look": "Normal", "sex": "m", "count": "2"}]
    book = ClutchBook.from_text(ODD, ANIMALS).with_clutch({"clutch": "C01"}, groups)
    assert book.text == ODD.replace(
        '"C01";F01;"M01 or M04";2026-05-01; 8 ;"Pastel, maybe Enchi"', "C01;F01;M01 or M04;2026-05-01; 8 ;Pastel Enchi"
    )


def test_more_groups_stand_below_the_clutch() -> None:
    groups = [{"look": "Leopard", "count": "1"}, {"look": "Normal", "count": "3"}]
    book = ClutchBook.from_text(ODD, ANIMALS).with_clutch({"clutch": "C02", "eggs": "4"}, groups)
    second = 'C02 ;F02;M01;;;Leopard;;"1";;"two\r\nlines"\r\n'
    assert book.text == ODD.replace(second, 'C02 ;F02;M01;;4;Leopard;;1;;"two\r\nlines"\r\nC02;;;;;Normal;;3;;\r\n')


def test_what_is_said_of_the_clutch_outlives_its_first_row() -> None:
    book = ClutchBook.from_text(ODD, ANIMALS).with_clutch(
        {"clutch": "C01"}, [{"look": "Normal", "sex": "m", "count": "2"}]
    )
    first = '"C01";F01;"M01 or M04";2026-05-01; 8 ;"Pastel, maybe Enchi";f;3;2;=1+1\r\n'
    assert book.text == ODD.replace(first, "").replace(
        "C01;;;2026-05-01;;Normal;♂;2;;\r", "C01;F01;M01 or M04;2026-05-01;8;Normal;♂;2;;\r"
    )
    assert (book["C01"].dam, book["C01"].sires, book["C01"].eggs) == ("F01", ("M01", "M04"), 8)


def test_the_hatchlings_of_a_clutch_that_had_eggs_alone() -> None:
    book = ClutchBook.from_text(ODD, ANIMALS)
    groups = [{"look": "Leopard", "count": "2"}, {"look": "Normal", "count": "3"}]
    hatched = book.with_clutch({"clutch": "C03"}, groups)
    assert hatched.text == ODD.replace(
        "C03;F02;M04;;6;;;;;eggs only", "C03;F02;M04;;6;Leopard;;2;;eggs only\r\nC03;;;;;Normal;;3;;"
    )
    assert hatched.with_clutch({"clutch": "C03"}, []).text == f"{ODD}\r\n"


def test_a_clutch_is_taken_out() -> None:
    book = ClutchBook.from_text(ODD, ANIMALS).without("C01")
    assert book.text == ODD.replace(
        '"C01";F01;"M01 or M04";2026-05-01; 8 ;"Pastel, maybe Enchi";f;3;2;=1+1\r\n', ""
    ).replace("C01;;;2026-05-01;;Normal;♂;2;;\r", "")
    with pytest.raises(KeyError, match="no clutch 'C09'; nearest: C03"):
        book.without("C09")


@pytest.mark.parametrize(
    ("values", "groups", "words"),
    [
        ({"dam": "F01"}, None, "clutch: no clutch. Needed: the clutch's name"),
        ({"clutch": "C01", "looks": "Pastel"}, None, "looks: no column of this name.*Nearest: look"),
        ({"clutch": "C01", "note": "x"}, None, "note: no column of this name.*Nearest: notes"),
        (
            {"clutch": "C01", "look": "Pastel"},
            None,
            "look: a column that stands in the wrong place. Say it of the hatch",
        ),
        ({"clutch": "C01"}, [{"dam": "F01"}], "dam: a column that stands in the wrong place. Say it of the clutch"),
        ({"clutch": "C09", "dam": "F9", "sire": "M9"}, [{"look": "x", "count": "0"}], "4 errors"),
    ],
)
def test_a_faulty_change_is_refused(values: dict[str, str], groups: list[dict[str, str]] | None, words: str) -> None:
    with pytest.raises(CollectionError, match=words):
        ClutchBook.from_text(ODD, ANIMALS).with_clutch(values, groups)


def test_a_collection_that_has_grown() -> None:
    book = ClutchBook.from_text(ODD, ANIMALS)
    kept = {"id": "K01", "sex": "f", "genes": "Leopard", "dam": "F02", "sire": "M01", "clutch": "C02"}
    grown = book.beside(ANIMALS.with_animal(kept))
    assert (book.kept["C02"], grown.kept["C02"], grown.text) == ((), ("K01",), ODD)
    assert grown.with_clutch({"clutch": "C02", "eggs": "3"}).kept["C02"] == ("K01",)
    with pytest.raises(CollectionError, match="its dam is F01"):
        book.beside(ANIMALS.with_animal({**kept, "dam": "F01"}))


def test_save_and_undo(tmp_path: Path) -> None:
    file = tmp_path / "clutches.csv"
    file.write_bytes(ODD.encode())
    book = read_clutches(file, ANIMALS)
    more = book.with_clutch(
        {"clutch": "C04", "dam": "F01", "sire": "M01", "died": "1"}, [{"look": "Enchi", "count": "1"}]
    )
    backup = more.save(file, now=NOW)
    assert backup == tmp_path / "clutches.2026-11-25T101500.bak.csv"
    assert backup.read_bytes() == ODD.encode()
    assert file.read_bytes() == more.text.encode() != ODD.encode()
    book.save(file, now=NOW)
    assert file.read_bytes() == ODD.encode()
    assert read_clutches(file, ANIMALS).clutches == book.clutches


def test_the_collection_is_undone_alike(tmp_path: Path) -> None:
    data = '\ufeffid;sex;genes;Box\r\nF01;f; Pastel;3\r\n\r\nM01;m;"Enchi";'.encode()
    file = tmp_path / "animals.csv"
    file.write_bytes(data)
    animals = read_collection(file)
    animals.with_animal({"id": "K01", "sex": "f", "genes": "Pastel Enchi", "dam": "F01", "clutch": "C01"}).save(file)
    assert file.read_bytes() != data
    animals.save(file)
    assert file.read_bytes() == data


def test_a_change_from_outside_is_not_overwritten_unasked(tmp_path: Path) -> None:
    file = tmp_path / "clutches.csv"
    file.write_bytes(ODD.encode())
    book = read_clutches(file, ANIMALS)
    file.write_text("somebody else's")
    with pytest.raises(SaveRefused, match=r"clutches.csv was changed by another program since it was read"):
        book.save(file)
    assert file.read_text() == "somebody else's"
    backup = book.save(file, overwrite=True)
    assert backup is not None and backup.read_text() == "somebody else's"


def test_another_file_is_not_overwritten_unasked(tmp_path: Path) -> None:
    """One that was never read: not even to be kept as a backup."""
    file, other = tmp_path / "clutches.csv", tmp_path / "other.csv"
    file.write_bytes(ODD.encode())
    other.write_text("somebody else's")
    book = read_clutches(file, ANIMALS)
    with pytest.raises(SaveRefused, match=r"other.csv is there already"):
        book.save(other)
    assert other.read_text() == "somebody else's"
    assert book.save(tmp_path / "new.csv") is None
    backup = book.save(other, overwrite=True)
    assert backup is not None and backup.read_text() == "somebody else's"
    assert book.save(other, now=NOW) is not None, "by now it was written"


def test_a_contradiction_leaves_the_file_as_it_was(tmp_path: Path) -> None:
    file = tmp_path / "clutches.csv"
    data = b"clutch,dam,sire,eggs,look,count\nC01,M01,F01,1,Pastel,2\n"
    file.write_bytes(data)
    with pytest.raises(CollectionError, match="3 errors"):
        read_clutches(file, ANIMALS)
    assert file.read_bytes() == data
    assert [path.name for path in tmp_path.iterdir()] == ["clutches.csv"]


names = st.sampled_from(["C01", "C02", "C 3"])
free = st.text(st.sampled_from(list('ab ,;"\r\n=-é<>')), max_size=6)
groups = st.fixed_dictionaries(
    {
        "look": st.sampled_from(["Normal", "Pastel", "pastel ", "Enchi, maybe Pastel", "Leopard?"]),
        "sex": st.sampled_from(["", "f", "male", "♂"]),
        "count": st.integers(1, 9).map(str),
        "notes": free,
    }
)
clutches = st.fixed_dictionaries(
    {
        "dam": st.sampled_from(["F01", "F02"]),
        "sire": st.sampled_from(["M01", "M01 or M04", "M01 and M04"]),
        "laid": st.sampled_from(["", "2026-05-01"]),
        "eggs": st.sampled_from(["", "99"]),
    }
)
changes = st.lists(st.tuples(names, clutches, st.none() | st.lists(groups, max_size=4)), min_size=1, max_size=6)


@given(changes, st.sampled_from(",;"), st.sampled_from(["\n", "\r\n", "\r"]), st.booleans(), st.booleans())
@settings(max_examples=100, deadline=None)
def test_any_changes_say_what_was_meant_and_can_be_undone(
    tmp_path_factory: pytest.TempPathFactory,
    steps: list[tuple[str, dict[str, str], list[dict[str, str]] | None]],
    delimiter: str,
    end: str,
    marked: bool,
    ended: bool,
) -> None:
    lines = [
        ["clutch", "dam", "sire", "look", "count", "sex", "notes"],
        ["Z", "F01", "M01", "Normal", '"1"', " ", '"é"'],
    ]
    data = (("\ufeff" if marked else "") + end.join(delimiter.join(line) for line in lines) + end * ended).encode()
    file = tmp_path_factory.mktemp("undo") / "clutches.csv"
    file.write_bytes(data)
    first = book = read_clutches(file, ANIMALS)
    for key, values, hatchlings in steps:
        before = {clutch.id: _said(clutch) for clutch in book}
        looks = [group.look for group in book[key].hatchlings] if key in book else []
        book = book.with_clutch({"clutch": key, **values}, hatchlings)
        clutch = book[key]
        assert (clutch.dam, " and ".join(clutch.sires)) == (values["dam"], values["sire"].replace(" or ", " and "))
        assert clutch.several == ("and" in values["sire"])
        assert (clutch.laid is None, clutch.eggs is None) == (not values["laid"], not values["eggs"])
        if hatchlings is None:
            assert [group.look for group in clutch.hatchlings] == looks
        else:
            wanted = sorted((group["look"].strip().casefold(), group["count"]) for group in hatchlings)
            assert sorted((group.look.casefold(), str(group.count)) for group in clutch.hatchlings) == wanted
        assert {one.id: _said(one) for one in book} == {**before, key: _said(clutch)}
        added = delimiter * (len(book.columns) - len(lines[0]))
        assert f"{delimiter.join(lines[1])}{added}" in book.text
    book.save(file)
    assert read_clutches(file, ANIMALS).clutches == book.clutches
    first.save(file)
    assert file.read_bytes() == data


def _said(clutch: Clutch) -> tuple[object, ...]:
    groups = [(group.look, group.sex, group.count) for group in clutch.hatchlings]
    return clutch.dam, clutch.sires, clutch.laid, clutch.eggs, groups, clutch.further.get("notes", "")


def test_an_error_says_which_file_it_is_of(tmp_path: Path) -> None:
    file = tmp_path / "own.clutches.csv"
    file.write_text(ODD.replace("Leopard", "Leopord"), encoding="utf-8")
    with pytest.raises(CollectionError, match=r"\A1 error in own.clutches.csv\n.*Leopord"):
        read_clutches(file, ANIMALS)
    with pytest.raises(CollectionError, match=r"\A1 error in none.csv\nthere is no file"):
        read_clutches(tmp_path / "none.csv", ANIMALS)
    with pytest.raises(CollectionError, match=r"\A1 error in the clutch book\n.*Leopord"):
        ClutchBook.from_text(file.read_text(encoding="utf-8"), ANIMALS)
    file.write_text(ODD, encoding="utf-8")
    book = read_clutches(file, ANIMALS)
    with pytest.raises(CollectionError, match=r"\A1 error in own.clutches.csv\n.*Leopord"):
        book.with_clutch({"clutch": "C04", "dam": "F01", "sire": "M01"}, [{"look": "Leopord", "count": "1"}])
    with pytest.raises(CollectionError, match=r"\A1 error in the clutch book\nshelve"):
        book.with_clutch({"clutch": "C04", "shelve": "1"})


def test_put_back__gives_the_file_the_content_that_it_had(tmp_path: Path) -> None:
    file = tmp_path / "own.clutches.csv"
    file.write_bytes(ODD.encode())
    book = read_clutches(file, ANIMALS)
    book.without("C02").save(file, now=NOW)
    backup = book.put_back(file, None, now=NOW)
    assert not file.exists() and backup is not None and b"C02" not in backup.read_bytes()
    book.save(file, now=NOW)
    assert file.read_bytes() == ODD.encode()
    file.write_bytes(b"theirs")
    with pytest.raises(SaveRefused):
        book.put_back(file, None)
    assert file.read_bytes() == b"theirs"
    assert book.put_back(file, "", overwrite=True, now=NOW) is not None
    assert file.read_bytes() == b""
