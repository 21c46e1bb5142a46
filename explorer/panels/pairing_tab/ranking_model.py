"""This season's pairings, ranked by a keeper's taste. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from collections.abc import Callable

from ...collection import Animal
from ...looks import BroodCaution, caution_text
from ...pairing import Clutch, Promise, percent, promises, score_text
from ..background import Progress
from ..choosing import name_of, ready_of
from ..desk import Desk
from .pairing_looks_model import allowed_genes

__all__ = ["RankedPairings"]

MOST_RANKED = 40
"""How many pairings a ranking lists."""


class RankedPairings:
    """This season's pairings by how good their best hatchlings would be, and how likely. found: None if not ranked."""

    columns = (
        {"key": "dam", "label": "dam", "kind": "text"},
        {"key": "sire", "label": "sire", "kind": "text"},
        {"key": "look", "label": "hatchling that promises most", "kind": "text"},
        {"key": "score", "label": "your taste", "kind": "number"},
        {"key": "chance", "label": "chance in a clutch", "kind": "number"},
        {"key": "cautions", "label": "cautions", "kind": "text"},
    )

    def __init__(self, desk: Desk, clutch: Callable[[], Clutch]) -> None:
        """clutch: the one to reckon with."""
        self.desk, self._clutch = desk, clutch
        self.found: list[tuple[Animal, Animal, Promise]] | None = None
        self._state: tuple[object, ...] = ()

    @property
    def stale(self) -> bool:
        """Whether the desk or the clutch has changed since the ranking began."""
        return self._state != self._state_now()

    @property
    def pairs(self) -> list[tuple[Animal, Animal]]:
        """Dams and sires that are ready this season and that no caution keeps out."""
        ready = [a for a in self.desk.animals or () if (state := ready_of(self.desk, a)).ready and not state.barred]
        return [(d, s) for d in ready if d.sex == "female" for s in ready if s.sex == "male"]

    def work(self) -> Callable[[Progress], list[tuple[Animal, Animal, Promise]]]:
        """The ranking as work for a job."""
        pairs, desk, clutch = self.pairs, self.desk, self._clutch()
        self._state = self._state_now()
        taste, opinions, allowed = dict(desk.taste), desk.opinions, allowed_genes(desk)

        def rank(progress: Progress) -> list[tuple[Animal, Animal, Promise]]:
            return promises(
                pairs,
                eggs=clutch.eggs,
                hatch_rate=clutch.hatch_rate,
                taste=taste,
                opinions=opinions,
                allow=allowed,
                progress=progress,
            )

        return rank

    def take(self, found: list[tuple[Animal, Animal, Promise]]) -> None:
        """Takes up what the work found."""
        self.found = found

    @property
    def rows(self) -> list[dict[str, object]]:
        """One row a pairing, for a table; its id is its place from 0."""
        return [
            {
                "id": str(place),
                "dam": name_of(dam),
                "sire": name_of(sire),
                "look": best.look,
                "score": score_text(best.stack.score, short=True),
                "chance": percent(best.chance),
                "cautions": "; ".join(map(_caution, best.cautions)),
                "mark": "caution" if best.cautions else "",
                "order": {"score": float(best.stack.score), "chance": float(best.chance)},
            }
            for place, (dam, sire, best) in enumerate((self.found or ())[:MOST_RANKED])
        ]

    @property
    def summary(self) -> str:
        """What the ranking says, in a sentence."""
        if self.found is None:
            return ""
        if not self.found:
            return "No pairing that is ready this season promises a hatchling that meets your taste."
        dam, sire, best = self.found[0]
        old = " Something changed since; rank again." if self.stale else ""
        return (
            f"{name_of(dam)} with {name_of(sire)} promises most: {best.look}, with a chance of {percent(best.chance)} "
            "in a clutch. Ranked by taste times chance, among those ready; what a caution keeps out is left out unless "
            f"you allow it.{old}"
        )

    def _state_now(self) -> tuple[object, ...]:
        desk = self.desk
        return desk.animals, desk.today, tuple(desk.taste.items()), desk.opinions, desk.allow, self._clutch()


def _caution(item: BroodCaution) -> str:
    return f"{caution_text(item.caution)} ({percent(item.chance)} of eggs)"
