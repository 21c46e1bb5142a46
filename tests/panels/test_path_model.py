"""The Path tab without its widgets: paths found, chosen, walked and put in words."""

from datetime import date

import pytest

from explorer.collection import Collection
from explorer.husbandry import Husbandry
from explorer.panels.desk import Desk
from explorer.panels.path_tab.path_model import PathModel
from explorer.planner import find_paths

TODAY = date(2026, 11, 25)
ROWS = (
    "F1,Juniper,f,Leopard,2020-01-01,1900,kept",
    "F2,Sedge,f,Pastel,2020-01-01,2000,kept",
    "F3,Thistle,f,Spider Clown,2020-01-01,2000,kept",
    "M1,Alder,m,Clown,2020-01-01,900,kept",
    "M2,Larch,m,Pastel,2020-01-01,900,sold",
)


def desk_with(*rows, target="Leopard Clown"):
    desk = Desk("animals.csv", TODAY)
    desk.animals = Collection.from_text("id,name,sex,genes,hatched,weight_g,status\n" + "\n".join(rows) + "\n")
    desk.aim(target)
    return desk


def searched(model):
    search = model.begin()
    try:
        model.found(search(lambda share, text: None))
    except Exception as error:
        model.failed(error)
    return model


@pytest.fixture
def desk():
    return desk_with(*ROWS)


@pytest.fixture
def model(desk):
    return searched(PathModel(desk))


def test_before_the_first_search(desk):
    model = PathModel(desk)
    assert model.headline.startswith("Press “find paths”")
    assert model.path is None
    assert (model.rows, model.curves, model.walk.drawing.nodes, model.stale) == ([], ((), ()), [], False)


def test_numbers__are_those_of_find_paths(model, desk):
    paths = find_paths(desk.animals, "Leopard Clown", 8, husbandry=Husbandry(), today=TODAY)
    assert list(model.paths) == paths
    curves, seasons = model.curves
    assert [list(curve.chances) for curve in curves] == [path.chance_by_season for path in paths]
    assert seasons[:2] == ("2026/27", "2027/28")
    assert model.rows[0]["expected"] == f"{paths[0].expected_season:.1f}"
    assert model.rows[0]["kept"] == str(paths[0].kept)


def test_headline__is_of_the_chosen_path(model):
    assert model.headline.startswith(f"Soonest: season {model.path.soonest} (")
    model.choose(len(model.paths) - 1)
    assert model.headline.startswith(f"Soonest: season {model.paths[-1].soonest} (")


def test_target_in_two_sentences(model, desk):
    assert (model.must_show, model.must_not_show) == ("must show Leopard and Clown", "nothing is ruled out")
    desk.aim("Super Pastel Leopard Clown", ("Spider Desert",))
    assert model.must_show == "must show Super Pastel, Leopard and Clown"
    assert model.must_not_show in ("must not show Spider or Desert", "must not show Desert or Spider")


def test_stale__once_the_target_changes(model, desk):
    assert not model.stale
    desk.aim("Leopard")
    assert model.stale
    assert model.remarks[0] == "Something has changed since these paths were found; find paths again."
    desk.aim("Leopard Clown")
    assert not model.stale
    model.seasons = 5
    assert model.stale


def test_stale__what_is_shown_stays_old_after_a_search_that_was_stopped(model, desk):
    desk.aim("Leopard")
    model.begin()
    assert model.stale


def test_no_path__says_why(desk):
    model = PathModel(desk)
    model.seasons = 2
    searched(model)
    assert model.headline == "No path reaches Leopard Clown within 2 seasons."
    assert "The generations that it takes do not fit in; try a later season." in model.remarks


def test_unreachable__its_message(desk):
    desk.aim("Leopard Pinstripe")
    model = searched(PathModel(desk))
    assert model.headline == (
        "No kept animal carries Pinstripe, so no path leads to it; "
        "add an animal that carries it, or take it out of the target."
    )
    assert model.paths == ()


def test_failed__a_fault_of_the_program_is_not_hidden(model):
    with pytest.raises(ZeroDivisionError):
        model.failed(ZeroDivisionError())
    assert (model.paths, model.walk.path, model.problem) == ((), None, "")


def test_owned_already(desk):
    desk.aim("Leopard")
    model = searched(PathModel(desk))
    assert model.headline == "F1 shows the target already."
    assert model.walk.node == "target"
    assert model.rows[0]["soonest"] == "owned already"


def test_allowances__let_a_gene_in_for_every_tab(model, desk):
    spider = next(one for one in model.allowances if one.gene == "Spider")
    assert not spider.allowed
    assert spider.lines[0] == "keeps out F3 Thistle"
    assert any("[published study]" in line for line in spider.lines)
    model.allow("Spider", True)
    assert desk.allow == ("Spider",)
    assert model.stale
    assert next(one for one in model.allowances if one.gene == "Spider").allowed
    searched(model)
    assert any("F3" in (step.dam, step.sire) for path in model.paths for step in path.steps)
    model.allow("Spider", False)
    assert desk.allow == ()


def test_walk__from_the_first_season_to_the_last(model):
    walk = model.walk
    assert walk.place == f"season 1 of {walk.length}"
    assert walk.node == "pairing 1"
    assert walk.season_words.lines[0].startswith("Pair F1 Juniper (Leopard) with M1 Alder (Clown).")
    walk.walk_to(walk.season - 1)
    assert walk.season == 1
    for season in range(2, walk.length + 1):
        walk.walk_to(walk.season + 1)
        assert walk.season == season
        assert walk.season_words.title.startswith(f"Season {season} (")
    walk.walk_to(walk.season + 1)
    assert walk.season == walk.length
    assert "target" in walk.highlight


def test_walk__drawing_names_animals_and_reads_aloud(model):
    nodes = {node["id"]: node for node in model.walk.drawing.nodes}
    assert nodes["animal F1"]["label"] == "F1 Juniper"
    assert nodes["animal F1"]["owned"]
    assert nodes["hatchling 1"]["lines"][0].startswith("keep a ")
    assert nodes["pairing 1"]["title"].startswith("Pairing 1, from season 1 (2026/27). Pair F1 Juniper")
    assert nodes["target"]["lines"] == ["Leopard Clown"]
    assert model.walk.drawing.words.startswith("season 1: F1 × M1 gives hatchling 1 (")
    assert {edge["a"] for edge in model.walk.drawing.edges} <= nodes.keys()


def test_walk__cautions_that_plans_pass_over_are_still_said():
    desk = desk_with(*ROWS)
    model = PathModel(desk)
    model.allow("Spider", True)
    desk.aim("Leopard Spider Clown", allow=desk.allow)
    searched(model)
    assert model.path is not None
    for node, found in (("animal F3", "Spider: wobble"), ("target", "Spider: wobble")):
        model.walk.node = node
        assert any(text.startswith(found) for text in model.walk.cautions), node
    pairing = next(k for k, step in enumerate(model.path.steps, start=1) if "F3" in (step.dam, step.sire))
    model.walk.node = f"pairing {pairing}"
    assert any(text.startswith("Spider: wobble") and "of eggs)" in text for text in model.walk.cautions)


def test_blockers():
    model = PathModel(Desk("animals.csv", TODAY))
    assert model.headline == "No collection is open. Open a file in the Collection tab."
    assert model.allowances == ()


def test_walk__nodes_have_sketches_of_what_they_are(model, desk):
    nodes = {node["id"]: node for node in model.walk.drawing.nodes}
    for name, node in nodes.items():
        assert node["picture"].startswith("<svg") == (node["kind"] != "pairing"), name
    assert "Sketch of Leopard Clown" in nodes["target"]["picture"]
    model.walk.node = "target"
    assert model.walk.stack.text == "Leopard Clown"
    model.walk.node = next(name for name, node in nodes.items() if node["kind"] == "pairing")
    assert model.walk.stack is None
