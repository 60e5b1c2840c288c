"""The swatches of a garden."""

from __future__ import annotations

from uuid import UUID

from django.db.models import QuerySet

from bluewright.journal.models import Garden, Swatch


def swatches(of: Garden) -> QuerySet[Swatch]:
    """All swatches of a garden, each with its jar, the latest measured first."""
    found: QuerySet[Swatch] = Swatch.objects.filter(garden=of).select_related("garden", "jar", "made_by")
    return found


def swatch(key: UUID, *, of: Garden) -> Swatch | None:
    """The swatch of that key in a garden; None if there is none."""
    return swatches(of).filter(pk=key).first()


def of_jar(key: UUID, *, of: Garden) -> QuerySet[Swatch]:
    """What was dyed with, or is of, one jar, the latest first."""
    return swatches(of).filter(jar_id=key)
