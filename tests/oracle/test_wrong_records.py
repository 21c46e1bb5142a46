"""Which records are wrong, in random small families with a recessive gene, equals trying every set of wrong records."""

from fractions import Fraction
from random import Random

import pytest

from explorer.collection import Collection
from explorer.collection.blame import FEW, WORTH_NAMING, conflicts
from explorer.collection.clutch import Clutch, Hatchlings
from tests.oracle.wrong_records import founder, wrong_chances, young

FAMILIES, BATCHES = 120, 6
RATE = Fraction(1, 100)
LABELS = {
    "Normal": {0: Fraction(1)},
    "het Clown": {1: Fraction(1)},
    "50% het Clown": {0: Fraction(1, 2), 1: Fraction(1, 2)},
    "Clown": {2: Fraction(1)},
}
VISUAL = {"clown": (("Clown", 2),)}


def family(seed):
    """(rows of the collection file, clutches as the package takes them, clutches as brute force does, animals)"""
    rng = Random(seed)
    rows, beasts, parents = [], [], {}
    for key, sex in (("A", "f"), ("B", "m"), ("C", "m")):
        label = rng.choice([*LABELS])
        rows.append(f"{key},{sex},{label},,,")
        beasts.append(("founder", key, LABELS[label]))
    for key in ("D", "E")[: rng.choice([0, 1, 2])]:
        visual, sire = rng.random() < 0.5, rng.choice("BC")
        rows.append(f"{key},f,{'Clown' if visual else 'Normal'},A,{sire},")
        beasts.append(("young", key, visual, "A", sire))
        parents[key] = ("A", sire)
    book, written = [], {}
    dams = ["A", *(key for key in "DE" if key in parents)]
    for number in range(rng.choice([1, 2, 2])):
        name, dam = f"c{number}", rng.choice(dams)
        sires = rng.choice(["B", "C", "BC"])
        counts = {True: rng.randint(0, 2), False: rng.randint(0, 3)}
        counts = {visual: n for visual, n in counts.items() if n} or {True: 1}
        groups = [Hatchlings("Clown" if v else "Normal", n, None, VISUAL if v else {}) for v, n in counts.items()]
        book.append(Clutch(name, dam, tuple(sires), False, None, None, None, tuple(groups)))
        written[name] = (dam, sires, counts)
    return rows, book, written, beasts, parents


def core_of(conflict, parents):
    found, ahead = set(), [key for one in conflict.clutches for key in (one.dam, *one.sires)] + [*conflict.clashing]
    while ahead:
        key = ahead.pop()
        if key not in found:
            found.add(key)
            ahead += parents.get(key, ())
    return found


@pytest.mark.parametrize("batch", range(BATCHES))
def test_suspects__equal_brute_force(batch):
    for seed in range(batch, FAMILIES, BATCHES):
        rows, book, written, beasts, parents = family(seed)
        animals = Collection.from_text("\n".join(["id,sex,genes,dam,sire,clutch", *rows])).updated(book)
        for conflict in conflicts(animals.knowledge, RATE):
            core = core_of(conflict, parents)
            near = {key: one for key, one in written.items() if core & {one[0], *one[1]}}
            told = [
                founder(one[1], one[2], sure=one[1] not in core) if one[0] == "founder" else young(*one[1:])
                for one in beasts
            ]
            expected = {}
            for key, chance in wrong_chances(told, near, RATE).items():
                if isinstance(key, str):
                    expected[f"the record of {key}"] = chance
                else:
                    look = "Clown" if key[1] else "Normal"
                    expected[f"one hatchling written as {look} in clutch {key[0]}"] = chance
            found = dict(conflict.suspects)
            assert {key: expected[key] for key in found} == found, seed
            likely = {key for key, chance in expected.items() if chance >= WORTH_NAMING}
            assert likely == found.keys() or (not likely and len(found) <= FEW), seed


def test_families__contradict_themselves_often():
    found = 0
    for seed in range(FAMILIES):
        rows, book, *_ = family(seed)
        animals = Collection.from_text("\n".join(["id,sex,genes,dam,sire,clutch", *rows])).updated(book)
        found += bool(conflicts(animals.knowledge, RATE))
    assert found >= FAMILIES / 3
