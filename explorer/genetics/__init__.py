"""What inheritance does: gametes, offspring, clutches and pedigrees in exact fractions. Knows no species."""

from .clutch import EggLaw, at_least, egg_law, exact, expected_eggs, none_of
from .from_catalogue import genome_of
from .gametes import gametes, viable, zygotes
from .genome import ABSENT, WILD, Allele, Diplotype, Genome, Group, Haplotype, Locus, order
from .genotype import Genotype, Part, normalised
from .kinship import Kinship
from .offspring import Brood, Event, Parents
from .pedigree import Contradiction, Mating, Member, Note, Pedigree, joint

__all__ = [
    "ABSENT",
    "WILD",
    "Allele",
    "Brood",
    "Contradiction",
    "Diplotype",
    "EggLaw",
    "Event",
    "Genome",
    "Genotype",
    "Group",
    "Haplotype",
    "Kinship",
    "Locus",
    "Mating",
    "Member",
    "Note",
    "Parents",
    "Part",
    "Pedigree",
    "at_least",
    "egg_law",
    "exact",
    "expected_eggs",
    "gametes",
    "genome_of",
    "joint",
    "none_of",
    "normalised",
    "order",
    "viable",
    "zygotes",
]
