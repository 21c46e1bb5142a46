"""A path in plain sentences: what to do in each season, what one node of its graph means, when to expect the target."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..husbandry import Husbandry, season_name
from ..pairing import names_in_words, one_in, percent
from .path import Keep, Path, Step

__all__ = ["NodeWords", "node_in_words", "path_in_words", "season_in_words", "season_title", "walk_length"]

Names = Mapping[str, str]
"""Id of an owned animal -> how its keeper calls it."""


@dataclass(frozen=True)
class NodeWords:
    """What the side panel says of one node. lines: sentences, in reading order."""

    title: str
    lines: tuple[str, ...]


def season_title(path: Path, season: int, care: Husbandry | None = None) -> str:
    """A season by number and name: "season 2 (2027/28)"."""
    return f"season {season} ({season_name(path.start + season - 1, care)})"


def walk_length(path: Path) -> int:
    """The seasons that the path takes with the best of luck; at least 1."""
    return max([1, *(step.season for step in path.steps)])


def path_in_words(path: Path, care: Husbandry | None = None) -> str:
    """When to expect the target: "Soonest: season 2 (2027/28). Even chance by season 5, nine in ten by season 7."."""
    if path.owners:
        return f"{names_in_words(path.owners)} {'shows' if len(path.owners) == 1 else 'show'} the target already."
    horizon = len(path.chance_by_season)
    even, likely = _reached(path, 0.5), _reached(path, 0.9)
    soonest = f"Soonest: {season_title(path, path.soonest, care)}."
    if even is None:
        return f"{soonest} Even chance: not within {_seasons(horizon)} ({percent(path.chance_by_season[-1])} by then)."
    if likely is None:
        return f"{soonest} Even chance by season {even}; nine in ten: not within {_seasons(horizon)}."
    if likely == even:
        return f"{soonest} Even chance, and nine in ten, by season {even}."
    return f"{soonest} Even chance by season {even}, nine in ten by season {likely}."


def season_in_words(
    path: Path, season: int, names: Names | None = None, care: Husbandry | None = None
) -> tuple[str, ...]:
    """What to do in one season with the best of luck so far, and what to do if luck was not the best."""
    if not path.steps:
        return (path_in_words(path, care),)
    called = names or {}
    lines: list[str] = []
    for number, step in enumerate(path.steps):
        if step.season == season:
            lines += [_pair(step, called), *(_keep(keep) for keep in step.keeps), *_hope(path, number)]
    if path.steps[-1].season < season:
        lines.append(f"Until the target hatches, pair {_couple(path.steps[-1], called)} again.")
    for step in path.steps[:-1]:
        if step.season < season:
            kept = [keep.name for keep in step.keeps]
            has = "has" if len(kept) == 1 else "have"
            lines.append(f"If {names_in_words(kept, 'or')} {has} not hatched yet, pair {_couple(step, called)} again.")
    lines += _waiting(path, season, called, care)
    if season <= len(path.chance_by_season):
        chance = path.chance_by_season[season - 1]
        end = f"by the end of season {season}"
        if chance:
            lines.append(f"Chance that the target has hatched {end}: {percent(chance)}.")
        else:
            lines.append(f"The target cannot have hatched {end}.")
    return tuple(lines)


def node_in_words(path: Path, node: str, names: Names | None = None, care: Husbandry | None = None) -> NodeWords:
    """What one node of `path.graph()` is and what to do about it. Raises KeyError if the path has no such node."""
    graph, called = path.graph(), names or {}
    if node not in graph:
        raise KeyError(f"the path has no {node!r}; it has {', '.join(map(str, graph))}")
    kind, number = graph.nodes[node]["kind"], graph.nodes[node]["step"]
    if kind == "animal":
        return _animal_words(path, node.removeprefix("animal "), called, care)
    if kind == "pairing":
        return _pairing_words(path, number, called, care)
    if kind == "hatchling":
        return _hatchling_words(path, path.steps[number], node, called, care)
    lines = [f"It must show {path.target}."]
    if number is not None:
        step = path.steps[number]
        lines.append(f"From {_couple(step, called)}: {_odds(step.target_per_egg, step.target_in_clutch)}.")
        lines.append(f"If not: pair {_couple(step, called)} again next season.")
    return NodeWords("The target", (*lines, path_in_words(path, care)))


def _animal_words(path: Path, key: str, called: Names, care: Husbandry | None) -> NodeWords:
    lines = []
    if key in path.owners:
        lines.append(f"Shows the target already: {path.target}.")
    for step in path.steps:
        if key in (step.dam, step.sire):
            if not lines:
                genes = step.dam_genes if key == step.dam else step.sire_genes
                lines.append(f"Of what matters here it carries: {genes}.")
                ready = path.ready[key]
                lines.append(f"May breed from {season_title(path, ready, care)}." if ready > 1 else "May breed now.")
            lines.append(f"Pair with {_other(step, key, called)} in {season_title(path, step.season, care)}.")
    return NodeWords(f"{called.get(key, key)}, yours", tuple(lines))


def _pairing_words(path: Path, number: int, called: Names, care: Husbandry | None) -> NodeWords:
    step = path.steps[number]
    lines = [_pair(step, called), *(_keep(keep) for keep in step.keeps), *_hope(path, number)]
    if step.keeps:
        have = "has" if len(step.keeps) == 1 else "have"
        lines.append(
            f"If not: repeat next season, until {names_in_words([keep.name for keep in step.keeps])} {have} hatched."
        )
    return NodeWords(f"Pairing {number + 1}, from {season_title(path, step.season, care)}", tuple(lines))


def _hatchling_words(path: Path, step: Step, name: str, called: Names, care: Husbandry | None) -> NodeWords:
    keep = next(keep for keep in step.keeps if keep.name == name)
    lines = [f"From {_couple(step, called)}.", _keep(keep)]
    lines += [
        f"It grows up, to be paired with {_other(later, name, called)} in {season_title(path, later.season, care)}."
        for later in path.steps
        if name in (later.dam, later.sire)
    ]
    lines.append(f"If not: pair {_couple(step, called)} again next season.")
    return NodeWords(f"{name[0].upper()}{name[1:]}, to hatch in {season_title(path, step.season, care)}", tuple(lines))


def _pair(step: Step, called: Names) -> str:
    dam, sire = called.get(step.dam, step.dam), called.get(step.sire, step.sire)
    return f"Pair {dam} ({step.dam_genes}) with {sire} ({step.sire_genes})."


def _couple(step: Step, called: Names) -> str:
    return f"{called.get(step.dam, step.dam)} with {called.get(step.sire, step.sire)}"


def _other(step: Step, name: str, called: Names) -> str:
    other = step.sire if name == step.dam else step.dam
    return called.get(other, other)


def _keep(keep: Keep) -> str:
    asked = f"a {keep.sex} that shows {keep.shows}" if keep.shows else f"any {keep.sex}"
    if keep.hides:
        asked += f"{' and' if keep.shows else ' that'} does not show {names_in_words(keep.hides, 'or')}"
    if keep.tested:
        asked += f", tested for {keep.tested}"
    then = f" (then {keep.genes})" if keep.genes != keep.shows else ""
    return f"Keep {asked}{then}: {keep.name}. Odds: {_odds(keep.per_egg, keep.in_clutch)}."


def _hope(path: Path, number: int) -> list[str]:
    step = path.steps[number]
    odds = _odds(step.target_per_egg, step.target_in_clutch)
    if number == len(path.steps) - 1:
        return [f"Hoped for: the target, {path.target}. Odds: {odds}.", "If not: repeat next season, until it hatches."]
    return [f"With luck the target itself hatches here. Odds: {odds}."] if step.target_per_egg else []


def _odds(per_egg: float, in_clutch: float) -> str:
    return f"{one_in(per_egg)} an egg, {percent(in_clutch)} a clutch"


def _waiting(path: Path, season: int, called: Names, care: Husbandry | None) -> list[str]:
    """Who waits in this season, and for which."""
    born = {keep.name: step.season for step in path.steps for keep in step.keeps}
    paired: dict[str, int] = {}
    for step in path.steps:
        for name in (step.dam, step.sire):
            paired.setdefault(name, step.season)
    growing: dict[int, list[str]] = {}
    lines = []
    for name, when in paired.items():
        if name in born and born[name] <= season < when:
            growing.setdefault(when, []).append(name)
        elif path.ready.get(name, 0) > season:
            title = season_title(path, path.ready[name], care)
            lines.append(f"{called.get(name, name)} is not ready yet; it may breed from {title}.")
    for when, names in sorted(growing.items()):
        grows = "grows" if len(names) == 1 else "grow"
        title = season_title(path, when, care)
        lines.append(f"Meanwhile {names_in_words(names)} {grows} up, to be paired in {title}.")
    return lines


def _reached(path: Path, level: float) -> int | None:
    return next((k + 1 for k, chance in enumerate(path.chance_by_season) if chance >= level), None)


def _seasons(number: int) -> str:
    return "1 season" if number == 1 else f"{number} seasons"
