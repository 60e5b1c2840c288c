"""Pieces of cloth with their dips, swatches and home tests, in a fixed number of statements."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any, Final, Literal
from uuid import UUID

from django.db.models import Exists, OuterRef, Prefetch, Q, QuerySet

from bluewright.journal.models import Dip, Garden, HomeTest, Piece, Swatch, Vat

Stage = Literal["begun", "scoured", "in_vat", "airing", "dipped", "finished"]
"""How far a piece is: in the book, clean, in a vat now, out of it with dips to come, with none to come, done."""
TOGETHER: Final = timedelta(days=1)
"""Pieces that were in a vat within a day of each other are dyed in it together."""
RUBS: Final = ("dry_rub", "wet_rub")


def pieces(of: Garden) -> QuerySet[Piece]:
    """The pieces of a garden, the newest first, each with its dips and their vats, its swatches and home tests."""
    return _whole(Piece.objects.filter(garden=of))


def piece(key: UUID, *, of: Garden) -> Piece | None:
    """The piece of that key in a garden; None if there is none."""
    return pieces(of).filter(pk=key).first()


def last_scale(of: Garden) -> float | None:
    """How good the scale is that a piece was weighed on last; None where nobody said."""
    told = Piece.objects.filter(garden=of, scale_sd_g__isnull=False).order_by("-begun_at")
    return told.values_list("scale_sd_g", flat=True).first()


def in_vat(vat: Vat, *, but: Piece, now: datetime) -> list[Piece]:
    """Other pieces that are dyed in a vat about now and are not finished, by name."""
    lately = Dip.objects.filter(piece=OuterRef("pk"), vat=vat, began_at__gte=now - TOGETHER)
    rows = Piece.objects.filter(Exists(lately), garden=but.garden, finished_at=None).exclude(pk=but.pk)
    return list(_whole(rows).order_by("name"))


def at_work(of: Garden, *, since: datetime) -> QuerySet[Piece]:
    """Pieces that want something: dipped and not finished, or finished after `since` and not rubbed yet."""
    dipped = Dip.objects.filter(piece=OuterRef("pk"))
    rubbed = HomeTest.objects.filter(piece=OuterRef("pk"), kind__in=RUBS)
    open_ones = Q(Exists(dipped), finished_at=None) | Q(~Exists(rubbed), finished_at__gte=since)
    return _whole(Piece.objects.filter(open_ones, garden=of))


def undyed(of: Garden) -> QuerySet[Piece]:
    """Pieces that were in no vat yet and are not finished, the newest first."""
    dipped = Dip.objects.filter(piece=OuterRef("pk"))
    return Piece.objects.filter(~Exists(dipped), garden=of, finished_at=None).select_related("garden")


def vats(of: Garden, *, also: UUID | None = None) -> QuerySet[Vat]:
    """Vats that stand, the newest first, and the one that is named."""
    found: QuerySet[Vat] = Vat.objects.filter(Q(ended_at=None) | Q(pk=also), garden=of)
    return found


def dips_of(row: Piece) -> list[Dip]:
    """Its dips, the first one first."""
    return list(row.dips.all())


def open_dip(row: Piece) -> Dip | None:
    """The dip that it is in now."""
    return next((dip for dip in dips_of(row) if dip.ended_at is None), None)


def came_out_at(row: Piece) -> datetime | None:
    """When it last came out of a vat; None while it is in one, and before its first."""
    ended = [dip.ended_at for dip in dips_of(row)]
    told = [moment for moment in ended if moment is not None]
    return max(told) if told and None not in ended else None


def stage_of(row: Piece) -> Stage:
    """How far it is."""
    if row.finished_at is not None:
        return "finished"
    done = dips_of(row)
    if open_dip(row) is not None:
        return "in_vat"
    if done:
        return "dipped" if row.wanted_dips is not None and len(done) >= row.wanted_dips else "airing"
    return "scoured" if row.scour else "begun"


def _whole(rows: QuerySet[Piece]) -> QuerySet[Any]:
    dips = Dip.objects.select_related("vat").order_by("began_at")
    swatches = Swatch.objects.order_by("-measured_at", "-made_at")
    return rows.select_related("garden", "made_by").prefetch_related(
        Prefetch("dips", queryset=dips), Prefetch("swatches", queryset=swatches), "home_tests"
    )
