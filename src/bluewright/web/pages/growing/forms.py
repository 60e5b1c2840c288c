"""What is typed about a look at a bed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Final

from django import forms
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Bed, BedLook
from bluewright.journal.models.bed_look import CAUSES, STARTS
from bluewright.web.pages.bench.inputs import SeriesField
from bluewright.web.ui.typed import CM_OR_IN, DayField, MeasureField
from bluewright.words.reader import reader

NOTHING: Final = [("", gettext_lazy("nothing"))]
NOT_KNOWN: Final = [("", gettext_lazy("not known"))]
MOST_AHEAD_D: Final = 366
"""A sowing is planned at most so many days ahead."""
MOST_PLANTS: Final = 10_000
MOST_ROWS: Final = 300
MOST_PLANTS_MARKED: Final = 100
MOST_LENGTH: Final = 5000
SHORTEST_MM, LONGEST_MM = 1.0, 5000.0
UNITS_BEHIND: Final = {"cm": "cm", "mm": "mm", "in": "in", "inch": "in", "inches": "in", '"': "in"}
UNIT_BEHIND: Final = re.compile(r'\s*(cm|mm|in|inch|inches|")$', re.IGNORECASE)
MM_IN: Final = {"cm": 10.0, "mm": 1.0, "in": 25.4}
"""Millimetres in each."""


@dataclass(frozen=True, slots=True)
class Lengths:
    """Lengths that were typed."""

    mm: list[float]
    typed: str


class ListField(SeriesField):
    """Numbers with spaces between, each from 0 to a most; kept as they are read."""

    def __init__(self, *, most: int, whole: bool, **options: Any) -> None:
        super().__init__(max_length=1500, required=False, **options)
        self.most, self.whole = most, whole

    def clean(self, value: Any) -> list[float] | None:
        """Read them."""
        found = super().clean(value)
        if found is None:
            return None
        if len(found) > MOST_ROWS:
            raise forms.ValidationError(_("At most %(many)s numbers.") % {"many": MOST_ROWS})
        if any(not 0 <= one <= self.most for one in found):
            raise forms.ValidationError(_("Each must be from 0 to %(most)s.") % {"most": self.most})
        if self.whole and any(one != int(one) for one in found):
            raise forms.ValidationError(_("Plants are counted in whole numbers."))
        return found


class LengthsField(ListField):
    """Lengths with spaces between and perhaps a unit behind them; cleaned to millimetres, and as typed."""

    def __init__(self, **options: Any) -> None:
        super().__init__(most=MOST_LENGTH, whole=False, **options)

    def clean(self, value: Any) -> Lengths | None:  # type: ignore[override]
        """Read them."""
        text, unit = str(value or "").strip(), CM_OR_IN[reader().system]
        found = UNIT_BEHIND.search(text)
        if found:
            text, unit = text[: found.start()], UNITS_BEHIND[found[1].casefold()]
        read = super().clean(text)
        if read is None:
            return None
        if len(read) > MOST_PLANTS_MARKED:
            raise forms.ValidationError(_("At most %(many)s numbers.") % {"many": MOST_PLANTS_MARKED})
        longest = [one * MM_IN[unit] for one in read]
        if any(not SHORTEST_MM <= one <= LONGEST_MM for one in longest):
            raise forms.ValidationError(_("A leaf or shoot is from 1 mm to 5 m long."))
        return Lengths(mm=longest, typed=f"{' '.join(text.split())} {unit}")


class LookForm(forms.Form):
    """What was counted, measured, scored or begun; one of them is enough."""

    counts = ListField(
        most=MOST_PLANTS, whole=True, label=gettext_lazy("Plants in each frame"),
        help_text=gettext_lazy("Throw the frame six times or more; a 0 for an empty one: 14 22 0 31 9 12."),
    )  # fmt: skip
    frame = MeasureField(
        kind="area_m2", low=0.01, high=25, required=False, label=gettext_lazy("Area inside the frame"),
        help_text=gettext_lazy("Half a metre by half a metre is 0.25 m²; a foot by a foot is 1 sq ft."),
    )  # fmt: skip
    bolting = forms.IntegerField(
        required=False, min_value=0, max_value=1_000_000, label=gettext_lazy("Of all those, with a flower stem")
    )
    longest = LengthsField(
        label=gettext_lazy("Marked plants: the longest leaf of each"),
        help_text=gettext_lazy(
            "The same ten plants each week, marked with a stick; of Japanese indigo and Indigofera the longest shoot "
            "since the cut: 12 14 9.5 11 cm. It tells when the next cut is ready, without cutting."
        ),
    )  # fmt: skip
    spotted = ListField(
        most=100, whole=False, label=gettext_lazy("Each leaf: spotted, %"),
        help_text=gettext_lazy("Ten leaves or more, taken blindly; 0 for a clean one: 0 0 5 20 1 0."),
    )  # fmt: skip
    eaten = ListField(most=100, whole=False, label=gettext_lazy("Each leaf: eaten, %"))
    cause = forms.ChoiceField(
        choices=[*NOT_KNOWN, *CAUSES], required=False, label=gettext_lazy("What spots or eats them")
    )
    began = forms.ChoiceField(choices=[*NOTHING, *STARTS], required=False, label=gettext_lazy("What began on that day"))
    day = DayField(
        label=gettext_lazy("When"),
        help_text=gettext_lazy("A day to come too, where a bed is to be sown or planted: the schedule then plans it."),
    )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        """Something must be said, and counts need a frame."""
        found = super().clean() or {}
        if self.errors:
            return found
        seen = any(found.get(name) for name in ("counts", "longest", "spotted", "eaten"))
        ahead_d = (found["day"] - timezone.localdate()).days
        if ahead_d > 0 and (seen or not found.get("began")):
            self.add_error("day", _("This day is still to come."))
        if ahead_d > MOST_AHEAD_D:
            self.add_error("day", _("That is more than a year from now."))
        if not seen and not found.get("began"):
            raise forms.ValidationError(_("Say what was counted, measured, scored, or begun."))
        if found.get("counts") and not found.get("frame"):
            self.add_error("frame", _("How large was the frame?"))
        if found.get("bolting") and found["bolting"] > sum(found.get("counts") or []):
            self.add_error("bolting", _("That is more than were counted."))
        return found


def new_look(form: LookForm, *, bed: Bed) -> BedLook:
    """The look of a valid form."""
    data = form.cleaned_data
    row = BedLook(bed=bed, day=data["day"], began=data["began"], cause=data["cause"])
    for name in ("counts", "spotted", "eaten"):
        setattr(row, name, " ".join(f"{one:g}" for one in data[name] or []))
    if data["longest"]:
        row.longest_mm = " ".join(f"{one:.6g}" for one in data["longest"].mm)
        row.longest_typed = data["longest"].typed
    if row.counts:
        row.frame_m2, row.frame_typed, row.bolting = data["frame"].value, data["frame"].typed, data["bolting"]
    return row
