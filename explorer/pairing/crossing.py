"""Puts two animals together, however they are given."""

from __future__ import annotations

from ..catalogue import Catalogue, load_catalogue
from ..collection import Animal
from ..genetics import Brood, Genotype, genome_of
from ..notation import ImpossibleGenes, read_genes, write_genes
from .odds import Offspring

__all__ = ["cross"]


def cross(
    dam: str | Genotype | Animal, sire: str | Genotype | Animal, *, catalogue: Catalogue | None = None
) -> Offspring:
    """The offspring of a dam and a sire, each given as shorthand, as a genotype or as an animal of a collection.

    Two animals of one reading of a collection are taken with their joint genotypes, since kin share what is uncertain.
    Raises GenesError if a text cannot be read, or if the dam is male or the sire female; ValueError if an animal was
    read with another catalogue.
    """
    if isinstance(dam, Animal) and isinstance(sire, Animal) and dam.knowledge is sire.knowledge:
        knowledge = dam.knowledge
        _of_sex(dam, dam.genotype, "female")
        _of_sex(sire, sire.genotype, "male")
        if dam.id == sire.id:
            raise ImpossibleGenes(
                text=dam.id,
                found="one animal as both parents",
                needed="two animals",
                advice="choose another dam or sire",
            )
        return Offspring(Brood(knowledge.genome, knowledge.pair(dam.id, sire.id)), knowledge.catalogue)
    for animal in (dam, sire):
        if isinstance(animal, Animal) and catalogue is None:
            catalogue = animal.knowledge.catalogue
    catalogue = catalogue or load_catalogue()
    return Offspring(Brood.of(_genotype(dam, "female", catalogue), _genotype(sire, "male", catalogue)), catalogue)


def _genotype(animal: str | Genotype | Animal, sex: str, catalogue: Catalogue) -> Genotype:
    if isinstance(animal, str):
        return read_genes(animal, sex=sex, catalogue=catalogue)
    known = animal.genotype if isinstance(animal, Animal) else animal
    if known.genome is not genome_of(catalogue):
        role = "dam" if sex == "female" else "sire"
        raise ValueError(f"the {role} was read with another catalogue; read both with one, and give it as catalogue=")
    return _of_sex(animal, known, sex)


def _of_sex(animal: Genotype | Animal, known: Genotype, sex: str) -> Genotype:
    try:
        return known.of_sex(sex)
    except ValueError:
        name = animal.id if isinstance(animal, Animal) else write_genes(known)
        role = "dam" if sex == "female" else "sire"
        raise ImpossibleGenes(
            text=name,
            found=f"a {known.sex} as the {role}",
            needed=f"a {sex}",
            advice=f"choose another {role}, or mend the sex of {name}",
        ) from None
