"""What is typed about a vessel that stands."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django import forms
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models import EdgeReading, Standing
from bluewright.web.pages.airing.forms import sign_field
from bluewright.web.ui.typed import CM_OR_IN, DecimalField, MeasureField, MomentField, not_to_come


class StandForm(forms.Form):
    """A vessel left to stand; with fresh water put on it is a wash."""

    refill = MeasureField(
        kind="volume_l", low=0.01, high=100_000, label=_("Fresh water put on"), help_text=_("8 L, 2 gal."),
    )  # fmt: skip
    acid = forms.BooleanField(required=False, label=_("Acid was in it, against lime and chalk"))
    depth = MeasureField(
        kind="length_mm", low=5, high=20_000, bare=CM_OR_IN, required=False, label=_("How deep it stands"),
        help_text=_("From the bottom to the surface: 30 cm, 1 ft. Without it nothing can be said of when to decant."),
    )  # fmt: skip
    started_at = MomentField(label=_("Left to stand"), validators=[not_to_come])
    note = forms.CharField(required=False, max_length=500, label=_("Note"))

    def __init__(self, *args: Any, wash: bool, **options: Any) -> None:
        super().__init__(*args, **options)
        if not wash:
            del self.fields["refill"], self.fields["acid"]


def write_standing(form: StandForm, row: Standing) -> Standing:
    """The standing as a valid form says it."""
    data = form.cleaned_data
    depth, refill = data["depth"], data.get("refill")
    row.depth_mm, row.depth_typed = (depth.value, depth.typed) if depth else (None, "")
    if refill is not None:
        row.refill_l, row.refill_typed, row.acid = refill.value, refill.typed, data["acid"]
    row.started_at, row.note = data["started_at"], data["note"]
    return row


def as_typed(row: Standing) -> dict[str, Any]:
    """A standing as it was typed, to be corrected."""
    return {
        "refill": row.refill_typed, "acid": row.acid, "depth": row.depth_typed, "note": row.note,
        "started_at": timezone.localtime(row.started_at),
    }  # fmt: skip


class EdgeForm(forms.Form):
    """Where the edge between clear and blue stands."""

    height = MeasureField(
        kind="length_mm", low=0, high=20_000, bare=CM_OR_IN, label=_("Height of the blue's edge"),
        help_text=_("From the bottom up, measured outside the vessel or with a stick: 21 cm, 8 in."),
    )  # fmt: skip
    taken_at = MomentField(label=_("When"), validators=[not_to_come])

    def __init__(self, *args: Any, standing: Standing, **options: Any) -> None:
        super().__init__(*args, **options)
        self.standing = standing

    def clean_taken_at(self) -> datetime:
        """After it was left to stand, and at another minute than the readings there are."""
        when: datetime = self.cleaned_data["taken_at"]
        if when < self.standing.started_at:
            raise forms.ValidationError(_("That is before it was left to stand."))
        if any(edge.taken_at == when for edge in self.standing.edges.all()):
            raise forms.ValidationError(_("There is a reading of that minute already: take it out first."))
        return when

    def clean_height(self) -> Any:
        """Not above the surface."""
        height, depth_mm = self.cleaned_data["height"], self.standing.depth_mm
        if depth_mm is not None and height.value > depth_mm:
            raise forms.ValidationError(
                _("That is above the surface (%(depth)s deep): measure both from the bottom.")
                % {"depth": self.standing.depth_typed}
            )
        return height


def new_edge(data: dict[str, Any], *, standing: Standing) -> EdgeReading:
    """The reading of a valid form."""
    height = data["height"]
    return EdgeReading(
        standing=standing, taken_at=data["taken_at"], interface_mm=height.value, interface_typed=height.typed
    )


class DecantForm(forms.Form):
    """The clear taken off; what was not measured is left out."""

    left = MeasureField(
        kind="volume_l", low=0.005, high=100_000, required=False, label=_("Sludge and liquid that stayed"),
        help_text=_("2 L, 2 qt. The number of washes rests on it."),
    )  # fmt: skip
    ph = DecimalField(min_value=0, max_value=14, required=False, label=_("pH"))
    conductivity = DecimalField(min_value=0.1, max_value=200_000, required=False, label=_("Conductivity, µS/cm"))
    tap_ph = DecimalField(min_value=0, max_value=14, required=False, label=_("pH"))
    tap_conductivity = DecimalField(min_value=0.1, max_value=200_000, required=False, label=_("Conductivity, µS/cm"))
    decanted_at = MomentField(label=_("Decanted"), validators=[not_to_come])

    def __init__(self, *args: Any, standing: Standing, **options: Any) -> None:
        super().__init__(*args, **options)
        self.standing, garden = standing, standing.batch.garden
        self.fields["blue_in_decant"] = sign_field("blue_in_decant", label=_("The clear"))
        if garden.tap_ph is not None:
            del self.fields["tap_ph"]
        if garden.tap_conductivity_us_per_cm is not None:
            del self.fields["tap_conductivity"]

    def clean_decanted_at(self) -> datetime:
        """After it was left to stand."""
        when: datetime = self.cleaned_data["decanted_at"]
        if when < self.standing.started_at:
            raise forms.ValidationError(_("That is before it was left to stand."))
        return when


def write_decant(form: DecantForm, row: Standing) -> Standing:
    """The standing with its decanting as a valid form says it."""
    data = form.cleaned_data
    left = data["left"]
    row.left_l, row.left_typed = (left.value, left.typed) if left else (None, "")
    row.decanted_at, row.blue_in_decant = data["decanted_at"], data["blue_in_decant"]
    row.ph, row.conductivity_us_per_cm = data["ph"], data["conductivity"]
    return row
