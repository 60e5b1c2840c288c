"""Gardens."""

from __future__ import annotations

from typing import Any, Final
from uuid import UUID
from zoneinfo import available_timezones

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseBase, StreamingHttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal import demo as invented
from bluewright.journal import transfer
from bluewright.journal.actions import beds as actions
from bluewright.journal.models import Garden
from bluewright.journal.queries import gardens
from bluewright.science.base.errors import InputError
from bluewright.web.ui.context import OPEN_GARDEN
from bluewright.web.ui.respond import posted

MOST_FILE_BYTES: Final = 120_000_000


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


class FileForm(forms.Form):
    """A garden in a file."""

    file = forms.FileField(
        label="A garden in a file", widget=forms.ClearableFileInput(attrs={"accept": ".json,application/json"})
    )

    def clean_file(self) -> Any:
        """No garden is larger than this; a larger file is something else."""
        file = self.cleaned_data["file"]
        if file.size > MOST_FILE_BYTES:
            raise forms.ValidationError(f"The file has {file.size:,} bytes; a garden has at most {MOST_FILE_BYTES:,}.")
        return file


@require_http_methods(["GET", "HEAD", "POST"])
def begin(request: HttpRequest) -> HttpResponse:
    """Begin a garden, or open one that there is."""
    form = GardenForm(posted(request))
    if request.method == "POST" and form.is_valid():
        garden = actions.begin_garden(Garden(**form.cleaned_data), by=request.user)
        request.session[OPEN_GARDEN] = str(garden.pk)
        return redirect("today")
    return _page(request, form=form, file_form=FileForm())


@require_POST
def open_one(request: HttpRequest, key: UUID) -> HttpResponse:
    """Open a garden in this browser."""
    request.session[OPEN_GARDEN] = str(get_object_or_404(Garden, pk=key).pk)
    return redirect("today")


@require_safe
def take_out(request: HttpRequest, key: UUID) -> HttpResponseBase:
    """The whole garden as one JSON file; with `?photos=no` without its photos."""
    garden = get_object_or_404(Garden, pk=key)
    name = slugify(garden.name) or "garden"
    parts = transfer.parts(garden, photos=request.GET.get("photos") != "no")
    response = StreamingHttpResponse(parts, content_type="application/json; charset=utf-8")
    response["Content-Disposition"] = f'attachment; filename="{name}-{timezone.now():%Y-%m-%d}.json"'
    return response


@require_POST
def bring_in(request: HttpRequest) -> HttpResponse:
    """A garden from such a file, and open it."""
    file_form = FileForm(request.POST, request.FILES)
    if file_form.is_valid():
        try:
            garden = transfer.bring_in(file_form.cleaned_data["file"].read(), by=request.user)
        except InputError as error:
            file_form.add_error("file", f"{error}. Nothing was written.")
        else:
            messages.success(request, f"{garden.name} is here.")
            request.session[OPEN_GARDEN] = str(garden.pk)
            return redirect("today")
    return _page(request, form=GardenForm(), file_form=file_form)


@require_POST
def demo(request: HttpRequest) -> HttpResponse:
    """Open the invented garden, with a tub that has been steeping for two days; fill it in unless it is there."""
    garden = gardens.invented() or invented.plant(now=timezone.now(), by=request.user)
    request.session[OPEN_GARDEN] = str(garden.pk)
    return redirect("today")


def _page(request: HttpRequest, *, form: GardenForm, file_form: FileForm) -> HttpResponse:
    """The page of gardens, with its two forms."""
    found = gardens.gardens()
    context = {"form": form, "file_form": file_form, "gardens": found, "has_demo": any(g.invented for g in found)}
    return render(request, "gardens/begin.html", context, status=422 if form.errors or file_form.errors else 200)
