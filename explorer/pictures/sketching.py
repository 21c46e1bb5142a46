"""From a stack of genes to its sketch."""

from __future__ import annotations

from collections.abc import Iterable

from ..catalogue import Catalogue, Effect
from ..genetics import Genotype
from ..looks import HasGenotype, Stack, stack
from .sketch import draw

__all__ = ["sketch", "sketch_of"]


def sketch(
    genes: str | Genotype | HasGenotype,
    *,
    seed: int = 0,
    opinions: Iterable[Effect] = (),
    catalogue: Catalogue | None = None,
) -> str:
    """A schematic of what these genes look like together: SVG text, with a text alternative.

    It shows a length of the body from above with its flanks rolled out, and the head from above and from one side.
    genes: as for `stack`. seed: chooses among clutch mates, which vary. opinions: a keeper's own effects. Raises
    GenesError for genes that cannot be read.
    """
    return sketch_of(stack(genes, opinions=opinions, catalogue=catalogue), seed)


def sketch_of(found: Stack, seed: int = 0, place: str = "") -> str:
    """The sketch of a stack; what is not established is drawn as in wild type, and its description says so.

    place: where on a page it stands, if the same sketch may stand there twice.
    """
    values: dict[str, float] = {quality: float(value) for quality, value in found.values.items() if value is not None}
    seen = ", ".join(found.notable) or "as wild type"
    unknown = f" Not established of: {', '.join(found.not_established)}." if found.not_established else ""
    title, description = f"Sketch of {found.text}", f"{found.text}: {seen}.{unknown} Schematic: animals vary."
    bare = [layer.name for layer in found.layers if not layer.values]
    note = f"looks not established: {', '.join(bare)}" if bare else ""
    return draw(
        values, title=title, description=description, seed=seed, covered=found.covered, place=place, note=note
    )
