"""How cues point, against the chances of the cues themselves and against reading the animal anew."""

from fractions import Fraction

import pytest

from explorer.catalogue import load_catalogue
from explorer.looks import cue_chances, layers_of
from explorer.pairing import read_animal
from explorer.pairing.pointing import cautions_met, crowded, pointers, swing

DAM, SIRE = "Pastel het Clown", "Pinstripe het Clown"
CUES = {"bright": True, "mark-below-eye": False}


@pytest.fixture
def start():
    return read_animal({}, DAM, SIRE)


def cue_of(key):
    return next(cue for cue in load_catalogue().cues if cue.key == key)


@pytest.mark.parametrize("origin", [(DAM, SIRE), ("Spider", "Normal"), ("Mojave Pastel", "Lesser Pastel")])
def test_look_count(origin):
    reading = read_animal({}, *origin)
    assert reading.look_count == len(reading.looks())


def test_pointers__greatest_factor_between_two_possible_looks(start):
    catalogue = load_catalogue()
    rows = [cue_chances(catalogue.cues, layers_of(look, catalogue)) for look, _ in start.looks()]
    assert len(rows) == 8
    found = pointers(start)
    assert [one.cue for one in found] == list(catalogue.cues)
    for one, chances in zip(found, zip(*rows, strict=True), strict=True):
        assert one.seen == max(a / b for a in chances for b in chances)
        assert one.missing == max((1 - a) / (1 - b) for a in chances for b in chances)


def test_pointers__by_form_and_without_bearing(start):
    found = {one.cue.key: one for one in pointers(start)}
    assert found["mark-below-eye"].seen == Fraction(85, 100) / Fraction(3, 100)
    assert found["mark-below-eye"].missing == Fraction(97, 100) / Fraction(15, 100)
    assert found["fine-web"].seen == found["fine-web"].missing == 1


def test_pointers__answers_change_nothing(start):
    assert pointers(start.answered(CUES)) == pointers(start)


def test_swing__the_gene_that_the_answer_moves_most(start):
    reading = start.answered(CUES)
    found = swing(reading, cue_of("lines-along-back"))
    assert found.gene == "Pinstripe"
    for answer, chance in ((True, found.seen), (False, found.missing)):
        genes = read_animal({**CUES, "lines-along-back": answer}, DAM, SIRE).genes
        assert next(item.carries for item in genes if item.gene == "Pinstripe") == chance
    assert found.missing < found.now < found.seen
    assert swing(reading, cue_of("fine-web")) is None


def test_cautions_met__with_the_chance_that_they_apply():
    ((caution, chance),) = cautions_met(read_animal({}, "Spider", "Normal"))
    assert (caution.parts[0].gene, chance) == ("Spider", Fraction(1, 2))
    ((_, likelier),) = cautions_met(read_animal(["fine-web"], "Spider", "Normal"))
    assert likelier > Fraction(19, 20)
    assert cautions_met(read_animal({}, DAM, SIRE)) == ()


def test_cautions_met__two_copies():
    found = dict(cautions_met(read_animal({}, "Cinnamon", "Cinnamon")))
    assert [chance for caution, chance in found.items() if caution.parts[0].copies == 2] == [Fraction(1, 4)]


@pytest.mark.parametrize(
    ("genes", "percent", "names"),
    [
        (("Mojave", "Lesser", "Butter"), 40, ("Mojave", "Lesser", "Butter")),
        (("Mojave", "Lesser"), 50, ()),
        (("Mojave", "Pastel", "Enchi"), 50, ()),
        ((), 50, ()),
    ],
)
def test_crowded__more_than_all_chromosomes_at_one_place(genes, percent, names):
    share = Fraction(percent, 100)
    assert crowded(genes, share, load_catalogue()) == names
    if names:
        with pytest.raises(ValueError, match="sum to at most 1"):
            read_animal({}, candidates=dict.fromkeys(genes, share))
    else:
        read_animal({}, candidates=dict.fromkeys(genes, share))
