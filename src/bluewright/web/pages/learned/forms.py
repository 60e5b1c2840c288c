"""What is typed where a tub is left out of the memory."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Garden, LeftOut, Steep
from bluewright.words.numbers import weekday


class LeaveOutForm(forms.Form):
    """Which tub, and why."""

    tub = forms.ChoiceField(label=gettext_lazy("Tub"))
    why = forms.CharField(
        max_length=200, label=gettext_lazy("Why"),
        help_text=gettext_lazy("What went wrong and says nothing of the garden: spilt, not weighed dry, a trial."),
    )  # fmt: skip

    def __init__(self, *args: Any, tubs: Sequence[Steep], **told: Any) -> None:
        super().__init__(*args, **told)
        self.tubs = {str(steep.pk): steep for steep in tubs}
        self.fields["tub"].choices = [(key, _named(steep)) for key, steep in self.tubs.items()]  # type: ignore[attr-defined]


def new_left_out(form: LeaveOutForm, *, garden: Garden) -> LeftOut:
    """The row of a valid form."""
    return LeftOut(garden=garden, steep=form.tubs[form.cleaned_data["tub"]], why=form.cleaned_data["why"])


def _named(steep: Steep) -> str:
    return f"{steep.name}, {weekday(steep.started_at)} {steep.started_at.year}"
