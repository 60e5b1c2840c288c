"""What is typed about a piece: what it is, how it was scoured, and how it was finished."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final
from uuid import UUID

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Measured, Piece, Swatch
from bluewright.web.ui.photos import WithPhotos
from bluewright.web.ui.three import LAB_LIMITS, ThreeField, three_said
from bluewright.web.ui.typed import (
    CM_OR_IN,
    DecimalField,
    MeasureField,
    MomentField,
    not_to_come,
    shown_moment,
    write_measure,
    write_moment,
)
from bluewright.words.cloth import AFTER_DIPS, BASES, BODIES, FIBRES, FINISHES, SCOURS

MOST_DIP_MIN: Final = 1440.0
MOST_AIR_MIN: Final = 10_000.0
PLAIN: Final = ("name", "fibre", "body", "basis", "scale_sd_g", "after_dip", "wanted_dips", "dip_min", "air_min",
                "note")  # fmt: skip
"""Columns that stand in the form under their own names."""
GROUND: Final = ("ground_l_star", "ground_a_star", "ground_b_star")
MM_OR_IN: Final = {**CM_OR_IN, "metric": "mm"}


def said(choices: Any) -> list[tuple[str, Any]]:
    """Choices in the reader's language."""
    return [(value, gettext_lazy(words)) for value, words in choices.items()]


class PieceForm(WithPhotos):
    """A piece."""

    name = forms.CharField(max_length=80, label=gettext_lazy("Name"))
    fibre = forms.ChoiceField(choices=said(FIBRES), label=gettext_lazy("Fibre"))
    mass = MeasureField(
        kind="mass_g", low=0.5, high=1_000_000, label=gettext_lazy("Mass, dry, before the vat"),
        help_text=gettext_lazy("Like 480 g or 1/2 lb."),
    )  # fmt: skip
    basis = forms.ChoiceField(choices=said(BASES), label=gettext_lazy("How it was weighed"))
    scale_sd_g = DecimalField(
        required=False, min_value=0.00001, max_value=100, label=gettext_lazy("The scale is good to, g"),
        help_text=gettext_lazy("What it tells apart, like 0.1. Left out: as usual for a kitchen scale."),
    )  # fmt: skip
    begun_at = MomentField(label=gettext_lazy("Into the book"), validators=[not_to_come])
    wanted_dips = forms.IntegerField(
        required=False, min_value=1, max_value=60, label=gettext_lazy("How many dips it is to get"),
        widget=forms.TextInput({"inputmode": "numeric", "autocomplete": "off"}),
        help_text=gettext_lazy("Left out: you see as you go."),
    )  # fmt: skip
    like = forms.ChoiceField(
        required=False, label=gettext_lazy("Whose colour it is to get"),
        help_text=gettext_lazy("Its page then says how many dips are likely to come to it."),
    )  # fmt: skip
    dip_min = DecimalField(min_value=0.1, max_value=MOST_DIP_MIN, label=gettext_lazy("Minutes in the vat, each dip"))
    air_min = DecimalField(min_value=0, max_value=MOST_AIR_MIN, label=gettext_lazy("Minutes in the air between dips"))
    after_dip = forms.ChoiceField(choices=said(AFTER_DIPS), label=gettext_lazy("When it comes out, it is"))
    body = forms.ChoiceField(choices=said(BODIES), label=gettext_lazy("Its make"))
    thickness = MeasureField(
        kind="length_mm", low=0.005, high=200, bare=MM_OR_IN, required=False, label=gettext_lazy("Thickness"),
        help_text=gettext_lazy("Of the yarn, the sheet or the ball. Left out: as usual for a yarn of the fibre."),
    )  # fmt: skip
    ground = ThreeField(
        limits=LAB_LIMITS, required=False, label=gettext_lazy("Colour of the undyed cloth: L, a, b"),
        help_text=gettext_lazy("CIELAB for D65 and the 2° observer. Left out: as usual for the fibre."),
    )  # fmt: skip
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, swatches: Sequence[Swatch], **options: Any) -> None:
        super().__init__(*args, **options)
        like: Any = self.fields["like"]
        like.choices = [("", _("no swatch's")), *((str(one.pk), one.name) for one in swatches)]

    def clean(self) -> dict[str, Any]:
        """Felt and balls have no usual thickness."""
        found = super().clean() or {}
        if found.get("body") in {"sheet", "ball"} and not found.get("thickness") and "thickness" not in self.errors:
            self.add_error("thickness", _("Felt and balls have no usual thickness: measure it."))
        return found


def piece_as_typed(row: Piece) -> dict[str, Any]:
    """A piece as its form was filled in."""
    ground = [getattr(row, name) for name in GROUND]
    return {name: getattr(row, name) for name in PLAIN} | {
        "mass": row.mass_typed, "thickness": row.thickness_typed, "begun_at": shown_moment(row.begun_at),
        "ground": "" if None in ground else three_said(ground),
        "like": "" if row.like_key is None else str(row.like_key),
    }  # fmt: skip


def ground_of(found: Measured, number: int) -> dict[str, str]:
    """What a sample of a measured photo brings along as the undyed cloth."""
    return {"ground": three_said(found.answer["samples"][number]["lab"])}


def write_piece(form: PieceForm, row: Piece) -> Piece:
    """The piece of a valid form."""
    for name in PLAIN:
        setattr(row, name, form.cleaned_data[name])
    row.like_key = UUID(form.cleaned_data["like"]) if form.cleaned_data["like"] else None
    write_measure(form, "mass", row, value="mass_g", typed="mass_typed")
    write_measure(form, "thickness", row, value="thickness_mm", typed="thickness_typed")
    write_moment(form, "begun_at", row)
    for name, value in zip(GROUND, form.cleaned_data["ground"] or (None, None, None), strict=True):
        setattr(row, name, value)
    return row


class ScourForm(forms.Form):
    """How a piece was cleaned."""

    scour = forms.ChoiceField(choices=said(SCOURS), label=gettext_lazy("How"))
    scoured_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])


def write_scour(form: ScourForm, row: Piece) -> Piece:
    """The piece with its scour."""
    row.scour = form.cleaned_data["scour"]
    write_moment(form, "scoured_at", row)
    return row


class FinishForm(forms.Form):
    """How a piece was finished, and what it weighs now."""

    finish = forms.ChoiceField(choices=said(FINISHES), label=gettext_lazy("Rinsed or soaped"))
    finished_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])
    after = MeasureField(
        kind="mass_g", low=0.5, high=1_000_000, required=False, label=gettext_lazy("Mass, dry, after it"),
        help_text=gettext_lazy("Weighed as before the vat. It can be told later, once it is dry."),
    )  # fmt: skip

    def __init__(self, *args: Any, row: Piece, **options: Any) -> None:
        super().__init__(*args, **options)
        self.row = row

    def clean_after(self) -> Any:
        """A mass that is so far from the one before is another thing's."""
        found = self.cleaned_data["after"]
        if found is not None and not 0.5 * self.row.mass_g <= found.value <= 2.0 * self.row.mass_g:
            told = {"before": self.row.mass_typed, "after": found.typed}
            raise forms.ValidationError(_("It weighed %(before)s before the vat: %(after)s cannot be.") % told)
        return found

    def clean(self) -> dict[str, Any]:
        """It is not finished before its last dip was over."""
        found = super().clean() or {}
        when = found.get("finished_at")
        last = max((dip.ended_at or dip.began_at for dip in self.row.dips.all()), default=None)
        if when is not None and last is not None and when < last.replace(second=0, microsecond=0):
            self.add_error("finished_at", _("That is before its last dip was over."))
        return found


def finish_as_typed(row: Piece) -> dict[str, Any]:
    """The finish as its form was filled in."""
    when = None if row.finished_at is None else shown_moment(row.finished_at)
    return {"finish": row.finish, "finished_at": when, "after": row.after_typed}


def write_finish(form: FinishForm, row: Piece) -> Piece:
    """The piece with its finish."""
    row.finish = form.cleaned_data["finish"]
    write_moment(form, "finished_at", row)
    write_measure(form, "after", row, value="after_g", typed="after_typed")
    return row
