"""What is typed about washing."""

from __future__ import annotations

from typing import Any

from django import forms
from django.http import HttpRequest
from django.utils.translation import gettext_lazy as _

from bluewright.science.base.bands import Band
from bluewright.science.settle.acid_record import Acid
from bluewright.web.ui.typed import DecimalField, MeasureField

ACIDS = [("vinegar", _("vinegar")), ("hydrochloric", _("hydrochloric acid"))]


class TapForm(forms.Form):
    """What the tap water reads, with the same meter or strip as the washes."""

    ph = DecimalField(min_value=0, max_value=14, required=False, label=_("pH"))
    conductivity = DecimalField(min_value=0.1, max_value=200_000, required=False, label=_("Conductivity, µS/cm"))

    def clean(self) -> dict[str, Any]:
        """One of the two at least."""
        found = super().clean() or {}
        if not self.errors and found.get("ph") is None and found.get("conductivity") is None:
            raise forms.ValidationError(_("Nothing is entered yet: give the pH or the conductivity."))
        return found


class RefillForm(forms.Form):
    """How much fresh water is meant for each wash; asked in the address, kept by nothing."""

    refill = MeasureField(
        kind="volume_l", low=0.01, high=100_000, required=False, label=_("Fresh water for each wash"),
        help_text=_("8 L, 2 gal."),
    )  # fmt: skip


def refill_typed(request: HttpRequest) -> tuple[RefillForm, float | None]:
    """The form as it was asked, and the litres it means; None where nothing that can be read was typed."""
    form = RefillForm(request.GET if "refill" in request.GET else None)
    found = form.cleaned_data["refill"] if form.is_valid() else None
    return form, found.value if found else None


class AcidForm(forms.Form):
    """The acid at hand, and what it has to take out; asked in the address, kept by nothing."""

    kind = forms.ChoiceField(choices=ACIDS, widget=forms.RadioSelect, initial="vinegar", label=_("Acid"))
    percent = DecimalField(
        min_value=0.1, max_value=100, required=False, label=_("Percent on its label"),
        help_text=_("Left out: vinegar of 5. Hydrochloric acid needs it: bottles differ from 7 to 37."),
    )  # fmt: skip
    chalk = MeasureField(
        kind="mass_g", low=0, high=100_000, required=False, label=_("Chalk in the paste"),
        help_text=_("Left out: as the alkali's dose expects it."),
    )  # fmt: skip
    lime = MeasureField(
        kind="mass_g", low=0, high=100_000, required=False, label=_("Slaked lime still in it"),
        help_text=_("Left out: what was added beyond what the liquor dissolves."),
    )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        """Hydrochloric acid needs its strength, and has at most 38 percent."""
        found = super().clean() or {}
        percent = found.get("percent")
        if found.get("kind") == "hydrochloric" and "percent" in found and (percent is None or percent > 38):
            self.add_error("percent", _("Give the percent that stands on its label, at most 38."))
        return found


def acid_of(data: dict[str, Any]) -> Acid:
    """The acid of a valid form, or household vinegar."""
    percent = data.get("percent")
    if data.get("kind") == "hydrochloric":
        return Acid(kind="hydrochloric", percent_w_w=percent)
    return Acid(kind="vinegar", percent_w_v=percent)


def grams(data: dict[str, Any], name: str) -> float | None:
    """The grams typed; None where nothing was."""
    found = data.get(name)
    return found.value if found else None


def calcite_of(data: dict[str, Any]) -> Band | None:
    """The chalk typed, as a range of itself; None where nothing was."""
    typed_g = grams(data, "chalk")
    return None if typed_g is None else Band(p5=typed_g / 1.5, p50=typed_g, p95=typed_g * 1.5)
