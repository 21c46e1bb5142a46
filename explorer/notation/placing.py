"""From what is said of each gene to the alleles that an animal can have at one locus."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TypeAlias

from ..genetics import WILD, Genome
from .claims import Claim, State
from .errors import ImpossibleGenes
from .figures import percent

__all__ = ["Pair", "pairs", "settled"]

Pair: TypeAlias = tuple[str, str]
"""The two alleles of a locus, in no order. Where there is one chromosome with the locus, the second is wild."""


def settled(text: str, claims: Sequence[Claim], genome: Genome) -> tuple[list[Claim], list[str]]:
    """The claims on one locus as visible and hidden copies, at most one claim a gene and state, and notices.

    Certain carriers of two different alleles show, so they are turned into visible copies. "Super" with a chance says
    that the gene shows. Raises ImpossibleGenes if the claims on one gene clash, or if three alleles are named.
    """
    seen: dict[tuple[str, State], Claim] = {}
    for claim in claims:
        name, state = claim.gene.name, claim.state
        other = seen.get((name, "super" if state == "shows" else "shows"))
        if (name, state) in seen or (other is not None and state != "het" and other.chance == claim.chance == 1):
            advice = f'write "het {name}" once' if state == "het" else f'write "{_twice(claim)}" if it has two copies'
            raise ImpossibleGenes(text, f"{name} named twice", "each gene once", f"{advice}, else name it once")
        seen[name, state] = claim
    for (name, state), claim in list(seen.items()):
        if state == "het" and (name, "shows") in seen and 1 in (claim.chance, seen[name, "shows"].chance):
            needed = "one of the two: a gene that shows has two copies, and a het has one"
            raise ImpossibleGenes(text, f"{name} as het and as visible", needed, f"leave out one {name}")
        if state == "super" and (name, "shows") not in seen and claim.chance < 1:
            seen[name, "shows"] = Claim(claim.gene, "shows")
        if state == "super" and (name, "shows") in seen and claim.chance > seen[name, "shows"].chance:
            found = f"{name} less likely than two copies of it"
            raise ImpossibleGenes(text, found, "a chance of the gene that includes two copies", "mend the percentages")
    certain = {claim.gene.name: claim for claim in seen.values() if claim.chance == 1}
    doubled = [name for name, claim in certain.items() if claim.state == "super"]
    hidden = [name for name, claim in certain.items() if claim.state == "het"]
    visible = [claim for claim in certain.values() if claim.state == "shows"]
    names = sorted(certain, key=genome.rank.__getitem__)
    if len(names) == 2 and hidden and visible and visible[0].gene.recessive:
        doubled = [visible[0].gene.name]
    if len(names) > 2 or (doubled and len(names) > 1):
        both = f'write "{" ".join(names)}" if it has one copy of each, which shows'
        raise _three_alleles(text, names, doubled, genome, both if len(names) == 2 else "name at most two of them")
    if len(names) == 2 and hidden:
        found = " ".join(f"het {name}" if name in hidden else name for name in certain)
        notice = f'"{found}" is read as {" ".join(names)}: these are two alleles of one complex, so the animal shows'
        shown = [replace(claim, state="shows") if claim.chance == 1 else claim for claim in seen.values()]
        return shown, [notice]
    return list(seen.values()), []


def pairs(text: str, claims: Sequence[Claim], genome: Genome, copies: int) -> dict[Pair, Fraction]:
    """Pair of alleles -> chance, from the settled claims on one locus; sums to 1.

    copies: 2, or 1 in the sex that has the locus on one chromosome only. Raises ImpossibleGenes if no animal is so.
    """
    if copies == 1:
        _check_single(text, claims, genome)
    certain = [claim for claim in claims if claim.chance == 1]
    base = _base(certain, copies)
    shown = [claim.gene for claim in certain if claim.state != "het"]
    closed = WILD not in base or not shown
    if certain and closed and len(certain) < len(claims):
        raise _no_room(text, certain, next(claim for claim in claims if claim.chance < 1), genome)
    options: dict[Pair, Fraction] = {}
    double = {claim.gene.name: claim.chance for claim in claims if claim.state == "super" and claim.chance < 1}
    for claim in claims:
        name, chance = claim.gene.name, claim.chance
        if chance == 1:
            continue
        if shown and (claim.state == "het" or (claim.state == "super" and name != shown[0].name)):
            raise _no_room(text, certain, claim, genome)
        if claim.state == "super":
            options[name, name] = chance
        elif shown:
            options[shown[0].name, name] = chance
        elif claim.gene.recessive and claim.state == "shows":
            options[(name, name) if copies == 2 else (name, WILD)] = chance
        else:
            options[name, WILD] = chance - double.get(name, Fraction(0))
    rest = 1 - sum(options.values(), Fraction(0))
    if rest < 0:
        found = f"percentages of one complex that sum to over 100%: {_listed(claims, genome)}"
        raise ImpossibleGenes(text, found, "at most 100%, since they exclude one another", "mend the percentages")
    options[base] = options.get(base, Fraction(0)) + rest
    return {pair: chance for pair, chance in options.items() if chance}


def _base(certain: Sequence[Claim], copies: int) -> Pair:
    """The alleles that are certain."""
    if not certain:
        return WILD, WILD
    first = certain[0]
    if len(certain) == 2 and certain[1].gene is not first.gene:
        return first.gene.name, certain[1].gene.name
    twice = any(claim.state == "super" for claim in certain) or (first.gene.recessive and first.state == "shows")
    return first.gene.name, first.gene.name if twice and copies == 2 else WILD


def _check_single(text: str, claims: Sequence[Claim], genome: Genome) -> None:
    sex, chromosome = genome.heterogametic, genome.same
    needed = f"at most one copy: a {sex} has one {chromosome}, and the gene lies on it"
    for claim in claims:
        if claim.state == "super":
            raise ImpossibleGenes(text, f"Super {claim.gene.name} in a {sex}", needed, f'write "{claim.gene.name}"')
        if claim.state == "het":
            advice = f'write "{claim.gene.name}": one copy shows in a {sex}'
            raise ImpossibleGenes(text, f"het {claim.gene.name} in a {sex}", needed, advice)
    if len(claims) > 1 and any(claim.chance == 1 for claim in claims):
        names = " and ".join(claim.gene.name for claim in claims)
        raise ImpossibleGenes(text, f"{names} in a {sex}", needed, "name one of them")


def _three_alleles(
    text: str, names: Sequence[str], doubled: Sequence[str], genome: Genome, advice: str
) -> ImpossibleGenes:
    locus = genome.home[names[0]][1].name
    listed = ", ".join(f"two copies of {name}" if name in doubled else name for name in names)
    found = f"more than two alleles of one complex ({locus}): {listed}"
    return ImpossibleGenes(text, found, "at most two", advice)


def _no_room(text: str, certain: Sequence[Claim], claim: Claim, genome: Genome) -> ImpossibleGenes:
    name, sure = claim.gene.name, certain[0].gene.name
    if certain[0].state == "het":
        return ImpossibleGenes(
            text,
            f"percentages of one complex that sum to over 100%: {_listed([certain[0], claim], genome)}",
            "at most 100%: an animal with both would show them",
            f'write "{_both(sure, name, genome)}" if it shows, else mend the percentages',
        )
    if claim.state == "het" and len(certain) == 1 and not certain[0].gene.recessive and certain[0].state == "shows":
        return ImpossibleGenes(
            text,
            f"{sure} beside {percent(claim.chance)} het {name}",
            f"no hidden {name}: it is of one complex with {sure}, and an animal with both would show it",
            f'write "{_both(sure, name, genome)}" if it shows both, else "{sure}"',
        )
    names = list(dict.fromkeys([*(one.gene.name for one in certain), name]))
    doubled = [name] if claim.state == "super" else [sure] if len(certain) == 1 else []
    both = f'write "{_both(sure, name, genome)}" if it has one copy of each'
    return _three_alleles(text, names, doubled, genome, "name at most two of them" if len(names) > 2 else both)


def _both(one: str, two: str, genome: Genome) -> str:
    return " ".join(sorted((one, two), key=genome.rank.__getitem__))


def _listed(claims: Sequence[Claim], genome: Genome) -> str:
    words = {"shows": "", "super": "Super ", "het": "het "}
    ordered = sorted(claims, key=lambda claim: genome.rank[claim.gene.name])
    return ", ".join(f"{percent(claim.chance)} {words[claim.state]}{claim.gene.name}" for claim in ordered)


def _twice(claim: Claim) -> str:
    return claim.gene.name if claim.gene.recessive else f"Super {claim.gene.name}"
