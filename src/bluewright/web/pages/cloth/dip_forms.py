"""What a tap on a piece's timer says beside its moment, and what is typed of a dip."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Dip, Garden, Piece, Vat
from bluewright.journal.queries import pieces
from bluewright.web.ui.taps import TapForm
from bluewright.web.ui.typed_dip import TypedDip, moments_as_typed


class InForm(TapForm):
    """Into a vat."""

    vat = forms.ModelChoiceField(queryset=Vat.objects.none())

    def __init__(self, *args: Any, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        vat: Any = self.fields["vat"]
        vat.queryset = Vat.objects.filter(garden=garden)


class DipForm(TypedDip):
    """A dip, typed."""

    vat = forms.ChoiceField(label=gettext_lazy("Vat"))
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    field_order = ("vat", "began_at", "ended_at", "note")

    def __init__(self, *args: Any, piece: Piece, row: Dip, **options: Any) -> None:
        super().__init__(*args, row=row, **options)
        found = pieces.vats(piece.garden, also=row.vat_id if row.pk and row.vat_id else None)
        self.vats = {str(vat.pk): vat for vat in found}
        vat: Any = self.fields["vat"]
        vat.choices = [(key, one.name) for key, one in self.vats.items()]

    def written(self) -> Dip:
        """The dip as it is typed."""
        row: Dip = super().written()
        row.vat, row.note = self.vats[self.cleaned_data["vat"]], self.cleaned_data["note"]
        return row


def dip_as_typed(row: Dip) -> dict[str, Any]:
    """A dip as its form shows it again."""
    return moments_as_typed(row) | {"vat": str(row.vat_id), "note": row.note}
