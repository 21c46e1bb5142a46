"""Who may breed, and when. The day is always an argument."""

from .calendar import pairing_dates, season_calendar
from .care import OWN, Husbandry
from .dates import season_dates
from .growth import monthly_gain
from .incubation import Incubation, incubation, incubation_table
from .own_figures import OWN_FIGURES, care_of, default_in_words, figure_text, figures_file, read_figures, save_figures
from .readiness import Readiness, readiness
from .saying import grams
from .seasons import first_season, season_name, season_of_hatch, season_of_laying, season_span, season_year

__all__ = [
    "OWN",
    "OWN_FIGURES",
    "Husbandry",
    "Incubation",
    "Readiness",
    "care_of",
    "default_in_words",
    "figure_text",
    "figures_file",
    "first_season",
    "grams",
    "incubation",
    "incubation_table",
    "monthly_gain",
    "pairing_dates",
    "read_figures",
    "readiness",
    "save_figures",
    "season_calendar",
    "season_dates",
    "season_name",
    "season_of_hatch",
    "season_of_laying",
    "season_span",
    "season_year",
]
