"""Broken collection files: each gives all its findings, no other exception, and is left as it was."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from explorer.collection import Collection, CollectionError, read_collection

GOOD = "id,sex,genes\nF01,female,Pastel\n"


@dataclass(frozen=True)
class Expected:
    """A finding: its row and column, and words that its text must hold."""

    row: int | None
    column: str
    words: tuple[str, ...]


@dataclass(frozen=True)
class Broken:
    name: str
    content: str | bytes
    errors: tuple[Expected, ...]

    @property
    def data(self) -> bytes:
        return self.content if isinstance(self.content, bytes) else self.content.encode()


def error(row: int | None, column: str, *words: str) -> Expected:
    return Expected(row, column, words)


FULL = "id,name,sex,genes,hatched,weight_g,weighed_on,sire,dam,clutch,status,notes\n"

FILES = [
    Broken("empty", b"", (error(None, "", "empty file", "id,sex,genes"),)),
    Broken("byte-order mark alone", b"\xef\xbb\xbf\r\n\r\n", (error(None, "", "empty file"),)),
    Broken("picture", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", (error(None, "", "a picture", "CSV"),)),
    Broken("workbook", b"PK\x03\x04\x14\0\x06\0", (error(None, "", "workbook", "Save the sheet as CSV"),)),
    Broken("zero byte", GOOD.encode() + b"F02,female,Pas\0tel\n", (error(3, "", "zero byte", "UTF-8"),)),
    Broken("UTF-16", GOOD.encode("utf-16"), (error(None, "", "UTF-16", "UTF-8"),)),
    Broken(
        "Latin-1", "id,sex,genes,name\nF01,f,Pastel,B\u00e4rlauch\n".encode("latin-1"), (error(2, "", "0xe4", "UTF-8"),)
    ),
    Broken("five megabytes", GOOD + "# " * 2_500_000, (error(None, "", "5,000,031 bytes", "at most 4,000,000"),)),
    Broken("tabs", GOOD.replace(",", "\t"), (error(1, "", "tabs", "commas or semicolons"),)),
    Broken("upright bars", GOOD.replace(",", "|"), (error(1, "", "upright bars", "commas"),)),
    Broken(
        "no header",
        "F01,female,Pastel\n",
        (
            error(1, "id", "no column of this name", "id, sex, genes"),
            error(1, "sex", "no column of this name"),
            error(1, "genes", "no column of this name"),
        ),
    ),
    Broken("missing column", "id,sex,gene\nF01,female,Pastel\n", (error(1, "genes", "no column", '"gene"', "Rename"),)),
    Broken(
        "column twice",
        "id,sex,genes,Sex\nF01,female,Pastel,female\n",
        (error(1, "sex", "2 columns of this name", "rename or delete one"),),
    ),
    Broken("short row", GOOD + "F02,female\n", (error(3, "", "2 columns", "3, as in the header", "empty columns"),)),
    Broken("long row", GOOD + "F02,female,Pastel, Leopard\n", (error(3, "", "4 columns", "quotation marks"),)),
    Broken(
        "unbalanced quote",
        GOOD + 'F02,female,"Pastel\nF03,frmale,Pastel\n',
        (error(3, "", "quotation mark without its partner", "close it"), error(4, "sex", "'frmale'", "female, male")),
    ),
    Broken(
        "quote shut too soon",
        GOOD + 'F02,female,"Pastel"x\n',
        (error(3, "", "quotation mark", "inside quotes"),),
    ),
    Broken("no id", GOOD + ",female,Pastel\n", (error(3, "id", "no id", "such as F01"),)),
    Broken("odd id", GOOD + "F/02,female,Pastel\n", (error(3, "id", "'F/02'", "'/'", "letters and digits"),)),
    Broken("id twice", GOOD + "F01,male,Leopard\n", (error(3, "id", "F01", "row 2", "rename one"),)),
    Broken("unknown sex word", GOOD + "F02,hen,Pastel\n", (error(3, "sex", "'hen'", "female, male or unknown"),)),
    Broken("no genes", GOOD + "F02,female,\n", (error(3, "genes", "no genes", "Normal"),)),
    Broken("unknown gene", GOOD + "F02,female,Pastell\n", (error(3, "genes", "Pastell", "Pastel"),)),
    Broken(
        "three alleles of a complex",
        GOOD + "F02,female,Mojave Lesser Butter\n",
        (error(3, "genes", "more than two alleles", "Mojave", "Lesser", "Butter"),),
    ),
    Broken(
        "a form that does not live",
        GOOD + "F02,female,Super Spider\n",
        (error(3, "genes", "Super Spider", "not viable", "copies"),),
    ),
    Broken(
        "dates in another style",
        FULL
        + "F01,,f,Pastel,12/03/2021,,,,,,,\nF02,,f,Pastel,25.12.2021,,,,,,,\nF03,,f,Pastel,2021-02-30,,March,,,,,\n",
        (
            error(2, "hatched", "12/03/2021", "YYYY-MM-DD", "2021-03-12 or 2021-12-03"),
            error(3, "hatched", "25.12.2021", "2021-12-25"),
            error(4, "hatched", "2021-02-30", "no day", "calendar"),
            error(4, "weighed_on", "'March'", "like 2021-03-12"),
        ),
    ),
    Broken(
        "weights",
        FULL
        + 'F01,,f,Pastel,,-5,,,,,,\nF02,,f,Pastel,,"1,820 g",,,,,,\n'
        + "F03,,f,Pastel,,0,,,,,,\nF04,,f,Pastel,,18200,,,,,,\n",
        (
            error(2, "weight_g", "'-5'", "grams alone", "over 0"),
            error(3, "weight_g", "1,820 g", "write 1820"),
            error(4, "weight_g", "0", "over 0"),
            error(5, "weight_g", "18200", "at most 10,000"),
        ),
    ),
    Broken(
        "comma in a weight of a semicolon file",
        "id;sex;genes;weight_g\nF01;f;Pastel;1820,5\n",
        (error(2, "weight_g", "1820,5", "1820.5", "point"),),
    ),
    Broken("unknown status", FULL + "F01,,f,Pastel,,,,,,,keept,\n", (error(2, "status", "'keept'", "Nearest: kept"),)),
    Broken(
        "parents of the wrong sex",
        FULL + "F01,,f,Pastel,,,,,,,,\nM01,,m,Pastel,,,,,,,,\nF02,,f,Pastel,,,,F01,M01,,,\n",
        (error(4, "sire", "F01 (row 2) is female", "male"), error(4, "dam", "M01 (row 3) is male", "female")),
    ),
    Broken(
        "sire here and dam there",
        FULL + "X01,,?,Pastel,,,,,,,,\nF01,,f,Pastel,,,,X01,,,,\nF02,,f,Pastel,,,,,X01,,,\n",
        (error(2, "sex", "X01", "a sire in one row and a dam in another"),),
    ),
    Broken(
        "own ancestor",
        FULL + "F01,,f,Pastel,,,,M01,,,,\nM01,,m,Pastel,,,,,F02,,,\nF02,,f,Pastel,,,,,F01,,,\n",
        (error(2, "sire", "F01 is its own ancestor", "F01 <- M01 <- F02 <- F01"),),
    ),
    Broken("own sire", FULL + "M01,,m,Pastel,,,,M01,,,,\n", (error(2, "sire", "its own ancestor", "M01 <- M01"),)),
    Broken(
        "parent younger than its offspring",
        FULL + "F01,,f,Pastel,2024-07-01,,,,,,,\nF02,,f,Pastel,2023-07-01,,,,F01,,,\n",
        (error(3, "dam", "F01 (row 2) hatched on 2024-07-01", "2023-07-01"),),
    ),
    Broken(
        "weighed before it hatched",
        FULL + "F01,,f,Pastel,2024-07-01,90,2024-06-01,,,,,\n",
        (error(2, "weighed_on", "2024-06-01", "before it hatched"),),
    ),
    Broken(
        "everything at once",
        FULL + "F01,,hen,Pastell,1/2/21,heavy,soon,,,,gone,\nF01,,f,Pastel,,,,,,,,\nshort\n",
        (
            error(2, "sex", "hen"),
            error(2, "genes", "Pastell"),
            error(2, "hatched", "1/2/21"),
            error(2, "weight_g", "heavy"),
            error(2, "weighed_on", "soon"),
            error(2, "status", "gone"),
            error(3, "id", "row 2"),
            error(4, "", "1 column", "12"),
        ),
    ),
    Broken("too many rows", GOOD + "F02,f,Pastel\n" * 5_000, (error(5002, "", "more rows", "at most 5,000"),)),
    Broken(
        "a field without end",
        GOOD + f'F02,female,"{"x" * 140_000}"\n',
        (error(3, "", "131,072 characters", "quotation mark"),),
    ),
]


@pytest.mark.parametrize("broken", FILES, ids=lambda broken: broken.name)
def test_every_fault_is_found_and_nothing_is_lost(broken: Broken, tmp_path: Path) -> None:
    file = tmp_path / "broken.csv"
    file.write_bytes(broken.data)
    with pytest.raises(CollectionError) as caught:
        read_collection(file)
    assert file.read_bytes() == broken.data
    assert [path.name for path in tmp_path.iterdir()] == ["broken.csv"]
    errors = [finding for finding in caught.value.findings if finding.severity == "error"]
    left = list(errors)
    for expected in broken.errors:
        found = [f for f in left if (f.row, f.column) == (expected.row, expected.column)]
        assert found, f"{expected} not among {[str(f) for f in errors]}"
        assert all(word.casefold() in str(found[0]).casefold() for word in expected.words), f"{expected}: {found[0]}"
        left.remove(found[0])
    if broken.name != "too many rows":
        assert not left, f"too many: {[str(f) for f in left]}"


def test_the_message_lists_the_errors() -> None:
    text = GOOD + "F02,hen,Pastel\nF03,female,Pastell\n"
    with pytest.raises(CollectionError) as caught:
        Collection.from_text(text)
    assert str(caught.value).startswith("2 errors in the collection file\nrow 3, F02, sex: 'hen'. Needed: female")
    assert "row 4, F03, genes" in str(caught.value)


def test_a_long_message_is_cut_but_the_findings_are_not() -> None:
    with pytest.raises(CollectionError) as caught:
        Collection.from_text(GOOD + "".join(f"F{n},hen,Pastel\n" for n in range(100, 150)))
    assert str(caught.value).endswith("and 30 more")
    assert len(caught.value.findings) == 50


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    (tmp_path / "my_animals.csv").write_text(GOOD)
    with pytest.raises(
        CollectionError, match=r"there is no file .*my_animal.csv. Needed: a CSV file. Nearest: my_animals"
    ):
        read_collection(tmp_path / "my_animal.csv")
    with pytest.raises(CollectionError, match="cannot be opened"):
        read_collection(tmp_path)
