"""A path in words: every sentence that a keeper may read, on one path made by hand and on one that was found."""

from datetime import date
from math import inf

import pytest

from explorer.collection import Collection
from explorer.planner import (
    Keep,
    Path,
    Step,
    find_paths,
    node_in_words,
    path_in_words,
    season_in_words,
    season_title,
    walk_length,
)

NAMES = {"F1": "F1 Bracken", "M1": "M1 Alder", "M2": "M2 Larch"}


def keep(name="hatchling 1", shows="Leopard", genes="Leopard het Clown", hides=(), tested=""):
    return Keep(name, "female", shows, hides, tested, genes, 0.25, 0.82202, (0.8, 0.9, 0.9, 0.5, 0.2))


def path(chances=(0.0, 0.0, 0.0, 0.5512, 0.93), kept=None, **more):
    steps = (
        Step(1, "F1", "M1", "Leopard", "Clown", (kept or keep(),), 0.0, 0.0),
        Step(4, "hatchling 1", "M2", "Leopard het Clown", "Clown", (), 0.25, 0.82202),
    )
    made = {"target": "Leopard Clown", "expected_season": 4.6, "clutches": 3.2, "kept": 1, "soonest": 4, "start": 2026}
    made |= {"steps": steps, "ready": {"F1": 1, "M1": 1, "M2": 3}, "chance_by_season": list(chances)}
    return Path(**(made | more))


OWNED = path(steps=(), owners=("F7", "M9"), soonest=0, expected_season=0.0, chances=(1.0, 1.0))


@pytest.mark.parametrize(
    ("chances", "text"),
    [
        ((0, 0, 0, 0.55, 0.93), "Soonest: season 4 (2029/30). Even chance by season 4, nine in ten by season 5."),
        ((0, 0, 0, 0.95, 0.99), "Soonest: season 4 (2029/30). Even chance, and nine in ten, by season 4."),
        (
            (0, 0, 0, 0.2, 0.7),
            "Soonest: season 4 (2029/30). Even chance by season 5; nine in ten: not within 5 seasons.",
        ),
        (
            (0, 0, 0, 0.2, 0.3),
            "Soonest: season 4 (2029/30). Even chance: not within 5 seasons (30 % by then).",
        ),
    ],
)
def test_path_in_words(chances, text):
    assert path_in_words(path(chances)) == text


def test_path_in_words__a_target_that_is_owned():
    assert path_in_words(OWNED) == "F7 and M9 show the target already."


def test_season_title_and_walk_length():
    assert season_title(path(), 2) == "season 2 (2027/28)"
    assert (walk_length(path()), walk_length(OWNED)) == (4, 1)


def test_season_in_words__the_first():
    assert season_in_words(path(), 1, NAMES) == (
        "Pair F1 Bracken (Leopard) with M1 Alder (Clown).",
        "Keep a female that shows Leopard (then Leopard het Clown): hatchling 1. Odds: 1 in 4 an egg, 82 % a clutch.",
        "M2 Larch is not ready yet; it may breed from season 3 (2028/29).",
        "Meanwhile hatchling 1 grows up, to be paired in season 4 (2029/30).",
        "The target cannot have hatched by the end of season 1.",
    )


def test_season_in_words__a_quiet_one():
    assert season_in_words(path(), 3, NAMES) == (
        "If hatchling 1 has not hatched yet, pair F1 Bracken with M1 Alder again.",
        "Meanwhile hatchling 1 grows up, to be paired in season 4 (2029/30).",
        "The target cannot have hatched by the end of season 3.",
    )


def test_season_in_words__the_last_and_beyond():
    last, beyond = season_in_words(path(), 4, NAMES), season_in_words(path(), 5, NAMES)
    assert last[:3] == (
        "Pair hatchling 1 (Leopard het Clown) with M2 Larch (Clown).",
        "Hoped for: the target, Leopard Clown. Odds: 1 in 4 an egg, 82 % a clutch.",
        "If not: repeat next season, until it hatches.",
    )
    assert last[-1] == "Chance that the target has hatched by the end of season 4: 55 %."
    assert beyond[0] == "Until the target hatches, pair hatchling 1 with M2 Larch again."


def test_season_in_words__nothing_to_do():
    assert season_in_words(OWNED, 1) == ("F7 and M9 show the target already.",)


@pytest.mark.parametrize(
    ("kept", "text"),
    [
        (keep(shows="", genes="het Clown"), "Keep any female (then het Clown): hatchling 1."),
        (keep(genes="Leopard"), "Keep a female that shows Leopard: hatchling 1."),
        (
            keep(genes="Leopard", hides=("Spider", "Desert")),
            "Keep a female that shows Leopard and does not show Spider or Desert: hatchling 1.",
        ),
        (
            keep(shows="", genes="Leopard", hides=("Spider",), tested="Clown (one copy)"),
            "Keep any female that does not show Spider, tested for Clown (one copy) (then Leopard): hatchling 1.",
        ),
    ],
)
def test_season_in_words__what_to_keep(kept, text):
    assert season_in_words(path(kept=kept), 1)[1].startswith(text)


def test_season_in_words__luck_on_the_way():
    made = path()
    lucky = Step(1, "F1", "M1", "Leopard", "Clown", (keep(),), 0.125, 0.55121)
    said = season_in_words(path(steps=(lucky, made.steps[1])), 1)
    assert "With luck the target itself hatches here. Odds: 1 in 8 an egg, 55 % a clutch." in said


def test_node_in_words__every_kind():
    animal = node_in_words(path(), "animal M2", NAMES)
    assert animal.title == "M2 Larch, yours"
    assert animal.lines == (
        "Of what matters here it carries: Clown.",
        "May breed from season 3 (2028/29).",
        "Pair with hatchling 1 in season 4 (2029/30).",
    )
    pairing = node_in_words(path(), "pairing 1", NAMES)
    assert pairing.title == "Pairing 1, from season 1 (2026/27)"
    assert pairing.lines[-1] == "If not: repeat next season, until hatchling 1 has hatched."
    hatchling = node_in_words(path(), "hatchling 1", NAMES)
    assert hatchling.title == "Hatchling 1, to hatch in season 1 (2026/27)"
    assert "It grows up, to be paired with M2 Larch in season 4 (2029/30)." in hatchling.lines
    target = node_in_words(path(), "target", NAMES)
    assert target.lines[:2] == (
        "It must show Leopard Clown.",
        "From hatchling 1 with M2 Larch: 1 in 4 an egg, 82 % a clutch.",
    )


def test_node_in_words__owned_target():
    assert node_in_words(OWNED, "animal F7").lines == ("Shows the target already: Leopard Clown.",)
    assert node_in_words(OWNED, "target").lines[-1] == "F7 and M9 show the target already."


def test_node_in_words__no_such_node():
    with pytest.raises(KeyError, match="the path has no 'pairing 9'; it has animal F1"):
        node_in_words(path(), "pairing 9")


def test_words__of_paths_that_were_found_hold_no_html_and_no_empty_line():
    rows = "id,sex,genes,hatched,weight_g\nF1,f,Leopard,2020-01-01,2000\nM1,m,Clown,2020-01-01,900\n"
    animals = Collection.from_text(rows)
    found = find_paths(animals, "Leopard Clown", 6, today=date(2026, 11, 25))
    assert found
    for one in found:
        said = [line for season in range(1, 7) for line in season_in_words(one, season)]
        said += [line for node in one.graph() for line in node_in_words(one, node).lines]
        assert all(line and line.endswith(".") and "<" not in line for line in said)


def test_path_in_words__a_path_that_may_never_come():
    assert path_in_words(path((0, 0, 0, 0.3, 0.4), expected_season=inf)).endswith("(40 % by then).")
