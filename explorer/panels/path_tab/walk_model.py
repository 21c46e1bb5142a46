"""The walk through one path, season by season. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from ...collection import Animal
from ...husbandry import season_name
from ...looks import Stack, caution_text, stack
from ...pairing import cross, percent
from ...pictures import sketch_of, walk_in_words, walk_layout
from ...planner import NodeWords, Path, Step, node_in_words, season_in_words, season_title, step_relations, walk_length
from ..choosing import name_of, ready_of
from ..desk import Desk

__all__ = ["Walk", "WalkModel"]


@dataclass(frozen=True)
class Walk:
    """The drawing of a path, as `WalkView` takes it. words: the same for those who do not see it."""

    nodes: list[dict[str, Any]]
    edges: list[dict[str, Any]]
    columns: list[dict[str, Any]]
    words: str = ""


class WalkModel:
    """path: the one that is walked, None for none. season: where the walk stands, from 1. node: id of the node that is
    read, "" for none.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.path: Path | None = None
        self.season = 1
        self.node = ""

    def take(self, path: Path | None) -> None:
        """Walks another path, from its first season."""
        self.path = path
        self.walk_to(1)

    @property
    def drawing(self) -> Walk:
        """The path as a drawing."""
        path = self.path
        if path is None:
            return Walk([], [], [])
        graph, names = path.graph(), self._names()
        nodes = {}
        for node, data in graph.nodes(data=True):
            said = node_in_words(path, node, names, self.desk.care)
            label, lines = self._box(path, node, data, names)
            seen = self._stack(path, node, data)
            cautions = self._cautions(path, node, data)
            lines = [*lines, *(["caution"] if cautions else [])]
            nodes[node] = {
                **data,
                "label": label,
                "lines": lines,
                "title": " ".join((f"{said.title}.", *said.lines, *(f"Caution: {text}." for text in cautions))),
                "picture": sketch_of(seen) if seen else "",
            }
        placed = walk_layout(nodes, graph.edges, lambda k: season_name(path.start + k - 1, self.desk.care))
        return Walk(*placed, walk_in_words(nodes, graph.edges))

    @property
    def length(self) -> int:
        """The seasons of the walk."""
        return walk_length(self.path) if self.path else 1

    def walk_to(self, season: int) -> None:
        """Goes to a season of the walk, and reads its first pairing."""
        self.season = max(1, min(season, self.length))
        self.node = next((node for node in self.highlight if node.startswith("pairing")), "")
        if self.path is not None and not self.path.steps:
            self.node = "target"

    @property
    def highlight(self) -> list[str]:
        """The pairings of the season in hand and what they give."""
        if self.path is None:
            return []
        nodes = self.path.graph().nodes(data=True)
        return [node for node, data in nodes if data["season"] == self.season and data["kind"] != "animal"]

    @property
    def place(self) -> str:
        """Where the walk stands: "season 2 of 5"."""
        return f"season {self.season} of {self.length}"

    @property
    def season_words(self) -> NodeWords:
        """What to do in the season in hand."""
        if self.path is None:
            return NodeWords("", ())
        title = season_title(self.path, self.season, self.desk.care)
        lines = season_in_words(self.path, self.season, self._names(), self.desk.care)
        return NodeWords(f"{title[0].upper()}{title[1:]}", lines)

    @property
    def node_words(self) -> NodeWords:
        """What the node that is read is, and what to do about it."""
        if self.path is None or not self.node:
            return NodeWords("", ())
        said = node_in_words(self.path, self.node, self._names(), self.desk.care)
        step = self.path.graph().nodes[self.node]["step"]
        if self.desk.animals is None or self.path.graph().nodes[self.node]["kind"] != "pairing" or step is None:
            return said
        found = step_relations(self.desk.animals, self.path)[step]
        kin = f"{found.words[:1].upper()}{found.words[1:]}: offspring's inbreeding {percent(found.kinship)} or more."
        return NodeWords(said.title, (*said.lines, kin))

    @property
    def stack(self) -> Stack | None:
        """What the node that is read looks like: an animal, a hatchling to keep, the target; None for a pairing."""
        if self.path is None or self.node not in self.path.graph():
            return None
        return self._stack(self.path, self.node, self.path.graph().nodes[self.node])

    @property
    def cautions(self) -> tuple[str, ...]:
        """The cautions that go with the node that is read, also those that keep nothing out of plans."""
        if self.path is None or self.node not in self.path.graph():
            return ()
        return self._cautions(self.path, self.node, self.path.graph().nodes[self.node])

    def _cautions(self, path: Path, node: str, data: dict[str, Any]) -> tuple[str, ...]:
        animals = self.desk.animals
        if animals is None:
            return ()
        if data["kind"] == "animal":
            return tuple(map(caution_text, ready_of(self.desk, animals[node.removeprefix("animal ")]).cautions))
        step = path.steps[data["step"]] if data["step"] is not None else None
        if data["kind"] == "pairing" and step is not None:
            return self._met_by(step)
        shows = next((k.genes for k in step.keeps if k.name == node), path.target) if step else path.target
        seen = stack(shows, catalogue=self.desk.catalogue)
        return tuple(map(caution_text, seen.cautions))

    def _met_by(self, step: Step) -> tuple[str, ...]:
        animals = self.desk.animals
        if animals is not None and step.dam in animals and step.sire in animals:
            odds = cross(animals[step.dam], animals[step.sire])
        else:
            odds = cross(step.dam_genes, step.sire_genes, catalogue=self.desk.catalogue)
        return tuple(f"{caution_text(item.caution)} ({percent(item.chance)} of eggs)" for item in odds.cautions)

    def _box(self, path: Path, node: str, data: dict[str, Any], names: dict[str, str]) -> tuple[str, list[str]]:
        """What stands in a node's box: its label, and lines beneath."""
        if data["kind"] == "pairing":
            return "pair", []
        if data["kind"] == "target":
            return "target", [path.target]
        if data["kind"] == "animal":
            key = node.removeprefix("animal ")
            genes = data["text"].removeprefix(f"{key}: ")
            late = [f"from season {path.ready[key]}"] if path.ready.get(key, 1) > 1 else []
            return names.get(key, key), [genes, *late]
        keep = next(keep for keep in path.steps[data["step"]].keeps if keep.name == node)
        return keep.name, [f"keep a {keep.sex}", keep.genes]

    def _stack(self, path: Path, node: str, data: dict[str, Any]) -> Stack | None:
        animals, desk = self.desk.animals, self.desk
        genes: str | Animal = path.target
        if data["kind"] == "pairing":
            return None
        if data["kind"] == "animal":
            key = node.removeprefix("animal ")
            genes = animals[key] if animals is not None and key in animals else data["text"].removeprefix(f"{key}: ")
        elif data["kind"] == "hatchling":
            genes = next(keep for keep in path.steps[data["step"]].keeps if keep.name == node).genes
        return stack(genes, taste=desk.taste, opinions=desk.opinions, catalogue=desk.catalogue)

    def _names(self) -> dict[str, str]:
        return {animal.id: name_of(animal) for animal in self.desk.animals or ()}
