"""What the Gene notes tab says and does. No widgets, no HTML; what genes look like is worked out in `looks`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations
from typing import Any

from ...catalogue import MEANINGS, Gene
from ...looks import Stack, Verdict, look_remarks, may_carry, stack_of
from ...looks.pairs import GenePair, gene_pairs
from ...notation import write_genes
from ...pictures.matrix import matrix_cells, matrix_in_words
from ..chosen_genes import MOST_GENES, ChosenGenes
from ..desk import Desk
from .notes_facts import Line, base_lines, cautions_on, name_facts, word_lines
from .notes_sentences import established, gene_sentence, stack_sentence
from .notes_suggestions import suggestion_rows

__all__ = ["Form", "NotesModel", "Said"]

NOT_ESTABLISHED = "Its look is not established, so nothing is drawn."


@dataclass(frozen=True)
class Form:
    """A gene with no, one or two copies. stack: None where no look is established. lines: remarks on it."""

    title: str
    stack: Stack | None
    lines: tuple[str, ...] = ()


@dataclass(frozen=True)
class Said:
    """A sentence on genes set side by side, and how it is known."""

    text: str
    evidence: str


class NotesModel:
    """chosen: the genes that are set side by side. seed: of all sketches; it chooses among clutch mates."""

    def __init__(self, desk: Desk, seed: int = 1) -> None:
        self.desk, self.seed = desk, seed
        self.chosen = ChosenGenes(desk)
        self._stacks: dict[tuple[tuple[str, int], ...], Stack] = {}

    def refresh(self) -> None:
        """Takes up what changed on the desk."""
        self._stacks.clear()
        for name in ("collected", "pairs", "cells", "cells_in_words"):
            self.__dict__.pop(name, None)

    @property
    def gene(self) -> Gene:
        """The first gene."""
        return self.desk.catalogue.gene(next(iter(self.chosen.look)))

    @property
    def together(self) -> bool:
        """Whether several genes are set side by side."""
        return len(self.chosen.look) > 1

    @cached_property
    def collected(self) -> tuple[str, ...]:
        """The genes that kept animals show, carry or may carry, in catalogue order."""
        kept = [animal for animal in self.desk.animals or () if animal.status == "kept"]
        found = {gene for animal in kept for gene in may_carry(animal.genotype)}
        return tuple(gene.name for gene in self.desk.catalogue.genes if gene.name in found)

    @property
    def genes(self) -> tuple[tuple[Gene, bool], ...]:
        """Every gene of the catalogue and whether it is in the collection, those that are first."""
        every = [(gene, gene.name in self.collected) for gene in self.desk.catalogue.genes]
        return tuple(sorted(every, key=lambda item: not item[1]))

    @property
    def animals(self) -> tuple[tuple[str, str], ...]:
        """(label, id) of each animal of the collection."""
        every = self.desk.animals or ()
        return tuple((f"{f'{a.id} {a.name}'.strip()} · {write_genes(a.genotype)}", a.id) for a in every)

    @property
    def headline(self) -> str:
        """The answer in a sentence."""
        if self.together:
            return stack_sentence(self.stack)
        return gene_sentence(self.gene, self._of(1), self._of(2))

    @property
    def stack(self) -> Stack:
        """The genes that are set side by side, on one animal."""
        return self._stack(self.chosen.look)

    @property
    def forms(self) -> tuple[Form, Form, Form]:
        """The first gene: wild type, one copy, two copies. What is not established has no stack."""
        gene, wild = self.gene, self._stack({})
        if gene.recessive:
            one = Form("one copy", replace(wild, text=f"het {gene.name}"), ("A carrier looks like wild type.",))
        else:
            one = self._form("one copy", self._of(1))
        note = (gene.two_copy_note,) if gene.two_copy_note else ()
        remarks = {
            "same look": "The same look as one copy.",
            "not viable": "Recorded as not viable.",
            "not reported": "Not reported.",
            "few records": "Few records of it.",
        }
        remark = (remarks[gene.two_copies],) if gene.two_copies in remarks else ()
        two = self._form("two copies", self._of(2), (*remark, *note))
        if gene.two_copies == "same look" and two.stack is None and one.stack is not None:
            two = Form("two copies", replace(one.stack, text=f"Super {gene.name}"), (*remark, *note))
        every = self.desk.catalogue.effects
        overall = [e.words["overall"] for e in every if not e.parts and not e.complex and "overall" in e.words]
        return Form("wild type", replace(wild, text="wild type"), tuple(overall)), one, two

    @property
    def words(self) -> tuple[Line, ...]:
        """Zone by zone: of one gene each form, of several each as it is set."""
        if self.together:
            return word_lines([self.stack])
        return word_lines(self._of(copies) for copies in ((2,) if self.gene.recessive else (1, 2)))

    @property
    def unknown(self) -> tuple[str, ...]:
        """What is not established of the forms that `words` is about."""
        stacks = [self.stack] if self.together else [form.stack for form in self.forms[1:] if form.stack]
        return tuple(
            f"Not established of {form}: {', '.join(MEANINGS[quality][0] for quality in lacking)}."
            for stack in stacks
            for form, lacking in stack.not_established.items()
        )

    @property
    def bases(self) -> tuple[Line, ...]:
        """What the first gene does otherwise on certain bases."""
        return base_lines(self.gene, self.desk.catalogue)

    @property
    def names(self) -> tuple[tuple[str, str], ...]:
        """Names, inheritance, place, doubts and sources of the first gene."""
        return name_facts(self.gene, self.desk.catalogue)

    @property
    def nickname(self) -> str:
        """What the trade calls just these genes together, "" if nothing."""
        found = self.desk.catalogue.nickname_of(self.stack.text)
        return found.name if found else ""

    @property
    def cautions(self) -> tuple[str, ...]:
        """Of one gene every caution that names it; of several those that such an animal meets."""
        if not self.together:
            return cautions_on(self.gene, self.desk.catalogue)
        return look_remarks(self.desk.catalogue, self.chosen.look)

    @property
    def compounds(self) -> tuple[Said, ...]:
        """Of chosen genes of one complex, what is recorded of the two together."""
        catalogue, found = self.desk.catalogue, []
        for one, two in combinations(self.chosen.look, 2):
            locus, record = catalogue.locus(catalogue.gene(one).locus), catalogue.compound(one, two)
            if record:
                look = record.look if record.viable else f"{record.look}; recorded as not viable"
                found.append(Said(f"{one} with {two}: {look}", str(record.evidence)))
            elif locus.name == catalogue.gene(two).locus:
                told = locus.notes or "what they look like together is not recorded"
                found.append(Said(f"{one} with {two}: {told}", str(locus.evidence)))
        return tuple(found)

    @property
    def helps(self) -> tuple[Said, ...]:
        """Which of the genes set side by side help each other, strongest first."""
        return tuple(map(_said, self.stack.helps))

    @property
    def spoils(self) -> tuple[Said, ...]:
        """Which of them spoil something of another's."""
        return tuple(map(_said, self.stack.clashes))

    @property
    def covered(self) -> tuple[Said, ...]:
        """What of them cannot be seen, since another covers it."""
        return tuple(map(_said, self.stack.hidden))

    @property
    def suggestion_rows(self) -> list[dict[str, Any]]:
        """The genes that would add most to those that are set, those of the collection first; rows of a table."""
        full = len(self.chosen.look) == MOST_GENES
        return [] if full else suggestion_rows(self.desk, self.chosen.look, self.collected)

    @cached_property
    def pairs(self) -> dict[frozenset[str], GenePair]:
        """Every two genes of the collection; worked out once for each change of animals, taste or opinions."""
        return gene_pairs(self.collected, self.desk.catalogue, taste=self.desk.taste, opinions=self.desk.opinions)

    @cached_property
    def cells(self) -> list[list[dict[str, str] | None]]:
        """The square of the collection's genes, as the drawing takes it."""
        return matrix_cells(self.collected, self.pairs)

    @cached_property
    def cells_in_words(self) -> str:
        """The same as text."""
        return matrix_in_words(self.collected, self.pairs)

    @property
    def pair(self) -> GenePair | None:
        """The pair of the square that is set side by side; None if it is none of them."""
        return self.pairs.get(frozenset(self.chosen.look))

    def show_pair(self, one: str, two: str) -> None:
        """Sets two genes of the square side by side, and no others."""
        self.chosen.set_look(self.pairs[frozenset((one, two))].stack.look)

    def _of(self, copies: int) -> Stack:
        return self._stack({self.gene.name: copies})

    def _stack(self, look: Mapping[str, int]) -> Stack:
        desk, key = self.desk, tuple(look.items())
        if key not in self._stacks:
            self._stacks[key] = stack_of(look, taste=desk.taste, opinions=desk.opinions, catalogue=desk.catalogue)
        return self._stacks[key]

    def _form(self, title: str, stack: Stack, lines: tuple[str, ...] = ()) -> Form:
        known = established(stack)
        return Form(title, stack if known else None, lines if known else (*lines, NOT_ESTABLISHED))


def _said(verdict: Verdict) -> Said:
    return Said(verdict.reason, f"{verdict.evidence}; as {verdict.by} sees it" if verdict.by else verdict.evidence)
