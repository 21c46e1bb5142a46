"""Pretend clutches agree with the exact chances.

4,000 clutches a case, seeds 0 to 3,999. A share over n clutches has a standard error of at most 1/2 / sqrt(n) = .0079;
the tolerance is .03, nearly four of them, and the seeds are fixed. `naive` is the answer of whoever takes the eggs of
a clutch as independent; where it differs, the draws must tell it from the right one.
"""

import pytest

from explorer.pairing import cross, pretend_clutch

CLUTCHES = 4000
TOLERANCE = 0.03


def shares(odds, target, fewest, **law):
    """Share of pretend clutches with at least each number of hatchlings that show the target; and of viable eggs."""
    counts, eggs, viable = [0] * len(fewest), 0, 0
    for seed in range(CLUTCHES):
        clutch = pretend_clutch(odds, seed=seed, target=target, **law)
        hits = sum(egg.shows_target for egg in clutch)
        eggs, viable = eggs + len(clutch), viable + sum(egg.viable for egg in clutch)
        for i, number in enumerate(fewest):
            counts[i] += hits >= number
    return [count / CLUTCHES for count in counts], viable / eggs


@pytest.mark.parametrize(
    ("dam", "sire", "target", "law", "naive"),
    [
        pytest.param("Pastel het Clown", "het Clown", "Pastel Clown", {"eggs": 6}, None, id="certain parents"),
        pytest.param("66% het Clown", "Clown", "Clown", {"eggs": 6}, 1 - (2 / 3) ** 6, id="an uncertain parent"),
        pytest.param(
            "50% het Clown", "50% het Clown", "Clown", {"eggs": 10}, 1 - (15 / 16) ** 10, id="two uncertain parents"
        ),
        pytest.param(
            "Spider Pastel", "Spider", "Spider", {"eggs": 2, "hatch_rate": 0.8}, None, id="a lethal, lost eggs"
        ),
        pytest.param(
            "Banana", "Banana", "Super Banana", {"eggs": {3: 0.5, 5: 0.5}}, None, id="unknown phase, clutch sizes"
        ),
    ],
)
def test_pretend_clutches__agree_with_chance_in_clutch(dam, sire, target, law, naive):
    odds = cross(dam, sire)
    fewest = (1, 2)
    found, viable = shares(odds, target, fewest, **law)
    for share, number in zip(found, fewest, strict=True):
        exact = odds.chance_in_clutch(target, at_least=number, **law)
        assert 0 < exact < 1
        assert abs(share - float(exact)) < TOLERANCE, f"at least {number}"
    assert abs(viable - float(odds.viable)) < TOLERANCE
    if naive is not None:
        assert abs(found[0] - naive) > 5 * TOLERANCE
