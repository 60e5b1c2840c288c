"""What one does while airing: count pours and minutes."""

from __future__ import annotations

from typing import Any

from django.db import transaction

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Airing


def count(airing: Airing, *, pours: int | None, minutes: float | None, lower: bool, by: Any) -> Airing:
    """Write how many pours and minutes an airing has had in all; what is None stays as it is.

    The same totals sent twice are one entry, and totals that come late never count anything back, unless `lower` says
    that the smaller number is meant. Returns the row as it stands.
    """
    with transaction.atomic():
        row: Airing = Airing.objects.get(pk=airing.pk)
        new_pours = _total(row.done_pours, pours, lower=lower)
        new_min = _total(row.done_min, minutes, lower=lower)
        if (new_pours, new_min) != (row.done_pours, row.done_min):
            row.done_pours = None if new_pours is None else int(new_pours)
            row.done_min = new_min
            keep(row, by=by)
    return row


def _total(kept: float | None, sent: float | None, *, lower: bool) -> float | None:
    if sent is None or kept is None or lower:
        return kept if sent is None else sent
    return max(kept, sent)
