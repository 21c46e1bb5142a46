"""Who can be put into a pairing, in one line each, and whom to begin with."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from ..collection import Animal
from ..husbandry import Readiness, readiness
from ..notation import write_genes
from ..pairing import cross, nearest
from .desk import Desk

__all__ = ["ROLES", "SEX_OF", "Choice", "Role", "choices", "name_of", "ready_of", "suggested"]

Role = Literal["dam", "sire"]
ROLES: tuple[Role, Role] = ("dam", "sire")
SEX_OF = {"dam": "female", "sire": "male"}


@dataclass(frozen=True)
class Choice:
    """One animal to choose. label: id, name, genes and whether it is ready: "F03 Juniper · Leopard · ready"."""

    id: str
    label: str


def choices(desk: Desk, role: Role, search: str = "") -> tuple[Choice, ...]:
    """Who can be the dam or the sire: those ready first, then by season; nobody of a fitting sex is left out.

    search: words that must all stand in the label, in any case.
    """
    found = [animal for animal in desk.animals or () if animal.sex in (SEX_OF[role], None)]
    labels = [Choice(animal.id, _label(desk, animal)) for animal in sorted(found, key=lambda a: _order(desk, a))]
    words = search.casefold().split()
    return tuple(choice for choice in labels if all(word in choice.label.casefold() for word in words))


def name_of(animal: Animal) -> str:
    """Id and name."""
    return f"{animal.id} {animal.name}".strip()


def ready_of(desk: Desk, animal: Animal) -> Readiness:
    """Whether the animal may breed in the season that is looked at."""
    return readiness(animal, desk.care, desk.today, allow=desk.allow)


def suggested(desk: Desk, dam: str, sire: str) -> tuple[str, str]:
    """The pair with empty places filled: by who comes nearest to the target, of those ready; "" if there is nobody."""
    animals = desk.animals
    if animals is None or (dam and sire):
        return dam, sire
    dams, sires = _candidates(desk, "dam", dam), _candidates(desk, "sire", sire)
    pairs = [(d, s) for d in dams for s in sires if d != s]

    def worth(pair: tuple[str, str]) -> tuple[int, Fraction]:
        found = nearest(cross(animals[pair[0]], animals[pair[1]]), desk.target, desk.without)
        return -len(found.missing), found.chance

    if pairs:
        return max(pairs, key=worth)
    one = next(iter(dams), "")
    return one, next((s for s in sires if s != one), "")


def _candidates(desk: Desk, role: Role, chosen: str) -> list[str]:
    """The one who is chosen, or else those who are ready and not kept out, or else everybody."""
    if chosen or desk.animals is None:
        return [chosen]
    everybody = [choice.id for choice in choices(desk, role)]
    states = {key: ready_of(desk, desk.animals[key]) for key in everybody}
    return [key for key in everybody if states[key].ready and not states[key].barred] or everybody


def _label(desk: Desk, animal: Animal) -> str:
    state = ready_of(desk, animal)
    mark = "caution: kept out of plans" if state.barred else "caution" if state.cautions else ""
    return " · ".join(filter(None, (name_of(animal), write_genes(animal.genotype), str(state), mark)))


def _order(desk: Desk, animal: Animal) -> tuple[bool, bool, int, str]:
    state = ready_of(desk, animal)
    return not state.ready, state.barred, state.season or 99, animal.id
