"""Vats drawn: what of the blue is reduced over time with the pH; and by pH, how much of it goes onto fibre best."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Final

import numpy as np

from bluewright.charts.answers import over_time
from bluewright.charts.band_chart import BandChart, TimePanel, band_chart
from bluewright.charts.curve_chart import Choice, CurveChart, curve_chart
from bluewright.charts.inputs import CurveBand, Mark, Span, TimeBand
from bluewright.charts.scale import nights
from bluewright.science.base.bands import BandAtTime
from bluewright.science.media.leuco import LEUCO_PKA_1, LEUCO_PKA_2, leuco_forms
from bluewright.science.vat.recipe_record import VatRecipeAnswer
from bluewright.science.vat.signs import SIGNS
from bluewright.science.vat.state_record import VatAnswer
from bluewright.words.language import gettext as _

FORM_POINTS: Final = 53
"""Of the curve over the pH."""


def vat_chart(found: VatAnswer, *, answer: str) -> str:
    """How does the vat stand? Reduced indigo over time before all that is in it, what was seen; pH with readings."""
    record = found.inputs
    reduced = _drawn(found.reduced_curve_g)
    looks = tuple(
        Mark(time=one.time, label=_(SIGNS["liquor_look"].levels[one.liquor_look]))
        for one in record.readings
        if one.liquor_look is not None
    )
    read = tuple(
        Mark(time=one.time, label=f"pH {one.ph:g}", value=one.ph) for one in record.readings if one.ph is not None
    )
    return band_chart(
        BandChart(
            question=_("How does %(vat)s stand?") % {"vat": record.id or _("this vat")},
            answer=answer,
            upper=TimePanel(
                name=_("reduced indigo, %(unit)s") % {"unit": "g"}, unit="g", band=reduced,
                marks=looks, behind=_drawn(found.total_curve_g), behind_name=_("pure indigo in it in all"),
            ),
            lower=TimePanel(name="pH", unit="", band=_drawn(found.ph_curve), marks=read, from_zero=False),
            now=record.now,
            nights=tuple(nights(reduced.times[0], reduced.times[-1])),
        )
    )  # fmt: skip


def _drawn(curve: tuple[BandAtTime, ...]) -> TimeBand:
    """The curve as a band; of a vat just set the one moment is drawn as an hour."""
    last = curve[-1]
    return over_time(curve if len(curve) > 1 else (last, replace(last, time=last.time + timedelta(hours=1))))


def forms_chart(found: VatRecipeAnswer, *, answer: str) -> str:
    """Why this pH? Share of the reduced indigo that has one charge, which goes onto fibre best, against pH."""
    ph = np.linspace(7.0, 13.5, FORM_POINTS)
    ends = [
        leuco_forms(ph, pka_1=one, pka_2=two).mono_frac
        for one in (LEUCO_PKA_1.low, LEUCO_PKA_1.value, LEUCO_PKA_1.high)
        for two in (LEUCO_PKA_2.low, LEUCO_PKA_2.value, LEUCO_PKA_2.high)
    ]
    mid = leuco_forms(ph).mono_frac
    percent = [tuple(float(100 * value) for value in one) for one in (np.min(ends, axis=0), mid, np.max(ends, axis=0))]
    low, middle, high = percent
    wanted = found.target_ph
    return curve_chart(
        CurveChart(
            question=_("Why this pH in %(vat)s?") % {"vat": found.id or _("this vat")},
            answer=answer,
            x_name=_("pH of a cooled sample"),
            y_name=_("reduced indigo with one charge, %(unit)s") % {"unit": "%"},
            band=CurveBand(x=tuple(float(value) for value in ph), low=low, mid=middle, high=high),
            choice=Choice(
                span=Span(low=min(found.set_ph.low, wanted), mid=wanted, high=max(found.set_ph.high, wanted)),
                label=_("for this fibre"),
            ),
            y_from_zero=True,
        )
    )
