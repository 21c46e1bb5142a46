"""The windows of the pairings of a season, from what its log and the clutch book say of each female."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

import pandas as pd

from ..collection import Clutch, SeasonLog, SeasonPairing
from .care import Husbandry
from .dates import season_dates
from .seasons import season_of_hatch, season_of_laying, season_span

__all__ = ["pairing_dates", "season_calendar"]

DAY = timedelta(days=1)
ASSUMED = "nobody was introduced yet: counted from {}"
TOO_LATE = "a male was first with her on {}, too late to count"


def pairing_dates(
    pairing: SeasonPairing,
    care: Husbandry,
    *,
    clutches: Iterable[Clutch] = (),
    paired: date | None = None,
    incubation_c: float | None = None,
) -> pd.DataFrame:
    """The windows of one female's season, as `season_dates` gives them.

    clutches: of the clutch book; hers of this season says when it was laid and hatched, if the log does not, and at
    which temperature it was kept. paired: the day that counts where nothing has happened yet, by default the season's
    first; the note then says so. A male that came, or was seen locked with her, after what ends her fertile days counts
    for nothing. Raises ValueError as `season_dates` does, if the clutch book contradicts the log.
    """
    clutch = next((one for one in clutches if one.dam == pairing.dam and _is_of(one, pairing, care)), None)
    laid = pairing.laid or (clutch.laid if clutch else None)
    hatched = clutch.hatched if clutch else None
    happened = (pairing.introduced, pairing.locked, pairing.ovulated, pairing.shed, laid, hatched)
    start, lock = _in_time(pairing)
    if not any(happened):
        start = paired or season_span(pairing.season, care)[0]
    table = season_dates(
        start,
        locked=lock,
        ovulated=pairing.ovulated,
        shed=pairing.shed,
        laid=laid,
        hatched=hatched,
        incubation_c=_degrees(clutch) if incubation_c is None else incubation_c,
        catalogue=care.catalogue,
    )
    if not any(happened):
        table.loc[0, ["source", "note"]] = ["planned", ASSUMED.format(start)]
    elif pairing.introduced and start is None:
        table.loc[0, "note"] = TOO_LATE.format(pairing.introduced)
    return table


def season_calendar(
    log: SeasonLog,
    season: int,
    care: Husbandry,
    *,
    clutches: Iterable[Clutch] = (),
    incubation_c: float | None = None,
) -> pd.DataFrame:
    """The windows of all pairings of the season that starts in this year: dam, sire, then as `pairing_dates`.

    sire: the males that the clutch may be of ("M04 or M01"), or who is planned. Females whose season is given up are
    left out. Raises ValueError as `pairing_dates` does.
    """
    book, tables = list(clutches), []
    for dam, pairing in log.pairings(season).items():
        if not pairing.given_up:
            table = pairing_dates(pairing, care, clutches=book, incubation_c=incubation_c)
            table.insert(0, "dam", dam)
            table.insert(1, "sire", log.sire_text(season, dam))
            tables.append(table)
    columns = ["dam", "sire", "event", "earliest", "likely", "latest", "source", "note"]
    return pd.concat(tables, ignore_index=True) if tables else pd.DataFrame(columns=columns, dtype=object)


def _in_time(pairing: SeasonPairing) -> tuple[date | None, date | None]:
    """The first day on which a male was with her, and the last on which a lock was seen, as far as they can count.

    A male may come on the day of ovulation at the latest; a lock may be seen after it, but not once she has laid.
    """
    last = min((day - DAY for day in (pairing.shed, pairing.laid) if day), default=date.max)
    last = min(last, pairing.ovulated or date.max)
    start = pairing.introduced if pairing.introduced and pairing.introduced <= last else None
    locks = (one.on for one in pairing.meetings if one.lock and one.on < (pairing.laid or date.max))
    return start, max(locks, default=None)


def _is_of(clutch: Clutch, pairing: SeasonPairing, care: Husbandry) -> bool:
    """Whether a clutch is the one of this season: by the day it was laid, or by the season that its days belong to."""
    if clutch.laid:
        return clutch.laid == pairing.laid if pairing.laid else season_of_laying(clutch.laid, care) == pairing.season
    return bool(clutch.hatched) and season_of_hatch(clutch.hatched or date.min, care) == pairing.season


def _degrees(clutch: Clutch | None) -> float | None:
    try:
        return float(clutch.further["incubation_c"]) if clutch else None
    except (KeyError, ValueError):
        return None
