"""The invented season's ladder of dips: four strips of the wool of its shawls, drawn once from the model with a paler
vat than is guessed, and then written down as they would have been read."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any, Final

from bluewright.journal.actions import ladders as actions
from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Garden, Ladder, LadderDip, Vat

STRIPS: Final = (
    (1, (48.3, -4.3, -21.4), 5.1),
    (2, (39.0, -1.9, -23.5), 5.0),
    (4, (31.8, -0.6, -22.1), 4.9),
    (8, (26.3, 0.4, -19.2), 5.0),
)
"""Dips, colour beside the card, grams before the vat."""
DAYS_AGO: Final = 4
BEGUN_AT_H: Final = 9
DIP, AIR = timedelta(minutes=5), timedelta(minutes=15)


def a_ladder(garden: Garden, *, now: datetime, by: Any) -> Ladder:
    """The ladder, its dips and its strips, measured the day after; in the season's vat for wool where there is one."""
    begun = (now - timedelta(days=DAYS_AGO)).replace(hour=BEGUN_AT_H, minute=0, second=0, microsecond=0)
    vat = Vat.objects.filter(garden=garden, fibre="wool", started_at__lt=begun).order_by("started_at").first()
    row = Ladder(
        garden=garden, name="Shawl wool", vat=vat, fibre="wool", strip_g=5.0, strip_typed="5 g", ground_l_star=86.4,
        ground_a_star=0.3, ground_b_star=9.8, bath_l=12.0, bath_typed="12 L", active_g_per_l=0.45, active_sd_frac=0.12,
        ph=9.1, temp_c=46.0, temp_typed="46 C", begun_at=begun, done_at=begun + timedelta(days=1, hours=6),
        note="the lamb's wool that the shawls are woven of",
    )  # fmt: skip
    actions.begin(row, dips=[dips for dips, _lab, _grams in STRIPS], by=by)
    for rung, (_dips, lab, grams) in zip(row.rungs.all(), STRIPS, strict=True):
        rung.l_star, rung.a_star, rung.b_star = lab
        rung.before_g, rung.before_typed = grams, f"{grams:g} g"
        keep(rung, by=by)
    for number in range(STRIPS[-1][0]):
        began = begun + timedelta(minutes=30) + number * (DIP + AIR)
        keep(LadderDip(ladder=row, began_at=began, ended_at=began + DIP), by=by)
    return row
