"""What every write shares: who and when, the state before, and the way back."""

from __future__ import annotations

from datetime import datetime
from typing import Any, Final, TypeVar

from django.db import transaction
from django.utils import timezone

from bluewright.journal.models import Change, Kept
from bluewright.journal.models.kept import KEPT_AFTER_DELETE, as_plain

K = TypeVar("K", bound=Kept)
STAMPS: Final = ("made_at", "made_by_id", "changed_at", "changed_by_id")


def keep(row: K, *, by: Any, beside: dict[str, Any] | None = None) -> K:
    """Write a new or changed row, with who and when; what it was before is kept as a change.

    `beside` is what was changed of the rows that hang on it (the beds of a picking), as it was before, in plain
    values.
    """
    now = timezone.now()
    with transaction.atomic():
        old = type(row).everything.filter(pk=row.pk).first()
        if old is None:
            row.made_at, row.made_by = now, by
        else:
            row._state.adding, row.made_at, row.made_by = False, old.made_at, old.made_by
            _note(old, verb="change", by=by, at=now, beside=beside)
        row.changed_at, row.changed_by = now, by
        row.save()
    return row


def correct(row: K, *, by: Any, beside: dict[str, Any] | None = None) -> K:
    """Write a corrected row as `keep` does; if nothing of it or beside it was changed, leave it as it is."""
    with transaction.atomic():
        old = type(row).everything.get(pk=row.pk)
        if not beside and _columns(old) == _columns(row):
            return row
        return keep(row, by=by, beside=beside)


def delete(row: Kept, *, by: Any) -> None:
    """Take a row out of sight; it can be brought back for thirty days."""
    now = timezone.now()
    with transaction.atomic():
        _note(row, verb="delete", by=by, at=now)
        row.deleted_at, row.changed_at, row.changed_by = now, now, by
        row.save(update_fields=["deleted_at", "changed_at", "changed_by"])


def restore(row: Kept, *, by: Any) -> bool:
    """Bring a deleted row back; returns whether it was still there to be brought back."""
    now = timezone.now()
    if row.deleted_at is None or now - row.deleted_at > KEPT_AFTER_DELETE:
        return False
    with transaction.atomic():
        _note(row, verb="restore", by=by, at=now)
        row.deleted_at, row.changed_at, row.changed_by = None, now, by
        row.save(update_fields=["deleted_at", "changed_at", "changed_by"])
    return True


def _columns(row: Kept) -> dict[str, Any]:
    return {f.attname: getattr(row, f.attname) for f in row._meta.concrete_fields if f.attname not in STAMPS}


def _note(row: Kept, *, verb: str, by: Any, at: datetime, beside: dict[str, Any] | None = None) -> None:
    before = as_plain(row) | (beside or {})
    Change.objects.create(kind=type(row).__name__.lower(), row_id=row.pk, verb=verb, before=before, at=at, by=by)
