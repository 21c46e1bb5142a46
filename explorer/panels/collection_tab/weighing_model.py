"""A day at the scales: one animal after the other, and what each weight means. No widgets."""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction
from typing import Any

from ...collection import Animal, CollectionError, SaveRefused
from ...genetics import exact
from ...husbandry import grams, readiness
from ..desk import Desk

__all__ = ["WeighingModel"]

NUMBER = re.compile(r"[0-9]{1,6}(\.[0-9]{1,3})?")
THOUSANDS = re.compile(r"[1-9][0-9]?\.[0-9]{3}")
"""What some write for thousands, and what would be a few grams."""


class WeighingModel:
    """typed: id -> the text at the scales, of animals that are kept. day: when they are weighed.

    said: what taking them up came to; problems: id -> what is wrong with a text. conflict: another program changed the
    file of weights.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.day: date = desk.now
        self.typed: dict[str, str] = {}
        self.said = ""
        self.problems: dict[str, str] = {}
        self.conflict = False
        self._meant: dict[str, str] = {}

    @property
    def animals(self) -> tuple[Animal, ...]:
        """Those that are kept, in file order."""
        return tuple(one for one in self.desk.animals or () if one.status == "kept")

    @property
    def possible(self) -> bool:
        """Whether weights can be written down: the file of weights can be read."""
        return self.desk.season.weights is not None

    @property
    def rows(self) -> list[dict[str, Any]]:
        """id, name, last (the weight before), said (what the typed one means, or what is wrong with it), problem."""
        return [self._row(animal) for animal in self.animals]

    def _row(self, animal: Animal) -> dict[str, Any]:
        last = animal.weighings[-1] if animal.weighings else None
        when = f" on {last.on}" if last and last.on else ""
        problem = self.problems.get(animal.id, "")
        return {
            "id": animal.id,
            "name": " ".join(filter(None, (animal.id, animal.name))),
            "last": f"{grams(last.grams)}{when}" if last else "never weighed",
            "typed": self.typed.get(animal.id, ""),
            "said": problem or self._meant.get(animal.id, ""),
            "problem": bool(problem),
        }

    def type(self, key: str, text: str) -> None:
        """One weight, in grams. A text that is no weight stays as it is, with what is wrong in `problems`."""
        self.said = ""
        self._judge(key, text)

    def on(self, day: date | None) -> None:
        """The day of all these weighings."""
        self.day = day or self.desk.now
        for key, text in list(self.typed.items()):
            self._judge(key, text)

    def _judge(self, key: str, text: str) -> None:
        """Takes a text down, and what it means for the animal: whether it would be ready, or what is wrong."""
        desk = self.desk
        assert desk.animals is not None
        self.typed[key], weight = text, _weight(text)
        self.problems.pop(key, None)
        self._meant.pop(key, None)
        if weight is None:
            if text.strip():
                two = f"{text.strip()} has two meanings; " if THOUSANDS.fullmatch(text.strip()) else ""
                self.problems[key] = f"{two}grams are needed, such as 1520 or 1520.5"
            return
        try:
            animals, _ = desk.season.with_scales({key: weight}, self.day)
        except CollectionError as error:
            self.problems[key] = "; ".join(f"{one.found}; needed: {one.needed}" for one in error.findings)
            return
        state = str(readiness(animals[key], desk.care, desk.today, allow=desk.allow))
        self._meant[key] = "; ".join(filter(None, (self._change(desk.animals[key], weight), state)))

    def _change(self, animal: Animal, weight: Fraction) -> str:
        """What a weight is beside the one before, or instead of which it stands; "" for the first."""
        same = next((one for one in animal.weighings if one.on == self.day), None)
        if same is not None:
            return f"in place of {grams(same.grams)} of that day"
        dated = [one for one in animal.weighings if one.on is not None and one.on < self.day]
        if not dated:
            return ""
        more = weight - exact(dated[-1].grams)
        return f"{'+' if more > 0 else '−' if more else ''}{grams(abs(more))}"

    @property
    def count(self) -> int:
        """How many weights are ready to be taken up."""
        return len(self._meant)

    def take(self) -> None:
        """Takes up every weight that is one and keeps the others on the list; `said` says what came of it."""
        typed = {key: _weight(self.typed[key]) for key in self._meant}
        scales = {key: weight for key, weight in typed.items() if weight is not None}
        if not scales:
            self.said = "No weight is typed yet."
            return
        try:
            self.desk.season.weigh(scales, self.day)
        except SaveRefused as error:
            self.conflict = True
            self.said = f"{error.findings[0].found}. Nothing was written, and what you typed is still here."
            return
        except CollectionError as error:
            self.said = " ".join(str(one) for one in error.findings)
            return
        self.typed = {key: text for key, text in self.typed.items() if key in self.problems}
        self._meant, self.conflict = {}, False
        weights = "1 weight is" if len(scales) == 1 else f"{len(scales)} weights are"
        self.said = f"{weights} written down for {self.day}. Save the file to keep them in the collection too."

    def read_again(self) -> None:
        """Takes up the file of weights as it is now; what is typed stays typed."""
        self.desk.season.read_again()
        self.conflict, self.said = False, ""
        self.on(self.day)


def _weight(text: str) -> Fraction | None:
    """Grams as they are typed; None if it is no number, or one with two meanings."""
    typed = text.strip()
    return Fraction(typed) if NUMBER.fullmatch(typed) and not THOUSANDS.fullmatch(typed) else None
