"""The best ways to share out males among females, found by trying every one. Shares no code with the package."""

from fractions import Fraction
from itertools import product

__all__ = ["every_way", "ranked"]


def every_way(dams, sires, pairs, room):
    """All ways as frozen sets of pairs. pairs: those that may be made; room: sire -> most females."""
    for chosen in product(*([None, *(s for s in sires if (d, s) in pairs)] for d in dams)):
        if all(chosen.count(sire) <= room[sire] for sire in sires):
            yield frozenset((d, s) for d, s in zip(dams, chosen, strict=True) if s is not None)


def ranked(dams, sires, values, room, forced=()):
    """Every way that has the forced pairs, best first: by value, by least kinship, and by its pairs in order of ids.

    values: pair -> (value, kinship); only pairs with a value, and those that are forced, are made.
    """
    usable = {pair for pair, (value, _) in values.items() if value > 0} | set(forced)
    ways = [way for way in every_way(dams, sires, usable, room) if set(forced) <= way]
    places = sorted(values)

    def key(way):
        total = sum((values[pair][0] for pair in way), Fraction(0))
        kin = sum((values[pair][1] for pair in way), Fraction(0))
        return -total, kin, [pair not in way for pair in places]

    return sorted(ways, key=key)
