"""What is typed about tubs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import suppress
from datetime import datetime
from typing import Any
from uuid import UUID

from django import forms
from django.utils import timezone
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models import Garden, Picking, Steep
from bluewright.journal.models.bed import PLANTS
from bluewright.journal.models.steep import SIGN_FIELDS
from bluewright.journal.queries import gardens
from bluewright.web.ui.photos import WithPhotos
from bluewright.web.ui.typed import DecimalField, MeasureField, MomentField, not_to_come
from bluewright.words.numbers import moment
from bluewright.words.own_text import own_text
from bluewright.words.signs import levels_said, sign_said

METHODS = [
    ("cold", _("cold, left to the weather")),
    ("warm", _("kept warm, 25 to 45 C")),
    ("hot", _("hot, above 60 C")),
]
CUTS = [("whole", _("whole")), ("torn", _("torn by hand")), ("cut", _("cut, 1 to 2 cm")), ("shredded", _("shredded"))]
SUNS = [("shade", _("shade")), ("part", _("part of the day")), ("full", _("all day"))]
SQUEEZES = [("drained", _("drained in a sieve")), ("hand", _("wrung by hand")), ("press", _("in a press"))]


def own_choices(choices: Sequence[tuple[str, Any]]) -> list[tuple[str, str]]:
    """Choices with their figures in the reader's units."""
    return [(value, own_text(str(words))) for value, words in choices]


class BeginForm(forms.Form):
    """A tub at its start."""

    name = forms.CharField(max_length=60, label=_("Which tub"))
    plant = forms.ChoiceField(choices=PLANTS, label=_("Plant"))
    started_at = MomentField(label=_("Leaf and water met"), validators=[not_to_come])
    water = MeasureField(kind="volume_l", low=0.05, high=100_000, label=_("Water"))
    pickings = forms.ModelMultipleChoiceField(
        queryset=Picking.objects.none(), required=False, widget=forms.CheckboxSelectMultiple, label=_("Leaf from")
    )
    leaf = MeasureField(
        kind="mass_kg", low=0.005, high=50_000, required=False, label=_("Leaf in this tub"),
        help_text=_("Left out: all of the leaf picked."),
    )  # fmt: skip
    method = forms.ChoiceField(choices=lambda: own_choices(METHODS), label=_("Method"))
    cut = forms.ChoiceField(choices=lambda: own_choices(CUTS), label=_("Cut"))
    covered = forms.BooleanField(required=False, initial=True, label=_("Covered (lid, cloth or weights)"))
    insulated = forms.BooleanField(required=False, label=_("Wrapped (foam, straw, blankets)"))
    sun = forms.ChoiceField(choices=SUNS, initial="part", label=_("Sun on the tub"))
    can_strain = forms.RegexField(
        r"^\s*(([01]\d|2[0-3]):[0-5]\d\s*)*$", max_length=120, required=False, label=_("When you can strain"),
        help_text=_("Times of day like 08:00 18:00. Left out: any hour from 6 to 22."),
    )  # fmt: skip

    def __init__(self, *args: Any, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        pickings: Any = self.fields["pickings"]
        pickings.queryset = Picking.objects.filter(garden=garden)
        offered = gardens.choosable(garden, now=timezone.now(), also=_keys(self["pickings"].value() or []))
        pickings.widget.choices = [(str(row.pk), _offered(row)) for row in offered]

    def clean(self) -> dict[str, Any]:
        """A tub needs leaf, all of its own plant."""
        found = super().clean() or {}
        chosen = list(found.get("pickings") or [])
        if not chosen:
            self.add_error("pickings", _("Choose the picking that went in; write it down first if it is not there."))
        strange = [p for p in chosen if p.plant != found.get("plant")]
        if strange:
            self.add_error("pickings", _("%(picking)s is another plant than this tub's.") % {"picking": strange[0]})
        return found


class LookForm(WithPhotos):
    """A quick look: everything may be left out but one thing."""

    taken_at = MomentField(label=_("Taken at"), validators=[not_to_come])
    temp = MeasureField(kind="temp_c", low=-5, high=100, required=False, label=_("Temperature"))
    ph = DecimalField(min_value=0, max_value=14, required=False, label=_("pH"))
    note = forms.CharField(required=False, max_length=500, label=_("Note"))

    def __init__(self, *args: Any, steep: Steep, **options: Any) -> None:
        super().__init__(*args, **options)
        self.steep = steep
        for name in SIGN_FIELDS:
            choices = [("", _("not looked at")), *((str(k), words) for k, words in enumerate(levels_said(name)))]
            self.fields[name] = forms.TypedChoiceField(
                choices=choices, coerce=int, empty_value=None, required=False, widget=forms.RadioSelect,
                label=sign_said(name),
            )  # fmt: skip

    def clean_taken_at(self) -> datetime:
        """A look is not taken before the steep began."""
        return _once_begun(self.cleaned_data["taken_at"], self.steep)

    def clean(self) -> dict[str, Any]:
        """At least one thing must have been noticed."""
        found = super().clean() or {}
        told = [found.get(name) for name in (*SIGN_FIELDS, "temp", "ph")]
        words = found.get("note") or found.get("photos")
        if not self.errors and all(value is None for value in told) and not words:
            raise forms.ValidationError(
                _("Nothing is entered yet: give a sign, a temperature, a pH, a note or a photo.")
            )
        return found


class StrainForm(forms.Form):
    """A tub at straining."""

    strained_at = MomentField(label=_("Strained"), validators=[not_to_come])
    squeeze = forms.ChoiceField(choices=SQUEEZES, label=_("How"))
    liquor = MeasureField(kind="volume_l", low=0.01, high=100_000, required=False, label=_("Liquor measured"))
    rinse = MeasureField(kind="volume_l", low=0.0, high=100_000, required=False, label=_("Rinse"))
    note = forms.CharField(required=False, max_length=500, label=_("Note"))

    def __init__(self, *args: Any, steep: Steep, **options: Any) -> None:
        super().__init__(*args, **options)
        self.steep = steep

    def clean_strained_at(self) -> datetime:
        """A tub is not strained before the steep began."""
        return _once_begun(self.cleaned_data["strained_at"], self.steep)


def _offered(picking: Picking) -> str:
    """A picking as a choice: where some of it is in tubs already, in which."""
    parts = ", ".join(f"{part.leaf_typed} {part.steep.name}" for part in picking.went_into.all())
    return gettext("%(picking)s (in tubs: %(parts)s)") % {"picking": picking, "parts": parts} if parts else str(picking)


def _keys(sent: Iterable[object]) -> list[UUID]:
    """Those that are keys at all."""
    found = []
    for text in sent:
        with suppress(ValueError):
            found.append(UUID(str(text)))
    return found


def _once_begun(when: datetime, steep: Steep) -> datetime:
    """The moment, if it is not before the minute in which a steep began."""
    if when < steep.started_at.replace(second=0, microsecond=0):
        began = moment(timezone.localtime(steep.started_at))
        raise forms.ValidationError(_("That is before the steep began (%(began)s).") % {"began": began})
    return when
