"""A bed's pickings, looks and weather become the records of its growth, its stand and its damage."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import lru_cache
from typing import Final

import numpy as np

from bluewright.journal.bridge.learned import blue_of
from bluewright.journal.bridge.stored import word
from bluewright.journal.bridge.watering import climate_of, days_of
from bluewright.journal.models import Bed, BedLook, Garden
from bluewright.journal.queries import growing as queries
from bluewright.journal.queries import weather
from bluewright.science.bed.disease import disease
from bluewright.science.bed.disease_record import DiseaseAnswer, DiseaseRecord
from bluewright.science.bed.growth import growth
from bluewright.science.bed.growth_record import Cut, GrowthAnswer, GrowthRecord, LongestLeaves, Season
from bluewright.science.bed.stand import stand
from bluewright.science.bed.stand_record import StandAnswer, StandRecord
from bluewright.science.media.weather.record import LONGEST_D, Weather

ONE_CUT_D: Final = 5
"""Pickings within so many days are one cut of the bed."""
NEW_SEASON_D: Final = 150
"""After so many days without a picking the next is of another season."""
MOST_EARLIER: Final = 2
MOST_CUTS: Final = 12
MOST_LENGTHS: Final = 60
LIKELY_CHANCE: Final = 0.1
"""With a smaller chance of another cut its leaf is not reckoned with."""
AHEAD_D: Final = 10
"""Days for which a forecast may have been written down."""


@dataclass(slots=True)
class Grew:
    """A season as it is found: how and when it began, if that was written down, and its cuts."""

    start: str = "sown"
    began: date | None = None
    cuts: list[tuple[date, float | None, str]] = field(default_factory=list)

    @property
    def first(self) -> date:
        """The first day that is known of."""
        return self.began or self.cuts[0][0]

    @property
    def last(self) -> date:
        """The last cut, or the beginning where there was none."""
        return self.cuts[-1][0] if self.cuts else self.began or date.min

    def made(self, bed: Bed) -> tuple[Cut, ...]:
        """Its cuts as the science takes them."""
        weighed = bed.area_m2 is not None
        return tuple(
            Cut(on=day, leaf_kg=round(kg, 6) if weighed and kg else None, state=word(timing or None))
            for day, kg, timing in self.cuts[:MOST_CUTS]
        )

    def over(self, bed: Bed) -> Season:
        """The same as a season that is over; it has cuts."""
        return Season(start=word(self.start), began=self.began, cuts=self.made(bed))


def growth_record(bed: Bed, *, today: date) -> GrowthRecord | None:
    """The record of a bed's growth as it stands; None while its season's beginning or the garden's place is not known.

    Raises InputError where what was written down cannot be.
    """
    garden, seasons = bed.garden, seasons_of(bed, today=today)
    if garden.latitude_deg is None or not seasons or (today - seasons[-1].last).days >= NEW_SEASON_D * 2:
        return None
    now, earlier = seasons[-1], _with_cuts(seasons[:-1])
    first = min(one.first for one in [*earlier, now])
    return GrowthRecord(
        id=bed.name,
        plant=word(bed.plant),
        start=word(now.start),
        began=now.began,
        now=today,
        cuts=now.made(bed),
        lengths=_lengths(bed, since=now.first, today=today),
        blue=blue_of(garden, plant=bed.plant, on=today, bed=bed.pk),
        spotted_frac=_spotted_frac(bed, since=now.last, today=today),
        earlier=tuple(one.over(bed) for one in earlier),
        bed_m2=bed.area_m2,
        weather=weather_since(garden, first, today=today),
    )


def weather_since(garden: Garden, first: date, *, today: date) -> Weather:
    """The place, its climate and its temperatures from a day on, of the last two years at most. The garden has a
    latitude."""
    assert garden.latitude_deg is not None  # the caller asked
    last, first = today + timedelta(days=AHEAD_D), max(first, today - timedelta(days=2 * LONGEST_D))
    return Weather(
        latitude_deg=garden.latitude_deg,
        altitude_m=garden.altitude_m or 0.0,
        normals=climate_of(garden),
        days=days_of(weather.air(garden, first=first, last=last), [], today=today),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Coming:
    """A season that a look says is still to begin."""

    start: str
    began: date
    earlier: tuple[Season, ...]
    """Those before it, the present one too."""


def coming(bed: Bed, *, today: date) -> Coming | None:
    """The season that is to begin in a bed, once the present one gives no cut any more; None without a day for it."""
    begins = next((look for look in queries.looks(bed) if look.began and look.day > today), None)
    if begins is None:
        return None
    now = growth_of(bed, today=today)
    if now is not None and now.in_season_chance >= LIKELY_CHANCE:
        return None
    earlier = tuple(one.over(bed) for one in _with_cuts(seasons_of(bed, today=today)))
    return Coming(start=begins.began, began=begins.day, earlier=earlier)


def _with_cuts(seasons: Sequence[Grew]) -> list[Grew]:
    """The latest seasons that teach something."""
    return [one for one in seasons if one.cuts][-MOST_EARLIER:]


def _lengths(bed: Bed, *, since: date, today: date) -> tuple[LongestLeaves, ...]:
    """Marked plants of this season; of two looks on one day the later."""
    rows = {look.day: look for look in queries.looks(bed) if look.longest_mm and since < look.day <= today}
    return tuple(
        LongestLeaves(on=day, longest_mm=tuple(float(one) for one in look.longest_mm.split()))
        for day, look in sorted(rows.items())[-MOST_LENGTHS:]
    )


def _spotted_frac(bed: Bed, *, since: date, today: date) -> float:
    """Mean share of the leaf that the last look since the last cut found spotted; 0 where nobody looked."""
    rows = [look for look in queries.looks(bed) if look.spotted and since < look.day <= today]
    scores = [float(one) for one in rows[-1].spotted.split()] if rows else []
    return round(sum(scores) / len(scores) / 100, 4) if scores else 0.0


def growth_of(bed: Bed, *, today: date) -> GrowthAnswer | None:
    """When the next cut of a bed is ready; None while something must be known first.

    Raises InputError and ModelError as the science does.
    """
    record = growth_record(bed, today=today)
    return None if record is None else grown(record)


def stand_record(look: BedLook) -> StandRecord | None:
    """The record of the frames of a look; None where none was counted."""
    if not look.counts or look.frame_m2 is None:
        return None
    bed = look.bed
    return StandRecord(
        id=bed.name, plant=word(bed.plant), origin=word(bed.origin), frame_m2=look.frame_m2,
        counts=tuple(int(one) for one in look.counts.split()), bolting=look.bolting, bed_m2=bed.area_m2,
    )  # fmt: skip


def last_counted(looks: Sequence[BedLook]) -> BedLook | None:
    """The last look at which frames were counted."""
    return next((row for row in reversed(looks) if row.counts), None)


def last_scored(looks: Sequence[BedLook]) -> BedLook | None:
    """The last look at which leaves were scored."""
    return next((row for row in reversed(looks) if row.spotted or row.eaten), None)


def disease_record(look: BedLook, *, leaf_kg: float | None = None) -> DiseaseRecord | None:
    """The record of the leaves of a look, and of the leaf of the next cut; None where none was scored."""
    if not look.spotted and not look.eaten:
        return None
    spotted, eaten = (tuple(float(one) for one in text.split()) for text in (look.spotted, look.eaten))
    return DiseaseRecord(
        id=look.bed.name, plant=word(look.bed.plant), spotted_pct=spotted, eaten_pct=eaten,
        cause=word(look.cause or None), leaf_kg=leaf_kg,
    )  # fmt: skip


def stand_of(bed: Bed) -> StandAnswer | None:
    """How thick a bed stood when frames were last counted."""
    look = last_counted(queries.looks(bed))
    record = None if look is None else stand_record(look)
    return None if record is None else stood(record)


def next_leaf_kg(growth: GrowthAnswer | None) -> float | None:
    """Leaf of the next cut of the bed; None where none is likely any more, or its area is not known."""
    if growth is None or growth.leaf_kg is None or growth.in_season_chance < LIKELY_CHANCE:
        return None
    return growth.leaf_kg.p50


def damage_of(bed: Bed, *, leaf_kg: float | None) -> DiseaseAnswer | None:
    """How much of the leaf was damaged when it was last scored, and what that costs the next cut."""
    look = last_scored(queries.looks(bed))
    record = None if look is None else disease_record(look, leaf_kg=leaf_kg)
    return None if record is None else damaged(record)


@lru_cache(maxsize=64)
def grown(record: GrowthRecord) -> GrowthAnswer:
    """When the next cut is ready. Raises InputError and ModelError as the science does."""
    return growth(record, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=64)
def stood(record: StandRecord) -> StandAnswer:
    """How thick the stand grows."""
    return stand(record, rng=np.random.default_rng(record.seed))


@lru_cache(maxsize=64)
def damaged(record: DiseaseRecord) -> DiseaseAnswer:
    """How much of the leaf is damaged."""
    return disease(record, rng=np.random.default_rng(record.seed))


def seasons_of(bed: Bed, *, today: date) -> list[Grew]:
    """The bed's seasons in order: each begins where a look says so, or after a long rest."""
    picked = defaultdict[date, list[tuple[date, float | None, str]]](list)
    for row in queries.picked(bed):
        picked[row[0]].append(row)
    begun = {look.day: look.began for look in queries.looks(bed) if look.began}
    found: list[Grew] = []
    for day in sorted(day for day in {*begun, *picked} if day <= today):
        if day in begun:
            found.append(Grew(start=begun[day], began=day))
            continue
        for row in picked[day]:
            if not found or (day - found[-1].last).days > (NEW_SEASON_D if found[-1].cuts else LONGEST_D):
                found.append(Grew())
            _take(found[-1], *row)
    return found


def _take(season: Grew, day: date, kg: float | None, timing: str) -> None:
    """A picking: part of the last cut if that was days ago, else a cut of its own."""
    if season.cuts and (day - season.cuts[-1][0]).days <= ONE_CUT_D:
        before, taken, judged = season.cuts[-1]
        season.cuts[-1] = (before, None if kg is None or taken is None else taken + kg, timing or judged)
    else:
        season.cuts.append((day, kg, timing))
