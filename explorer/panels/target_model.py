"""The target as two sentences, and which cautions plans may pass over. No widgets, no HTML."""

from __future__ import annotations

from ..looks import carried, caution_text
from ..notation import GenesError, read_wanted
from .desk import Desk
from .offers import Problem, offers

__all__ = ["TargetModel"]


class TargetModel:
    """Reads and sets the target that holds for every tab."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk

    @property
    def sentence(self) -> str:
        """The target in words, for the frame."""
        without = f", not {' or '.join(self.desk.without)}" if self.desk.without else ""
        allowed = f" (cautions passed over: {', '.join(self.desk.allow)})" if self.desk.allow else ""
        return f"{self.desk.target}{without}{allowed}"

    def cautions(self, must: str) -> dict[str, tuple[str, ...]]:
        """Gene -> the cautions that keep it out of plans, for the genes of this collection and of this target.

        must: the text of the target; what cannot be read of it counts for nothing.
        """
        try:
            present = set(read_wanted(must, self.desk.catalogue))
        except GenesError:
            present = set()
        for animal in self.desk.animals or ():
            genotype = animal.genotype
            for name in genotype.varying:
                for diplotype in genotype.parts[name]:
                    present |= carried(genotype.genome.by_name[name], diplotype).keys()
        found: dict[str, dict[str, None]] = {}
        for caution in self.desk.catalogue.cautions:
            genes = [part.gene for part in caution.parts]
            if (caution.keeps_out or caution.severity == "infertile") and present.issuperset(genes):
                for gene in genes:
                    found.setdefault(gene, {})[caution_text(caution)] = None
        return {gene: tuple(texts) for gene, texts in sorted(found.items())}

    def set(self, must: str, must_not: str, allow: tuple[str, ...]) -> tuple[Problem, ...]:
        """Sets the target; what is wrong with the texts, if anything. Then nothing changes."""
        problems = []
        for field, what, text in (("must", "must show", must), ("must_not", "must not show", must_not)):
            if text.strip() or field == "must":
                try:
                    read_wanted(text, self.desk.catalogue)
                except GenesError as error:
                    said = f"{what}: found {error.found}; needed {error.needed}. {error.advice.capitalize()}."
                    problems.append(Problem(said, offers(text, error.found, error.nearest, field)))
        if not problems:
            self.desk.aim(must, (must_not.strip(),) if must_not.strip() else (), allow)
        return tuple(problems)
