"""What can be reached: paths of seasons toward a target."""

from .allotment import Allotment, Allotments, Difference, PairingMade, allot, allotments
from .allotment_reasons import SecondChoice
from .allotment_wishes import ImpossibleAllotment
from .buying import Help, OnOffer, would_help
from .costs import Costs, SeasonCost, costs, free_places
from .kin import closest_kinship, step_relations
from .obstacles import Obstacle, obstacles, why_no_path
from .path import Keep, Path, Step
from .paths import find_paths
from .question import UnreachableTarget
from .search import Progress
from .sentences import NodeWords, node_in_words, path_in_words, season_in_words, season_title, walk_length

__all__ = [
    "Allotment",
    "Allotments",
    "Costs",
    "Difference",
    "Help",
    "ImpossibleAllotment",
    "Keep",
    "NodeWords",
    "Obstacle",
    "OnOffer",
    "PairingMade",
    "Path",
    "Progress",
    "SeasonCost",
    "SecondChoice",
    "Step",
    "UnreachableTarget",
    "allot",
    "allotments",
    "closest_kinship",
    "costs",
    "find_paths",
    "free_places",
    "node_in_words",
    "obstacles",
    "path_in_words",
    "season_in_words",
    "season_title",
    "step_relations",
    "walk_length",
    "why_no_path",
    "would_help",
]
