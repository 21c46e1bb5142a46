"""What can be reached: paths of seasons toward a target."""

from .kin import closest_kinship, step_relations
from .obstacles import Obstacle, obstacles, why_no_path
from .path import Keep, Path, Step
from .paths import find_paths
from .question import UnreachableTarget
from .search import Progress
from .sentences import NodeWords, node_in_words, path_in_words, season_in_words, season_title, walk_length

__all__ = [
    "Keep",
    "NodeWords",
    "Obstacle",
    "Path",
    "Progress",
    "Step",
    "UnreachableTarget",
    "closest_kinship",
    "find_paths",
    "node_in_words",
    "obstacles",
    "path_in_words",
    "season_in_words",
    "season_title",
    "step_relations",
    "walk_length",
    "why_no_path",
]
