"""The race between oxygen coming in and indoxyl using it up, in one well-mixed vessel.

    O'  = a (C - O) - k O (X + s Y)        dissolved oxygen
    X'  = -k O X                           indoxyl, as the oxygen it still wants
    Y'  = -k O s Y                         other matter, as the oxygen it still wants

With the exposure theta = integral of k O dt, X = X0 exp(-theta) and Y = Y0 exp(-s theta), whatever the air does.
The share of indoxyl converted is 1 - exp(-theta). All in mmol of oxygen per litre, hours, and arrays over members.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.errors import ModelError
from bluewright.science.base.sourced import Floats

LEAST_STEP: Final = 1e-200
"""A smaller gain of exposure between two rows is no gain; dividing by it would overflow."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """What the race depends on; every field has shape (n,), except the saturation."""

    indoxyl_mmol_per_l: Floats
    """Oxygen that the indoxyl wants at the start."""
    other_mmol_per_l: Floats
    """Oxygen that other matter wants at the start."""
    other_speed_factor: Floats
    """Rate of that other matter over the rate of indoxyl."""
    kla_per_h: Floats
    """Transfer."""
    saturation_mmol_per_l: float


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """Where the race stands, shapes (n,)."""

    exposure: Floats
    """Integral of rate constant times oxygen (theta, no unit)."""
    oxygen_mmol_per_l: Floats


def exposure_for(done_frac: float) -> float:
    """The exposure at which a share of the indoxyl is converted: -ln(1 - share)."""
    return -math.log1p(-done_frac)


def done_frac(exposure: Floats) -> Floats:
    """Share of the indoxyl converted at an exposure: 1 - exp(-theta)."""
    return -np.expm1(-exposure)


def wanted_mmol_per_l(batch: Batch, exposure: Floats) -> Floats:
    """Oxygen wanted, each part by its speed: X + s Y, the factor of k O in what is used."""
    s = batch.other_speed_factor
    return np.asarray(batch.indoxyl_mmol_per_l * np.exp(-exposure) + s * batch.other_mmol_per_l * np.exp(-s * exposure))


def used_mmol_per_l(batch: Batch, exposure: Floats) -> Floats:
    """Oxygen used up to an exposure: X0 (1 - exp(-theta)) + Y0 (1 - exp(-s theta))."""
    return np.asarray(
        batch.indoxyl_mmol_per_l * -np.expm1(-exposure)
        + batch.other_mmol_per_l * -np.expm1(-batch.other_speed_factor * exposure)
    )


def step(batch: Batch, state: State, *, rate_l_per_mmol_h: Floats, dt_h: Floats | float) -> State:
    """One step of `dt_h` (scalar or (n,)): second order, stable at any stiffness.

    Within a step the oxygen follows its own linear equation exactly, O -> Oe + (O - Oe) exp(-l dt) with
    l = a + k (X + s Y) and Oe = a C / l, the demand being taken at the middle of the step (by one half step first).
    """
    half = _drift(batch, state, state.exposure, rate_l_per_mmol_h, 0.5 * dt_h)
    return _drift(batch, state, half.exposure, rate_l_per_mmol_h, dt_h)


def _drift(batch: Batch, state: State, demand_at: Floats, rate: Floats, dt_h: Floats | float) -> State:
    pull = batch.kla_per_h + rate * wanted_mmol_per_l(batch, demand_at)
    level = batch.kla_per_h * batch.saturation_mmol_per_l / pull
    gap = state.oxygen_mmol_per_l - level
    shrink = -np.expm1(-pull * dt_h)
    return State(
        exposure=state.exposure + rate * (level * dt_h + gap * shrink / pull),
        oxygen_mmol_per_l=level + gap * (1.0 - shrink),
    )


def limits_h(
    batch: Batch, *, rate_l_per_mmol_h: Floats, to_exposure: Floats | float, since: State | None = None
) -> tuple[Floats, Floats]:
    """Hours by air alone and hours by reaction alone to an exposure; the time needed is nearly their sum.

    Formula, from integrating the balance of oxygen: t = [used(theta) + O_end - O_start] / (a C) + theta / (k C),
    exact but for O_end, which is taken in balance with its demand (so the sum is a little too long). The first
    bracket is what air must bring, the second what the reaction takes in liquor full of air. Shapes (n,).
    """
    start = since or State(exposure=np.zeros_like(batch.kla_per_h), oxygen_mmol_per_l=np.zeros_like(batch.kla_per_h))
    end = np.broadcast_to(np.asarray(to_exposure, dtype=float), batch.kla_per_h.shape)
    pull = batch.kla_per_h + rate_l_per_mmol_h * wanted_mmol_per_l(batch, end)
    end_mmol_per_l = batch.kla_per_h * batch.saturation_mmol_per_l / pull
    brought = used_mmol_per_l(batch, end) - used_mmol_per_l(batch, start.exposure)
    by_air = (brought + end_mmol_per_l - start.oxygen_mmol_per_l) / (batch.kla_per_h * batch.saturation_mmol_per_l)
    by_reaction = (end - start.exposure) / (rate_l_per_mmol_h * batch.saturation_mmol_per_l)
    return np.maximum(by_air, 0.0), np.maximum(by_reaction, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Future:
    """A stretch of the race: hours from its start (m+1, n) on each member's own clock, exposure and oxygen there."""

    after_h: Floats
    exposure: Floats
    oxygen_mmol_per_l: Floats

    def reaches_h(self, to_exposure: float) -> Floats:
        """Hours from now until an exposure (n,); 0 where it has been reached."""
        short = self.exposure < to_exposure
        row = np.clip(np.sum(short, axis=0), 1, len(self.after_h) - 1)[None]
        z0, z1 = (np.take_along_axis(self.exposure, row - k, axis=0)[0] for k in (1, 0))
        t0, t1 = (np.take_along_axis(self.after_h, row - k, axis=0)[0] for k in (1, 0))
        part = (to_exposure - z0) / np.maximum(z1 - z0, LEAST_STEP)
        return np.where(self.exposure[0] >= to_exposure, 0.0, t0 + part * (t1 - t0))

    def at_h(self, after_h: Floats | float) -> State:
        """The state so many hours on (scalar or (n,)), by straight lines; the last slope goes on beyond the end."""
        row = np.clip(np.sum(self.after_h < after_h, axis=0), 1, len(self.after_h) - 1)[None]

        def between(samples: Floats) -> Floats:
            t0, t1 = (np.take_along_axis(self.after_h, row - k, axis=0)[0] for k in (1, 0))
            v0, v1 = (np.take_along_axis(samples, row - k, axis=0)[0] for k in (1, 0))
            return np.asarray(v0 + (after_h - t0) / (t1 - t0) * (v1 - v0))

        return State(exposure=between(self.exposure), oxygen_mmol_per_l=between(self.oxygen_mmol_per_l))


def onward(
    batch: Batch, state: State, *, rate_l_per_mmol_h: Floats, to_exposure: float, least_h: float, steps: int = 64
) -> Future:
    """The race from `state` on, far enough to reach exposure `to_exposure` and at least `least_h` hours.

    Each member runs on its own clock, 1.2 times the time that `limits_h` promises. Beyond the last step the last
    rate is kept: by then the oxygen is in balance. Raises ModelError if a member stands still.
    """
    ahead = limits_h(
        batch, rate_l_per_mmol_h=rate_l_per_mmol_h, to_exposure=np.maximum(to_exposure, state.exposure), since=state
    )
    span_h = np.maximum(1.2 * (ahead[0] + ahead[1]), least_h)
    # Short steps first: oxygen that was in the liquor is used up at once, what follows is slow.
    after_h = np.linspace(0.0, 1.0, steps + 1)[:, None] ** 2 * span_h
    states = [state]
    for dt_h in np.diff(after_h, axis=0):
        state = step(batch, state, rate_l_per_mmol_h=rate_l_per_mmol_h, dt_h=dt_h)
        states.append(state)
    exposure = np.stack([each.exposure for each in states])
    if not np.all(np.isfinite(exposure[-1])) or not np.all(exposure[-1] > exposure[-2]):
        raise ModelError("the airing stands still: no oxygen comes in, or nothing uses it")
    oxygen = np.stack([each.oxygen_mmol_per_l for each in states])
    return Future(after_h=after_h, exposure=exposure, oxygen_mmol_per_l=oxygen)
