"""The keeper's own figures: what is stated is kept, what is not is never made up."""

from fractions import Fraction

import pytest

from explorer.collection import CollectionError
from explorer.collection.purse import FIGURES, Purse, purse_file, purse_of, read_purse, save_purse

FULL = Purse(Fraction(99, 2), 30, Fraction(80), "kr")


def written(folder, text):
    file = folder / "mine.money.csv"
    file.write_text(text, encoding="utf-8")
    return file


def test_no_file__nothing_is_stated(tmp_path):
    assert read_purse(tmp_path / "mine.money.csv") == Purse()
    assert read_purse(written(tmp_path, "")) == Purse()
    assert set(Purse().texts.values()) == {""}


def test_file__lies_beside_the_collection(tmp_path):
    assert purse_file(tmp_path / "mine.csv") == tmp_path.resolve() / "mine.money.csv"


@pytest.mark.parametrize(
    "purse", [FULL, Purse(), Purse(places=0), Purse(hatchling=Fraction(1, 100)), Purse(currency="€")]
)
def test_saved__reads_back_the_same(tmp_path, purse):
    file = tmp_path / "mine.money.csv"
    assert save_purse(file, purse) is None
    assert read_purse(file) == purse
    assert purse_of(purse.texts) == purse


def test_save__keeps_the_old_file_beside_it(tmp_path):
    file = tmp_path / "mine.money.csv"
    save_purse(file, FULL)
    before = file.read_text(encoding="utf-8")
    backup = save_purse(file, Purse(places=4))
    assert backup is not None
    assert backup.read_text(encoding="utf-8") == before


def test_written__as_it_was_typed(tmp_path):
    file = tmp_path / "mine.money.csv"
    save_purse(file, FULL)
    assert file.read_text(encoding="utf-8") == (
        "figure,value\ncost of an animal a season,49.5\nplaces,30\nprice of a hatchling,80\ncurrency,kr\n"
    )


def test_read__case_spaces_and_semicolons(tmp_path):
    file = written(tmp_path, "Figure;Value\n Cost of an  animal a season ; 120 \n\nPLACES;12\n")
    assert read_purse(file) == Purse(Fraction(120), 12)


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ("cost of an animal,5", 'row 2, cost of an animal, figure: "cost of an animal". Needed: a figure that is'),
        ("places,12.5", "Needed: a whole number of animals"),
        ("price of a hatchling,49,50", "3 columns"),
        ('price of a hatchling,"49,50"', "Write 49.50, with a point"),
        ("price of a hatchling,-3", "Needed: an amount from 0 up"),
        ("price of a hatchling,99999999999", "Needed: at most 1,000,000,000"),
        ("currency,12 kr", "Needed: at most 12 signs and no digits"),
        ("currency,a name far too long", "Needed: at most 12 signs and no digits"),
        ("places,3\nplaces,4", "row 3, places, figure: .* a second time"),
    ],
)
def test_read__errors_name_row_and_figure(tmp_path, rows, said):
    with pytest.raises(CollectionError, match=said):
        read_purse(written(tmp_path, f"figure,value\n{rows}\n"))


def test_read__all_errors_at_once(tmp_path):
    with pytest.raises(CollectionError) as caught:
        read_purse(written(tmp_path, "figure,value\nplaces,x\nprice of a hatchling,y\n"))
    assert [finding.row for finding in caught.value.findings] == [2, 3]


def test_typed__errors_name_the_figure():
    texts = {**dict.fromkeys(FIGURES, ""), "places": "many", "price of a hatchling": "1,000"}
    with pytest.raises(CollectionError) as caught:
        purse_of(texts)
    assert [(finding.row, finding.column) for finding in caught.value.findings] == [
        (None, "places"), (None, "price of a hatchling")
    ]
