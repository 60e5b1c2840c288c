"""When is the next cut ready? Leaf on a square metre day by day, with the days on which the cut is probably ready."""

from __future__ import annotations

from datetime import date
from typing import Final

from bluewright.charts.answers import noon
from bluewright.charts.band_chart import BandChart, TimePanel, band_chart
from bluewright.charts.inputs import TimeBand, Window
from bluewright.science.bed.growth_record import GrowthAnswer
from bluewright.words.fields import in_own_unit
from bluewright.words.growth import OVER_CHANCE
from bluewright.words.language import gettext as _

EVERY_D: Final = 2
"""A point for each second day is enough for the eye."""


def growth_chart(found: GrowthAnswer, *, answer: str) -> str:
    """Leaf against days, now, and the window from the earliest likely day to the latest."""
    shown = found.leaf_kg_per_m2_by_day[::EVERY_D]
    values = [in_own_unit((one.p5, one.p50, one.p95), "leaf_kg_per_m2") for one in shown]
    unit = values[0][1]
    last = found.leaf_kg_per_m2_by_day[-1].day
    band = TimeBand(
        times=tuple(noon(one.day) for one in shown),
        low=tuple(one[0][0] for one in values),
        mid=tuple(one[0][1] for one in values),
        high=tuple(one[0][2] for one in values),
    )
    return band_chart(
        BandChart(
            question=_("When is the next cut of %(bed)s ready?") % {"bed": found.inputs.id or _("this bed")},
            answer=answer,
            upper=TimePanel(name=_("leaf, %(unit)s") % {"unit": unit}, unit=unit, band=band),
            window=_window(found, shown[0].day, last),
            now=noon(found.inputs.now),
        )
    )


def _window(found: GrowthAnswer, first: date, last: date) -> Window | None:
    """From the earliest likely day to the latest, within the days shown; None outside them or after the season."""
    start, end = found.ready_on.early, found.ready_on.late or last
    over = found.in_season_chance < OVER_CHANCE
    if over or start is None or start >= last or end <= first:
        return None
    return Window(start=noon(max(start, first)), end=noon(min(end, last)), label=_("probably ready"))
