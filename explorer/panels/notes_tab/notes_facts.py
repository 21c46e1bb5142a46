"""What the Gene notes tab says of one gene beside its looks, as data: words zone by zone, bases, cautions, names."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ...catalogue import MEANINGS, ZONES, Catalogue, Effect, Gene, Part, Quality, Zone
from ...looks import Layer, Stack, caution_text
from ...notation import names_in_words, read_wanted

__all__ = ["Line", "base_lines", "cautions_on", "name_facts", "signed", "value_text", "word_lines"]

CATALOGUE = "the catalogue"
TWO_COPIES = {
    "own look": "a look of their own",
    "few records": "few records",
    "same look": "the same look as one copy",
    "not viable": "recorded as not viable",
    "not reported": "not reported",
}
PLACES = {"autosome": "", "sex pair": "on both sex chromosomes", "X only": "on the X chromosome alone"}


@dataclass(frozen=True)
class Line:
    """One statement. where: the zone, or the base; form: the gene form it is about; who: whose opinion it is."""

    where: str
    form: str
    text: str
    evidence: str
    who: str


def word_lines(stacks: Iterable[Stack]) -> tuple[Line, ...]:
    """What each form is like zone by zone, in words, and after it what a keeper sees otherwise."""
    found: list[tuple[Zone, Line]] = []
    for stack in stacks:
        found += [
            (word.zone, Line(word.zone, word.form, word.text, word.evidence, word.by or CATALOGUE))
            for word in stack.words
        ]
        found += [pair for layer in stack.layers for pair in _opinions(layer)]
    return tuple(line for zone in ZONES for place, line in found if place == zone)


def base_lines(gene: Gene, catalogue: Catalogue) -> tuple[Line, ...]:
    """What the gene does otherwise where an animal shows certain other genes."""
    found = [e for e in catalogue.effects if e.on and [part.gene for part in e.parts] == [gene.name]]
    return tuple(
        Line(
            f"on {' '.join(_form(catalogue, part) for part in effect.on)}",
            _form(catalogue, effect.parts[0]),
            _told(effect),
            str(effect.evidence),
            effect.by or CATALOGUE,
        )
        for effect in found
    )


def cautions_on(gene: Gene, catalogue: Catalogue) -> tuple[str, ...]:
    """Every caution that names the gene, alone or with others, with the strength of its evidence."""
    return tuple(
        caution_text(caution) for caution in catalogue.cautions if any(part.gene == gene.name for part in caution.parts)
    )


def name_facts(gene: Gene, catalogue: Catalogue) -> tuple[tuple[str, str], ...]:
    """Names, inheritance and place, doubts and sources: (what, text)."""
    locus = catalogue.locus(gene.locus)
    there = [other.name for other in catalogue.genes_at(gene.locus) if other.name != gene.name]
    complex_ = f"{locus.name} complex, with {names_in_words(there)}; an animal has at most two of them" if there else ""
    place = [complex_, PLACES[locus.placement], f"published gene: {locus.symbol}" if locus.symbol else ""]
    two = "; ".join(filter(None, (TWO_COPIES[gene.two_copies], gene.two_copy_note)))
    nicknames = [n for n in catalogue.nicknames if gene.name in read_wanted(n.genes, catalogue)]
    keys = dict.fromkeys((*gene.evidence.sources, *locus.evidence.sources))
    sources = [catalogue.sources[key] for key in keys]
    facts = (
        ("also called", ", ".join((*gene.synonyms, *gene.abbreviations))),
        ("inheritance", gene.inheritance),
        ("two copies", two),
        ("place", "; ".join(filter(None, place))),
        ("on that place", locus.notes),
        ("nicknames with it", ", ".join(f"{nickname.name} ({nickname.genes})" for nickname in nicknames)),
        ("remarks", gene.notes),
        ("in doubt", gene.doubt),
        ("how it is known", str(gene.evidence)),
        ("sources", "; ".join(f"{s.key}: {s.reference}, {s.identifier} ({s.access})" for s in sources)),
    )
    return tuple((what, text) for what, text in facts if text)


def value_text(quality: Quality, value: int) -> str:
    """One step of a scale in words: "+2: a brighter body", "0: as wild type"."""
    side = MEANINGS[quality][2 if value > 0 else 1] if value else "as wild type"
    return f"{signed(value)}: {side}"


def signed(value: int) -> str:
    """A whole number with its sign, and no sign for 0."""
    return f"{value:+d}".replace("-", "−") if value else "0"


def _opinions(layer: Layer) -> list[tuple[Zone, Line]]:
    found = []
    for entry in layer.entries:
        for quality, value in entry.values.items() if entry.by and not entry.words else ():
            before = [e.values[quality] for e in layer.entries if not e.by and quality in e.values]
            text = f"{MEANINGS[quality][0]} {value_text(quality, value)}"
            text += f" (the catalogue: {signed(before[-1])})" if before else " (the catalogue has nothing on it)"
            text += f"; {entry.note}" if entry.note else ""
            zone = next(zone for zone, names in ZONES.items() if quality in names)
            found.append((zone, Line(zone, layer.name, text, str(entry.evidence), entry.by)))
    return found


def _told(effect: Effect) -> str:
    said = [f"{zone}: {effect.words[zone]}" for zone in ZONES if zone in effect.words]
    if not said:
        said = [f"{MEANINGS[quality][0]} {value_text(quality, value)}" for quality, value in effect.values.items()]
    return "; ".join([*said, *([effect.note] if effect.note else [])])


def _form(catalogue: Catalogue, part: Part) -> str:
    doubled = part.copies == 2 and not catalogue.gene(part.gene).recessive
    return f"Super {part.gene}" if doubled else part.gene
