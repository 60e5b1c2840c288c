"""The invented season's ladder of dips: four strips of the wool of its shawls, coloured by the season's own rules."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any, Final

from bluewright.journal.actions import ladders as actions
from bluewright.journal.actions.keeping import keep
from bluewright.journal.demo.dyed_truth import SHAWL_WOOL, readings
from bluewright.journal.models import Garden, Ladder, LadderDip, Vat

GRAMS: Final = {1: 5.1, 2: 5.0, 4: 4.9, 8: 5.0}
"""Dips of each strip, and what it weighed before the vat."""
COLOURS: Final = readings(SHAWL_WOOL, tuple(GRAMS), place=3)
"""As they were read beside the card."""
DAYS_AGO: Final = 4
BEGUN_AT_H: Final = 9
DIP, AIR = timedelta(minutes=5), timedelta(minutes=15)


def a_ladder(garden: Garden, *, now: datetime, by: Any) -> Ladder:
    """The ladder, its dips and its strips, measured the day after; in the season's vat for wool where there is one."""
    begun = (now - timedelta(days=DAYS_AGO)).replace(hour=BEGUN_AT_H, minute=0, second=0, microsecond=0)
    vat = Vat.objects.filter(garden=garden, fibre="wool", started_at__lt=begun).order_by("started_at").first()
    l_star, a_star, b_star = SHAWL_WOOL.ground
    row = Ladder(
        garden=garden, name="Shawl wool", vat=vat, fibre="wool", strip_g=5.0, strip_typed="5 g", ground_l_star=l_star,
        ground_a_star=a_star, ground_b_star=b_star, bath_l=12.0, bath_typed="12 L", active_g_per_l=0.45,
        active_sd_frac=0.12, ph=9.1, temp_c=46.0, temp_typed="46 C", begun_at=begun,
        done_at=begun + timedelta(days=1, hours=6), note="the lamb's wool that the shawls are woven of",
    )  # fmt: skip
    actions.begin(row, dips=GRAMS, by=by)
    for rung in row.rungs.all():
        grams = GRAMS[rung.dips]
        rung.l_star, rung.a_star, rung.b_star = COLOURS[rung.dips]
        rung.before_g, rung.before_typed = grams, f"{grams:g} g"
        keep(rung, by=by)
    for number in range(max(GRAMS)):
        began = begun + timedelta(minutes=30) + number * (DIP + AIR)
        keep(LadderDip(ladder=row, began_at=began, ended_at=began + DIP), by=by)
    return row
