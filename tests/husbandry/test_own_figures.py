"""A keeper's own figures, and their file."""

from fractions import Fraction

import pytest

from explorer.catalogue import load_catalogue
from explorer.collection import CollectionError
from explorer.husbandry import Husbandry
from explorer.husbandry.own_figures import (
    OWN_FIGURES,
    care_of,
    default_in_words,
    figure_text,
    figures_file,
    read_figures,
    save_figures,
)

CATALOGUE = load_catalogue()


def test_every_figure__is_a_field_of_the_husbandry():
    care = Husbandry()
    assert set(OWN_FIGURES) == set(care.sources())


def test_file__is_read_as_it_was_saved(tmp_path):
    care = Husbandry(female_min_g=1600, hatch_rate=Fraction(81, 100), lay_rate=Fraction(1, 3), rest_seasons=1)
    file = figures_file(tmp_path / "my.csv")
    save_figures(file, care)
    assert file.name == "my.figures.csv"
    assert sorted(file.read_text().splitlines()[1:]) == [
        "female_min_g,1600", "hatch_rate,0.81", "lay_rate,1/3", "rest_seasons,1",
    ]  # fmt: skip
    found = read_figures(file, CATALOGUE)
    assert found == care
    assert found.sources()["female_min_g"] == "your own figure"


def test_no_file__is_the_catalogues(tmp_path):
    assert read_figures(tmp_path / "none.csv", CATALOGUE) == Husbandry()


def test_faults__are_all_found_with_their_rows(tmp_path):
    file = tmp_path / "my.figures.csv"
    file.write_text("figure,value\nfemale_min_gram,1600\nlay_rate,2\neggs,many\nseason_first_month,13\nmale_wait,1/2\n")
    with pytest.raises(CollectionError) as error:
        read_figures(file, CATALOGUE)
    assert [one.row for one in error.value.findings] == [2, 3, 4, 5, 6]
    assert "female_min_g" in error.value.findings[0].advice
    assert all("my.figures.csv" in one.found for one in error.value.findings)


def test_two_figures_that_do_not_go_together__are_refused():
    with pytest.raises(CollectionError, match="female_sure_g"):
        care_of({"female_min_g": "1800", "female_sure_g": "1600"}, CATALOGUE)
    assert care_of({"female_min_g": "1800"}, CATALOGUE).female_sure_g == 1800


def test_empty_text__is_the_catalogues():
    assert care_of({"female_min_g": "", "eggs": ""}, CATALOGUE) == Husbandry()


@pytest.mark.parametrize("text", ["nan", "inf", "1e400000000", "1_500", "1/0", "-", "１５００g"])
def test_nonsense__is_no_number(text):
    with pytest.raises(CollectionError):
        care_of({"female_min_g": text}, CATALOGUE)


def test_defaults__say_how_they_are_known():
    assert default_in_words(CATALOGUE.figure("female_min_g")).startswith("1500: published: MOR11 (least weight")
    assert figure_text(Fraction(1, 3)) == "1/3"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("female_min_g,1600\nmale_min_g,600\n", "no column of this name"),
        ("figure,value\nfemale_min_g,1600\nFemale_min_g,1400\n", '"female_min_g" a second time'),
        ("figure,value\nfemale_min_g,1600,more\n", "3 columns"),
    ],
)
def test_file__nothing_in_it_is_dropped_silently(tmp_path, text, words):
    """A least weight that is lost would let light females breed."""
    file = tmp_path / "my.figures.csv"
    file.write_text(text)
    with pytest.raises(CollectionError) as error:
        read_figures(file, CATALOGUE)
    assert any(words in one.found and "my.figures.csv" in one.found for one in error.value.findings)


@pytest.mark.parametrize("text", ["figure;value\nfemale_min_g;1600\n", "Value, Figure ,note\n1600,female_min_g,mine"])
def test_file__is_read_as_a_spreadsheet_may_write_it(tmp_path, text):
    file = tmp_path / "my.figures.csv"
    file.write_text(text)
    assert read_figures(file, CATALOGUE).female_min_g == 1600
