"""Gardens."""

from __future__ import annotations

from typing import Any
from uuid import UUID
from zoneinfo import available_timezones

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from bluewright.journal import demo as invented
from bluewright.journal.actions import beds as actions
from bluewright.journal.models import Garden
from bluewright.journal.queries import gardens
from bluewright.web.ui.context import OPEN_GARDEN
from bluewright.web.ui.respond import posted


class GardenForm(forms.Form):
    """A garden."""

    name = forms.CharField(max_length=80, label="What is your garden called?")
    time_zone = forms.CharField(max_length=60, label="Time zone", initial="Europe/London")
    hemisphere = forms.ChoiceField(choices=[("north", "north of the equator"), ("south", "south of it")])
    system = forms.ChoiceField(choices=[("metric", "kg, L, C"), ("us", "lb, gallons, F")], label="Measures")

    def clean_time_zone(self) -> str:
        """A zone that the clock knows."""
        zone: Any = self.cleaned_data["time_zone"].strip()
        if zone not in available_timezones():
            raise forms.ValidationError(f"{zone} is not a time zone; write it like Europe/London or America/New_York.")
        return str(zone)


@require_http_methods(["GET", "HEAD", "POST"])
def begin(request: HttpRequest) -> HttpResponse:
    """Begin a garden, or open one that there is."""
    form = GardenForm(posted(request))
    if request.method == "POST" and form.is_valid():
        garden = actions.begin_garden(Garden(**form.cleaned_data), by=request.user)
        request.session[OPEN_GARDEN] = str(garden.pk)
        return redirect("today")
    found = gardens.gardens()
    context = {"form": form, "gardens": found, "has_demo": any(g.invented for g in found)}
    return render(request, "gardens/begin.html", context, status=422 if form.errors else 200)


@require_POST
def open_one(request: HttpRequest, key: UUID) -> HttpResponse:
    """Open a garden in this browser."""
    request.session[OPEN_GARDEN] = str(get_object_or_404(Garden, pk=key).pk)
    return redirect("today")


@require_POST
def demo(request: HttpRequest) -> HttpResponse:
    """Open the invented garden, with a tub that has been steeping for two days; fill it in unless it is there."""
    garden = gardens.invented() or invented.plant(now=timezone.now(), by=request.user)
    request.session[OPEN_GARDEN] = str(garden.pk)
    return redirect("today")
