"""The strain call: from a learned ensemble to the answer."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Final

import numpy as np

from bluewright.science.base.bands import BandAtTime, band, quantiles, significant
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.stoichiometry import INDIGO_G_PER_MMOL_PRECURSOR
from bluewright.science.steep.answer import NextReading, Option, Recoverable, SteepAnswer, Window
from bluewright.science.steep.cautions import cautions
from bluewright.science.steep.decide import Decision, decide, listed, outlook, time_at, window_h
from bluewright.science.steep.ensemble import MEMBERS, Ensemble, learn
from bluewright.science.steep.next_reading import worths
from bluewright.science.steep.record import SteepRecord
from bluewright.science.steep.setting import TempPaths, setting

CURVE_POINTS = 72
DRAWN_ON: Final = 1.25
"""Curves end so much after now, the window and the hour by which nineteen in twenty members are at their best."""
SHOWN_READINGS = 5


def begin(
    record: SteepRecord,
    *,
    content: Prior,
    temp_paths: TempPaths,
    rng: np.random.Generator,
    members: int = MEMBERS,
    between: Callable[[], None] | None = None,
) -> Ensemble:
    """The ensemble of a steep after all readings of its record; `between` is as `ensemble.learn` has it.

    `content` is the precursor of this leaf in mmol/kg (log-normal); `temp_paths(hours, n)` draws n paths of the tub's
    temperature, (n, t). Raises ModelError if the readings contradict the model beyond reach.
    """
    return learn(setting(record, content=content, temp_paths=temp_paths), members=members, rng=rng, between=between)


def answer(ensemble: Ensemble) -> SteepAnswer:
    """The strain call of an ensemble as it stands: forecast, window, advice, next reading, cautions."""
    record, weights = ensemble.setting.record, ensemble.weights
    course = ensemble.setting.course(ensemble.population.z)
    view = outlook(course, weights)
    decision = decide(record, view)
    grams = _grams_per_mmol_per_l(ensemble)
    now = ensemble.setting.row(record.now)
    opens, closes = window_h(view)
    best_h = quantiles(view.peak_h, [0.95], weights=weights)
    drawn = view.hours <= DRAWN_ON * max(float(best_h[0]), closes, ensemble.setting.hour(record.now))
    return SteepAnswer(
        id=record.id,
        advice=decision.advice,
        strain_at=_moment(record, decision, decision.chosen),
        look_again_at=time_at(record, decision.look_again_h),
        window=Window(from_=time_at(record, opens), to=time_at(record, closes)),
        recoverable_g=Recoverable(
            now=band(view.share_frac[now] * view.best_mmol_per_l * grams, weights=weights),
            best=band(view.best_mmol_per_l * grams, weights=weights),
        ),
        best_h=band(view.peak_h, weights=weights),
        frac_of_best_now=band(view.share_frac[now], weights=weights),
        now_in_liquor_frac=band(course.recoverable_mmol_per_l[now] / course.start_mmol_per_l, weights=weights),
        chance_past_peak=significant(decision.past_peak_chance, 3),
        options=_options(record, decision, weights),
        next_reading=tuple(
            NextReading(reading=name, expected_gain_frac=significant(worth, 3))
            for name, worth in worths(ensemble, course, decision)[:SHOWN_READINGS]
        ),
        curve=_curve(record, course.hours[drawn], course.recoverable_mmol_per_l * grams, weights),
        share_curve_frac=_curve(record, course.hours[drawn], view.share_frac, weights),
        temp_curve_c=_curve(record, course.hours[drawn], course.temp_c, weights),
        ess=significant(ensemble.population.ess),
        basis="readings" if record.readings else "garden" if record.garden else "prior",
        inputs=record,
        cautions=cautions(ensemble, course, decision),
        sources=tuple(sorted({prior.source for prior in ensemble.setting.priors.values()})),
    )


def _grams_per_mmol_per_l(ensemble: Ensemble) -> Floats:
    """Grams of pure indigo that a mmol/L of recoverable indoxyl becomes in each member, (n,)."""
    finish = ensemble.setting.batch(ensemble.population.z).values["finish_frac"]
    return finish * ensemble.setting.liquor_l * INDIGO_G_PER_MMOL_PRECURSOR


def _moment(record: SteepRecord, decision: Decision, row: int) -> datetime:
    """The moment of an option; the first is now itself, unrounded."""
    return time_at(record, float(decision.option_h[row])) if row else record.now


def _options(record: SteepRecord, decision: Decision, weights: Floats) -> tuple[Option, ...]:
    return tuple(
        Option(
            time=_moment(record, decision, row),
            expected_frac_of_best=significant(float(decision.expected_frac[row]), 3),
            chance_of_losing_a_fifth=significant(float((decision.share_frac[row] < 0.8) @ weights), 3),
        )
        for row in listed(decision)
    )


def _curve(record: SteepRecord, hours: Floats, values: Floats, weights: Floats) -> tuple[BandAtTime, ...]:
    """The band of `values` (t, n) at about `CURVE_POINTS` even times of the grid's first `hours`."""
    rows = np.unique(np.searchsorted(hours, np.linspace(0, hours[-1], CURVE_POINTS)).clip(0, len(hours) - 1))
    low, mid, high = quantiles(values[rows].T, [0.05, 0.5, 0.95], weights=weights)
    return tuple(
        BandAtTime(
            time=time_at(record, float(hours[row])),
            p5=significant(low[k]), p50=significant(mid[k]), p95=significant(high[k]),
        )
        for k, row in enumerate(rows)
    )  # fmt: skip
