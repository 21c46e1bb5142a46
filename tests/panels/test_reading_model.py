"""The tab "Read an animal" without its widgets: every number it says is that of `read_animal`."""

from datetime import date
from fractions import Fraction

import pytest

from explorer.catalogue import ZONES, Effect, Evidence, Part
from explorer.collection import Collection
from explorer.pairing import percent, read_animal
from explorer.panels.desk import Desk
from explorer.panels.reading_tab.reading_model import ReadingModel

ROWS = (
    "F1,Juniper,f,Pastel het Clown,2020-01-01,1900,kept",
    "F2,Sedge,f,Spider,2020-01-01,2000,kept",
    "F3,Tansy,f,Desert Ghost,2020-01-01,2000,kept",
    "M1,Alder,m,Pinstripe het Clown,2020-01-01,900,kept",
    "M2,Larch,m,Normal,2020-01-01,900,kept",
    "U1,Moth,?,Pastel,2020-01-01,1800,kept",
)


def desk_with(*rows):
    desk = Desk("animals.csv", date(2026, 11, 25))
    desk.animals = Collection.from_text("id,name,sex,genes,hatched,weight_g,status\n" + "\n".join(rows) + "\n")
    return desk


@pytest.fixture
def desk():
    return desk_with(*ROWS)


def reading_of(desk, dam="", sire="", *candidates, known=True):
    made = ReadingModel(desk)
    made.origin.known, made.origin.dam, made.origin.sire = known, dam, sire
    made.origin.candidates = candidates
    made.refresh()
    return made


@pytest.fixture
def model(desk):
    return reading_of(desk, "F1", "M1")


def chances(model):
    return {bar.gene: bar.carries for bar in model.bars}


def test_begins_with_a_clutch_of_the_collection(desk):
    model = ReadingModel(desk)
    assert model.origin.known and model.origin.dam and model.origin.sire
    assert model.reading is not None


def test_headline__words_by_chance_and_what_is_ruled_out(model):
    before = "Before any look: het Clown likely (75 %), Pastel perhaps (50 %), Pinstripe perhaps (50 %)."
    assert model.headline == before
    for key, seen in {"bright": True, "white-lips": True, "light-headstamp": True, "lines-along-back": False}.items():
        model.answer(key, seen)
    model.answer("thin-pattern", False)
    carries = chances(model)
    assert carries["Pastel"] > Fraction(95, 100)
    assert carries["Pinstripe"] < Fraction(5, 100)
    assert f"Pastel almost surely ({percent(carries['Pastel'])})" in model.headline
    assert model.headline.endswith(f"hardly Pinstripe ({percent(carries['Pinstripe'])}).")


def test_headline__certain_and_nothing_likely(desk):
    assert reading_of(desk, "F3", "M2").headline == "Before any look: het Desert Ghost for certain."
    model = reading_of(desk, "F2", "M2")
    model.answer("fine-web", False)
    spider = percent(chances(model)["Spider"])
    assert model.headline == f"Nothing likely, most of all Spider ({spider})."


def test_headline__neither_carries_anything(desk):
    model = reading_of(desk_with(*ROWS, "F4,Wren,f,Normal,2020-01-01,2000,kept"), "F4", "M2")
    assert model.headline.startswith("There is nothing to find out")
    assert model.bars == ()
    assert model.zones == ()
    assert model.question is None


def test_headline__no_more_than_four_genes(desk):
    names = ("Pastel", "Enchi", "Leopard", "Pinstripe", "Spotnose", "Clown")
    model = reading_of(desk, "", "", *names, known=False)
    model.origin.share = 50
    model.refresh()
    assert model.headline.count("(75 %)") == 4
    assert model.headline.endswith(", two more perhaps or likelier.")


def test_bars__are_those_of_the_front_door(model, desk):
    model.answer("bright", True)
    model.answer("mark-below-eye", False)
    anew = read_animal({"bright": True, "mark-below-eye": False}, desk.animals["F1"], desk.animals["M1"])
    assert [(b.gene, b.shows, b.carries, b.before) for b in model.bars] == [
        (g.gene, g.shows, g.carries, g.before) for g in anew.genes
    ]


def test_genotypes__the_likeliest_and_how_many_more(model):
    model.answer("bright", True)
    table = model.reading.genotypes()
    found = model.genotypes
    assert len(found.rows) == 8
    assert found.rows[0] == (table["genotype"][0], percent(table["fraction"][0]))
    assert found.more == len(table) - 8 > 0


def test_likeliest__look_and_chance(model):
    model.answer("lines-along-back", True)
    title, stack = model.likeliest
    look, chance = model.reading.looks()[0]
    assert stack.look == look
    assert title == f"Likeliest look: {stack.text} ({percent(chance)})"
    assert "Pinstripe" in stack.text


def test_opinions__a_keepers_own_change_the_answer(desk):
    model = reading_of(desk, "F1", "M1")
    model.answer("dark", True)
    before = chances(model)["Pastel"]
    dull = Effect((Part("Pastel", 1),), {"brightness": -3}, Evidence("trade opinion"), by="the keeper")
    desk.opinions = (dull,)
    model.refresh()
    assert chances(model)["Pastel"] > Fraction(3, 4) > before
    _, stack = model.likeliest
    assert stack.look["Pastel"] == 1
    assert stack.layers[0].values["brightness"] == -3


def test_zones__only_cues_that_tell_something_unless_all_are_wanted(model, desk):
    listed = {row.key: row for _, rows in model.zones for row in rows}
    assert "fine-web" not in listed
    assert listed["lines-along-back"].points == "strong"
    assert listed["white-lips"].points == "fair"
    assert listed["dark-headstamp"].points == "weak"
    assert "as likely on one look that is possible here as on another" in listed["white-lips"].more
    assert model.left_out == len(desk.catalogue.cues) - len(listed) > 0
    model.every_cue = True
    assert [zone for zone, _ in model.zones] == list(ZONES)
    every = {row.key: row for _, rows in model.zones for row in rows}
    assert list(every) == [cue.key for cue in desk.catalogue.cues]
    assert every["fine-web"].points == "tells nothing"


def test_zones__what_was_answered_stays_listed(model, desk):
    model.answer("lines-along-back", True)
    model.origin.dam, model.origin.sire = "F2", "M2"
    model.refresh()
    assert "lines-along-back" in {row.key for _, rows in model.zones for row in rows}
    assert model.answers == {"lines-along-back": True}


def test_answer__one_seen_takes_back_the_others_on_its_quality(model):
    model.answer("dark", False)
    model.answer("dark-headstamp", True)
    model.answer("bright", True)
    assert model.answers == {"dark-headstamp": True, "bright": True}
    assert model.states["dark"] == "implied"
    assert model.states["light-headstamp"] == "implied"
    model.answer("dark", True)
    assert (model.states["dark"], model.states["bright"]) == ("seen", "implied")
    model.answer("dark", None)
    assert {key for key, state in model.states.items() if state == "implied"} == {"light-headstamp"}


def test_answer__forms_exclude_nothing_and_several_may_be_clearly_not(model):
    for key, seen in (("lines-along-back", True), ("mark-below-eye", True), ("bright", False), ("dark", False)):
        model.answer(key, seen)
    assert len(model.answers) == 4
    assert model.noted == "four noted"


def test_question__the_most_telling_cue_and_what_it_would_change(model):
    cue, bits = model.reading.further_cues()[0]
    asked = model.question
    assert asked.key == cue.key
    assert cue.text in asked.text and asked.text.endswith("Is it so?")
    assert f"{bits:.2f} bits" in asked.telling
    model.answer(asked.key, True)
    assert asked.key != model.question.key
    gene = asked.change.split(", now ")[0]
    assert f"{percent(chances(model)[gene])} if seen" in asked.change
    model.answer(asked.key, False)
    assert f"{percent(chances(model)[gene])} if clearly not" in asked.change


def test_question__words_for_what_it_tells(desk):
    model = reading_of(desk, "F2", "M2")
    assert model.question.text == "On the flanks: the dark pattern is a fine web. Is it so?"
    assert model.question.telling.startswith("Expected to tell a great deal: ")


def test_skip__asks_another_and_in_the_end_the_first_again(model):
    first = model.question.key
    asked = [first]
    for _ in range(100):
        model.skip(model.question.key)
        if model.question.key == first:
            break
        asked.append(model.question.key)
    assert len(set(asked)) == len(asked) > 3
    assert model.question.key == first


def test_reset__as_before_any_look(model):
    before = model.headline
    model.answer("bright", True)
    assert model.headline != before
    model.reset()
    assert (model.headline, model.answers, model.noted) == (before, {}, "nothing noted yet")


def test_cautions__with_the_strength_of_evidence_and_the_chance(desk):
    model = reading_of(desk, "F2", "M2")
    (before,) = model.cautions
    assert before.startswith("Spider: wobble")
    assert before.endswith("[published study] (chance here: 50 %)")
    model.answer("fine-web", True)
    (after,) = model.cautions
    assert after.endswith(f"(chance here: {percent(chances(model)['Spider'])})")


def test_unknown__candidates_at_the_catalogues_share_by_default(desk):
    model = reading_of(desk, "", "", "Pastel", "Clown", known=False)
    assert model.origin.share == 25
    assert chances(model) == {"Pastel": 1 - Fraction(9, 16), "Clown": 1 - Fraction(9, 16)}
    model.origin.share = 10
    model.refresh()
    assert chances(model)["Pastel"] == 1 - Fraction(81, 100)


def test_unknown__the_other_parent_may_be_known(desk):
    model = reading_of(desk, "F1", "", "Enchi")
    assert model.origin.asks_for_genes
    assert chances(model) == {"Pastel": Fraction(1, 2), "Clown": Fraction(1, 2), "Enchi": Fraction(1, 4)}
    model.origin.sire = "M1"
    model.refresh()
    assert "Enchi" not in chances(model), "with both parents known, candidates do not count"


def test_candidates__added_and_taken_away_those_of_the_collection_first(desk):
    origin = reading_of(desk, "", "", known=False).origin
    labels = [choice.label for choice in origin.gene_choices]
    mine = [label for label in labels if label.endswith(" (in the collection)")]
    assert labels[: len(mine)] == mine
    assert {label.split(" (")[0] for label in mine} == {"Pastel", "Clown", "Spider", "Desert Ghost", "Pinstripe"}
    assert len(labels) == len(desk.catalogue.genes)
    origin.suppose("Pastel")
    origin.suppose("Enchi")
    assert "Pastel" not in {choice.id for choice in origin.gene_choices}
    origin.suppose("Pastel", taken=False)
    assert origin.candidates == ("Enchi",)


def test_blocker__nothing_is_known(desk):
    model = reading_of(desk, "", "", known=False)
    assert model.headline == "Which genes come into question? Add one or more."
    assert (model.bars, model.zones, model.cautions, model.question, model.likeliest) == ((), (), (), None, None)
    assert model.genotypes.rows == ()
    assert reading_of(desk, "", "").headline == model.headline


def test_blocker__too_many_at_one_place(desk):
    model = reading_of(desk, "", "", "Mojave", "Lesser", "Butter", known=False)
    assert model.reading is not None
    model.origin.share = 50
    model.refresh()
    assert model.headline.startswith("Mojave, Lesser and Butter share one place on the chromosome")
    assert "three at 50 % each are too many" in model.headline
    assert model.reading is None


def test_blocker__too_many_looks(desk):
    names = ("Pastel", "Enchi", "Leopard", "Spotnose", "Banana", "Yellow Belly", "Mojave", "Fire", "Cinnamon")
    assert reading_of(desk, "", "", *names[:5], known=False).reading is not None
    model = reading_of(desk, "", "", *names[:7], known=False)
    assert model.headline.endswith("looks are possible, too many to answer while you wait; take a gene away.")
    assert (model.reading, model.zones) == (None, ())
    model = reading_of(desk, "", "", *names, known=False)
    assert model.headline.endswith("name fewer candidates.")
    assert model.reading is None


def test_blocker__too_many_genotypes_under_few_looks(desk):
    names = ("Clown", "Piebald", "Desert Ghost", "Ultramel", "Albino", "Ghost", "Puzzle", "Sunset", "Zebra")
    model = reading_of(desk, "", "", *names, known=False)
    assert "genotypes are possible" in model.headline
    assert (model.reading, model.bars) == (None, ())


def test_blocker__one_animal_twice_or_no_collection(desk):
    assert reading_of(desk, "U1", "U1").headline.startswith("U1 cannot be both the dam and the sire.")
    empty = ReadingModel(Desk("animals.csv", date(2026, 11, 25)))
    assert empty.headline.startswith("No collection is open.")
    empty.origin.known = False
    empty.origin.suppose("Pastel")
    empty.refresh()
    assert chances(empty) == {"Pastel": 1 - Fraction(9, 16)}


def test_refresh__a_parent_that_is_gone_is_unknown_and_a_new_collection_begins_anew(model, desk):
    model.answer("bright", True)
    desk.animals = desk.animals.without("M1")
    model.refresh()
    assert (model.origin.dam, model.origin.sire) == ("F1", "")
    assert model.answers == {"bright": True}
    desk.animals = desk_with("A1,,f,Pastel,2020-01-01,1900,kept", "A2,,m,Enchi,2020-01-01,900,kept").animals
    model.refresh()
    assert (model.origin.dam, model.origin.sire) == ("A1", "A2")
