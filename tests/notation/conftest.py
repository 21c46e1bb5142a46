"""What the tests of this folder have in common: species to read with, and a short view of a genotype."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from explorer.catalogue import Catalogue, load_catalogue, load_species
from explorer.genetics import ABSENT, Genotype

INVENTED = """
[species]
key = "piscis_ficta"
name = "paper fish"
latin = "Piscis ficta"
heterogametic = "male"
chromosomes = ["X", "Y"]
evidence = "from memory"
files = ["facts.toml"]
"""

FACTS = """
[[locus]]
name = "gill"
placement = "X only"
evidence = "from memory"

[[locus]]
name = "fin"
placement = "sex pair"
evidence = "from memory"

[[linkage]]
loci = ["gill", "fin"]
rates = ["1/2", "1/10"]
sex_pair = true
evidence = "from memory"

[[linkage]]
loci = ["tail", "eye", "scale"]
rates = ["1/5", "1/5"]
evidence = "from memory"
"""

GENES = {
    "Gill": ("gill", "recessive"),
    "Bronze Gill": ("gill", "incomplete dominant"),
    "Fin": ("fin", "incomplete dominant"),
    "Silver": ("fin", "incomplete dominant"),
    "Pale Fin": ("fin", "recessive"),
    "Tail": ("tail", "incomplete dominant"),
    "Eye": ("eye", "recessive"),
    "Scale": ("scale", "incomplete dominant"),
}


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    return load_catalogue()


@pytest.fixture(scope="session")
def lizard() -> Catalogue:
    """Females are ZW. Dusk is recessive and lies on Z alone; Ink and Wash are linked."""
    return load_species(Path(__file__).parents[1] / "catalogue" / "second_species")


@pytest.fixture(scope="session")
def fish(tmp_path_factory: pytest.TempPathFactory) -> Catalogue:
    """Males are XY. Two genes lie on X alone, a complex of three on both, and three loci are linked."""
    folder = tmp_path_factory.mktemp("fish")
    genes = "".join(
        f'[[gene]]\nname = "{name}"\nlocus = "{locus}"\ninheritance = "{inheritance}"\ntwo_copies = "own look"\n'
        'evidence = "from memory"\n\n'
        for name, (locus, inheritance) in GENES.items()
    )
    loci = "".join(f'[[locus]]\nname = "{name}"\nevidence = "from memory"\n\n' for name in ("tail", "eye", "scale"))
    (folder / "species.toml").write_text(INVENTED, encoding="utf-8")
    (folder / "facts.toml").write_text(FACTS + loci + genes, encoding="utf-8")
    return load_species(folder)


@pytest.fixture(scope="session")
def alleles() -> Callable[[Genotype, str], dict[str, Fraction]]:
    """The two alleles of the locus of a gene, "+" for wild and in alphabetical order -> chance, whatever the phase."""

    def view(geno: Genotype, gene: str) -> dict[str, Fraction]:
        group, locus = geno.genome.home[gene]
        at = group.position(locus.name)
        found: dict[str, Fraction] = {}
        for diplotype, chance in geno.part(group).items():
            pair = sorted(haplotype[at] or "+" for haplotype in diplotype if haplotype[at] != ABSENT)
            found[" ".join(pair)] = found.get(" ".join(pair), Fraction(0)) + chance
        return found

    return view
