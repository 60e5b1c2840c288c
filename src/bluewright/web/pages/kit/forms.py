"""What is typed about a thing of the kit."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import KitItem
from bluewright.web.ui.typed import DecimalField

MOST_MONEY: Final = 1e9


class KitForm(forms.Form):
    """What it is, what was paid, how long it lasts."""

    name = forms.CharField(max_length=80, label=gettext_lazy("What"))
    paid = DecimalField(min_value=0, max_value=MOST_MONEY, label=gettext_lazy("Paid for it"))
    lasts_years = forms.IntegerField(
        min_value=1, max_value=100, required=False, label=gettext_lazy("Years that it will last")
    )
    lasts_batches = forms.IntegerField(
        min_value=1, max_value=100_000, required=False, label=gettext_lazy("Or: batches that it will last"),
        help_text=gettext_lazy("One of the two, your best guess."),
    )  # fmt: skip
    left = DecimalField(
        min_value=0, max_value=MOST_MONEY, required=False, label=gettext_lazy("What it is worth then"),
        help_text=gettext_lazy("Left empty: nothing."),
    )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        """Years or batches, one of them; worth no more in the end than was paid."""
        found = super().clean() or {}
        if (found.get("lasts_years") is None) == (found.get("lasts_batches") is None):
            self.add_error("lasts_batches", _("Give years or batches, one of the two."))
        if (found.get("left") or 0.0) > found.get("paid", MOST_MONEY):
            self.add_error("left", _("It is more than was paid."))
        return found

    def write(self, row: KitItem) -> KitItem:
        """The row as the valid form says it."""
        data = self.cleaned_data
        row.name, row.paid_money, row.left_money = data["name"], data["paid"], data["left"] or 0.0
        row.lasts_years, row.lasts_batches = data["lasts_years"], data["lasts_batches"]
        return row


def as_typed(row: KitItem) -> dict[str, Any]:
    """A thing as its form shows it again."""
    return {
        "name": row.name, "paid": row.paid_money, "left": row.left_money or None, "lasts_years": row.lasts_years,
        "lasts_batches": row.lasts_batches,
    }  # fmt: skip
