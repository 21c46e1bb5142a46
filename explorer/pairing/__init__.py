"""What could hatch: two animals to odds in words and numbers."""

from .crossing import cross
from .identifying import GeneChance, Reading, identify, read_animal
from .likeliest import likeliest
from .line_up import LineUp, line_up
from .line_up_mates import day_of
from .line_up_parents import Couples
from .line_up_rows import LineUpRow
from .nearness import GenotypeOdds, Nearest, look_closeness, look_count, nearest, top_genotypes
from .odds import Offspring, checked_rate
from .pretend import Egg, pretend_clutch
from .progress import ProgressToward, progress
from .promising import Promise, promise, promises
from .sentences import (
    Clutch,
    lacking_in_words,
    look_in_words,
    losses_in_words,
    names_in_words,
)
from .standing import Standing
from .wording import bits_text, gain_text, mean_text, number_word, one_in, percent, score_text, times_text

__all__ = [
    "Clutch",
    "Couples",
    "Egg",
    "GeneChance",
    "GenotypeOdds",
    "LineUp",
    "LineUpRow",
    "Nearest",
    "Offspring",
    "ProgressToward",
    "Promise",
    "Reading",
    "Standing",
    "bits_text",
    "checked_rate",
    "cross",
    "day_of",
    "gain_text",
    "identify",
    "lacking_in_words",
    "likeliest",
    "line_up",
    "look_closeness",
    "look_count",
    "look_in_words",
    "losses_in_words",
    "mean_text",
    "names_in_words",
    "nearest",
    "number_word",
    "one_in",
    "percent",
    "pretend_clutch",
    "progress",
    "promise",
    "promises",
    "read_animal",
    "score_text",
    "times_text",
    "top_genotypes",
]
