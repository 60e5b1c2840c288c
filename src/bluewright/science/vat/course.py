"""The course of a vat, step by step in exact parts.

A step is: the reductant decays, reduces what waits, and oxygen takes first the reductant, then the leuco.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.vat.liquor import INDIGO_ELECTRONS, STALE_PH, Batch, Book, Now, air, towards, unreduced
from bluewright.science.vat.setting import Setting
from bluewright.science.vat.state_priors import GATE_PH

GATE_PER_PH: Final = 3.0
"""How steeply reduction fails below that pH (guess)."""


@dataclass(slots=True)
class Course:
    """The moments asked for, one row each."""

    hours: Floats
    rows: list[Now] = field(default_factory=list)

    def of(self, name: str) -> Floats:
        """One quantity over time, (t, n)."""
        return np.stack([getattr(row, name) for row in self.rows])

    def mass_g(self, *names: str) -> Floats:
        """Pure indigo of these kinds together in all of the vat over time, g, (t, n)."""
        return np.stack([row.mass_g(sum(getattr(row, name) for name in names)) for row in self.rows])

    def whole_g(self) -> Floats:
        """Pure indigo of every kind in the vat over time, g, (t, n)."""
        return self.mass_g("reduced_mmol", "waiting_mmol", "grains_mmol")

    def at(self, at_h: float) -> Now:
        """The moment that lies next to an hour."""
        return self.rows[int(np.argmin(np.abs(self.hours - at_h)))]

    def after(self, rows: int) -> list[tuple[float, Now]]:
        """The moments beyond the first `rows`, each with its hour."""
        return [(float(at), row) for at, row in zip(self.hours[rows:], self.rows[rows:], strict=True)]


def run(setting: Setting, z: Floats, *, beyond_h: float = 0.0, only_h: frozenset[float] | None = None) -> Course:
    """The course from the start to now, and `beyond_h` on, for scores `z` (n, d); rows at `setting.hours`.

    With `only_h`, rows at those hours, and nothing after the last of them.
    """
    batch = setting.batch(z)
    now = _begin(setting, batch, len(z))
    hours = setting.hours if not beyond_h else np.concatenate([setting.hours, setting.beyond(beyond_h)])
    if only_h is not None:
        hours = hours[hours <= max(only_h)]
    course, before = Course(hours=hours if only_h is None else np.array(sorted(only_h))), 0.0
    for at in hours:
        if at > before:
            _step(setting, batch, now, before, float(at))
            before = float(at)
        for event in setting.events.get(float(at), ()):
            event(batch, now)
        if only_h is None or float(at) in only_h:
            course.rows.append(now.copied())
    return course


def _begin(setting: Setting, batch: Batch, n: int) -> Now:
    nothing = np.zeros(n)
    now = Now(
        reduced_mmol=nothing.copy(), waiting_mmol=nothing.copy(), grains_mmol=nothing.copy(),
        electrons_mmol=nothing.copy(), ph=setting.wanted_ph + batch["start_ph"], taken_mmol=nothing.copy(),
        volume_l=setting.record.volume_l,
        book=Book(
            given_mmol=nothing.copy(), decayed_mmol=nothing.copy(), to_air_mmol=nothing.copy(),
            carried_mmol=nothing.copy(),
        ),
    )  # fmt: skip
    unreduced(now, np.maximum(batch["heel_g"], 0.0), reaches_frac=batch["reaches"])
    return now


def _step(setting: Setting, batch: Batch, now: Now, start_h: float, end_h: float) -> None:
    span = end_h - start_h
    known = setting.span(start_h, end_h)
    speed = known.speed_factor
    made = setting.made_mmol_per_l(batch, start_h, end_h, speed)
    now.electrons_mmol = now.electrons_mmol + made
    now.book.given_mmol = now.book.given_mmol + made
    left = now.electrons_mmol * np.exp(-np.log(2.0) / batch["half_life_h"] * speed * span)
    now.book.decayed_mmol = now.book.decayed_mmol + now.electrons_mmol - left
    now.electrons_mmol = left
    gate = 1.0 / (1.0 + np.exp(-GATE_PER_PH * (now.ph - GATE_PH.value)))
    could = now.waiting_mmol * -np.expm1(-np.log(10.0) / batch["ready_h"] * speed * gate * span)
    turned = np.minimum(could, now.electrons_mmol / INDIGO_ELECTRONS)
    now.reduced_mmol, now.waiting_mmol = now.reduced_mmol + turned, now.waiting_mmol - turned
    now.electrons_mmol = now.electrons_mmol - INDIGO_ELECTRONS * turned
    air(now, batch["film_m_per_h"] * known.film_to_mmol_factor / now.volume_l, gain_factor=setting.air_gain_factor)
    now.ph = towards(now.ph, end_ph=STALE_PH, by=batch["drift_ph_per_day"] * speed * span / 24.0)
