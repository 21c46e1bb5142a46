"""What could hatch: two animals to odds in words and numbers."""

from .crossing import cross
from .identifying import GeneChance, Reading, identify, read_animal
from .likeliest import likeliest
from .nearness import GenotypeOdds, Nearest, look_closeness, look_count, nearest, top_genotypes
from .odds import Offspring, checked_rate
from .pretend import Egg, pretend_clutch
from .promising import Promise, promise, promises
from .sentences import (
    Clutch,
    lacking_in_words,
    look_in_words,
    losses_in_words,
    names_in_words,
)
from .wording import bits_text, gain_text, mean_text, number_word, one_in, percent, score_text, times_text

__all__ = [
    "Clutch",
    "Egg",
    "GeneChance",
    "GenotypeOdds",
    "Nearest",
    "Offspring",
    "Promise",
    "Reading",
    "bits_text",
    "checked_rate",
    "cross",
    "gain_text",
    "identify",
    "lacking_in_words",
    "likeliest",
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
    "promise",
    "promises",
    "read_animal",
    "score_text",
    "times_text",
    "top_genotypes",
]
