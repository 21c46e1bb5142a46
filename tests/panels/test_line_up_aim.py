"""What a line-up looks for: the target, the next step of a path, a look that was typed in."""

from datetime import date

import pytest

from explorer.collection import Collection
from explorer.panels.desk import Desk
from explorer.panels.line_up_tab.line_up_aim import AimModel
from explorer.panels.path_tab.path_model import PathModel

ROWS = (
    "F1,Juniper,f,Leopard,2020-01-01,1900,kept",
    "F2,Sedge,f,Pastel,2020-01-01,2000,kept",
    "M1,Alder,m,Clown,2020-01-01,900,kept",
)


@pytest.fixture
def desk():
    made = Desk("animals.csv", date(2026, 11, 25))
    made.animals = Collection.from_text("id,name,sex,genes,hatched,weight_g,status\n" + "\n".join(ROWS) + "\n")
    made.aim("Leopard Clown", ("Spider",))
    return made


@pytest.fixture
def aims(desk):
    made = AimModel(desk)
    made.paths = PathModel(desk)
    return made


def search(paths):
    work = paths.begin()
    try:
        paths.found(work(lambda share, text: None))
    except Exception as error:
        paths.failed(error)


def test_target__as_the_desk_has_it(aims):
    aim = aims.of("M1")
    assert (aim.look, aim.without, aim.words, aim.name) == ("Leopard Clown", ("Spider",), (), "the target")


def test_look__typed_in_and_written_in_full(aims):
    aims.kind = "a look"
    assert aims.of("M1").words == ("Type a look; until then this is for the target.",)
    aims.type("clown leopard")
    aim = aims.of("M1")
    assert (aim.look, aim.without, aim.name) == ("Leopard Clown", (), "Leopard Clown")
    aims.type("Leopart")
    assert aims.problems[0].text.startswith('Found "Leopart"')
    assert "Leopard" in [offer.text for offer in aims.problems[0].offers]
    assert aims.of("M1").look == "Leopard Clown", "what cannot be read leaves the last look standing"
    aims.type(" ")
    assert (aims.problems, aims.of("M1").name) == ((), "the target")


def test_step__is_what_the_animals_own_step_keeps(aims):
    aims.kind = "the next step"
    assert aims.searchable
    assert aims.of("M1").words[0].startswith("No path to the target was looked for yet")
    search(aims.paths)
    assert not aims.searchable
    path = aims.paths.path
    step = next(step for step in path.steps if "M1" in (step.dam, step.sire))
    keep = next(keep for keep in step.keeps if keep.shows)
    aim = aims.of("M1")
    assert (aim.look, aim.without) == (keep.shows, keep.hides)
    assert aim.words[0].startswith("Path 1, season 1 (2026/27): F1 Juniper with M1 Alder, keep a ")
    assert aim.words[0].endswith("Chances here are for either sex.")


def test_step__of_an_animal_without_one_is_the_first_of_the_path(aims):
    aims.kind = "the next step"
    search(aims.paths)
    assert not any("F2" in (step.dam, step.sire) for step in aims.paths.path.steps)
    assert aims.of("F2").words[0].startswith("F2 Sedge has no part in path 1; this is its first step. Path 1, ")
    assert aims.of("F2").look == aims.of("M1").look


def test_step__not_known_for_old_paths_or_if_there_is_none(aims, desk):
    aims.kind = "the next step"
    search(aims.paths)
    desk.aim("Pastel Clown")
    assert aims.of("M1").words[0].startswith("Something has changed since the paths were found")
    assert aims.searchable
    desk.aim("Piebald")
    search(aims.paths)
    (said,) = aims.of("M1").words
    assert said.startswith("No kept animal carries Piebald")
    assert said.endswith("So there is no next step; this is for the target.")
    assert not aims.searchable
    desk.aim("Clown")
    search(aims.paths)
    assert aims.of("M1").words == ("The target is owned already, so there is no next step; this is for the target.",)


def test_step__without_a_path_tab(desk):
    aims = AimModel(desk)
    aims.kind = "the next step"
    assert not aims.searchable
    assert aims.of("M1").name == "the target"
