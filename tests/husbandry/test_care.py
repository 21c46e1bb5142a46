"""The numbers that plans start from."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from explorer.catalogue import load_catalogue
from explorer.husbandry import Husbandry


def test_every_field_starts_from_the_catalogue() -> None:
    care, figures = Husbandry(), load_catalogue().figures
    for name, source in care.sources().items():
        assert getattr(care, name) == figures[name].value
        assert source == str(figures[name].evidence)
    assert care == Husbandry(eggs=6, hatch_rate=1.0, lay_rate=1.0, male_wait=2, female_wait=3, clutches_per_male=4)
    assert (care.female_min_g, care.male_min_g, care.female_sure_g, care.male_sure_g) == (1500, 500, 1700, 700)
    assert (care.season_first_month, care.season_last_month) == (11, 3)
    assert (care.female_grown_months, care.male_grown_months) == (32, 14)
    assert care.rest_seasons == 0
    assert care.sources()["rest_seasons"].startswith("planning default (no rest")
    assert "skipped years are common" in care.sources()["rest_seasons"]


def test_what_the_keeper_sets() -> None:
    care = Husbandry(eggs={5: 0.25, 7: 0.75}, hatch_rate=0.81)
    assert care.law == {5: Fraction(1, 4), 7: Fraction(3, 4)}
    assert care.hatch_rate == 0.81
    assert care.sources()["eggs"] == care.sources()["hatch_rate"] == "your own figure"
    assert replace(care, female_wait=4).female_wait == 4
    assert hash(care) == hash(Husbandry(eggs={5: 0.25, 7: 0.75}, hatch_rate=0.81))


def test_a_higher_least_weight_lifts_the_sure_weight() -> None:
    assert Husbandry(female_min_g=1800).female_sure_g == 1800


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({"eggs": -1}, "whole number of eggs from 0 up"),
        ({"eggs": {6: 0.5}}, "must sum to 1"),
        ({"hatch_rate": 1.2}, "hatch_rate: needed a chance from 0 to 1; found 1.2"),
        ({"lay_rate": -0.1}, "lay_rate: needed a chance"),
        ({"male_wait": 0}, "male_wait: needed a whole number from 1 up; found 0"),
        ({"female_wait": 2.5}, "female_wait: needed a whole number"),
        ({"clutches_per_male": 0}, "clutches_per_male: needed a whole number"),
        ({"season_first_month": 13}, "season_first_month: needed a month from 1 to 12; found 13"),
        ({"season_last_month": 0}, "season_last_month: needed a whole number from 1 up"),
        ({"rest_seasons": -1}, "rest_seasons: needed a whole number from 0 up; found -1"),
        ({"rest_seasons": 0.5}, "rest_seasons: needed a whole number from 0 up"),
        ({"female_min_g": 0}, "female_min_g: needed grams, over 0"),
        ({"female_min_g": float("inf")}, "female_min_g: needed a number; found inf"),
        ({"female_min_g": float("nan")}, "female_min_g: needed a number; found nan"),
        ({"female_min_g": "1500"}, "female_min_g: needed a number; found '1500'"),
        ({"rest_seasons": True}, "rest_seasons: needed a number; found True"),
        ({"male_sure_g": 400}, "male_sure_g: needed at least male_min_g, which is 500; found 400"),
    ],
)
def test_numbers_that_make_no_sense(given: dict[str, Any], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        Husbandry(**given)
