"""The weather: a small table of the days about now: lowest, highest and rain, read or forecast."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from typing import Any, Final

from django import forms
from django.contrib import messages
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_http_methods

from bluewright.journal.actions import beds as actions
from bluewright.journal.models import AirTemp, Garden, RainDay
from bluewright.journal.models.garden import HIGHEST_AT, LOWEST_AT
from bluewright.journal.queries import weather as queries
from bluewright.web.pages.weather.climate import COLUMNS, MONTHS, ClimateForm, as_typed, write_climate
from bluewright.web.pages.weather.station import DAYS as STATION_DAYS
from bluewright.web.pages.weather.station import station_table
from bluewright.web.ui.respond import in_garden, posted
from bluewright.web.ui.typed import MeasureField
from bluewright.words.numbers import month_said, weekday

LABELS: Final = {"low": _("lowest of %(day)s"), "high": _("highest of %(day)s"), "rain": _("rain of %(day)s")}
DAY: Final = timedelta(days=1)
DAYS_BACK, DAYS_AHEAD = 3, 5


class DaysForm(forms.Form):
    """The lowest, highest and rain of each day; what is left empty stays as it is."""

    def __init__(self, *args: Any, garden: Garden, days: list[date], **options: Any) -> None:
        super().__init__(*args, **options)
        self.days = days
        system: Any = garden.system
        for day in days:
            for end in ("low", "high"):
                said = LABELS[end] % {"day": weekday(day)}
                self.fields[f"{end}_{day.isoformat()}"] = MeasureField(
                    kind="temp_c",
                    system=system,
                    low=-30,
                    high=60,
                    required=False,
                    label=said,
                    widget=forms.TextInput(attrs={"aria-label": said}),
                )
            said = LABELS["rain"] % {"day": weekday(day)}
            self.fields[f"rain_{day.isoformat()}"] = MeasureField(
                kind="length_mm", system=system, low=0, high=2000, required=False, label=said,
                widget=forms.TextInput(attrs={"aria-label": said}),
            )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        """A day's lowest is not above its highest."""
        found = super().clean() or {}
        for day in self.days:
            low, high = (found.get(f"{end}_{day.isoformat()}") for end in ("low", "high"))
            if low and high and low.value > high.value:
                self.add_error(f"low_{day.isoformat()}", _("The lowest is above the highest."))
        return found


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def days(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Write down the days' lowest and highest, and their rain."""
    today = timezone.localdate()
    shown = [today + timedelta(days=k) for k in range(-DAYS_BACK, DAYS_AHEAD + 1)]
    form = DaysForm(posted(request), garden=garden, days=shown, initial=_known(garden, shown))
    if request.method == "POST" and form.is_valid():
        with transaction.atomic():
            actions.add_air(_air(form, garden), by=request.user)
            actions.add_rain(_rain(form, garden, today=today), by=request.user)
        messages.success(request, _("The weather is written down."))
        return redirect("today")
    table = [(day, *(form[f"{what}_{day.isoformat()}"] for what in LABELS)) for day in shown]
    station = station_table(queries.station(garden, first=today - (STATION_DAYS - 1) * DAY, last=today))
    return render(
        request, "weather/days.html", {"form": form, "table": table, "today": today, "station": station},
        status=422 if form.errors else 200,
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def climate(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Write down the twelve months as they usually are."""
    form = ClimateForm(posted(request), garden=garden, initial=as_typed(garden))
    if request.method == "POST" and form.is_valid():
        actions.change_garden(write_climate(form, garden), by=request.user)
        messages.success(request, _("The climate is written down."))
        return redirect("weather.days")
    table = [(month_said(month + 1), *(form[f"{name}_{month}"] for name in COLUMNS)) for month in MONTHS]
    return render(request, "weather/climate.html", {"form": form, "table": table}, status=422 if form.errors else 200)


def _typed(form: DaysForm, *whats: str) -> Iterator[tuple[str, Any]]:
    """What was typed anew of lowest, highest or rain, by field."""
    for name, value in form.cleaned_data.items():
        if value is not None and name in form.changed_data and name.split("_")[0] in whats:
            yield name, value


def _air(form: DaysForm, garden: Garden) -> list[AirTemp]:
    now = timezone.now()
    return [
        AirTemp(garden=garden, time=when, temp_c=value.value, temp_typed=value.typed, forecast=when > now)
        for name, value in _typed(form, "low", "high")
        for when in [_when(name)]
    ]


def _rain(form: DaysForm, garden: Garden, *, today: date) -> list[RainDay]:
    return [
        RainDay(garden=garden, day=day, rain_mm=value.value, rain_typed=value.typed, forecast=day > today)
        for name, value in _typed(form, "rain")
        for day in [date.fromisoformat(name.split("_", 1)[1])]
    ]


def _when(name: str) -> datetime:
    end, day = name.split("_", 1)
    clock = LOWEST_AT if end == "low" else HIGHEST_AT
    return timezone.make_aware(datetime.combine(date.fromisoformat(day), clock))


def _known(garden: Garden, shown: list[date]) -> dict[str, str]:
    """What is written down for these days already, by field."""
    typed = AirTemp.objects.filter(garden=garden, intake=None)
    first, beyond = (timezone.make_aware(datetime.combine(day, time())) for day in (shown[0], shown[-1] + DAY))
    rows = typed.filter(time__gte=first, time__lt=beyond).order_by("changed_at")
    ends = {LOWEST_AT: "low", HIGHEST_AT: "high"}
    known = {}
    for row in rows:
        local = timezone.localtime(row.time)
        if local.time() in ends:
            known[f"{ends[local.time()]}_{local.date().isoformat()}"] = row.temp_typed
    fallen = queries.rain(garden, first=shown[0], last=shown[-1])
    return known | {f"rain_{row.day.isoformat()}": row.rain_typed for row in fallen}
