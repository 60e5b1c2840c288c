"""The blue of a vat over time, drawn: what is in it, what of it is reduced, and its pH."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from bluewright.charts.answers import over_time
from bluewright.charts.band_chart import BandChart, TimePanel, band_chart
from bluewright.charts.curve_chart import Target
from bluewright.charts.inputs import Mark, TimeBand
from bluewright.charts.scale import nights
from bluewright.science.base.bands import BandAtTime
from bluewright.science.vat.signs import SIGNS
from bluewright.science.vat.state_record import VatAnswer
from bluewright.words.language import gettext as _
from bluewright.words.numbers import figure


def vat_chart(found: VatAnswer, *, answer: str) -> str:
    """How does the vat stand? Reduced indigo against time with what was seen, and the pH with its readings."""
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
    total = found.total_g.p50
    return band_chart(
        BandChart(
            question=_("How does %(vat)s stand?") % {"vat": record.id or _("this vat")},
            answer=answer,
            upper=TimePanel(
                name=_("reduced indigo, %(unit)s") % {"unit": "g"}, unit="g", band=reduced,
                marks=looks, target=Target(value=total, label=_("in it now: %(total)s g") % {"total": figure(total)}),
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
