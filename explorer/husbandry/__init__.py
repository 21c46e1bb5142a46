"""Who may breed, and when. The day is always an argument."""

from .care import Husbandry
from .readiness import Readiness, readiness
from .seasons import first_season, season_dates, season_name, season_of_hatch, season_year

__all__ = [
    "Husbandry",
    "Readiness",
    "first_season",
    "readiness",
    "season_dates",
    "season_name",
    "season_of_hatch",
    "season_year",
]
