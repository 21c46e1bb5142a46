"""A keeper's opinions and taste, in small files beside the collection."""

from pathlib import Path

import pytest

from explorer.catalogue import load_catalogue
from explorer.collection import (
    CollectionError,
    opinion,
    opinions_file,
    read_opinions,
    read_taste,
    save_opinions,
    save_taste,
    taste_file,
)
from explorer.looks import DEFAULT_TASTE, stack

CATALOGUE = load_catalogue()


def test_files__stand_beside_the_collection(tmp_path: Path) -> None:
    assert opinions_file(tmp_path / "mine.csv") == tmp_path / "mine.opinions.csv"
    assert taste_file(tmp_path / "mine.csv") == tmp_path / "mine.taste.csv"


def test_opinions__none_without_a_file(tmp_path: Path) -> None:
    assert read_opinions(tmp_path / "x.opinions.csv", CATALOGUE) == ()
    assert read_taste(tmp_path / "x.taste.csv") == DEFAULT_TASTE


def test_opinions__come_back_as_they_were_written(tmp_path: Path) -> None:
    one = opinion("enchi", 1, "brightness", 3, "Rowan", "mine glow, truly", CATALOGUE)
    two = opinion("Clown", 2, "dorsal line", -1, "", "", CATALOGUE)
    save_opinions(tmp_path / "o.csv", [one, two])
    assert read_opinions(tmp_path / "o.csv", CATALOGUE) == (one, two)
    assert (one.by, two.by) == ("Rowan", "the keeper")
    assert stack("Enchi", opinions=[one]).value("brightness") == 3


def test_opinions__all_mistakes_at_once_with_their_rows(tmp_path: Path) -> None:
    file = tmp_path / "o.csv"
    file.write_text("gene,copies,quality,value\nEnchii,1,brightness,2\nClown,1,shine,9\n\nPastel,3,clean,0\n")
    with pytest.raises(CollectionError) as caught:
        read_opinions(file, CATALOGUE)
    said = [str(finding) for finding in caught.value.findings]
    assert said[0].startswith('row 2, gene: o.csv: ') and "Nearest: Enchi" in said[0]
    assert said[1] == 'row 3, copies: o.csv: "1". Needed: 2: one copy of a recessive gene shows nothing.'
    assert said[2].startswith('row 3, quality: o.csv: "shine". Needed: a quality that is known')
    assert said[3] == 'row 3, value: o.csv: "9". Needed: a whole number from -3 to 3.'
    assert said[4] == 'row 5, copies: o.csv: "3". Needed: 1 or 2.'
    assert len(said) == 5


def test_opinions__a_missing_column_is_named(tmp_path: Path) -> None:
    file = tmp_path / "o.csv"
    file.write_text("gene,copies,value\nEnchi,1,2\n")
    with pytest.raises(CollectionError, match=r"quality: o\.csv: no column of this name"):
        read_opinions(file, CATALOGUE)


def test_opinion__a_wrong_one_is_refused() -> None:
    with pytest.raises(CollectionError, match="a whole number from -3 to 3"):
        opinion("Enchi", 1, "brightness", 4, "", "", CATALOGUE)


def test_save__keeps_the_earlier_file(tmp_path: Path) -> None:
    file = tmp_path / "t.csv"
    assert save_taste(file, {"bright": 2}) is None
    backup = save_taste(file, {"bright": -2})
    assert backup is not None and "bright,2" in backup.read_text()
    assert read_taste(file)["bright"] == -2
    assert read_taste(file)["clean"] == 0


def test_taste__all_mistakes_at_once(tmp_path: Path) -> None:
    file = tmp_path / "t.csv"
    file.write_text("wish,weight\nbrigt,1\nclean,5\n")
    with pytest.raises(CollectionError) as caught:
        read_taste(file)
    assert [str(finding) for finding in caught.value.findings] == [
        'row 2, wish: t.csv: "brigt". Needed: a wish that is known. Nearest: bright.',
        'row 3, weight: t.csv: "5". Needed: a whole number from -2 to 2.',
    ]


def test_opinion__on_a_base_and_of_a_pair_of_one_complex(tmp_path: Path) -> None:
    on_clown = opinion("Enchi", 1, "flank", 3, "Rowan", "", CATALOGUE, on="Clown")
    pair = opinion("Mojave Lesser", 1, "yellow", 2, "Rowan", "", CATALOGUE)
    save_opinions(tmp_path / "o.csv", [on_clown, pair])
    assert read_opinions(tmp_path / "o.csv", CATALOGUE) == (on_clown, pair)
    assert stack("Enchi", opinions=[on_clown]).value("flank") == stack("Enchi").value("flank")
    assert stack("Enchi Clown", opinions=[on_clown]).value("flank") != stack("Enchi Clown").value("flank")
    assert stack("Mojave Lesser", opinions=[pair]).value("yellow") == 2


def test_opinion__wins_over_what_the_catalogue_says_on_a_base() -> None:
    mine = opinion("Enchi", 1, "flank", 3, "Rowan", "", CATALOGUE)
    layer = next(one for one in stack("Enchi Clown", opinions=[mine]).layers if one.genes == ("Enchi",))
    assert layer.values["flank"] == 3 and layer.origin["flank"] is mine


def test_opinion__copies_that_look_the_same_are_one() -> None:
    mine = opinion("Pinstripe", 2, "white", 3, "Rowan", "", CATALOGUE)
    assert stack("Super Pinstripe", opinions=[mine]).value("white") == 3


def test_opinions__semicolons_plus_signs_and_an_empty_file_will_do(tmp_path: Path) -> None:
    file = tmp_path / "o.csv"
    file.write_text("gene;copies;quality;value\nEnchi;1;brightness;+2\n")
    assert read_opinions(file, CATALOGUE)[0].values == {"brightness": 2}
    file.write_text("")
    assert read_opinions(file, CATALOGUE) == ()


def test_opinion__two_genes_that_make_no_pair_are_refused() -> None:
    with pytest.raises(CollectionError, match="one gene, or two of one complex"):
        opinion("Enchi Pastel", 1, "white", 3, "", "", CATALOGUE)
