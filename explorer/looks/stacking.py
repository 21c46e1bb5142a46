"""What several genes look like together: the combined effects, and who helps, spoils or hides whom."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Protocol

from ..catalogue import MEANINGS, QUALITIES, ZONES, Catalogue, Caution, Cover, Effect, Quality, Zone, load_catalogue
from ..genetics import Genotype, genome_of
from ..notation import read_genes, write_shown
from .cautions import look_cautions
from .covering import Hiding, combined, hidings
from .layers import Layer, layers_of
from .tastes import Taste, checked_taste, score
from .verdicts import Verdict, clashes, helps, hidden
from .visible import likeliest_look

__all__ = ["HasGenotype", "Stack", "Words", "stack", "stack_of"]


class HasGenotype(Protocol):
    """An animal: whatever has a genotype."""

    @property
    def genotype(self) -> Genotype: ...


@dataclass(frozen=True)
class Words:
    """What one form does in one zone, in words. by: whose opinion it is, "" for the catalogue's."""

    zone: Zone
    form: str
    text: str
    evidence: str
    by: str


@dataclass(frozen=True)
class Stack:
    """A look taken apart and put together. look: gene -> copies that show, in catalogue order.

    layers: the gene forms. taste: every wish with its weight. cautions: welfare problems of an animal that looks so.
    """

    text: str
    look: Mapping[str, int]
    layers: tuple[Layer, ...]
    taste: Taste
    cautions: tuple[Caution, ...] = ()

    @cached_property
    def values(self) -> Mapping[Quality, Fraction | None]:
        """Quality -> -3 to 3 against wild type; None where nothing is established."""
        return combined(self.layers)

    @property
    def effects(self) -> dict[Zone, dict[Quality, Fraction | None]]:
        """The same values by body zone."""
        return {zone: {quality: self.values[quality] for quality in names} for zone, names in ZONES.items()}

    def value(self, quality: Quality) -> Fraction | None:
        """One quality's value. Raises KeyError, naming the qualities there are."""
        if quality not in self.values:
            raise KeyError(f"no quality is called {quality!r}; there are {', '.join(QUALITIES)}")
        return self.values[quality]

    @cached_property
    def helps(self) -> tuple[Verdict, ...]:
        """Pairs that lean the same way on something wanted; strongest first."""
        return helps(self.layers, self.taste)

    @cached_property
    def clashes(self) -> tuple[Verdict, ...]:
        """Pairs of which one works against the other, or covers its best feature; strongest first."""
        return clashes(self.layers, self.taste, self._hidings)

    @cached_property
    def hidden(self) -> tuple[Verdict, ...]:
        """What cannot be seen of a gene since another covers it; the one that covers comes first in `genes`.

        A form that covers everything is named even alone: other genes may be there unseen.
        """
        return hidden(self.layers, self._hidings)

    @property
    def covered(self) -> tuple[Cover, ...]:
        """What is covered on this animal."""
        return tuple(dict.fromkeys(cover for layer in self.layers for cover in layer.covers))

    @property
    def score(self) -> Fraction:
        """How well the look meets the taste, -3 to 3; wild type has 0."""
        return score(self.values, self.taste)

    @property
    def not_established(self) -> dict[str, tuple[Quality, ...]]:
        """Form -> the qualities on which nothing is known of it; only forms that lack some."""
        found = {layer.name: tuple(q for q in QUALITIES if not _known(layer, q)) for layer in self.layers}
        return {name: lacking for name, lacking in found.items() if lacking}

    @property
    def words(self) -> tuple[Words, ...]:
        """What each form does zone by zone, in words."""
        found = [
            Words(zone, layer.name, text, str(entry.evidence), entry.by)
            for zone in ZONES
            for layer in self.layers
            for entry in layer.entries
            if (text := layer.words.get(zone)) and entry.words.get(zone) == text
        ]
        hues = [
            Words("overall", layer.name, f"hue: {layer.hue}", str(entry.evidence), entry.by)
            for layer in self.layers
            for entry in layer.entries
            if layer.hue and entry.hue == layer.hue
        ]
        return (*found, *hues)

    @property
    def notable(self) -> tuple[str, ...]:
        """What differs by a step or more from wild type, in words, the strongest first."""
        far = [(quality, v) for quality, v in self.values.items() if v is not None and abs(v) >= 1]
        return tuple(
            f"{MEANINGS[quality][2 if v > 0 else 1]}{' (strongly)' if abs(v) >= 2 else ''}"
            for quality, v in sorted(far, key=lambda item: -abs(item[1]))
            if quality != "rear" or v != self.values["dorsal"]
        )

    @cached_property
    def _hidings(self) -> tuple[Hiding, ...]:
        return hidings(self.layers)


def stack(
    genes: str | Genotype | HasGenotype,
    *,
    taste: Taste | None = None,
    opinions: Iterable[Effect] = (),
    catalogue: Catalogue | None = None,
) -> Stack:
    """What these genes look like together, by body zone, and which of them help, spoil or hide one another.

    genes: shorthand, a genotype or an animal; what does not show takes no part, and an uncertain animal is taken as it
        most likely looks. taste: wish -> weight from -2 to 2; None is a taste for reduced, bright, contrasting, clean,
        orange and blushing animals. opinions: a keeper's own effects, which win over the catalogue's.
    All effects are trade opinion: tendencies, of which animals vary. Raises GenesError, and ValueError for a taste that
    is not known or genes of another catalogue.
    """
    if not isinstance(genes, str | Genotype):
        catalogue = catalogue or getattr(getattr(genes, "knowledge", None), "catalogue", None)
        genes = genes.genotype
    catalogue = catalogue or load_catalogue()
    genotype = read_genes(genes, catalogue=catalogue) if isinstance(genes, str) else genes
    if genotype.genome is not genome_of(catalogue):
        raise ValueError("these genes were read with another catalogue; give that as catalogue=")
    return stack_of(likeliest_look(genotype), taste=taste, opinions=opinions, catalogue=catalogue)


def stack_of(
    look: Mapping[str, int],
    *,
    taste: Taste | None = None,
    opinions: Iterable[Effect] = (),
    catalogue: Catalogue | None = None,
) -> Stack:
    """As `stack`, of a look: gene -> copies that show, by full names."""
    catalogue = catalogue or load_catalogue()
    text = write_shown(genome_of(catalogue), look)
    layers, cautions = layers_of(look, catalogue, opinions), look_cautions(catalogue, look)
    return Stack(text, dict(look), layers, checked_taste(taste), cautions)


def _known(layer: Layer, quality: Quality) -> bool:
    return quality in layer.values or (quality == "rear" and "dorsal" in layer.values)
