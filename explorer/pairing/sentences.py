"""What a pairing can give, in plain sentences."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..looks import caution_text
from ..notation import names_in_words
from .nearness import Nearest
from .odds import Offspring
from .wording import number_word, one_in, percent

__all__ = ["Clutch", "lacking_in_words", "look_in_words", "losses_in_words", "names_in_words"]


@dataclass(frozen=True)
class Clutch:
    """What chances in a clutch are reckoned with. eggs: laid; hatch_rate: share of viable eggs that hatch."""

    eggs: int
    hatch_rate: Fraction

    def chance(self, odds: Offspring, look: str, without: Sequence[str] = ()) -> Fraction:
        """Chance that at least one hatchling of the clutch shows the look."""
        return odds.chance_in_clutch(look, eggs=self.eggs, hatch_rate=self.hatch_rate, without=without)

    def expected(self, odds: Offspring, look: str, without: Sequence[str] = ()) -> Fraction:
        """Mean number of hatchlings of the clutch that show the look."""
        return odds.expected_in_clutch(look, eggs=self.eggs, hatch_rate=self.hatch_rate, without=without)

    def __str__(self) -> str:
        return f"a clutch of {'one egg' if self.eggs == 1 else number_word(self.eggs)}"


def look_in_words(odds: Offspring, look: str, clutch: Clutch, without: Sequence[str] = ()) -> str:
    """"1 in 8 shows Leopard Desert Ghost. A clutch of six has it with a chance of 55 %."."""
    chance = odds.chance(look, without=without)
    but = f" and not {names_in_words(without, 'or')}" if without else ""
    if chance == 0:
        return f"No hatchling shows {look}{but}."
    said = one_in(chance)
    verb = "shows" if said.removeprefix("about ").removeprefix("all but about ").startswith("1 in") else "show"
    start = f"Every hatchling shows {look}{but}." if chance == 1 else f"{said} {verb} {look}{but}."
    rest = f"{str(clutch).capitalize()} has it with a chance of {percent(clutch.chance(odds, look, without))}."
    return f"{start[0].upper()}{start[1:]} {rest}"


def lacking_in_words(found: Nearest, without: Sequence[str] = ()) -> str:
    """What a pairing lacks of a target: "Pinstripe is missing"; "" if nothing."""
    if not found.missing:
        return ""
    if found.alone:
        return f"{names_in_words(found.alone)} {'is' if len(found.alone) == 1 else 'are'} missing"
    if found.shut_out:
        return f"every hatchling that shows the target also shows {names_in_words(without, 'or')}"
    return f"{names_in_words(found.missing)} cannot come together with the rest of the target"


def losses_in_words(odds: Offspring) -> str:
    """What part of the eggs cannot hatch, and why; "" if all may."""
    if odds.viable == 1:
        return ""
    share = 1 - odds.viable
    eggs = "Every egg" if share == 1 else f"{one_in(share)} eggs"
    verb = "does not hatch" if share == 1 or share.numerator == 1 else "do not hatch"
    why = [item.caution for item in odds.cautions if item.caution.severity == "not viable"]
    reasons = "; ".join(caution_text(caution) for caution in why)
    return f"{eggs} {verb}{f': {reasons}' if reasons else ''}"
