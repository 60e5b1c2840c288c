"""What is typed about pickings."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models import Bed, Garden, Picking
from bluewright.journal.models.bed import PLANTS
from bluewright.journal.models.picking import TIMINGS
from bluewright.science.base.measures import say_measure
from bluewright.web.ui.photos import WithPhotos
from bluewright.web.ui.typed import MeasureField, MomentField, not_to_come, shown_moment, write_measure, write_moment


class PickingForm(WithPhotos):
    """A picking; `known` are the beds that it came from already, which stay a choice even if they were taken out."""

    picked_at = MomentField(label=_("Picked"), validators=[not_to_come])
    plant = forms.ChoiceField(choices=PLANTS, label=_("Plant"))
    leaf = MeasureField(kind="mass_kg", low=0.005, high=50_000, label=_("Leaf, before washing"))
    beds = forms.ModelMultipleChoiceField(
        queryset=Bed.objects.none(), required=False, widget=forms.CheckboxSelectMultiple, label=_("From")
    )
    age = forms.ChoiceField(
        choices=[("young", _("young, half grown")), ("mixed", _("mixed")), ("old", _("old"))],
        initial="mixed",
        label=_("Leaf"),
    )
    timing = forms.ChoiceField(
        choices=TIMINGS, required=False, label=_("The bed was cut"),
        help_text=_("The forecast of its next cut learns from it."),
    )  # fmt: skip
    damaged = MeasureField(
        kind="fraction", low=0.0, high=1.0, required=False, label=_("Damaged, share of leaf area"),
        help_text=_("Holes, spots, mildew, bruises. A tenth is 10 %. Left out: sound."),
    )  # fmt: skip
    note = forms.CharField(required=False, max_length=500, label=_("Note"))

    def __init__(self, *args: Any, garden: Garden, known: list[Bed] | None = None, **options: Any) -> None:
        super().__init__(*args, **options)
        beds: Any = self.fields["beds"]
        of_garden = Q(garden=garden, deleted_at=None)
        beds.queryset = Bed.everything.filter(of_garden | Q(pk__in=[bed.pk for bed in known or []])).order_by("name")


def as_typed(picking: Picking, beds: list[Bed]) -> dict[str, Any]:
    """A picking as its form was filled in."""
    told = picking.damaged_typed
    if not told and picking.damaged_frac:
        told = say_measure(picking.damaged_frac, kind="fraction", system="metric")
    return {
        "picked_at": shown_moment(picking.picked_at), "plant": picking.plant, "leaf": picking.leaf_typed,
        "beds": [str(bed.pk) for bed in beds], "age": picking.age, "timing": picking.timing, "damaged": told,
        "note": picking.note,
    }  # fmt: skip


def write_picking(form: PickingForm, picking: Picking) -> Picking:
    """The picking of a valid form."""
    for name in ("plant", "age", "timing", "note"):
        setattr(picking, name, form.cleaned_data[name])
    write_moment(form, "picked_at", picking)
    write_measure(form, "leaf", picking, value="leaf_kg", typed="leaf_typed")
    write_measure(form, "damaged", picking, value="damaged_frac", typed="damaged_typed", nothing=0.0)
    return picking
