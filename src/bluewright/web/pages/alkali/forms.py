"""What is typed about alkali: in the cupboard, at the tub, at the jar."""

from __future__ import annotations

from datetime import datetime
from typing import Any, Final

from django import forms
from django.utils import timezone
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bluewright.journal.bridge.batches import alkali_record
from bluewright.journal.models import Alkali, Batch, Garden
from bluewright.journal.models.alkali import KINDS
from bluewright.science.base.errors import InputError
from bluewright.science.base.measures import Measure, MeasureKind, read_measure
from bluewright.web.pages.alkali.strength import Strength, StrengthField
from bluewright.web.ui.typed import DayField, DecimalField, MeasureField, MomentField, not_a_day_to_come, not_to_come

LABELS: Final = [("nh3", _("ammonia (NH3)")), ("nh4oh", _("ammonium hydroxide (NH4OH)"))]
READERS: Final = [("0.1", _("a meter, calibrated today")), ("0.2", _("a cheap pen")), ("0.3", _("strips"))]
PLACES: Final = [
    ("", _("outdoors")),
    ("0.5", _("in a room, closed")),
    ("2", _("in a room, a window ajar")),
    ("10", _("in a room, a cross-draught")),
]
M3_PER_FT3: Final = 0.028316846592
DRY_G_PER_L: Final = 500.0
"""More dry alkali than this for a litre of liquor was mistyped."""
FIELD_OF: Final = {"percent_w_w": "strength", "mol_per_l": "strength", "label_as": "label_as", "kind": "kind"}
"""Which field of the form holds a field of the science's record."""


class AlkaliForm(forms.Form):
    """A bottle or bag in the cupboard."""

    kind = forms.ChoiceField(choices=KINDS, label=_("What it is"))
    name = forms.CharField(max_length=60, label=_("Name on the shelf"))
    strength = StrengthField(
        label=_("Strength"),
        help_text=_(
            "Ammonia or bought lye: the per cent on the label, like 9.5 %. A solution that you made up: "
            "25 g in 500 mL, 1 oz in 1 qt, or 0.5 mol/L if you know it. Left out: dry, as it comes; or ammonia without "
            "a label."
        ),
    )
    label_as = forms.ChoiceField(
        choices=LABELS, initial="nh3", label=_("The per cent of an ammonia label count"), widget=forms.RadioSelect
    )
    opened = forms.BooleanField(required=False, label=_("An ammonia bottle that has been open for weeks"))
    opened_on = DayField(
        required=False, validators=[not_a_day_to_come], label=_("Opened on"),
        help_text=_("Left out while it is closed: then it keeps."),
    )  # fmt: skip
    pack = forms.CharField(
        required=False, max_length=30, label=_("It held, when it was new"),
        help_text=_("1 kg, 500 mL, 2 lb, 1 qt: for what remains and what it costs."),
    )  # fmt: skip
    pack_money = DecimalField(min_value=0, max_value=1_000_000_000, required=False, label=_("It cost"))
    note = forms.CharField(required=False, max_length=500, label=_("Note"))

    def __init__(self, *args: Any, garden: Garden, alkali: Alkali | None = None, used: int = 0, **options: Any) -> None:
        super().__init__(*args, **options)
        self.garden, self.alkali, self.used = garden, alkali, used

    def clean(self) -> dict[str, Any]:
        """What can't be is said by the science, at the field that it concerns."""
        found = super().clean() or {}
        if not self.errors:
            try:
                found["strength"] = found["strength"].of(found["kind"])
                unit = alkali_record(self._row(found)).unit
            except InputError as error:
                self.add_error(FIELD_OF.get(error.where, "kind"), self._said(error, found["kind"]))
            else:
                self._check_use(found["kind"], unit)
                self._read_pack(found, unit)
        return found

    def _read_pack(self, found: dict[str, Any], unit: str) -> None:
        """What a pack holds, in the measure that it is used in; a price alone says nothing."""
        kind: MeasureKind = "volume_ml" if unit == "ml" else "mass_g"
        system: Any = self.garden.system
        try:
            found["pack"] = read_measure(found["pack"], kind=kind, prefer=system) if found["pack"] else None
        except InputError as error:
            self.add_error("pack", f"{error.what}; {error.right}")
            return
        if found["pack"] is None and found["pack_money"] is not None:
            self.add_error("pack", gettext("Say how much it held, so that its price says something."))

    def row(self) -> Alkali:
        """The alkali of the valid form: a new one, or the one that is changed."""
        return self._row(self.cleaned_data)

    def _row(self, found: dict[str, Any]) -> Alkali:
        strength: Strength = found["strength"]
        old = self.alkali
        return Alkali(
            pk=old.pk if old is not None else None,
            garden=self.garden,
            kind=found["kind"],
            name=found["name"],
            percent_w_w=strength.percent_w_w,
            mol_per_l=strength.mol_per_l,
            strength_typed=strength.typed,
            label_as=found["label_as"],
            opened=found["opened"],
            opened_on=found.get("opened_on"),
            pack_money=found.get("pack_money"),
            **self._pack(found),
            note=found["note"],
            used_up=old.used_up if old is not None else False,
        )

    @staticmethod
    def _pack(found: dict[str, Any]) -> dict[str, Any]:
        pack = found.get("pack")
        if not isinstance(pack, Measure):  # not read yet
            return {}
        return {"pack_amount": pack.value, "pack_typed": pack.typed}

    def _check_use(self, kind: str, unit: str) -> None:
        """What went in by the millilitre cannot turn into grams afterwards, nor lye into soda."""
        if self.alkali is None or not self.used:
            return
        if kind != self.alkali.kind:
            self.add_error("kind", gettext("It has gone into a batch as it is: write another alkali down by itself."))
        if unit != alkali_record(self.alkali).unit:
            self.add_error(
                "strength", gettext("It has gone into a batch in another measure: write the solution down by itself.")
            )

    @staticmethod
    def _said(error: InputError, kind: str) -> str:
        words = {"percent_w_w": gettext("per cent"), "mol_per_l": "mol/L", kind: str(dict(KINDS)[kind])}
        text = f"{error.what}; {error.right}"
        for theirs, ours in words.items():
            text = text.replace(theirs, ours)
        return text


class AimForm(forms.Form):
    """Which alkali, which pH, read with what, and where the work is done."""

    alkali = forms.ModelChoiceField(queryset=Alkali.objects.none(), label=_("Alkali"), empty_label=None)
    target_ph = DecimalField(min_value=7, max_value=13, label=_("Wanted pH"))
    ph_sd = forms.TypedChoiceField(choices=READERS, coerce=float, label=_("pH is read with"))
    place = forms.ChoiceField(choices=PLACES, required=False, label=_("Where it goes in"))
    room = DecimalField(min_value=0.1, max_value=100_000, required=False)

    def __init__(self, *args: Any, batch: Batch, choices: list[Alkali], **options: Any) -> None:
        super().__init__(*args, **options)
        self.us = batch.garden.system == "us"
        alkali: Any = self.fields["alkali"]
        alkali.queryset = Alkali.objects.filter(pk__in=[one.pk for one in choices])
        alkali.choices = [(str(one.pk), str(one)) for one in choices]
        self.fields["room"].label = (
            gettext("Air in the room, cubic feet") if self.us else gettext("Air in the room, m³")
        )
        self.fields["room"].help_text = gettext("Length x width x height. Only needed indoors, for ammonia.")

    def clean(self) -> dict[str, Any]:
        """A room has a size."""
        found = super().clean() or {}
        if found.get("place") and found.get("room") is None and "room" not in self.errors:
            self.add_error("room", gettext("How large is the room? Length x width x height."))
        return found

    @staticmethod
    def first(batch: Batch, alkali: Alkali | None) -> dict[str, Any]:
        """What the form begins with."""
        us = batch.garden.system == "us"
        room = batch.room_m3 and round(batch.room_m3 / (M3_PER_FT3 if us else 1.0), 1)
        return {
            "alkali": str(alkali.pk) if alkali is not None else None,
            "target_ph": f"{batch.target_ph:g}",
            "ph_sd": f"{batch.ph_sd:g}",
            "place": f"{batch.air_changes_per_h:g}" if batch.air_changes_per_h else "",
            "room": f"{room:g}" if room else None,
        }

    def write_on(self, batch: Batch) -> Batch:
        """The batch with what the valid form says."""
        data = self.cleaned_data
        indoors = bool(data["place"])
        batch.target_ph, batch.ph_sd = data["target_ph"], data["ph_sd"]
        batch.air_changes_per_h = float(data["place"]) if indoors else None
        batch.room_m3 = data["room"] * (M3_PER_FT3 if self.us else 1.0) if indoors else None
        batch.room_typed = f"{data['room']:g} {'cubic feet' if self.us else 'm³'}" if indoors else ""
        return batch


class _Moment(forms.Form):
    """When; left out, it is now."""

    at = MomentField(required=False, label=_("When"), validators=[not_to_come], help_text=_("Left empty: now."))

    def __init__(self, *args: Any, batch: Batch, **options: Any) -> None:
        super().__init__(*args, **options)
        self.batch, self.garden = batch, batch.garden

    def clean_at(self) -> datetime:
        """To the minute; not before the batch began."""
        at: datetime = self.cleaned_data["at"] or timezone.now().replace(second=0, microsecond=0)
        if at < self.batch.begun_at.replace(second=0, microsecond=0):
            raise forms.ValidationError(gettext("That is before the batch began."))
        return at


class LookForm(_Moment):
    """pH and temperature of the liquor."""

    ph = DecimalField(min_value=2, max_value=14, required=False, label=_("pH now"))
    temp = MeasureField(kind="temp_c", low=0, high=95, required=False, label=_("Temperature"))
    field_order = ("ph", "temp", "at")

    def __init__(self, *args: Any, **options: Any) -> None:
        # Ids of its own: the form of a part stands on the same page.
        super().__init__(*args, auto_id="look_%s", **options)

    def clean(self) -> dict[str, Any]:
        """One of the two."""
        found = super().clean() or {}
        if not self.errors and found.get("ph") is None and found.get("temp") is None:
            raise forms.ValidationError(gettext("Nothing is entered yet: give the pH, the temperature, or both."))
        return found


def amount_field(unit: str, *, most: float, garden: Garden, label: Any) -> MeasureField:
    """An amount in the measure of an alkali."""
    kind: Any = "volume_ml" if unit == "ml" else "mass_g"
    return MeasureField(kind=kind, system=_system(garden), low=0.001, high=most, label=label)


class PartForm(_Moment):
    """A part that went into the tub."""

    ph = DecimalField(min_value=2, max_value=14, required=False, label=_("pH after it"))

    def __init__(self, *args: Any, alkali: Alkali, liquor_l: float, **options: Any) -> None:
        super().__init__(*args, **options)
        unit = alkali_record(alkali).unit
        most = (1000.0 if unit == "ml" else DRY_G_PER_L) * liquor_l
        self.fields["amount"] = amount_field(unit, most=most, garden=self.garden, label=gettext("I added"))
        self.order_fields(["amount", "ph", "at"])


class JarForm(_Moment):
    """A jar titration at its beginning."""

    alkali = forms.ModelChoiceField(queryset=Alkali.objects.none(), label=_("Alkali"), empty_label=None)
    sample = MeasureField(
        kind="volume_ml", low=1, high=100_000, label=_("Liquor in the jar"),
        help_text=_("Half a litre, or a pint, is handy. Measure it well: the dose can be no better."),
    )  # fmt: skip
    temp = MeasureField(kind="temp_c", low=0, high=95, required=False, label=_("Temperature of the jar"))
    ph = DecimalField(
        min_value=2, max_value=14, required=False, label=_("pH before any alkali"),
        help_text=_("Is written down as the pH of the liquor."),
    )  # fmt: skip
    field_order = ("alkali", "sample", "temp", "ph", "at")

    def __init__(self, *args: Any, choices: list[Alkali], **options: Any) -> None:
        super().__init__(*args, **options)
        alkali: Any = self.fields["alkali"]
        alkali.queryset = Alkali.objects.filter(pk__in=[one.pk for one in choices])
        alkali.choices = [(str(one.pk), str(one)) for one in choices]


class StepForm(forms.Form):
    """A step of a jar titration."""

    ph = DecimalField(min_value=0, max_value=14, label=_("pH now"))

    def __init__(self, *args: Any, unit: str, sample_ml: float, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        most = sample_ml if unit == "ml" else DRY_G_PER_L * sample_ml / 1000.0
        self.fields["amount"] = amount_field(unit, most=most, garden=garden, label=gettext("Added now"))
        self.order_fields(["amount", "ph"])


def _system(garden: Garden) -> Any:
    """The garden's units as the database holds them."""
    return garden.system
