"""What grew in a bed, written down or known from its own seasons, becomes the record of its rotation."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import Final

import numpy as np

from bluewright.journal.bridge.growing import seasons_of
from bluewright.journal.bridge.stored import word
from bluewright.journal.models import Bed
from bluewright.journal.queries import growing as queries
from bluewright.science.bed.rotation import rotation
from bluewright.science.bed.rotation_record import Grown, RotationAnswer, RotationRecord

MOST_ROWS: Final = 60
"""So many years back are looked at."""


def sown_in(bed: Bed, *, today: date) -> int | None:
    """The year in which what stands was sown or planted; None where nobody wrote down that anything stands.

    A bed that sows itself does so each year.
    """
    seasons = seasons_of(bed, today=today)
    if not seasons:
        return None
    if bed.origin == "self_sown":
        return today.year
    begun = [season for season in seasons if season.began and season.start != "overwintered"]
    return (begun[-1] if begun else seasons[0]).first.year


def own_years(bed: Bed, *, before: int, today: date) -> list[int]:
    """The years before another in which the bed bore its own plant, as its looks and pickings tell."""
    seasons = seasons_of(bed, today=today)
    years = {year for season in seasons for year in range(season.first.year, season.last.year + 1)}
    if bed.origin == "self_sown" and years:
        years |= set(range(min(years), before))
    return sorted((year for year in years if year < before), reverse=True)[:MOST_ROWS]


def rotation_of(bed: Bed, *, sow_year: int, today: date) -> RotationAnswer:
    """Whether the bed's plant may be sown in it in a year. Raises InputError where what was written down cannot be."""
    own = own_years(bed, before=sow_year, today=today) if bed.plant == "woad" else []
    sick = {look.day.year for look in queries.looks(bed) if look.cause == "clubroot" and look.day <= today}
    told = [
        Grown(year=row.year, family=word(row.family), clubroot=row.clubroot) for row in queries.past(bed)[:MOST_ROWS]
    ]
    found = [
        *told, *(Grown(year=year, family="cabbage", clubroot=year in sick) for year in sorted({*own, *sick})[-40:]),
    ]  # fmt: skip
    return followed(RotationRecord(id=bed.name, plant=word(bed.plant), sow_year=sow_year, grown=tuple(found)))


@lru_cache(maxsize=64)
def followed(record: RotationRecord) -> RotationAnswer:
    """Whether the plant may follow."""
    return rotation(record, rng=np.random.default_rng(record.seed))
