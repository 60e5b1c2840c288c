"""The weather: a small table of the days about now, lowest and highest, read or forecast."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from typing import Any, Final

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_http_methods

from bluewright.journal.actions import beds as actions
from bluewright.journal.models import AirTemp, Garden
from bluewright.web.ui.respond import in_garden, posted
from bluewright.web.ui.typed import MeasureField
from bluewright.words.numbers import weekday

LOWEST_AT: Final = time(6)
HIGHEST_AT: Final = time(15)
"""Hours at which a day's lowest and highest are taken to fall (common practice)."""
LABELS: Final = {"low": _("lowest of %(day)s"), "high": _("highest of %(day)s")}
DAY: Final = timedelta(days=1)
DAYS_BACK, DAYS_AHEAD = 3, 5


class DaysForm(forms.Form):
    """The lowest and highest of each day; what is left empty stays as it is."""

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
    """Write down the days' lowest and highest."""
    today = timezone.localdate()
    shown = [today + timedelta(days=k) for k in range(-DAYS_BACK, DAYS_AHEAD + 1)]
    form = DaysForm(posted(request), garden=garden, days=shown, initial=_known(garden, shown))
    if request.method == "POST" and form.is_valid():
        rows = [
            AirTemp(
                garden=garden, time=when, temp_c=value.value, temp_typed=value.typed, forecast=when > timezone.now()
            )
            for name, value in form.cleaned_data.items()
            if value is not None and name in form.changed_data
            for when in [_when(name)]
        ]
        actions.add_air(rows, by=request.user)
        messages.success(request, _("The weather is written down."))
        return redirect("today")
    table = [(day, form[f"low_{day.isoformat()}"], form[f"high_{day.isoformat()}"]) for day in shown]
    return render(
        request, "weather/days.html", {"form": form, "table": table, "today": today}, status=422 if form.errors else 200
    )


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
    return known
