"""Files of loggers that were brought in, and how files like them were read."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.db.models import QuerySet

from bluewright.journal.models import Garden, Intake


def intakes(of: Garden) -> QuerySet[Intake]:
    """The intakes of a garden, the newest first, each with its tub and who brought it."""
    return Intake.objects.filter(garden=of).select_related("garden", "steep", "made_by")


def intake(key: UUID, *, of: Garden) -> Intake | None:
    """One intake of a garden; None if there is none of that key."""
    return intakes(of).filter(pk=key).first()


def read_last(signature: str, *, of: Garden) -> dict[str, Any] | None:
    """How the last file with such a head was read in this garden, also if it was taken out again since."""
    found: dict[str, Any] | None = (
        Intake.everything.filter(garden=of, signature=signature)
        .order_by("-made_at")
        .values_list("columns", flat=True)
        .first()
    )
    return found
