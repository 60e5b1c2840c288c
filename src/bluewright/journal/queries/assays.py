"""Assays of jars, in a fixed number of statements."""

from __future__ import annotations

from uuid import UUID

from bluewright.journal.models import Assay, Garden
from bluewright.journal.queries import jars


def assay(row: UUID, *, of: Garden) -> Assay | None:
    """One assay of a garden, its jar whole; None if there is none of that key, or its jar was taken out."""
    found: Assay | None = Assay.objects.filter(pk=row, jar__garden=of, jar__deleted_at=None).first()
    whole = jars.jar(found.jar_id, of=of) if found is not None else None
    if found is None or whole is None:
        return None
    found.jar = whole
    return found


def last_of(method: str, *, of: Garden) -> Assay | None:
    """The latest assay by a method in a garden: what was typed there of standards may be typed again."""
    found: Assay | None = (
        Assay.objects.filter(method=method, jar__garden=of, jar__deleted_at=None).order_by("-assayed_at").first()
    )
    return found
