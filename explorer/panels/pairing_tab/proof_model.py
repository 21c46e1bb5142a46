"""What hatchlings of a pairing would prove of its parents, in words and lines. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from ...pairing import Offspring, names_in_words, number_word, percent
from ...pairing.proving import Proof, proofs
from ...pictures.proving import Doubt

__all__ = ["ProvingOut"]

MOST_LINES = 3
"""How many doubts are drawn and spelled out, the greatest first."""

MOST_HATCHLINGS = 20


class ProvingOut:
    """The doubts about one pair. names: role -> id and name."""

    def __init__(self, odds: Offspring, names: dict[str, str]) -> None:
        self._names = names
        self._proofs = sorted(proofs(odds), key=lambda one: abs(one.chance * 2 - 1))

    @property
    def doubts(self) -> tuple[Doubt, ...]:
        """The lines to draw; none if nothing is in doubt that hatchlings can show."""
        return tuple(
            Doubt(f"{self._names[one.role]} {one.claim}", one.silence, one.chances(MOST_HATCHLINGS))
            for one in self._proofs[:MOST_LINES]
        )

    @property
    def lines(self) -> tuple[str, ...]:
        """Each doubt in a sentence or two."""
        more = len(self._proofs) - MOST_LINES
        said = [self._said(one) for one in self._proofs[:MOST_LINES]]
        return (*said, *([f"And {number_word(more)} more doubts that hatchlings could end."] if more > 0 else []))

    def _said(self, one: Proof) -> str:
        who = names_in_words([self._names[role] for role in one.proves])
        sure, surer = one.needed(0.95), one.needed(0.99)
        if sure is None:
            rest = "With this mate no number of others can rule it out to 95 %, since the mate may lack what it takes."
        else:
            last = f", to 99 % after {number_word(surer)}" if surer is not None else ""
            rest = f"If {one.silence}, it is ruled out to 95 % after {number_word(sure)} hatchlings{last}."
        chance = percent(one.chance)
        proof = f"One hatchling that {one.telling} proves it of {who}."
        return f"{self._names[one.role]} {one.claim} with a chance of {chance}. {proof} {rest}"
