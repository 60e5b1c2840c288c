"""When a bed wants water, and how much."""

from __future__ import annotations

from datetime import timedelta
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.watering.record import BedWaterAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import amount, litres, measured, on_ground
from bluewright.words.numbers import frac, percent, weekday
from bluewright.words.said import Rows, Said
from bluewright.words.weather import on_day

QUESTION: Final = marked("When does the bed want water, and how much on each square metre?")

FEEL_AGAIN_D: Final = 7
"""Days after which a handful says little of today."""


def said(found: BedWaterAnswer) -> Said:
    """The answer as a person beside the bed reads it."""
    told = {
        "gone": measured(found.gone_mm, "length_mm"), "share": frac(found.gone_frac),
        "easy": measured(found.easy_mm, "length_mm"), "use": on_ground(found.use_mm),
        "fill": on_ground(found.fill_mm),
        "rain": measured(found.rain_ahead_mm, "length_mm"), "chance": percent(found.dry_now_chance),
    }  # fmt: skip
    lines = [
        _when(found),
        _("The chance that it is thirsty now is %(chance)s.") % told,
        _("Missing in the root zone: %(gone)s of water, %(share)s of what it holds; up to %(easy)s do no harm.") % told,
        _("Filling the root zone would take %(fill)s.") % told,
        _("It drinks %(use)s a day. Rain from today to the day after tomorrow: %(rain)s.") % told,
    ]
    if not any(found.inputs.now - row.day <= timedelta(days=FEEL_AGAIN_D) for row in found.inputs.felt):
        lines.append(_("Before you water, squeeze a handful from a hand's depth, and write down how it felt."))
    return Said(parts=(*lines, _ahead(found)), cautions=found.cautions)


def _when(found: BedWaterAnswer) -> str:
    """The advice in one line."""
    if found.water_on is None or found.water_on_mm is None or found.water_on_l is None:
        last = found.gone_mm_by_day[-1].day
        return _("No watering is wanted up to %(day)s, as likely as not.") % {"day": weekday(last)}
    told = {
        "day": on_day(found.dry_on), "each": on_ground(found.water_on_mm), "bed": litres(found.water_on_l),
        "area": amount(found.inputs.area_m2, "area_m2"),
    }  # fmt: skip
    if found.water_on == found.inputs.now:
        return _("Water now: %(each)s last it a week, that is %(bed)s for %(area)s.") % told
    return _("Water on %(day)s: %(each)s then last it a week, that is %(bed)s for %(area)s.") % told


def _ahead(found: BedWaterAnswer) -> Rows:
    """What is missing each evening from today on."""
    rows = tuple(
        (weekday(row.day), measured(Band(p5=row.p5, p50=row.p50, p95=row.p95), "length_mm"))
        for row in found.gone_mm_by_day
        if row.day >= found.inputs.now
    )
    return Rows(caption=_("Without any watering"), head=(_("evening"), _("missing")), rows=rows)
