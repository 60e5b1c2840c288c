"""A dip that is typed: when it went in, when it came out."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from bluewright.journal.actions.dips import check
from bluewright.journal.models import Dip, LadderDip
from bluewright.science.base.errors import InputError
from bluewright.web.ui.taps import why_not
from bluewright.web.ui.typed import MomentField, not_to_come, shown_moment, write_moment


class TypedDip(forms.Form):
    """The moments of a dip, of a piece or of a ladder."""

    began_at = MomentField(label=gettext_lazy("In"), validators=[not_to_come])
    ended_at = MomentField(
        required=False, label=gettext_lazy("Out"), validators=[not_to_come],
        help_text=gettext_lazy("Left out: it is in the vat now."),
    )  # fmt: skip

    def __init__(self, *args: Any, row: Dip | LadderDip, **options: Any) -> None:
        super().__init__(*args, **options)
        self.row = row

    def clean(self) -> dict[str, Any]:
        """The dip is one that can have been."""
        found = super().clean() or {}
        if not self.errors:
            try:
                check(self.written())
            except InputError as error:
                self.add_error(error.where, why_not(error))
        return found

    def written(self) -> Any:
        """The dip as it is typed."""
        write_moment(self, "began_at", self.row)
        if "ended_at" in self.changed_data:
            self.row.ended_at = self.cleaned_data["ended_at"]
        return self.row


def moments_as_typed(row: Dip | LadderDip) -> dict[str, Any]:
    """The moments of a dip as its form shows them again."""
    ended = None if row.ended_at is None else shown_moment(row.ended_at)
    return {"began_at": shown_moment(row.began_at), "ended_at": ended}
