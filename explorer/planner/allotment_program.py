"""The sharing out of males as an integer program in floating point. The one place where scipy is used."""

from __future__ import annotations

from collections.abc import Mapping

from .allotment_wishes import Pair

__all__ = ["first_choice"]


def first_choice(values: Mapping[Pair, float], room: Mapping[str, int]) -> dict[str, str]:
    """Dam -> sire, of the greatest sum of values as far as floating point tells; a dam that gets no male is not named.

    values: of each pairing that may be made, from 0 to 1. room: how many females each male may have. What is found
    keeps to the limits but may miss the best by a rounding error; it is empty if the solver gives up.
    """
    if not values:
        return {}
    import numpy as np  # here, since the solver takes half a second to load
    from scipy.optimize import LinearConstraint, milp  # type: ignore[import-untyped]
    from scipy.sparse import coo_array  # type: ignore[import-untyped]

    pairs = list(values)
    dams = {dam: row for row, dam in enumerate(dict.fromkeys(dam for dam, _ in pairs))}
    sires = {sire: len(dams) + row for row, sire in enumerate(dict.fromkeys(sire for _, sire in pairs))}
    rows = [row for dam, sire in pairs for row in (dams[dam], sires[sire])]
    columns = [column for column in range(len(pairs)) for _ in range(2)]
    use = coo_array((np.ones(len(rows)), (rows, columns)), shape=(len(dams) + len(sires), len(pairs)))
    limits = [*(1 for _ in dams), *(room[sire] for sire in sires)]
    worth = np.array([values[pair] for pair in pairs])
    found = milp(
        -worth,
        integrality=np.ones(len(pairs)),
        bounds=(0, 1),
        constraints=LinearConstraint(use.tocsr(), ub=limits),
        options={"mip_rel_gap": 0},
    )
    if found.x is None:
        return {}
    left, chosen = dict(room), dict[str, str]()
    for (dam, sire), share in zip(pairs, found.x, strict=True):
        if share > 0.5 and dam not in chosen and left[sire]:
            chosen[dam] = sire
            left[sire] -= 1
    return chosen
