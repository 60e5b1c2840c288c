"""What one does at a vat: a piece goes in, comes out, and goes back in where it came out by mistake."""

from __future__ import annotations

from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction
from django.utils.translation import gettext as _

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Dip, Piece, Vat
from bluewright.science.base.errors import InputError


def put_in(piece: Piece, vat: Vat, *, key: UUID, at: datetime, by: Any) -> Dip:
    """A piece goes into a vat. The same key sent twice is one dip: the first word counts.

    Raises InputError where it is in a vat already, was then, or the vat did not stand then.
    """
    with transaction.atomic():
        known: Dip | None = Dip.everything.filter(pk=key).first()
        if known is not None and known.piece_id == piece.pk:
            return known
        if known is not None:
            raise InputError(where="dip", what=_("this key is another piece's"), right=_("open the page again"))
        row = Dip(pk=key, piece=piece, vat=vat, began_at=at)
        check(row)
        return keep(row, by=by)


def take_out(dip: Dip, *, at: datetime, by: Any) -> Dip:
    """It comes out. Of what is sent twice the first word counts. Raises InputError where that is before it went in."""
    with transaction.atomic():
        row: Dip = Dip.objects.select_related("vat", "piece").get(pk=dip.pk)
        if row.ended_at is not None:
            return row
        row.ended_at = at
        check(row)
        return keep(row, by=by)


def back_in(dip: Dip, *, by: Any) -> Dip:
    """It did not come out after all. Raises InputError where it has gone into a vat again since."""
    with transaction.atomic():
        row: Dip = Dip.objects.select_related("vat", "piece").get(pk=dip.pk)
        row.ended_at = None
        check(row)
        return keep(row, by=by)


def check(dip: Dip) -> None:
    """Raises InputError for a dip that cannot have been: out before in, two at once, in a vat that did not stand."""
    if dip.ended_at is not None and dip.ended_at < dip.began_at:
        raise InputError(where="ended_at", what=_("it came out before it went in"), right=_("give a later moment"))
    if dip.began_at < dip.vat.started_at or (dip.vat.ended_at is not None and dip.began_at > dip.vat.ended_at):
        raise InputError(
            where="began_at", what=_("%(vat)s did not stand then") % {"vat": dip.vat},
            right=_("correct the moment, or choose another vat"),
        )  # fmt: skip
    for other in Dip.objects.filter(piece=dip.piece_id).exclude(pk=dip.pk):
        after = other.ended_at is not None and other.ended_at <= dip.began_at
        before = dip.ended_at is not None and dip.ended_at <= other.began_at
        if not after and not before:
            raise InputError(
                where="began_at", what=_("the piece was in a vat then already"), right=_("correct the other dip first")
            )
