"""Chances as a keeper reads them: "12.5 %", "1 in 8", "six". The one place where a chance is rounded for the eye."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

__all__ = ["bits_text", "gain_text", "mean_text", "number_word", "one_in", "percent", "score_text", "times_text"]

_WORDS = (
    *("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
    *("thirteen", "fourteen", "fifteen"),
)
_LARGEST_EXACT = 1024
"""Fractions with a larger denominator are said as "about 1 in ..."."""

_CLOSE = Fraction(1, 10**12)


def percent(chance: Fraction | float) -> str:
    """The chance as a percentage: "12.5 %", "33 %", "<0.1 %".

    Whole from 10 to 90 % unless one decimal is exact, else one decimal; "0 %" and "100 %" only if exact.
    """
    share = _share(chance)
    if share in (0, 1):
        return f"{int(share * 100)} %"
    hundred = share * 100
    if hundred < Fraction(1, 10):
        return "<0.1 %"
    if hundred > Fraction(999, 10):
        return ">99.9 %"
    exact = (hundred * 10).denominator == 1
    text = _rounded(hundred, "0.1" if exact or not 10 <= hundred <= 90 else "1")
    return f"{text.removesuffix('.0')} %"


def one_in(chance: Fraction | float) -> str:
    """The chance as counted cases: "1 in 8", "21 in 32", "about 1 in 2,300"; "every one", "none" if exact."""
    share = _share(chance)
    if share == 1:
        return "every one"
    if share == 0:
        return "none"
    if share.denominator <= _LARGEST_EXACT:
        return f"{share.numerator:,} in {share.denominator:,}"
    if share > Fraction(19, 20):
        return f"all but about 1 in {_short(1 / (1 - share))}"
    near = share.limit_denominator(20)
    if share * 10 < 1 or not near:
        return f"about 1 in {_short(1 / share)}"
    return f"about {near.numerator} in {near.denominator}"


def mean_text(mean: Fraction | float) -> str:
    """A mean number of hatchlings, to two decimals: "0.75", "<0.01"; "0" only if exact."""
    if mean == 0:
        return "0"
    if mean < 0.01:
        return "<0.01"
    text = _rounded(Fraction(mean), "0.01")
    return text.rstrip("0").rstrip(".")


def score_text(score: Fraction, short: bool = False) -> str:
    """How well a look meets a taste, from -3 to 3: "meets your taste 1.8 of 3"; short: "1.8 of 3"."""
    number = _rounded(abs(score), "0.1").removesuffix(".0")
    text = f"{'−' if score < 0 and number != '0' else ''}{number} of 3"
    return text if short else f"meets your taste {text}"


def gain_text(gain: Fraction) -> str:
    """How much better a look meets a taste than before: "+0.64 of 3", "−0.2 of 3", "0 of 3"."""
    number = _rounded(abs(gain), "0.01").rstrip("0").rstrip(".")
    sign = "" if number in ("0", "") else "+" if gain > 0 else "−"
    return f"{sign}{number or '0'} of 3"


def bits_text(bits: float) -> str:
    """An amount of information: "0.43 bits"."""
    return f"{bits:.2f} bits"


def times_text(factor: Fraction) -> str:
    """How many times likelier: "2.5 times", "20 times"."""
    number = _rounded(factor, "0.1" if factor < 10 else "1").removesuffix(".0")
    return f"{number} times"


def number_word(number: int) -> str:
    """A count in a sentence: "six", and figures from 16."""
    return _WORDS[number] if 0 <= number < len(_WORDS) else f"{number:,}"


def _share(chance: Fraction | float) -> Fraction:
    """The chance as a fraction; a float that is a simple fraction but for rounding becomes that fraction."""
    exact = Fraction(chance)
    if not 0 <= exact <= 1:
        raise ValueError(f"a chance lies from 0 to 1, found {chance}")
    if isinstance(chance, float):
        near = exact.limit_denominator(_LARGEST_EXACT)
        if abs(near - exact) < _CLOSE and (near not in (0, 1) or near == exact):
            return near
    return exact


def _rounded(value: Fraction, step: str) -> str:
    return str((Decimal(value.numerator) / Decimal(value.denominator)).quantize(Decimal(step), ROUND_HALF_UP))


def _short(number: Fraction) -> str:
    """The whole number nearest to this, to two significant digits from 100 up."""
    whole = round(number)
    return f"{whole:,}" if whole < 100 else f"{round(whole, 2 - len(str(whole))):,}"
