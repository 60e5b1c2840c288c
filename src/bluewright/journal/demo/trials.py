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
TRUE_RATIO: Final = 0.65
LEVEL_G_PER_KG: Final = 1.2
SPOILT: Final = (7, "it leaked overnight")
"""Number of the lot, and why."""
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
    pickings: Floats = rng.normal(0.0, 0.2, row.days)
    for lot in row.lots.all():
        log_value = pickings[int(lot.block) - 1] + rng.normal(0.0, 0.12)
        value = round(LEVEL_G_PER_KG * float(np.exp(log_value)) * (TRUE_RATIO if lot.way == row.ways[1] else 1.0), 2)
        lot.opened_at = row.laid_down_at + LASTED * (lot.number - 1) / row.lots.count()
        if lot.number == SPOILT[0]:
            lot.spoilt = SPOILT[1]
        else:
            lot.got_g_per_kg, lot.got_typed = value, f"{value:g} g/kg"
        keep(lot, by=by)
    row.ended_at = row.laid_down_at + LASTED
    keep(row, by=by)
