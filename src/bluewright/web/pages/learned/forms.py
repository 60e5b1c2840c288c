"""What is typed where a tub is left out of the memory, or other gardens' files are taken in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from django import forms
from django.core import signing
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.bridge.others import joined
from bluewright.journal.models import Garden, LeftOut, OthersTaught, Steep
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump
from bluewright.science.memory.pool_record import MAX_GARDENS, Prepared, SharedGarden
from bluewright.web.ui.photos import ManyFiles
from bluewright.words.numbers import day
from bluewright.words.own_text import own_text

MOST_BYTES: Final = 20_000_000
"""All files of one taking in together."""


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


class TakeInForm(forms.Form):
    """Other gardens' files, and what to call them."""

    name = forms.CharField(
        max_length=100, label=gettext_lazy("Whose they are"),
        help_text=gettext_lazy("For your own list, such as: three gardens of the valley."),
    )  # fmt: skip
    given = forms.Field(
        widget=ManyFiles(accept=".json,application/json"), label=gettext_lazy("Files that other gardens gave"),
        help_text=gettext_lazy("One from each garden; or one that was pooled before."),
        error_messages={"required": gettext_lazy("Choose at least one file.")},
    )  # fmt: skip

    def __init__(self, *args: Any, own: SharedGarden | None = None, **told: Any) -> None:
        super().__init__(*args, **told)
        self.own = own

    def clean_given(self) -> Prepared:
        """What they say together."""
        files = self.cleaned_data["given"]
        if len(files) > MAX_GARDENS or sum(file.size for file in files) > MOST_BYTES:
            raise forms.ValidationError(_("That is more than two hundred gardens give; choose fewer files."))
        try:
            return joined([(file.name, file.read()) for file in files], own=self.own)
        except InputError as error:
            raise forms.ValidationError(own_text(str(error))) from None


def others_row(form: TakeInForm, *, garden: Garden) -> OthersTaught:
    """The row of a valid form, not written."""
    prior: Prepared = form.cleaned_data["given"]
    return OthersTaught(garden=garden, name=form.cleaned_data["name"], gardens=prior.gardens, told=dump(prior))


def sealed(row: OthersTaught) -> str:
    """A row that was looked at, as the page hands it back: what is taken in is what was seen."""
    told = {"name": row.name, "gardens": row.gardens, "told": row.told}
    return signing.dumps(told, salt=str(row.garden_id), compress=True)


def unsealed(text: str, *, garden: Garden) -> OthersTaught | None:
    """The row; None if it is not one that this garden looked at."""
    try:
        told = signing.loads(text, salt=str(garden.pk))
    except signing.BadSignature:
        return None
    return OthersTaught(garden=garden, **told)


def new_left_out(form: LeaveOutForm, *, garden: Garden) -> LeftOut:
    """The row of a valid form."""
    return LeftOut(garden=garden, steep=form.tubs[form.cleaned_data["tub"]], why=form.cleaned_data["why"])


def _named(steep: Steep) -> str:
    return f"{steep.name}, {day(steep.started_at)}"
