"""How far a look or a hatchling goes toward a target, and what a pairing lacks of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice, product
from math import prod

from ..catalogue import Caution
from ..genetics import Diplotype, Group
from ..looks import carried, shown
from ..notation import read_wanted, write_diplotypes, write_shown
from .likeliest import likeliest
from .odds import Offspring

__all__ = ["GenotypeOdds", "Nearest", "look_closeness", "look_count", "nearest", "top_genotypes"]

_MOST_TRIED = 4096


@dataclass(frozen=True)
class Nearest:
    """The most of a target that one hatchling of a pairing can show. look: in shorthand, "" if it is nothing.

    missing: what this leaves out of the target, as shorthand; alone: those of it that no hatchling shows at all, while
    the others cannot be had together with the look. shut_out: whether a hatchling could show the whole target, but only
    along with what must not show.
    """

    look: str
    chance: Fraction
    missing: tuple[str, ...]
    alone: tuple[str, ...]
    shut_out: bool = False


@dataclass(frozen=True)
class GenotypeOdds:
    """One genotype among the hatchlings. sex: "" if both sexes have it alike; then the chance is of either.

    closeness: share of the target's gene copies that it has, visible or not; 0 if it shows what must not show.
    cautions: on an animal of this genotype and sex.
    """

    genotype: str
    sex: str
    chance: Fraction
    closeness: Fraction
    cautions: tuple[Caution, ...]


def look_closeness(odds: Offspring, look: str, target: str, without: Iterable[str] = ()) -> Fraction:
    """Share of the target that the look shows, from 0 to 1; 0 if it shows what must not show.

    A gene that the target wants with two visible copies counts by half if one copy shows.
    """
    seen, wanted = read_wanted(look, odds.catalogue), read_wanted(target, odds.catalogue)
    if _barred(odds, without) & seen.keys():
        return Fraction(0)
    recessive = {name for name in wanted if odds.catalogue.gene(name).recessive}
    return _met(
        {name: min(copies, 1) if name in recessive else copies for name, copies in seen.items()},
        {name: 1 if name in recessive else copies for name, copies in wanted.items()},
    )


def look_count(odds: Offspring) -> int:
    """How many different looks the pairing can give, without building the table of them."""
    return prod(
        len({shown(group, diplotype) for diplotype in odds.brood.distribution(group)}) for group in odds.brood.groups
    )


def nearest(odds: Offspring, target: str, without: Iterable[str] = ()) -> Nearest:
    """The largest part of the target that the pairing can give, the likeliest if several are as large."""
    wanted, barred = read_wanted(target, odds.catalogue), tuple(without)
    levels = _levels(odds, wanted)
    reached = {
        name: next((k for k in range(top, 0, -1) if odds.chance(_written(odds, {name: k}, wanted))), 0)
        for name, top in levels.items()
    }
    choices = product(*([(name, k) for k in range(top, -1, -1)] for name, top in reached.items()))
    parts = [{name: k for name, k in choice if k} for choice in islice(choices, _MOST_TRIED)]
    best: tuple[int, Fraction, dict[str, int]] = (0, Fraction(0), {})
    for part in sorted(parts, key=lambda part: -sum(part.values())):
        size = sum(part.values())
        if not size or size < best[0]:
            break
        chance = odds.chance(_written(odds, part, wanted), without=barred)
        if chance > (best[1] if size == best[0] else 0):
            best = (size, chance, part)
    part = best[2]
    missing = tuple(_written(odds, {name: top}, wanted) for name, top in levels.items() if part.get(name, 0) < top)
    return Nearest(
        _written(odds, part, wanted) if part else "",
        best[1],
        missing,
        tuple(text for text in missing if not odds.chance(text)),
        bool(barred) and bool(odds.chance(target)),
    )


def top_genotypes(
    odds: Offspring, n: int, target: str = "Normal", without: Iterable[str] = ()
) -> tuple[tuple[GenotypeOdds, ...], int]:
    """The n likeliest genotypes, and how many there are in all, without building the full table."""
    genome, wanted, barred = odds.brood.genome, read_wanted(target, odds.catalogue), _barred(odds, without)
    choices = [_told_apart(odds, group) for group in odds.brood.groups]
    if not all(choices):
        return (), 0
    rows = []
    for parts, chance in islice(likeliest(choices), n):
        at = {group: diplotype for group, diplotype, _ in parts}
        seen = {name for group, diplotype in at.items() for name, _ in shown(genome.by_name[group], diplotype)}
        copies = {g: k for group, diplotype in at.items() for g, k in carried(genome.by_name[group], diplotype).items()}
        sex = next(sex for _, _, sex in parts if sex is not None)
        closeness = Fraction(0) if barred & seen else _met(copies, wanted)
        cautions = odds.catalogue.cautions_of(copies, "female" if sex == "female" else "male" if sex else None)
        rows.append(GenotypeOdds(write_diplotypes(genome, at), sex, chance, closeness, cautions))
    rows.sort(key=lambda row: (-row.chance, row.genotype, row.sex))
    return tuple(rows), prod(len(choice) for choice in choices)


def _told_apart(odds: Offspring, group: Group) -> list[tuple[tuple[str, Diplotype, str | None], Fraction]]:
    """What an egg can have at one group, with its chance; diplotypes that are written alike are taken as one.

    At the sex group each item also has a sex, "" if both sexes have it alike; elsewhere None.
    """
    genome = odds.brood.genome
    told: dict[tuple[str, str | None], tuple[Diplotype, Fraction]] = {}
    for diplotype, chance in odds.brood.distribution(group).items():
        key = (write_diplotypes(genome, {group.name: diplotype}), genome.sex_of(diplotype) if group.sex else None)
        first, before = told.get(key, (diplotype, Fraction(0)))
        told[key] = (first, before + chance)
    for text in {text for text, sex in told if sex}:
        female, male = told.get((text, "female")), told.get((text, "male"))
        if female and male and female[1] == male[1]:
            told[text, ""] = (female[0], 2 * female[1])
            del told[text, "female"], told[text, "male"]
    rows = [((group.name, diplotype, sex), chance) for (_, sex), (diplotype, chance) in told.items()]
    return sorted(rows, key=lambda row: (-row[1], row[0][1]))


def _levels(odds: Offspring, wanted: Mapping[str, int]) -> dict[str, int]:
    """Gene -> steps on the way to what is wanted of it: two for a two-copy form that differs, else one."""
    return {
        name: 2 if copies == 2 and not odds.catalogue.gene(name).recessive else 1 for name, copies in wanted.items()
    }


def _written(odds: Offspring, part: Mapping[str, int], wanted: Mapping[str, int]) -> str:
    """A part of the target in shorthand; `part` counts steps as `_levels` does."""
    recessive = {name for name in part if odds.catalogue.gene(name).recessive}
    return write_shown(
        odds.brood.genome, {name: wanted[name] if name in recessive else steps for name, steps in part.items()}
    )


def _barred(odds: Offspring, without: Iterable[str]) -> set[str]:
    return {gene for text in without for gene in read_wanted(text, odds.catalogue)}


def _met(copies: Mapping[str, int], needs: Mapping[str, int]) -> Fraction:
    """Share of the needed copies that are there; all of them if nothing is needed."""
    if not needs:
        return Fraction(1)
    return Fraction(sum(min(copies.get(name, 0), need) for name, need in needs.items()), sum(needs.values()))
