"""What is typed about a check of the law."""

from __future__ import annotations

from django import forms
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Garden, LawCheck
from bluewright.journal.models.bed import PLANTS
from bluewright.web.ui.typed import DayField, not_a_day_to_come


class CheckForm(forms.Form):
    """Which plant, when, with whom, and what they said."""

    plant = forms.ChoiceField(choices=PLANTS, label=gettext_lazy("Plant"))
    day = DayField(label=gettext_lazy("I checked, on"), validators=[not_a_day_to_come])
    whom = forms.CharField(
        max_length=120, label=gettext_lazy("with"),
        help_text=gettext_lazy("The weed authority of your state, province or county, its page, or the law itself."),
    )  # fmt: skip
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("What they said"))


def new_check(form: CheckForm, *, garden: Garden) -> LawCheck:
    """The check of a valid form."""
    return LawCheck(garden=garden, **form.cleaned_data)
