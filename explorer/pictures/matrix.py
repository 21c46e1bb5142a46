"""Who helps whom, as a square of shaded cells: each two genes once above and once below the diagonal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..looks import caution_text
from ..looks.pairs import GenePair

__all__ = ["LEGEND", "matrix_cells", "matrix_in_words", "pair_in_words"]

HELPS, NEITHER, SPOILS, UNKNOWN = (0x8C, 0x9C, 0xE2), (0xF4, 0xF3, 0xEF), (0xDC, 0x98, 0x4A), "#ffffff"
"""Blue to ochre, told apart whatever colours an eye can see; all light enough for dark signs."""

FULL = 8
"""The net strength from which on a shade is at its fullest."""

MUCH = 4
"""The net strength from which on a sign is doubled."""

FORM, NOT_KNOWN, DEADLY = "◇", "?", "†"

Pairs = Mapping[frozenset[str], GenePair]


def matrix_cells(genes: Sequence[str], pairs: Pairs) -> list[list[dict[str, str] | None]]:
    """One row a gene, one cell for each other gene: sign, word, shade (#rrggbb) and title; None on the diagonal.

    pairs: has each two of the genes.
    """
    return [[_cell(pairs[frozenset((row, column))]) if row != column else None for column in genes] for row in genes]


def matrix_in_words(genes: Sequence[str], pairs: Pairs) -> str:
    """The same as text, the strongest first, for those who do not see the cells."""
    found = [pairs[frozenset((a, b))] for i, a in enumerate(genes) for b in genes[i + 1 :]]
    told = sorted((pair for pair in found if pair.net), key=lambda pair: -abs(pair.net or Fraction(0)))
    lists = {
        "help each other": [_short(pair) for pair in told if (pair.net or 0) > 0],
        "spoil each other": [_short(pair) for pair in told if (pair.net or 0) < 0],
        "make one form": [" and ".join(pair.genes) for pair in found if pair.compound],
        "covering": [f"{' and '.join(pair.over)} in {pair.stack.text}" for pair in found if pair.over],
    }
    said = [f"{what}: {', '.join(names)}" for what, names in lists.items() if names]
    return "; ".join(said) or "no two of these genes help or spoil each other"


def pair_in_words(pair: GenePair) -> str:
    """One cell as a sentence."""
    if not pair.viable:
        said = "one complex, recorded as not viable together"
    elif pair.compound:
        said = "one complex, they make one form together"
    elif pair.net is None:
        said = "what they do to each other is not established"
    elif not pair.net:
        said = "they neither help nor spoil each other, or do as much of both"
    else:
        said = f"they {'help' if pair.net > 0 else 'spoil'} each other, net strength {_signed(pair.net)}"
    covers = f"; {' and '.join(pair.over)} covers part of what is seen" if pair.over else ""
    cautions = "".join(f"; caution: {caution_text(one)}" for one in pair.stack.cautions)
    return f"{' and '.join(pair.genes)}: {said}{covers}{cautions}"


def _cell(pair: GenePair) -> dict[str, str]:
    word = " ".join([*(["covers"] if pair.over else []), *(["caution"] if pair.stack.cautions else [])])
    return {"sign": _sign(pair), "word": word, "shade": _shade(pair.net), "title": pair_in_words(pair)}


def _sign(pair: GenePair) -> str:
    if not pair.viable:
        return DEADLY
    if pair.net is None:
        return FORM if pair.compound else NOT_KNOWN
    sign = "+" if pair.net > 0 else "−" if pair.net < 0 else "·"
    return sign * (2 if abs(pair.net) >= MUCH else 1)


def _shade(net: Fraction | None) -> str:
    if net is None:
        return UNKNOWN
    share = min(1.0, abs(float(net)) / FULL)
    end = HELPS if net > 0 else SPOILS
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in zip(NEITHER, end, strict=True))


def _short(pair: GenePair) -> str:
    return f"{' and '.join(pair.genes)} ({_signed(pair.net or Fraction(0))})"


def _signed(net: Fraction) -> str:
    return f"{float(net):+g}".replace("-", "−")


LEGEND: tuple[tuple[str, str, str], ...] = (
    ("++", _shade(Fraction(FULL)), f"help each other much (net {MUCH} or more)"),
    ("+", _shade(Fraction(2)), "help each other"),
    ("·", _shade(Fraction(0)), "neither, or as much of both"),
    ("−", _shade(Fraction(-2)), "spoil each other"),
    ("−−", _shade(Fraction(-FULL)), f"spoil each other much (net −{MUCH} or more)"),
    (FORM, UNKNOWN, "one complex: they make one form"),
    (DEADLY, UNKNOWN, "one complex: recorded as not viable together"),
    (NOT_KNOWN, UNKNOWN, "not established"),
    ("covers", UNKNOWN, "one hides part of the other"),
    ("caution", UNKNOWN, "a welfare caution: choose the cell to read it"),
)
"""Sign or word, shade and meaning."""
