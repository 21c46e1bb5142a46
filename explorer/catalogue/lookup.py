"""The catalogue of one species: its records in catalogue order, and look-up by name."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from .entries import (
    AmbiguousWord,
    Caution,
    Compound,
    Cue,
    Effect,
    Figure,
    Gene,
    Linkage,
    LocusEntry,
    Nickname,
    Sex,
    Source,
    Species,
)

__all__ = ["Catalogue", "UnknownName", "closest", "normal"]

_JOINERS = dict.fromkeys(map(ord, "-‐‑‒–—−'’‘ʼ`´"))


def normal(text: str) -> str:
    """The form names are compared in: lower case, without spaces, hyphens and apostrophes. Nothing else is dropped."""
    return "".join(text.translate(_JOINERS).split()).casefold()


def closest(text: str, names: Iterable[str], limit: int = 3) -> tuple[str, ...]:
    """The `limit` names spelled most like `text`, nearest first; fewer only if there are fewer names."""
    spelled = {normal(name): name for name in names}
    return tuple(spelled[key] for key in difflib.get_close_matches(normal(text), spelled, n=limit, cutoff=0.0))


class UnknownName(KeyError):
    """A name that the catalogue does not hold. `nearest` are names that it does hold, nearest first."""

    def __init__(self, name: str, nearest: tuple[str, ...], what: str = "gene") -> None:
        super().__init__(name)
        self.name = name
        self.nearest = nearest
        self.what = what

    def __str__(self) -> str:
        near = f"the nearest names are {', '.join(self.nearest)}" if self.nearest else "the catalogue holds none"
        return f"no {self.what} is called {self.name!r}; {near}"


@dataclass(frozen=True, eq=False)
class Catalogue:
    """All facts of one species. Equal only to itself.

    loci, genes: in catalogue order, the order that shorthand is written in. Genes of one locus stand together, and
        loci that open with a recessive gene come after all others.
    """

    species: Species
    loci: tuple[LocusEntry, ...]
    genes: tuple[Gene, ...]
    linkages: tuple[Linkage, ...]
    compounds: tuple[Compound, ...]
    cautions: tuple[Caution, ...]
    nicknames: tuple[Nickname, ...]
    ambiguous: tuple[AmbiguousWord, ...]
    figures: Mapping[str, Figure]
    sources: Mapping[str, Source]
    effects: tuple[Effect, ...] = ()
    cues: tuple[Cue, ...] = ()

    @cached_property
    def names(self) -> Mapping[str, Gene | Nickname | AmbiguousWord]:
        """Normal form of every name, synonym, abbreviation, nickname and ambiguous word -> its record."""
        found: dict[str, Gene | Nickname | AmbiguousWord] = {}
        for gene in self.genes:
            found |= {normal(name): gene for name in (gene.name, *gene.synonyms, *gene.abbreviations)}
        nicknames = {normal(nickname.name): nickname for nickname in self.nicknames}
        return found | nicknames | {normal(word.name): word for word in self.ambiguous}

    def gene(self, name: str) -> Gene:
        """The gene of this name, synonym or abbreviation, in any spelling that `normal` folds. Raises UnknownName."""
        entry = self.names.get(normal(name))
        if not isinstance(entry, Gene):
            raise UnknownName(name, self.nearest(name))
        return entry

    def nearest(self, text: str, limit: int = 3) -> tuple[str, ...]:
        """Gene names, synonyms and nicknames spelled most like `text`, nearest first."""
        spelled = [name for gene in self.genes for name in (gene.name, *gene.synonyms)]
        return closest(text, [*spelled, *(nickname.name for nickname in self.nicknames)], limit)

    def locus(self, name: str) -> LocusEntry:
        """The locus of this name. Raises UnknownName."""
        try:
            return self._loci[normal(name)]
        except KeyError:
            raise UnknownName(name, closest(name, (locus.name for locus in self.loci)), "locus") from None

    def genes_at(self, locus: str) -> tuple[Gene, ...]:
        """The genes of one locus, in catalogue order. Raises UnknownName."""
        name = self.locus(locus).name
        return tuple(gene for gene in self.genes if gene.locus == name)

    def compound(self, one: str, two: str) -> Compound | None:
        """What is recorded of two genes of one complex together; None if nothing is. Raises UnknownName."""
        return self._compounds.get(frozenset((self.gene(one).name, self.gene(two).name)))

    def nickname_of(self, genes: str) -> Nickname | None:
        """The nickname of exactly these genes, written in full in catalogue order; None if there is none."""
        return self._nicknames.get(normal(genes))

    def cautions_of(self, copies: Mapping[str, int], sex: Sex | None = None) -> tuple[Caution, ...]:
        """The cautions on an animal.

        copies: gene name -> copies the animal has of it, 0 to 2.
        sex: None if not known; cautions on one sex alone then apply too, since their text names the sex.
        """
        return tuple(
            caution
            for caution in self.cautions
            if all(copies.get(part.gene, 0) >= part.copies for part in caution.parts)
            and (caution.sex is None or sex is None or caution.sex == sex)
        )

    def figure(self, name: str) -> Figure:
        """The figure of this name. Raises UnknownName."""
        try:
            return self.figures[name]
        except KeyError:
            raise UnknownName(name, closest(name, self.figures), "figure") from None

    @cached_property
    def _loci(self) -> dict[str, LocusEntry]:
        return {normal(locus.name): locus for locus in self.loci}

    @cached_property
    def _compounds(self) -> dict[frozenset[str], Compound]:
        return {frozenset(compound.genes): compound for compound in self.compounds}

    @cached_property
    def _nicknames(self) -> dict[str, Nickname]:
        return {normal(nickname.genes): nickname for nickname in reversed(self.nicknames)}
