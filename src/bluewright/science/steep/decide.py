"""The decision: what each moment of straining is expected to give, and which moment loses least.

For each member the best is the highest recoverable indigo on its whole course; the loss of straining at a time is
what that time falls short of the best. The advice is the moment, among those at which the person can work and now,
with the least expected loss; of moments that differ by less than half a percent the earlier is taken, since liquor
that waits only grows browner.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.steep.answer import Advice
from bluewright.science.steep.kinetics import Course
from bluewright.science.steep.record import SteepRecord

AS_GOOD_FRAC: Final = 0.005
WINDOW_FRAC: Final = 0.9
LOOK_AGAIN_CHANCE: Final = 0.1
"""Look again once the chance that the peak is past reaches this."""
DAY_STARTS_H, DAY_ENDS_H = 6, 22
"""Hours at which people can strain if they have not said."""
MOST_OPTIONS: Final = 18


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """The courses of an ensemble turned into shares of the best."""

    hours: Floats
    """Time grid (t,)."""
    share_frac: Floats
    """Recoverable indigo as a share of each member's best, (t, n)."""
    best_mmol_per_l: Floats
    """Each member's best, (n,)."""
    peak_h: Floats
    """When each member is at its best, (n,)."""
    weights: Floats

    def at(self, at_h: Floats) -> Floats:
        """Shares of the best at `at_h` (k,), linear between grid times, (k, n)."""
        upper = np.clip(np.searchsorted(self.hours, at_h), 1, len(self.hours) - 1)
        left, right = self.hours[upper - 1], self.hours[upper]
        part = np.clip((at_h - left) / (right - left), 0, 1)[:, None]
        return (1 - part) * self.share_frac[upper - 1] + part * self.share_frac[upper]


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """The moment to strain, with every moment weighed; hours are since the start, now is first."""

    option_h: Floats
    share_frac: Floats
    """(k, n)"""
    expected_frac: Floats
    """(k,)"""
    chosen: int
    advice: Advice
    look_again_h: float
    past_peak_chance: float


def outlook(course: Course, weights: Floats) -> Outlook:
    """Shares of the best of every member of a course."""
    recoverable = course.recoverable_mmol_per_l
    best = recoverable.max(axis=0)
    return Outlook(
        hours=course.hours,
        share_frac=recoverable / np.maximum(best, 1e-300),
        best_mmol_per_l=best,
        peak_h=course.hours[recoverable.argmax(axis=0)],
        weights=weights,
    )


def decide(record: SteepRecord, view: Outlook) -> Decision:
    """Weigh now and every later moment of the record at which the person can strain."""
    now_h = (record.now - record.started).total_seconds() / 3600
    option_h = np.array([now_h, *moments_h(record, float(view.hours[-1]))])
    shares = view.at(option_h)
    expected = shares @ view.weights
    chosen = int(np.argmax(expected >= expected.max() - AS_GOOD_FRAC))
    past = float(view.weights @ (view.peak_h < now_h))
    advice: Advice = "wait" if chosen else "strain_past_peak" if past > 0.5 else "strain"
    return Decision(
        option_h=option_h,
        share_frac=shares,
        expected_frac=expected,
        chosen=chosen,
        advice=advice,
        look_again_h=_look_again_h(option_h, chosen, view),
        past_peak_chance=past,
    )


def moments_h(record: SteepRecord, end_h: float) -> list[float]:
    """Hours since the start of every moment after now, to `end_h`, at which the person can strain.

    A hot steep is over in minutes and somebody stands beside it: there every sixtieth of the time left is a moment.
    """
    now_h = (record.now - record.started).total_seconds() / 3600
    if record.method == "hot":
        return [float(h) for h in np.linspace(now_h, end_h, 61)[1:]]
    clocks = record.can_strain or tuple(f"{hour:02d}:00" for hour in range(DAY_STARTS_H, DAY_ENDS_H + 1))
    midnight = record.now.replace(hour=0, minute=0, second=0, microsecond=0)
    days = int((end_h - now_h) // 24) + 2
    found = []
    for day in range(days):
        for clock in sorted(set(clocks)):
            moment = midnight + timedelta(days=day, hours=int(clock[:2]), minutes=int(clock[3:]))
            hour = (moment - record.started).total_seconds() / 3600
            if now_h < hour <= end_h:
                found.append(hour)
    return found


def window_h(view: Outlook) -> tuple[float, float]:
    """From when to when at least half the ensemble is within 90 % of its best; at least one grid time."""
    good = (view.share_frac >= WINDOW_FRAC) @ view.weights
    centre = int(np.argmax(good))
    inside = good >= min(0.5, good[centre])
    first = last = centre
    while first > 0 and inside[first - 1]:
        first -= 1
    while last < len(inside) - 1 and inside[last + 1]:
        last += 1
    return float(view.hours[first]), float(view.hours[last])


def listed(decision: Decision) -> list[int]:
    """Which moments to show: now, the chosen, and an even choice of the rest, at most `MOST_OPTIONS`."""
    worth = np.flatnonzero(decision.expected_frac >= min(0.5, decision.expected_frac.max() * 0.7))
    last = max(int(worth[-1]), decision.chosen) if len(worth) else decision.chosen
    rows = {0, decision.chosen, *np.linspace(0, last, min(last + 1, MOST_OPTIONS - 2)).round().astype(int).tolist()}
    return sorted(rows)


def time_at(record: SteepRecord, at_h: float) -> datetime:
    """The moment `at_h` hours after the start, to the second, by the clock of `now`."""
    moment = record.started + timedelta(hours=at_h)
    rounded = (moment + timedelta(microseconds=500_000)).replace(microsecond=0)
    return rounded.astimezone(record.now.tzinfo)


def _look_again_h(option_h: Floats, chosen: int, view: Outlook) -> float:
    """The first moment after now at which the peak may be past already, or the chosen one if that is sooner."""
    if len(option_h) == 1:
        return float(option_h[0])
    past = (view.peak_h[None, :] < option_h[1:, None]) @ view.weights
    first = 1 + int(np.argmax(past >= LOOK_AGAIN_CHANCE)) if (past >= LOOK_AGAIN_CHANCE).any() else chosen
    return float(option_h[min(first, chosen) if chosen else first])
