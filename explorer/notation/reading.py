"""Reads trade shorthand: what an animal carries, or what a target must show."""

from __future__ import annotations

from ..catalogue import Catalogue, load_catalogue
from ..genetics import Genome, Genotype, genome_of
from .claims import Claim, Said
from .errors import ImpossibleGenes, UnreadableGenes
from .phase import Claims, linked_part, sex_part
from .placing import settled
from .understanding import understand

__all__ = ["read_genes", "read_wanted"]


def read_genes(text: str, sex: str | None = None, catalogue: Catalogue | None = None) -> Genotype:
    """What an animal is known to carry, from shorthand such as "Super Pastel Leopard 66% het Desert Ghost".

    sex: "female", "male", or None if not known; both sexes are then equally likely, unless the genes fit one alone.
    Returns the genotype, with a notice for every reading that the words alone do not settle. Raises UnreadableGenes,
    ImpossibleGenes or AmbiguousGenes.
    """
    if sex not in ("female", "male", None):
        raise UnreadableGenes(str(sex), f'the sex "{sex}"', "female, male or None", "give one of these")
    catalogue = catalogue or load_catalogue()
    genome = genome_of(catalogue)
    said = understand(text, catalogue)
    claims, notices = _by_locus(text, said, genome)
    sex_group, *others = genome.groups
    part, remarks = sex_part(text, claims, said.sides, sex, genome)
    parts = {sex_group.name: part}
    for group in others:
        if any(locus.name in claims for locus in group.loci):
            parts[group.name] = linked_part(text, claims, group, genome)
    return Genotype(genome, parts, tuple(dict.fromkeys([*notices, *remarks])))


def read_wanted(text: str, catalogue: Catalogue | None = None) -> dict[str, int]:
    """What a target must show: gene -> copies, in catalogue order.

    A recessive gene counts 2, unless the target names another gene of its complex: two genes of one complex count 1
    each. Any other gene counts 1, and 2 after "Super". "Normal" asks for nothing. Raises GenesError, and
    ImpossibleGenes if the text holds a het word or a percentage.
    """
    catalogue = catalogue or load_catalogue()
    genome = genome_of(catalogue)
    said = understand(text, catalogue)
    hidden = [claim for claim in said.claims if claim.state == "het" or claim.chance < 1]
    if hidden or said.sides:
        gene = hidden[0].gene if hidden else said.sides[0].gene
        needed = "genes that show: a target names what shows"
        advice = "leave out het words, percentages and sex chromosomes"
        raise ImpossibleGenes(text, f"{gene.name} as carried, uncertain or placed", needed, advice)
    claims, _ = _by_locus(text, said, genome)
    wanted: dict[str, int] = {}
    for here in claims.values():
        for claim in here:
            twice = claim.state == "super" or (claim.gene.recessive and len(here) == 1)
            wanted[claim.gene.name] = 2 if twice else 1
    return dict(sorted(wanted.items(), key=lambda item: genome.rank[item[0]]))


def _by_locus(text: str, said: Said, genome: Genome) -> tuple[Claims, list[str]]:
    """Locus name -> its settled claims, and all notices so far."""
    found: dict[str, list[Claim]] = {}
    for claim in said.claims:
        found.setdefault(claim.gene.locus, []).append(claim)
    visible = next((claim.gene.name for claim in said.claims if claim.state != "het"), None)
    if said.plain and visible is not None:
        advice = "leave Normal out, or write het before what does not show"
        raise ImpossibleGenes(text, f"Normal with {visible}", "Normal alone or with hets", advice)
    notices = list(said.notices)
    for name, claims in found.items():
        found[name], remarks = settled(text, claims, genome)
        notices += remarks
    return found, notices
