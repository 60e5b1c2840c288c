"""Two trials of the invented season: spotted leaf, ended last year; two days or three, just begun."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any, Final

import numpy as np

from bluewright.journal.actions.keeping import keep
from bluewright.journal.actions.trials import lay_down
from bluewright.journal.bridge import trials as bridge
from bluewright.journal.models import Garden, Steep, Trial
from bluewright.science.base.sourced import Floats

SPOTTED: Final[dict[str, Any]] = {
    "name": "Spotted leaf", "question": "Is badly spotted leaf worth a tub?", "ways": ["clean leaf", "spotted leaf"],
    "differs": "leaf", "assigned": "leaf", "tubs": 2, "days": 5, "leaf_kg": 4.0, "leaf_typed": "4 kg",
    "worth_finding_frac": 0.3, "spoilt_if": "a leak, frost, or strained more than six hours late", "seed": 11,
    "note": "weighed before this book was begun",
}  # fmt: skip
DAYS: Final[dict[str, Any]] = {
    "name": "Two days or three", "question": "Does a third day in the water give more blue?",
    "ways": ["two days", "three days"], "differs": "hours", "assigned": "lot", "tubs": 2, "days": 4, "leaf_kg": 5.0,
    "leaf_typed": "5 kg", "worth_finding_frac": 0.25, "spoilt_if": "a leak, or a night below 10 °C", "seed": 23,
}  # fmt: skip
CLEAN_G_PER_KG: Final = 2.6
"""What clean leaf holds, before anything is lost."""
SPOTTED_HELD: Final = 0.6
"""What badly spotted leaf still holds of it."""
KEPT_BY_WORK: Final = 0.8
"""What of it comes through from the tub to the dish."""
SPOILT: Final = (7, "it leaked overnight")
"""Number of the lot, and why."""
STEEPED_H: Final = 48
YEAR_AGO: Final = timedelta(days=372)
LASTED: Final = timedelta(days=64)


def write_trials(garden: Garden, *, tub: Steep, now: datetime, by: Any, rng: np.random.Generator) -> None:
    """Both trials; the first lot of the second is the tub that was filled today."""
    _ended(_laid(garden, SPOTTED, at=now - YEAR_AGO, by=by), rng, by)
    running = _laid(garden, DAYS, at=now - timedelta(days=2), by=by)
    first = running.lots.get(number=1)
    first.opened_at, first.steep = tub.started_at, tub
    keep(first, by=by)


def _laid(garden: Garden, told: dict[str, Any], *, at: datetime, by: Any) -> Trial:
    row = Trial(garden=garden, laid_down_at=at, **told)
    plan = bridge.laid_out(bridge.plan_record(row))
    row.seal = plan.seal
    return lay_down(row, lots=bridge.lots_of(row, plan), by=by)


def _ended(row: Trial, rng: np.random.Generator, by: Any) -> None:
    """All tubs of the trial, those of a picking on one day, weighed before the book was begun."""
    nights_c: Floats = rng.normal(15.0, 1.5, row.days)
    leaf: Floats = rng.uniform(0.8, 1.25, row.days)
    for lot in row.lots.all():
        day = int(lot.block) - 1
        held = CLEAN_G_PER_KG * leaf[day] * rng.uniform(0.92, 1.08)
        spotted = lot.way == row.ways[1]
        value = round(_tub_of_its_own(held, spotted=spotted, night_c=nights_c[day], rng=rng), 2)
        lot.opened_at = row.laid_down_at + LASTED * day / row.days + timedelta(minutes=10 * lot.vessel)
        if lot.number == SPOILT[0]:
            lot.spoilt = SPOILT[1]
        else:
            lot.got_g_per_kg, lot.got_typed = value, f"{value:g} g/kg"
        keep(lot, by=by)
    row.ended_at = row.laid_down_at + LASTED
    keep(row, by=by)


def _tub_of_its_own(held_g_per_kg: float, *, spotted: bool, night_c: float, rng: np.random.Generator) -> float:
    """Pure blue from a kilogram of leaf of a tub that follows none of the program's models, hour by hour.

    Leaf lets go by an S-shaped law, the sooner the warmer and where it is spotted; eaters wake after a lag, grow to a
    ceiling, and take a share of what is free; what is left loses a share by work.
    """
    left, free, eaters = held_g_per_kg * (SPOTTED_HELD if spotted else 1.0), 0.0, 0.01
    lag_h, pace = rng.uniform(18.0, 30.0) * (0.8 if spotted else 1.0), rng.uniform(0.85, 1.15)
    for hour in range(STEEPED_H):
        temp_c = night_c + 4.0 * np.sin(2 * np.pi * (hour - 3.0) / 24.0)
        speed = pace * 2.0 ** ((temp_c - 17.0) / 8.0)
        gone = left * min(0.5, speed * 0.012 * hour ** (0.6 if spotted else 0.5) / 3.0)
        if hour > lag_h:
            eaters = min(1.0, eaters * (1.0 + 0.25 * speed))
        left, free = left - gone, (free + gone) * (1.0 - 0.012 * eaters)
    return float(free * KEPT_BY_WORK * rng.uniform(0.88, 1.12))
