"""What a line-up looks for: the target, the next step of the path, or a look that was typed in. No widgets, no HTML."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ...genetics import genome_of
from ...notation import GenesError, capital, read_wanted, write_shown
from ...planner import Keep, Path, season_title
from ..choosing import name_of
from ..desk import Desk
from ..offers import Problem, offers
from ..path_tab.path_model import PathModel

__all__ = ["KINDS", "Aim", "AimModel", "Kind"]

Kind = Literal["the target", "the next step", "a look"]
KINDS: tuple[Kind, ...] = ("the target", "the next step", "a look")

NO_PATHS = "No path to the target was looked for yet, so there is no next step; until then this is for the target."
OLD_PATHS = "Something has changed since the paths were found, so the next step is not known; this is for the target."


@dataclass(frozen=True)
class Aim:
    """look: in shorthand; without: genes that must not show. words: what else to know of it, a sentence each. target:
    whether it is the target.
    """

    look: str
    without: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    target: bool = False

    @property
    def name(self) -> str:
        """What to call it in a sentence."""
        return "the target" if self.target else self.look


class AimModel:
    """kind: what is looked for. paths: of the Path tab, None if it is not there. problems: of the text typed last."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.kind: Kind = "the target"
        self.paths: PathModel | None = None
        self.problems: tuple[Problem, ...] = ()
        self._look = ""

    def type(self, text: str) -> None:
        """Takes a look in shorthand; what cannot be read leaves the last one standing, and `problems` says why."""
        self.problems = ()
        if not text.strip():
            self._look = ""
            return
        try:
            self._look = write_shown(genome_of(self.desk.catalogue), read_wanted(text, self.desk.catalogue))
        except GenesError as error:
            said = f"Found {error.found}; needed {error.needed}. {capital(error.advice)}."
            self.problems = (Problem(said, offers(text, error.found, error.nearest)),)

    @property
    def searchable(self) -> bool:
        """Whether the next step is asked for, is not known, and a search for paths could tell."""
        paths = self.paths
        return self.kind == "the next step" and paths is not None and not paths.blockers and not self._known(paths)

    def of(self, key: str) -> Aim:
        """What is looked for in an animal's line-up."""
        if self.kind == "a look":
            said = () if self._look else ("Type a look; until then this is for the target.",)
            return Aim(self._look, (), said) if self._look else self._target(*said)
        return self._step(key) if self.kind == "the next step" else self._target()

    def _target(self, *words: str) -> Aim:
        return Aim(self.desk.target, self.desk.without, words, target=True)

    def _known(self, paths: PathModel) -> bool:
        return not paths.stale and (paths.path is not None or bool(paths.problem))

    def _step(self, key: str) -> Aim:
        paths = self.paths
        if paths is None or not self._known(paths):
            return self._target(OLD_PATHS if paths and paths.stale else NO_PATHS)
        if paths.path is None:
            return self._target(f"{paths.problem} So there is no next step; this is for the target.")
        if not paths.path.steps:
            return self._target("The target is owned already, so there is no next step; this is for the target.")
        return self._next(paths.path, paths.chosen + 1, key)

    def _next(self, path: Path, number: int, key: str) -> Aim:
        """The first thing to be told by sight of what its own step keeps, or else of what the first step keeps."""
        mine = [step for step in path.steps if key in (step.dam, step.sire)]
        step = mine[0] if mine else path.steps[0]
        when = season_title(path, step.season, self.desk.care)
        pair = f"{self._called(step.dam)} with {self._called(step.sire)}"
        own = "" if mine else f"{self._called(key)} has no part in path {number}; this is its first step. "
        start = f"{own}Path {number}, {when}: {pair}"
        seen = [keep for keep in step.keeps if keep.shows]
        if not step.keeps:
            return self._target(f"{start} is to give the target itself.")
        if not seen:
            sexes = " and ".join(f"any {keep.sex}" for keep in step.keeps)
            return self._target(f"{start}, keep {sexes}; that is nothing to look for, so this is for the target.")
        return Aim(seen[0].shows, seen[0].hides, (f"{start}, {_kept(seen[0])}",))

    def _called(self, key: str) -> str:
        animals = self.desk.animals
        return name_of(animals[key]) if animals is not None and key in animals else key


def _kept(keep: Keep) -> str:
    hides = f" and not {' or '.join(keep.hides)}" if keep.hides else ""
    tested = f", tested for {keep.tested}" if keep.tested else ""
    return f"keep a {keep.sex} that shows {keep.shows}{hides}{tested}. Chances here are for either sex."
