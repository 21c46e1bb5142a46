"""The grid of all males and females: who stands where, which number the shade shows, and what each cell says."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ...collection import Animal, relation
from ...husbandry import Readiness
from ...looks import caution_text
from ...notation import write_genes
from ...pairing import mean_text, percent
from ...pictures.line_up_grid import GridCell, grid_cells, grid_in_words, grid_legend
from ..background import Progress
from ..choosing import name_of, ready_of
from ..desk import Desk
from .line_up_aim import Aim
from .line_up_grid_model import GridPair, Pairs, pairs_of_all

__all__ = ["Grid", "GridModel"]

CLOSE = Fraction(1, 8)
"""The inbreeding coefficient from which the parents are called close kin: that of half siblings' offspring."""


@dataclass(frozen=True)
class Grid:
    """The grid as its view takes it. sentence: which number the shade shows, and why."""

    sentence: str
    rows: list[dict[str, str]]
    columns: list[dict[str, str]]
    cells: list[list[dict[str, Any]]]
    legend: list[dict[str, Any]]
    words: str


class GridModel:
    """Remembers the numbers for what they were asked for; `work` brings them, and `take` takes them up."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self._asked: object = None
        self._pairs: Pairs = {}
        self._of: object = None

    def known(self, aim: Aim) -> bool:
        """Whether the numbers at hand are those of this aim and of the desk as it is."""
        return self._of == self._state(aim)

    def asked(self, aim: Aim) -> bool:
        """Whether they are at hand or being worked out."""
        return self.known(aim) or self._asked == self._state(aim)

    def work(self, aim: Aim) -> Callable[[Progress], tuple[object, Pairs]]:
        """The numbers as work for a job."""
        state, job = self._state(aim), pairs_of_all(self.desk, aim)
        self._asked = state
        return lambda progress: (state, job(progress))

    def take(self, found: tuple[object, Pairs]) -> None:
        """Takes up what the work found."""
        self._of, self._pairs = found
        self._asked = None

    def drop(self) -> None:
        """The work came to nothing."""
        self._asked = None

    def grid(self, aim: Aim, ready_only: bool) -> Grid | None:
        """The grid, of all kept animals or of those that are ready; None before the numbers are there."""
        animals = self.desk.animals
        if animals is None or not self.known(aim):
            return None
        states = {animal.id: ready_of(self.desk, animal) for animal in animals if animal.status == "kept"}
        fit = {key for key, state in states.items() if state.ready and not state.barred}
        made = [pair for (dam, sire), pair in self._pairs.items() if dam in fit and sire in fit and not pair.kept_out]
        clutches = any(pair.per_clutch for pair in made) or not any(pair.progress for pair in self._pairs.values())

        def value(pair: GridPair) -> Fraction:
            return pair.per_clutch if clutches else pair.progress

        best: dict[str, Fraction] = {}
        for (dam, sire), pair in self._pairs.items():
            for key in (dam, sire) if not pair.kept_out else ():
                if {dam, sire} <= fit or key not in fit:
                    best[key] = max(best.get(key, Fraction(0)), value(pair))
        shown = [animal for animal in animals if animal.id in (fit if ready_only else states)]
        shown.sort(key=lambda animal: (animal.id not in fit, -best.get(animal.id, Fraction(0)), animal.id))
        males, females = ([one for one in shown if one.sex == sex] for sex in ("male", "female"))
        cells = [[self._cell(aim, male, dam, states, fit, clutches) for dam in females] for male in males]
        said = self._sentence(aim, clutches, any(pair.per_clutch for pair in made))
        most = max((cell.value for row in cells for cell in row), default=Fraction(0))
        return Grid(
            said,
            [_head(one, states[one.id]) for one in males],
            [_head(one, states[one.id]) for one in females],
            grid_cells(cells),
            grid_legend(cells, "least", f"most: {percent(most) if clutches else mean_text(most)}") if most else [],
            grid_in_words(cells, f"chance of {aim.look} in a clutch" if clutches else f"progress toward {aim.look}"),
        )

    def _cell(
        self, aim: Aim, male: Animal, dam: Animal, states: dict[str, Readiness], fit: set[str], clutches: bool
    ) -> GridCell:
        assert self.desk.animals is not None
        pair = self._pairs[dam.id, male.id]
        text = percent(pair.per_clutch) if clutches else mean_text(pair.progress)
        said = [
            f"{name_of(male)} with {name_of(dam)}: {aim.look} in a clutch {percent(pair.per_clutch)}, "
            f"progress {mean_text(pair.progress)}"
        ]
        said += [f"{name_of(one)}: {_state(states[one.id])}" for one in (male, dam) if one.id not in fit]
        if pair.kinship:
            said.append(f"{relation(self.desk.animals, dam.id, male.id).words}: {percent(pair.kinship)} or more")
        kept_out = {*pair.kept_out}
        said += [
            f"caution: {caution_text(one)}{'; kept out of plans' if one in kept_out else ''}" for one in pair.cautions
        ]
        return GridCell(
            name_of(male),
            name_of(dam),
            pair.per_clutch if clutches else pair.progress,
            text,
            "; ".join(said),
            not {male.id, dam.id} <= fit,
            bool(kept_out),
            f"kin {percent(pair.kinship)}" if pair.kinship >= CLOSE else "",
            bool(pair.cautions),
        )

    def _sentence(self, aim: Aim, clutches: bool, now: bool) -> str:
        if clutches:
            none = "" if now else ", but no pairing that can be made this season gives it, or brings it nearer"
            return f"The darker a cell, the likelier a clutch of that pairing has {aim.name}{none}."
        return (
            f"No pairing that can be made this season gives {aim.name}, so the shade shows progress toward it: the "
            "mean worth of a clutch's best hatchling, where all of it is worth 1 and each missing gene divides that by "
            "four."
        )

    def _state(self, aim: Aim) -> object:
        desk = self.desk
        return desk.animals, desk.today, desk.care, desk.allow, aim.look, aim.without


def _head(animal: Animal, state: Readiness) -> dict[str, str]:
    word = "not ready" if not state.ready else "kept out" if state.barred else ""
    title = f"{name_of(animal)}, {write_genes(animal.genotype)}: {_state(state)}; put others beside it"
    return {"id": animal.id, "label": name_of(animal), "word": word, "title": title}


def _state(state: Readiness) -> str:
    return "kept out by a caution" if state.ready and state.barred else str(state)


