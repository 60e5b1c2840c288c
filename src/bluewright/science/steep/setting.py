"""What is fixed about one steep while its ensemble learns: plant, amounts, time grid, temperatures, readings.

A member of the ensemble is a row of standard-normal scores. `Setting.names` says what each column stands for: the
parameters of the plant, the ways of temperature, and one offset or bias for each sign and instrument in use.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.basket import SAP_L_PER_KG
from bluewright.science.steep.kinetics import Batch, Course, moments, solve
from bluewright.science.steep.numbers import NUMBERS
from bluewright.science.steep.priors import CUT_FACTOR, FREED_BY_ALKALI_FRAC, priors_of
from bluewright.science.steep.record import CONTENT_NAME, Method, SteepRecord
from bluewright.science.steep.signs import SIGNS

TempPaths = Callable[[Floats, int], Floats]
"""From hours since the start (t,) and a number n to n drawn paths of tub temperature, (n, t)."""

COVERED_SHARE: Final = 0.25
"""A cover lets this share of the oxygen through that an open surface does (judgement)."""
DEFAULT_AREA_PER_DEPTH_PER_M: Final = 3.0
"""Surface over volume of an ordinary tub, about 0.33 m deep."""
WAYS: Final = 8
"""How many ways of temperature are kept: the leading modes of the drawn paths."""
WAY_DRAWS: Final = 600
MOST_H: Final = 90 * 24.0
SPAN_STEPS: Final = 200
LATE_PEAKS: Final = 2.5
"""So many times the rough hour of the peak the grid goes on beyond what it follows closely ..."""
STEP_GROWTH: Final = 1.1
WIDEST_H: Final = 6.0
"""... by steps each so many times the one before, but no wider than tells day from night."""
ENOUGH_PEAKS: Final = 3.5
"""Where temperatures are drawn for so many times the rough hour of the peak, the grid ends with them: to draw them anew
costs a third of a call and tells of hours at which next to no tub is at its best."""
FIRST_SPAN_H: Final[dict[Method, float]] = {"cold": 288.0, "warm": 72.0, "hot": 3.0}
"""How far temperatures are drawn at first: long enough for all but the slowest steeps of each method."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taught:
    """What a garden has taught: the scores of some columns are normal with a centre and a covariance of their own.

    Members stay standard-normal scores; score = centre + root z for those columns, with root root' the covariance.
    """

    columns: tuple[int, ...]
    centre_z: Floats
    """(k,)"""
    root: Floats
    """Lower triangle, (k, k)."""

    def scores(self, z: Floats) -> Floats:
        """All scores (n, d) of members `z` (n, d)."""
        found = z.copy()
        found[:, self.columns] = self.centre_z + z[:, self.columns] @ self.root.T
        return found

    def column(self, z: Floats, place: int) -> Floats:
        """The scores (n,) in one column."""
        if place not in self.columns:
            return z[:, place]
        row = self.columns.index(place)
        return np.asarray(self.centre_z[row] + z[:, self.columns[: row + 1]] @ self.root[row, : row + 1])


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """One steep, ready for an ensemble."""

    record: SteepRecord
    priors: dict[str, Prior]
    """Parameters by name, with `content_mmol_per_kg` of this leaf."""
    hours: Floats
    """Time grid (t,); every reading and the present moment stand on it."""
    temp_mean_c: Floats
    temp_ways_c: Floats
    """Leading modes of the temperature's uncertainty, (k, t), each one standard deviation."""
    temps_known: int
    """How many readings had already told their temperature when the paths were drawn."""
    taught: Taught | None = None
    """What the garden has taught of some of the columns."""

    @property
    def names(self) -> tuple[str, ...]:
        """What each column of the scores stands for."""
        ways = [f"way {k}" for k in range(len(self.temp_ways_c))]
        return (*self.priors, *ways, *SIGNS, *NUMBERS)

    @property
    def liquor_l(self) -> float:
        """Water and sap together, litres."""
        return self.record.water_l + SAP_L_PER_KG.centre * self.record.leaf_kg

    @property
    def freed_frac(self) -> float:
        """Share of the dissolved, unsplit precursor that alkali sets free."""
        return FREED_BY_ALKALI_FRAC[self.record.plant]

    def hour(self, time: datetime) -> float:
        """Hours from the start to `time`."""
        return (time - self.record.started).total_seconds() / 3600

    def row(self, time: datetime) -> int:
        """The row of the grid on which `time` stands."""
        return int(np.argmin(np.abs(self.hours - self.hour(time))))

    def column(self, z: Floats, name: str) -> Floats:
        """The scores of one name, (n,), moved by what the garden has taught."""
        place = self.names.index(name)
        return z[:, place] if self.taught is None else self.taught.column(z, place)

    def batch(self, z: Floats) -> Batch:
        """The members' parameters at scores `z` (n, d)."""
        record = self.record
        scores = z if self.taught is None else self.taught.scores(z)
        values = {name: prior.from_z(scores[:, k]) for k, (name, prior) in enumerate(self.priors.items())}
        open_per_m = record.tub.surface_m2 / (self.liquor_l / 1000) if record.tub.surface_m2 else None
        return Batch(
            values=values,
            leaf_kg_per_l=record.leaf_kg / self.liquor_l,
            cut_factor=CUT_FACTOR[record.leaf.cut],
            area_per_depth_per_m=(open_per_m or DEFAULT_AREA_PER_DEPTH_PER_M)
            * (COVERED_SHARE if record.tub.covered else 1.0),
        )

    def course(self, z: Floats, *, rows: Sequence[int] | None = None) -> Course:
        """What the steep does in every member, at every time of the grid or at some `rows` of it (rising)."""
        temp_c = self._temp_c(z, upto=len(self.hours) if rows is None else rows[-1] + 1)
        hours = self.hours[: len(temp_c)]
        return solve(self.batch(z), hours=hours, temp_c=temp_c, freed_frac=self.freed_frac, rows=rows)

    def moments(self, z: Floats, *, rows: Sequence[int]) -> Iterator[Course]:
        """The same at some `rows` of the grid (rising), one after the other."""
        temp_c = self._temp_c(z, upto=rows[-1] + 1)
        return moments(self.batch(z), hours=self.hours, temp_c=temp_c, freed_frac=self.freed_frac, rows=rows)

    def _temp_c(self, z: Floats, *, upto: int) -> Floats:
        """The liquor's temperature at the first times of the grid, (upto, n)."""
        first = len(self.priors)
        ways = z[:, first : first + len(self.temp_ways_c)]
        temps = self.temp_mean_c[:upto] + ways @ self.temp_ways_c[:, :upto]
        # Liquor neither cools below freezing nor warms above boiling, whatever the tail of a forecast says.
        liquid_c = np.clip(temps.T, 0.0, 100.0)
        return np.ascontiguousarray(liquid_c)


def setting(record: SteepRecord, *, content: Prior, temp_paths: TempPaths, draws: int = WAY_DRAWS) -> Setting:
    """The setting of `record`, given what is believed of its leaf and its temperature.

    `draws` paths of temperature are drawn over an even span of days (hours for a hot steep); a single member at the
    priors' centres shows when the peak is about due, and the time grid follows it: steps of a forty-fifth of that,
    closer at the start, to well past the peak and past the present moment; from there on ever wider, so that the best
    of a slow tub is not cut off, or to the end of the span if that is `ENOUGH_PEAKS`. A span that proves too short is
    doubled.
    """
    priors = priors_of(record.plant) | {CONTENT_NAME: content}
    now_h = (record.now - record.started).total_seconds() / 3600
    span_h = max(FIRST_SPAN_H[record.method], 1.5 * now_h)
    while True:
        even_h = np.linspace(0.0, span_h, SPAN_STEPS)
        paths = temp_paths(even_h, draws)
        peak_h = _rough_peak_h(record, priors, even_h, paths.mean(axis=0))
        hours = _grid(record, peak_h, drawn_h=span_h)
        if (hours[-1] <= span_h and ENOUGH_PEAKS * peak_h <= span_h) or span_h >= MOST_H:
            break
        span_h = min(max(2 * span_h, 1.1 * float(hours[-1])), MOST_H)
    mean, ways = _ways(paths)
    return _taught(
        Setting(
            record=record,
            priors=priors,
            hours=hours,
            temp_mean_c=np.interp(hours, even_h, mean),
            temp_ways_c=np.stack([np.interp(hours, even_h, way) for way in ways]),
            temps_known=len(record.readings),
        )
    )


def _rough_peak_h(record: SteepRecord, priors: dict[str, Prior], even_h: Floats, mean_c: Floats) -> float:
    """When a single member at the priors' centres is at its best; the end of the span if it is not over by then."""
    rough_h = np.concatenate([[0.0], np.geomspace(even_h[-1] / 2000, even_h[-1], 140)])
    alone = _taught(
        Setting(
            record=record,
            priors=priors,
            hours=rough_h,
            temp_mean_c=np.interp(rough_h, even_h, mean_c),
            temp_ways_c=np.zeros((0, len(rough_h))),
            temps_known=0,
        )
    )
    course = alone.course(np.zeros((1, len(alone.names))))
    return float(rough_h[np.argmax(course.recoverable_mmol_per_l[:, 0])])


def _taught(made: Setting) -> Setting:
    """The setting with what its record's garden has taught."""
    garden = made.record.garden
    if garden is None or not garden.moves:
        return made
    names = made.names
    spread_z = np.array([move.spread_z for move in garden.moves.values()])
    return replace(
        made,
        taught=Taught(
            columns=tuple(names.index(name) for name in garden.moves),
            centre_z=np.array([move.centre_z for move in garden.moves.values()]),
            root=spread_z[:, None] * np.linalg.cholesky(garden.correlation),
        ),
    )


def _grid(record: SteepRecord, peak_h: float, *, drawn_h: float) -> Floats:
    now_h = (record.now - record.started).total_seconds() / 3600
    near_h = max(2.2 * peak_h, now_h + 0.7 * peak_h)
    step_h = max(min(peak_h / 45, 2.0), near_h / 260)
    early = step_h * np.array([0.02, 0.06, 0.15, 0.3, 0.6])
    even = np.arange(0, near_h + step_h, step_h)
    wider = np.cumsum(np.minimum(step_h * STEP_GROWTH ** np.arange(1, 1 + LATE_PEAKS * peak_h / step_h), WIDEST_H))
    far = even[-1] + wider[: 1 + np.searchsorted(wider, LATE_PEAKS * peak_h)]
    far = far[far <= drawn_h]
    marks = [now_h, *((r.time - record.started).total_seconds() / 3600 for r in record.readings)]
    every = np.unique(np.concatenate([early, even, far, np.asarray(marks)]))
    gaps = np.diff(every, prepend=-np.inf) > 1e-4 * step_h
    must = np.isin(every, marks)
    return every[gaps | must]


def _ways(paths: Floats) -> tuple[Floats, Floats]:
    """Mean and leading modes (k, t) of drawn paths (n, t); what is cut off is given back to those kept."""
    mean = paths.mean(axis=0)
    _, sizes, modes = np.linalg.svd((paths - mean) / np.sqrt(len(paths) - 1), full_matrices=False)
    kept = int(np.clip(np.searchsorted(np.cumsum(sizes**2), 0.995 * np.sum(sizes**2)) + 1, 1, WAYS))
    restored = np.sqrt(np.sum(sizes**2) / max(np.sum(sizes[:kept] ** 2), 1e-30))
    return mean, restored * sizes[:kept, None] * modes[:kept]
