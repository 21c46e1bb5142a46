"""A path as a keeper reads it: its steps, its numbers, its graph of animals and pairings."""

from __future__ import annotations

from dataclasses import dataclass

import networkx as nx

__all__ = ["Keep", "Path", "Step"]


@dataclass(frozen=True)
class Keep:
    """One hatchling that a step keeps.

    name: how later steps call it. shows: what it must show ("" if any hatchling of the sex will do). hides: genes that
    must not show. tested: genes it must be tested for. genes: what it then certainly is, and what may be hidden in it.
    per_egg, in_clutch: chances of an egg and of a clutch that is laid, averaged over what its parents may truly carry
    in the season the step starts with the best luck. filled: chance by season k + 1 that it is
    there and no target has hatched.
    """

    name: str
    sex: str
    shows: str
    hides: tuple[str, ...]
    tested: str
    genes: str
    per_egg: float
    in_clutch: float
    filled: tuple[float, ...]


@dataclass(frozen=True)
class Step:
    """One pairing, made from `season` at the soonest and repeated each season until it has what it needs.

    dam, sire: ids of owned animals, or names of hatchlings kept before; *_genes: what they carry of what matters.
    keeps: empty for the last step, which is repeated until the target hatches. target_per_egg, target_in_clutch: chance
    of the target itself from this pairing.
    """

    season: int
    dam: str
    sire: str
    dam_genes: str
    sire_genes: str
    keeps: tuple[Keep, ...]
    target_per_egg: float
    target_in_clutch: float


@dataclass(frozen=True)
class Path:
    """A fixed schedule toward a target, scored exactly.

    chance_by_season: entry k is the chance that the target has hatched by the end of season k + 1. expected_season:
    mean season in which it hatches, inf if it may never come, 0 if it is owned already. clutches: mean number of
    clutches laid within the horizon. kept: hatchlings to keep. soonest: first season in which the target can hatch.
    start: the year in which season 1 starts. owners: ids of animals that show the target already. ready: owned id ->
    first season.
    """

    target: str
    chance_by_season: list[float]
    expected_season: float
    clutches: float
    kept: int
    soonest: int
    start: int
    steps: tuple[Step, ...]
    ready: dict[str, int]
    owners: tuple[str, ...] = ()

    def graph(self) -> nx.DiGraph[str]:
        """The path as a graph. Nodes have attributes `kind` ("animal", "hatchling", "pairing", "target"), `season`,
        `text` and `step` (number of the step from 0, None for an owned animal).

        An owned animal stands in the season from which it may breed, a pairing in the season it starts with the best
        luck, a hatchling in the season it can hatch; edges run from parent to pairing to hatchling.
        """
        graph: nx.DiGraph[str] = nx.DiGraph()
        for number, step in enumerate(self.steps):
            pairing = f"pairing {number + 1}"
            for name, genes in ((step.dam, step.dam_genes), (step.sire, step.sire_genes)):
                if name in self.ready:
                    text = f"{name}: {genes}"
                    graph.add_node(f"animal {name}", kind="animal", season=self.ready[name], text=text, step=None)
            graph.add_node(pairing, kind="pairing", season=step.season, text=f"{step.dam} × {step.sire}", step=number)
            for name in (step.dam, step.sire):
                graph.add_edge(f"animal {name}" if name in self.ready else name, pairing)
            for keep in step.keeps:
                graph.add_node(
                    keep.name, kind="hatchling", season=step.season, text=f"{keep.sex}: {keep.genes}", step=number
                )
                graph.add_edge(pairing, keep.name)
        last = len(self.steps)
        season = self.steps[-1].season if self.steps else 0
        graph.add_node("target", kind="target", season=season, text=self.target, step=last - 1 if last else None)
        if last:
            graph.add_edge(f"pairing {last}", "target")
        for name in self.owners:
            graph.add_node(f"animal {name}", kind="animal", season=0, text=f"{name}: {self.target}", step=None)
            graph.add_edge(f"animal {name}", "target")
        return graph
