"""The days of a season: warmth, rain and evaporation, with what was filled in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.media.weather.days_record import DayFound, WeatherAnswer
from bluewright.science.media.weather.record import DayBand
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import amount, degree, in_own_units, measured
from bluewright.words.numbers import figure, percent, ranged, rough, weekday, with_range
from bluewright.words.said import Rows, Said

QUESTION: Final = marked(
    "How much warmth, rain and evaporation have the days had, and when is a sum of warmth reached?"
)

KNOWN: Final = {
    "read": marked("read"), "forecast": marked("forecast"), "part": marked("one read"), "filled": marked("filled in"),
}  # fmt: skip
BASIS: Final = {
    "prior": marked("No day was read: this is a temperate climate at large, not weather."),
    "climate": marked("No day was read: this is the climate of the table, not weather."),
}
DAYS_BACK, DAYS_AHEAD = 4, 7
"""Days about today that the table shows."""
MUCH_FACTOR: Final = 2.0
"""A range whose ends lie closer is said by its middle."""


def said(found: WeatherAnswer) -> Said:
    """The answer as a person in the garden reads it."""
    inputs, (name, step) = found.inputs, degree()
    told = {
        "sum": ranged(found.degree_d, "", scale=step),
        "base": amount(inputs.base_c, "temp_c"),
        "degree": name,
        "first": weekday(inputs.first),
        "last": weekday(inputs.last),
        "rain": measured(found.rain_mm, "length_mm"),
        "grass": measured(found.eto_mm, "length_mm"),
    }
    lines = [
        _("Degree-days above %(base)s from %(first)s to %(last)s: %(sum)s (%(degree)s times days).") % told,
        *_reached(found),
        _("Rain: %(rain)s. Well watered grass would give %(grass)s to the air.") % told,
        _how_known(found),
    ]
    return Said(parts=(*lines, _table(found)), cautions=found.cautions)


def on_day(on: DayBand) -> str:
    """`Mon 8 Jun (Thu 4 Jun to Fri 12 Jun)`; without a last day where that lies beyond what was asked."""
    middle, early, late = (None if day is None else weekday(day) for day in (on.middle, on.early, on.late))
    if middle is not None and early is not None and late is not None:
        return middle if early == late else with_range(middle, early, late)
    return _("%(day)s at the earliest") % {"day": middle or early or ""}


def _reached(found: WeatherAnswer) -> Iterator[str]:
    """The day of the wanted sum."""
    target, on, chance = found.inputs.target_degree_d, found.reached_on, found.reached_chance
    if target is None or on is None or chance is None:
        return
    told = {"sum": figure(degree()[1] * target), "chance": percent(chance), "last": weekday(found.inputs.last)}
    if on.middle is not None and on.early is not None and on.late is not None:
        yield _("%(sum)s are reached on %(day)s.") % (told | {"day": on_day(on)})
    else:
        yield _("The chance that %(sum)s are reached by %(last)s is %(chance)s.") % told


def _how_known(found: WeatherAnswer) -> str:
    if found.basis in BASIS:
        return _(BASIS[found.basis])
    return _("Of %(all)s days %(read)s were read, %(forecast)s are forecast and %(filled)s filled in.") % {
        "all": len(found.days), "read": found.days_read, "forecast": found.days_forecast, "filled": found.days_filled,
    }  # fmt: skip


def _table(found: WeatherAnswer) -> Rows:
    """The days about today, or the last ones."""
    today = min(found.inputs.today, found.inputs.last)
    shown = [row for row in found.days if -DAYS_BACK <= (row.day - today).days <= DAYS_AHEAD]
    shown = shown or list(found.days[:DAYS_AHEAD])
    head = (_("day"), _("coldest to warmest"), _("rain"), _("how known"))
    return Rows(caption=_("The days about now"), head=head, rows=tuple(_row(row) for row in shown))


def _row(row: DayFound) -> tuple[str, ...]:
    """The middles of its temperatures, and the likely range of its rain."""
    (low, high), unit = in_own_units((row.min_c.p50, row.max_c.p50), "temp_c")
    temps = _("%(low)s to %(high)s") % {"low": round(low), "high": f"{round(high)} {unit}"}
    return (weekday(row.day), temps, _rain(row.rain_mm), _(KNOWN[row.known]))


def _rain(band: Band) -> str:
    """`0`, `about 4 mm`, `0 to 11 mm`."""
    if band.p95 == 0:
        return "0"
    (low, mid, high), unit = in_own_units((band.p5, band.p50, band.p95), "length_mm")
    if high < MUCH_FACTOR * low:
        return _("about %(rain)s") % {"rain": f"{rough(mid)} {unit}"}
    return _("%(low)s to %(high)s") % {"low": rough(low), "high": f"{rough(high)} {unit}"}
