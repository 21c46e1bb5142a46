"""A keeper's own taste and opinions on looks: what can be written, what is written, and what went wrong."""

from __future__ import annotations

from ...catalogue import MEANINGS, QUALITIES, Effect, Gene, Quality
from ...collection import CollectionError, opinion, opinions_file, taste_file
from ..desk import Desk
from .notes_facts import value_text

__all__ = ["WEIGHTS", "OpinionModel"]

WEIGHTS = {-2: "avoid", -1: "rather not", 0: "no matter", 1: "want", 2: "want most"}
CLOSED = "Open a collection first: a taste and opinions are kept beside its file."


class OpinionModel:
    """What is the keeper's own on the desk."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk

    def like(self, wish: str, weight: int) -> None:
        """Takes up a weight from -2 to 2 for one wish, without writing a file."""
        self.desk.like({**self.desk.taste, wish: weight})

    def keep_taste(self) -> tuple[str, bool]:
        """Writes the taste beside the collection: what to say of it, and whether it was written."""
        if self.desk.animals is None:
            return CLOSED, False
        try:
            self.desk.like(self.desk.taste, keep=True)
        except CollectionError as error:
            return _told(error), False
        return f"This taste is kept in {taste_file(self.desk.path).name}, beside the collection.", True

    @property
    def qualities(self) -> tuple[tuple[str, Quality], ...]:
        """(name in words, key) of every quality that an opinion can be about."""
        return tuple((MEANINGS[quality][0], quality) for quality in QUALITIES)

    def values(self, quality: Quality) -> tuple[tuple[str, int], ...]:
        """(what it looks like, value) of each step of a quality's scale, from 3 down to -3."""
        return tuple((value_text(quality, value), value) for value in range(3, -4, -1))

    def copies(self, gene: Gene) -> tuple[tuple[str, int], ...]:
        """The copies of a gene that an opinion can be about."""
        return (("two copies", 2),) if gene.recessive else (("one copy", 1), ("two copies", 2))

    def write(self, gene: str, copies: int, quality: str, value: int, by: str, note: str) -> str:
        """Takes an opinion up and writes it beside the collection; what went wrong, "" if nothing did."""
        if self.desk.animals is None:
            return CLOSED
        try:
            self.desk.think(opinion(gene, copies, quality, value, by.strip(), note.strip(), self.desk.catalogue))
        except CollectionError as error:
            return _told(error)
        return ""

    def take_back(self, one: Effect) -> str:
        """Takes an opinion back; what went wrong, "" if nothing did."""
        try:
            self.desk.forget(one)
        except CollectionError as error:
            return _told(error)
        return ""

    @property
    def own(self) -> tuple[tuple[str, Effect], ...]:
        """(in words, opinion) of each opinion that is held."""
        return tuple((self._words(one), one) for one in self.desk.opinions)

    @property
    def refused(self) -> tuple[str, ...]:
        """What is wrong in the files beside the collection; they were left aside when it was opened."""
        return tuple(map(str, self.desk.looks_refused))

    @property
    def refused_remark(self) -> str:
        """What it means that the files were left aside."""
        files = f"{opinions_file(self.desk.path).name} and {taste_file(self.desk.path).name}"
        return (
            f"{files} beside the collection: something there could not be read when the collection was opened, so it"
            " was left aside. Mend it and open the collection again. What you write here starts that file afresh; the"
            " old one stays beside it as a dated backup."
        )

    def _words(self, one: Effect) -> str:
        (part,) = one.parts
        form = part.gene
        if not self.desk.catalogue.gene(part.gene).recessive:
            form += ", two copies" if part.copies == 2 else ", one copy"
        said = "; ".join(f"{MEANINGS[q][0]} {value_text(q, value)}" for q, value in one.values.items())
        return f"{one.by} on {form}: {said}{f' ({one.note})' if one.note else ''}"


def _told(error: CollectionError) -> str:
    return " ".join(map(str, error.findings))
