"""What is typed about a ladder: its plan, its strips, and which colour of a photo belongs to which of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final
from uuid import UUID

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from bluewright.journal.models import Garden, Ladder, LadderRung, Measured, Vat
from bluewright.journal.models.swatch import HOWS
from bluewright.science.dyeing.ladder_record import MOST_RUNG
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
from bluewright.words.cloth import AFTER_DIPS, BASES, BODIES, FIBRES, FINISHES, RUNS

USUAL: Final = "1 2 4 8"
STRIP_G: Final = 5.0
"""What a strip weighs where nobody says otherwise."""
MOST_STRIPS: Final = 12
PLAIN: Final = ("name", "fibre", "body", "basis", "run", "ph", "dip_min", "air_min", "after_dip", "finish", "how",
                "scale_sd_g", "note")  # fmt: skip
"""Columns that stand in the form under their own names."""
MEASURES: Final = {"strip": "strip_g", "thickness": "thickness_mm", "temp": "temp_c"}
"""Fields of a measure, and the columns of their values."""
GROUND: Final = ("ground_l_star", "ground_a_star", "ground_b_star")
COLOUR: Final = ("l_star", "a_star", "b_star")
MM_OR_IN: Final = {**CM_OR_IN, "metric": "mm"}


def said(choices: Mapping[Any, str]) -> list[tuple[str, Any]]:
    """Choices in the reader's language."""
    return [(value, gettext_lazy(words)) for value, words in choices.items()]


class DipsField(forms.CharField):
    """Numbers of dips in a line, like `1 2 4 8`; cleaned to whole numbers."""

    def __init__(self, **options: Any) -> None:
        super().__init__(max_length=60, **options)
        self.widget.attrs |= {"inputmode": "numeric", "autocomplete": "off"}

    def clean(self, value: Any) -> tuple[int, ...]:
        """Read them."""
        text = super().clean(value) or ""
        parts = text.replace(",", " ").replace(";", " ").split()
        if not all(part.isdecimal() and 1 <= int(part) <= MOST_RUNG for part in parts):
            raise ValidationError(_("Write numbers of dips from 1 to %(most)d, like 1 2 4 8.") % {"most": MOST_RUNG})
        if len(parts) > MOST_STRIPS:
            raise ValidationError(_("That is too many strips; up to %(most)d.") % {"most": MOST_STRIPS})
        return tuple(sorted(map(int, parts)))


class LadderForm(forms.Form):
    """A ladder."""

    name = forms.CharField(max_length=80, label=gettext_lazy("Name"))
    fibre = forms.ChoiceField(choices=said(FIBRES), label=gettext_lazy("Fibre"))
    vat = forms.ChoiceField(required=False, label=gettext_lazy("Vat"))
    bath = MeasureField(
        kind="volume_l", low=0.01, high=1_000_000, required=False, label=gettext_lazy("Liquor in the vat"),
        help_text=gettext_lazy("Left out: as it stands with the vat."),
    )  # fmt: skip
    active_g_per_l = DecimalField(
        required=False, min_value=0.001, max_value=50, label=gettext_lazy("Strength before the first dip, g/L"),
        help_text=gettext_lazy("Pure indigo that is reduced and dissolved. Left out: as the vat is reckoned."),
    )  # fmt: skip
    active_sd_pct = DecimalField(
        required=False, min_value=0.5, max_value=100, label=gettext_lazy("Give or take, per cent of it"),
        help_text=gettext_lazy("Left out: as usual for a strength that was judged."),
    )  # fmt: skip
    dips = DipsField(
        required=False, label=gettext_lazy("Dips of each strip"),
        help_text=gettext_lazy("One number a strip. Left out: the four that would teach most."),
    )  # fmt: skip
    strip = MeasureField(
        kind="mass_g", low=0.05, high=10_000, label=gettext_lazy("Mass of each strip, about"),
        help_text=gettext_lazy("Like 5 g. Heavier strips tell their indigo by weight as well."),
    )  # fmt: skip
    dip_min = DecimalField(min_value=0.1, max_value=1440, label=gettext_lazy("Minutes in the vat, each dip"))
    air_min = DecimalField(min_value=0, max_value=10_000, label=gettext_lazy("Minutes in the air between dips"))
    after_dip = forms.ChoiceField(choices=said(AFTER_DIPS), label=gettext_lazy("When they come out, they are"))
    finish = forms.ChoiceField(choices=said(FINISHES), label=gettext_lazy("At the end, they are"))
    body = forms.ChoiceField(choices=said(BODIES), label=gettext_lazy("Their make"))
    thickness = MeasureField(
        kind="length_mm", low=0.005, high=200, bare=MM_OR_IN, required=False, label=gettext_lazy("Thickness"),
        help_text=gettext_lazy("Of the yarn, the sheet or the ball. Left out: as usual for a yarn of the fibre."),
    )  # fmt: skip
    basis = forms.ChoiceField(choices=said(BASES), label=gettext_lazy("How they are weighed"))
    scale_sd_g = DecimalField(
        min_value=0.00001, max_value=100, label=gettext_lazy("The scale is good to, g"),
    )  # fmt: skip
    ground = ThreeField(
        limits=LAB_LIMITS, required=False, label=gettext_lazy("Colour of the undyed cloth: L, a, b"),
        help_text=gettext_lazy("CIELAB for D65 and the 2° observer. Left out: as usual for the fibre."),
    )  # fmt: skip
    how = forms.ChoiceField(choices=HOWS, label=gettext_lazy("How typed colours are measured"))
    ph = DecimalField(required=False, min_value=7, max_value=13.9, label=gettext_lazy("pH of the vat"))
    temp = MeasureField(kind="temp_c", low=5, high=70, required=False, label=gettext_lazy("Temperature of the vat"))
    run = forms.ChoiceField(choices=said(RUNS), label=gettext_lazy("The vat is"))
    begun_at = MomentField(label=gettext_lazy("Begun"), validators=[not_to_come])
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, vats: Sequence[Vat], row: Ladder | None = None, **options: Any):
        super().__init__(*args, **options)
        self.row, self.vats = row, {str(vat.pk): vat for vat in vats}
        if row is not None:
            del self.fields["dips"]
            if row.vat is not None:
                self.vats.setdefault(str(row.vat_id), row.vat)
        vat: Any = self.fields["vat"]
        vat.choices = [("", _("one that is not in the book")), *((key, one.name) for key, one in self.vats.items())]

    def clean(self) -> dict[str, Any]:
        """Felt and balls have no usual thickness; without a vat of the book its litres and strength are typed."""
        found = super().clean() or {}
        if found.get("body") in {"sheet", "ball"} and not found.get("thickness") and "thickness" not in self.errors:
            self.add_error("thickness", _("Felt and balls have no usual thickness: measure it."))
        if not found.get("vat"):
            if not found.get("bath") and "bath" not in self.errors:
                self.add_error("bath", _("Say how much liquor it holds, or choose a vat of the book."))
            if not found.get("active_g_per_l") and "active_g_per_l" not in self.errors:
                self.add_error("active_g_per_l", _("Say how strong it is, or choose a vat of the book."))
        return found


def first(garden: Garden, *, vats: Sequence[Vat], now: Any, vat: str, fibre: str) -> dict[str, Any]:
    """What a new ladder begins with: the vat and the fibre that an address names, and what is usual."""
    named = next((one for one in vats if str(one.pk) == vat), vats[0] if vats else None)
    wool = named.fibre if named is not None else "wool"
    count = Ladder.everything.filter(garden=garden).count() + 1
    return {
        "name": _("Ladder %(number)d") % {"number": count}, "fibre": fibre if fibre in FIBRES else wool,
        "vat": str(named.pk) if named is not None else "", "dips": USUAL, "strip": f"{STRIP_G:g} g", "dip_min": 5.0,
        "air_min": 15.0, "after_dip": "squeezed", "finish": "soaped", "scale_sd_g": 0.01, "begun_at": now,
        "how": "card",
    }  # fmt: skip


def as_typed(row: Ladder) -> dict[str, Any]:
    """A ladder as its form was filled in."""
    ground = [getattr(row, name) for name in GROUND]
    return {name: getattr(row, name) for name in PLAIN} | {
        "vat": str(row.vat_id) if row.vat_id else "", "bath": row.bath_typed, "strip": row.strip_typed,
        "thickness": row.thickness_typed, "temp": row.temp_typed, "begun_at": shown_moment(row.begun_at),
        "active_g_per_l": row.active_g_per_l, "ground": "" if None in ground else three_said(ground),
        "active_sd_pct": None if row.active_sd_frac is None else round(100 * row.active_sd_frac, 4),
    }  # fmt: skip


def write_ladder(form: LadderForm, row: Ladder) -> Ladder:
    """The ladder of a valid form, but for what it takes from its vat."""
    found = form.cleaned_data
    for name in PLAIN:
        setattr(row, name, found[name])
    for name, column in MEASURES.items():
        write_measure(form, name, row, value=column, typed=f"{name}_typed")
    write_moment(form, "begun_at", row)
    for name, value in zip(GROUND, found["ground"] or (None, None, None), strict=True):
        setattr(row, name, value)
    row.vat = form.vats.get(found["vat"])
    if found["bath"] is not None:
        write_measure(form, "bath", row, value="bath_l", typed="bath_typed")
    if {"active_g_per_l", "active_sd_pct"} & set(form.changed_data) and found["active_g_per_l"]:
        share = found["active_sd_pct"]
        row.active_g_per_l, row.reckoned = found["active_g_per_l"], False
        row.active_sd_frac = None if share is None else share / 100
    return row


class StripsForm(forms.Form):
    """All strips of a ladder in one form: dips, masses, colours."""

    def __init__(self, data: Any = None, *, ladder: Ladder) -> None:
        self.rungs = list(ladder.rungs.all())
        initial = {name: value for rung in self.rungs for name, value in _rung_typed(rung).items()}
        super().__init__(data, initial=initial)
        for rung in self.rungs:
            self.fields |= _rung_fields(rung, ladder.garden)

    def rows(self) -> list[tuple[LadderRung, list[forms.BoundField]]]:
        """Each strip with its fields."""
        return [(rung, [self[f"{name}-{rung.pk}"] for name in _NAMES]) for rung in self.rungs]

    def written(self) -> list[LadderRung]:
        """The strips of a valid form."""
        for rung in self.rungs:
            found = {name: self.cleaned_data[f"{name}-{rung.pk}"] for name in _NAMES}
            rung.dips, rung.k_over_s = found["dips"], found["k_over_s"]
            for name, value in zip(COLOUR, found["lab"] or (None, None, None), strict=True):
                setattr(rung, name, value)
            if f"lab-{rung.pk}" in self.changed_data:
                rung.swatch = None
            for name in ("before", "after"):
                if f"{name}-{rung.pk}" in self.changed_data:
                    measure = found[name]
                    setattr(rung, f"{name}_g", None if measure is None else measure.value)
                    setattr(rung, f"{name}_typed", "" if measure is None else measure.typed)
        return self.rungs

    def clean(self) -> dict[str, Any]:
        """A strip neither halves nor doubles its mass."""
        found = super().clean() or {}
        for rung in self.rungs:
            before, after = found.get(f"before-{rung.pk}"), found.get(f"after-{rung.pk}")
            if before and after and not 0.5 * before.value <= after.value <= 2.0 * before.value:
                told = {"before": before.typed, "after": after.typed}
                self.add_error(
                    f"after-{rung.pk}", _("It weighed %(before)s before the vat: %(after)s cannot be.") % told
                )
        return found


_NAMES: Final = ("dips", "before", "after", "lab", "k_over_s")


def _rung_fields(rung: LadderRung, garden: Garden) -> dict[str, forms.Field]:
    dips = forms.IntegerField(
        min_value=1, max_value=MOST_RUNG, label=_("Dips"),
        widget=forms.TextInput({"inputmode": "numeric", "autocomplete": "off"}),
    )  # fmt: skip
    mass: dict[str, Any] = {"kind": "mass_g", "low": 0.01, "high": 10_000, "required": False, "system": garden.system}
    fields: dict[str, forms.Field] = {
        "dips": dips,
        "before": MeasureField(label=_("Mass before the vat"), **mass),
        "after": MeasureField(label=_("Mass after, dry"), **mass),
        "lab": ThreeField(limits=LAB_LIMITS, required=False, label=_("Colour: L, a, b")),
        "k_over_s": DecimalField(required=False, min_value=0.01, max_value=120, label=_("K/S at 660 nm")),
    }  # fmt: skip
    return {f"{name}-{rung.pk}": field for name, field in fields.items()}


def _rung_typed(rung: LadderRung) -> dict[str, Any]:
    colour = [getattr(rung, name) for name in COLOUR]
    if rung.swatch is not None and rung.swatch.deleted_at is None:
        colour = [rung.swatch.l_star, rung.swatch.a_star, rung.swatch.b_star]
    plain = {
        "dips": rung.dips, "before": rung.before_typed, "after": rung.after_typed, "k_over_s": rung.k_over_s,
        "lab": "" if None in colour else three_said(colour),
    }  # fmt: skip
    return {f"{name}-{rung.pk}": value for name, value in plain.items()}


class StripForm(forms.Form):
    """One strip more."""

    dips = forms.IntegerField(
        min_value=1, max_value=MOST_RUNG, label=gettext_lazy("A strip more, with so many dips"),
        widget=forms.TextInput({"inputmode": "numeric", "autocomplete": "off"}),
    )  # fmt: skip


class ColoursForm(forms.Form):
    """Which sample of a measured photo is which strip."""

    def __init__(self, data: Any = None, *, ladder: Ladder, measured: Measured) -> None:
        self.rungs, self.many = list(ladder.rungs.all()), len(measured.answer["samples"])
        in_order = len(self.rungs) == self.many
        initial = {str(rung.pk): str(place) for place, rung in enumerate(self.rungs)} if in_order else {}
        super().__init__(data, initial=initial)
        choices = [("", _("none")), *((str(k), _("sample %(number)d") % {"number": k + 1}) for k in range(self.many))]
        for rung in self.rungs:
            self.fields[str(rung.pk)] = forms.ChoiceField(
                required=False, choices=choices, label=strip_said(rung.dips)
            )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        """No sample is two strips; at least one is one."""
        found = super().clean() or {}
        chosen = [value for value in found.values() if value]
        if len(set(chosen)) < len(chosen):
            raise ValidationError(_("One sample cannot be two strips."))
        if not chosen and not self.errors:
            raise ValidationError(_("Say of one strip at least which sample it is."))
        return found

    def samples(self) -> list[tuple[LadderRung, int]]:
        """Each strip that was named, with the place of its sample."""
        named = {UUID(key): int(value) for key, value in self.cleaned_data.items() if value}
        return [(rung, named[rung.pk]) for rung in self.rungs if rung.pk in named]


def strip_said(dips: int) -> str:
    """`the strip with 4 dips`."""
    return ngettext("the strip with %(dips)d dip", "the strip with %(dips)d dips", dips) % {"dips": dips}
