"""The hatchlings of a clutch: which to hold back, how one becomes an animal, and their list for a buyer. No widgets."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ...collection import Animal, Collection, CollectionError
from ...collection.clutch import Clutch
from ...collection.storage import write_text
from ...looks import caution_text
from ...notation import write_genes
from ...pairing import names_in_words, percent
from ...pairing.holdbacks import Holdback, holdbacks
from ...pictures.hatch_list import Listed, hatch_list, untouched
from ..background import Progress
from ..book_keeping import list_file
from ..choosing import name_of, ready_of
from ..desk import Desk
from ..offers import Problem
from ..pairing_tab.pairing_looks_model import allowed_genes
from .clutch_form_model import problem_of
from .clutch_words import reason_in_words
from .holdback_steps import Use, animal_row, unusable, use_in_words, uses

__all__ = ["Found", "HeldBack", "HoldbackModel", "Planned", "free_id"]

Found = tuple[tuple[object, ...], tuple[Holdback, ...]]
"""The state of things, and the hatchlings as they rank in it."""

Planned = tuple[tuple[object, ...], tuple[Use | None, ...]]
"""The state of things, and what each hatchling does for the best path in it."""

PREFIXES = {"female": "F", "male": "M"}
REMARKS = (
    "A percentage is the chance that a hatchling carries one hidden copy, or shows the gene where it says no more. It "
    "is worked out from its look, its parents, what is recorded of them and their kin, and every clutch that is "
    "written down; it is no promise. Clutch mates share what is uncertain of their parents.",
    "Before you buy or sell, check your local law and the CITES papers of the animals, and ask a veterinarian who "
    "knows reptiles about health. Where this list and they differ, follow them.",
)


@dataclass(frozen=True)
class HeldBack:
    """Like hatchlings that may be held back. rank: 1 for the best, 0 for those that are not recommended.

    title: what each carries, its sex and how many there are. step: which of the best path it would take, "" while that
    is not known. cautions: with the strength of their evidence. remarks: what else to know. id: for the first of them
    in the collection.
    """

    rank: int
    title: str
    reason: str
    step: str
    cautions: tuple[str, ...]
    remarks: tuple[str, ...]
    id: str
    found: Holdback


class HoldbackModel:
    """clutch: whose hatchlings, None for none; it is in the clutch book of the desk."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.clutch: Clutch | None = None
        self._state: tuple[object, ...] = ()
        self._ranked: tuple[Holdback, ...] = ()
        self._planned: Planned = ((), ())

    @property
    def rows(self) -> tuple[HeldBack, ...]:
        """The hatchlings that are not in the collection yet, best first.

        Once it is known what each does for the best path, the chance of the target with it leads.
        """
        animals = self.desk.animals
        taken: set[str] = {animal.id for animal in animals or ()}
        made: list[HeldBack] = []
        ranked = self._holdbacks()
        known = self._planned[1] if self._planned[0] == self.plan_state else (None,) * len(ranked)
        pairs = sorted(zip(ranked, known, strict=True), key=lambda pair: -round(pair[1].chance, 9) if pair[1] else 0)
        pairs.sort(key=lambda pair: not pair[0].recommended)
        for place, (one, use) in enumerate(pairs, start=1):
            assert animals is not None
            key = free_id(animals, one.hatchling.row.sex, taken)
            taken.add(key)
            made.append(_held_back(place if one.recommended else 0, key, one, self._step(one, use)))
        return tuple(made)

    def _step(self, one: Holdback, use: Use | None) -> str:
        if use is not None:
            return use_in_words(use, self.desk.care)
        return unusable(self.clutch, one) if self.clutch is not None and one.recommended else ""

    @property
    def slow(self) -> bool:
        """Whether the rows are not worked out yet, and that takes a while: several males may have sired the clutch."""
        clutch = self.clutch
        return clutch is not None and clutch.several and len(clutch.sires) > 1 and self._state != self.state

    def work(self) -> Callable[[Progress], Found]:
        """The rows as work for a job."""
        state, desk, animals, clutch = self.state, self.desk, self.desk.animals, self.clutch
        assert animals is not None and clutch is not None
        taste, opinions, allow = dict(desk.taste), desk.opinions, allowed_genes(desk)
        target, without = desk.target, desk.without

        def rank(progress: Progress) -> Found:
            options: dict[str, Any] = {"taste": taste, "opinions": opinions, "allow": allow}
            return state, holdbacks(animals, clutch, target, without, **options, progress=progress)

        return rank

    def take(self, found: Found) -> None:
        """Takes up what the work found, if it is still what is asked for."""
        if found[0] == self.state:
            self._state, self._ranked = found

    @property
    def unplanned(self) -> bool:
        """Whether it is to be found out yet what the hatchlings do for the best path."""
        return self._planned[0] != self.plan_state and any(one.recommended for one in self._holdbacks())

    def plan(self) -> Callable[[Progress], Planned]:
        """What each hatchling does for the best path, as work for a job."""
        state, desk, animals, clutch, ranked = self.plan_state, self.desk, self.desk.animals, self.clutch, self._ranked
        assert animals is not None and clutch is not None
        target = desk.target
        options = {
            "husbandry": desk.care,
            "today": desk.today,
            "without": desk.without,
            "testable": desk.testable,
            "allow": desk.allow,
        }
        return lambda progress: (state, uses(animals, clutch, ranked, target, options, progress))

    def take_plan(self, planned: Planned) -> None:
        """Takes up what the work found, if it is still what is asked for."""
        if planned[0] == self.plan_state:
            self._planned = planned

    @property
    def advice(self) -> str:
        """Which hatchling to hold back first; "" where there is none."""
        if self.clutch is None or not self.clutch.hatchlings or self.slow:
            return ""
        rows = self.rows
        if not rows:
            return "All hatchlings of this clutch are in the collection."
        if not rows[0].rank:
            return f"No hatchling left of this clutch is worth holding back for {self.desk.target}."
        return f"Hold back for {self.desk.target}, best first"

    @property
    def kept(self) -> str:
        """Those that are in the collection already; "" if there are none."""
        said = [f"{one.id} ({write_genes(one.genotype)}, {one.sex or 'sex not known'})" for one in self._kept_animals()]
        return f"In the collection: {names_in_words(said)}." if said else ""

    def add(self, one: HeldBack, key: str) -> tuple[Problem, ...]:
        """Makes an animal of the collection of one of these hatchlings; what is wrong with it, if anything."""
        animals, clutch, name = self.desk.animals, self.clutch, key.strip()
        assert animals is not None and clutch is not None
        if one.found not in self._holdbacks():
            return (Problem("That hatchling is no longer listed. Choose among those that are."),)
        if not name or name in animals:
            wrong = f"{name} is taken; give" if name else "Give"
            return (Problem(f"{wrong} this hatchling an id of its own, such as {one.id}."),)
        try:
            self.desk.hold_back(animal_row(clutch, one.found, name))
        except CollectionError as error:
            return tuple(problem_of(finding, {}) for finding in error.findings if finding.severity == "error")
        return ()

    def write_list(self) -> tuple[Path, Path | None]:
        """Writes the list for a buyer beside the collection, and says where. Raises SaveRefused.

        The second path is the backup of what lay there before; there is none of an earlier list, which nobody changed.
        """
        assert self.clutch is not None
        file = list_file(self.desk.path, self.clutch.id)
        return file, write_text(file, self.page, needless=untouched)

    @property
    def page(self) -> str:
        """The list for a buyer: every hatchling of the clutch, those that were kept too."""
        assert self.clutch is not None
        loose = [one for one in self._holdbacks() for _ in range(one.hatchling.left)]
        listed = [
            Listed(str(number), one.label, one.hatchling.row.sex or "not known", tuple(map(caution_text, one.cautions)))
            for number, one in enumerate(loose, start=1)
        ]
        return hatch_list(f"Hatchlings of clutch {self.clutch.id}", self._facts(), [*listed, *self._kept()], REMARKS)

    def _facts(self) -> list[tuple[str, str]]:
        animals, clutch = self.desk.animals, self.clutch
        assert animals is not None and clutch is not None
        chances = animals.knowledge.paternity.get(clutch.id, {})
        facts = [("dam", _parent(animals, clutch.dam))]
        for sire in clutch.sires:
            share = f" ({percent(chances[sire])})" if sire in chances else ""
            facts.append(("sire" if len(clutch.sires) == 1 else "possible sire", f"{_parent(animals, sire)}{share}"))
        facts += [("laid", str(clutch.laid))] if clutch.laid else []
        return [*facts, *([("hatched", str(clutch.hatched))] if clutch.hatched else [])]

    def _kept_animals(self) -> list[Animal]:
        animals, book, clutch = self.desk.animals, self.desk.book, self.clutch
        kept = book.kept[clutch.id] if book is not None and clutch is not None else ()
        return [animals[key] for key in kept] if animals is not None else []

    def _kept(self) -> list[Listed]:
        return [
            Listed(
                one.id,
                write_genes(one.genotype),
                one.sex or "not known",
                tuple(map(caution_text, ready_of(self.desk, one).cautions)),
                "kept",
            )
            for one in self._kept_animals()
        ]

    def _holdbacks(self) -> tuple[Holdback, ...]:
        if self.desk.animals is None or self.clutch is None:
            return ()
        if self._state != self.state:
            self.take(self.work()(lambda share, text: None))
        return self._ranked

    @property
    def state(self) -> tuple[object, ...]:
        """All that the rows depend on."""
        desk = self.desk
        wish = (desk.target, desk.without, allowed_genes(desk))
        return (desk.animals, self.clutch, *wish, tuple(desk.taste.items()), desk.opinions)

    @property
    def plan_state(self) -> tuple[object, ...]:
        """All that the best path depends on."""
        return (*self.state, self.desk.today, self.desk.care, self.desk.testable, self.desk.allow)


def free_id(animals: Collection, sex: str | None, taken: set[str]) -> str:
    """The next id in the way that most animals of this sex are named."""
    named = [match for one in animals if one.sex == sex and (match := re.fullmatch(r"(.*?)(\d+)", one.id))]
    prefixes = Counter(match[1] for match in named).most_common(1)
    prefix = prefixes[0][0] if prefixes else PREFIXES.get(sex or "", "H")
    numbers = [match[2] for match in named if match[1] == prefix]
    width, last = max(map(len, numbers), default=2), max(map(int, numbers), default=0)
    return next(key for n in range(1, 2 + len(taken)) if (key := f"{prefix}{last + n:0{width}}") not in taken)


def _parent(animals: Collection, key: str) -> str:
    return f"{name_of(animals[key])}: {write_genes(animals[key].genotype)}"


def _held_back(rank: int, key: str, one: Holdback, step: str) -> HeldBack:
    row, left = one.hatchling.row, one.hatchling.left
    title = f"{one.label}, {row.sex or 'sex not known'}{f' × {left}' if left > 1 else ''}"
    remarks = []
    if one.kept_out:
        remarks.append("Not recommended: plans leave such animals out unless you allow the gene in the Path tab.")
    if not one.hatchling.explained:
        remarks.append("These parents cannot give this look, or its sire is too unsure: its look alone counts.")
    cautions = tuple(map(caution_text, one.cautions))
    return HeldBack(rank, title, reason_in_words(one), step, cautions, tuple(remarks), key, one)
