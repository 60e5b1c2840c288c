"""What a weather station's file said of the last days, as a table."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any, Final

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.loggers.station import Day
from bluewright.web.ui.answered import Table
from bluewright.words.measures import in_own_units
from bluewright.words.numbers import figure, percent, weekday

DAYS: Final = 14
"""So many days are shown, as far as they are known."""
COLUMNS: Final[tuple[tuple[str, Any, Callable[[float], str]], ...]] = (
    ("rain_mm", gettext_lazy("rain"), lambda mm: figure(in_own_units((mm,), "length_mm")[0][0])),
    ("humidity_frac", gettext_lazy("humidity"), percent),
    ("wind_m_per_s", gettext_lazy("wind, m/s"), figure),
    ("sunshine_h", gettext_lazy("sunshine, h"), figure),
    ("radiation_mj_per_m2", gettext_lazy("sun, MJ/m²"), figure),
)
"""Of each thing that a station measures its field, its name, and how it is said."""


def station_table(days: Mapping[date, Day]) -> Table | None:
    """The days that a station told of, the latest first, with what any of them says; None where there is none."""
    shown = [column for column in COLUMNS if any(getattr(day, column[0]) is not None for day in days.values())]
    rows = [
        (False, (weekday(on), *(_said(getattr(day, name), say) for name, _word, say in shown)))
        for on, day in sorted(days.items(), reverse=True)
    ]
    if not shown:
        return None
    unit = in_own_units((0.0,), "length_mm")[1]
    head = (_("day"), *(f"{said}, {unit}" if name == "rain_mm" else str(said) for name, said, _say in shown))
    return Table(caption=_("From the station"), head=head, rows=tuple(rows))


def _said(value: float | None, say: Callable[[float], str]) -> str:
    return "–" if value is None else say(value)
