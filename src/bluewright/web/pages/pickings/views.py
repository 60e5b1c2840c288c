"""Pickings."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from bluewright.journal.actions import beds as actions
from bluewright.journal.models import Bed, Garden, Picking
from bluewright.journal.models.bed import PLANTS
from bluewright.journal.queries import gardens, photos
from bluewright.web.ui.photos import WithPhotos, keep_photos, sent_files
from bluewright.web.ui.respond import in_garden, posted
from bluewright.web.ui.typed import MeasureField, MomentField, not_to_come


class PickingForm(WithPhotos):
    """A picking."""

    picked_at = MomentField(label="Picked", validators=[not_to_come])
    plant = forms.ChoiceField(choices=PLANTS)
    leaf = MeasureField(kind="mass_kg", low=0.005, high=50_000, label="Leaf, before washing")
    beds = forms.ModelMultipleChoiceField(
        queryset=Bed.objects.none(), required=False, widget=forms.CheckboxSelectMultiple, label="From"
    )
    age = forms.ChoiceField(
        choices=[("young", "young, half grown"), ("mixed", "mixed"), ("old", "old")], initial="mixed", label="Leaf"
    )
    damaged = MeasureField(kind="fraction", low=0.0, high=1.0, required=False, label="Damaged, share of leaf area")
    note = forms.CharField(required=False, max_length=500)

    def __init__(self, *args: Any, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        beds: Any = self.fields["beds"]
        beds.queryset = Bed.objects.filter(garden=garden)
        leaf: Any = self.fields["leaf"]
        leaf.system = garden.system


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """All pickings, with where the leaf came from and went."""
    context = {"pickings": gardens.pickings(garden), "photos": photos.of_kind("picking", of=garden)}
    return render(request, "pickings/index.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden) -> HttpResponse:
    """A new picking."""
    form = PickingForm(posted(request), sent_files(request), garden=garden, initial={"picked_at": timezone.localtime()})
    if request.method == "POST" and form.is_valid():
        data = form.cleaned_data
        picking = Picking(
            garden=garden, picked_at=data["picked_at"], plant=data["plant"], leaf_kg=data["leaf"].value,
            leaf_typed=data["leaf"].typed, age=data["age"], note=data["note"],
            damaged_frac=data["damaged"].value if data["damaged"] else 0.0,
        )  # fmt: skip
        actions.add_picking(picking, beds=list(data["beds"]), by=request.user)
        keep_photos(request, data["photos"], garden=garden, kind="picking", key=picking.pk)
        messages.success(request, f"{picking.leaf_typed} is written down.")
        return redirect("pickings.index")
    return render(request, "pickings/add.html", {"form": form}, status=422 if form.errors else 200)
