"""What is typed about the water of a bed."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django import forms
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.bridge.watering import BACK_D
from bluewright.journal.models import Bed, WaterNote
from bluewright.journal.models.water import FEELS, STAGES
from bluewright.web.ui.typed import DayField, MeasureField, not_a_day_to_come

NOT_SAID = [("", gettext_lazy("not looked"))]


class NoteForm(forms.Form):
    """What was given and seen on a day; one of the three is enough."""

    water = MeasureField(
        kind="volume_l", low=0.1, high=1_000_000, required=False, label=gettext_lazy("Water given to the whole bed"),
        help_text=gettext_lazy("Like 120 L or 30 gal: how many cans, times what one holds."),
    )  # fmt: skip
    felt = forms.ChoiceField(
        choices=[*NOT_SAID, *FEELS], required=False, label=gettext_lazy("A handful from a hand's depth, squeezed"),
        help_text=gettext_lazy("Before any watering of that day."),
    )  # fmt: skip
    stage = forms.ChoiceField(choices=[*NOT_SAID, *STAGES], required=False, label=gettext_lazy("Leaves shade"))
    day = DayField(label=gettext_lazy("When"), validators=[not_a_day_to_come])

    def clean_day(self) -> date:
        """Some weeks back at most."""
        day: date = self.cleaned_data["day"]
        if day < timezone.localdate() - timedelta(days=BACK_D):
            raise forms.ValidationError(_("That is too long ago to bear on the water of today."))
        return day

    def clean(self) -> dict[str, Any]:
        """Something must be said."""
        found = super().clean() or {}
        if not self.errors and not any(found.get(name) for name in ("water", "felt", "stage")):
            raise forms.ValidationError(_("Say what was given, how it felt, or how it looks."))
        return found


def new_note(form: NoteForm, *, bed: Bed) -> WaterNote:
    """The note of a valid form."""
    data = form.cleaned_data
    row = WaterNote(bed=bed, day=data["day"], felt=data["felt"], stage=data["stage"])
    if data["water"]:
        row.water_l, row.water_typed = data["water"].value, data["water"].typed
    return row
