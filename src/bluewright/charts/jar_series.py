"""The series of a jar: dye index and yellow index over the minutes after the alkali."""

from __future__ import annotations

from bluewright.charts.inputs import Span
from bluewright.charts.series_chart import Event, Series, SeriesChart, series_chart
from bluewright.science.base.bands import Band
from bluewright.science.photo.jar_record import JarAnswer
from bluewright.words.language import gettext as _


def jar_chart(found: JarAnswer, *, answer: str, doses: tuple[Event, ...] = ()) -> str:
    """Is blue still forming? Nothing is drawn of looks that were too dark; empty text where all were."""
    series = (
        Series(name=_("dye index"), readings=_readings(found, "dye_index")),
        Series(name=_("yellow index"), readings=_readings(found, "yellow_index")),
    )
    if not any(one.readings for one in series):
        return ""
    return series_chart(
        SeriesChart(
            question=_("Is blue still forming in %(jar)s?") % {"jar": found.inputs.id or _("this jar")},
            answer=answer,
            x_name=_("minutes since the alkali"),
            y_name=_("light lost, as a logarithm"),
            series=series,
            level=(0.0, _("above this line only blue dye brings the dye index")),
            events=doses or (Event(at=0.0, label=_("alkali")),),
        )
    )


def _readings(found: JarAnswer, name: str) -> tuple[tuple[float, Span], ...]:
    """One reading a minute: of a shaken and a settled look of the same minute the settled one."""
    rows: dict[float, Band] = {}
    for look in sorted(found.looks, key=lambda look: look.stood == "settled"):
        band = getattr(look, name)
        if band is not None:
            rows[look.after_min] = band
    return tuple((at, Span(low=b.p5, mid=b.p50, high=b.p95)) for at, b in sorted(rows.items()))
