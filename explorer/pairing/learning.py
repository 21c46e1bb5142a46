"""What a clutch taught about the animals: who changed, by how much, and what is certain since."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from ..collection import Collection, Knowledge
from ..collection.clutch import Clutch
from ..genetics import Genotype
from ..looks import carried
from ..notation import write_genes

__all__ = ["Change", "Claim", "told_by"]


@dataclass(frozen=True)
class Claim:
    """Something said of one animal's copies of one gene. At least that many copies (or fewer, if `fewer`).

    was, now: the chance that it is true, before and after.
    """

    gene: str
    copies: int
    was: Fraction
    now: Fraction
    fewer: bool = False

    @property
    def proved(self) -> bool:
        """Whether it is certain now and was not before."""
        return self.was < 1 == self.now

    def words(self, plural: bool = False) -> str:
        """"carries Clown", "does not carry Clown", "has one copy of Pinstripe only", "has two copies of Pinstripe"."""
        has = "have" if plural else "has"
        if self.copies == 2:
            return f"{has} only one copy of {self.gene}" if self.fewer else f"{has} two copies of {self.gene}"
        if self.fewer:
            return f"{'do' if plural else 'does'} not carry {self.gene}"
        return f"{'carry' if plural else 'carries'} {self.gene}"


@dataclass(frozen=True)
class Change:
    """One animal that changed. before, after: what it may carry at the places that changed, in shorthand.

    claims: what is now likelier of it than before, the greatest change first; never empty.
    """

    id: str
    before: str
    after: str
    claims: tuple[Claim, ...]


def told_by(animals: Collection, clutch: Clutch) -> tuple[Change, ...]:
    """The animals whose genes have other chances than without this clutch; the greatest change first.

    Without it, the hatchlings that were kept have no parents; they themselves are not listed. Where a gene's copies lie
    does not count as a change.

    animals: after `Collection.updated` with a clutch book that holds the clutch.
    """
    now = animals.knowledge
    kept = now.told.kept.get(clutch.id) or tuple(one.id for one in animals if one.clutch == clutch.id)
    loose = {key: replace(now.recorded[key], dam=None, sire=None, clutch="") for key in kept}
    others = [one for one in now.told.clutches if one.id != clutch.id]
    before = Knowledge(now.catalogue, {**now.recorded, **loose}, now.tested, others)
    found = [_change(one.id, before.genotype(one.id), one.genotype) for one in animals if one.id not in loose]
    return tuple(sorted(filter(None, found), key=lambda one: (-_size(one.claims[0]), one.id)))


def _change(key: str, was: Genotype, now: Genotype) -> Change | None:
    claims: list[Claim] = []
    places: list[str] = []
    for name in dict.fromkeys([*was.varying, *now.varying]):
        here = list(_claims(was, now, name))
        claims += here
        places += [name] if here else []
    if not claims:
        return None
    ordered = sorted(claims, key=lambda claim: (-_size(claim), was.genome.rank[claim.gene], claim.copies))
    lost = [claim.gene for claim in claims if claim.fewer and claim.copies == 1 and claim.now == 1]
    after = _written(now, places)
    if lost:
        after = ", ".join([*([after] if after != "Normal" else []), *(f"no {gene}" for gene in lost)])
    return Change(key, _written(was, places), after, tuple(ordered))


def _claims(was: Genotype, now: Genotype, name: str) -> Iterator[Claim]:
    one, two = _chances(was, name), _chances(now, name)
    for key in sorted({*one, *two}):
        before, after = one.get(key, Fraction(0)), two.get(key, Fraction(0))
        if after > before:
            yield Claim(*key, before, after)
        elif after < before:
            yield Claim(*key, 1 - before, 1 - after, fewer=True)


def _chances(genotype: Genotype, name: str) -> dict[tuple[str, int], Fraction]:
    """(gene, copies) -> chance of at least so many."""
    group = genotype.genome.by_name[name]
    found: dict[tuple[str, int], Fraction] = {}
    for diplotype, chance in genotype.part(group).items():
        for gene, copies in carried(group, diplotype).items():
            for least in range(1, copies + 1):
                found[gene, least] = found.get((gene, least), Fraction(0)) + chance
    return found


def _size(claim: Claim) -> Fraction:
    return claim.now - claim.was


def _written(genotype: Genotype, places: list[str]) -> str:
    """The shorthand of these places alone."""
    genome = genotype.genome
    sexes = genome.groups[0]
    parts = {sexes.name: {genome.wild(sexes, "female"): Fraction(1)}}
    return write_genes(Genotype(genome, {**parts, **{name: genotype.part(genome.by_name[name]) for name in places}}))
