"""Slow and obvious: which records are wrong, at one recessive gene: every genotype, every set of wrong records.

Shares no code with the package. A record is wrong with a rate, independently. A founder's wrong label hides 0, 1 or 2
copies, each as likely; any other wrong record is of a visual written as normal, or of a normal written as visual.
"""

from fractions import Fraction
from itertools import product

__all__ = ["founder", "wrong_chances", "young"]


def founder(key, label, tests=(), sure=False):
    """label: copies -> chance; tests: (copies found, error); sure: whether its label is right for certain."""
    return {"key": key, "label": label, "parents": None, "tests": tests, "sure": sure}


def young(key, visual, dam, sire, tests=()):
    """An animal with parents. visual: whether it is written as showing the gene."""
    return {"key": key, "visual": visual, "parents": (dam, sire), "tests": tests}


def egg(dam, sire):
    """Copies -> chance."""
    p, q = Fraction(dam, 2), Fraction(sire, 2)
    return {0: (1 - p) * (1 - q), 1: p + q - 2 * p * q, 2: p * q}


def wrong_chances(animals, clutches, rate):
    """Record -> chance that it is wrong: animal's key, (key, number of its test), or (clutch, visual) for any of these.

    clutches: key -> (dam, sires of whom one is the sire, rows as visual -> number).
    """
    total, wrong = Fraction(0), {}
    ways = [(key, sire) for key, (_, sires, _) in clutches.items() for sire in sires]
    choices = product(*([way for way in ways if way[0] == key] for key in clutches))
    for chosen in [dict(one) for one in choices]:
        for copies in product(range(3), repeat=len(animals)):
            at = dict(zip([one["key"] for one in animals], copies, strict=True))
            base, records = Fraction(1), []
            for one in animals:
                has = at[one["key"]]
                if one["parents"] is None:
                    doubt = 0 if one["sure"] else rate
                    records.append((one["key"], (1 - doubt) * one["label"].get(has, 0), Fraction(doubt) / 3))
                else:
                    base *= egg(*(at[parent] for parent in one["parents"]))[has]
                    fits = one["visual"] == (has == 2)
                    records.append((one["key"], (1 - rate) * fits, rate * (not fits)))
                for number, (found, error) in enumerate(one["tests"]):
                    fits = found == has
                    records.append(((one["key"], number), (1 - error) * fits, error / 2 * (not fits)))
            for key, (dam, sires, rows) in clutches.items():
                base *= Fraction(1, len(sires))
                shows = egg(at[dam], at[chosen[key]])[2]
                for visual, number in rows.items():
                    chance = shows if visual else 1 - shows
                    right = ((1 - rate) * chance) ** number
                    any_wrong = ((1 - rate) * chance + rate * (1 - chance)) ** number - right
                    records.append(((key, visual), right, any_wrong))
            weight = base
            for _, right, other in records:
                weight *= right + other
            total += weight
            for name, right, other in records:
                if weight:
                    wrong[name] = wrong.get(name, 0) + weight * other / (right + other)
    return {name: chance / total for name, chance in wrong.items()}
