"""What a pairing's hatchlings would say of what a parent may carry unseen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from ..genetics import Brood, Diplotype, Group, exact, viable
from ..looks import Look, carried, shown
from ..notation import write_shown
from .odds import Offspring

__all__ = ["Proof", "proofs"]

Role = Literal["dam", "sire"]
ROLES: tuple[Role, Role] = ("dam", "sire")


@dataclass(frozen=True)
class Proof:
    """A doubt about one parent's copies of one gene, and the hatchlings that would end it.

    The claim is that the parent carries the gene; or, if `double`, that it has only one copy of a gene that looks the
    same in two. A telling hatchling looks as only the offspring of a parent of which the claim is true can look.
    looks: the looks that tell, at the gene's own place, as shorthand; "Normal" where nothing shows.
    telling: what such a hatchling does: "shows Clown", "does not show Pinstripe", or "is" and the looks, where another
        hatchling may show the gene too.
    proves: the parents, of those in doubt, of whom one telling hatchling proves the same claim; for a recessive, both.
    law: (claim true of the dam, true of the sire, chance that one hatchling does not tell) -> probability; sums to 1.

    Only hatchlings that hatched, and whose look can be read, count. All have the same two parents, so n of them are a
    mixture over what the parents may be, never a product of each hatchling's chance.
    """

    role: Role
    gene: str
    double: bool
    looks: tuple[str, ...]
    telling: str
    proves: tuple[Role, ...]
    law: Mapping[tuple[bool, bool, Fraction], Fraction]

    @property
    def claim(self) -> str:
        """What is in doubt: "carries Clown", "has only one copy of Pinstripe"."""
        return f"has only one copy of {self.gene}" if self.double else f"carries {self.gene}"

    @property
    def silence(self) -> str:
        """What hatchlings do none of which tells: "none shows Clown", "all show Pinstripe"."""
        lacking = f"does not show {self.gene}"
        return f"all show {self.gene}" if self.telling == lacking else f"none {self.telling}"

    @property
    def chance(self) -> Fraction:
        """Chance now that the claim is true of this parent."""
        return self.after(0)

    def after(self, n: int) -> Fraction:
        """Chance that the claim is true of this parent after n hatchlings none of which tells.

        Raises ValueError if n is below 0.
        """
        return self._share(n, (self.role,))

    def both_after(self, n: int) -> Fraction:
        """Chance that the claim is true of both parents after n hatchlings none of which tells.

        Not the product of the parents' own chances. Raises ValueError if n is below 0.
        """
        return self._share(n, ROLES)

    def chances(self, most: int) -> tuple[Fraction, ...]:
        """`after(n)` for n = 0 to `most`."""
        return tuple(self.after(n) for n in range(most + 1))

    def needed(self, sure: float | Fraction) -> int | None:
        """The fewest hatchlings, none of which tells, after which the claim is false with at least this chance.

        None if no number is enough, as where the mate may be unable to show the gene. Raises ValueError if `sure` does
        not lie between 0 and 1.
        """
        goal = exact(sure)
        if not 0 < goal < 1:
            raise ValueError(f"how sure lies between 0 and 1, found {sure}")
        if 1 - self.after(0) >= goal:
            return 0
        lasting = {key: weight for key, weight in self.law.items() if key[2] == 1}
        at = ROLES.index(self.role)
        limit = sum((weight for key, weight in lasting.items() if not key[at]), Fraction(0)) / sum(lasting.values())
        fading = any(0 < miss < 1 for _, _, miss in self.law)
        if limit < goal or (limit == goal and fading):
            return None
        low, high = 0, 1
        while 1 - self.after(high) < goal:
            low, high = high, 2 * high
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if 1 - self.after(middle) >= goal else (middle, high)
        return high

    def _share(self, n: int, roles: tuple[Role, ...]) -> Fraction:
        if n < 0:
            raise ValueError(f"a number of hatchlings from 0 up is needed, found {n}")
        weights = {key: weight * key[2] ** n for key, weight in self.law.items()}
        true = (w for (dam, sire, _), w in weights.items() if all((dam, sire)[ROLES.index(role)] for role in roles))
        return sum(true, Fraction(0)) / sum(weights.values(), Fraction(0))


@dataclass(frozen=True)
class _Family:
    """One possible pair of parental diplotypes at a group. looks: look -> chance among its viable hatchlings."""

    parents: tuple[Diplotype, Diplotype]
    weight: Fraction
    looks: Mapping[Look, Fraction]


def proofs(odds: Offspring) -> tuple[Proof, ...]:
    """A Proof for each parent and each gene that it may or may not carry and that hatchlings can prove.

    Likewise for a second copy that may be there unseen. In the order of the catalogue, dam before sire; () if the
    parents are certain, their mates can show nothing, or nothing hatches. By Bayes' rule on the joint table of both
    parents, group by group.
    """
    found: list[Proof] = []
    for group in odds.brood.groups if odds.viable else ():
        families = _families(odds.brood, group)
        genes = {gene for family in families for parent in family.parents for gene in carried(group, parent)}
        found += [
            proof
            for gene in genes
            for role in ROLES
            if (proof := _proof(odds, group, families, gene, role)) is not None
        ]
    rank = odds.brood.genome.rank
    return tuple(sorted(found, key=lambda proof: (rank[proof.gene], ROLES.index(proof.role))))


def _families(brood: Brood, group: Group) -> list[_Family]:
    families = []
    for parents, (weight, eggs) in zip(brood.parents[group.name], brood.table(group), strict=True):
        looks: dict[Look, Fraction] = {}
        for diplotype, chance in eggs.items():
            if viable(group, diplotype):
                look = shown(group, diplotype)
                looks[look] = looks.get(look, Fraction(0)) + chance
        hatching = sum(looks.values(), Fraction(0))
        families.append(_Family(parents, weight, {look: chance / hatching for look, chance in looks.items()}))
    return families


def _proof(odds: Offspring, group: Group, families: list[_Family], gene: str, role: Role) -> Proof | None:
    at = ROLES.index(role)
    copies = [tuple(carried(group, parent).get(gene, 0) for parent in family.parents) for family in families]
    double = all(counts[at] for counts in copies)
    claims = [tuple(n == 1 if double else n > 0 for n in counts) for counts in copies]
    pairs = list(zip(claims, families, strict=True))
    denied = {look for claim, family in pairs if not claim[at] for look in family.looks}
    if not denied or all(not claim[at] for claim in claims):
        return None
    alike = {look for f in families for look in f.looks if any(name == gene for name, _ in look) is not double}
    telling = alike - denied
    if not telling:
        return None
    law: dict[tuple[bool, bool, Fraction], Fraction] = {}
    for (dam, sire), family in pairs:
        miss = sum((chance for look, chance in family.looks.items() if look not in telling), Fraction(0))
        law[dam, sire, miss] = law.get((dam, sire, miss), Fraction(0)) + family.weight
    told = [claim for claim, family in pairs if telling & family.looks.keys()]
    proved = (
        other
        for i, other in enumerate(ROLES)
        if all(claim[i] for claim in told) and not all(claim[i] for claim in claims)
    )
    texts = sorted(write_shown(odds.brood.genome, dict(look)) for look in telling)
    does = f"is {' or '.join(texts)}" if telling != alike else f"does not show {gene}" if double else f"shows {gene}"
    return Proof(role, gene, double, tuple(texts), does, tuple(proved), law)
