"""The Gene notes tab without its widgets: what it says is what `looks` and the catalogue hold."""

from datetime import date

import pytest

from explorer.catalogue import MEANINGS, load_catalogue
from explorer.collection import Collection
from explorer.looks import stack_of, suggestions
from explorer.pairing import gain_text
from explorer.panels.desk import Desk
from explorer.panels.notes_tab.notes_model import NotesModel
from explorer.panels.notes_tab.opinion_model import OpinionModel

CATALOGUE = load_catalogue()
HEAD = "id,name,sex,genes,status\n"
ROWS = (
    "F1,Juniper,f,Leopard het Desert Ghost,kept",
    "F2,Sedge,f,Pinstripe,kept",
    "F3,Vetch,f,het Clown,kept",
    "F4,Whimbrel,f,Mojave Lesser,kept",
    "F5,Wren,f,Enchi,sold",
    "M1,Larch,m,Pastel Leopard Pinstripe Enchi Fire Vanilla het Clown,retired",
)


@pytest.fixture
def desk(tmp_path):
    desk = Desk(tmp_path / "mine.csv", date(2026, 11, 25), CATALOGUE)
    desk.animals = Collection.from_text(HEAD + "\n".join(ROWS) + "\n", CATALOGUE)
    return desk


@pytest.fixture
def model(desk):
    made = NotesModel(desk)
    for topic in ("animals", "looks"):
        desk.listen(topic, made.refresh)
    return made


def chosen(model, *texts):
    assert model.chosen.choose(texts[0]) == ()
    for text in texts[1:]:
        assert model.chosen.add(text) == ()
    return model


def test_begins_with_the_first_gene_of_the_target(model):
    assert model.chosen.look == {"Leopard": 1}
    assert model.gene.name == "Leopard"


def test_genes__those_of_kept_animals_first_carried_ones_too(model):
    mine = [gene.name for gene, here in model.genes if here]
    assert mine == ["Leopard", "Pinstripe", "Mojave", "Lesser", "Clown", "Desert Ghost"]
    assert [gene.name for gene, _ in model.genes][: len(mine)] == mine
    assert len(model.genes) == len(CATALOGUE.genes)


@pytest.mark.parametrize(
    ("gene", "sentence"),
    [
        (
            "Leopard",
            "Leopard thins the dark pattern, brightens and raises the contrast; two copies do so more strongly.",
        ),
        ("Lesser", "Lesser brightens, lowers the contrast and cleans; two copies are white, or nearly so."),
        ("coral glow", "Banana brightens and adds yellow and lavender tones; two copies give a brighter body"),
        ("Pin", "Pinstripe thins the dark pattern, draws the dorsal line together and takes banding away; two copies"),
        ("Spider", "two copies are recorded as not viable."),
        ("Calico", "two copies are not reported."),
        ("Daddy", "how two copies look is not established."),
        ("Clown", "Clown with two copies draws the dorsal line together, "),
        ("Clown", "; one copy does not show: a carrier looks like wild type."),
    ],
)
def test_headline__of_one_gene(model, gene, sentence):
    assert sentence in chosen(model, gene).headline


def test_headline__two_copies_do_more_only_if_none_of_it_is_less(model):
    """Two copies of Banana add more lavender than one, and less yellow."""
    one, two = (stack_of({"Banana": copies}, catalogue=CATALOGUE) for copies in (1, 2))
    assert two.value("lavender") >= one.value("lavender")
    assert two.value("yellow") < one.value("yellow")
    assert "more strongly" not in chosen(model, "Banana").headline


@pytest.mark.parametrize(
    ("genes", "sentence"),
    [
        (["Leopard", "Pinstripe"], "Leopard and Pinstripe help each other; nothing spoils."),
        (["Leopard", "Pinstripe", "Clown"], "Three pairs help each other, most of all "),
        (["Mojave", "Lesser"], "Mojave and Lesser are of one complex and make one form: white, or nearly so."),
        (
            ["Leopard", "Champagne"],
            "Leopard and Champagne help each other in one thing and get in each other's way in another; Champagne"
            " covers part of what is there.",
        ),
        (["Daddy", "Spark"], "Daddy and Spark neither help nor spoil each other."),
    ],
)
def test_headline__of_several_genes(model, genes, sentence):
    assert chosen(model, *genes).headline.startswith(sentence)


def test_forms__each_with_its_own_stack(model):
    wild, one, two = model.forms
    assert [form.title for form in model.forms] == ["wild type", "one copy", "two copies"]
    assert not any(wild.stack.values.values())
    assert one.stack.look == {"Leopard": 1}
    assert two.stack.look == {"Leopard": 2}
    assert one.stack.notable != two.stack.notable


def test_forms__a_carrier_looks_like_wild_type(model):
    wild, one, two = chosen(model, "Clown").forms
    assert one.stack.values == wild.stack.values
    assert one.lines == ("A carrier looks like wild type.",)
    assert two.stack.look == {"Clown": 2}


def test_forms__the_same_look_is_drawn_again_and_said(model):
    _, one, two = chosen(model, "Pinstripe").forms
    assert two.stack.values == one.stack.values
    assert two.lines[0] == "The same look as one copy."


@pytest.mark.parametrize(("gene", "said"), [("Daddy", "Few"), ("Calico", "Not reported"), ("Spider", "not viable")])
def test_forms__nothing_is_drawn_that_is_not_established(model, gene, said):
    two = chosen(model, gene).forms[2]
    assert two.stack is None
    assert said in two.lines[0]
    assert two.lines[-1] == "Its look is not established, so nothing is drawn."


def test_words__both_forms_with_evidence_and_whose_they_are(model):
    head = [line for line in model.words if line.where == "head"]
    assert [line.form for line in head] == ["Leopard", "Super Leopard"]
    assert [line.evidence for line in head] == ["common practice, no source", "from memory"]
    assert {line.who for line in model.words} == {"the catalogue"}
    assert [line.where for line in model.words] == sorted(
        (line.where for line in model.words), key=["head", "back", "flanks", "belly", "overall"].index
    )


def test_words__of_several_each_as_it_is_set(model):
    chosen(model, "Leopard", "Clown")
    assert {line.form for line in model.words} == {"Leopard", "Clown"}
    model.chosen.set_copies("Leopard", 2)
    assert {line.form for line in model.words} == {"Super Leopard", "Clown"}


def test_unknown__names_the_qualities(model):
    (line,) = chosen(model, "Daddy").unknown
    assert line.startswith(f"Not established of Daddy: {MEANINGS['dorsal'][0]}, ")


def test_bases__what_a_gene_does_otherwise(model):
    one, two = chosen(model, "Enchi").bases
    assert (one.where, one.form) == ("on Clown", "Enchi")
    assert "flanks: cleared" in one.text
    assert two.form == "Super Enchi"
    assert "expected from one copy" in two.text
    assert chosen(model, "Pinstripe").bases == ()


def test_cautions__of_one_gene_all_and_of_several_those_met(model):
    assert any(text.startswith("Champagne with Spider: ") for text in chosen(model, "Spider").cautions)
    assert all(text.endswith("]") for text in model.cautions)
    met = chosen(model, "Spider", "Pastel").cautions
    assert met == (
        "Spider: wobble: every Spider animal studied shows it, from a malformed inner ear; how bad it is varies"
        " [published study]",
    )


def test_names__come_with_place_and_sources(model):
    facts = dict(chosen(model, "Clown").names)
    assert facts["inheritance"] == "recessive"
    assert "with Cryptic; an animal has at most two of them; published gene: MC1R" in facts["place"]
    assert "Killer Clown (Super Pastel Clown)" in facts["nicknames with it"]
    assert facts["sources"].startswith("GAR24: ")
    assert "also called" not in facts
    assert dict(chosen(model, "Banana").names)["also called"] == "Coral Glow, CG"


def test_stack__reasons_with_their_evidence(model):
    (help_,) = chosen(model, "Leopard", "Pinstripe").helps
    assert help_.text == "Leopard and Pinstripe both thin the dark pattern and brighten."
    assert help_.evidence == "trade opinion; effects: common practice, no source"
    assert model.spoils == model.covered == ()
    assert chosen(model, "Pastel", "Spider").nickname == "Bumblebee"


def test_compounds__what_is_recorded_of_two_alleles(model):
    (told,) = chosen(model, "Mojave", "Lesser", "Pastel").compounds
    assert told.text == "Mojave with Lesser: white, blue eyes"
    (told,) = chosen(model, "Clown", "Cryptic").compounds
    assert told.text == "Clown with Cryptic: close to Clown"
    assert chosen(model, "Leopard", "Clown").compounds == ()


def test_suggestions__those_of_the_collection_first_and_each_part_by_gain(model, desk):
    chosen(model, "Leopard", "Pinstripe")
    rows = model.suggestion_rows
    mine = [row["id"] for row in rows if row["yours"] == "yes"]
    found = suggestions(model.chosen.look, CATALOGUE, taste=desk.taste)
    assert mine == [one.gene for one in found if one.gene in model.collected]
    assert [row["id"] for row in rows][: len(mine)] == mine
    best = next(one for one in found if one.gene == mine[0])
    row = rows[0]
    assert row["gain"] == gain_text(best.gain)
    assert row["helps"] == best.helps[0].reason
    assert next(row for row in rows if row["id"] == "Leopard")["gene"] == "second copy of Leopard"


def test_suggestions__cautions_with_strength(model):
    row = next(row for row in chosen(model, "Leopard").suggestion_rows if row["cautions"])
    assert row["mark"] == "caution"
    assert row["cautions"].endswith("]")


def test_suggestions__follow_the_taste(model, desk):
    first = chosen(model, "Leopard").suggestion_rows[0]
    OpinionModel(desk).like("whole dorsal line", 2)
    assert model.suggestion_rows[0]["gain"] != first["gain"]


def test_pairs__once_for_each_change(model, desk):
    before = model.pairs
    assert model.pairs is before
    assert set(before) == {frozenset((a, b)) for a in model.collected for b in model.collected if a != b}
    OpinionModel(desk).like("bright", -2)
    assert model.pairs is not before
    pair = model.pairs[frozenset(("Leopard", "Pinstripe"))]
    assert pair.net < before[frozenset(("Leopard", "Pinstripe"))].net


def test_show_pair__sets_the_two_and_nothing_else(model):
    chosen(model, "Leopard", "Pastel", "Enchi")
    assert model.pair is None
    model.show_pair("Desert Ghost", "Leopard")
    assert model.chosen.look == {"Leopard": 1, "Desert Ghost": 2}
    assert model.pair is model.pairs[frozenset(("Leopard", "Desert Ghost"))]
    assert model.helps[0].text.startswith("Leopard and Desert Ghost both ")


def test_without_a_collection__the_catalogue_is_still_shown(tmp_path):
    model = NotesModel(Desk(tmp_path / "none.csv", date(2026, 11, 25), CATALOGUE))
    assert model.collected == ()
    assert model.cells == []
    assert model.forms[1].stack.look == {"Leopard": 1}
    assert model.suggestion_rows[0]["yours"] == "no"


def test_opinion__is_seen_in_words_and_sketch_as_its_keepers(model, desk):
    assert OpinionModel(desk).write("Leopard", 1, "orange to red", 3, " Rowan ", "in my line") == ""
    (line,) = [line for line in model.words if line.who == "Rowan"]
    assert line.text == "orange to red +3: more orange or red (the catalogue: 0); in my line"
    assert (line.where, line.form, line.evidence) == ("overall", "Leopard", "trade opinion (Rowan's own)")
    assert model.forms[1].stack.value("red") == 3
    assert chosen(model, "Leopard", "Pastel").stack.value("red") == 3


def test_opinion__takes_part_in_a_reason_by_name(model, desk):
    OpinionModel(desk).write("Leopard", 1, "brightness", -2, "Rowan", "")
    (spoil,) = chosen(model, "Leopard", "Pinstripe").spoils
    assert spoil.evidence.endswith("; as Rowan sees it")
