"""What one does with an assay: write it, take it out, bring it back; what is known of its jar changes with it."""

from __future__ import annotations

from typing import Any

from django.db import transaction
from django.utils import timezone

from bluewright.journal.actions import keeping
from bluewright.journal.models import Assay, Jar


def keep(assay: Assay, *, by: Any) -> Assay:
    """Write a new or corrected assay."""
    with transaction.atomic():
        keeping.keep(assay, by=by)
        _known_anew(assay, by=by)
    return assay


def delete(assay: Assay, *, by: Any) -> None:
    """Take an assay out of sight."""
    with transaction.atomic():
        keeping.delete(assay, by=by)
        _known_anew(assay, by=by)


def restore(assay: Assay, *, by: Any) -> bool:
    """Bring an assay back; returns whether it was still there to be brought back."""
    with transaction.atomic():
        back = keeping.restore(assay, by=by)
        if back:
            _known_anew(assay, by=by)
    return back


def _known_anew(assay: Assay, *, by: Any) -> None:
    """What was reckoned of the jar before holds no more: stock and book ask for it again."""
    Jar.everything.filter(pk=assay.jar_id).update(changed_at=timezone.now(), changed_by=by)
