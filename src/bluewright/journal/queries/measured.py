"""Measured photos and looks at jars, with all that their pages need, in a fixed number of statements."""

from __future__ import annotations

from uuid import UUID

from django.db.models import QuerySet

from bluewright.journal.models import Batch, Garden, JarLook, Measured, Photo, Steep


def measured(of: Garden) -> QuerySet[Measured]:
    """What was measured in photos that stand, the newest first; looks at jars are not among them."""
    return _standing(of).filter(jar_looks=None)


def one(key: UUID, *, of: Garden) -> Measured | None:
    """One measurement of a garden; None if there is none of that key, or its photo is taken out."""
    return _standing(of).filter(pk=key).first()


def of_photo(photo: Photo) -> list[Measured]:
    """What was measured in one photo, the newest first."""
    return list(Measured.objects.filter(photo=photo, jar_looks=None).select_related("photo"))


def jar_looks(of: Steep | Batch) -> list[JarLook]:
    """The looks at jars of a tub or a batch, in order of time."""
    mine = JarLook.objects.filter(steep=of) if isinstance(of, Steep) else JarLook.objects.filter(batch=of)
    return list(mine.select_related("measured__photo", "reading", "liquor_look", "made_by").order_by("seen_at"))


def _standing(of: Garden) -> QuerySet[Measured]:
    found: QuerySet[Measured] = Measured.objects.filter(photo__garden=of, photo__deleted_at=None)
    return found.select_related("photo", "made_by", "card")
