"""Beds."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from bluewright.journal.actions import beds as actions
from bluewright.journal.models import Bed, Garden
from bluewright.journal.models.bed import PLANTS
from bluewright.journal.queries import gardens, photos
from bluewright.web.ui.photos import WithPhotos, keep_photos, sent_files
from bluewright.web.ui.respond import in_garden, posted
from bluewright.web.ui.typed import MeasureField


class BedForm(WithPhotos):
    """A bed."""

    name = forms.CharField(max_length=60)
    plant = forms.ChoiceField(choices=PLANTS)
    origin = forms.ChoiceField(
        choices=[("sown", "sown"), ("transplanted", "transplanted"), ("self_sown", "self-sown")], label="How it came"
    )
    area = MeasureField(kind="area_m2", low=0.01, high=1_000_000, required=False)
    note = forms.CharField(required=False, max_length=500)

    def __init__(self, *args: Any, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        area: Any = self.fields["area"]
        area.system = garden.system


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """All beds with what was taken from them."""
    return render(
        request, "beds/index.html", {"beds": gardens.beds(garden), "photos": photos.of_kind("bed", of=garden)}
    )


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden) -> HttpResponse:
    """A new bed."""
    form = BedForm(posted(request), sent_files(request), garden=garden)
    if request.method == "POST" and form.is_valid():
        data = form.cleaned_data
        area = data["area"]
        bed = Bed(
            garden=garden, name=data["name"], plant=data["plant"], origin=data["origin"], note=data["note"],
            area_m2=area.value if area else None, area_typed=area.typed if area else "",
        )  # fmt: skip
        actions.add_bed(bed, by=request.user)
        keep_photos(request, data["photos"], garden=garden, kind="bed", key=bed.pk)
        messages.success(request, f"{bed.name} is written down.")
        return redirect("beds.index")
    return render(request, "beds/add.html", {"form": form}, status=422 if form.errors else 200)
