"""What is typed about a check of the law."""

from __future__ import annotations

from datetime import date

from django import forms
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Garden, LawCheck
from bluewright.journal.models.bed import PLANTS


class CheckForm(forms.Form):
    """Which plant, when, with whom, and what they said."""

    plant = forms.ChoiceField(choices=PLANTS, label=gettext_lazy("Plant"))
    day = forms.DateField(widget=forms.DateInput({"type": "date"}, "%Y-%m-%d"), label=gettext_lazy("I checked, on"))
    whom = forms.CharField(
        max_length=120, label=gettext_lazy("with"),
        help_text=gettext_lazy("The weed authority of your state, province or county, its page, or the law itself."),
    )  # fmt: skip
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("What they said"))

    def clean_day(self) -> date:
        """Today or before."""
        day: date = self.cleaned_data["day"]
        if day > timezone.localdate():
            raise forms.ValidationError(_("This day is still to come."))
        return day


def new_check(form: CheckForm, *, garden: Garden) -> LawCheck:
    """The check of a valid form."""
    return LawCheck(garden=garden, **form.cleaned_data)
