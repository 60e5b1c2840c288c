"""What is typed about a pack of something that vats use up."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.utils import timezone
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Supply
from bluewright.journal.models.supply import SUPPLIES
from bluewright.web.ui.typed import DayField, DecimalField, MeasureField, not_a_day_to_come, write_measure

MOST_MONEY: Final = 1e9
MOST_G: Final = 1e6


class SupplyForm(forms.Form):
    """What it is, what the pack held, what was paid and when."""

    kind = forms.ChoiceField(choices=SUPPLIES, label=gettext_lazy("What"))
    pack = MeasureField(
        kind="mass_g", low=0.1, high=MOST_G, bare={"metric": "g", "us": "oz"}, label=gettext_lazy("The pack held")
    )  # fmt: skip
    paid = DecimalField(min_value=0, max_value=MOST_MONEY, label=gettext_lazy("Paid for it"))
    bought_on = DayField(
        label=gettext_lazy("Bought on"), validators=[not_a_day_to_come],
        help_text=gettext_lazy("What went into vats from that day on is taken off it."),
    )  # fmt: skip
    used_up = forms.BooleanField(required=False, label=gettext_lazy("It is used up"))

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **{"initial": {"bought_on": timezone.localdate()}} | options)

    def write(self, row: Supply) -> Supply:
        """The row as the valid form says it."""
        data = self.cleaned_data
        write_measure(self, "pack", row, value="pack_g", typed="pack_typed")
        row.kind, row.pack_money = data["kind"], data["paid"]
        row.bought_on, row.used_up = data["bought_on"], data["used_up"]
        return row


def as_typed(row: Supply) -> dict[str, Any]:
    """A pack as its form shows it again."""
    return {
        "kind": row.kind, "pack": row.pack_typed, "paid": row.pack_money, "bought_on": row.bought_on,
        "used_up": row.used_up,
    }  # fmt: skip
