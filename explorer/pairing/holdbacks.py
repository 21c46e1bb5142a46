"""Which hatchlings of a clutch to hold back for a target, best first."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from collections.abc import Collection as Some
from dataclasses import dataclass
from fractions import Fraction

from ..catalogue import Caution, Effect, Sex
from ..collection import Collection
from ..collection.clutch import Clutch
from ..genetics import Genotype
from ..looks import Stack, Taste, carried, stack_of
from ..notation import read_wanted, texts_of, write_genes
from .crossing import cross
from .hatchlings import Hatched, hatched
from .nearness import look_closeness

__all__ = ["Holdback", "holdbacks"]

SEXES = ("female", "male", None)


@dataclass(frozen=True)
class Holdback:
    """Like hatchlings of a clutch, as far as they go toward a target.

    label: what each of them carries, in shorthand, for the collection and for a buyer. closeness: share of the target
    that shows, 0 to 1. shows: genes of the target that show. hidden: genes of the target that do not -> chance that it
    carries a copy. share: of the target's gene copies, the part that it has on average, visible or not. barred: genes
    that show and must not. kept_out: a caution keeps such animals out of plans, and is not allowed.
    """

    hatchling: Hatched
    label: str
    stack: Stack
    closeness: Fraction
    shows: tuple[str, ...]
    hidden: tuple[tuple[str, Fraction], ...]
    share: Fraction
    barred: tuple[str, ...]
    cautions: tuple[Caution, ...]
    kept_out: bool

    @property
    def recommended(self) -> bool:
        """Whether it brings the target nearer and nothing speaks against it."""
        return not self.kept_out and not self.barred and bool(self.closeness or self.share)


def holdbacks(
    animals: Collection,
    clutch: Clutch,
    target: str,
    without: Iterable[str] = (),
    *,
    taste: Taste | None = None,
    opinions: Iterable[Effect] = (),
    allow: Some[str] = (),
    progress: Callable[[float, str], None] | None = None,
) -> tuple[Holdback, ...]:
    """The hatchlings that are no animals of the collection yet, those to hold back first.

    By what shows of the target, then by what is carried of it, then by taste; what is kept out, or shows what must not
    show, comes last.

    animals: after `Collection.updated` with a clutch book that holds the clutch. allow: genes whose cautions do not
    keep out. progress: told the share of the work that is done. Raises GenesError if a text cannot be read.
    """
    barred, given = tuple(texts_of(without)), tuple(opinions)
    born = hatched(animals, clutch, progress)
    found = [_holdback(animals, clutch, one, target, barred, taste, given, allow) for one in born]
    return tuple(sorted(found, key=_order))


def _holdback(
    animals: Collection,
    clutch: Clutch,
    one: Hatched,
    target: str,
    without: tuple[str, ...],
    taste: Taste | None,
    opinions: tuple[Effect, ...],
    allow: Some[str],
) -> Holdback:
    catalogue, look = animals.catalogue, one.look
    odds = cross(animals[clutch.dam], animals[clutch.sires[0]])
    wanted, seen = read_wanted(target, catalogue), read_wanted(look, catalogue)
    sure, mean = _copies(one.genotype, wanted)
    cautions = catalogue.cautions_of({**sure, **seen}, _sex(one.row.sex))
    return Holdback(
        one,
        write_genes(one.genotype),
        stack_of(seen, taste=taste, opinions=opinions, catalogue=catalogue),
        look_closeness(odds, look, target, without),
        tuple(gene for gene in wanted if gene in seen),
        tuple((gene, _chance(one.genotype, gene)) for gene in wanted if gene not in seen),
        mean / sum(wanted.values()) if wanted else Fraction(1),
        tuple(gene for text in without for gene in read_wanted(text, catalogue) if gene in seen),
        cautions,
        any((c.keeps_out or c.severity == "infertile") and not c.allowed_by(allow) for c in cautions),
    )


def _order(one: Holdback) -> tuple[object, ...]:
    return (
        one.kept_out,
        bool(one.barred),
        -one.closeness,
        -one.share,
        -one.stack.score,
        SEXES.index(one.hatchling.row.sex),
        one.label,
    )


def _copies(genotype: Genotype, wanted: dict[str, int]) -> tuple[dict[str, int], Fraction]:
    """Gene -> copies that it has for certain, and the mean number of copies that the target needs."""
    sure: dict[str, int] = {}
    mean = Fraction(0)
    for name in genotype.varying:
        group = genotype.genome.by_name[name]
        tables = [(carried(group, diplotype), chance) for diplotype, chance in genotype.parts[name].items()]
        for gene in {gene for table, _ in tables for gene in table}:
            sure[gene] = min(table.get(gene, 0) for table, _ in tables)
            need = wanted.get(gene, 0)
            mean += sum((min(table.get(gene, 0), need) * chance for table, chance in tables), Fraction(0))
    return sure, mean


def _chance(genotype: Genotype, gene: str) -> Fraction:
    """Chance that it carries a copy of the gene."""
    group, _ = genotype.genome.home[gene]
    return sum((chance for d, chance in genotype.part(group).items() if gene in carried(group, d)), Fraction(0))


def _sex(sex: str | None) -> Sex | None:
    return "female" if sex == "female" else "male" if sex == "male" else None
