"""What one does with photos: add them to a row of the journal, forget those taken out long ago."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Garden, Photo
from bluewright.journal.models.kept import KEPT_AFTER_DELETE
from bluewright.journal.photos import store
from bluewright.journal.photos.kinds import KINDS
from bluewright.journal.photos.preparing import Prepared
from bluewright.science.base.errors import InputError


def add_photos(ready: Sequence[Prepared], *, garden: Garden, kind: str, key: UUID, by: Any) -> list[Photo]:
    """Write photos of a row, all or none: the files first, then the rows; one that is there already is left as it is.

    Raises InputError if the garden has no such row, OSError if the files cannot be written.
    """
    if kind not in KINDS or KINDS[kind].row(key, of=garden) is None:
        raise InputError(
            where="about", what=f"there is no such {kind} in {garden}", right="open it again from its list"
        )
    forget_photos(now=timezone.now())
    added: list[Photo] = []
    try:
        with transaction.atomic():  # the look for what is known stands inside: a second tap waits for the first
            known = set(Photo.objects.filter(about_kind=kind, about_id=key).values_list("sha256", flat=True))
            for one in {one.sha256: one for one in ready if one.sha256 not in known}.values():
                photo = Photo(
                    garden=garden, about_kind=kind, about_id=key, taken_at=one.taken_at or timezone.now(),
                    width_px=one.width_px, height_px=one.height_px, sha256=one.sha256,
                )  # fmt: skip
                store.write(photo, one)
                added.append(photo)
                keep(photo, by=by)
    except BaseException:
        for photo in added:
            store.remove(photo)
        raise
    return added


def forget_photos(*, now: datetime) -> int:
    """Remove for good the files of photos that were taken out more than thirty days ago; returns of how many."""
    old = Photo.everything.filter(deleted_at__lt=now - KEPT_AFTER_DELETE, shown_bytes__gt=0)
    for photo in old:
        store.remove(photo)
        Photo.everything.filter(pk=photo.pk).update(shown_bytes=0, thumb_bytes=0, original_bytes=0)
    return len(old)
