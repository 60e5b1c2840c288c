"""What is typed about wants and about how a garden works."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import PlanBasis, Want
from bluewright.journal.models.bed import PLANTS
from bluewright.journal.models.plan_basis import STEEP_KINDS, VAT_KINDS
from bluewright.web.ui.typed import DayField, MeasureField, write_measure
from bluewright.words.cloth import BASES, DEPTHS, FIBRES

CHANCES: Final = [
    ("0.5", gettext_lazy("an even chance")), ("0.8", gettext_lazy("four in five")),
    ("0.9", gettext_lazy("nine in ten")),
]  # fmt: skip


def _day() -> DayField:
    return DayField(required=False, label=gettext_lazy("Ready by"), help_text=gettext_lazy("Left out: some time."))


class ClothForm(forms.Form):
    """Cloth to be dyed."""

    name = forms.CharField(max_length=80, label=gettext_lazy("What it is"))
    fibre = forms.ChoiceField(label=gettext_lazy("Fibre"))
    mass = MeasureField(
        kind="mass_g", low=0.1, high=1_000_000, bare={"metric": "g", "us": "oz"},
        label=gettext_lazy("The cloth weighs"), help_text=gettext_lazy("Like 600 g, 1.2 kg or 2 lb 3 oz."),
    )  # fmt: skip
    depth = forms.ChoiceField(required=False, label=gettext_lazy("To which depth"))
    by_day = _day()
    fixed = MeasureField(
        kind="fraction", low=0.00001, high=0.2, required=False, label=gettext_lazy("Or: pure indigo fixed on it"),
        help_text=gettext_lazy("If your swatches tell: a share of the dry fibre, like 1.8 %."),
    )  # fmt: skip
    basis = forms.ChoiceField(label=gettext_lazy("It was"))
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        for name, words in (("fibre", FIBRES), ("depth", DEPTHS), ("basis", BASES)):
            field: Any = self.fields[name]
            field.choices = [("", "–"), *((key, _(said)) for key, said in words.items())]
        self.fields["basis"].choices.pop(0)  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """A depth, or what is to be fixed."""
        found = super().clean() or {}
        if not found.get("depth") and not found.get("fixed") and "fixed" not in self.errors:
            self.add_error("depth", _("Choose a depth, or say how much indigo is to be fixed."))
        return found


class PigmentForm(forms.Form):
    """Pigment to sell or give away."""

    name = forms.CharField(max_length=80, label=gettext_lazy("What it is for"))
    mass = MeasureField(
        kind="mass_g", low=0.1, high=1_000_000, label=gettext_lazy("How much"),
        help_text=gettext_lazy("Of pure indigo; or of powder, if you say how pure it shall be."),
    )  # fmt: skip
    purity = MeasureField(
        kind="fraction", low=0.01, high=0.99, required=False, label=gettext_lazy("Pure indigo in the powder"),
        help_text=gettext_lazy("Like 30 %."),
    )  # fmt: skip
    by_day = _day()
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))


class BasisForm(forms.Form):
    """How the garden works."""

    plant = forms.ChoiceField(choices=PLANTS, label=gettext_lazy("To be sown"))
    chance = forms.ChoiceField(choices=CHANCES, label=gettext_lazy("How sure it shall be"))
    vat = MeasureField(
        kind="volume_l", low=0.5, high=100_000, required=False, label=gettext_lazy("The vat holds"),
        help_text=gettext_lazy("What must stand in it before it dyes is counted too. Left out: it is not."),
    )  # fmt: skip
    in_it = MeasureField(
        kind="mass_g", low=0.0, high=100_000, required=False, label=gettext_lazy("Pure indigo in it now"),
        help_text=gettext_lazy("Left out: it is to be made new."),
    )  # fmt: skip
    vat_kind = forms.ChoiceField(choices=VAT_KINDS, label=gettext_lazy("The vat is"))
    steep_kind = forms.ChoiceField(choices=STEEP_KINDS, label=gettext_lazy("You steep"))
    tub = MeasureField(
        kind="volume_l", low=1, high=100_000, required=False, label=gettext_lazy("Water in a tub"),
        help_text=gettext_lazy("Tells how often it is filled."),
    )  # fmt: skip
    width = MeasureField(
        kind="length_m", low=0.1, high=1000, required=False, label=gettext_lazy("Width of the beds"),
        help_text=gettext_lazy("Tells the length of bed."),
    )  # fmt: skip


FORMS: Final[dict[str, type[ClothForm | PigmentForm]]] = {"cloth": ClothForm, "pigment": PigmentForm}
"""The form of each kind of want."""


def as_typed(row: Want) -> dict[str, Any]:
    """A want as its form was filled in."""
    same = {name: getattr(row, name) for name in ("name", "fibre", "depth", "basis", "by_day", "note")}
    return same | {"mass": row.mass_typed, "fixed": row.fixed_typed, "purity": row.purity_typed}


def write_want(form: ClothForm | PigmentForm, row: Want) -> Want:
    """The want of a valid form."""
    for name in ("name", "fibre", "depth", "basis", "by_day", "note"):
        if name in form.cleaned_data:
            setattr(row, name, form.cleaned_data[name])
    write_measure(form, "mass", row, value="mass_g", typed="mass_typed")
    for name in ("fixed", "purity"):
        if name in form.fields:
            write_measure(form, name, row, value=f"{name}_frac", typed=f"{name}_typed")
    return row


def basis_as_typed(row: PlanBasis) -> dict[str, Any]:
    """How the garden works, as its form was filled in."""
    same = {name: getattr(row, name) for name in ("plant", "vat_kind", "steep_kind")}
    typed = {name: getattr(row, f"{name}_typed") for name in ("vat", "in_it", "tub", "width")}
    return same | typed | {"chance": f"{row.chance:g}"}


def write_basis(form: BasisForm, row: PlanBasis) -> PlanBasis:
    """How the garden works, of a valid form."""
    for name in ("plant", "vat_kind", "steep_kind"):
        setattr(row, name, form.cleaned_data[name])
    row.chance = float(form.cleaned_data["chance"])
    for name, value in (("vat", "vat_l"), ("tub", "tub_l"), ("width", "width_m")):
        write_measure(form, name, row, value=value, typed=f"{name}_typed")
    write_measure(form, "in_it", row, value="in_it_g", typed="in_it_typed", nothing=0.0)
    return row
