"""What is typed about swatches."""

from __future__ import annotations

from typing import Any, Final
from uuid import UUID

from django import forms
from django.core.exceptions import ValidationError
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.bridge.swatches import ground_lab, of_spectrum
from bluewright.journal.models import Garden, Jar, Measured, Piece, Swatch
from bluewright.journal.models.swatch import FIBRES, HOWS, OF
from bluewright.science.base.errors import InputError
from bluewright.science.colour.reflectance_record import ReflectanceAnswer
from bluewright.web.ui.photos import WithPhotos
from bluewright.web.ui.three import LAB_LIMITS, ThreeField, three_said
from bluewright.web.ui.typed import DecimalField, MomentField, not_to_come, shown_moment, write_moment

MOST_SPREAD: Final = 30.0
MOST_JARS: Final = 200
"""Jars and pieces that are offered: the newest."""
OF_PIECE: Final = {"other_cellulose": "viscose"}
"""Fibres of a piece that a swatch calls otherwise."""
CARRIED: Final = ("name", "of", "fibre", "jar", "piece", "dips", "lab", "lab_sd", "how", "k_over_s", "recipe")
"""What an address may bring along, so that a colour measured elsewhere is written down without typing it again."""


class SwatchForm(WithPhotos):
    """A swatch."""

    name = forms.CharField(max_length=80, label=gettext_lazy("Name"))
    of = forms.ChoiceField(choices=OF, label=gettext_lazy("What it is"))
    fibre = forms.ChoiceField(choices=[("", "–"), *FIBRES], required=False, label=gettext_lazy("Fibre"))
    jar = forms.ChoiceField(
        required=False, label=gettext_lazy("Pigment from jar"),
        help_text=gettext_lazy("So that bed, tub and batch are known."),
    )  # fmt: skip
    piece = forms.ChoiceField(
        required=False, label=gettext_lazy("Of the piece"), help_text=gettext_lazy("So that its story shows it.")
    )
    dips = forms.IntegerField(
        required=False, min_value=1, max_value=200, label=gettext_lazy("Dips"),
        widget=forms.TextInput({"inputmode": "numeric", "autocomplete": "off"}),
    )  # fmt: skip
    lab = ThreeField(
        limits=LAB_LIMITS, required=False, label=gettext_lazy("Colour: L, a, b"),
        help_text=gettext_lazy("CIELAB for D65 and the 2° observer, like 34.2 -1.6 -23.1."),
    )  # fmt: skip
    spectrum = forms.CharField(
        required=False, max_length=60_000, strip=False, label=gettext_lazy("Or its spectrum"),
        widget=forms.Textarea({"rows": 3, "autocomplete": "off"}),
        help_text=gettext_lazy("Two columns from a spectrometer: nm and reflectance, at least from 400 to 700 nm."),
    )  # fmt: skip
    lab_sd = ThreeField(
        limits=((0.0, MOST_SPREAD),) * 3, one_will_do=True, required=False, label=gettext_lazy("Give or take"),
        help_text=gettext_lazy("One number, or one each. Left out: what is usual for how it was measured."),
    )  # fmt: skip
    ground = ThreeField(
        limits=LAB_LIMITS, required=False, label=gettext_lazy("The same cloth undyed: L, a, b"),
        help_text=gettext_lazy("So that its blue can be told apart from its ground. Left out: as its piece says."),
    )  # fmt: skip
    how = forms.ChoiceField(choices=HOWS, label=gettext_lazy("How it was measured"))
    k_over_s = DecimalField(
        required=False, min_value=0, max_value=200, label=gettext_lazy("K/S at 660 nm"),
        help_text=gettext_lazy("Only if an instrument read the spectrum."),
    )  # fmt: skip
    measured_at = MomentField(label=gettext_lazy("Measured"), validators=[not_to_come])
    recipe = forms.CharField(
        required=False, max_length=1000, label=gettext_lazy("How it was dyed"),
        widget=forms.Textarea({"rows": 3}), help_text=gettext_lazy("Vat, strength, time, rinse: in your own words."),
    )  # fmt: skip
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, garden: Garden, row: Swatch | None = None, **options: Any) -> None:
        super().__init__(*args, **options)
        also = None if row is None else row.jar
        piece_also = None if row is None else row.piece
        jars = {str(jar.pk): jar for jar in Jar.objects.filter(garden=garden).order_by("-filled_at")[:MOST_JARS]}
        if also is not None:
            jars.setdefault(str(also.pk), also)
        self.jars = jars
        self.read: ReflectanceAnswer | None = None
        jar: Any = self.fields["jar"]
        jar.choices = [("", "–"), *((key, one.name) for key, one in jars.items())]
        self.pieces = {str(one.pk): one for one in Piece.objects.filter(garden=garden)[:MOST_JARS]}
        asked = str((self.data if self.is_bound else self.initial).get("piece") or "")
        if piece_also is None and asked not in self.pieces:
            piece_also = a_piece(asked, of=garden)
        if piece_also is not None:
            self.pieces.setdefault(str(piece_also.pk), piece_also)
        piece: Any = self.fields["piece"]
        piece.choices = [("", "–"), *((key, one.name) for key, one in self.pieces.items())]

    def clean_spectrum(self) -> str:
        """Read the spectrum, if one was pasted; its colour is kept, not its text."""
        text: str = self.cleaned_data["spectrum"]
        if text.strip():
            try:
                self.read = of_spectrum(text)
            except InputError as error:
                raise ValidationError(f"{error}.") from None
        return text

    def clean(self) -> dict[str, Any]:
        """A colour is needed, one way or the other, and only one."""
        found = super().clean() or {}
        if self.read is not None and found.get("lab") and "lab" in self.changed_data:
            self.add_error("spectrum", _("Give L, a, b or the spectrum, not both."))
        elif self.read is None and not found.get("lab") and not {"lab", "spectrum"} & set(self.errors):
            self.add_error("lab", _("Give L, a, b, or the spectrum."))
        return found


def as_typed(row: Swatch) -> dict[str, Any]:
    """A swatch as its form was filled in."""
    plain_ones = {name: getattr(row, name) for name in ("name", "of", "fibre", "dips", "how", "recipe", "note")}
    spread = (row.l_sd, row.a_sd, row.b_sd)
    return plain_ones | {
        "jar": str(row.jar_id) if row.jar_id else "",
        "piece": str(row.piece_id) if row.piece_id else "",
        "lab": three_said((row.l_star, row.a_star, row.b_star)),
        "lab_sd": "" if None in spread else three_said(spread),
        "ground": "" if ground_lab(row) is None else three_said(ground_lab(row) or ()),
        "k_over_s": row.k_over_s,
        "measured_at": shown_moment(row.measured_at),
    }


def brought(get: Any, *, of: Garden) -> dict[str, Any]:
    """What an address brings along for a new swatch."""
    piece = a_piece(get.get("piece", ""), of=of)
    of_piece = {} if piece is None else from_piece(piece)
    return {"measured_at": timezone.localtime()} | of_piece | {name: get[name] for name in CARRIED if get.get(name)}


def brought_from(found: Measured, number: int) -> dict[str, Any]:
    """What a sample of a measured photo brings along."""
    sample = found.answer["samples"][number]
    of_jar = found.photo.about_kind == "jar"
    piece = Piece.objects.filter(pk=found.photo.about_id).first() if found.photo.about_kind == "piece" else None
    of_piece = {} if piece is None else from_piece(piece)
    return of_piece | {
        "name": found.name or of_piece.get("name", ""), "lab": three_said(sample["lab"]),
        "lab_sd": three_said(sample["lab_sd"]), "how": "card" if found.card_id else "photo",
        "measured_at": shown_moment(found.photo.taken_at),
        "jar": str(found.photo.about_id) if of_jar else "", "of": "pigment" if of_jar else "cloth",
    }  # fmt: skip


def from_piece(piece: Piece) -> dict[str, Any]:
    """What a piece brings along."""
    dips = piece.dips.count()
    return {
        "piece": str(piece.pk), "name": piece.name, "fibre": OF_PIECE.get(piece.fibre, piece.fibre),
        "dips": dips or None, "of": "cloth",
    }  # fmt: skip


def a_piece(key: str, *, of: Garden) -> Piece | None:
    """The piece of a garden with that key; None where it is none."""
    try:
        return Piece.objects.filter(pk=UUID(key), garden=of).first()
    except ValueError:
        return None


def write_swatch(form: SwatchForm, row: Swatch, *, sample: tuple[Measured, int] | None = None) -> Swatch:
    """The swatch of a valid form, its colour from a sample of a measured photo if it still is that.

    A colour that was typed anew is no longer the measured one.
    """
    found = form.cleaned_data
    for name in ("name", "of", "fibre", "dips", "how", "recipe", "note", "k_over_s"):
        setattr(row, name, found[name])
    if sample is not None and not {"lab", "how", "spectrum"} & set(form.changed_data):
        row.measured_key, row.measured_sample = sample[0].pk, sample[1]
    elif {"lab", "how", "spectrum"} & set(form.changed_data):
        row.measured_key, row.measured_sample = None, None
    row.jar, row.piece = form.jars.get(found["jar"]), form.pieces.get(found["piece"])
    row.l_star, row.a_star, row.b_star = form.read.lab if form.read is not None else found["lab"]
    row.l_sd, row.a_sd, row.b_sd = found["lab_sd"] or (None, None, None)
    row.ground_l_star, row.ground_a_star, row.ground_b_star = found["ground"] or (None, None, None)
    if form.read is not None:
        row.how, row.k_over_s = "instrument", form.read.k_over_s.p50
        row.l_sd, row.a_sd, row.b_sd = form.read.lab_sd
    write_moment(form, "measured_at", row)
    return row


class CompareForm(forms.Form):
    """Which two swatches to lay beside each other."""

    a = forms.ChoiceField(label=gettext_lazy("The standard, at the left"))
    b = forms.ChoiceField(label=gettext_lazy("What is compared with it"))

    def __init__(self, *args: Any, rows: dict[str, Swatch], **options: Any) -> None:
        super().__init__(*args, **options)
        for name in ("a", "b"):
            field: Any = self.fields[name]
            field.choices = [("", _("choose")), *((key, row.name) for key, row in rows.items())]
