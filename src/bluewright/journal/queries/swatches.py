"""The swatches of a garden."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final
from uuid import UUID

from django.db.models import QuerySet

from bluewright.journal.models import Garden, Measured, Swatch

MOST_CHOICES: Final = 100


def swatches(of: Garden) -> QuerySet[Swatch]:
    """All swatches of a garden, each with its jar, the latest measured first."""
    found: QuerySet[Swatch] = Swatch.objects.filter(garden=of).select_related("garden", "jar", "piece", "made_by")
    return found


def of_cloth(of: Garden, *, also: UUID | None = None) -> list[Swatch]:
    """Swatches of dyed cloth to choose from: the latest measured, and the one that is named."""
    found = list(swatches(of).filter(of="cloth")[:MOST_CHOICES])
    if also is not None and all(one.pk != also for one in found):
        found += swatches(of).filter(pk=also)
    return found


def swatch(key: UUID, *, of: Garden) -> Swatch | None:
    """The swatch of that key in a garden; None if there is none."""
    return swatches(of).filter(pk=key).first()


def these(of: Garden, keys: Iterable[UUID | None]) -> list[Swatch]:
    """The swatches of those keys that stand in a garden."""
    return list(swatches(of).filter(pk__in=[key for key in keys if key is not None]))


def measured_for(*rows: Swatch) -> dict[UUID, Measured]:
    """What these swatches' colours were measured as, by key; only what still stands, with its photo."""
    keys = [row.measured_key for row in rows if row.measured_key is not None]
    standing = Measured.objects.filter(pk__in=keys, photo__deleted_at=None).select_related("photo")
    return {found.pk: found for found in standing} if keys else {}
