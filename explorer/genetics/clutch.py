"""From one egg to a clutch: how many eggs there are, and how many of them are what is wanted."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from math import comb
from numbers import Integral

__all__ = ["EggLaw", "at_least", "egg_law", "exact", "expected_eggs", "none_of"]

ROUNDING = Fraction(1, 10**9)

EggLaw = Mapping[int, Fraction]
"""Number of eggs laid -> probability; sums to 1."""


def exact(number: float | int | str | Fraction) -> Fraction:
    """The number as a fraction; a float stands for the decimal that is written for it (0.81 is 81/100).

    Raises ValueError if it is not a number.
    """
    try:
        return number if isinstance(number, Fraction) else Fraction(str(number))
    except (ValueError, ZeroDivisionError):
        raise ValueError(f"a number is needed, such as 0.81 or 3/4, found {number!r}") from None


def egg_law(eggs: int | Mapping[int, float | Fraction]) -> dict[int, Fraction]:
    """A fixed clutch size, or size -> chance, as a distribution.

    Chances given as floats may miss 1 by rounding and are then scaled. Raises ValueError if a size is not a whole
    number from 0 or the chances do not sum to 1.
    """
    law = {n: exact(chance) for n, chance in eggs.items()} if isinstance(eggs, Mapping) else {eggs: Fraction(1)}
    for n, chance in law.items():
        if not isinstance(n, int | Integral) or isinstance(n, bool) or n < 0:
            raise ValueError(f"a clutch has a whole number of eggs from 0 up, found {n!r}")
        if not 0 <= chance <= 1:
            raise ValueError(f"the chance of {n} eggs lies from 0 to 1, found {chance}")
    total = sum(law.values(), Fraction(0))
    if isinstance(eggs, Mapping) and abs(total - 1) < ROUNDING and any(isinstance(c, float) for c in eggs.values()):
        law = {n: chance / total for n, chance in law.items()}
    elif total != 1:
        raise ValueError(f"the chances of the clutch sizes must sum to 1, found {total}")
    return {int(n): chance for n, chance in law.items() if chance}


def expected_eggs(law: EggLaw) -> Fraction:
    """Mean number of eggs laid."""
    return sum((n * chance for n, chance in law.items()), Fraction(0))


def none_of(law: EggLaw, q: Fraction) -> Fraction:
    """Chance that a clutch holds no egg of a kind that each egg is with chance q: the generating function at 1 - q."""
    return sum((chance * (1 - q) ** n for n, chance in law.items()), Fraction(0))


def at_least(rates: Mapping[Fraction, Fraction], law: EggLaw, wanted: int) -> Fraction:
    """Chance that at least `wanted` eggs of one clutch are of a kind.

    rates: chance per egg -> weight; more than one if the parents' true genotypes are uncertain, since all eggs of
        a clutch share them.
    """
    total = Fraction(0)
    for q, weight in rates.items():
        for n, chance in law.items():
            fewer = sum(
                (comb(n, k) * q**k * (1 - q) ** (n - k) for k in range(min(wanted, n + 1))), Fraction(0)
            )
            total += weight * chance * (1 - fewer)
    return total
