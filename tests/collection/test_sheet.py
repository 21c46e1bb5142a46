"""Text to rows and back: what nobody edited keeps every byte."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from explorer.collection import Collection, CollectionError, for_spreadsheet, read_collection
from explorer.collection.sheet import read_sheet

ODD = (
    "\ufeffID; Sex ;genes;Box;name;notes\r\n"
    '"F01";f;"Pastel";3;"<b>Ivy</b>";=1+1\r\n'
    "\r\n"
    ';;"";;;\r\n'
    'F02 ;M; Leopard ;;"two\r\nlines";"she said ""no"""\r'
    "F03;;Normal;;x;"
)


def test_an_odd_file_is_read_and_kept() -> None:
    animals = Collection.from_text(ODD)
    assert animals.text == ODD
    assert [animal.id for animal in animals] == ["F01", "F02", "F03"]
    assert animals["F01"].name == "<b>Ivy</b>"
    assert animals["F01"].notes == "=1+1"
    assert animals["F01"].extra == {"box": "3"}
    assert animals["F02"].name == "two\r\nlines"
    assert animals["F02"].notes == 'she said "no"'
    assert (animals["F02"].row, animals["F03"].row) == (5, 7)
    assert animals["F03"].sex is None
    assert list(animals.table.columns)[-1] == "box"


def test_an_edit_touches_its_own_row_alone() -> None:
    animals = Collection.from_text(ODD).with_animal({"id": "F02", "notes": "a; b"})
    assert animals.text == ODD.replace(
        'F02 ;M; Leopard ;;"two\r\nlines";"she said ""no"""\r', 'F02 ;M; Leopard ;;"two\r\nlines";"a; b"\r'
    )


def test_an_edit_that_changes_nothing_changes_no_byte() -> None:
    assert Collection.from_text(ODD).with_animal({"id": "F01", "sex": "f", "genes": "Pastel"}).text == ODD


def test_a_row_is_added_at_the_end_in_the_style_of_the_file() -> None:
    assert Collection.from_text(ODD).with_animal({"id": "F04", "genes": "Enchi"}).text == f"{ODD}\r\nF04;;Enchi;;;"
    ended = "id,sex,genes\nF01,f,Pastel\n"
    assert Collection.from_text(ended).with_animal({"ID": "F02", "genes": "Enchi"}).text == f"{ended}F02,,Enchi\n"
    assert (
        Collection.from_text("id,sex,genes").with_animal({"id": "F02", "genes": "Enchi"}).text
        == "id,sex,genes\nF02,,Enchi\n"
    )


def test_a_known_column_is_added_where_the_file_lacks_it() -> None:
    animals = Collection.from_text("id,sex,genes\r\nF01,f,Pastel\r\n\r\nF02,f,Enchi").with_animal(
        {"id": "F02", "weight_g": "900"}
    )
    assert animals.text == "id,sex,genes,weight_g\r\nF01,f,Pastel,\r\n\r\nF02,f,Enchi,900"
    assert animals["F02"].weight_g == 900


def test_a_row_is_taken_out() -> None:
    assert Collection.from_text(ODD).without("F01").text == ODD.replace('"F01";f;"Pastel";3;"<b>Ivy</b>";=1+1\r\n', "")


def test_an_unknown_column_is_refused() -> None:
    with pytest.raises(CollectionError, match=r"weigt_g: no column of this name.*Nearest: weight_g"):
        Collection.from_text("id,sex,genes\n").with_animal({"id": "F01", "genes": "Pastel", "weigt_g": "3"})


def test_a_faulty_edit_is_refused_with_all_findings() -> None:
    with pytest.raises(CollectionError) as caught:
        Collection.from_text("id,sex,genes\n").with_animal({"id": "F01", "sex": "x", "genes": "Pastell"})
    assert [finding.column for finding in caught.value.findings] == ["sex", "genes"]
    with pytest.raises(CollectionError, match="no id"):
        Collection.from_text("id,sex,genes\n").with_animal({"genes": "Pastel"})


def test_a_column_without_a_name_is_kept_and_said() -> None:
    animals = Collection.from_text("id,sex,genes,\nF01,f,Pastel,box 3\n")
    assert [finding.found for finding in animals.findings] == ["a column without a name"]
    assert Collection.from_text("id,sex,genes,\nF01,f,Pastel,\n").findings == ()


@pytest.mark.parametrize("text", ["=1+1", "+3", "-2", "@x", "\t=1", " =1", "\rx"])
def test_formulas_are_escaped_in_exports(text: str) -> None:
    assert for_spreadsheet(text) == f"'{text}"


@pytest.mark.parametrize("text", ["", "Pastel", "a=b", "66% het Clown"])
def test_other_text_is_exported_as_it_is(text: str) -> None:
    assert for_spreadsheet(text) == text


signs = st.sampled_from([*' ,;"\r\n\tF0=', "Pastel", "é", "\ufeff", "\u2028", "\x0b", "f"])


@given(st.lists(signs).map("".join))
@settings(max_examples=300, deadline=None)
def test_rows_put_together_are_the_text(body: str) -> None:
    text = f"id,sex,genes\n{body}"
    sheet, _ = read_sheet(text)
    assert sheet is not None
    assert sheet.text == text


cells = st.text(st.sampled_from(list('ab ,;"\r\n=-é<>')), max_size=6)


@given(st.lists(cells, max_size=4), st.sampled_from(",;"), st.sampled_from(["\n", "\r\n", "\r"]), st.booleans())
@settings(max_examples=200, deadline=None)
def test_read_then_save_is_the_identity(
    tmp_path_factory: pytest.TempPathFactory, notes: list[str], delimiter: str, end: str, marked: bool
) -> None:
    quoted = ['"' + note.replace('"', '""') + '"' for note in notes]
    lines = [["id", "sex", "genes", "notes"], *([f"F{i}", "f", "Pastel", note] for i, note in enumerate(quoted))]
    data = (("\ufeff" if marked else "") + end.join(delimiter.join(line) for line in lines)).encode()
    file = tmp_path_factory.mktemp("same") / "animals.csv"
    file.write_bytes(data)
    animals = read_collection(file)
    assert [animal.notes for animal in animals] == [note.strip() for note in notes]
    animals.save(file)
    assert file.read_bytes() == data
    for i, note in enumerate(notes):
        animals = animals.with_animal({"id": f"N{i}", "sex": "m", "genes": "Enchi", "notes": note})
        assert animals[f"N{i}"].notes == note.strip()


@given(st.one_of(st.binary(), st.text().map(lambda text: text.encode("utf-8", "surrogatepass"))))
@settings(max_examples=300, deadline=None)
def test_any_bytes_are_read_or_refused(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    file = tmp_path_factory.mktemp("any") / "animals.csv"
    file.write_bytes(data)
    try:
        read_collection(file)
    except CollectionError as refused:
        assert any(finding.severity == "error" for finding in refused.findings)


words = st.lists(signs, max_size=8).map("".join)


@given(st.lists(st.lists(words, min_size=1, max_size=8), max_size=5), st.text(max_size=20))
@settings(max_examples=300, deadline=None)
def test_any_rows_are_read_or_refused(rows: list[list[str]], rest: str) -> None:
    text = "\n".join(["id,sex,genes,hatched,weight_g,sire,dam,status", *(",".join(row) for row in rows), rest])
    try:
        animals = Collection.from_text(text)
    except CollectionError as refused:
        assert any(finding.severity == "error" for finding in refused.findings)
    else:
        assert animals.text == text
