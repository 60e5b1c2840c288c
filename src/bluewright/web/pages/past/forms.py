"""What is typed about what grew in a bed."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Bed, BedPast
from bluewright.journal.models.bed_past import FAMILIES, FIRST_YEAR


class YearField(forms.IntegerField):
    """A year up to the present one."""

    def __init__(self, **options: Any) -> None:
        super().__init__(min_value=FIRST_YEAR, **options)

    def clean(self, value: Any) -> int | None:
        """Read it."""
        year: int | None = super().clean(value)
        if year is not None and year > timezone.localdate().year:
            raise forms.ValidationError(_("This year is still to come."))
        return year


class YearForm(forms.Form):
    """What grew there in one year."""

    year = YearField(label=gettext_lazy("Year"))
    crop = forms.CharField(
        required=False, max_length=80, label=gettext_lazy("What grew there"),
        help_text=gettext_lazy("In your own words: kale, then rye."),
    )  # fmt: skip
    family = forms.ChoiceField(
        choices=FAMILIES, label=gettext_lazy("It was of"),
        help_text=gettext_lazy("The cabbage family: cabbages, radish, turnip, rape, mustard, rocket, and woad itself."),
    )  # fmt: skip
    clubroot = forms.BooleanField(required=False, label=gettext_lazy("Roots were swollen: clubroot"))
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def clean(self) -> dict[str, Any]:
        """Swollen roots are the cabbage family's."""
        found = super().clean() or {}
        if found.get("clubroot") and found.get("family") == "other":
            self.add_error("clubroot", _("Clubroot is of the cabbage family only."))
        return found


def as_typed(row: BedPast) -> dict[str, Any]:
    """A year as its form was filled in."""
    return {name: getattr(row, name) for name in ("year", "crop", "family", "clubroot", "note")}


def write_year(form: YearForm, row: BedPast) -> BedPast:
    """The year of a valid form."""
    for name, value in form.cleaned_data.items():
        setattr(row, name, value)
    return row


def new_year(form: YearForm, *, bed: Bed) -> BedPast:
    """A new row of a valid form."""
    return write_year(form, BedPast(bed=bed))
