"""What is drawn and typed for a look at a jar."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any, Final

from django import forms
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Batch, JarLook, Photo, Steep
from bluewright.journal.models.measured import STOOD
from bluewright.science.photo.record import PhotoRecord
from bluewright.web.pages.airing.forms import MOST_MIN, MOST_POURS, counted
from bluewright.web.ui.boxes import BoxesField
from bluewright.web.ui.photos import PhotosField
from bluewright.web.ui.typed import CM_OR_IN, DecimalField, MeasureField, MomentField, not_to_come

ROLES: Final = ("jar", "water", "over_black", "foam")
"""Boxes that are measured, in this order."""
CM_PER_M: Final = 100.0
A_DAY: Final = timedelta(days=1)
"""A photo later than this after the alkali was hardly taken for it."""


class PhotoForm(forms.Form):
    """One photo of the jars."""

    photos = PhotosField(label=gettext_lazy("Photo of the jars"))


class JarForm(forms.Form):
    """Boxes on the jars, and what is known of them."""

    jar = BoxesField(short=gettext_lazy("Liquor"), label=gettext_lazy("The liquor, in the middle of its jar"))
    water = BoxesField(short=gettext_lazy("Water"), label=gettext_lazy("The water, at the same height"))
    white = BoxesField(required=False, short=gettext_lazy("White paper"), label=gettext_lazy("White paper"))
    over_black = BoxesField(
        required=False, short=gettext_lazy("Liquor before black"),
        label=gettext_lazy("The liquor before black, lit from the side"),
    )  # fmt: skip
    foam = BoxesField(required=False, short=gettext_lazy("Foam"), label=gettext_lazy("The foam above it"))
    after_min = DecimalField(
        min_value=0, max_value=100_000, label=gettext_lazy("Minutes since the alkali"),
        help_text=gettext_lazy("0 for a photo before it went in."),
    )  # fmt: skip
    stood = forms.ChoiceField(
        choices=STOOD, widget=forms.RadioSelect, initial="settled", label=gettext_lazy("The liquor was")
    )
    path = MeasureField(
        kind="length_m", low=0.002, high=1.0, bare=CM_OR_IN, label=gettext_lazy("Inner width of the jar"),
        help_text=gettext_lazy("7 cm, 2 3/4 in: how much liquor the light goes through."),
    )  # fmt: skip
    dilution_factor = DecimalField(
        min_value=1, max_value=1000, initial="1", label=gettext_lazy("How many times thinned"),
        help_text=gettext_lazy("5 for one part of liquor and four of water; 1 for none."),
    )  # fmt: skip
    aired_pours = forms.IntegerField(
        min_value=0, max_value=MOST_POURS, required=False, widget=forms.TextInput(attrs={"inputmode": "numeric"}),
        label=gettext_lazy("Aired so far: pours"),
    )  # fmt: skip
    aired_min = DecimalField(
        min_value=0, max_value=MOST_MIN, required=False, label=gettext_lazy("Aired so far: minutes")
    )
    to_forecast = forms.BooleanField(required=False, initial=True)
    seen_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, of: Steep | Batch, **options: Any) -> None:
        super().__init__(*args, **options)
        self.of = of
        so_far = counted(of) if isinstance(of, Batch) else None
        if so_far is None:
            del self.fields["aired_min"], self.fields["aired_pours"]
        elif so_far.pours is None:
            del self.fields["aired_pours"]
        reads = (
            _("The jar was shaken with air and rested: let the strain call read it")
            if isinstance(of, Steep)
            else _("Let the airing read it")
        )
        self.fields["to_forecast"].label = reads
        if isinstance(of, Batch) and so_far is None:
            del self.fields["to_forecast"]

    def clean_seen_at(self) -> datetime:
        """Not before the tub or the batch was begun."""
        when: datetime = self.cleaned_data["seen_at"]
        began = began_at(self.of)
        if when < began.replace(second=0, microsecond=0):
            raise forms.ValidationError(_("That is before %(what)s was begun.") % {"what": self.of})
        return when

    def roles(self) -> tuple[str, ...]:
        """Which boxes were drawn of those that are measured."""
        return tuple(role for role in ROLES if self.cleaned_data[role])

    def record(self) -> PhotoRecord:
        """The record of a valid form."""
        white = next(iter(self.cleaned_data["white"]), None)
        samples = tuple(self.cleaned_data[role][0] for role in self.roles())
        return PhotoRecord(id=str(self.of), samples=samples, white=white, light="daylight")

    def write(self, look: JarLook) -> JarLook:
        """The look as a valid form says it."""
        typed = self.cleaned_data
        look.seen_at, look.after_min, look.stood = typed["seen_at"], typed["after_min"], typed["stood"]
        look.path_cm, look.path_typed = CM_PER_M * typed["path"].value, typed["path"].typed
        look.dilution_factor, look.note = typed["dilution_factor"], typed["note"]
        return look


def began_at(of: Steep | Batch) -> datetime:
    """When leaf met water, or the batch was begun."""
    return of.started_at if isinstance(of, Steep) else of.begun_at


def first_typed(of: Steep | Batch, photo: Photo, before: JarLook | None) -> dict[str, Any]:
    """What is known before anything is typed: the moment of the photo, minutes since the alkali, the jar of before."""
    now = timezone.now()
    seen_at = photo.taken_at if began_at(of) <= photo.taken_at <= now else now
    found: dict[str, Any] = {"seen_at": timezone.localtime(seen_at), "stood": "settled", "dilution_factor": "1"}
    if isinstance(of, Batch):
        first = min((part.added_at for part in of.alkali_parts.all()), default=None)
        if first is not None and seen_at - first < A_DAY:
            found["after_min"] = f"{max((seen_at - first).total_seconds() / 60, 0):.0f}"
        so_far = counted(of)
        if so_far is not None:
            found |= {"aired_min": f"{so_far.minutes:.1f}", "aired_pours": so_far.pours}
    if before is not None:
        found |= {"path": before.path_typed, "dilution_factor": f"{before.dilution_factor:g}"}
    return found
