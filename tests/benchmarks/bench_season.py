"""Times a season's two questions on an invented shed: `python tests/benchmarks/bench_season.py`.

Line-up: one male beside all females, toward a target of six genes. Side by side with it stand the same numbers taken
one pairing at a time from `cross`, with nothing shared. Allotment: all males and females, three targets; beside it the
solver of integer programs alone, given the finished values. The shed has hets, possible hets, genes of one complex, and
animals whose parents are recorded. Answers are compared before anything is timed. Each time is the median of several
runs, each on a collection that was just read.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
from datetime import date
from fractions import Fraction
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from explorer.collection import Collection
from explorer.husbandry import Husbandry
from explorer.pairing import LineUp, cross, nearest, progress
from explorer.planner import allotments
from explorer.planner.allotment_program import first_choice

TODAY = date(2026, 11, 25)
SIX = "Pastel Leopard Enchi Mojave Clown Piebald"
TARGETS = {SIX: 1, "Mojave Mystic Desert Ghost": 2, "Super Pastel Clown Piebald": 1.5}
SHOWING = ("Pastel", "Leopard", "Enchi", "Super Pastel", "Pinstripe", "Orange Dream")
COMPLEX = ("Mojave", "Mystic", "Mojave Mystic", "")
HIDDEN = ("Clown", "Piebald", "Desert Ghost")
LIMITS = {"line-up": 1.0, "allotment": 3.0}
"""Most seconds that each may take with 12 males and 60 females."""


def shed(males, females, seed=1):
    """The text of a collection in which everybody is ready. A third of the females have parents in it."""
    rng = random.Random(f"{males} {females} {seed}")
    rows = ["id,sex,genes,hatched,weight_g,dam,sire", "M00,male,Clown Pastel het Piebald,2018-07-01,900,,"]
    rows += [f"M{i:02},male,{founder(rng)},2018-07-01,900,," for i in range(1, males)]
    genes = [founder(rng) for _ in range(females - females // 3)]
    rows += [f"F{i:02},female,{words},2018-07-01,2000,," for i, words in enumerate(genes)]
    dams = [i for i, words in enumerate(genes) if may_have_plain_daughters(words)]
    for i in range(len(genes), females):
        rows.append(f"F{i:02},female,Normal,2022-07-01,2000,F{rng.choice(dams):02},M00")
    return "\n".join(rows)


def may_have_plain_daughters(words):
    """Whether a daughter of hers and of a Clown male may show nothing."""
    return not any(word in words.replace("het Clown", "") for word in ("Super", "Mystic", "Mojave", "Clown"))


def founder(rng):
    """What one is written down with."""
    shows = rng.sample(SHOWING[:3] if rng.random() < 0.7 else SHOWING[3:], k=rng.choice([0, 1, 1, 2]))
    bel = rng.choice(COMPLEX)
    hidden = [
        rng.choice([gene, f"het {gene}", f"het {gene}", f"66% het {gene}", f"50% het {gene}"])
        for gene in rng.sample(HIDDEN, k=rng.choice([0, 1, 1, 2, 3]))
    ]
    hidden.sort(key=lambda word: "het" in word)
    visible = [word for word in hidden if "het" not in word]
    return " ".join([*visible, *shows, *([bel] if bel else []), *hidden[len(visible) :]]) or "Normal"


def one_by_one(animals, male, care):
    """id -> the numbers of a row, each pairing on its own."""
    found = {}
    for mate in animals:
        if mate.sex == "female":
            odds = cross(mate, animals[male])
            found[mate.id] = (
                odds.chance(SIX),
                odds.chance_in_clutch(SIX, eggs=care.law, hatch_rate=care.hatch_rate),
                odds.expected_in_clutch(SIX, eggs=care.law, hatch_rate=care.hatch_rate),
                tuple(zip(*(odds.top_looks(3)[name] for name in ("look", "fraction")), strict=True)),
                nearest(odds, SIX),
                progress(odds, SIX, eggs=care.law, hatch_rate=care.hatch_rate, lay_rate=care.lay_rate),
            )
    return found


def told(line):
    return {
        r.mate.id: (r.per_egg, r.per_clutch, r.expected, r.likeliest, r.nearest, r.progress) for r in line.rows
    }


def timed(work, text, repeats):
    """Median seconds of `work` on a collection just read, and its last answer; once unmeasured before."""
    times = []
    for _ in range(repeats + 1):
        animals = Collection.from_text(text)
        start = time.perf_counter()
        found = work(animals)
        times.append(time.perf_counter() - start)
    return median(times[1:]), found


def main(arguments=None):
    """Prints a table. Returns 1 if a question took longer than its limit, else 0."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--males", type=int, default=12)
    parser.add_argument("--females", type=int, default=60)
    parser.add_argument("--repeats", type=int, default=3, help="runs of which the median is taken")
    given = parser.parse_args(arguments)
    text = shed(given.males, given.females)
    care = Husbandry(eggs=6, hatch_rate=Fraction(9, 10), lay_rate=Fraction(4, 5))
    mine, line = timed(lambda a: LineUp.of("M00", a, SIX, husbandry=care, today=TODAY), text, given.repeats)
    slow, alone = timed(lambda a: one_by_one(a, "M00", care), text, given.repeats)
    assert told(line) == alone
    best, found = timed(lambda a: allotments(a, TARGETS, husbandry=care, today=TODAY, best=1), text, given.repeats)
    three, _ = timed(lambda a: allotments(a, TARGETS, husbandry=care, today=TODAY, best=3), text, given.repeats)
    shed_ = found.shed
    values = {pair: one.value for pair, one in shed_.couples.items() if one.value and not one.barrier}
    solver, proposed = timed(
        lambda _: first_choice({pair: float(value) for pair, value in values.items()}, shed_.room), text, given.repeats
    )
    assert sum(values[pair] for pair in proposed.items()) <= found.best.value
    rows = [
        (f"line-up of {len(line.rows)} females, 6 genes", mine, ""),
        ("the same numbers one pairing at a time", slow, f"{slow / mine:.1f} times as long"),
        (f"allotment, {len(values)} useful pairings, {len(TARGETS)} targets", best, ""),
        ("allotment with the best three ways", three, f"{three / best:.1f} times as long"),
        ("of it the solver alone", solver, f"{100 * solver / best:.0f} % of the allotment"),
    ]
    print(f"{given.males} males, {given.females} females; {len(found.best.pairings)} pairings made")
    for what, seconds, remark in rows:
        print(f"{what:<52}{seconds:>8.3f} s   {remark}".rstrip())
    kept = mine <= LIMITS["line-up"] and best <= LIMITS["allotment"]
    limits = ", ".join(f"{what} in {limit:g} s" for what, limit in LIMITS.items())
    print(f"\nLimits: {limits}: {'kept' if kept else 'not kept'}.")
    return 0 if kept else 1


if __name__ == "__main__":
    raise SystemExit(main())
