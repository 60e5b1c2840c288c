"""How warm was the tub, is it, and will it be?

Model: one temperature for the whole tub, `dT/dt = (Te - T) / tau`, `Te` being the air with offsets for sun and night
sky (`air_temp`, `tub_walls`). Given `tau` all is linear and Gaussian, so readings of air and tub condition it exactly;
`tau` itself is learned by the probability that each value gives to the tub's readings. What is not known ahead (the
air, the sun, `tau`) widens the band ahead.

A tub whose water was warmed, or that a heater holds, is another *regime*: regimes compete by the same probability.
Not here: heat of fermentation (taken as nothing), layers within the tub.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.media.air_temp import Gaussian, Seen, air
from bluewright.science.media.tub import Tub
from bluewright.science.media.tub_walls import (
    NIGHT_OFFSET,
    OPEN_OFFSET,
    SUN_BY_WALL,
    SUN_DAY_H,
    SUN_OFFSET,
    SUN_OWN_DAY_FRAC,
    sun_curve,
    tau_prior,
)

__all__ = ["Part", "Seen", "TubForecast", "follow", "forecast", "sample_paths"]

START_SPREAD: Final = Prior(
    kind="normal", centre=0.0, spread=3.0, unit="C", source="common-practice", grade="guess",
    note="water from a tap or butt stands about at the daily mean of the air",
)  # fmt: skip
WARMED_START: Final = Prior(
    kind="normal", centre=50.0, spread=20.0, unit="C", source="common-practice", grade="guess",
    note="water that was warmed first; only weighed if a reading of the tub is there to show it",
)  # fmt: skip
WARMED_CHANCE: Final = Sourced(
    value=0.02, unit="1", source="common-practice", low=0.005, high=0.1, grade="guess",
    note="chance that the water of a tub not said to be warmed was warmed",
)  # fmt: skip
HEATER_OFF_CHANCE: Final = Sourced(
    value=0.1, unit="1", source="common-practice", low=0.02, high=0.3, grade="guess",
    note="chance that a tub said to be kept warm is in truth left to cool",
)  # fmt: skip
HEATER_SWING: Final = Prior(
    kind="normal", centre=0.0, spread=1.0, unit="C", source="common-practice", grade="guess",
    note="a thermostat's or a person's ups and downs about the temperature that is kept",
)  # fmt: skip
HEATER_SWING_H: Final = Sourced(value=2.0, unit="h", source="common-practice", low=0.5, high=6.0, grade="guess")

STEP_H: Final = 0.5
MOST_STEPS: Final = 200
WIDEST_STEP_H: Final = 2.0
"""The grid: half an hour a step, wider so as to keep to 200 steps, but at most 2 h, which the day's curve needs."""
TAU_SCORES: Final = np.linspace(-3.0, 3.0, 13)
"""Standard scores of log tau at which the readings' probability is first computed; then finer where it is high."""
TAU_NODES: Final = 8
"""Values of tau that paths are drawn with, each standing for an equal share of what is believed of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One share of the belief: a Gaussian over the grid, with its weight and time constant (None: held by a heater)."""

    weight_frac: float
    tau_h: float | None
    path: Gaussian


@dataclass(frozen=True, slots=True, kw_only=True)
class TubForecast:
    """What is believed of the tub's temperature: a mixture of Gaussians over an even grid of hours."""

    hours: Floats
    """Grid, shape (m,), hours since the steep began."""
    parts: tuple[Part, ...]
    tau_h: Floats
    """The 1, 2 ... 99 % points of the time constant after the readings, shape (99,)."""

    def draw(self, hours: Floats, *, rng: np.random.Generator, n: int) -> Floats:
        """`n` paths at `hours` (inside the grid), shape (n, len(hours)); linear between grid points."""
        weights = np.array([part.weight_frac for part in self.parts])
        ends = np.round(np.cumsum(weights / weights.sum()) * n).astype(int)
        paths = np.empty((n, len(hours)))
        rows = _between(self.hours, hours)
        for part, first, last in zip(self.parts, np.concatenate([[0], ends[:-1]]), ends, strict=True):
            if last > first:
                root = _root(part.path.cov_c2)
                drawn = part.path.mean_c + rng.standard_normal((last - first, len(root))) @ root.T
                paths[first:last] = drawn @ rows.T
        return np.asarray(rng.permutation(paths, axis=0))

    def moments(self, hours: Floats) -> tuple[Floats, Floats]:
        """Mean and standard deviation at `hours` (inside the grid), each of shape (len(hours),)."""
        rows = _between(self.hours, hours)
        weights = np.array([part.weight_frac for part in self.parts])[:, None]
        means = np.array([rows @ part.path.mean_c for part in self.parts])
        variances = np.array([((rows @ part.path.cov_c2) * rows).sum(axis=1) for part in self.parts])
        mean = (weights * means).sum(axis=0) / weights.sum()
        variance = (weights * (variances + (means - mean) ** 2)).sum(axis=0) / weights.sum()
        return mean, np.sqrt(np.maximum(variance, 0.0))  # a thermometer without error leaves less than rounding does


def sample_paths(
    hours: Floats,
    *,
    tub: Tub,
    liquid_l: float,
    clock_h: float,
    day_of_year: int,
    tub_seen: Seen,
    air_seen: Seen,
    hold_c: Prior | None,
    rng: np.random.Generator,
    n: int,
) -> Floats:
    """`n` draws of the tub's temperature at `hours` since the steep began, shape (n, len(hours)).

    `liquid_l` is water and leaf together; `clock_h` the local hour of day at hour 0; `hold_c` the temperature at
    which a heater keeps the tub (a normal or log-normal prior; None: left to the air). Readings at negative hours
    and air forecasts ahead are welcome. Without any reading: the wide seasonal prior of `air_temp.air`, which
    assumes the middle latitudes of the northern hemisphere.

    Raises InputError for hours that are not finite, or no liquid.
    """
    found = forecast(
        hours,
        tub=tub,
        liquid_l=liquid_l,
        clock_h=clock_h,
        day_of_year=day_of_year,
        tub_seen=tub_seen,
        air_seen=air_seen,
        hold_c=hold_c,
    )
    return found.draw(hours, rng=rng, n=n)


def forecast(
    hours: Floats,
    *,
    tub: Tub,
    liquid_l: float,
    clock_h: float,
    day_of_year: int,
    tub_seen: Seen,
    air_seen: Seen,
    hold_c: Prior | None,
) -> TubForecast:
    """What is believed of the tub over the span of `hours`; arguments as in `sample_paths`."""
    if not len(hours) or not np.isfinite(hours).all():
        raise InputError(where="hours", what="no hours, or one that is not a number", right="give at least one hour")
    if not liquid_l > 0:
        raise InputError(where="liquid_l", what=f"{liquid_l:g} L in the tub", right="it must be more than 0")
    grid = _grid(np.concatenate([hours, [0.0], tub_seen.hours]))
    felt = _felt(grid, tub=tub, clock_h=clock_h, day_of_year=day_of_year, air_seen=air_seen)
    prior = tau_prior(tub, liquid_l=liquid_l)
    hold = None if hold_c is None else _as_normal(hold_c)
    if hold is None:
        usual = _left_to_air(grid, felt, tau=prior, start=None, seen=tub_seen)
        other, chance = WARMED_START, WARMED_CHANCE.value
    else:
        usual = _held(grid, hold, tau=prior, seen=tub_seen)
        other, chance = hold, HEATER_OFF_CHANCE.value
    regimes = [(0.0, usual)]
    if len(tub_seen.hours):
        rival = _left_to_air(grid, felt, tau=prior, start=other, seen=tub_seen)
        regimes = [(float(np.log(1 - chance)), usual), (float(np.log(chance)), rival)]
    return _weighed(grid, regimes)


def follow(te_c: Floats, *, step_h: float, tau_h: float, start_c: float) -> Floats:
    """The tub's path, shape (m,), under felt temperatures `te_c` (shape (m,)) at even steps, linear between them.

    Formula: the exact solution of dT/dt = (Te - T)/tau over each step.
    """
    steps = len(te_c)
    kept = np.exp(-np.arange(steps) * step_h / tau_h)
    return np.asarray(_filter(np.arange(steps), steps=steps, step_h=step_h, tau_h=tau_h) @ te_c + start_c * kept)


def _grid(hours: Floats) -> Floats:
    first, last = float(hours.min()), float(hours.max())
    span_h = last - first
    steps = int(np.ceil(max(8, min(span_h / STEP_H, MOST_STEPS), span_h / WIDEST_STEP_H)))
    return np.linspace(first, max(last, first + 0.1), steps + 1)


def _between(grid: Floats, hours: Floats) -> Floats:
    """Rows that interpolate linearly from `grid` (even) to `hours`, shape (len(hours), len(grid))."""
    place = np.clip((hours - grid[0]) / (grid[1] - grid[0]), 0, len(grid) - 1)
    left = np.minimum(place.astype(int), len(grid) - 2)
    rows = np.zeros((len(hours), len(grid)))
    at = np.arange(len(hours))
    rows[at, left] = 1 - (place - left)
    rows[at, left + 1] = place - left
    return rows


def _filter(rows: NDArray[np.intp], *, steps: int, step_h: float, tau_h: float) -> Floats:
    """Rows of the matrix that turns felt temperatures into the tub's (start at 0 C), shape (len(rows), steps)."""
    ratio = step_h / tau_h
    kept = np.exp(-ratio)
    late = 1 - (1 - kept) / ratio if ratio > 1e-4 else ratio / 2
    early = 1 - kept - late
    lag = rows[:, None] - np.arange(steps)[None, :]
    powers = np.exp(-np.arange(steps) * ratio)
    held, held_before = powers[np.maximum(lag, 0)], powers[np.maximum(lag - 1, 0)]
    matrix = np.where(lag >= 0, late * held, 0.0) + np.where(lag >= 1, early * held_before, 0.0)
    matrix[:, 0] -= late * held[:, 0]
    return np.asarray(matrix)


def _felt(grid: Floats, *, tub: Tub, clock_h: float, day_of_year: int, air_seen: Seen) -> Gaussian:
    """The temperature that the tub feels at the grid, and the daily mean of the air at its start as last entry."""
    around = air(grid, clock_h=clock_h, day_of_year=day_of_year, seen=air_seen)
    sun, share = SUN_OFFSET[tub.sun], SUN_BY_WALL[tub.covered, tub.insulated]
    lit = np.append(share * sun_curve(np.mod(clock_h + grid, 24.0), day_of_year=day_of_year), 0.0)
    dark = np.append((lit[:-1] == 0).astype(float), 0.0)
    wet = np.append(np.full(len(grid), 0.0 if tub.covered else 1.0), 0.0)
    at = np.append(grid, grid[0])
    cloud = (
        1
        - SUN_OWN_DAY_FRAC.value
        + SUN_OWN_DAY_FRAC.value * np.exp(-np.abs(at[:, None] - at[None, :]) / SUN_DAY_H.value)
    )
    mean_c = around.mean_c + sun.centre * lit + NIGHT_OFFSET.centre * dark + OPEN_OFFSET.centre * wet
    cov_c2 = (
        around.cov_c2
        + sun.spread**2 * cloud * np.outer(lit, lit)
        + NIGHT_OFFSET.spread**2 * np.outer(dark, dark)
        + OPEN_OFFSET.spread**2 * np.outer(wet, wet)
    )
    return Gaussian(mean_c=mean_c, cov_c2=cov_c2)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Regime:
    """One way in which the tub may have been kept: the log probability of its readings, and its equal shares."""

    log_seen: float
    shares: Callable[[], tuple[tuple[float | None, Gaussian], ...]]
    """Worked out only if the regime counts: a whole path costs far more than the readings' probability."""
    tau_h: Floats


def _left_to_air(grid: Floats, felt: Gaussian, *, tau: Prior, start: Prior | None, seen: Seen) -> _Regime:
    """The tub left to the air: at values of tau that share the belief after the readings evenly."""
    rows, step_h, errors = _between(grid, seen.hours), grid[1] - grid[0], np.diag(seen.sd_c**2)

    def _log_weight(scores: Floats) -> Floats:
        found = -0.5 * scores**2 - 0.5 * np.log(2 * np.pi)
        if len(seen.hours):
            for k, tau_h in enumerate(tau.from_z(scores)):
                some = _driven(felt, rows, step_h=step_h, tau_h=float(tau_h), start=start)
                found[k] += some.given(np.eye(len(rows)), seen.temp_c, errors)[1]
        return np.asarray(found)

    coarse = _log_weight(TAU_SCORES)
    scores = _where_high(TAU_SCORES, coarse)
    middles, points, log_seen = _even_shares(scores, _log_weight(scores))

    def shares() -> tuple[tuple[float | None, Gaussian], ...]:
        paths = [_driven(felt, None, step_h=step_h, tau_h=float(tau_h), start=start) for tau_h in tau.from_z(middles)]
        known = [path.given(rows, seen.temp_c, errors)[0] for path in paths]
        return tuple(zip(map(float, tau.from_z(middles)), known, strict=True))

    return _Regime(log_seen=log_seen, shares=shares, tau_h=tau.from_z(points))


def _driven(felt: Gaussian, rows: Floats | None, *, step_h: float, tau_h: float, start: Prior | None) -> Gaussian:
    """`rows` of the tub's path, or all of it, before any reading of the tub: the felt temperature filtered, plus the
    start."""
    steps = len(felt.mean_c) - 1
    decay = np.exp(-np.arange(steps) * step_h / tau_h)
    used = np.arange(steps) if rows is None else np.flatnonzero(rows.any(axis=0))
    filtered = _filter(used, steps=steps, step_h=step_h, tau_h=tau_h)
    if rows is not None:
        filtered, decay = rows[:, used] @ filtered, rows @ decay
    tied = START_SPREAD if start is None else start
    whole = np.column_stack([filtered, decay if start is None else np.zeros(len(decay))])
    return Gaussian(
        mean_c=whole @ felt.mean_c + tied.centre * decay,
        cov_c2=whole @ felt.cov_c2 @ whole.T + tied.spread**2 * np.outer(decay, decay),
    )


def _where_high(scores: Floats, log_weight: Floats) -> Floats:
    """As many scores, over the stretch that holds all but a trifle (e^-8 of the peak) of the belief."""
    high = np.flatnonzero(log_weight > log_weight.max() - 8.0)
    first, last = max(high[0] - 1, 0), min(high[-1] + 1, len(scores) - 1)
    return np.linspace(scores[first], scores[last], len(scores))


def _even_shares(scores: Floats, log_weight: Floats) -> tuple[Floats, Floats, float]:
    """Mean scores of `TAU_NODES` equal shares of the belief, its 1 to 99 % points, and the log of all of it."""
    fine = np.linspace(scores[0], scores[-1], 1201)
    top = float(log_weight.max())
    weight = np.exp(np.interp(fine, scores, log_weight - top))
    below = (np.cumsum(weight) - 0.5 * weight) / weight.sum()
    shares = np.minimum((below * TAU_NODES).astype(int), TAU_NODES - 1)
    held = np.bincount(shares, weight, TAU_NODES)
    # A belief narrower than the grid leaves shares without a point of their own: they get the place they stand for.
    places = np.interp((np.arange(TAU_NODES) + 0.5) / TAU_NODES, below, fine)
    middles = np.where(held > 0, np.bincount(shares, weight * fine, TAU_NODES) / np.where(held > 0, held, 1.0), places)
    points = np.interp(np.arange(1, 100) / 100, below, fine)
    return middles, points, top + float(np.log(weight.sum() * (fine[1] - fine[0])))


def _held(grid: Floats, hold: Prior, *, tau: Prior, seen: Seen) -> _Regime:
    """The tub held by a heater: one temperature that is kept, and its ups and downs."""
    apart_h = np.abs(grid[:, None] - grid[None, :])
    cov_c2 = hold.spread**2 + HEATER_SWING.spread**2 * np.exp(-apart_h / HEATER_SWING_H.value)
    before = Gaussian(mean_c=np.full(len(grid), hold.centre), cov_c2=cov_c2)
    path, log_seen = before.given(_between(grid, seen.hours), seen.temp_c, np.diag(seen.sd_c**2))
    _, points, _ = _even_shares(TAU_SCORES, -0.5 * TAU_SCORES**2)
    return _Regime(log_seen=log_seen, shares=lambda: ((None, path),), tau_h=tau.from_z(points))


def _as_normal(prior: Prior) -> Prior:
    """The normal prior of the same median and, for a log-normal one, of the same spread about it."""
    if prior.kind == "normal":
        return prior
    if prior.kind == "lognormal":
        return replace(prior, kind="normal", spread=prior.centre * prior.spread)
    raise InputError(where="hold_c", what="a share is not a temperature", right="give a normal or log-normal prior")


def _weighed(grid: Floats, regimes: list[tuple[float, _Regime]]) -> TubForecast:
    """All shares with weights that add to 1 (those below one in a million left out); tau from the likeliest regime."""
    logs = np.array([log_chance + regime.log_seen for log_chance, regime in regimes])
    chances = np.exp(logs - logs.max())
    chances /= chances.sum()
    counting = [(float(c), regime.shares()) for c, (_, regime) in zip(chances, regimes, strict=True) if c > 1e-6]
    parts = tuple(
        Part(weight_frac=chance / len(shares), tau_h=tau_h, path=path)
        for chance, shares in counting
        for tau_h, path in shares
    )
    return TubForecast(hours=grid, parts=parts, tau_h=regimes[int(np.argmax(chances))][1].tau_h)


def _root(cov_c2: Floats) -> Floats:
    """A Cholesky root of `cov_c2`, made positive definite by a jitter far below any thermometer's error."""
    return np.asarray(np.linalg.cholesky(cov_c2 + 1e-6 * np.eye(len(cov_c2))))
