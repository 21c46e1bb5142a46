"""The frozen records of the catalogue. They hold facts as somebody stated them, each with its evidence."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from .qualities import Cover, Quality, Zone

__all__ = [
    "AmbiguousWord",
    "Caution",
    "Compound",
    "Cue",
    "Effect",
    "Evidence",
    "EvidenceKind",
    "Figure",
    "Gene",
    "Inheritance",
    "Linkage",
    "LocusEntry",
    "Nickname",
    "Part",
    "Placement",
    "Severity",
    "Sex",
    "Source",
    "Species",
    "Strength",
    "TwoCopies",
]

Sex = Literal["female", "male"]
Inheritance = Literal["recessive", "incomplete dominant", "dominant"]
TwoCopies = Literal["own look", "few records", "same look", "not viable", "not reported"]
Placement = Literal["autosome", "sex pair", "X only"]
EvidenceKind = Literal["published", "common practice, no source", "trade opinion", "from memory", "planning default"]
Strength = Literal["published study", "published: no harm seen", "anecdotal, widely repeated", "weak", "none"]
Severity = Literal["not viable", "severe", "infertile", "reported"]


@dataclass(frozen=True)
class Source:
    """Where a published fact comes from. `access` says how much of it was read."""

    key: str
    reference: str
    identifier: str
    access: str


@dataclass(frozen=True)
class Evidence:
    """How a fact is known. `sources` are keys of `Source` records and are non-empty if and only if kind is "published".

    A "planning default" is a starting value chosen here; its note says what it was chosen from.
    """

    kind: EvidenceKind
    sources: tuple[str, ...] = ()
    note: str = ""

    def __str__(self) -> str:
        text = f"published: {', '.join(self.sources)}" if self.sources else self.kind
        return f"{text} ({self.note})" if self.note else text


@dataclass(frozen=True)
class Gene:
    """One allele that the trade names. `doubt` says what is disputed about it, "" if nothing is."""

    name: str
    locus: str
    inheritance: Inheritance
    two_copies: TwoCopies
    evidence: Evidence
    synonyms: tuple[str, ...] = ()
    abbreviations: tuple[str, ...] = ()
    two_copy_note: str = ""
    doubt: str = ""
    notes: str = ""

    @property
    def recessive(self) -> bool:
        return self.inheritance == "recessive"


@dataclass(frozen=True)
class LocusEntry:
    """One place in the genome. Two or more genes at one locus form a complex: an animal has at most two of them.

    `symbol` is the published gene, "" if none is. `notes` of a complex say what its pairs look like in general.
    """

    name: str
    placement: Placement
    evidence: Evidence
    complex: bool = False
    notes: str = ""
    symbol: str = ""


@dataclass(frozen=True)
class Linkage:
    """Neighbouring loci on one chromosome. `rates[i]` is the recombination fraction between loci[i] and loci[i + 1].

    On the sex pair the sex-determining point comes first, so there are as many rates as loci.
    """

    loci: tuple[str, ...]
    rates: tuple[Fraction, ...]
    evidence: Evidence
    sex_pair: bool = False
    low: Fraction | None = None
    high: Fraction | None = None


@dataclass(frozen=True)
class Compound:
    """What two different genes of one complex look like together."""

    genes: tuple[str, str]
    look: str
    viable: bool
    evidence: Evidence


@dataclass(frozen=True)
class Part:
    """A gene that takes part in a caution. `copies` is the fewest copies that count, of this gene alone."""

    gene: str
    copies: int = 1


@dataclass(frozen=True)
class Effect:
    """What a gene form does to the looks, as somebody sees it.

    parts: one gene with its copies; two different genes of one complex; () for the wild type or for `complex`.
    complex: name of the locus any two different genes of which do this, unless the pair has an entry of its own.
    on: what the animal must show besides for this to hold; its values then stand in for those of the general entry.
    values: quality -> -3 to 3 against wild type. A quality left out is not established.
    hue, words: the hue, and each zone, in words; what is left out is not said to differ from wild type.
    by: whose opinion it is, "" for the catalogue's.
    """

    parts: tuple[Part, ...]
    values: Mapping[Quality, int]
    evidence: Evidence
    complex: str = ""
    on: tuple[Part, ...] = ()
    hue: str = ""
    words: Mapping[Zone, str] = field(default_factory=dict)
    covers: tuple[Cover, ...] = ()
    note: str = ""
    by: str = ""


@dataclass(frozen=True)
class Cue:
    """Something that can be seen on an animal, and how strongly it points.

    quality, curve: the chance that a keeper notes it where that quality has the value -3, -2, ... 3; seven numbers.
    shown_by: (gene form, chance that it is noted on an animal that shows the form). otherwise: the chance on any other.
    A cue has either a quality with its curve, or forms.
    """

    key: str
    zone: Zone
    text: str
    evidence: Evidence
    quality: Quality | None = None
    curve: tuple[Fraction, ...] = ()
    shown_by: tuple[tuple[Part, Fraction], ...] = ()
    otherwise: Fraction = Fraction(0)


@dataclass(frozen=True)
class Caution:
    """A welfare problem of an animal that has all `parts` (and the sex, if one is named)."""

    parts: tuple[Part, ...]
    text: str
    severity: Severity
    strength: Strength
    evidence: Evidence
    sex: Sex | None = None

    @property
    def keeps_out(self) -> bool:
        """Whether plans leave such animals out until the keeper allows them: all but weak reports."""
        return self.strength in ("published study", "anecdotal, widely repeated")

    def allowed_by(self, genes: Collection[str]) -> bool:
        """Whether a keeper who allows these genes allows such animals."""
        return all(part.gene in genes for part in self.parts)


@dataclass(frozen=True)
class Nickname:
    """A trade name of a combination; `genes` is its meaning in shorthand, every gene in full."""

    name: str
    genes: str
    evidence: Evidence


@dataclass(frozen=True)
class AmbiguousWord:
    """A word with two or more meanings, each in shorthand, every gene in full."""

    name: str
    meanings: tuple[str, ...]
    evidence: Evidence


@dataclass(frozen=True)
class Figure:
    """A number that husbandry or genetics starts from, with where it comes from."""

    name: str
    value: Fraction
    unit: str
    evidence: Evidence


@dataclass(frozen=True)
class Species:
    """Whose facts these are. `heterogametic` is the sex with two different sex chromosomes."""

    key: str
    name: str
    latin: str
    heterogametic: Sex
    evidence: Evidence
    chromosomes: tuple[str, str] = field(default=("X", "Y"))
