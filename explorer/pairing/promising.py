"""Which hatchling of a pairing a keeper would like best, and which pairings promise most of that."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..catalogue import Effect
from ..collection import Animal
from ..looks import BroodCaution, Stack, Taste, look_cautions, stack_of
from ..notation import read_wanted
from .crossing import cross
from .odds import Offspring

__all__ = ["Promise", "promise", "promises"]

LOOKS_READ = 60
"""How many of the likeliest looks are judged."""

WEIGHED = 4
"""How many of the most promising have their chance in a clutch worked out."""


@dataclass(frozen=True)
class Promise:
    """The hatchling that a pairing promises most of. chance: that a clutch has at least one that looks just so.

    cautions: those that some eggs of the pairing meet.
    """

    look: str
    stack: Stack
    chance: Fraction
    cautions: tuple[BroodCaution, ...] = ()

    @property
    def worth(self) -> Fraction:
        """How good and how likely: the look's score times its chance; 0 for a look no better than wild type."""
        return max(self.stack.score, Fraction(0)) * self.chance


def promise(
    odds: Offspring,
    *,
    eggs: int | Mapping[int, float | Fraction],
    hatch_rate: float | Fraction = 1,
    taste: Taste | None = None,
    opinions: Iterable[Effect] = (),
    allow: Collection[str] = (),
) -> Promise | None:
    """The look with the greatest worth among the 60 likeliest; None if there is none.

    eggs, hatch_rate: of one clutch, as in `Offspring.chance_in_clutch`. allow: genes whose cautions do not keep out;
    other looks that a caution keeps out of plans are passed over. Equal worth goes to the likelier look.
    """
    given = tuple(opinions)
    table = odds.top_looks(LOOKS_READ)
    judged: list[tuple[float, str, Stack]] = []
    for text, chance in zip(table["look"], table["probability"], strict=True):
        look = read_wanted(text, odds.catalogue)
        if any(c.keeps_out and not c.allowed_by(allow) for c in look_cautions(odds.catalogue, look)):
            continue
        stack = stack_of(look, taste=taste, opinions=given, catalogue=odds.catalogue)
        judged.append((max(float(stack.score), 0.0) * (1 - (1 - chance) ** _most(eggs)), text, stack))
    best = sorted(judged, key=lambda item: -item[0])[:WEIGHED]
    found = [
        Promise(text, stack, odds.chance_in_clutch(text, eggs=eggs, hatch_rate=hatch_rate, exactly=True), odds.cautions)
        for _, text, stack in best
    ]
    return max(found, key=lambda one: one.worth, default=None)


def promises(
    pairs: Sequence[tuple[Animal, Animal]],
    *,
    eggs: int | Mapping[int, float | Fraction],
    hatch_rate: float | Fraction = 1,
    taste: Taste | None = None,
    opinions: Iterable[Effect] = (),
    allow: Collection[str] = (),
    progress: Callable[[float, str], None] | None = None,
) -> list[tuple[Animal, Animal, Promise]]:
    """The pairings (dam, sire) by what they promise most of, best first.

    Left out are those that promise nothing, and those of which any egg could meet a caution that keeps it out of plans.

    progress: told the share of the work that is done. Further arguments as in `promise`.
    """
    given = tuple(opinions)
    found = []
    for number, (dam, sire) in enumerate(pairs):
        if progress is not None:
            progress(number / len(pairs), f"{dam.id} with {sire.id}")
        odds = cross(dam, sire)
        if any(item.caution.keeps_out and not item.caution.allowed_by(allow) for item in odds.cautions):
            continue
        best = promise(
            odds, eggs=eggs, hatch_rate=hatch_rate, taste=taste, opinions=given, allow=allow
        )
        if best is not None and best.worth > 0:
            found.append((dam, sire, best))
    return sorted(found, key=lambda one: (-one[2].worth, one[0].id, one[1].id))


def _most(eggs: int | Mapping[int, float | Fraction]) -> int:
    return eggs if isinstance(eggs, int) else max(eggs)
