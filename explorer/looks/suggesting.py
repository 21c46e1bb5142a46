"""Which gene would add most to a look, for this taste."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..catalogue import Catalogue, Caution, Effect, Gene
from ..genetics import genome_of
from .cautions import look_cautions
from .stacking import Stack, stack_of
from .tastes import Taste
from .verdicts import Verdict

__all__ = ["Suggestion", "suggestions"]


@dataclass(frozen=True)
class Suggestion:
    """What one more gene form would do. form: the gene, after "second copy of" where one copy is there already.

    after: the whole look with it. gain: how much better that meets the taste, in steps of the scale; negative if worse.
    cautions: those that the look does not have without it. kept_out: whether one of them keeps such animals out of
    plans. established: whether anything is known of how it looks.
    """

    gene: str
    form: str
    after: Stack
    gain: Fraction
    cautions: tuple[Caution, ...]
    kept_out: bool
    established: bool

    @property
    def helps(self) -> tuple[Verdict, ...]:
        """Pairs of the new gene with one that is there, which help each other; strongest first."""
        return tuple(verdict for verdict in self.after.helps if self.gene in verdict.genes)

    @property
    def clashes(self) -> tuple[Verdict, ...]:
        """Pairs of the new gene with one that is there, of which one works against the other; strongest first."""
        return tuple(verdict for verdict in self.after.clashes if self.gene in verdict.genes)


def suggestions(
    look: Mapping[str, int],
    catalogue: Catalogue,
    *,
    taste: Taste | None = None,
    genes: Iterable[str] | None = None,
    opinions: Iterable[Effect] = (),
    allow: Collection[str] = (),
) -> tuple[Suggestion, ...]:
    """Every gene that may be added to a look (gene -> copies that show), by falling gain, then in catalogue order.

    Those that a caution keeps out of plans come after the others, and those of which no look is established come last.

    genes: those to choose from, by full names; None is the whole catalogue. A gene is left out if its place is taken
    twice already, and if the outcome is recorded as not viable or its second copy is not reported. A recessive gene is
    added as it shows. allow: genes whose cautions do not keep out.
    """
    given = tuple(opinions)
    before = stack_of(look, taste=taste, opinions=given, catalogue=catalogue)
    had = look_cautions(catalogue, look)
    allowed = None if genes is None else set(genes)
    found = []
    for gene in catalogue.genes:
        new = _with(look, gene, catalogue) if allowed is None or gene.name in allowed else None
        if new is None:
            continue
        after = stack_of(new, taste=taste, opinions=given, catalogue=catalogue)
        cautions = tuple(caution for caution in look_cautions(catalogue, new) if caution not in had)
        second = "second copy of " if gene.name in look else ""
        found.append(
            Suggestion(
                gene.name,
                f"{second}{gene.name}",
                after,
                after.score - before.score,
                cautions,
                any(caution.keeps_out and not caution.allowed_by(allow) for caution in cautions),
                any(layer.values for layer in after.layers if gene.name in layer.genes),
            )
        )
    return tuple(sorted(found, key=lambda item: (not item.established, item.kept_out, -item.gain)))


def _with(look: Mapping[str, int], gene: Gene, catalogue: Catalogue) -> dict[str, int] | None:
    """The look with one more gene, in catalogue order; None if it cannot be or is not known to live."""
    genome = genome_of(catalogue)
    here = {name: copies for name, copies in look.items() if catalogue.gene(name).locus == gene.locus}
    if sum(here.values()) > 1 or (here == {gene.name: 1} and gene.two_copies != "own look"):
        return None
    copies = 1 + (gene.name in here) if here else (2 if gene.recessive else 1)
    pair = tuple(sorted([*here, gene.name])) if here else (gene.name, gene.name if copies == 2 else "")
    if pair in genome.home[gene.name][1].lethal:
        return None
    return dict(sorted({**look, gene.name: copies}.items(), key=lambda item: genome.rank[item[0]]))
