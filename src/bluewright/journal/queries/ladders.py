"""Ladders of dips with their strips, in a fixed number of statements."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID

from django.db.models import QuerySet

from bluewright.journal.models import Garden, Ladder, LadderDip, LadderRung, Measured, Swatch, Vat
from bluewright.journal.queries.swatches import measured_for


def ladders(of: Garden) -> QuerySet[Ladder]:
    """The ladders of a garden, the newest first, with strips, their swatches, and dips."""
    found: QuerySet[Ladder] = Ladder.objects.filter(garden=of)
    return found.select_related("garden", "vat", "made_by").prefetch_related("rungs__swatch", "dips")


def ladder(key: UUID, *, of: Garden) -> Ladder | None:
    """The ladder of that key in a garden; None if there is none."""
    return ladders(of).filter(pk=key).first()


def done(of: Garden, *, fibre: str) -> list[Ladder]:
    """The ladders of a fibre that are done, in the order in which they were."""
    return list(ladders(of).filter(fibre=fibre, done_at__isnull=False).order_by("done_at", "pk"))


def vats_at_hand(of: Garden) -> list[Vat]:
    """The vats that stand, the newest first."""
    return list(Vat.objects.filter(garden=of, ended_at=None).select_related("garden"))


def measured_in(row: Ladder) -> list[Measured]:
    """What was measured in the photos of a ladder, the newest first."""
    photos = {"photo__about_kind": "ladder", "photo__about_id": row.pk, "photo__deleted_at": None}
    return list(Measured.objects.filter(**photos).select_related("photo"))


def measured_of(rows: Iterable[Ladder]) -> dict[UUID, Measured]:
    """What the colours of the strips of these ladders were measured as."""
    return measured_for(*(one for row in rows for rung in row.rungs.all() if (one := swatch_of(rung)) is not None))


def swatch_of(rung: LadderRung) -> Swatch | None:
    """The swatch of a strip, as long as it stands."""
    return rung.swatch if rung.swatch is not None and rung.swatch.deleted_at is None else None


def is_measured(rung: LadderRung) -> bool:
    """Whether anything is known of a strip that was dyed: its colour, its depth or its gain."""
    weighed = rung.before_g is not None and rung.after_g is not None
    return swatch_of(rung) is not None or rung.l_star is not None or rung.k_over_s is not None or weighed


def dips_done(row: Ladder) -> list[LadderDip]:
    """The dips that are over, in order."""
    return [dip for dip in row.dips.all() if dip.ended_at is not None]


def open_dip(row: Ladder) -> LadderDip | None:
    """The dip that its strips are in now."""
    return next((dip for dip in row.dips.all() if dip.ended_at is None), None)
