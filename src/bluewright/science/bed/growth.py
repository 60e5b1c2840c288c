"""When is the next cut ready, how much leaf and blue will it give, and does woad flower?

Degree-days of this garden's weather (`media.weather`) are carried through the model of leaf (`growth_model`), learned
from the bed's own cuts. Each draw keeps its weather, its plant and its chance together: nothing is counted twice.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.sourced import Floats
from bluewright.science.bed.blue import blue_g_per_kg, spotted_factor
from bluewright.science.bed.growth_cautions import Forecast, cautions
from bluewright.science.bed.growth_lengths import LengthsSeen
from bluewright.science.bed.growth_model import CutSeen, Growth, leaf_frac, learn
from bluewright.science.bed.growth_priors import (
    BASE_C,
    FULL_KG_PER_M2,
    PAST_FACTOR,
    READY_FRAC,
    RIPE_AGAIN_D,
    RIPE_FIRST_D,
    SEASON_ENDS,
)
from bluewright.science.bed.growth_record import Cut, GrowthAnswer, GrowthRecord, Season
from bluewright.science.bed.taking import taking
from bluewright.science.bed.winter import KILLING_C, WINTER_BEGINS, Flowering, flowering
from bluewright.science.media.air_temp import northern_day
from bluewright.science.media.basket import Plant
from bluewright.science.media.weather.days import Bools, first_day, on_days
from bluewright.science.media.weather.degree_days import degree_days
from bluewright.science.media.weather.filling import Temps, span, temps
from bluewright.science.media.weather.record import BandOnDay, DayBand

DRAWS: Final = 1000
PAST_DRAWS: Final = 200
"""Draws of the weather of a season that is over: only its mean and spread are used."""
AHEAD_D: Final = 215
"""Days that are looked ahead: from April to the end of the season."""
SHOWN_D: Final = (60, 90)
"""Days before and after today of which the standing leaf is shown."""
LATE_SOWN: Final = 213
"""Day of the year, north, after which what is sown has its season in the next year: the first of August."""
LIKELY: Final = 0.5
LONG_D: Final = 240
"""A longer span is drawn in parts, each knowing the days read beside it: the time it takes grows with its cube."""
PART_D: Final = 180


@dataclass(frozen=True, slots=True, kw_only=True)
class Warmth:
    """The days of the season with draws of their weather."""

    days: Sequence[date]
    temps: Temps
    degree_d: Floats
    """Degree-days from the first day to the evening of each, shape (n, d)."""

    def at(self, day: date) -> int:
        """The place of a day."""
        return (day - self.days[0]).days

    def since(self, day: date) -> Floats:
        """Degree-days since the evening of `day` until each, below 0 before it, shape (n, d)."""
        place = self.at(day)
        return self.degree_d - self.degree_d[:, place : place + 1]


def growth(record: GrowthRecord, *, rng: np.random.Generator) -> GrowthAnswer:
    """The next cut of a bed: day, leaf and blue with their ranges, learned from the bed's own cuts.

    Formulas and sources: `growth_model` (leaf), `media.weather` (degree-days by the sine), `winter` (flowering, frost).
    """
    season = warmth(record.plant, _first(record), record.now + timedelta(days=AHEAD_D), record, DRAWS, rng)
    marked = lengths_seen(record, season)
    seen = cuts_seen(record, season, marked={one.regrowth for one in marked}, rng=rng)
    grown = learn(record.plant, seen, lengths=marked, n=DRAWS, rng=rng)
    last, today = record.cuts[-1].on if record.cuts else record.since, season.at(record.now)
    ripe = grown.ripe_now_degree_d(None if record.cuts else record.start, rng=rng)
    leaf = grown.full_kg_per_m2 * grown.season_factor * np.exp(grown.cut_sd * rng.standard_normal(DRAWS))
    gone, ended = season.since(last), season_ended(record, season, rng=rng)
    ready: Bools = np.asarray(gone >= ripe[:, None])
    ready_on, per_m2 = first_day(season.days, ready), READY_FRAC.value * leaf
    blue = spotted_factor(record, rng=rng, n=DRAWS) * blue_g_per_kg(
        record, on=ready_on.middle or record.now, rng=rng, n=DRAWS
    )
    winter = flowering(record, season.days, season.temps, season.degree_d, rng=rng)
    of_bed = None if record.bed_m2 is None else band(record.bed_m2 * per_m2)
    return GrowthAnswer(
        id=record.id,
        ready_on=ready_on,
        past_on=first_day(season.days, gone >= PAST_FACTOR.value * ripe[:, None]),
        ready_now_chance=_chance(ready[:, today]),
        in_season_chance=_chance(np.any(ready & ~ended, axis=1)),
        further_cuts=_further(gone, ended, ripe=ripe, grown=grown),
        ripe_degree_d=band(ripe),
        gone_degree_d=band(gone[:, today]),
        base_c=BASE_C[record.plant].value,
        leaf_kg_per_m2=band(per_m2),
        leaf_kg=of_bed,
        blue_g_per_kg=band(blue),
        blue_g_per_m2=band(blue * per_m2),
        blue_g=None if record.bed_m2 is None else band(record.bed_m2 * blue * per_m2),
        leaf_kg_per_m2_by_day=_standing(
            record, season, gone, leaf=leaf, ripe=ripe, rise=grown.rise_degree_d, last=last
        ),
        bolting_chance=None if winter is None else winter.flower_chance,
        bolts_on=None if winter is None else winter.bolts_on,
        pods_black_on=None if winter is None else winter.pods_black_on,
        frost_on=_frost(record.plant, season, today=today),
        taking=taking(record.plant),
        cuts_learned=sum(cut.leaf_kg_per_m2 is not None or cut.state is not None for cut in seen),
        lengths_learned=sum(len(one.marked_plants) for one in marked),
        basis="garden" if seen or marked else "prior",
        inputs=record,
        cautions=cautions(_told(record, season, winter, of_bed)),
        sources=_sources(record.plant),
    )


def _told(record: GrowthRecord, season: Warmth, winter: Flowering | None, leaf_kg: Band | None) -> Forecast:
    """What cautions rest on, with the week from today on."""
    today, temps_ahead = season.at(record.now), season.temps
    week = Temps(min_c=temps_ahead.min_c[:, today : today + 7], max_c=temps_ahead.max_c[:, today : today + 7])
    return Forecast(record=record, flowering=winter, leaf_kg=leaf_kg, week=week, days=season.days)


def warmth(plant: Plant, first: date, last: date, record: GrowthRecord, n: int, rng: np.random.Generator) -> Warmth:
    """`n` draws of the weather from the first day to the last, with degree-days above the plant's base."""
    days = span(first, last)
    step = len(days) if len(days) <= LONG_D else PART_D
    parts = [
        temps(days[k : k + step], weather=record.weather, now=record.now, rng=rng, n=n)
        for k in range(0, len(days), step)
    ]
    min_c, max_c = (np.hstack([getattr(part, name) for part in parts]) for name in ("min_c", "max_c"))
    daily = degree_days(min_c, max_c, base_c=BASE_C[plant].value)
    return Warmth(days=days, temps=Temps(min_c=min_c, max_c=max_c), degree_d=np.cumsum(daily, axis=1))


def cuts_seen(
    record: GrowthRecord, season: Warmth, *, marked: Collection[int], rng: np.random.Generator
) -> list[CutSeen]:
    """The cuts of this season and of those before, with the degree-days that each had.

    `marked` are the regrowths of this season in which plants were measured.
    """
    found = list[CutSeen]()
    if record.cuts:
        now = Season(start=record.start, began=record.began, cuts=record.cuts)
        rows = _of_season(record, now, season, 0)
        ended = range(len(rows), 0, -1)  # the regrowth that each cut ended, counted back from the present one
        found = [replace(row, regrowth=k if k in marked else None) for row, k in zip(rows, ended, strict=True)]
    for number, one in enumerate(record.earlier, start=1):
        then = warmth(record.plant, one.began or one.cuts[0].on, one.cuts[-1].on, record, PAST_DRAWS, rng)
        found += _of_season(record, one, then, number)
    return found


def _of_season(record: GrowthRecord, one: Season, then: Warmth, number: int) -> list[CutSeen]:
    """Each cut with the warmth since the one before; the first only where the beginning is known."""
    known = [*filter(None, [one.began]), *(cut.on for cut in one.cuts)]
    told = one.cuts if one.began else one.cuts[1:]
    return [
        _seen(record, one, cut, then, number, before=before, first=before == one.began)
        for before, cut in zip(known, told, strict=False)
    ]


def _seen(
    record: GrowthRecord, one: Season, cut: Cut, then: Warmth, number: int, *, before: date, first: bool
) -> CutSeen:
    gone = then.since(before)[:, then.at(cut.on)]
    per_m2 = None if cut.leaf_kg is None or record.bed_m2 is None else cut.leaf_kg / record.bed_m2
    return CutSeen(
        season=number, start=one.start if first else None, gone_degree_d=float(gone.mean()),
        gone_sd=float(gone.std()), leaf_kg_per_m2=per_m2, state=cut.state,
    )  # fmt: skip


def lengths_seen(record: GrowthRecord, season: Warmth) -> list[LengthsSeen]:
    """The marked plants of each regrowth of this season, the present one first, with the degree-days that each had."""
    ends = [*filter(None, [record.began]), *(cut.on for cut in record.cuts)]
    found = []
    for k, (since, until) in enumerate(zip(ends, [*ends[1:], None], strict=True)):
        rows = [row for row in record.lengths if row.on > since and (until is None or row.on <= until)]
        if rows:
            places = [season.at(row.on) for row in rows]
            gone = season.since(since)[:, places]
            found.append(
                LengthsSeen(
                    regrowth=len(ends) - 1 - k,
                    start=record.start if since == record.began else None,
                    gone_degree_d=gone.mean(axis=0),
                    gone_sd=gone.std(axis=0),
                    log_mm=np.array([np.log(row.longest_mm).mean() for row in rows]),
                    marked_plants=np.array([float(len(row.longest_mm)) for row in rows]),
                )
            )
    return found[::-1]


def _first(record: GrowthRecord) -> date:
    """The first day whose weather matters: for woad that stood over winter, the beginning of that winter."""
    if record.start != "overwintered" or record.plant != "woad":
        return record.since
    day = record.since
    while northern_day(day, hemisphere=record.weather.hemisphere) != round(WINTER_BEGINS.value):
        day -= timedelta(days=1)
    return day


def season_ended(record: GrowthRecord, season: Warmth, *, rng: np.random.Generator) -> Bools:
    """Whether the season has ended by each day, shape (n, d)."""
    of_year = np.array([northern_day(day, hemisphere=record.weather.hemisphere) for day in season.days])
    began = season.at(record.since)
    counted = np.arange(len(of_year)) > began
    if record.plant == "woad" and record.began and of_year[began] >= LATE_SOWN:
        counted &= np.cumsum(of_year == 1) > np.cumsum(of_year == 1)[began]
    ends = SEASON_ENDS[record.plant].draw(rng, DRAWS)
    return np.logical_or.accumulate((of_year >= ends[:, None]) & counted, axis=1)


def _further(gone: Floats, ended: Bools, *, ripe: Floats, grown: Growth) -> Band:
    """Cuts that the warmth until the end of the season is enough for."""
    last = np.where(ended.any(axis=1), ended.argmax(axis=1), gone.shape[1] - 1)
    left = gone[np.arange(len(gone)), last]
    return band(np.where(left < ripe, 0.0, 1 + np.floor(np.maximum(left - ripe, 0) / grown.again_degree_d)))


def _standing(
    record: GrowthRecord, season: Warmth, gone: Floats, *, leaf: Floats, ripe: Floats, rise: Floats, last: date
) -> tuple[BandOnDay, ...]:
    """Leaf on each day about today, since the last cut."""
    before, after = SHOWN_D
    first = max(season.at(last), season.at(record.now) - before)
    end = min(season.at(record.now) + after, len(season.days))
    share = leaf_frac(gone[:, first:end], ripe_degree_d=ripe[:, None], rise_degree_d=rise[:, None])
    return on_days(season.days[first:end], leaf[:, None] * share)


def _frost(plant: Plant, season: Warmth, *, today: int) -> DayBand | None:
    """The first killing night from today on; None unless it is likely."""
    killed = season.temps.min_c[:, today:] <= KILLING_C[plant].value
    return first_day(season.days[today:], killed) if np.mean(killed.any(axis=1)) >= LIKELY else None


def _chance(happened: Bools) -> float:
    return significant(float(np.mean(happened)))


def _sources(plant: Plant) -> tuple[str, ...]:
    priors = (RIPE_FIRST_D, RIPE_AGAIN_D, FULL_KG_PER_M2, SEASON_ENDS, BASE_C)
    return tuple(
        sorted({"baskerville-emin-1969", "bluewright-bed", "bluewright-leaf", *(p[plant].source for p in priors)})
    )
