"""The gene forms that a look is made of, each with what it does in this company."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property

from ..catalogue import Catalogue, Cover, Effect, Gene, Part, Quality, Zone

__all__ = ["Layer", "layers_of"]

Key = frozenset[tuple[str, int]]


@dataclass(frozen=True, eq=False)
class Layer:
    """One gene form of a look: a gene with one copy or two, or two different genes of one complex.

    name: as it is written, "Super Enchi" or "Mojave Lesser". entries: the effects that hold for it here, from the most
        general to the most particular, and the keeper's after the catalogue's; empty if nothing is established of it.
    """

    parts: tuple[Part, ...]
    name: str
    entries: tuple[Effect, ...]

    @property
    def genes(self) -> tuple[str, ...]:
        return tuple(part.gene for part in self.parts)

    @cached_property
    def values(self) -> dict[Quality, int]:
        """Quality -> value; what is not established is left out."""
        return {quality: value for entry in self.entries for quality, value in entry.values.items()}

    @cached_property
    def origin(self) -> dict[Quality, Effect]:
        """Quality -> the effect that its value comes from."""
        return {quality: entry for entry in self.entries for quality in entry.values}

    @cached_property
    def words(self) -> dict[Zone, str]:
        """Zone -> what is seen there, in words."""
        return {zone: text for entry in self.entries for zone, text in entry.words.items()}

    @property
    def hue(self) -> str:
        return next((entry.hue for entry in reversed(self.entries) if entry.hue), "")

    @property
    def covers(self) -> tuple[Cover, ...]:
        return tuple(dict.fromkeys(cover for entry in self.entries for cover in entry.covers))


def layers_of(look: Mapping[str, int], catalogue: Catalogue, opinions: Iterable[Effect] = ()) -> tuple[Layer, ...]:
    """The forms of a look (gene -> copies that show), in its order. Where opinions differ from the catalogue they win.

    An effect that holds on a certain base is taken where the rest of the look has that base.
    """
    index = _index(catalogue)
    own: dict[Key, list[Effect]] = {}
    for opinion in opinions:
        own.setdefault(_key(opinion.parts), []).append(opinion)
    found = []
    for parts in _forms(look, catalogue):
        key = _key(parts)
        entries = [entry for entry in (*index.get(key, ()), *own.get(key, ())) if _holds(entry, look)]
        if len(parts) == 2 and not entries:
            entries = [e for e in catalogue.effects if e.complex and e.complex == catalogue.gene(parts[0].gene).locus]
        name = " ".join(map(_name, parts, (catalogue.gene(part.gene) for part in parts)))
        found.append(Layer(parts, name, tuple(sorted(entries, key=lambda entry: (entry.by != "", len(entry.on))))))
    return tuple(found)


def _name(part: Part, gene: Gene) -> str:
    return f"Super {gene.name}" if part.copies == 2 and not gene.recessive else gene.name


def _forms(look: Mapping[str, int], catalogue: Catalogue) -> list[tuple[Part, ...]]:
    forms: dict[str, list[Part]] = {}
    for name, copies in look.items():
        gene = catalogue.gene(name)
        forms.setdefault(gene.locus, []).append(Part(gene.name, copies))
    return [tuple(parts) for parts in forms.values()]


def _holds(effect: Effect, look: Mapping[str, int]) -> bool:
    return all(look.get(part.gene, 0) >= part.copies for part in effect.on)


def _key(parts: Iterable[Part]) -> Key:
    return frozenset((part.gene, part.copies) for part in parts)


@cache
def _index(catalogue: Catalogue) -> dict[Key, tuple[Effect, ...]]:
    found: dict[Key, tuple[Effect, ...]] = {}
    for effect in catalogue.effects:
        if effect.parts:
            found[_key(effect.parts)] = (*found.get(_key(effect.parts), ()), effect)
    return found
