"""What is drawn and typed to measure colours in a photo."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.bridge.measuring import CardFound
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.base.typed_numbers import plain, signed
from bluewright.science.photo.record import PhotoRecord
from bluewright.web.ui.boxes import BoxesField, box_text

LIGHTS: Final = [
    ("daylight", gettext_lazy("daylight: open shade, or a window")),
    ("lamp", gettext_lazy("lamps")),
    ("unknown", gettext_lazy("not known")),
]
NUMBERS: Final = gettext_lazy("Left, top, width and height in points, like 120, 300, 200, 160.")


class LabField(forms.CharField):
    """L*, a*, b* as three numbers; cleaned to a tuple, or None if left empty."""

    def __init__(self, **options: Any) -> None:
        super().__init__(max_length=60, **options)
        self.widget.attrs |= {"autocomplete": "off"}

    def clean(self, value: Any) -> tuple[float, float, float] | None:
        """Read the three numbers."""
        text = super().clean(value)
        if not text:
            return None
        try:
            l, a, b = (signed(part) for part in plain(text.replace(";", " ")).split())  # noqa: E741 - its name
        except (InputError, ValueError):
            raise ValidationError(_("Write three numbers with spaces between, like 95 0.5 -3.")) from None
        return l, a, b


class MeasureForm(forms.Form):
    """Boxes on a photo, and what is known of them."""

    samples = BoxesField(
        many=True, short=gettext_lazy("Sample"), label=gettext_lazy("What is to be measured"), help_text=NUMBERS
    )
    white = BoxesField(
        required=False, short=gettext_lazy("White paper"), label=gettext_lazy("White paper"), help_text=NUMBERS
    )
    around = BoxesField(
        many=True, required=False, short=gettext_lazy("More white"),
        label=gettext_lazy("More of the same white, around it"), help_text=gettext_lazy("Evens out the light."),
    )  # fmt: skip
    grey = BoxesField(
        required=False, short=gettext_lazy("Grey"), label=gettext_lazy("A grey whose colour is known"),
        help_text=NUMBERS,
    )  # fmt: skip
    black = BoxesField(
        required=False, short=gettext_lazy("Black"), label=gettext_lazy("Black velvet, or a deep hole"),
        help_text=gettext_lazy("Shows stray light, which matters in deep shades."),
    )  # fmt: skip
    name = forms.CharField(
        max_length=60, required=False, label=gettext_lazy("What it is"),
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )  # fmt: skip
    light = forms.ChoiceField(choices=LIGHTS, initial="daylight", label=gettext_lazy("The light"))
    white_lab = LabField(
        required=False, label=gettext_lazy("Colour of the white: L*, a*, b*"),
        help_text=gettext_lazy("If it was measured. Left out: common paper, which is a little blue."),
    )  # fmt: skip
    grey_lab = LabField(required=False, label=gettext_lazy("Colour of the grey: L*, a*, b*"))
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def record(self) -> PhotoRecord:
        """The record of a valid form. Raises InputError where boxes contradict each other."""
        typed = self.cleaned_data
        white, grey, black = (next(iter(typed[name]), None) for name in ("white", "grey", "black"))
        return PhotoRecord(
            id=typed["name"],
            samples=typed["samples"],
            around=typed["around"],
            white=white,
            white_lab=typed["white_lab"] if white else None,
            grey=grey,
            grey_lab=typed["grey_lab"],
            black=black,
            light=typed["light"],
        )


def as_drawn(record: dict[str, Any]) -> dict[str, Any]:
    """The boxes of a record that was kept, to be drawn again; of one that cannot be read, none."""
    try:
        known = read(PhotoRecord, record)
    except InputError:
        return {}
    return {
        "samples": "\n".join(map(box_text, known.samples)),
        "around": "\n".join(map(box_text, known.around)),
        "white": box_text(known.white),
        "grey": box_text(known.grey),
        "black": box_text(known.black),
        "name": known.id,
        "light": known.light,
        "white_lab": _lab_text(known.white_lab),
        "grey_lab": _lab_text(known.grey_lab),
    }


def in_window(found: CardFound) -> dict[str, Any]:
    """A box in the window of the card that lies in the photo, to begin with; nothing without a registered card."""
    lying = found.card.lying if found.card is not None else None
    return {"samples": box_text(lying.window)} if lying is not None else {}


def _lab_text(lab: tuple[float, float, float] | None) -> str:
    return "" if lab is None else " ".join(f"{part:g}" for part in lab)
