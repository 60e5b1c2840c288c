"""What is typed about work and prices."""

from __future__ import annotations

from typing import Any, Final
from uuid import UUID
from zoneinfo import ZoneInfo

from django import forms
from django.http import QueryDict
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Garden, Steep, WorkNote
from bluewright.journal.models.work import KINDS
from bluewright.journal.queries import work
from bluewright.science.base.units import US_GALLON_L
from bluewright.web.ui.typed import (
    DecimalField,
    MeasureField,
    MomentField,
    not_to_come,
    shown_moment,
    write_measure,
    write_moment,
)
from bluewright.words.numbers import weekday

MOST_MONEY: Final = 1_000_000_000
MOST_MIN: Final = 24 * 60.0
GALLONS: Final = 1000
GROUPS: Final = {
    "batch": gettext_lazy("batches"), "tub": gettext_lazy("tubs"), "bed": gettext_lazy("beds"),
    "vat": gettext_lazy("vats"), "piece": gettext_lazy("cloth"),
}  # fmt: skip
OF: Final = {what: f"{column}_id" for what, (_model, column, _by) in work.ABOUT.items()}
"""What stands before a key in the field `about`, and its column."""


def _told(row: Any, zone: ZoneInfo) -> str:
    """What a row is called: tubs are named alike, and told apart by the day on which they began."""
    if not isinstance(row, Steep):
        return str(row.name)
    return _("%(tub)s, begun %(when)s") % {"tub": row.name, "when": weekday(row.started_at.astimezone(zone))}


class StartForm(forms.Form):
    """Work that begins now: its kind, and for what."""

    kind = forms.ChoiceField(choices=KINDS, label=gettext_lazy("What work"))
    about = forms.ChoiceField(required=False, label=gettext_lazy("For what"))

    def __init__(self, *args: Any, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        self.garden = garden
        zone = ZoneInfo(garden.time_zone)
        offered = {
            what: [(f"{what}:{row.pk}", _told(row, zone)) for row in rows]
            for what, rows in work.choices(garden).items()
        }
        about: Any = self.fields["about"]
        groups = [(GROUPS[what], rows) for what, rows in offered.items() if rows]
        about.choices = [("", _("for the whole season")), *groups]
        chosen = str((self.data if self.is_bound else self.initial).get("about") or "")
        listed = {value for rows in offered.values() for value, _name in rows}
        older = "" if not chosen or chosen in listed else work.named(garden, chosen)
        if older:
            about.choices = [*about.choices, (chosen, older)]

    def write_about(self, row: WorkNote) -> WorkNote:
        """The row with the kind of work, and what it was for, of the valid form."""
        what, _colon, key = self.cleaned_data["about"].partition(":")
        row.kind = self.cleaned_data["kind"]
        for name, column in OF.items():
            setattr(row, column, UUID(key) if name == what else None)
        return row

    def row(self) -> WorkNote:
        """The note of the valid form, its clock running from now."""
        return self.write_about(WorkNote(garden=self.garden, began_at=timezone.now()))


class NoteForm(StartForm):
    """Work that is done."""

    spent = MeasureField(
        kind="time_min", low=1, high=MOST_MIN, label=gettext_lazy("How long"),
        help_text=gettext_lazy("40 min or 1 h 30 min, of one person; for two together, both."),
    )  # fmt: skip
    began_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])

    field_order = ("kind", "spent", "about", "began_at")

    def row(self) -> WorkNote:
        """The note of the valid form."""
        made, data = super().row(), self.cleaned_data
        made.began_at, made.spent_min, made.spent_typed = data["began_at"], data["spent"].value, data["spent"].typed
        return made

    def corrected(self, row: WorkNote) -> WorkNote:
        """A note as the valid form says it; what stayed as it was is left alone."""
        write_measure(self, "spent", row, value="spent_min", typed="spent_typed")
        write_moment(self, "began_at", row)
        return self.write_about(row)


def as_typed(row: WorkNote) -> dict[str, Any]:
    """A note as its form shows it again."""
    keys = {name: getattr(row, column) for name, column in OF.items()}
    about = next((f"{name}:{key}" for name, key in keys.items() if key), "")
    spent = row.spent_typed or f"{row.spent_min or 0.0:g} min"
    return {"kind": row.kind, "about": about, "spent": spent, "began_at": shown_moment(row.began_at)}


class PricesForm(forms.Form):
    """What the garden's work and water cost, and what is asked for the blue."""

    currency = forms.CharField(
        max_length=8, required=False, label=gettext_lazy("Your money is called"),
        help_text=gettext_lazy("EUR, £, kr: as it is to be printed. Nothing is exchanged."),
    )  # fmt: skip
    money_decimals = forms.TypedChoiceField(
        choices=[("2", gettext_lazy("2, as cents")), ("0", gettext_lazy("none, as yen")), ("3", "3")], coerce=int,
        label=gettext_lazy("Its decimals"),
    )  # fmt: skip
    wage = DecimalField(
        min_value=0, max_value=MOST_MONEY, required=False, label=gettext_lazy("An hour of work is to be paid"),
        help_text=gettext_lazy("Left out: hours are told, and not counted as money."),
    )  # fmt: skip
    water = DecimalField(min_value=0, max_value=MOST_MONEY, required=False)
    price = DecimalField(
        min_value=0, max_value=MOST_MONEY, required=False, label=gettext_lazy("You ask for a gram of pure blue"),
        help_text=gettext_lazy("For powder that is a third indigo: three times what a gram of it costs."),
    )  # fmt: skip
    margin = DecimalField(
        min_value=0, max_value=95, required=False, label=gettext_lazy("Of a price to be left over, per cent")
    )
    allowance = DecimalField(
        min_value=0, max_value=95, required=False, label=gettext_lazy("Of the blue never sold, per cent"),
        help_text=gettext_lazy("Spilt, given as swatches, kept back: usual are 5 to 15."),
    )  # fmt: skip

    def __init__(self, typed: QueryDict | None = None, *, garden: Garden) -> None:
        self.garden = garden
        self.per_m3 = 1000 / (GALLONS * US_GALLON_L.value) if garden.system == "us" else 1.0
        super().__init__(typed, initial=self._as_kept())
        self.fields["water"].label = (
            _("A thousand gallons of water cost") if garden.system == "us" else _("A cubic metre of water costs")
        )

    def write(self) -> Garden:
        """The garden as the valid form says it."""
        data, row = self.cleaned_data, self.garden
        row.currency, row.money_decimals = data["currency"], data["money_decimals"]
        row.wage_money_per_h, row.price_money_per_g = data["wage"], data["price"]
        row.water_money_per_m3 = None if data["water"] is None else data["water"] * self.per_m3
        row.margin_frac, row.allowance_frac = (data["margin"] or 0.0) / 100, (data["allowance"] or 0.0) / 100
        return row

    def _as_kept(self) -> dict[str, Any]:
        row = self.garden
        water = row.water_money_per_m3
        return {
            "currency": row.currency, "money_decimals": str(row.money_decimals), "wage": row.wage_money_per_h,
            "water": None if water is None else round(water / self.per_m3, 6), "price": row.price_money_per_g,
            "margin": round(100 * row.margin_frac, 6), "allowance": round(100 * row.allowance_frac, 6),
        }  # fmt: skip
