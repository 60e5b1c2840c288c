"""The days back from the day on which something is wanted: finish, dye, vat, dry, wash, steep, cut; and sow.

Each step takes a drawn number of days; begun by the day that is told, all that follows is done in time with the chance
asked for. From the last cut degree-days are counted back to the day of sowing, for one cut, two and three.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.bands import band, quantiles
from bluewright.science.base.sourced import Floats
from bluewright.science.media.air_temp import northern_day
from bluewright.science.media.cloth import DIPS, PROTEIN
from bluewright.science.media.weather.days import Bools
from bluewright.science.media.weather.degree_days import degree_days
from bluewright.science.media.weather.filling import span, temps
from bluewright.science.media.weather.record import DayBand
from bluewright.science.plan.chain_crop import Growing
from bluewright.science.plan.chain_factors import depth_of
from bluewright.science.plan.chain_needs import Need
from bluewright.science.plan.chain_priors import (
    DIPS_A_DAY,
    DRY_D,
    FINISH_D,
    FIRST_CUT_DAY,
    SOWING_OPENS,
    STEEP_D,
    VAT_D,
    WASH_D,
)
from bluewright.science.plan.chain_record import ClothPlanRecord, ClothWant, DaysBack, SowBy, Step, StepDay

Places = NDArray[np.int64]
"""Days by their place among those looked at."""
DRAWS_D: Final = 500
"""Draws of the weather: days are told to a day."""
PAST_D: Final = 60
"""Days before today that are looked at, so that a bed sown then, and the season that has just ended, are told of."""
AHEAD_D: Final = 365
"""Days ahead: what is wanted later is cut in the season before, and what is wanted some time in the next."""
MOST_CUTS: Final = 3
SEASON_D: Final = 270
"""From sowing into the winter after it, and not into the next season: what is wanted some time is cut till then."""
LATE_SOWN_DAY: Final = 213
"""Northern day after which what is sown has its season in the next year: the first of August."""
AFTER_JARS: Final[frozenset[Step]] = frozenset({"vat", "dye", "finish"})
"""Steps that are left where jars are enough."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """Warmth from some months ago to the last day that matters, in draws."""

    days: Sequence[date]
    degree_d: Floats
    """Degree-days since the first day, to the evening of each, shape (n, d)."""
    last_cut: Places
    """For each day the last one up to it on which leaf is still worth cutting, -1 where there is none, shape (n, d)."""
    first_degree_d: Floats
    """From the beginning to the first cut, shape (n,)."""
    again_degree_d: Floats
    """From cut to cut, shape (n,)."""
    opens: int
    """The first day from today on, on which can be sown or planted."""


def ahead(record: ClothPlanRecord, growing: Growing, *, rng: np.random.Generator) -> Ahead | None:
    """The warmth ahead; None where no weather is given."""
    if record.weather is None or record.now is None:
        return None
    farthest = record.now + timedelta(days=AHEAD_D)
    dated = [want.by for want in record.wants if want.by is not None]
    last = min(max(dated), farthest) if dated and len(dated) == len(record.wants) else farthest
    first = record.now - timedelta(days=PAST_D)
    days = span(first, last)
    air = temps(days, weather=record.weather, now=record.now, rng=rng, n=DRAWS_D)
    of_year = np.array([northern_day(day, hemisphere=record.weather.hemisphere) for day in days])
    allowed = (of_year >= FIRST_CUT_DAY.value) & (of_year <= growing.ends.draw(rng, DRAWS_D)[:, None])
    places = np.where(allowed, np.arange(len(days)), -1)
    sowable = (of_year >= SOWING_OPENS[record.plant].value) & (of_year < LATE_SOWN_DAY)
    sowable &= np.arange(len(days)) >= (record.now - first).days
    return Ahead(
        days=days,
        degree_d=np.cumsum(degree_days(air.min_c, air.max_c, base_c=growing.base_c), axis=1),
        last_cut=np.maximum.accumulate(places, axis=1),
        first_degree_d=growing.first_factor * growing.first_degree_d.draw(rng, DRAWS_D),
        again_degree_d=growing.again_degree_d.draw(rng, DRAWS_D),
        opens=int(sowable.argmax()) if sowable.any() else len(days) - 1,
    )


def in_time_cuts(record: ClothPlanRecord, soon: Ahead, *, by: date | None, rng: np.random.Generator) -> Floats:
    """Cuts that come in time if it is sown as soon as the season allows, shape (DRAWS_D,); 0 where none does.

    In time for `by`: before what follows the cut of the most cloth wanted by then; without a day, before winter.
    """
    cloth = [want for want in record.cloth if want.by == by]
    taken = _taken_d(record, max(cloth, key=lambda want: want.mass_kg, default=None), rng=rng)
    ready = _last_cut(soon, by=by, left_d=_total(taken))
    gone = soon.degree_d[np.arange(DRAWS_D), np.maximum(ready, 0)] - soon.degree_d[:, soon.opens]
    more = 1 + np.floor((gone - soon.first_degree_d) / soon.again_degree_d)
    return np.asarray(np.where(ready > soon.opens, np.maximum(more, 0.0), 0.0))


def days_back(
    record: ClothPlanRecord, parts: Sequence[Need], soon: Ahead | None, *, served: Sequence[bool],
    rng: np.random.Generator,
) -> tuple[DaysBack, ...]:  # fmt: skip
    """The days back from each want that has one; `served` says which jars and beds that stand are enough for."""
    return tuple(
        _back(record, part, soon, by=part.by, now=record.now, stands=stands, rng=rng)
        for part, stands in zip(parts, served, strict=True)
        if part.want is not None and part.by is not None and record.now is not None
    )


def _back(
    record: ClothPlanRecord, part: Need, soon: Ahead | None, *, by: date, now: date, stands: bool,
    rng: np.random.Generator,
) -> DaysBack:  # fmt: skip
    from_jars = bool(np.mean(part.to_make_g == 0) >= record.wanted_chance)
    taken = _taken_d(record, part.want if isinstance(part.want, ClothWant) else None, rng=rng)
    taken = {step: days for step, days in taken.items() if not from_jars or step in AFTER_JARS}
    steps: list[StepDay] = []
    left = np.zeros(DRAWS_D)
    for step in reversed(list(taken)):
        left = left + taken[step]
        steps.insert(0, _step_day(step, taken[step], left, by=by, chance=record.wanted_chance))
    sow: tuple[SowBy, ...] = ()
    slack_d: int | None = ((steps[0].begin_by if steps else by) - now).days
    if soon is not None and not from_jars:
        ready = _last_cut(soon, by=by, left_d=left)
        sow = () if stands else _sow(record, soon, ready=ready)
        steps[:1] = _season_bound(steps[0], soon, ready=ready, chance=record.wanted_chance)
        begin_by = sow[0].begin_by if sow else steps[0].begin_by if steps[0].step == "cut" else None
        opens = max(now, soon.days[soon.opens]) if sow else now
        slack_d = None if begin_by is None else (begin_by - opens).days
    doubt = sorted(taken, key=lambda step: -float(np.ptp(quantiles(taken[step], [0.5, 0.95]))))
    return DaysBack(
        name=part.name, by=by, steps=tuple(steps), sow=sow, slack_d=slack_d, from_jars=from_jars,
        from_beds=stands and not from_jars,
        critical=doubt[0] if doubt else None,
    )  # fmt: skip


def _season_bound(cut: StepDay, soon: Ahead, *, ready: Places, chance: float) -> list[StepDay]:
    """The last cut, no later than leaf is worth cutting; none where that was before the days looked at."""
    safe, low, mid, high = quantiles(ready.astype(float), [1 - chance, 0.05, 0.5, 0.95])
    early, middle, late, begin_by = (_day(soon, place) for place in (low, mid, high, safe))
    if begin_by is None:
        return []
    return [replace(cut, begin_by=begin_by, latest=DayBand(early=early, middle=middle, late=late))]


def _step_day(step: Step, takes_d: Floats, left_d: Floats, *, by: date, chance: float) -> StepDay:
    safe, low, mid, high = quantiles(left_d, [chance, 0.05, 0.5, 0.95])

    def before(earlier_d: float) -> date:
        return by - timedelta(days=math.ceil(earlier_d))

    return StepDay(
        step=step,
        takes_d=band(takes_d, digits=2),
        begin_by=before(safe),
        latest=DayBand(early=before(high), middle=before(mid), late=before(low)),
    )


def _taken_d(record: ClothPlanRecord, want: ClothWant | None, *, rng: np.random.Generator) -> dict[Step, Floats]:
    """Days of each step in order, each of shape (DRAWS_D,); of pigment without vat, dyeing and finish."""
    steps: dict[Step, Floats] = {
        "cut": np.zeros(DRAWS_D),
        "steep": STEEP_D[record.steep_kind].draw(rng, DRAWS_D),
        "wash": WASH_D.draw(rng, DRAWS_D),
        "dry": DRY_D.draw(rng, DRAWS_D),
    }
    if want is None:
        return steps
    fewest, most = DIPS[depth_of(want)]["cellulose" if want.fibre not in PROTEIN else want.fibre]  # type: ignore[index]
    dips = rng.integers(fewest, most + 1, DRAWS_D)
    return steps | {
        "vat": VAT_D[record.vat_kind].draw(rng, DRAWS_D),
        "dye": np.ceil(dips / DIPS_A_DAY.draw(rng, DRAWS_D)),
        "finish": FINISH_D.draw(rng, DRAWS_D),
    }


def _total(taken: Mapping[Step, Floats]) -> Floats:
    return np.asarray(sum(taken.values(), np.zeros(DRAWS_D)))


def _last_cut(soon: Ahead, *, by: date | None, left_d: Floats) -> Places:
    """The place of the last day for a cut, -1 where there is none, shape (DRAWS_D,)."""
    rows = np.arange(DRAWS_D)
    if by is None or by > soon.days[-1]:
        return np.asarray(soon.last_cut[rows, min(soon.opens + SEASON_D, len(soon.days) - 1)])
    place = (by - soon.days[0]).days - np.ceil(left_d).astype(int)
    return np.asarray(np.where(place >= 0, soon.last_cut[rows, np.maximum(place, 0)], -1))


def _sow(record: ClothPlanRecord, soon: Ahead, *, ready: Places) -> tuple[SowBy, ...]:
    """Days for sowing, from the warmth between it and the last cut."""
    at_cut = np.where(ready >= 0, soon.degree_d[np.arange(DRAWS_D), np.maximum(ready, 0)], -np.inf)
    found = []
    for cuts in range(1, MOST_CUTS + 1):
        wanted = at_cut - soon.first_degree_d - (cuts - 1) * soon.again_degree_d
        enough: Bools = soon.degree_d <= wanted[:, None]
        last = enough.sum(axis=1) - 1
        safe, low, mid, high = quantiles(last.astype(float), [1 - record.wanted_chance, 0.05, 0.5, 0.95])
        early, middle, late, begin_by = (_day(soon, place) for place in (low, mid, high, safe))
        found.append(SowBy(cuts=cuts, begin_by=begin_by, latest=DayBand(early=early, middle=middle, late=late)))
    return tuple(found)


def _day(soon: Ahead, place: float) -> date | None:
    return None if place < 0 else soon.days[math.floor(place)]
