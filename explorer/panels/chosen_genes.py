"""The genes that are set side by side in the Gene notes tab; a choice that no animal could be is refused in words."""

from __future__ import annotations

from collections.abc import Mapping

from ..genetics import genome_of
from ..looks import likeliest_look, may_carry
from ..notation import GenesError, names_in_words, read_wanted, write_genes, write_shown
from .desk import Desk
from .offers import Problem, offers

__all__ = ["MOST_GENES", "ChosenGenes"]

MOST_GENES = 5


class ChosenGenes:
    """look: gene -> copies that show, the first gene first; never empty. said: what the last change left out, or ""."""

    def __init__(self, desk: Desk) -> None:
        self._desk, self.said = desk, ""
        first = next(iter(read_wanted(desk.target, desk.catalogue)), desk.catalogue.genes[0].name)
        self.look: dict[str, int] = self._checked({first: 1})

    def choose(self, text: str) -> tuple[Problem, ...]:
        """One gene, or all that a text in shorthand names, in place of what was there; what is wrong with the text."""
        return self._take({}, text)

    def add(self, text: str) -> tuple[Problem, ...]:
        """One more gene; what is wrong with it."""
        return self._take(self.look, text)

    def add_suggested(self, gene: str) -> tuple[Problem, ...]:
        """One more gene as it shows, or the second copy of one that is there."""
        return self._put({**self.look, gene: 1 + (gene in self.look)})

    def take_out(self, gene: str) -> None:
        """Takes a gene out, unless it is the only one."""
        left = {name: copies for name, copies in self.look.items() if name != gene}
        if left:
            self.look, self.said = self._checked(left), ""

    def set_copies(self, gene: str, copies: int) -> tuple[Problem, ...]:
        """Gives a gene one copy or two."""
        return self._put({**self.look, gene: copies})

    def set_look(self, look: Mapping[str, int]) -> None:
        """These genes and no others: gene -> copies that show."""
        self.look, self.said = dict(look), ""

    def offers_copies(self, gene: str) -> bool:
        """Whether its place has room for a second copy, and two copies have a look of their own."""
        catalogue = self._desk.catalogue
        here = catalogue.gene(gene)
        alone = not any(catalogue.gene(name).locus == here.locus for name in self.look if name != gene)
        return alone and not here.recessive and here.two_copies in ("own look", "few records")

    def start_from(self, key: str) -> None:
        """What an animal of the collection shows; what it carries without showing is left out, and named in `said`."""
        assert self._desk.animals is not None
        animal = self._desk.animals[key]
        seen = likeliest_look(animal.genotype)
        carried = may_carry(animal.genotype) - set(seen)
        hidden = [gene.name for gene in self._desk.catalogue.genes if gene.name in carried]
        kept, more = dict(list(seen.items())[:MOST_GENES]), list(seen)[MOST_GENES:]
        said = [f"{animal.id} {animal.name}".strip() + f" is {write_genes(animal.genotype)}"]
        if hidden:
            said.append(f"left out, since it does not show: {names_in_words(hidden)}")
        if more:
            said.append(f"left out, since at most {MOST_GENES} genes are set side by side: {names_in_words(more)}")
        if kept:
            self.look = kept
        else:
            said.append("nothing of it shows, so the genes below stay as they were")
        self.said = f"{'; '.join(said)}."

    def _take(self, before: Mapping[str, int], text: str) -> tuple[Problem, ...]:
        try:
            wanted = read_wanted(text, self._desk.catalogue)
        except GenesError as error:
            return (Problem(_wrong(error), offers(text, error.found, error.nearest)),)
        twice = [gene for gene in wanted if gene in before]
        if twice:
            there = f"{names_in_words(twice)} is there already"
            return (Problem(f"{there}. Choose another gene, or two copies of that one."),)
        if not wanted:
            return (Problem("That names no gene: wild type is the first sketch of every gene."),)
        return self._put({**before, **wanted})

    def _put(self, look: Mapping[str, int]) -> tuple[Problem, ...]:
        if len(look) > MOST_GENES:
            return (Problem(f"At most {MOST_GENES} genes can be set side by side. Take one out first."),)
        try:
            self.look = self._checked(look)
        except GenesError as error:
            return (Problem(f"Nothing was changed. {_wrong(error)}"),)
        self.said = ""
        return ()

    def _checked(self, look: Mapping[str, int]) -> dict[str, int]:
        """The same genes in their order, each with the copies that show. Raises GenesError for what no animal is."""
        catalogue = self._desk.catalogue
        found = read_wanted(write_shown(genome_of(catalogue), look), catalogue)
        return {gene: found[gene] for gene in look}


def _wrong(error: GenesError) -> str:
    return f"Found {error.found}; needed {error.needed}. {error.advice[:1].upper()}{error.advice[1:]}."
