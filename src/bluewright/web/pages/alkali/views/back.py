"""The way back from each mistake: a row out of sight, and in again."""

from __future__ import annotations

from typing import Final

from django.contrib import messages
from django.http import HttpRequest
from django.utils.translation import gettext_lazy as _

from bluewright.journal.actions import keeping
from bluewright.journal.models import Kept

TOO_LATE: Final = _("That was taken out more than thirty days ago and cannot be brought back.")


def take_out(request: HttpRequest, row: Kept, *, undo: str) -> None:
    """Take a row out of sight, and offer the way back."""
    keeping.delete(row, by=request.user)
    messages.info(request, _("Taken out."), extra_tags=undo)


def bring_back(request: HttpRequest, row: Kept) -> None:
    """Bring a row back, or say that it is too late."""
    if keeping.restore(row, by=request.user):
        messages.success(request, _("Brought back."))
    elif row.deleted_at is not None:
        messages.warning(request, TOO_LATE)
