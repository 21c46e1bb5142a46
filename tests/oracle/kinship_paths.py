"""Slow and obvious: kinship by Wright's path counting (1922), and pedigrees written as plain lines.

Shares no code with the package. A pedigree is a dict: animal -> (dam, sire), None for one that is not recorded.
"""

from fractions import Fraction
from itertools import product

HALF = Fraction(1, 2)


def family(text):
    """A pedigree from lines "animal = dam x sire", "-" for an unknown parent; whoever has no line is a founder."""
    pedigree = {}
    for line in filter(str.strip, text.splitlines()):
        animal, parents = (part.strip() for part in line.split("="))
        pedigree[animal] = tuple(None if name.strip() == "-" else name.strip() for name in parents.split(" x "))
    named = [name for pair in pedigree.values() for name in pair if name is not None]
    return {**{name: (None, None) for name in named if name not in pedigree}, **pedigree}


def lines_up(pedigree, animal):
    """Every line of descent that ends in the animal, upward: (animal,), (animal, dam), (animal, dam, her dam), ..."""
    yield (animal,)
    for parent in pedigree[animal]:
        if parent is not None:
            for line in lines_up(pedigree, parent):
                yield (animal, *line)


def inbreeding(pedigree, animal):
    dam, sire = pedigree[animal]
    return Fraction(0) if dam is None or sire is None else kinship(pedigree, dam, sire)


def kinship(pedigree, one, two):
    """The sum over common ancestors, and pairs of lines to them that share no other animal."""
    if one == two:
        return HALF * (1 + inbreeding(pedigree, one))
    return sum(
        (
            HALF ** (len(mine) + len(other) - 1) * (1 + inbreeding(pedigree, mine[-1]))
            for mine, other in product(lines_up(pedigree, one), lines_up(pedigree, two))
            if mine[-1] == other[-1] and not set(mine[:-1]) & set(other[:-1])
        ),
        Fraction(0),
    )
