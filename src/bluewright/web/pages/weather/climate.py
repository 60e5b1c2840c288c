"""The climate table of a garden: twelve months as they usually are."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Garden
from bluewright.science.base.measures import MeasureKind
from bluewright.web.ui.typed import MeasureField
from bluewright.words.numbers import month_said

MONTHS: Final = range(12)
COLUMNS: Final[dict[str, tuple[MeasureKind, str]]] = {
    "low": ("temp_c", "min"), "high": ("temp_c", "max"), "rain": ("length_mm", "rain"),
}  # fmt: skip
LABELS: Final = {
    "low": gettext_lazy("usual lowest, %(month)s"), "high": gettext_lazy("usual highest, %(month)s"),
    "rain": gettext_lazy("rain of all %(month)s"),
}  # fmt: skip


class ClimateForm(forms.Form):
    """Twelve months, all of them or none; rain of all of them or of none."""

    def __init__(self, *args: Any, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        system: Any = garden.system
        for month in MONTHS:
            for name, (kind, _stem) in COLUMNS.items():
                said = LABELS[name] % {"month": month_said(month + 1)}
                low, high = (-60, 60) if kind == "temp_c" else (0, 2000)
                self.fields[f"{name}_{month}"] = MeasureField(
                    kind=kind, system=system, low=low, high=high, required=False, label=said,
                    widget=forms.TextInput(attrs={"aria-label": said}),
                )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        """A table with holes is none, and a usual lowest lies below the usual highest."""
        found = super().clean() or {}
        typed = {name: [found.get(f"{name}_{month}") for month in MONTHS] for name in COLUMNS}
        if self.errors:
            return found
        for month in MONTHS:
            low, high = typed["low"][month], typed["high"][month]
            if low and high and low.value > high.value:
                self.add_error(f"low_{month}", _("The lowest is above the highest."))
        if any(any(values) for values in typed.values()) and not all(typed["low"] + typed["high"]):
            self.add_error(None, _("Give lowest and highest of all twelve months, or leave all of them empty."))
        if any(typed["rain"]) and not all(typed["rain"]):
            self.add_error(None, _("Give the rain of all twelve months, or of none."))
        return found


def write_climate(form: ClimateForm, garden: Garden) -> Garden:
    """The garden with the table of a valid form."""
    garden.climate = [_month(form.cleaned_data, month) for month in MONTHS] if form.cleaned_data["low_0"] else []
    return garden


def as_typed(garden: Garden) -> dict[str, str]:
    """The table as it was typed."""
    return {
        f"{name}_{number}": month.get(f"{stem}_typed", "")
        for number, month in enumerate(garden.climate)
        for name, (_kind, stem) in COLUMNS.items()
    }


def _month(typed: dict[str, Any], number: int) -> dict[str, Any]:
    low, high, rain = (typed[f"{name}_{number}"] for name in COLUMNS)
    return {
        "min_c": low.value, "min_typed": low.typed, "max_c": high.value, "max_typed": high.typed,
        "rain_mm": rain.value if rain else None, "rain_typed": rain.typed if rain else "",
    }  # fmt: skip
