"""Sharing out the males gives what trying every way gives: the same value as a fraction, and the same pairings."""

import random
from datetime import date
from fractions import Fraction

import pytest

from explorer.collection import Collection
from explorer.husbandry import Husbandry
from explorer.pairing import cross, progress
from explorer.planner import allotment_choice, allotments
from explorer.planner.allotment_choice import best_choices
from tests.oracle.allotment_exhaustive import ranked

CASES = 200
BATCHES = 4
TODAY = date(2026, 11, 25)
WORDS = ("Pastel", "Leopard", "Pastel het Clown", "Clown", "66% het Piebald", "Mojave", "Mystic", "Piebald")
TARGETS = ("Pastel Clown", "Leopard Piebald", "Mojave Mystic", "Pastel Leopard", "Super Pastel", "Clown Piebald")


def small_case(rng):
    """A collection of a few animals in any order, some of them parent and child, and their ids by sex."""
    dams, sires = [f"F{i}" for i in range(rng.randint(2, 5))], [f"M{i}" for i in range(rng.randint(1, 3))]
    rows = [f"{key},male,{rng.choice(WORDS)},2019-07-01,900,," for key in sires]
    rows += [f"{key},female,{rng.choice(WORDS)},2019-07-01,2000,," for key in dams]
    if len(dams) > 2:
        rows = [row for row in rows if not row.startswith(("F0", "F1", "M0"))]
        rows += ["M0,male,Clown,2017-07-01,900,,", "F0,female,Pastel,2017-07-01,2000,,"]
        rows.append(f"F1,female,{rng.choice(['het Clown', 'Pastel het Clown'])},2021-07-01,2000,F0,M0")
    rng.shuffle(rows)
    return "\n".join(["id,sex,genes,hatched,weight_g,dam,sire", *rows]), dams, sires


@pytest.mark.parametrize("batch", range(BATCHES))
def test_allotment__equals_every_way_tried(batch):
    tied = unequal = limited = 0
    for seed in range(batch, CASES, BATCHES):
        rng = random.Random(seed)
        text, dams, sires = small_case(rng)
        animals = Collection.from_text(text)
        targets = {t: Fraction(rng.randint(1, 4), 2) for t in rng.sample(TARGETS, k=rng.choice([1, 2, 3]))}
        care = Husbandry(eggs=rng.choice([2, 5]), hatch_rate=rng.choice([1, 0.8]), lay_rate=0.9)
        per_male = {sire: rng.choice([0, 1, 1, 2, 3]) for sire in sires}
        limit = rng.choice([None, 0, Fraction(1, 4)])
        pairs = [(d, s) for d in dams for s in sires]
        forbidden = [pair for pair in pairs if rng.random() < 0.1]
        values = {}
        for dam, sire in pairs:
            kin = animals.inbreeding(dam, sire)
            if (dam, sire) in forbidden or (limit is not None and kin > limit):
                limited += 1
                continue
            odds = cross(animals[dam], animals[sire])
            value = sum(
                w * progress(odds, t, eggs=care.law, hatch_rate=care.hatch_rate, lay_rate=care.lay_rate)
                for t, w in targets.items()
            )
            values[dam, sire] = (value, kin)
        forced = [p for p in values if per_male[p[1]] and rng.random() < 0.08][:1]
        slow = ranked(dams, sires, values, per_male, forced)
        found = allotments(
            animals,
            targets,
            husbandry=care,
            today=TODAY,
            best=4,
            per_male=per_male,
            most_inbreeding=limit,
            forced=forced,
            forbidden=forbidden,
        )
        ways = [{(one.dam, one.sire) for one in way.pairings} for way in found.ways]
        assert ways == [set(way) for way in slow[:4]], f"seed {seed}"
        for way, made in zip(slow, found.ways, strict=False):
            assert made.value == sum(values[pair][0] for pair in way), f"seed {seed}"
        amounts = [way.value for way in found.ways]
        tied += len(set(amounts)) < len(amounts)
        unequal += len(set(amounts)) > 1
    assert tied > 2 and unequal > 10 and limited > 5


def test_choice__the_finish_alone_is_exact(monkeypatch):
    """Whatever the solver proposes, nothing or nonsense, the answer is the same."""
    rng = random.Random(5)
    dams, sires = [f"F{i}" for i in range(5)], ["M0", "M1", "M2"]
    for trial in range(60):
        values = {
            (d, s): (Fraction(rng.randint(1, 4), rng.choice([4, 8])), Fraction(rng.randint(0, 2), 8))
            for d in dams
            for s in sires
            if rng.random() < 0.8
        }
        room = {sire: rng.randint(0, 3) for sire in sires}
        best = [dict(way) for way in ranked(dams, sires, values, room)[:3]]
        for proposal in ({}, first_that_fits(values, room)):
            monkeypatch.setattr(allotment_choice, "first_choice", lambda *_, given=proposal: dict(given))
            assert best_choices(values, room, 3) == best, f"trial {trial}"


def first_that_fits(values, room):
    chosen, left = {}, dict(room)
    for dam, sire in sorted(values, reverse=True):
        if dam not in chosen and left[sire]:
            chosen[dam], left[sire] = sire, left[sire] - 1
    return chosen
