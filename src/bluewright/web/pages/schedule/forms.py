"""What is typed about the limits of a season's work, and about days away."""

from __future__ import annotations

from datetime import date
from typing import Any, Final

from django import forms
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import DaysAway, Garden, Limits
from bluewright.web.ui.typed import DayField, MeasureField

SIZES: Final = (1, 2, 3)
DAYS: Final = (
    gettext_lazy("Hours free on Mondays"), gettext_lazy("on Tuesdays"), gettext_lazy("on Wednesdays"),
    gettext_lazy("on Thursdays"), gettext_lazy("on Fridays"), gettext_lazy("on Saturdays"),
    gettext_lazy("on Sundays"),
)  # fmt: skip
LONGEST_D: Final = 366


def _hours(label: Any) -> forms.FloatField:
    return forms.FloatField(min_value=0, max_value=24, required=False, label=label)


class LimitsForm(forms.Form):
    """Tubs by size, hours by day of the week, room to dry."""

    last_day = DayField(label=gettext_lazy("Last day that is planned"))

    def __init__(self, *args: Any, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        system: Any = garden.system
        for number in SIZES:
            self.fields[f"size_{number}"] = MeasureField(
                kind="volume_l", system=system, low=1, high=100_000, required=number == 1,
                label=_("Tubs of one size: what one holds") if number == 1 else _("Tubs of another size"),
            )  # fmt: skip
            self.fields[f"count_{number}"] = forms.IntegerField(
                min_value=1, max_value=60, required=number == 1, label=_("How many of them")
            )
        for day, label in enumerate(DAYS):
            self.fields[f"free_{day}"] = _hours(label)
        self.fields["extra_h"] = _hours(_("Hours a day beyond those, where it pays"))
        self.fields["places"] = forms.IntegerField(
            min_value=0, max_value=1000, required=False, label=_("How many tubs' blue can dry at once"),
            help_text=_("Left empty: as many as you like."),
        )  # fmt: skip
        self.fields["drying_d"] = forms.IntegerField(
            min_value=1, max_value=90, required=False, label=_("Days that drying takes"),
            help_text=_("Left empty: six."),
        )  # fmt: skip

    def clean_last_day(self) -> date:
        """Within a year from now."""
        day: date = self.cleaned_data["last_day"]
        ahead = (day - timezone.localdate()).days
        if not 0 < ahead < LONGEST_D:
            raise forms.ValidationError(_("Give a day to come, within a year."))
        return day

    def clean(self) -> dict[str, Any]:
        """A size has its count, no size stands twice, and some day has hours."""
        found = super().clean() or {}
        sizes = [found.get(f"size_{number}") for number in SIZES]
        for number, size in zip(SIZES, sizes, strict=True):
            if size is not None and found.get(f"count_{number}") is None and not self.errors:
                self.add_error(f"count_{number}", _("How many are there?"))
        values = [size.value for size in sizes if size is not None]
        if len(set(values)) < len(values):
            self.add_error("size_2", _("This size stands there twice."))
        if not any(found.get(f"free_{day}") for day in range(len(DAYS))):
            self.add_error("free_0", _("Some day of the week must have hours."))
        return found


class AwayForm(forms.Form):
    """Days on which nothing can be done."""

    first = DayField(label=gettext_lazy("First day away"))
    until = DayField(
        label=gettext_lazy("Last day away"), required=False, help_text=gettext_lazy("Left empty: the same day.")
    )

    def clean(self) -> dict[str, Any]:
        """The last is not before the first, and not over."""
        found = super().clean() or {}
        if found.get("first") and not found.get("until"):
            found["until"] = found["first"]
        if found.get("first") and found["until"] < found["first"]:
            self.add_error("until", _("It is before the first day."))
        elif found.get("until") and found["until"] < timezone.localdate():
            self.add_error("until", _("These days are over."))
        return found


def as_typed(row: Limits | None) -> dict[str, Any]:
    """The limits as the form was filled in; for the first time an ordinary weekend garden's end of season."""
    if row is None:
        today = timezone.localdate()
        ends = date(today.year, 10, 31)
        return {"last_day": ends if ends > today else date(today.year + 1, 10, 31), "free_5": 6, "free_6": 6}
    found = {"last_day": row.last_day, "places": row.places, "drying_d": row.drying_d, "extra_h": row.extra_h or None}
    for number, size in zip(SIZES, row.tubs, strict=False):
        found |= {f"size_{number}": size["typed"], f"count_{number}": size["count"]}
    return found | {f"free_{day}": hours or None for day, hours in enumerate(row.free_h)}


def write_limits(form: LimitsForm, row: Limits) -> Limits:
    """The limits of a valid form."""
    data = form.cleaned_data
    row.last_day, row.places, row.drying_d = data["last_day"], data["places"], data["drying_d"]
    row.extra_h = data["extra_h"] or 0.0
    row.free_h = [data[f"free_{day}"] or 0.0 for day in range(len(DAYS))]
    row.tubs = [
        {"volume_l": data[f"size_{n}"].value, "typed": data[f"size_{n}"].typed, "count": data[f"count_{n}"]}
        for n in SIZES
        if data[f"size_{n}"] is not None
    ]
    return row


def new_away(form: AwayForm, *, garden: Garden) -> DaysAway:
    """The row of a valid form."""
    return DaysAway(garden=garden, first=form.cleaned_data["first"], last=form.cleaned_data["until"])
