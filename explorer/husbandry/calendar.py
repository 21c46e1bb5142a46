"""The windows of the pairings of a season, from what its log and the clutch book say of each female."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

import pandas as pd

from ..collection import Clutch, SeasonLog, SeasonPairing
from .care import Husbandry
from .dates import season_dates
from .seasons import season_of_hatch, season_of_laying, season_span

__all__ = ["pairing_dates", "season_calendar"]

ASSUMED = "nobody was introduced yet: counted from {}"


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
    first; the note then says so. Raises ValueError as `season_dates` does.
    """
    clutch = next((one for one in clutches if one.dam == pairing.dam and _is_of(one, pairing, care)), None)
    laid = pairing.laid or (clutch.laid if clutch else None)
    hatched = clutch.hatched if clutch else None
    happened = (pairing.introduced, pairing.locked, pairing.ovulated, pairing.shed, laid, hatched)
    start = pairing.introduced
    if not any(happened):
        start = paired or season_span(pairing.season, care)[0]
    table = season_dates(
        start,
        locked=pairing.locked,
        ovulated=pairing.ovulated,
        shed=pairing.shed,
        laid=laid,
        hatched=hatched,
        incubation_c=_degrees(clutch) if incubation_c is None else incubation_c,
        catalogue=care.catalogue,
    )
    if not any(happened):
        table.loc[0, ["source", "note"]] = ["planned", ASSUMED.format(start)]
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
    left out, and those with days that cannot be are refused by the log itself.
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
