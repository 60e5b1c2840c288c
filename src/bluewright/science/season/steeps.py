"""How long tubs take through the season: from the steep model at fixed warmth, once, to the steeps of each day.

Formula: the share of its best that a steep still gives after so many hours, at seven temperatures of the water, for
members drawn from the priors of the plant; between temperatures straight lines. The water of a day is as warm as the
middle between its coldest and warmest air, taken over the first days of the steep.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache
from statistics import NormalDist
from typing import Final

import numpy as np

from bluewright.science.base.bands import NINETY_Z
from bluewright.science.base.sourced import Floats
from bluewright.science.bed.growth import Warmth
from bluewright.science.media.basket import Plant
from bluewright.science.media.weather.days import Bools
from bluewright.science.plan.schedule_problem import Steeps
from bluewright.science.season.record import BestAfter
from bluewright.science.steep.kinetics import solve
from bluewright.science.steep.record import SteepRecord
from bluewright.science.steep.setting import setting
from bluewright.science.thread import KEPT_AT, content_of

MEMBERS: Final = 80
TEMPS_C: Final = (5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0)
HOURS: Final = np.concatenate([np.arange(0, 24, 1.0), np.arange(24, 120, 3.0), np.arange(120, 529, 8.0)])
MOST_D: Final = 21
"""No steep is planned longer."""
OVER_D: Final = 3
"""The water is taken as warm as the mean of so many days from filling on."""
GOOD_FRAC: Final = 0.8
"""A steep is planned for days that keep so much of what the best day gives, if there are any."""
POOR_FRAC: Final = 0.5
"""Below this share no steep is planned at all."""
CHOICES: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Steeps of one plant at fixed temperatures."""

    kept_frac: Floats
    """Share of its best, by temperature, hour and member, shape (c, h, m)."""
    best_h: Floats
    """When each is at its best, (c, m)."""


@lru_cache(maxsize=8)
def table(plant: Plant) -> Table:
    """The table of a plant: the steep model solved once for all temperatures and members.

    Ordinary leaf, a kilogram in ten litres of water.
    """
    rng = np.random.default_rng(1)
    began = datetime(2001, 7, 1, 12, tzinfo=UTC)
    record = SteepRecord(plant=plant, method="cold", started=began, now=began, leaf_kg=10.0, water_l=100.0)
    base = setting(
        record, content=content_of(record, rng=rng), temp_paths=lambda hours, n: np.full((n, len(hours)), 20.0)
    )
    scores = np.tile(rng.standard_normal((MEMBERS, len(base.names))), (len(TEMPS_C), 1))
    temp_c = np.tile(np.repeat(TEMPS_C, MEMBERS), (len(HOURS), 1))
    course = solve(base.batch(scores), hours=HOURS, temp_c=temp_c, freed_frac=base.freed_frac)
    given = course.recoverable_mmol_per_l.reshape(len(HOURS), len(TEMPS_C), MEMBERS).transpose(1, 0, 2)
    return Table(kept_frac=given / given.max(axis=1, keepdims=True), best_h=HOURS[given.argmax(axis=1)])


@dataclass(frozen=True, slots=True, kw_only=True)
class Steeping:
    """Draws of steeps of one plant in this season; days are counted from today, draws are those of the weather."""

    kept_frac: Floats
    """Share of its best, by day of filling, days until straining (0 to `MOST_D`) and draw, (d, MOST_D + 1, n)."""
    best_d: Floats
    """Days to the best, (d, n)."""

    @property
    def middle_frac(self) -> Floats:
        """What is planned with: the mean over draws as a share of that of the best number of days, (d, MOST_D + 1)."""
        mean = self.kept_frac.mean(axis=2)
        return np.asarray(mean / mean.max(axis=1, keepdims=True))

    @property
    def best_frac(self) -> Floats:
        """Mean over draws for the best number of days, (d,)."""
        return np.asarray(self.kept_frac.mean(axis=2).max(axis=1))


def steeping(plant: Plant, *, season: Warmth, today: int, method: str) -> Steeping:
    """Steeps that begin on each day from today on."""
    found, draws = table(plant), len(season.degree_d)
    member = np.arange(draws) % MEMBERS
    air_c = (season.temps.min_c[:, today:] + season.temps.max_c[:, today:]) / 2
    days = air_c.shape[1]
    kept, best = np.empty((days, MOST_D + 1, draws)), np.empty((days, draws))
    daily = found.kept_frac[:, np.searchsorted(HOURS, 24.0 * np.arange(MOST_D + 1))].transpose(0, 2, 1)
    for day in range(days):
        water_c = air_c[:, day : day + OVER_D].mean(axis=1)
        if method == "warm":
            water_c = np.full(draws, KEPT_AT["warm"].centre)
        upper = np.clip(np.searchsorted(TEMPS_C, water_c), 1, len(TEMPS_C) - 1)
        low, high = np.asarray(TEMPS_C)[upper - 1], np.asarray(TEMPS_C)[upper]
        part = np.clip((water_c - low) / (high - low), 0, 1)
        below, above = daily[upper - 1, member], daily[upper, member]
        kept[day] = ((1 - part)[:, None] * below + part[:, None] * above).T
        log_h = [np.log(np.maximum(found.best_h[place, member], 1.0)) for place in (upper - 1, upper)]
        best[day] = np.exp((1 - part) * log_h[0] + part * log_h[1]) / 24.0
    return Steeping(kept_frac=kept, best_d=best)


def as_seen(found: Steeping, best: BestAfter | None) -> Steeping:
    """A tub that steeps today, whose best the looks at it put elsewhere than the season does.

    Each draw keeps its place among the others, from the quickest to the slowest, and its course is stretched in time
    until its best falls on the same place of what the looks say: a normal of the logarithm either side of the middle.
    """
    kept, season_d = found.kept_frac[:1], found.best_d[:1]
    if best is None:
        return Steeping(kept_frac=kept, best_d=season_d)
    draws = season_d.shape[1]
    ranks = np.argsort(np.argsort(season_d[0], kind="stable"), kind="stable")
    normal = NormalDist()
    score = np.array([normal.inv_cdf((rank + 0.5) / draws) for rank in range(draws)])[ranks]
    best_d = two_sided(score, p5=best.p5_d, p50=best.p50_d, p95=best.p95_d)
    day = np.arange(MOST_D + 1, dtype=float)
    own_d = day[:, None] * (season_d[0] / best_d)[None, :]
    stretched = np.column_stack([np.interp(own_d[:, k], day, kept[0, :, k]) for k in range(draws)])
    return Steeping(kept_frac=stretched[None], best_d=best_d[None])


def choices(found: Steeping, *, workable: Bools, clash_chance: float | None) -> Steeps:
    """The steeps that the schedule chooses from: filled and strained on working days."""
    middle, rows = found.middle_frac, list[tuple[int, int, int, float]]()
    for fill in np.flatnonzero(workable).tolist():
        for strain, kept in strainings(middle[fill], workable, fill=fill, gone_d=0):
            rows.append((fill, strain, busy_until(found.best_d[fill], fill, clash_chance, strain), kept))
    fills, strains, until, share = (list(column) for column in zip(*rows, strict=True)) if rows else ([], [], [], [])
    return Steeps(
        fill=np.array(fills, dtype=np.int64), strain=np.array(strains, dtype=np.int64),
        busy_until=np.array(until, dtype=np.int64), kept_frac=np.array(share, dtype=float),
    )  # fmt: skip


def strainings(middle_frac: Floats, workable: Bools, *, fill: int, gone_d: int) -> list[tuple[int, float]]:
    """The best working days to strain what was filled `gone_d` days before `fill`, with what each keeps."""
    able = [
        (fill + after, float(middle_frac[after + gone_d]))
        for after in range(0 if gone_d else 1, len(middle_frac) - gone_d)
        if fill + after < len(workable) and workable[fill + after]
    ]
    good = [one for one in able if one[1] >= GOOD_FRAC]
    if not good:
        good = [max(able, key=lambda one: one[1])] if able else []
        good = [one for one in good if one[1] >= POOR_FRAC or gone_d]
    return sorted(good, key=lambda one: -one[1])[:CHOICES]


def busy_until(best_d: Floats, fill: int, clash_chance: float | None, strain: int) -> int:
    """The day until which the tub is kept for a steep: that of straining, or the one on which few are slower."""
    if clash_chance is None:
        return strain
    return max(strain, fill + int(np.ceil(np.quantile(best_d, 1 - clash_chance))))


def two_sided(z: Floats, *, p5: float, p50: float, p95: float) -> Floats:
    """Values at normal scores, whose logarithm is normal either side of the middle, through three points of a band."""
    side = np.where(z > 0, np.log(p95 / p50), np.log(p50 / p5))
    return np.asarray(p50 * np.exp(z / NINETY_Z * side))
