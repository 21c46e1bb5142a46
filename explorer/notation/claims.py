"""What a text says of each gene, before it is asked whether an animal can be like that."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeAlias

from ..catalogue import Gene

__all__ = ["Claim", "Said", "Side", "State"]

State: TypeAlias = Literal["shows", "super", "het"]


@dataclass(frozen=True)
class Claim:
    """A gene with the chance that it is in a state.

    "shows": one copy or more of a gene that one copy of shows, or a recessive gene that shows. "super": two copies of
    a gene that one copy of shows. "het": one copy of a recessive gene that does not show.
    """

    gene: Gene
    state: State
    chance: Fraction = Fraction(1)


@dataclass(frozen=True)
class Side:
    """The sex chromosome that a single copy lies on. second: chance that it is the second one, Y or W.

    maker: whether it was said of what an animal passes on, which is said of the heterogametic sex alone. words: as
    it was written.
    """

    gene: Gene
    second: Fraction
    maker: bool
    words: str


@dataclass
class Said:
    """All that a text says. plain: whether it calls the animal Normal."""

    claims: list[Claim] = field(default_factory=list)
    sides: list[Side] = field(default_factory=list)
    notices: list[str] = field(default_factory=list)
    plain: bool = False
