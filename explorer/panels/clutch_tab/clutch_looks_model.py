"""The looks that a clutch's hatchlings can be counted under. No widgets, no HTML."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ...collection import Collection
from ...collection.clutch_looks import read_look
from ...genetics import genome_of
from ...notation import write_shown
from ...pairing import Offspring, cross, look_closeness, percent
from ..desk import Desk

__all__ = ["CountedLooks", "LookLine", "surely"]

Likely = tuple[str, Fraction, str]
"""A look in full, its chance, and its nickname."""


@dataclass(frozen=True)
class LookLine:
    """A look that hatchlings can be counted under. text: as it is written in the book; chance: in words, "" if the
    parents are not known; closeness: share of the target; note: its nickname, or that these parents cannot give it."""

    text: str
    chance: str
    closeness: Fraction
    note: str = ""


class CountedLooks:
    """The looks that a dam and her possible mates can give, each mate taken to be as likely the sire."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self._of: tuple[Collection | None, str, tuple[str, ...]] = (None, "", ())
        self._odds: list[Offspring] = []
        self._tables: dict[int, list[Likely]] = {}

    def choose(self, dam: str, sires: Iterable[str]) -> None:
        """Takes up who the parents are, and what is known of them now."""
        animals, males = self.desk.animals, tuple(dict.fromkeys(sire for sire in sires if sire))
        if self._of == (animals, dam, males):
            return
        self._of, self._tables, self._odds = (animals, dam, males), {}, []
        if animals is not None and dam in animals and dam not in males:
            self._odds = [cross(animals[dam], animals[sire]) for sire in males if sire in animals]

    def likeliest(self, most: int) -> list[Likely]:
        """The likeliest looks, at most so many; none while a parent is missing."""
        if most not in self._tables:
            found: dict[str, tuple[Fraction, str]] = {}
            for one in self._odds:
                table = one.top_looks(most)
                for look, nickname in zip(table["look"], table["nickname"], strict=True):
                    found[look] = found.get(look) or (self._chance(look, exactly=True), nickname)
            ordered = sorted(found, key=lambda look: -found[look][0])
            self._tables[most] = [(look, *found[look]) for look in ordered[:most]]
        return self._tables[most]

    def lines(self, most: int, counted: Sequence[str], written: Mapping[str, str]) -> tuple[LookLine, ...]:
        """The likeliest looks, and after them those that are counted besides.

        counted: looks as they are written; written: look in full -> how it is written in the book, where otherwise.
        """
        found = {}
        for look, chance, nickname in self.likeliest(most):
            text = written.get(look, look)
            found[text] = LookLine(text, percent(chance), self._closeness(look), nickname)
        for text in counted:
            if text not in found:
                found[text] = self._rare(text)
        return tuple(found.values())

    def _rare(self, text: str) -> LookLine:
        look, unsure = surely(text, self.desk), bool(read_look(text, None, self.desk.catalogue).unsure)
        if not self._odds:
            return LookLine(text, "", Fraction(0))
        chance = self._chance(look, exactly=not unsure)
        note = "these parents cannot give it" if not chance else "with or without what is unsure" if unsure else ""
        return LookLine(text, percent(chance), self._closeness(look), note)

    def _chance(self, look: str, exactly: bool) -> Fraction:
        return sum((one.chance(look, exactly=exactly) for one in self._odds), Fraction(0)) / len(self._odds)

    def _closeness(self, look: str) -> Fraction:
        return look_closeness(self._odds[0], look, self.desk.target, self.desk.without)


def surely(text: str, desk: Desk) -> str:
    """What a look surely shows, in full. Raises GenesError if it cannot be read."""
    seen = read_look(text, None, desk.catalogue).seen
    return write_shown(genome_of(desk.catalogue), {gene: n for part in seen.values() for gene, n in part})
