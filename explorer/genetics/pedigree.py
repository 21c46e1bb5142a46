"""Exact joint genotype posterior of a pedigree at one group, by eliminating one animal after another.

Method: variable elimination on the pedigree's factors, which is peeling (Elston & Stewart 1971) with cut-sets, so
that loops are handled exactly (Cannings, Thompson & Skolnick 1978).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from .gametes import gametes, viable, zygotes
from .genome import Diplotype, Group, Haplotype, order
from .genotype import Part

__all__ = ["Contradiction", "Member", "joint", "possible"]


class Contradiction(ValueError):
    """What is recorded of a pedigree cannot all be true. `members` names whose records clash."""

    def __init__(self, members: Sequence[str]) -> None:
        super().__init__(f"these records cannot all be true: {', '.join(members)}")
        self.members = tuple(members)


@dataclass(frozen=True)
class Member:
    """One animal of a pedigree, at one group.

    dam, sire: keys of the parents, or None. prior: a founder's distribution (used if both are None).
    missing: what the one parent that is not recorded passed on (used if exactly one is None).
    fits: whether a diplotype agrees with what is known of the animal itself.
    """

    dam: str | None
    sire: str | None
    prior: Part | None
    missing: Mapping[Haplotype, Fraction] | None
    fits: Callable[[Diplotype], bool]


Factor = tuple[tuple[str, ...], dict[tuple[Diplotype, ...], Fraction]]


def possible(group: Group, member: Member, states: Mapping[str, Mapping[Diplotype, object]]) -> list[Diplotype]:
    """Diplotypes the member may have, given those its parents may have."""
    if member.dam is None and member.sire is None:
        made = set(member.prior or ())
    else:
        made = {d for parents in _parent_states(member, states) for d in _conception(group, member, parents)}
    return sorted(d for d in made if member.fits(d) and viable(group, d))


def joint(group: Group, members: Mapping[str, Member], asked: Sequence[str]) -> dict[tuple[Diplotype, ...], Fraction]:
    """Joint distribution of the diplotypes of the animals asked for; sums to 1.

    members: key -> Member, parents before their offspring. Raises Contradiction if the records have chance 0.
    """
    states: dict[str, dict[Diplotype, object]] = {}
    for key, member in members.items():
        states[key] = dict.fromkeys(possible(group, member, states))
        if not states[key]:
            raise Contradiction([k for k in (key, member.dam, member.sire) if k is not None])
    factors = [factor for key, member in members.items() if (factor := _factor(group, key, member, states)) is not None]
    certain = {key: next(iter(known)) for key, known in states.items() if len(known) == 1}
    open_keys = [key for key in dict.fromkeys(asked) if key not in certain]
    relevant = _connected(factors, open_keys)
    while len(relevant) > 1 or any(set(names) - set(open_keys) for names, _ in relevant):
        eliminable = {name for names, _ in relevant for name in names} - set(open_keys)
        if not eliminable:
            relevant = [_product(relevant)]
            continue
        touching = {n: {m for names, _ in relevant if n in names for m in names} for n in eliminable}
        gone = min(sorted(eliminable), key=lambda n: len(touching[n]))
        merged = _product([factor for factor in relevant if gone in factor[0]])
        relevant = [factor for factor in relevant if gone not in factor[0]]
        relevant.append(_summed(merged, gone))
    names, table = relevant[0] if relevant else ((), {(): Fraction(1)})
    total = sum(table.values())
    if not total:
        raise Contradiction(list(asked))
    found: dict[tuple[Diplotype, ...], Fraction] = {}
    for values, weight in table.items():
        at = {**certain, **dict(zip(names, values, strict=True))}
        key_of = tuple(at[key] for key in asked)
        found[key_of] = found.get(key_of, Fraction(0)) + weight / total
    return {key: chance for key, chance in found.items() if chance}


def _parent_states(
    member: Member, states: Mapping[str, Mapping[Diplotype, object]]
) -> list[tuple[Diplotype | None, Diplotype | None]]:
    dams: list[Diplotype | None] = [None] if member.dam is None else list(states[member.dam])
    sires: list[Diplotype | None] = [None] if member.sire is None else list(states[member.sire])
    return [(dam, sire) for dam in dams for sire in sires]


def _conception(
    group: Group, member: Member, parents: tuple[Diplotype | None, Diplotype | None]
) -> dict[Diplotype, Fraction]:
    dam, sire = parents
    if dam is not None and sire is not None:
        return zygotes(group, dam, sire)
    known = dam if dam is not None else sire
    assert known is not None and member.missing is not None
    made: dict[Diplotype, Fraction] = {}
    for one, p in gametes(group, known).items():
        for two, q in member.missing.items():
            made[order(one, two)] = made.get(order(one, two), Fraction(0)) + p * q
    return made


def _factor(
    group: Group, key: str, member: Member, states: Mapping[str, Mapping[Diplotype, object]]
) -> Factor | None:
    """The member's own factor over itself and its parents, leaving out whoever has only one possible state."""
    keys = tuple(k for k in (key, member.dam, member.sire) if k is not None)
    table: dict[tuple[Diplotype, ...], Fraction] = {}
    names = tuple(k for k in keys if len(states[k]) > 1)
    if not names:
        return None
    if len(keys) == 1:
        assert member.prior is not None
        return (names, {(d,): member.prior[d] for d in states[key]})
    for parents in _parent_states(member, states):
        made = _conception(group, member, parents)
        known = [p for p in parents if p is not None]
        for diplotype in states[key]:
            chance = made.get(diplotype)
            if chance:
                values = dict(zip(keys, (diplotype, *known), strict=True))
                at = tuple(values[name] for name in names)
                table[at] = table.get(at, Fraction(0)) + chance
    return (names, table)


def _connected(factors: Sequence[Factor], asked: Sequence[str]) -> list[Factor]:
    reached, rest, found = set(asked), list(factors), []
    grown = True
    while grown:
        grown = False
        for factor in list(rest):
            if reached & set(factor[0]):
                reached |= set(factor[0])
                rest.remove(factor)
                found.append(factor)
                grown = True
    return found


def _product(factors: Sequence[Factor]) -> Factor:
    names, table = factors[0]
    for other_names, other in factors[1:]:
        shared = [n for n in other_names if n in names]
        extra = [n for n in other_names if n not in names]
        index: dict[tuple[Diplotype, ...], list[tuple[tuple[Diplotype, ...], Fraction]]] = {}
        for values, weight in other.items():
            at = dict(zip(other_names, values, strict=True))
            index.setdefault(tuple(at[n] for n in shared), []).append((tuple(at[n] for n in extra), weight))
        positions = [names.index(n) for n in shared]
        table = {
            (*values, *more): weight * w
            for values, weight in table.items()
            for more, w in index.get(tuple(values[i] for i in positions), ())
        }
        names = (*names, *extra)
    return names, table


def _summed(factor: Factor, gone: str) -> Factor:
    names, table = factor
    at = names.index(gone)
    left: dict[tuple[Diplotype, ...], Fraction] = {}
    for values, weight in table.items():
        key = values[:at] + values[at + 1 :]
        left[key] = left.get(key, Fraction(0)) + weight
    return names[:at] + names[at + 1 :], left
