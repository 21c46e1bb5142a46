"""Where the animals and pairings of a path stand: left to right, one column a season, few lines crossing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import pairwise
from typing import Any

__all__ = ["walk_in_words", "walk_layout"]

QUIET = 0.45
"""Width of a season in which nothing hatches, where a season with hatchlings has 1."""

PAIRING = 0.5
"""How far a pairing stands before its hatchlings."""

SWEEPS = 12
Node = Mapping[str, Any]
Layers = list[list[str]]


def walk_layout(
    nodes: Mapping[str, Node], edges: Iterable[tuple[str, str]], season_name: Callable[[int], str]
) -> tuple[list[dict[str, Any]], list[dict[str, Any]], list[dict[str, Any]]]:
    """Places for a path's graph: nodes, edges with their bends, and columns, as the drawing takes them.

    nodes: id -> `kind` ("animal", "hatchling", "pairing", "target"), `season`, and what else the drawing shows, which
    is passed on. season_name: season from 1 -> its name. Owned animals stand in the first column; in each season the
    pairings stand before what hatches; y grows downwards, one unit from row to row.
    """
    layer = {name: _layer(node) for name, node in nodes.items()}
    chains, layers = _with_bends(layer, list(edges))
    _untangle(layers, chains)
    y = _heights(layers, chains)
    x, columns = _columns(set(layer.values()), season_name)

    def at(stop: str) -> list[float]:
        return [x[layer[stop] if stop in layer else int(stop.rsplit(" ", 1)[1])], y[stop]]

    placed = [
        {**node, "id": name, "owned": node["kind"] == "animal", "x": at(name)[0], "y": at(name)[1]}
        for name, node in nodes.items()
    ]
    lines = [{"a": chain[0], "b": chain[-1], "pts": [at(stop) for stop in chain]} for chain in chains]
    return placed, lines, columns


def walk_in_words(nodes: Mapping[str, Node], edges: Iterable[tuple[str, str]]) -> str:
    """The same graph as text: each pairing with what it gives, in the order of the seasons."""
    gives: dict[str, list[str]] = {}
    for one, two in edges:
        gives.setdefault(one, []).append(two)
    pairings = sorted((n for n in nodes if nodes[n]["kind"] == "pairing"), key=lambda n: int(nodes[n]["season"]))
    lines = []
    for name in pairings:
        children = ", ".join(f"{child} ({nodes[child]['text']})" for child in gives.get(name, ()))
        lines.append(f"season {nodes[name]['season']}: {nodes[name]['text']} gives {children}")
    return "; ".join(lines) or "; ".join(str(node["text"]) for node in nodes.values())


def _layer(node: Node) -> int:
    """0 for owned animals, then two layers a season: pairings, and what hatches."""
    if node["kind"] == "animal":
        return 0
    season = max(1, int(node["season"]))
    return 2 * season - 1 if node["kind"] == "pairing" else 2 * season


def _with_bends(layer: Mapping[str, int], edges: Sequence[tuple[str, str]]) -> tuple[list[list[str]], Layers]:
    """Each edge as a chain with one stop in every layer between, and all layers with nodes and stops in them."""
    layers: Layers = [[] for _ in range(max(layer.values(), default=0) + 1)]
    for name in sorted(layer):
        layers[layer[name]].append(name)
    chains = []
    for number, (one, two) in enumerate(sorted(edges)):
        bends = {f"bend {number} {between}": between for between in range(layer[one] + 1, layer[two])}
        for bend, between in bends.items():
            layers[between].append(bend)
        chains.append([one, *bends, two])
    return chains, layers


def _untangle(layers: Layers, chains: Sequence[Sequence[str]]) -> None:
    """Orders each layer by the mean place of its neighbours, forth and back; keeps the order with fewest crossings."""
    before, after = _neighbours(chains)
    best, fewest = [list(names) for names in layers], _crossings(layers, after)
    for sweep in range(SWEEPS):
        near = before if sweep % 2 == 0 else after
        for names in layers if sweep % 2 == 0 else reversed(layers):
            place = {name: i for row in layers for i, name in enumerate(row)}
            names.sort(key=lambda name: (_mean([place[n] for n in near.get(name, ())], place[name]), place[name]))
        crossed = _crossings(layers, after)
        if crossed < fewest:
            best, fewest = [list(names) for names in layers], crossed
    for names, ordered in zip(layers, best, strict=True):
        names[:] = ordered


def _neighbours(chains: Sequence[Sequence[str]]) -> tuple[dict[str, list[str]], dict[str, list[str]]]:
    before: dict[str, list[str]] = {}
    after: dict[str, list[str]] = {}
    for chain in chains:
        for one, two in pairwise(chain):
            after.setdefault(one, []).append(two)
            before.setdefault(two, []).append(one)
    return before, after


def _crossings(layers: Layers, after: Mapping[str, Sequence[str]]) -> int:
    place = {name: i for row in layers for i, name in enumerate(row)}
    count = 0
    for names in layers:
        lines = [(place[name], place[other]) for name in names for other in after.get(name, ())]
        count += sum((a - c) * (b - d) < 0 for i, (a, b) in enumerate(lines) for c, d in lines[i + 1 :])
    return count


def _heights(layers: Layers, chains: Sequence[Sequence[str]]) -> dict[str, float]:
    """Heights in the order of each layer: near the neighbours' mean, and never closer together than one row."""
    before, after = _neighbours(chains)
    y = {name: float(i) for names in layers for i, name in enumerate(names)}
    for sweep in range(SWEEPS):
        for names in layers if sweep % 2 == 0 else reversed(layers):
            wish = [_mean([y[n] for n in (*before.get(name, ()), *after.get(name, ()))], y[name]) for name in names]
            y.update(zip(names, _spread(wish), strict=True))
    low = min(y.values(), default=0.0)
    return {name: round(value - low, 3) for name, value in y.items()}


def _spread(wish: Sequence[float]) -> list[float]:
    """The places nearest to the wishes, least squares, that keep their order and one row between them."""
    blocks: list[tuple[float, int]] = []
    for i, value in enumerate(wish):
        blocks.append((value - i, 1))
        while len(blocks) > 1 and blocks[-2][0] > blocks[-1][0]:
            (one, n), (two, m) = blocks[-2], blocks[-1]
            blocks[-2:] = [((one * n + two * m) / (n + m), n + m)]
    flat = [value for value, n in blocks for _ in range(n)]
    return [value + i for i, value in enumerate(flat)]


def _columns(used: set[int], season_name: Callable[[int], str]) -> tuple[dict[int, float], list[dict[str, Any]]]:
    """Layer -> its x, and the columns: the owned animals, then every season up to the last."""
    x, here = {0: 0.0}, 0.0
    columns: list[dict[str, Any]] = [{"label": "your animals", "name": "", "x0": 0.0, "x1": 0.0}]
    for season in range(1, max(max(used, default=0) // 2, 1) + 1):
        busy = 2 * season in used
        here = round(here + (1 if busy else QUIET), 3)
        x[2 * season] = here
        x[2 * season - 1] = here - (PAIRING if busy else QUIET / 2)
        columns.append(
            {"label": f"season {season}", "name": season_name(season), "x0": x[2 * season - 1], "x1": here}
        )
    return x, columns


def _mean(values: Sequence[float], otherwise: float) -> float:
    return sum(values) / len(values) if values else float(otherwise)
