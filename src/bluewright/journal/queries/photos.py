"""Photos of many things in one statement."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID

from bluewright.journal.models import Garden, Photo

ByThing = dict[UUID, list[Photo]]
"""Photos by the key of what they are of, the oldest first."""


def of_kind(kind: str, *, of: Garden) -> ByThing:
    """All photos of a garden that are of one kind of thing."""
    return _by_thing(Photo.objects.filter(garden=of, about_kind=kind))


def of_things(keys: Iterable[UUID], *, of: Garden) -> ByThing:
    """The photos of the things with these keys."""
    return _by_thing(Photo.objects.filter(garden=of, about_id__in=list(keys)))


def photo(key: UUID, *, of: Garden) -> Photo | None:
    """The photo of that key in a garden; None if there is none."""
    found: Photo | None = Photo.objects.filter(garden=of, pk=key).first()
    return found


def by_bytes(sha256: str, *, of_thing: UUID, of: Garden) -> Photo | None:
    """The photo of a thing that was sent as these bytes; None if there is none."""
    found: Photo | None = Photo.objects.filter(garden=of, about_id=of_thing, sha256=sha256).first()
    return found


def _by_thing(photos: Iterable[Photo]) -> ByThing:
    found: ByThing = {}
    for one in photos:
        found.setdefault(one.about_id, []).append(one)
    return found
