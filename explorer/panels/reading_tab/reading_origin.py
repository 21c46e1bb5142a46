"""Where an animal that is read comes from: a clutch of the collection, or genes that come into question. No widgets."""

from __future__ import annotations

from fractions import Fraction

from ...collection import Animal
from ...looks import may_carry
from ...pairing import Reading, names_in_words, number_word, read_animal
from ...pairing.pointing import crowded
from ..choosing import ROLES, Choice, Role, choices, suggested
from ..desk import Desk

__all__ = ["ReadingOrigin"]


class ReadingOrigin:
    """known: whether it is from a clutch of this collection. dam, sire: ids, "" for unknown.

    candidates: genes that an unknown parent may carry, each on `share` percent of such animals' chromosomes.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.known = True
        self.dam = self.sire = ""
        self._begun = False
        self.candidates: tuple[str, ...] = ()
        self.share = round(desk.catalogue.figure("candidate_frequency").value * 100)

    def refresh(self) -> None:
        """Takes up who is in the collection: a parent that is gone is unknown; a new collection is begun anew."""
        if self.desk.animals is None:
            return
        named = [role for role in ROLES if getattr(self, role)]
        for role in named:
            if getattr(self, role) not in {choice.id for choice in self.choices(role)}:
                setattr(self, role, "")
        if not (self.dam or self.sire) and (named or not self._begun):
            self.dam, self.sire = suggested(self.desk, "", "")
        self._begun = True

    def choices(self, role: Role) -> tuple[Choice, ...]:
        """Who can be the dam or the sire; first, that it is not known."""
        return (Choice("", "unknown"), *choices(self.desk, role))

    def suppose(self, gene: str, taken: bool = True) -> None:
        """Adds a candidate gene at the end, or takes it away."""
        left = tuple(name for name in self.candidates if name != gene)
        self.candidates = (*left, gene) if taken else left

    @property
    def asks_for_genes(self) -> bool:
        """Whether candidate genes count, since a parent is unknown."""
        return not (self.known and self.dam and self.sire)

    @property
    def gene_choices(self) -> tuple[Choice, ...]:
        """The genes that can be added, those in the collection first."""
        mine = {gene for animal in self.desk.animals or () for gene in may_carry(animal.genotype)}
        free = [gene.name for gene in self.desk.catalogue.genes if gene.name not in self.candidates]
        found = [Choice(name, f"{name} (in the collection)") for name in free if name in mine]
        return (*found, *(Choice(name, name) for name in free if name not in mine))

    @property
    def blocker(self) -> str:
        """Why nothing can be read, in plain words; "" if something can."""
        if self.known and self.desk.animals is None:
            return "No collection is open. Open a file in the Collection tab, or choose an unknown origin."
        if self.known and self.dam and self.dam == self.sire:
            return f"{self.dam} cannot be both the dam and the sire. Choose another for one of them."
        if not self.asks_for_genes:
            return ""
        if not self.candidates and not (self.known and (self.dam or self.sire)):
            return "Which genes come into question? Add one or more."
        full = crowded(self.candidates, Fraction(self.share, 100), self.desk.catalogue)
        if full:
            return (
                f"{names_in_words(full)} share one place on the chromosome, which has only one of them: "
                f"{number_word(len(full))} at {self.share} % each are too many. Take one away or lower the slider."
            )
        return ""

    @property
    def taken_as(self) -> str:
        """What an unknown parent is taken for if no gene is named that it may carry; "" where none is."""
        if not self.known or self.candidates or bool(self.dam) == bool(self.sire):
            return ""
        return f"the unknown {'sire' if self.dam else 'dam'} is taken to carry nothing; name genes that it may carry"

    def start(self) -> Reading:
        """What the animal may carry before any cue. Raises ValueError if that is too much to tell apart."""
        frequency = dict.fromkeys(self.candidates, Fraction(self.share, 100)) if self.asks_for_genes else None
        dam, sire, desk = self._animal(self.dam), self._animal(self.sire), self.desk
        return read_animal({}, dam, sire, frequency, opinions=desk.opinions, catalogue=desk.catalogue)

    def _animal(self, key: str) -> Animal | None:
        animals = self.desk.animals
        return animals[key] if self.known and key and animals is not None else None
