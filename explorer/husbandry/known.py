"""What decides when an animal may breed, the seasons that it leads to, and both in words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from ..collection import Animal, Weighing
from .care import Husbandry
from .growth import Growth
from .saying import day_words, grams, season_words
from .seasons import first_season, season_name, season_of_hatch

__all__ = ["WEIGH", "Known"]

WEIGH = "no weight is written"


@dataclass(frozen=True)
class Known:
    """What decides about a kept animal of known sex. growth: None if it is heavy enough; laid: seasons not after
    `first`, which is the season that is asked about."""

    animal: Animal
    care: Husbandry
    today: date
    first: int
    now: Weighing | None
    growth: Growth | None
    laid: tuple[int, ...]

    @property
    def of_age(self) -> int:
        """The first season that it is old enough for."""
        hatched = self.animal.hatched
        return self.first if hatched is None else season_of_hatch(hatched, self.care) + self.care.wait(self.sex)

    @property
    def free(self) -> int:
        """The first season that it need not rest in."""
        if self.sex == "male" or not self.laid:
            return self.first
        return max(self.first, self.laid[-1] + 1 + self.care.rest_seasons)

    @property
    def undated(self) -> bool:
        """Whether its hatch date is missed: it is not heavy enough to do without."""
        light = self.now is None or self.now.grams < self.care.sure_g(self.sex)
        return self.animal.hatched is None and light

    @property
    def sex(self) -> str:
        return self.animal.sex or ""

    @property
    def season(self) -> int | None:
        """The first season that it may breed in, None if that cannot be said."""
        if not self.reasons:
            return self.first
        if self.growth and self.growth.why_not:
            return None
        grown = self.growth.expected if self.growth else None
        heavy = first_season(grown, self.care) if grown else self.first
        return max(self.first + 1, self.of_age, self.free, heavy)

    @property
    def reasons(self) -> tuple[str, ...]:
        """Why it is not ready, in a few words each."""
        said = [self._rest] if self.free > self.first else []
        said += ["too young"] if self.of_age > self.first else ["hatch date missing"] if self.undated else []
        if self.growth:
            said.append(WEIGH if self.now is None else self._needed)
            said += [f"no forecast: {self.growth.why_not}"] if self.growth.why_not else []
        return tuple(said)

    @property
    def because(self) -> tuple[str, ...]:
        """The whole of it in words."""
        if self.now is None:
            said = [f"{WEIGH}: weigh it"]
        else:
            said = [grams(self.now.grams) + (f" on {day_words(self.now.on, self.today)}" if self.now.on else "")]
        if self.growth and self.now:
            said.append(self._needed)
        if self.of_age > self.first:
            said.append(f"too young before {self._called(self.of_age)}")
        if self.undated and self.now and not self.growth:
            said.append(f"hatch date missing, and {grams(self.care.sure_g(self.sex), needed=True)} needed without it")
        elif self.undated:
            said.append("hatch date missing")
        if self.free > self.first:
            said.append(self._rest)
        return (*said, self._outlook) if self._outlook else tuple(said)

    @property
    def _outlook(self) -> str:
        if self.season is None:
            return f"no forecast: {self.growth.why_not}" if self.growth else ""
        when = self._called(self.season)
        if self.season == self.first:
            return ""
        if self.now is None:
            return f"until then it is planned for {when}"
        if self.growth is None:
            return f"ready for {when}"
        expected, own = self.growth.expected, self.growth.basis == "own records"
        pace = f"at {self.growth.rate:.0f} g a month" if own else "at the usual growth"
        if expected is None:
            return f"{when} at the earliest"
        if expected > self.today and first_season(expected, self.care) > self.first:
            return f"{pace} ready for {when}"
        if not own:
            return f"behind the usual growth, so {when} at the earliest"
        near = f"heavy enough about {day_words(expected, self.today)}: weigh it then"
        now = "it should be heavy enough by now: weigh it"
        return f"{pace} {near if expected > self.today else now}; until then it is planned for {when}"

    @property
    def _needed(self) -> str:
        return f"{grams(self.care.least_g(self.sex), needed=True)} needed"

    @property
    def _rest(self) -> str:
        last = self.laid[-1]
        return "has laid this season" if last == self.first else f"laid in season {season_name(last, self.care)}"

    def _called(self, season: int) -> str:
        return season_words(season, self.first, self.care)
