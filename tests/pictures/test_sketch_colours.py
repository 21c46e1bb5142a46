"""Colours: mixing by eye, and what each hue does."""

import pytest

from explorer.catalogue import QUALITIES
from explorer.pictures.sketch_colours import PIGMENTS, TABLE, as_hex, coat, mixed


def coat_of(bare=0.0, **values):
    return coat(dict.fromkeys(QUALITIES, 0.0) | values, bare)


@pytest.mark.parametrize("name", PIGMENTS)
def test_colours__there_and_back(name):
    assert as_hex(TABLE[name]) == PIGMENTS[name]


def test_mixed__from_one_end_to_the_other_and_no_further():
    one, other = TABLE["umber"], TABLE["chalk"]
    assert mixed(one, other, -1.0) == one
    assert mixed(one, other, 2.0) == other
    assert as_hex(mixed(TABLE["soot"], TABLE["chalk"], 0.5)) not in (PIGMENTS["soot"], PIGMENTS["chalk"])
    lights = [mixed(one, other, k / 10)[0] for k in range(11)]
    assert lights == sorted(set(lights))


def test_coat__wild_type_is_tan_under_dark_brown():
    wild = coat_of()
    assert as_hex(wild.field) == PIGMENTS["tan"]
    assert as_hex(wild.network) == PIGMENTS["umber"]
    assert wild.belly[0] > wild.flank[0] > wild.field[0] > wild.network[0]


def test_coat__dark_and_without_contrast_is_one_dark_colour():
    dark = coat_of(brightness=-3.0, contrast=-3.0, black=2.0)
    assert dark.field[0] < 0.4
    assert dark.field == pytest.approx(dark.network, abs=0.03)


def test_coat__black_fades_by_way_of_brown():
    lights = [coat_of(black=-x / 2).network[0] for x in range(7)]
    assert lights == sorted(set(lights))
    assert coat_of(black=-2.0).network[0] < coat_of(black=-2.0).field[0]
    assert coat_of(black=-3.0).network[0] > coat_of(black=-3.0).field[0]


def test_coat__headstamp_lightens_the_crown():
    lights = [coat_of(headstamp=float(x)).crown[0] for x in range(-3, 4)]
    assert lights == sorted(set(lights))


def test_coat__white_has_a_tinge_of_yellow_only_where_all_is_white():
    def tinge(colour):
        return colour[2] - TABLE["chalk"][2]

    assert tinge(coat_of(bare=0.95, yellow=1.0).bare) > 3 * tinge(coat_of(yellow=1.0).bare)
    assert tinge(coat_of(bare=0.95, yellow=-3.0).bare) < 0.01
