"""The weighed ensemble of one batch: its past up to now, and its future until it is done."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.air.endpoint import has_readings, log_likelihood
from bluewright.science.air.members import (
    CAUSES,
    Course,
    Members,
    course,
    members,
    ph_read,
    rate_l_per_mmol_h,
    scores,
)
from bluewright.science.air.oxidation import Future, done_frac, exposure_for, onward
from bluewright.science.air.priors import DONE_FRAC
from bluewright.science.air.record import AirRecord
from bluewright.science.base.bands import Band, band
from bluewright.science.base.smc import Population, from_prior, learn
from bluewright.science.base.sourced import Floats

DONE_EXPOSURE: Final = exposure_for(DONE_FRAC)
LEAST_AHEAD_H: Final = 20.0 / 60.0
"""The future is carried at least this far, so that 'ten more minutes' can be asked of a batch that is done."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """The weighed ensemble with its past and its future; arrays have shape (n,)."""

    drawn: Population
    group: Members
    path: Course
    future: Future
    left_h: Floats
    needed_h: Floats

    def mean(self, samples: Floats) -> float:
        """Weighted mean over the members."""
        return float(np.sum(self.drawn.weights * samples))

    def band(self, samples: Floats) -> Band:
        """Weighted band over the members."""
        return band(samples, weights=self.drawn.weights)

    def done_frac_at(self, at_h: float) -> Floats:
        """Share of the indoxyl that has turned `at_h` hours after the start of airing, (n,); past or to come."""
        ahead = self.future.at_h(np.maximum(at_h - self.group.done_h, 0.0)).exposure
        if len(self.path.session_frac) < 2:
            return np.asarray(done_frac(ahead))
        past = _past(self.path, self.group).at_h(np.minimum(at_h, self.group.done_h)).exposure
        return np.asarray(done_frac(np.where(at_h < self.group.done_h, past, ahead)))

    def chance(self, event: NDArray[np.bool_]) -> float:
        """Weighted share of the members for which `event` holds."""
        return float(np.sum(self.drawn.weights[event]))


def forecast(record: AirRecord, *, rng: np.random.Generator, draws: int) -> Forecast:
    """The ensemble of this record, weighed by its readings and carried on until done."""

    def likelihood(z: Floats) -> Floats:
        group = members(record, z)
        return log_likelihood(record, course(record, group), group, at=scores(z))

    if has_readings(record):
        drawn = learn(likelihood, n=draws, dims=len(CAUSES), rng=rng)
    else:
        drawn = from_prior(draws, len(CAUSES), rng=rng)
    group = members(record, drawn.z)
    path = course(record, group)
    future = onward(
        group.batch,
        path.now,
        rate_l_per_mmol_h=rate_l_per_mmol_h(group, float(ph_read(record, 1.0))),
        to_exposure=DONE_EXPOSURE,
        least_h=LEAST_AHEAD_H,
    )
    left_h = future.reaches_h(DONE_EXPOSURE)
    needed_h = np.where(left_h > 0, group.done_h + left_h, _reached_h(path, group))
    return Forecast(drawn=drawn, group=group, path=path, future=future, left_h=left_h, needed_h=needed_h)


def _reached_h(path: Course, group: Members) -> Floats:
    """When members that are done by now were done, hours from the start; the others get the present hour."""
    if len(path.session_frac) < 2:
        return group.done_h
    reached = path.now.exposure >= DONE_EXPOSURE
    return np.where(reached, _past(path, group).reaches_h(DONE_EXPOSURE), group.done_h)


def _past(path: Course, group: Members) -> Future:
    """The race so far on each member's own clock."""
    return Future(
        after_h=path.session_frac[:, None] * group.done_h,
        exposure=path.exposure,
        oxygen_mmol_per_l=path.oxygen_mmol_per_l,
    )
