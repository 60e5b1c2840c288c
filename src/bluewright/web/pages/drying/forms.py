"""What is typed about paste that dries."""

from __future__ import annotations

from datetime import datetime
from typing import Any, Final

from django import forms
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models import Drying, Weighing
from bluewright.web.ui.typed import DecimalField, MeasureField, MomentField, not_to_come

SCALES: Final = [
    ("1.0", _("shows every 2 g, or is old")),
    ("0.5", _("shows whole grams")),
    ("0.1", _("shows tenths of a gram")),
    ("0.02", _("shows hundredths")),
]


class DishForm(forms.Form):
    """A dish of paste put to dry."""

    dish = MeasureField(kind="mass_g", low=0, high=100_000, label=_("The empty dish"))
    total = MeasureField(
        kind="mass_g", low=0.05, high=100_000, label=_("Dish with the wet paste"),
        help_text=_("The first weighing: 352 g, 12 oz."),
    )  # fmt: skip
    scale_sd_g = forms.TypedChoiceField(
        choices=SCALES, coerce=float, initial="0.5", label=_("Your scale"),
    )  # fmt: skip
    layer = MeasureField(
        kind="length_mm", low=0.1, high=200, required=False, label=_("How thick the paste lies"),
        help_text=_("5 mm, 1/4 in. A thin layer dries in days, a thick one cracks."),
    )  # fmt: skip
    temp = MeasureField(kind="temp_c", low=0, high=90, required=False, label=_("Warmth of the air there"))
    humidity = DecimalField(
        min_value=0, max_value=99, required=False, label=_("Humidity of the air there, %"),
        help_text=_("From a room gauge; left out, 55."),
    )  # fmt: skip
    started_at = MomentField(label=_("Put to dry"), validators=[not_to_come])
    note = forms.CharField(required=False, max_length=500, label=_("Which dish, or a note"))

    def __init__(self, *args: Any, first: bool = True, **options: Any) -> None:
        super().__init__(*args, **options)
        if not first:
            del self.fields["total"]

    def clean(self) -> dict[str, Any]:
        """Dish and paste weigh more than the dish."""
        found = super().clean() or {}
        dish, total = found.get("dish"), found.get("total")
        if dish and total and total.value <= dish.value:
            self.add_error("total", _("That is not more than the empty dish (%(dish)s).") % {"dish": dish.typed})
        return found


def write_drying(form: DishForm, row: Drying) -> Drying:
    """The dish as a valid form says it."""
    data = form.cleaned_data
    layer, temp = data["layer"], data["temp"]
    row.dish_g, row.dish_typed = data["dish"].value, data["dish"].typed
    row.layer_mm, row.layer_typed = (layer.value, layer.typed) if layer else (None, "")
    row.temp_c, row.temp_typed = (temp.value, temp.typed) if temp else (None, "")
    row.humidity_frac = None if data["humidity"] is None else data["humidity"] / 100
    row.scale_sd_g, row.started_at, row.note = data["scale_sd_g"], data["started_at"], data["note"]
    return row


def first_weighing(form: DishForm) -> Weighing:
    """The dish with the wet paste, of a valid form."""
    total = form.cleaned_data["total"]
    return Weighing(weighed_at=form.cleaned_data["started_at"], total_g=total.value, total_typed=total.typed)


def as_typed(row: Drying) -> dict[str, Any]:
    """A dish as it was typed, to be corrected."""
    percent = None if row.humidity_frac is None else f"{100 * row.humidity_frac:g}"
    return {
        "dish": row.dish_typed, "layer": row.layer_typed, "temp": row.temp_typed, "humidity": percent,
        "scale_sd_g": f"{row.scale_sd_g:g}" if row.scale_sd_g != 1 else "1.0", "note": row.note,
        "started_at": timezone.localtime(row.started_at),
    }  # fmt: skip


class WeighForm(forms.Form):
    """What the dish weighs."""

    total = MeasureField(kind="mass_g", low=0.05, high=100_000, label=_("Dish with the paste"))
    weighed_at = MomentField(label=_("Weighed"), validators=[not_to_come])

    def __init__(self, *args: Any, drying: Drying, **options: Any) -> None:
        super().__init__(*args, **options)
        self.auto_id = f"id_{drying.pk}_%s"
        self.drying = drying

    def clean_total(self) -> Any:
        """More than the dish."""
        total = self.cleaned_data["total"]
        if total.value <= self.drying.dish_g:
            raise forms.ValidationError(
                _("That is not more than the empty dish (%(dish)s).") % {"dish": self.drying.dish_typed}
            )
        return total

    def clean_weighed_at(self) -> datetime:
        """Since it was put to dry, and at another minute than the weighings there are."""
        when: datetime = self.cleaned_data["weighed_at"]
        if when < self.drying.started_at:
            raise forms.ValidationError(_("That is before it was put to dry."))
        if any(row.weighed_at == when for row in self.drying.weighings.all()):
            raise forms.ValidationError(_("There is a weighing of that minute already: take it out first."))
        return when


def new_weighing(data: dict[str, Any], *, drying: Drying) -> Weighing:
    """The weighing of a valid form."""
    total = data["total"]
    return Weighing(drying=drying, weighed_at=data["weighed_at"], total_g=total.value, total_typed=total.typed)
