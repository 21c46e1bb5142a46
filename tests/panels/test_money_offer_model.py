"""An animal on offer without its widgets: fields read, two searches, an honest answer."""

from datetime import date

import pytest

from explorer.collection import Collection, CollectionError
from explorer.panels.desk import Desk
from explorer.panels.path_tab.money_model import MoneyModel
from explorer.panels.path_tab.money_offer_model import MoneyOfferModel, OfferTexts
from explorer.panels.path_tab.money_words import SEARCHED
from explorer.panels.path_tab.path_model import PathModel

TODAY = date(2026, 11, 25)
ROWS = ("F1,female,Pastel,2020-01-01,2000", "M1,male,Clown,2020-01-01,900")


def model_of(*rows, target="Pastel Clown", seasons=4, folder=None):
    desk = Desk(f"{folder or '.'}/animals.csv", TODAY)
    desk.animals = Collection.from_text("id,sex,genes,hatched,weight_g\n" + "\n".join(rows) + "\n")
    desk.aim(target)
    paths = PathModel(desk)
    paths.seasons = seasons
    return MoneyOfferModel(desk, paths, MoneyModel(desk, paths))


def asked(model, *texts, **more):
    problems, search = model.begin(OfferTexts(*texts, **more))
    assert problems == ()
    model.found(search(lambda share, text: None))
    return model


def test_help__sooner_and_surer_and_its_price():
    model = asked(model_of(*ROWS), "Pastel het Clown", "female", "250")
    assert model.answer.startswith("It would help, for 250: ")
    assert "sooner on average (mean season 1." in model.answer
    assert "at the soonest in season 1 instead of 4" in model.answer
    assert "percentage points by season 4 (" in model.answer
    assert "Nothing is known of its parents, so it counts as unrelated to all others." in model.remarks
    assert SEARCHED in model.remarks
    assert "as far as the search found" in SEARCHED


def test_paths_that_were_found__are_not_searched_again():
    model = model_of(*ROWS)
    said = []
    model.paths.found(model.paths.begin()(lambda share, text: None))
    _, search = model.begin(OfferTexts("Pastel het Clown", "female"))
    search(lambda share, text: said.append(text))
    assert any(text.startswith("with it") for text in said)
    assert not any(text.startswith("without it") for text in said)
    model.desk.aim("Enchi Clown")
    _, search = model.begin(OfferTexts("Enchi", "female"))
    search(lambda share, text: said.append(text))
    assert not any(text.startswith("without it") for text in said), "nobody has Enchi, so there is nothing to search"
    model.desk.aim("Pastel Clown", ("Banana",))
    _, search = model.begin(OfferTexts("Enchi", "female"))
    search(lambda share, text: said.append(text))
    assert any(text.startswith("without it") for text in said), "the paths that were found answer another question"


def test_missing_gene__is_named():
    model = asked(model_of(ROWS[0], target="Pastel Leopard", seasons=3), "Leopard", "male", "90")
    assert model.answer.startswith(
        "It would open a way, for 90: without it there is no path within 3 seasons (no kept animal carries Leopard); "
        "with it the chance is "
    )
    assert model.answer.endswith("the soonest is season 1 (2026/27).")


def test_no_gain__is_said_plainly():
    model = asked(model_of(*ROWS), "Enchi", "male", "250")
    assert model.answer.startswith("No gain: the search found no path ")
    assert asked(model_of(*ROWS, target="Pastel Enchi Leopard"), "Enchi", "male").answer == (
        "No gain: even with it, no kept animal carries Leopard."
    )
    assert asked(model_of(*ROWS, target="Pastel"), "Pastel", "male").answer == (
        "No gain: F1 shows the target already."
    )


def test_the_target_itself():
    assert asked(model_of(*ROWS), "Clown Pastel", "male", "999").answer == (
        "It would be the target itself, for 999: it shows all that is wanted, and nothing has to be bred."
    )


def test_caution__is_shown_with_its_evidence():
    model = asked(model_of(ROWS[1], target="Spider Clown"), "Spider", "female")
    assert model.answer == "No gain: a caution keeps it out of plans, so it would not be paired unless you allow it."
    assert any(text.startswith("Spider: wobble") and text.endswith("]") for text in model.cautions)


def test_possible_het__its_chance_is_told():
    model = asked(model_of(ROWS[1], seasons=2), "Pastel ph Clown", "female")
    assert "It carries Clown with a chance of 1 in 2; the figures have that in." in model.remarks
    assert any("50%" in line or "50 %" in line for line in model.remarks), "the notice on a het without a figure"


def test_young_one__is_planned_for_later():
    """Old enough for 2028/29, but 32 months old, and so usually heavy enough, only in April after it."""
    model = asked(model_of(*ROWS), "Pastel het Clown", "female", grown=False, weight="300", hatched="2026-08-01")
    assert "Too young, 1,500 g needed: it is planned from season 2029/30." in model.remarks


@pytest.mark.parametrize(
    ("texts", "more", "said"),
    [
        (("", "male"), {}, "genes: found nothing; needed its genes in shorthand"),
        (("Clown", "male", "cheap"), {}, "price: found 'cheap'; needed an amount from 0 up"),
        (("Clown", "male"), {"grown": False}, "Found neither weight nor hatch date"),
        (("Clown", "male"), {"grown": False, "weight": "heavy"}, "weight in g: found 'heavy'"),
        (("Clown", "male"), {"grown": False, "hatched": "3/4/2025"}, "hatched: found '3/4/2025'"),
    ],
)
def test_slips__stand_by_their_field(texts, more, said):
    problems, search = model_of(*ROWS).begin(OfferTexts(*texts, **more))
    assert search is None
    assert [problem.text.startswith(said) for problem in problems] == [True], problems


def test_misspelt_gene__is_mended_by_an_offer():
    problems, _ = model_of(*ROWS).begin(OfferTexts("Pastell het Clown", "female"))
    assert problems[0].text.startswith('genes: found "Pastell"')
    assert ("genes", "Pastel het Clown") in [(offer.field, offer.text) for offer in problems[0].offers]


def test_sex_that_the_genes_do_not_fit__is_told():
    problems, _ = model_of(*ROWS).begin(OfferTexts("Banana on Y", "female"))
    assert len(problems) == 1


def test_upkeep_and_room__are_told_if_stated(tmp_path):
    model = model_of(*ROWS, folder=tmp_path)
    names = {"cost of an animal a season": "110", "places": "2", "currency": "kr"}
    model.money.state(names)
    asked(model, "Pastel het Clown", "female", "40.50")
    assert model.answer.startswith("It would help, for 40.50 kr: ")
    assert model.remarks[:2] == ("It would cost 110 kr a season to keep.", "There is no free place for it now.")


def test_stale__once_the_question_changes():
    model = asked(model_of(*ROWS), "Enchi", "male")
    assert "Something has changed since; ask again." not in model.remarks
    model.desk.aim("Clown Pastel", allow=("Spider",))
    assert model.remarks[0] == "Something has changed since; ask again."


def test_failed__a_fault_of_the_program_is_not_hidden():
    model = model_of(*ROWS)
    model.failed(CollectionError([], "the collection file"))
    assert model.answer.startswith("0 errors in the collection file")
    with pytest.raises(ZeroDivisionError):
        model.failed(ZeroDivisionError())
    assert model.help is None


def test_no_collection():
    desk = Desk("animals.csv", TODAY)
    paths = PathModel(desk)
    problems, search = MoneyOfferModel(desk, paths, MoneyModel(desk, paths)).begin(OfferTexts("Clown", "male"))
    assert search is None
    assert problems[0].text.startswith("No collection is open.")
    assert MoneyOfferModel(desk, paths, MoneyModel(desk, paths)).answer == ""
