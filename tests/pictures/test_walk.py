"""Where a path's animals and pairings stand."""

import itertools

from hypothesis import given
from hypothesis import strategies as st

from explorer.pictures import walk_in_words, walk_layout


def node(kind, season, text=""):
    return {"kind": kind, "season": season, "text": text}


NODES = {
    "animal A": node("animal", 1),
    "animal B": node("animal", 1),
    "animal C": node("animal", 3),
    "pairing 1": node("pairing", 1, "A × B"),
    "hatchling 1": node("hatchling", 1, "a male"),
    "pairing 2": node("pairing", 4, "C × hatchling 1"),
    "target": node("target", 4, "Leopard"),
}
EDGES = [
    ("animal A", "pairing 1"),
    ("animal B", "pairing 1"),
    ("pairing 1", "hatchling 1"),
    ("hatchling 1", "pairing 2"),
    ("animal C", "pairing 2"),
    ("pairing 2", "target"),
]


def laid(nodes=NODES, edges=EDGES):
    placed, lines, columns = walk_layout(nodes, edges, lambda season: f"year {season}")
    return {one["id"]: one for one in placed}, lines, columns


def test_walk_layout__left_to_right_in_the_order_of_time():
    at, _, _ = laid()
    assert {at[f"animal {x}"]["x"] for x in "ABC"} == {0}
    order = [at[name]["x"] for name in ("animal A", "pairing 1", "hatchling 1", "pairing 2", "target")]
    assert order == sorted(set(order))
    assert max(one["x"] for one in at.values()) == at["target"]["x"]


def test_walk_layout__owned_animals_are_marked_and_other_keys_passed_on():
    at, _, _ = laid()
    assert [name for name, one in at.items() if one["owned"]] == ["animal A", "animal B", "animal C"]
    assert at["target"]["text"] == "Leopard"


def test_walk_layout__one_column_a_season_quiet_ones_too():
    _, _, columns = laid()
    assert [column["label"] for column in columns] == ["your animals", *(f"season {k}" for k in range(1, 5))]
    assert [column["name"] for column in columns] == ["", *(f"year {k}" for k in range(1, 5))]
    widths = [column["x1"] - before["x1"] for before, column in itertools.pairwise(columns)]
    assert widths[1] < widths[0]
    assert widths[2] < widths[3]


def test_walk_layout__lines_run_from_node_to_node():
    at, lines, _ = laid()
    for line in lines:
        assert line["pts"][0] == [at[line["a"]]["x"], at[line["a"]]["y"]]
        assert line["pts"][-1] == [at[line["b"]]["x"], at[line["b"]]["y"]]
        assert [x for x, _ in line["pts"]] == sorted(x for x, _ in line["pts"])


def test_walk_layout__needless_crossings_are_undone():
    nodes = {f"animal {x}": node("animal", 1) for x in "ABCD"}
    nodes |= {f"pairing {k}": node("pairing", 1) for k in (1, 2)}
    at, _, _ = laid(nodes, [("animal A", "pairing 2"), ("animal C", "pairing 2"), ("animal B", "pairing 1"),
                            ("animal D", "pairing 1")])
    left = sorted("ABCD", key=lambda x: at[f"animal {x}"]["y"])
    assert {frozenset(left[:2]), frozenset(left[2:])} == {frozenset("AC"), frozenset("BD")}


def test_walk_layout__a_target_that_is_owned_already():
    at, _, columns = laid({"target": node("target", 0, "x"), "animal A": node("animal", 0)}, [("animal A", "target")])
    assert at["target"]["x"] > at["animal A"]["x"]
    assert len(columns) == 2


@given(st.lists(st.tuples(st.integers(1, 5), st.integers(0, 9), st.integers(0, 9)), min_size=1, max_size=9))
def test_walk_layout__nothing_stands_on_anything_else(steps):
    nodes, edges, known = {}, [], []
    for number, (season, one, two) in enumerate(sorted(steps)):
        nodes[f"pairing {number}"] = node("pairing", season)
        nodes[f"hatchling {number}"] = node("hatchling", season)
        for pick in (one, two):
            parent = known[pick][1] if pick < len(known) and known[pick][0] < season else f"animal {pick}"
            nodes.setdefault(parent, node("animal", 1))
            edges.append((parent, f"pairing {number}"))
        edges.append((f"pairing {number}", f"hatchling {number}"))
        known.append((season, f"hatchling {number}"))
    placed, _, _ = walk_layout(nodes, dict.fromkeys(edges), str)
    by_x = {}
    for one in placed:
        by_x.setdefault(one["x"], []).append(one["y"])
    for heights in by_x.values():
        assert all(b - a > 0.999 for a, b in itertools.pairwise(sorted(heights)))


def test_walk_in_words():
    assert walk_in_words(NODES, EDGES) == (
        "season 1: A × B gives hatchling 1 (a male); season 4: C × hatchling 1 gives target (Leopard)"
    )
