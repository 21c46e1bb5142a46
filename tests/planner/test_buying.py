"""Whether one more animal would help: cases worked out by hand, and what must not count as help."""

from datetime import date
from fractions import Fraction
from math import inf

import pytest

from explorer.collection import CollectionError
from explorer.planner import OnOffer, find_paths, would_help
from tests.planner.worked import TODAY, care, collection

CLOWN_LINE = (("M", "male", "Clown"), ("F", "female", "Pastel"))


def asked(folder, rows, offered, target, seasons=4, eggs=2, **more):
    return would_help(collection(folder, *rows), offered, target, seasons, husbandry=care(eggs), today=TODAY, **more)


def test_missing_gene__opens_a_way(tmp_path):
    """Pastel x Leopard, one copy each, c = 4, one season: 1 - (3/4)^4 = 175/256."""
    found = asked(tmp_path, [("F", "female", "Pastel")], OnOffer("Leopard", "male"), "Pastel Leopard", 1, 4)
    assert (found.before, found.missing_before, found.missing) == ((), "Leopard", "")
    assert found.surer == pytest.approx(175 / 256, abs=1e-12)
    assert found.using[0].steps[0].sire == found.animal.id == "on offer"
    assert (found.seasons_sooner, found.soonest_sooner, found.ready.ready) == (inf, 0, True)
    assert found.helps


def test_a_daughter_bought__spares_the_season_that_breeds_her(tmp_path):
    """Without: a daughter first, then the target, each with p = 7/16 a season: mean 2/p. With her: at most 1/p.

    What is between them by season 4 is at least that just one of four tries came off: 4 p (1 - p)^3.
    """
    found = asked(tmp_path, CLOWN_LINE, OnOffer("Pastel het Clown", "female"), "Pastel Clown")
    assert found.soonest_sooner == 1
    assert found.seasons_sooner >= 16 / 7 - 1e-9
    p = 7 / 16
    assert found.surer >= 4 * p * (1 - p) ** 3 - 1e-9


def test_figures__are_those_of_find_paths_on_both_collections(tmp_path):
    found = asked(tmp_path, CLOWN_LINE, OnOffer("Pastel het Clown", "female"), "Pastel Clown")
    plain = find_paths(collection(tmp_path, *CLOWN_LINE), "Pastel Clown", 4, husbandry=care(2), today=TODAY)
    more = collection(tmp_path, *CLOWN_LINE, ("on offer", "female", "Pastel het Clown"))
    then = find_paths(more, "Pastel Clown", 4, husbandry=care(2), today=TODAY)
    best = max(path.chance_by_season[-1] for path in then)
    assert found.surer == pytest.approx(best - plain[0].chance_by_season[-1], abs=1e-12)
    soonest = min(path.expected_season for path in then)
    assert found.seasons_sooner == pytest.approx(min(p.expected_season for p in plain) - soonest, abs=1e-12)


def test_known__spares_a_search_and_changes_nothing(tmp_path):
    plain = find_paths(collection(tmp_path, *CLOWN_LINE), "Pastel Clown", 4, husbandry=care(2), today=TODAY)
    offered = OnOffer("Pastel het Clown", "female")
    once = asked(tmp_path, CLOWN_LINE, offered, "Pastel Clown", known=plain)
    again = asked(tmp_path, CLOWN_LINE, offered, "Pastel Clown")
    assert (once.surer, once.seasons_sooner, once.soonest_sooner) == (
        again.surer, again.seasons_sooner, again.soonest_sooner
    )


@pytest.mark.parametrize("offered", [OnOffer("Normal", "male"), OnOffer("Clown", "male"), OnOffer("Banana", "male")])
def test_an_animal_that_adds_nothing__is_no_gain(tmp_path, offered):
    found = asked(tmp_path, CLOWN_LINE, offered, "Pastel Clown")
    assert (found.helps, found.surer, found.seasons_sooner, found.soonest_sooner) == (False, 0, 0, 0)


def test_a_path_that_does_without_it__was_there_before(tmp_path):
    """Even if the first search had found nothing, what the second finds without the animal is none of its merit."""
    found = asked(tmp_path, CLOWN_LINE, OnOffer("Normal", "male"), "Pastel Clown", known=())
    assert found.before
    assert all("on offer" not in path.ready for path in found.before)
    assert not found.helps


def test_a_worse_path_with_it__is_no_gain(tmp_path):
    rows = [("M", "male", "Pastel"), ("F", "female", "Super Leopard")]
    found = asked(tmp_path, rows, OnOffer("Leopard", "female"), "Pastel Leopard", 3)
    assert found.using
    assert all(path.chance_by_season[-1] <= found.before[0].chance_by_season[-1] for path in found.using)
    assert not found.helps


def test_possible_het__its_chance_is_in(tmp_path):
    """2/3 x (1 - (3/4)^4) in one season; as it may be no het at all, there is no mean."""
    offered = OnOffer("Pastel 66% het Clown", "female")
    found = asked(tmp_path, [("M", "male", "Clown")], offered, "Pastel Clown", 1, 4)
    assert found.possible == (("Clown", Fraction(2, 3)),)
    assert found.surer == pytest.approx(2 / 3 * (1 - 0.75**4), abs=1e-12)
    assert (found.seasons_sooner, found.missing_before) == (0, "Pastel")


def test_caution__keeps_it_out_until_it_is_allowed(tmp_path):
    rows, offered = [("M", "male", "Pastel")], OnOffer("Spider", "female")
    found = asked(tmp_path, rows, offered, "Pastel Spider", 2)
    assert (found.ready.barred, found.using, found.helps) == (True, (), False)
    assert found.ready.cautions
    allowed = asked(tmp_path, rows, offered, "Pastel Spider", 2, allow=["Spider"])
    assert (allowed.ready.barred, allowed.helps) == (False, True)
    assert allowed.ready.cautions


def test_shows_the_target_itself(tmp_path):
    found = asked(tmp_path, CLOWN_LINE, OnOffer("Pastel Clown", "male"), "Pastel Clown")
    assert found.shows
    assert found.helps


def test_still_missing__another_gene_that_nobody_carries(tmp_path):
    found = asked(tmp_path, CLOWN_LINE, OnOffer("Leopard", "male"), "Pastel Leopard Enchi")
    assert (found.missing_before, found.missing, found.helps) == ("Leopard", "Enchi", False)


def test_too_light__waits(tmp_path):
    young = OnOffer("Leopard", "male", weight_g=80, hatched=TODAY.replace(month=8))
    found = asked(tmp_path, [("F", "female", "Pastel")], young, "Pastel Leopard", 4)
    assert not found.ready.ready
    assert found.using[0].ready["on offer"] == found.ready.season == 2
    assert found.using[0].soonest == 2


def test_name__gives_way_to_an_animal_that_has_it(tmp_path):
    rows = [("F", "female", "Pastel"), ("on offer", "female", "Enchi")]
    found = asked(tmp_path, rows, OnOffer("Leopard", "male"), "Pastel Leopard", 1)
    assert found.animal.id == "on offer 2"
    assert found.helps


def test_order_of_rows__does_not_matter(tmp_path):
    offered = OnOffer("Pastel het Clown", "female")
    one = asked(tmp_path, CLOWN_LINE, offered, "Pastel Clown")
    two = asked(tmp_path, CLOWN_LINE[::-1], offered, "Pastel Clown")
    assert (one.surer, one.seasons_sooner) == (two.surer, two.seasons_sooner)


def test_progress__rises_and_may_stop_the_search(tmp_path):
    told = []
    asked(
        tmp_path,
        CLOWN_LINE,
        OnOffer("Pastel het Clown", "female"),
        "Pastel Clown",
        progress=lambda share, text: told.append((share, text)),
    )
    halves = [share for share, text in told if text.startswith("with it")]
    assert min(halves) >= 0.5 and max(halves) <= 1
    assert max(share for share, text in told if text.startswith("without it")) <= 0.5

    def stop(share, text):
        raise InterruptedError

    with pytest.raises(InterruptedError):
        asked(tmp_path, CLOWN_LINE, OnOffer("Normal", "male"), "Pastel Clown", progress=stop)


def test_genes_that_cannot_be_read(tmp_path):
    with pytest.raises(CollectionError, match="Pastell"):
        asked(tmp_path, CLOWN_LINE, OnOffer("Pastell", "male"), "Pastel Clown")


@pytest.mark.parametrize(
    ("grams", "ready"), [(1499, False), (1499.999, False), (1499.9999, False), (1500, True), (1500.0, True)]
)
def test_weight__of_an_animal_on_offer_is_never_rounded_up(tmp_path, grams, ready):
    """An under-size female on offer is no dam of this season."""
    offered = OnOffer("Leopard", "female", grams, date(2018, 7, 1))
    found = asked(tmp_path, [("M", "male", "Pastel")], offered, "Pastel Leopard")
    assert found.ready.ready == ready
    assert found.animal.weight_g is not None and found.animal.weight_g <= grams
    assert found.using and all((path.chance_by_season[0] > 0) == ready for path in found.using)
