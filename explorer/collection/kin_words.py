"""How two animals are related, in a breeder's words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import count, islice, product

from ..catalogue import Sex
from ..genetics import Kinship
from ..genetics.kinship import Parents
from .animals import Collection

__all__ = ["Relation", "kin_sentence", "relation"]

Settled = Mapping[str, tuple[str | None, str | None]]

MOST_CHOICES = 64
"""The most choices of open sires that are looked at for words."""


@dataclass(frozen=True)
class Relation:
    """How two animals are related.

    words: the closest plain relation, such as "half siblings (same sire)". kinship: the inbreeding coefficient their
    offspring would have, at least; where several males may be a sire, the greatest that any of them allows, and the
    words say of whom. recorded: whether both animals' dams and sires are. lower_bound: what is not
    recorded, so that the figure may be higher.
    """

    words: str
    kinship: Fraction
    recorded: bool
    lower_bound: str


def relation(animals: Collection | Parents, one: str, two: str) -> Relation:
    """How two animals are related. animals: the collection, or id -> (dam, sire) of every animal, as for `Kinship`.

    Raises KeyError if there is no such animal, ValueError if an animal is its own ancestor.
    """
    if isinstance(animals, Collection):
        kinship, parents = animals.inbreeding(one, two), {x.id: x.parents for x in animals}
        sexes = {x.id: x.sex for x in animals}
    else:
        kinship, parents = Kinship(animals).between(one, two), dict(animals)
        sexes = {key: sex for pair in animals.values() for key, sex in _by_role(*pair)}
    settled, chosen, closest = _closest(parents, one, two)
    family = _Family(settled, sexes)
    words = _words(family, one, two, kinship if closest is None else closest)
    for key, (male, males) in chosen.items():
        may = f"{' or '.join(males)} may be the sire of {key}"
        words = may if words == f"{male} is the sire of {key}" else f"{words}, if {male} is the sire of {key}"
    recorded, lower_bound = family.unrecorded(one, two)
    return Relation(words, kinship, recorded, lower_bound)


def _closest(
    parents: Parents, one: str, two: str
) -> tuple[Settled, dict[str, tuple[str, tuple[str, ...]]], Fraction | None]:
    """The pedigree with such sires, where they are open, that the two are related as closely as can be; those that
    matter: animal -> (its sire then, all that may be); and the kinship of the two then, None if nothing is open."""
    above, ahead = set[str](), [one, two]
    while ahead:
        key = ahead.pop()
        if key not in above:
            above.add(key)
            dam, sire = parents[key]
            ahead += [dam] if dam is not None else []
            ahead += [sire] if isinstance(sire, str) else sire or ()
    open_ones = {key: sire for key in sorted(above) if isinstance(sire := parents[key][1], tuple)}
    if not open_ones:
        return {key: (dam, sire if isinstance(sire, str) else None) for key, (dam, sire) in parents.items()}, {}, None
    near = {key: parents[key] for key in above}
    figures = {}
    for males in islice(product(*open_ones.values()), MOST_CHOICES):
        choice = dict(zip(open_ones, males, strict=True))
        known = Kinship({**near, **{key: (near[key][0], male) for key, male in choice.items()}})
        figures[males] = known.between(one, two)
    best = max(figures, key=lambda males: figures[males])
    choice = dict(zip(open_ones, best, strict=True))
    matter = {}
    for i, key in enumerate(open_ones):
        others = [figure for males, figure in figures.items() if males[:i] + males[i + 1 :] == best[:i] + best[i + 1 :]]
        if min(others) < figures[best]:
            matter[key] = choice[key], open_ones[key]
    settled: dict[str, tuple[str | None, str | None]] = {}
    for key, (dam, sire) in parents.items():
        settled[key] = dam, choice.get(key) or (sire if isinstance(sire, str) else None)
    return settled, matter, figures[best]


def kin_sentence(found: Relation, percent: str) -> str:
    """The relation in one line: "full siblings: offspring's inbreeding coefficient 25 %, or more: ...".

    percent: the kinship as it is to be shown, with its sign.
    """
    return f"{found.words}: offspring's inbreeding coefficient {percent}, or more: {found.lower_bound}"


class _Family:
    """Who descends from whom. sexes: id -> sex where it is known."""

    def __init__(self, parents: Settled, sexes: Mapping[str, Sex | None]) -> None:
        self.parents, self._sexes = parents, sexes

    def above(self, key: str, generations: int) -> set[str]:
        """The recorded ancestors just so many generations above."""
        found = {key}
        for _ in range(generations):
            found = {parent for one in found for parent in self.parents[one] if parent is not None}
        return found

    def shared(self, one: str, two: str) -> list[str]:
        """Which parents two animals have in common: "dam", "sire", both or none."""
        pairs = zip(("dam", "sire"), self.parents[one], self.parents[two], strict=True)
        return [role for role, mine, other in pairs if mine is not None and mine == other]

    def full(self, one: str | None, two: str | None) -> bool:
        """Whether the two are full siblings."""
        return one is not None and two is not None and one != two and len(self.shared(one, two)) == 2

    def half(self, one: str, two: str) -> bool:
        """Whether the two are half siblings."""
        return one != two and len(self.shared(one, two)) == 1

    def sexed(self, key: str, female: str, male: str, either: str) -> str:
        """The word for an animal of its sex."""
        return {"female": female, "male": male}.get(self._sexes.get(key) or "", either)

    def unrecorded(self, one: str, two: str) -> tuple[bool, str]:
        """Whether all parents of the two are recorded, and what the nearest generation lacks."""
        both = list(dict.fromkeys((one, two)))
        single = [f"{key}'s {role}" for key in both if (role := self._missing(key)) in ("dam", "sire")]
        neither = [key for key in both if self._missing(key) == "parents"]
        if single or neither:
            lacking = [*single, *([f"parents of {' and '.join(neither)}"] if neither else [])]
            return False, f"{' and '.join(lacking)} {'are' if neither or len(single) > 1 else 'is'} not recorded"
        for generation in count(1):
            if any(None in self.parents[key] for start in both for key in self.above(start, generation)):
                break
        name = {1: "grandparents", 2: "great-grandparents"}.get(generation, "ancestors")
        return True, f"not all of {'its' if one == two else 'their'} {name} are recorded"

    def _missing(self, key: str) -> str:
        match self.parents[key]:
            case None, None:
                return "parents"
            case None, _:
                return "dam"
            case _, None:
                return "sire"
        return ""


def _by_role(dam: str | None, sire: str | tuple[str, ...] | None) -> Iterator[tuple[str, Sex]]:
    if dam is not None:
        yield dam, "female"
    for male in (sire,) if isinstance(sire, str) else sire or ():
        yield male, "male"


def _words(family: _Family, one: str, two: str, kinship: Fraction) -> str:
    if one == two:
        return "the same animal"
    if not kinship:
        return "not related, as far as is recorded"
    for words, standard in _plain(family, *sorted((one, two))):
        return f"{words} and related otherwise too" if kinship > Fraction(standard) else words
    return "related"


def _plain(family: _Family, one: str, two: str) -> Iterator[tuple[str, str]]:
    """The plain relations that hold, the closest first, each with the kinship of such animals in a standard pedigree.

    Standard: nobody is inbred, and there is no other line of descent.
    """
    ways = ((one, two), (two, one))
    for senior, junior in ways:
        if senior in family.parents[junior]:
            role = "dam" if family.parents[junior][0] == senior else "sire"
            yield f"{senior} is the {role} of {junior}", "1/4"
    if family.full(one, two):
        yield "full siblings", "1/4"
    if family.half(one, two):
        (role,) = family.shared(one, two)
        other = 1 if role == "dam" else 0
        mine, theirs = family.parents[one][other], family.parents[two][other]
        if mine is not None and theirs is not None:
            parent_and_child = mine in family.parents[theirs] or theirs in family.parents[mine]
            if family.full(mine, theirs) or parent_and_child:
                yield f"three-quarter siblings (same {role})", "3/16"
        yield f"half siblings (same {role})", "1/8"
    for senior, junior in ways:
        if senior in family.above(junior, 2):
            yield _grand(family, senior, junior, ""), "1/8"
    for senior, junior in ways:
        if any(family.full(senior, parent) for parent in family.above(junior, 1)):
            yield _aunt(family, senior, junior, ""), "1/8"
    (dam, sire), (other_dam, other_sire) = family.parents[one], family.parents[two]
    straight = family.full(dam, other_dam) and family.full(sire, other_sire)
    if straight or (family.full(dam, other_sire) and family.full(sire, other_dam)):
        yield "double first cousins", "1/8"
    for senior, junior in ways:
        if senior in family.above(junior, 3):
            yield _grand(family, senior, junior, "great-"), "1/16"
    for senior, junior in ways:
        if any(family.half(senior, parent) for parent in family.above(junior, 1)):
            yield _aunt(family, senior, junior, "half "), "1/16"
    for senior, junior in ways:
        if any(family.full(senior, parent) for parent in family.above(junior, 2)):
            yield _aunt(family, senior, junior, "great-"), "1/16"
    yield from _cousins(family, one, two)


def _cousins(family: _Family, one: str, two: str) -> Iterator[tuple[str, str]]:
    mine, theirs = ([family.above(key, generations) for generations in (1, 2)] for key in (one, two))
    if any(family.full(*pair) for pair in product(mine[0], theirs[0])):
        yield "first cousins", "1/16"
    if any(family.half(*pair) for pair in product(mine[0], theirs[0])):
        yield "half first cousins", "1/32"
    if any(family.full(*pair) for pair in (*product(mine[0], theirs[1]), *product(mine[1], theirs[0]))):
        yield "first cousins once removed", "1/32"
    if any(family.full(*pair) for pair in product(mine[1], theirs[1])):
        yield "second cousins", "1/64"


def _grand(family: _Family, senior: str, junior: str, degree: str) -> str:
    elder = family.sexed(senior, "granddam", "grandsire", "grandparent")
    younger = family.sexed(junior, "granddaughter", "grandson", "grandchild")
    return f"{degree}{elder} and {degree}{younger}"


def _aunt(family: _Family, senior: str, junior: str, degree: str) -> str:
    elder = family.sexed(senior, "aunt", "uncle", "aunt or uncle")
    younger = family.sexed(junior, "niece", "nephew", "niece or nephew")
    return f"{degree}{elder} and {degree}{younger}"
