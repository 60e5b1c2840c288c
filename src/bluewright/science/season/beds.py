"""Beds as draws of their leaf on any day, and as the ways of cutting them that the schedule chooses from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.bed.blue import blue_g_per_kg
from bluewright.science.bed.growth import Warmth, cuts_seen, lengths_seen, season_ended, warmth
from bluewright.science.bed.growth_model import leaf_frac, learn
from bluewright.science.bed.growth_priors import PAST_FACTOR, RIPE_SD
from bluewright.science.bed.growth_record import GrowthRecord
from bluewright.science.media.air_temp import northern_day
from bluewright.science.media.basket import Plant
from bluewright.science.media.precursor import AGE, SEASON_UNKNOWN_D, SEASON_WIDTH_D, days_from_best
from bluewright.science.media.weather.days import Bools
from bluewright.science.plan.schedule_priors import EARLY_FACTOR, MOST_CUTS
from bluewright.science.plan.schedule_problem import START, Ints, Ways
from bluewright.science.season.record import SeasonBed, SeasonRecord

DRAWS: Final = 300
MIDDLE_DRAWS: Final = 50
"""Draws whose mean is planned with."""
BLUE_EVERY_D: Final = 10
LATE_D: Final = 14
"""Leaf that is past it already may still be cut within so many days."""
NEAR_D: Final = 21
"""Within so many days every working day is looked at for a cut."""
MOST_WAYS: Final = 3000
"""Beyond that so few days that no more ways than this are left."""
SPARSEST_D: Final = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Grown:
    """Draws of one bed; days are counted from today."""

    bed: SeasonBed
    kind: int
    degree_d: Floats
    """Degree-days from today until the evening of each day, shape (n, d)."""
    waited_d: int
    """Days since the last cut, or the beginning, until today."""
    gone_degree_d: Floats
    """Degree-days from the last cut, or the beginning, until today, (n,); below 0 where it begins later."""
    full_kg: Floats
    """Leaf that would stand at last, by cut, shape (n, k)."""
    ripe_first_degree_d: Floats
    """Degree-days to the coming cut, (n,)."""
    ripe_again_degree_d: Floats
    rise_degree_d: Floats
    blue_g_per_kg: Floats
    """Pure blue commonly got of leaf cut on each day, (n, d)."""
    in_season: Bools
    """(d,)"""
    learned: bool

    def gone(self, since: int, on: int | Ints) -> Floats:
        """Degree-days between a cut, or what was before today, and a day or several: (n,) or (n, k)."""
        until = self.degree_d[:, on]
        before = -self.gone_degree_d if since == START else self.degree_d[:, since]
        return until - (before if until.ndim == 1 else before[:, None])

    def ripe(self, since: int) -> Floats:
        """Degree-days to ready, (n,)."""
        return self.ripe_first_degree_d if since == START else self.ripe_again_degree_d

    def leaf_kg(self, since: int, on: int, *, cut: int) -> Floats:
        """Leaf of the whole bed on a day, (n,); `cut` counts the coming ones from 0."""
        share = leaf_frac(self.gone(since, on), ripe_degree_d=self.ripe(since), rise_degree_d=self.rise_degree_d)
        return np.asarray(self.full_kg[:, min(cut, self.full_kg.shape[1] - 1)] * share)

    def blue(self, since: int, on: int) -> Floats:
        """Grams from a kilogram of it, (n,): leaf past ripe loses, by the day past it as much as old leaf has less."""
        return np.asarray(self.blue_g_per_kg[:, on] * _fresh(self.gone(since, on) / self.ripe(since)))


def _fresh(ripe_frac: Floats) -> Floats:
    past = np.clip((ripe_frac - 1) / (PAST_FACTOR.value - 1), 0, 1)
    return np.asarray(1 - (1 - AGE["old"].centre) * past)


def season_warmth(record: SeasonRecord, plant: Plant, *, seed: int) -> Warmth:
    """The season's weather from the earliest beginning on; the same draws for every plant."""
    first = min([record.now, *(_since(bed) for bed in record.beds)])
    return warmth(plant, first, record.last, _growth(record, record.beds[0]), DRAWS, np.random.default_rng(seed))


def grown(record: SeasonRecord, bed: SeasonBed, *, kind: int, season: Warmth, rng: np.random.Generator) -> Grown:
    """Draws of one bed, learned from its own cuts as `bed growth` does it."""
    told = _growth(record, bed)
    marked = lengths_seen(told, season)
    seen = cuts_seen(told, season, marked={one.regrowth for one in marked}, rng=rng)
    found = learn(bed.plant, seen, lengths=marked, n=DRAWS, rng=rng)
    today, days = season.at(record.now), (record.last - record.now).days + 1
    ripe = np.exp(RIPE_SD.value * rng.standard_normal((2, DRAWS)))
    cuts = _left(bed)
    scatter = np.exp(found.cut_sd[:, None] * rng.standard_normal((DRAWS, max(cuts, 1))))
    last = bed.cuts[-1].on if bed.cuts else _since(bed)
    gone = season.degree_d[:, today] - season.degree_d[:, season.at(last)]
    over = season_ended(told, season, rng=rng)[:, today:]
    return Grown(
        bed=bed,
        kind=kind,
        degree_d=season.degree_d[:, today:] - season.degree_d[:, today : today + 1],
        waited_d=(record.now - last).days if bed.cuts else bed.between_d,
        gone_degree_d=gone,
        full_kg=bed.area_m2 * (found.full_kg_per_m2 * found.season_factor)[:, None] * scatter,
        ripe_first_degree_d=found.ripe_degree_d(None if bed.cuts else bed.start)
        * (ripe[0] if found.own_factor is None else found.own_factor),
        ripe_again_degree_d=found.again_degree_d * ripe[1],
        rise_degree_d=found.rise_degree_d,
        blue_g_per_kg=_blue(told, season, today=today, days=days, rng=rng),
        in_season=np.asarray(over.mean(axis=0) < 0.5),
        learned=bool(seen or marked or bed.blue),
    )


def _since(bed: SeasonBed) -> date:
    return bed.began or bed.cuts[0].on


def _left(bed: SeasonBed) -> int:
    """Cuts that the bed may still have this year."""
    return max(0, (bed.most_cuts or round(MOST_CUTS.value)) - len(bed.cuts))


def _growth(record: SeasonRecord, bed: SeasonBed) -> GrowthRecord:
    """The record of the bed's growth; a bed still to be sown is looked at from its sowing on."""
    return GrowthRecord(
        id=bed.id, plant=bed.plant, start=bed.start, began=bed.began, now=max(record.now, _since(bed)), cuts=bed.cuts,
        lengths=bed.lengths, blue=bed.blue, earlier=bed.earlier, bed_m2=bed.area_m2, weather=record.weather,
    )  # fmt: skip


def _blue(record: GrowthRecord, season: Warmth, *, today: int, days: int, rng: np.random.Generator) -> Floats:
    """Grams of blue in a kilogram cut on each day, (n, d): one chance of the bed, between days ten apart straight.

    What the garden's memory tells is of leaf of no day in particular: the course of the season, exp(-(a / w)^2 / 2)
    with a the days from the plant's best and w the season's width, is put to it as a share of its mean over a normal
    by `SEASON_UNKNOWN_D` about the best day, 1 / sqrt(1 + (u / w)^2).
    """
    if record.blue is not None:
        of_bed = blue_g_per_kg(record, on=record.now, rng=rng, n=DRAWS)
        width_d = SEASON_WIDTH_D[record.plant].draw(rng, DRAWS)[:, None]
        away_d = np.array([_from_best_d(record, season.days[today + day]) for day in range(days)])
        course = np.exp(-0.5 * (away_d / width_d) ** 2) * np.sqrt(1 + (SEASON_UNKNOWN_D.value / width_d) ** 2)
        return np.asarray(of_bed[:, None] * course)
    nodes = np.append(np.arange(0, days - 1, BLUE_EVERY_D), days - 1)
    seed = int(rng.integers(2**32))
    drawn = np.array(
        [
            blue_g_per_kg(record, on=season.days[today + node], rng=np.random.default_rng(seed), n=DRAWS)
            for node in nodes.tolist()
        ]
    )
    right = np.clip(np.searchsorted(nodes, np.arange(days)), 1, len(nodes) - 1) if len(nodes) > 1 else None
    if right is None:
        return np.repeat(drawn.T, days, axis=1)
    part = ((np.arange(days) - nodes[right - 1]) / (nodes[right] - nodes[right - 1]))[:, None]
    return np.asarray(((1 - part) * drawn[right - 1] + part * drawn[right]).T)


def _from_best_d(record: GrowthRecord, on: date) -> float:
    return days_from_best(record.plant, day_of_year=northern_day(on, hemisphere=record.weather.hemisphere))


def all_ways(beds: Sequence[Grown], *, workable: Bools, kept_frac: Sequence[Floats]) -> tuple[list[Ways], int]:
    """The ways of every bed, and every how many working days beyond three weeks they are on.

    `kept_frac` says by kind what the best steep that can be had from each day on keeps, (d,); 0 where there is none.
    """
    for every_d in range(1, SPARSEST_D + 1):
        made = [
            _ways(bed, number, workable & (kept_frac[bed.kind] > 0), kept_frac[bed.kind], every_d)
            for number, bed in enumerate(beds)
        ]
        if sum(len(one.on) for one in made) <= MOST_WAYS:
            break
    return made, every_d


def _ways(bed: Grown, number: int, days: Bools, kept: Floats, every_d: int) -> Ways:
    """Every chain of a cut before and a cut on a day, within the window of the leaf."""
    able = np.flatnonzero(days & bed.in_season[: len(days)])
    far = able[able >= NEAR_D]
    able = np.concatenate([able[able < NEAR_D], far[number % every_d :: every_d]])
    rows: list[tuple[int, int, float, float]] = []
    todo, seen, left = [START], set[int](), _left(bed.bed)
    while todo and left:
        since = todo.pop()
        if since in seen:
            continue
        seen.add(since)
        for on, leaf_kg, grams in _after(bed, since, able):
            rows.append((since, on, leaf_kg, grams * float(kept[on])))
            todo.append(on)
    rows.sort()
    since_, on_, leaf_, blue_ = (list(column) for column in zip(*rows, strict=True)) if rows else ([], [], [], [])
    return Ways(
        kind=bed.kind, parts=bed.bed.parts, most_cuts=max(left, 1), since=np.array(since_, dtype=np.int64),
        on=np.array(on_, dtype=np.int64), leaf_kg=np.array(leaf_, dtype=float),
        blue_g_per_kg=np.array(blue_, dtype=float),
    )  # fmt: skip


def _after(bed: Grown, since: int, able: Ints) -> list[tuple[int, float, float]]:
    """Days on which the cut after one may be taken, with the leaf and the blue that are planned with."""
    later = able[able > since]
    if not len(later):
        return []
    gone = bed.gone(since, later)
    ripe_frac = gone.mean(axis=0) / float(np.median(bed.ripe(since)))
    fits = (ripe_frac >= EARLY_FACTOR.value) & (ripe_frac <= PAST_FACTOR.value)
    if since == START and not bed.gone_degree_d.mean() < PAST_FACTOR.value * np.median(bed.ripe_first_degree_d):
        fits = later < LATE_D
    waited_d = later + bed.waited_d if since == START else later - since
    fits &= waited_d >= bed.bed.between_d
    some = slice(0, MIDDLE_DRAWS)
    on, gone = later[fits], gone[some][:, fits]
    ripe, rise = bed.ripe(since)[some, None], bed.rise_degree_d[some, None]
    leaf = bed.full_kg.mean() * leaf_frac(gone, ripe_degree_d=ripe, rise_degree_d=rise).mean(axis=0)
    blue = bed.blue_g_per_kg[:, on].mean(axis=0) * _fresh(gone / ripe).mean(axis=0)
    return list(zip(on.tolist(), leaf.tolist(), blue.tolist(), strict=True))
