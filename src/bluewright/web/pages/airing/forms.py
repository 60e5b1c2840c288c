"""What is typed while airing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from django import forms
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models import Airing, Batch, LiquorLook
from bluewright.journal.models.airing import BUBBLES, TOOLS
from bluewright.web.ui.typed import CM_OR_IN, DecimalField, MeasureField, MomentField, not_to_come
from bluewright.words.signs import WorkSign, levels_said

FIELDS_OF: Final = {
    "pour": ("height", "pour", "vessel"),
    "whisk": ("tool", "vessel"),
    "bubble": ("air_l_per_min", "bubbles", "vessel"),
    "paddle": ("vessel",),
}
"""What may be known of each way."""
MEASURES: Final = {
    "height": ("height_m", "height_typed"),
    "pour": ("pour_l", "pour_typed"),
    "vessel": ("vessel_diameter_m", "vessel_typed"),
}
"""Columns of each measure: its value, and as typed."""
MOST_POURS: Final = 100_000
MOST_MIN: Final = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """Pours (of pouring only) and minutes of a batch in the way it is aired now, all airings of that way together."""

    pours: int | None
    minutes: float


def counted(batch: Batch) -> Counted | None:
    """What has been counted of the way a batch is aired now; None where no airing has begun."""
    airings = list(batch.airings.all())
    if not airings:
        return None
    same = [one for one in airings if one.way == airings[0].way]
    return Counted(
        pours=sum(one.done_pours or 0 for one in same) if airings[0].way == "pour" else None,
        minutes=sum(one.done_min or 0.0 for one in same),
    )


class WayForm(forms.Form):
    """A way of airing with what may be known of it; only the fields of that way."""

    height = MeasureField(
        kind="length_m", low=0.02, high=5, bare=CM_OR_IN, required=False, label=_("How far it falls"),
        help_text=_("From the lip to the surface: 60 cm, 2 ft. Left out: an ordinary pour."),
    )  # fmt: skip
    pour = MeasureField(
        kind="volume_l", low=0.05, high=200, required=False, label=_("How much you pour each time"),
        help_text=_("Over 10 L is heavy to lift again and again: a jug does it too."),
    )  # fmt: skip
    tool = forms.ChoiceField(choices=TOOLS, widget=forms.RadioSelect, initial="hand", label=_("The whisk"))
    air_l_per_min = DecimalField(
        min_value=0.01, max_value=10_000, label=_("Air of the pump, litres a minute"),
        help_text=_("What really comes out; a small aquarium pump gives 2 to 4. A US gallon is 3.8 litres."),
    )  # fmt: skip
    bubbles = forms.ChoiceField(
        choices=BUBBLES, widget=forms.RadioSelect, initial="coarse",
        label=_("Bubbles"),
    )  # fmt: skip
    vessel = MeasureField(
        kind="length_m", low=0.05, high=20, bare=CM_OR_IN, required=False, label=_("Inner width of the vessel"),
        help_text=_("40 cm, 16 in. Left out: as wide as deep."),
    )  # fmt: skip
    started_at = MomentField(label=_("Begun"), validators=[not_to_come])
    note = forms.CharField(required=False, max_length=500, label=_("Note"))

    def __init__(self, *args: Any, way: str, **options: Any) -> None:
        super().__init__(*args, **options)
        for name in set(self.fields) - {*FIELDS_OF[way], "started_at", "note"}:
            del self.fields[name]


def write_airing(form: WayForm, row: Airing) -> Airing:
    """The airing as a valid form says it; what it does not ask stays."""
    for name, value in form.cleaned_data.items():
        if name in MEASURES:
            column, typed = MEASURES[name]
            setattr(row, column, value.value if value else None)
            setattr(row, typed, value.typed if value else "")
        else:
            setattr(row, name, value)
    return row


def as_typed(row: Airing) -> dict[str, Any]:
    """An airing as it was typed, to be corrected."""
    first = {name: getattr(row, typed) for name, (_value, typed) in MEASURES.items()}
    kept = ("tool", "air_l_per_min", "bubbles", "note")
    return first | {name: getattr(row, name) for name in kept} | {"started_at": timezone.localtime(row.started_at)}


class CountForm(forms.Form):
    """Pours and minutes in all."""

    pours = forms.IntegerField(
        min_value=0, max_value=MOST_POURS, required=False, widget=forms.TextInput(attrs={"inputmode": "numeric"}),
        label=_("Pours in all"),
    )  # fmt: skip
    minutes = DecimalField(min_value=0, max_value=MOST_MIN, required=False, label=_("Minutes in all"))
    lower = forms.BooleanField(required=False, widget=forms.HiddenInput)
    """Whether a number smaller than the one that is kept is meant."""


class LookForm(forms.Form):
    """A look while airing: everything may be left out but one thing."""

    dissolved_oxygen = DecimalField(min_value=0, max_value=60, required=False, label=_("Dissolved oxygen, mg/L"))
    ph = DecimalField(min_value=2, max_value=14, required=False, label=_("pH"))
    temp = MeasureField(kind="temp_c", low=-2, high=95, required=False, label=_("Temperature"))
    note = forms.CharField(required=False, max_length=500, label=_("Note"))
    after_pours = forms.IntegerField(
        min_value=0, max_value=MOST_POURS, required=False, label=_("After how many pours"),
        widget=forms.TextInput(attrs={"inputmode": "numeric", "data-follows": "pours"}),
    )  # fmt: skip
    after_min = DecimalField(min_value=0, max_value=MOST_MIN, required=False, label=_("After how many minutes"))
    taken_at = MomentField(required=False, validators=[not_to_come], label=_("When"))

    def __init__(self, *args: Any, airing: Airing | None, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["after_min"].widget.attrs["data-follows"] = "minutes"
        if airing is None or airing.way != "pour":
            del self.fields["after_pours"]
        if airing is None:
            del self.fields["after_min"]
        for name in ("foam", "liquor"):
            self.fields[name] = sign_field(name, label=_("Foam") if name == "foam" else _("Liquor"))

    def clean(self) -> dict[str, Any]:
        """At least one thing must have been noticed."""
        found = super().clean() or {}
        told = [found.get(name) for name in ("foam", "liquor", "dissolved_oxygen", "ph", "temp")]
        if not self.errors and all(value is None for value in told) and not found.get("note"):
            raise forms.ValidationError(_("Nothing is entered yet: give a sign, a reading or a note."))
        return found


def sign_field(name: WorkSign, *, label: Any) -> forms.TypedChoiceField:
    """The four levels of a sign, with a way to say that nobody looked."""
    choices = [("", _("not looked at")), *((str(k), words) for k, words in enumerate(levels_said(name)))]
    return forms.TypedChoiceField(
        choices=choices, coerce=int, empty_value=None, required=False, widget=forms.RadioSelect, label=label
    )


def new_look(data: dict[str, Any], *, batch: Batch, counted: Counted | None) -> LiquorLook:
    """The look of a valid form; without typed pours and minutes it is taken after those counted so far."""
    temp = data.get("temp")
    pours, minutes = data.get("after_pours"), data.get("after_min")
    if counted is not None and pours is None and minutes is None:
        pours, minutes = counted.pours, counted.minutes
    return LiquorLook(
        batch=batch,
        taken_at=data.get("taken_at") or timezone.now(),
        ph=data.get("ph"),
        temp_c=temp.value if temp else None,
        temp_typed=temp.typed if temp else "",
        dissolved_oxygen_mg_l=data.get("dissolved_oxygen"),
        foam=data.get("foam"),
        liquor=data.get("liquor"),
        after_pours=pours,
        after_min=minutes,
        note=data.get("note", ""),
    )
