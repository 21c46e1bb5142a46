"""How it is shown: finished numbers to figures and positions, as plain dicts. Computes no biology and no chances."""

from .curves import Curve, chance_curves, chance_curves_in_words
from .odds import MOST_BARS, Bar, odds_bars, odds_in_words
from .sketching import sketch, sketch_of
from .walk import walk_in_words, walk_layout

__all__ = [
    "MOST_BARS",
    "Bar",
    "Curve",
    "chance_curves",
    "chance_curves_in_words",
    "odds_bars",
    "odds_in_words",
    "sketch",
    "sketch_of",
    "walk_in_words",
    "walk_layout",
]
