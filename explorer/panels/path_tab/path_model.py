"""What the Path tab says and does. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ...genetics import genome_of
from ...husbandry import season_name
from ...looks import caution_text
from ...notation import GenesError, read_wanted, write_shown
from ...pairing import names_in_words, percent
from ...pictures import Curve
from ...planner import (
    Path,
    Progress,
    UnreachableTarget,
    find_paths,
    obstacles,
    path_in_words,
    season_title,
    why_no_path,
)
from ..choosing import name_of
from ..desk import Desk
from .walk_model import WalkModel

__all__ = ["NO_LIMIT", "Allowance", "PathModel"]

START = "Press “find paths” to see how soon this collection can reach the target."


@dataclass(frozen=True)
class Allowance:
    """A gene whose cautions keep animals or pairings out of plans, and whether the keeper lets it in."""

    gene: str
    allowed: bool
    lines: tuple[str, ...]


NO_LIMIT = 50
"""Percent: more than offspring of two animals can have, so that nothing is left out."""


class PathModel:
    """seasons: the horizon. most_inbreeding: in percent, what offspring of a step may have; NO_LIMIT sets none.

    paths: what was found last; chosen: number of the one shown, from 0; walk: through it. problem: why the search came
    to nothing; reasons: more about that, one sentence each.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.seasons = 8
        self.most_inbreeding = NO_LIMIT
        self.paths: tuple[Path, ...] = ()
        self.chosen = 0
        self.walk = WalkModel(desk)
        self.problem = ""
        self.reasons: tuple[str, ...] = ()
        self._searched: tuple[object, int] = (None, 0)
        self._answered: object = None
        self._horizon = 0

    @property
    def blockers(self) -> tuple[str, ...]:
        """Why no search can be made, in plain words."""
        if self.desk.animals is None:
            return ("No collection is open. Open a file in the Collection tab.",)
        return () if len(self.desk.animals) else ("The collection has no animals yet. Add one in the Collection tab.",)

    @property
    def stale(self) -> bool:
        """Whether what is shown was found for another target, collection, season or horizon."""
        return self._answered is not None and self._answered != self._question()

    def begin(self) -> Callable[[Progress], list[Path]]:
        """The search for what is asked now, to be run anywhere; its result goes to `found` or `failed`."""
        desk, animals = self.desk, self.desk.animals
        assert animals is not None
        self._searched = (self._question(), self.seasons)
        asked: dict[str, Any] = {
            "husbandry": desk.care,
            "today": desk.today,
            "without": desk.without,
            "testable": desk.testable,
            "allow": desk.allow,
            "most_inbreeding": None if self.most_inbreeding == NO_LIMIT else Fraction(self.most_inbreeding, 100),
        }
        target, seasons = desk.target, self.seasons

        def search(progress: Progress) -> list[Path]:
            return find_paths(
                animals, target, seasons, **asked, progress=lambda share, text: progress(share, f"searching: {text}")
            )

        return search

    def found(self, paths: list[Path]) -> None:
        """Takes the result of a search."""
        self._answered, self._horizon = self._searched
        self.paths, self.problem, self.reasons = tuple(paths), "", ()
        if not paths and self.desk.animals is not None:
            count = "1 season" if self._horizon == 1 else f"{self._horizon} seasons"
            self.problem = f"No path reaches {self.desk.target} within {count}."
            if self.most_inbreeding != NO_LIMIT:
                self.problem = f"{self.problem[:-1]} with offspring's inbreeding of {self.most_inbreeding} % at most."
            self.reasons = why_no_path(
                self.desk.animals,
                self.desk.target,
                self._horizon,
                husbandry=self.desk.care,
                today=self.desk.today,
                allow=self.desk.allow,
            )
        self.choose(0)

    def failed(self, error: BaseException) -> None:
        """Takes what stopped a search. Raises it again if it is nothing that the keeper can mend."""
        self._answered, self._horizon = self._searched
        self.paths, self.reasons = (), ()
        self.choose(0)
        if not isinstance(error, (UnreachableTarget, GenesError)):
            self._answered, self.problem = None, ""
            raise error
        text = str(error)
        self.problem = f"{text[:1].upper()}{text[1:].rstrip('.')}."

    def choose(self, number: int) -> None:
        """Shows another path, from its first season."""
        self.chosen = number
        self.walk.take(self.path)

    @property
    def path(self) -> Path | None:
        return self.paths[self.chosen] if self.paths else None

    @property
    def must_show(self) -> str:
        return f"must show {names_in_words(self._genes(self.desk.target)) or 'nothing in particular'}"

    @property
    def must_not_show(self) -> str:
        barred = [gene for text in self.desk.without for gene in self._genes(text)]
        return f"must not show {names_in_words(barred, 'or')}" if barred else "nothing is ruled out"

    @property
    def headline(self) -> str:
        """The answer in a sentence or two."""
        if self.blockers:
            return self.blockers[0]
        if self.path is None:
            return self.problem or START
        return path_in_words(self.path, self.desk.care)

    @property
    def remarks(self) -> tuple[str, ...]:
        """What to know besides: that something changed since, that another path is sooner, why there is none."""
        lines = ["Something has changed since these paths were found; find paths again."] if self.stale else []
        lines += self.reasons
        path, sooner = self.path, min(self.paths, key=lambda p: p.soonest, default=None)
        if path is not None and sooner is not None:
            if len(self.paths) > 1:
                which = f"path {self.chosen + 1} of {len(self.paths)}"
                lines.append(f"This is {which}; the best chance by season {self._horizon} stands first.")
            if sooner.soonest < path.soonest:
                title = season_title(sooner, sooner.soonest, self.desk.care)
                chance = percent(sooner.chance_by_season[sooner.soonest - 1])
                lines.append(f"Path {self.paths.index(sooner) + 1} may be there sooner: {chance} by {title}.")
        return tuple(lines)

    @property
    def columns(self) -> list[dict[str, str]]:
        """The head of the table of paths."""
        return [
            {"key": "path", "label": "path", "kind": "text"},
            {"key": "soonest", "label": "soonest", "kind": "number"},
            {"key": "chance", "label": f"by season {self._horizon}", "kind": "number"},
            {"key": "expected", "label": "mean season", "kind": "number"},
            {"key": "clutches", "label": "clutches", "kind": "number"},
            {"key": "kept", "label": "to keep", "kind": "number"},
        ]

    @property
    def rows(self) -> list[dict[str, Any]]:
        """The table of paths."""
        return [
            {
                "id": str(number),
                "path": f"path {number + 1}",
                "soonest": season_title(path, path.soonest, self.desk.care).removeprefix("season ")
                if path.steps
                else "owned already",
                "chance": percent(path.chance_by_season[-1]),
                "expected": "may never come" if path.expected_season == float("inf") else f"{path.expected_season:.1f}",
                "clutches": f"{path.clutches:.1f}",
                "kept": str(path.kept),
                "order": {
                    "chance": path.chance_by_season[-1],
                    "soonest": path.soonest,
                    "expected": min(path.expected_season, 1e9),
                },
            }
            for number, path in enumerate(self.paths)
        ]

    @property
    def curves(self) -> tuple[tuple[Curve, ...], tuple[str, ...]]:
        """The chances of each path, and the names of the seasons."""
        if not self.paths:
            return (), ()
        first, length = self.paths[0], len(self.paths[0].chance_by_season)
        names = tuple(season_name(first.start + k, self.desk.care) for k in range(length))
        return tuple(Curve(f"path {n + 1}", path.chance_by_season) for n, path in enumerate(self.paths)), names

    @property
    def allowances(self) -> tuple[Allowance, ...]:
        """The genes that cautions keep out of plans for this target, those first that keep most animals out."""
        desk = self.desk
        if desk.animals is None:
            return ()
        found = obstacles(
            desk.animals, desk.target, husbandry=desk.care, today=desk.today, without=desk.without
        )
        rows = []
        for one in found:
            names = [name_of(desk.animals[key]) for key in one.animals]
            out = f"keeps out {names_in_words(names)}" if names else "keeps out pairings of which an egg could meet it"
            allowed = one.gene in desk.allow or "all" in desk.allow
            rows.append(Allowance(one.gene, allowed, (out, *map(caution_text, one.cautions))))
        return tuple(rows)

    def allow(self, gene: str, allowed: bool) -> None:
        """Lets a gene into plans in spite of its cautions, or keeps it out again, for every tab."""
        now = [name for name in self.desk.allow if name != gene]
        self.desk.aim(self.desk.target, self.desk.without, (*now, gene) if allowed else tuple(now))

    def _genes(self, text: str) -> list[str]:
        genome, wanted = genome_of(self.desk.catalogue), read_wanted(text, self.desk.catalogue)
        return [write_shown(genome, {gene: copies}) for gene, copies in wanted.items()]

    def _question(self) -> object:
        desk = self.desk
        asked = desk.animals, desk.target, desk.without, desk.allow, desk.testable, desk.today, desk.care
        return *asked, self.seasons, self.most_inbreeding
