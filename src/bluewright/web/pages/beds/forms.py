"""What is typed about beds."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models import Bed, BedPast
from bluewright.journal.models.bed import PLANTS, SHADES, SOILS, WAYS
from bluewright.web.pages.past.forms import YearField
from bluewright.web.ui.photos import WithPhotos
from bluewright.web.ui.typed import MeasureField, write_measure


class BedForm(WithPhotos):
    """A bed."""

    name = forms.CharField(max_length=60, label=_("Name"))
    plant = forms.ChoiceField(choices=PLANTS, label=_("Plant"))
    origin = forms.ChoiceField(
        choices=[("sown", _("sown")), ("transplanted", _("transplanted")), ("self_sown", _("self-sown"))],
        label=_("How it came"),
    )
    area = MeasureField(kind="area_m2", low=0.01, high=1_000_000, required=False, label=_("Area"))
    soil = forms.ChoiceField(
        choices=SOILS, required=False, label=_("Soil"),
        help_text=_("It says how much water the bed holds. Rub it wet: sand grates, clay shines, loam does neither."),
    )  # fmt: skip
    shade = forms.ChoiceField(choices=SHADES, required=False, label=_("Sun"))
    watered_by = forms.ChoiceField(choices=WAYS, required=False, label=_("How it is watered"))
    note = forms.CharField(required=False, max_length=500, label=_("Note"))


class NewBedForm(BedForm):
    """A bed that is begun, with what grew in its ground before."""

    cabbage_year = YearField(
        required=False, label=_("The cabbage family last grew there in (year)"),
        help_text=_("Cabbages, radish, rape, mustard, rocket, woad. Left out: not that you know."),
    )  # fmt: skip
    clubroot = forms.BooleanField(required=False, label=_("Its roots were swollen then: clubroot"))

    def clean(self) -> dict[str, Any]:
        """Swollen roots were seen in some year."""
        found = super().clean() or {}
        if found.get("clubroot") and not found.get("cabbage_year") and "cabbage_year" not in self.errors:
            self.add_error("cabbage_year", _("In which year was that?"))
        return found

    def past(self, bed: Bed) -> BedPast | None:
        """What grew there before, of a valid form; None where nothing was said."""
        year = self.cleaned_data["cabbage_year"]
        sick = self.cleaned_data["clubroot"]
        return None if year is None else BedPast(bed=bed, year=year, family="cabbage", clubroot=sick)


def as_typed(bed: Bed) -> dict[str, Any]:
    """A bed as its form was filled in."""
    plain = {name: getattr(bed, name) for name in ("name", "plant", "origin", "soil", "shade", "watered_by", "note")}
    return plain | {"area": bed.area_typed}


def write_bed(form: BedForm, bed: Bed) -> Bed:
    """The bed of a valid form."""
    for name in ("name", "plant", "origin", "shade", "note"):
        setattr(bed, name, form.cleaned_data[name])
    for name in ("soil", "watered_by"):
        setattr(bed, name, form.cleaned_data[name] or getattr(bed, name))
    write_measure(form, "area", bed, value="area_m2", typed="area_typed")
    return bed
