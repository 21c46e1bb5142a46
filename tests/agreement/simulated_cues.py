"""Animals and keepers' answers by dice, and the chances behind both, from the facts file and `explorer.stack` alone.

Shares nothing with the reading of animals. A genotype is a tuple of sorted allele pairs, one a locus, "" for wild.
The two laws of a locus, allele -> chance, are those of the egg and of the sperm. No linkage, and no sex.
"""

import math
import tomllib
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from itertools import product
from pathlib import Path

import explorer as ex

FACTS = Path(__file__).parents[2] / "explorer" / "catalogue" / "facts" / "python_regius" / "cues.toml"

RECESSIVE = {"Clown", "Piebald"}
LETHAL = {("Spider", "Spider"), ("Champagne", "Champagne")}


@dataclass(frozen=True)
class Cue:
    """curve: chance at -3 to 3 of a quality. forms: (gene, copies, chance); otherwise: the chance without them."""

    key: str
    quality: str | None
    curve: tuple
    forms: tuple
    otherwise: object


@dataclass(frozen=True)
class Case:
    """Where animals come from. origin: what to tell the reader of it."""

    name: str
    loci: tuple
    origin: dict


def cues_of_the_facts():
    facts = tomllib.loads(FACTS.read_text(encoding="utf-8"), parse_float=Fraction)
    return [
        Cue(
            entry["key"],
            entry.get("quality"),
            tuple(entry.get("curve", ())),
            tuple((form["gene"], form.get("copies", 1), form["chance"]) for form in entry.get("shown_by", ())),
            entry.get("otherwise"),
        )
        for entry in facts["cue"]
    ]


def from_parents(*loci):
    """loci: for each, the dam's and the sire's two alleles."""
    laws = tuple(tuple(_gametes(pair) for pair in pairs) for pairs in loci)
    dam, sire = (shorthand([pairs[i] for pairs in loci]) for i in (0, 1))
    return Case(f"{dam} x {sire}", laws, {"dam": dam, "sire": sire})


def from_candidates(*places):
    """places: for each locus, gene -> frequency."""
    frequencies = {gene: share for place in places for gene, share in place.items()}
    laws = tuple((_unknown(place), _unknown(place)) for place in places)
    return Case("candidates " + ", ".join(frequencies), laws, {"candidates": frequencies})


def from_one_parent(role, *loci):
    """loci: for each, the two alleles of the parent in that role, and the gene -> frequency of the other's."""
    known = shorthand([pair for pair, _ in loci])
    frequencies = {gene: share for _, place in loci for gene, share in place.items()}
    laws = tuple((_gametes(pair), _survivors(place)) for pair, place in loci)
    return Case(f"{role} {known}", laws, {role: known, "candidates": frequencies})


def shorthand(pairs):
    words = []
    for one, two in pairs:
        if one and one == two:
            words.append(one if one in RECESSIVE else f"Super {one}")
        else:
            words += [f"het {gene}" if gene in RECESSIVE else gene for gene in (one, two) if gene]
    return " ".join(sorted(words, key=lambda word: word.startswith("het "))) or "Normal"


def genes_in(genotype):
    return {gene for pair in genotype for gene in pair if gene}


def chances_of_genotypes(case):
    """Every viable genotype with its chance; egg and sperm multiplied out."""
    found = {}
    for chosen in product(*(product(egg.items(), sperm.items()) for egg, sperm in case.loci)):
        genotype = tuple(tuple(sorted((one, two))) for (one, _), (two, _) in chosen)
        if not LETHAL & set(genotype):
            found[genotype] = found.get(genotype, 0) + math.prod(p * q for (_, p), (_, q) in chosen)
    total = sum(found.values())
    return {genotype: chance / total for genotype, chance in found.items()}


def hatchling(rng, case):
    while True:
        genotype = tuple(tuple(sorted((_thrown(rng, egg), _thrown(rng, sperm)))) for egg, sperm in case.loci)
        if not LETHAL & set(genotype):
            return genotype


def outcomes(cues, genotype):
    """For each quality, and for each cue without one: [(key of the cue that is seen or None, chance)]."""
    look, groups = _stack(shorthand(genotype)), {}
    for cue in cues:
        groups.setdefault(cue.quality or cue.key, []).append((cue.key, _chance(cue, look)))
    return [[*seen, (None, max(0, 1 - sum(chance for _, chance in seen)))] for seen in groups.values()]


def likelihood(groups, answers):
    """The chance of the answers: what is compatible with them, summed within groups and multiplied over them."""
    return math.prod(
        sum(chance for seen, chance in group if all(answers.get(k, k == seen) == (k == seen) for k, _ in group))
        for group in groups
    )


def answered(rng, cues, genotype, asked):
    """Cue key -> whether a keeper says to see it."""
    seen = {
        rng.choices([key for key, _ in group], [float(chance) for _, chance in group])[0]
        for group in outcomes(cues, genotype)
    }
    return {key: key in seen for key in asked}


def perturbed(rng, cues, spread):
    """The same cues with normal noise on the logit of every chance."""

    def off(chance):
        return 1 / (1 + math.exp(-math.log(chance / (1 - chance)) - rng.gauss(0, spread)))

    return [
        replace(
            cue,
            curve=tuple(off(chance) for chance in cue.curve),
            forms=tuple((gene, copies, off(chance)) for gene, copies, chance in cue.forms),
            otherwise=None if cue.quality else off(cue.otherwise),
        )
        for cue in cues
    ]


def flipped(rng, cues, answers, share):
    """This share of the answers turned round; a cue that is now seen stands in for another on its quality."""
    quality = {cue.key: cue.quality for cue in cues}
    found = dict(answers)
    for key in answers:
        if rng.random() < share:
            found[key] = not found[key]
            if found[key] and quality[key]:
                found |= {other: False for other in found if other != key and quality[other] == quality[key]}
    return found


def _gametes(pair):
    return {gene: Fraction(pair.count(gene), 2) for gene in dict.fromkeys(pair)}


def _unknown(place):
    return {"": 1 - sum(place.values(), Fraction(0)), **place}


def _survivors(place):
    """What a parent of unknown origin hands on: two chromosomes drawn at random, if it lives, and half of them."""
    law, found = _unknown(place), {}
    for (one, p), (two, q) in product(law.items(), repeat=2):
        if (one, two) not in LETHAL:
            for gene in (one, two):
                found[gene] = found.get(gene, 0) + p * q / 2
    return {gene: chance / sum(found.values()) for gene, chance in found.items()}


def _thrown(rng, law):
    return rng.choices(list(law), [float(chance) for chance in law.values()])[0]


@lru_cache(maxsize=1024)
def _stack(text):
    return ex.stack(text)


def _chance(cue, look):
    if cue.quality:
        value = look.value(cue.quality)
        if value is None:
            return sum(cue.curve) / 7
        low = min(math.floor(value), 2)
        return cue.curve[low + 3] + (value - low) * (cue.curve[low + 4] - cue.curve[low + 3])
    covering = {gene for layer in look.layers if "all" in layer.covers for gene in layer.genes}
    without = [
        1 - chance
        for gene, copies, chance in cue.forms
        if look.look.get(gene, 0) >= copies and (not covering or gene in covering)
    ]
    return max(1 - math.prod(without), cue.otherwise)
