"""What is written of a hatchling's look, sure or unsure, as what shows at each linkage group."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from ..catalogue import Catalogue, Gene, normal
from ..genetics import Genotype, viable
from ..looks import Look, likeliest_look, shown, stack_of
from ..notation import ImpossibleGenes, UnreadableGenes, read_genes, write_genes
from ..notation.understanding import understand
from ..notation.words import cut
from .evidence import claims

__all__ = ["WrittenLook", "read_look"]

PARTS = re.compile(r"[,;+/()]")
BRACKETED = re.compile(r"\(\s*(maybe|perhaps|possibly|\?+)\s*\)", re.IGNORECASE)
MARK = re.compile(r"(?<!\w)(?:maybe|perhaps|possibly)(?!\w)|\?+", re.IGNORECASE)
BESIDE_THE_POINT = ("may lie on", "gives no percentage")
"""Stand in notices on copies that do not show: where they lie, and how likely they are."""


@dataclass(frozen=True)
class WrittenLook:
    """A look as written. seen: linkage group -> what surely shows there, where anything does; unsure: genes that may
    show beside it. covered: whether it hides everything else. notices: what of the text is not used."""

    seen: Mapping[str, Look]
    unsure: tuple[str, ...]
    covered: bool
    notices: tuple[str, ...]


@lru_cache(maxsize=4096)
def read_look(text: str, sex: str | None, catalogue: Catalogue) -> WrittenLook:
    """The look of a hatchling of this sex, from shorthand such as "Super Pastel, maybe Yellow Belly".

    "maybe", "perhaps" or "possibly" before a gene, or after the last one of a part, make it unsure, and so does "?"
    after or before it; what else is named is sure. Raises GenesError if the text cannot be read, is true of no
    hatchling, or does not say which gene is meant.
    """
    sure, unsure = _parted(text, catalogue)
    genotype = read_genes(sure, sex, catalogue)
    seen: dict[str, Look] = {}
    unseen: list[str] = []
    for name, part in genotype.parts.items():
        group = genotype.genome.by_name[name]
        looks = {shown(group, diplotype) for diplotype in part}
        if len(looks) > 1:
            needed = "what the hatchling shows, or maybe shows"
            raise UnreadableGenes(text, f'"{sure}", which is more than one look', needed, _settling(looks))
        if not any(viable(group, diplotype) for diplotype in part):
            found = f"{write_genes(genotype)}, which is recorded as not viable"
            raise ImpossibleGenes(text, found, "a look that hatches", "check how many copies it has")
        look = looks.pop()
        if look:
            seen[name] = look
        hidden = dict.fromkeys(gene for gene, _ in claims(group, part))
        unseen += [f"a second copy of {gene}" if gene in dict(look) else f"het {gene}" for gene in hidden]
    for gene in unsure:
        _check_room(text, gene, genotype, seen)
    covered = "all" in stack_of(likeliest_look(genotype), catalogue=catalogue).covered
    notices = [notice for notice in genotype.notices if not any(words in notice for words in BESIDE_THE_POINT)]
    if unseen:
        notices.append(f"{' and '.join(unseen)} cannot be seen on a hatchling, so that it says nothing here")
    if sides := understand(sure, catalogue).sides:
        notices.append(f'"{sides[0].words}" cannot be seen on a hatchling, so that it says nothing here')
    return WrittenLook(seen, unsure, covered, tuple(notices))


def _settling(looks: set[Look]) -> str:
    genes = sorted({gene for look in looks for gene, _ in look})
    return f'leave the figures out, and write "maybe {genes[0]}" if it may show' if genes else "name what shows"


def _check_room(text: str, gene: str, genotype: Genotype, seen: Mapping[str, Look]) -> None:
    """Raises ImpossibleGenes if the gene cannot show beside what surely shows."""
    group, locus = genotype.genome.home[gene]
    here = {name: copies for name, copies in seen.get(group.name, ()) if name in locus.by_name}
    if gene in here:
        found = f"{gene} as sure and as unsure"
        advice = f'write "{gene}" if one copy or two are told apart for sure, else "maybe {gene}" alone'
        raise ImpossibleGenes(text, found, "one of the two", advice)
    if sum(here.values()) > 1 and any(locus.by_name[name].shows_alone or n == 1 for name, n in here.items()):
        found = f"{' and '.join(here)} beside an unsure {gene}, of one complex that has two places"
        advice = f'leave {gene} out, or write "maybe" before the others too'
        raise ImpossibleGenes(text, found, "room for the gene", advice)


def _parted(text: str, catalogue: Catalogue) -> tuple[str, tuple[str, ...]]:
    """The text without what is unsure, and the names of the unsure genes."""
    sure: list[str] = []
    unsure: list[str] = []
    for part in PARTS.split(BRACKETED.sub(r" \1 ", text)):
        pieces = [piece.strip() for piece in MARK.split(part)]
        meant: set[int] = set()
        for i, match in enumerate(MARK.finditer(part)):
            mark, before, after = match.group(), pieces[i], pieces[i + 1]
            backwards = mark.startswith("?") and not re.match(r"\s\?+\S", part[match.start() - 1 :])
            if before and (backwards or not after):
                if i not in meant:
                    pieces[i], gene = _last_gene(text, before, catalogue)
                    unsure.append(gene)
            elif after:
                unsure.append(_only_gene(text, after, catalogue))
                meant.add(i + 1)
            else:
                raise UnreadableGenes(text, f'"{mark}" without a gene', "a gene beside it", f'leave "{mark}" out')
        sure += [piece for i, piece in enumerate(pieces) if piece and i not in meant]
    plain = ", ".join(sure)
    return plain if plain or not unsure else "Normal", tuple(dict.fromkeys(unsure))


def _only_gene(text: str, piece: str, catalogue: Catalogue) -> str:
    words = cut(piece, catalogue)
    if len(words) == 1 and isinstance(words[0].means, Gene):
        return words[0].means.name
    if len(words) > 1 and all(isinstance(word.means, Gene) for word in words):
        first, *others = (word.text for word in words)
        advice = f'write "maybe {first}, {" ".join(others)}" or "{", ".join(f"maybe {word.text}" for word in words)}"'
        raise UnreadableGenes(text, f'"maybe" before "{piece}"', "one gene after it, then a comma", advice)
    raise _no_gene(text, piece)


def _last_gene(text: str, piece: str, catalogue: Catalogue) -> tuple[str, str]:
    """What stands before the last gene of a piece, and that gene."""
    words = cut(piece, catalogue)
    last = words[-1].means
    alone = len(words) == 1 or words[-2].kind in ("gene", "nickname", "normal")
    tokens = piece.split()
    for i in range(len(tokens)):
        if isinstance(last, Gene) and alone and normal("".join(tokens[i:])) == normal(words[-1].text):
            return " ".join(tokens[:i]), last.name
    raise _no_gene(text, piece)


def _no_gene(text: str, piece: str) -> UnreadableGenes:
    if piece.casefold().startswith("super "):
        advice = f'write "{piece}" if it is surely so, or "maybe {piece[6:]}" if it may show at all'
        needed = "a gene that may show: an unsure number of copies is not used"
        return UnreadableGenes(text, f'"{piece}" as unsure', needed, advice)
    advice = "name each gene that may show, without het words or figures, and write nicknames out"
    return UnreadableGenes(text, f'"{piece}" as unsure', "the name of one gene", advice)
