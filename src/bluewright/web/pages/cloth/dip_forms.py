"""What a tap on the timer sends, and what is typed of a dip afterwards."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any, Final

from django import forms
from django.utils import timezone
from django.utils.translation import gettext_lazy

from bluewright.journal.actions.dips import check
from bluewright.journal.models import Dip, Garden, Piece, Vat
from bluewright.journal.queries import pieces
from bluewright.science.base.errors import InputError
from bluewright.web.ui.typed import MomentField, not_to_come, shown_moment, write_moment
from bluewright.words.numbers import sentence

LATE: Final = timedelta(days=30)
"""A tap that was kept for longer than this is not believed."""
MOST_MS: Final = 4e12


class TapForm(forms.Form):
    """A tap. A browser that kept it says when it was and when it is now, both by its own clock."""

    dip = forms.UUIDField()
    tapped_ms = forms.FloatField(required=False, min_value=0, max_value=MOST_MS)
    sent_ms = forms.FloatField(required=False, min_value=0, max_value=MOST_MS)

    def moment(self) -> datetime:
        """When it was, by the clock of this machine: whether the browser's clock is right does not matter."""
        now, told = timezone.now(), self.cleaned_data
        if told["tapped_ms"] is None or told["sent_ms"] is None:
            return now
        return now - timedelta(milliseconds=told["sent_ms"] - told["tapped_ms"])

    def clean(self) -> dict[str, Any]:
        """What was tapped was tapped before it was sent, and not long ago."""
        found = super().clean() or {}
        tapped, sent = found.get("tapped_ms"), found.get("sent_ms")
        if tapped is not None and sent is not None and not 0 <= sent - tapped <= LATE / timedelta(milliseconds=1):
            raise forms.ValidationError(gettext_lazy("The clock of this browser was turned: type the dip instead."))
        return found


class InForm(TapForm):
    """Into a vat."""

    vat = forms.ModelChoiceField(queryset=Vat.objects.none())

    def __init__(self, *args: Any, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        vat: Any = self.fields["vat"]
        vat.queryset = Vat.objects.filter(garden=garden)


class DipForm(forms.Form):
    """A dip, typed."""

    vat = forms.ChoiceField(label=gettext_lazy("Vat"))
    began_at = MomentField(label=gettext_lazy("In"), validators=[not_to_come])
    ended_at = MomentField(
        required=False, label=gettext_lazy("Out"), validators=[not_to_come],
        help_text=gettext_lazy("Left out: it is in the vat now."),
    )  # fmt: skip
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, piece: Piece, row: Dip, **options: Any) -> None:
        super().__init__(*args, **options)
        self.row = row
        found = pieces.vats(piece.garden, also=row.vat_id if row.pk and row.vat_id else None)
        self.vats = {str(vat.pk): vat for vat in found}
        vat: Any = self.fields["vat"]
        vat.choices = [(key, one.name) for key, one in self.vats.items()]

    def clean(self) -> dict[str, Any]:
        """The dip is one that can have been."""
        found = super().clean() or {}
        if not self.errors:
            try:
                check(self.written())
            except InputError as error:
                self.add_error(error.where, f"{sentence(error.what)}: {error.right}.")
        return found

    def written(self) -> Dip:
        """The dip as it is typed."""
        self.row.vat, self.row.note = self.vats[self.cleaned_data["vat"]], self.cleaned_data["note"]
        write_moment(self, "began_at", self.row)
        if "ended_at" in self.changed_data:
            self.row.ended_at = self.cleaned_data["ended_at"]
        return self.row


def dip_as_typed(row: Dip) -> dict[str, Any]:
    """A dip as its form shows it again."""
    ended = None if row.ended_at is None else shown_moment(row.ended_at)
    return {"vat": str(row.vat_id), "began_at": shown_moment(row.began_at), "ended_at": ended, "note": row.note}
