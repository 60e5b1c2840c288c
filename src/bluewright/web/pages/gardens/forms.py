"""What is typed about gardens."""

from __future__ import annotations

from typing import Any, Final
from zoneinfo import available_timezones

from django import forms
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models import Garden
from bluewright.web.ui.typed import DecimalField, MeasureField, write_measure

MOST_FILE_BYTES: Final = 120_000_000
MEASURES: Final = {
    "altitude": "altitude_m",
    "water_alkalinity": "water_alkalinity_mg_caco3_l",
    "water_hardness": "water_hardness_mg_caco3_l",
}


class GardenForm(forms.Form):
    """A garden."""

    name = forms.CharField(max_length=80, label=_("What is your garden called?"))
    time_zone = forms.CharField(max_length=60, label=_("Time zone"), initial="Europe/London")
    hemisphere = forms.ChoiceField(
        choices=[("north", _("north of the equator")), ("south", _("south of it"))], label=_("Hemisphere")
    )
    system = forms.ChoiceField(choices=[("metric", _("kg, L, C")), ("us", _("lb, gallons, F"))], label=_("Measures"))

    def clean_time_zone(self) -> str:
        """A zone that the clock knows."""
        zone: Any = self.cleaned_data["time_zone"].strip()
        if zone not in available_timezones():
            raise forms.ValidationError(
                _("%(zone)s is not a time zone; write it like Europe/London or America/New_York.") % {"zone": zone}
            )
        return str(zone)


class GardenChangeForm(GardenForm):
    """A garden, with what airing and alkali need to know of the place."""

    latitude = DecimalField(
        min_value=-66, max_value=66, required=False, label=_("Latitude: degrees north, below 0 to the south"),
        help_text=_("Like 52.2; any map tells it. Sun and evaporation follow from it."),
    )  # fmt: skip
    altitude = MeasureField(
        kind="length_m", low=0.0, high=6000.0, required=False, label=_("Height above the sea"),
        help_text=_("Water holds less air high up: airing takes longer. Below the sea: 0."),
    )  # fmt: skip
    water_alkalinity = MeasureField(
        kind="hardness_mg_caco3_l", low=0.0, high=5000.0, required=False, label=_("Alkalinity of your water"),
        help_text=_("From the water report: also called carbonate hardness. mg/L as CaCO3, °dH, °fH, °e or gpg."),
    )  # fmt: skip
    water_hardness = MeasureField(
        kind="hardness_mg_caco3_l", low=0.0, high=5000.0, required=False, label=_("Total hardness of your water"),
        help_text=_("In the same units, like 11 °dH. Rain water: close to 0."),
    )  # fmt: skip
    note = forms.CharField(required=False, max_length=500, label=_("Note"))

    def __init__(self, *args: Any, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        for name in MEASURES:
            measure: Any = self.fields[name]
            measure.chosen = garden.system


class FileForm(forms.Form):
    """A garden in a file."""

    file = forms.FileField(
        label=_("A garden in a file"), widget=forms.ClearableFileInput(attrs={"accept": ".json,application/json"})
    )

    def clean_file(self) -> Any:
        """No garden is larger than this; a larger file is something else."""
        file = self.cleaned_data["file"]
        if file.size > MOST_FILE_BYTES:
            sizes = {"bytes": f"{file.size:,}", "most": f"{MOST_FILE_BYTES:,}"}
            raise forms.ValidationError(_("The file has %(bytes)s bytes; a garden has at most %(most)s.") % sizes)
        return file


def as_typed(garden: Garden) -> dict[str, Any]:
    """A garden as its form was filled in."""
    plain = {name: getattr(garden, name) for name in ("name", "time_zone", "hemisphere", "system", "note")}
    plain["latitude"] = garden.latitude_deg
    return plain | {name: getattr(garden, f"{name}_typed") for name in MEASURES}


def write_garden(form: GardenChangeForm, garden: Garden) -> Garden:
    """The garden of a valid form."""
    for name in ("name", "time_zone", "hemisphere", "system", "note"):
        setattr(garden, name, form.cleaned_data[name])
    garden.latitude_deg = form.cleaned_data["latitude"]
    for name, column in MEASURES.items():
        write_measure(form, name, garden, value=column, typed=f"{name}_typed")
    return garden
