"""What one does at a vat: a piece or the strips of a ladder go in, come out, and go back in after a slip."""

from __future__ import annotations

from datetime import datetime
from typing import Any, TypeVar
from uuid import UUID

from django.db import transaction
from django.utils.translation import gettext as _

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Dip, Ladder, LadderDip, Piece, Vat
from bluewright.science.base.errors import InputError

D = TypeVar("D", Dip, LadderDip)


def put_in(piece: Piece, vat: Vat, *, key: UUID, at: datetime, by: Any) -> Dip:
    """A piece goes into a vat. The same key sent twice is one dip: the first word counts.

    Raises InputError where it is in a vat already, was then, or the vat did not stand then.
    """
    return _begun(Dip(pk=key, piece=piece, vat=vat, began_at=at), by=by)


def strips_in(ladder: Ladder, *, key: UUID, at: datetime, by: Any) -> LadderDip:
    """All strips of a ladder that still want a dip go in. The same key sent twice is one dip.

    Raises InputError where they are in already, were then, or none wants a further dip.
    """
    return _begun(LadderDip(pk=key, ladder=ladder, began_at=at), by=by)


def take_out(dip: D, *, at: datetime, by: Any) -> D:
    """It comes out. Of what is sent twice the first word counts. Raises InputError where that is before it went in."""
    with transaction.atomic():
        row = _now(dip)
        if row.ended_at is not None:
            return row
        row.ended_at = at
        check(row)
        return keep(row, by=by)


def back_in(dip: D, *, by: Any) -> D:
    """It did not come out after all. Raises InputError where it has gone into a vat again since."""
    with transaction.atomic():
        row = _now(dip)
        row.ended_at = None
        check(row)
        return keep(row, by=by)


def check(dip: Dip | LadderDip) -> None:
    """Raises InputError for a dip that cannot have been.

    Out before in, two at once, a piece in a vat that did not stand.
    """
    if dip.ended_at is not None and dip.ended_at < dip.began_at:
        raise InputError(where="ended_at", what=_("it came out before it went in"), right=_("give a later moment"))
    if isinstance(dip, Dip):
        _check_vat(dip)
        others = list(Dip.objects.filter(piece=dip.piece_id).exclude(pk=dip.pk))
        there = _("the piece was in a vat then already")
    else:
        others = list(LadderDip.objects.filter(ladder=dip.ladder_id).exclude(pk=dip.pk))
        there = _("the strips were in the vat then already")
    for other in others:
        after = other.ended_at is not None and other.ended_at <= dip.began_at
        before = dip.ended_at is not None and dip.ended_at <= other.began_at
        if not after and not before:
            raise InputError(where="began_at", what=there, right=_("correct the other dip first"))


def _begun(row: D, *, by: Any) -> D:
    with transaction.atomic():
        known = type(row).everything.filter(pk=row.pk).first()
        if known is not None and _owner(known) == _owner(row):
            return known
        if known is not None:
            raise InputError(where="dip", what=_("this key is another piece's"), right=_("open the page again"))
        if isinstance(row, LadderDip):
            _check_wanted(row.ladder)
        check(row)
        return keep(row, by=by)


def _now(dip: D) -> D:
    """The row as it stands."""
    beside = ("vat", "piece") if isinstance(dip, Dip) else ("ladder",)
    found: D = type(dip).objects.select_related(*beside).get(pk=dip.pk)
    return found


def _owner(dip: Dip | LadderDip) -> UUID:
    return dip.piece_id if isinstance(dip, Dip) else dip.ladder_id


def _check_vat(dip: Dip) -> None:
    if dip.began_at < dip.vat.started_at or (dip.vat.ended_at is not None and dip.began_at > dip.vat.ended_at):
        raise InputError(
            where="began_at", what=_("%(vat)s did not stand then") % {"vat": dip.vat},
            right=_("correct the moment, or choose another vat"),
        )  # fmt: skip


def _check_wanted(ladder: Ladder) -> None:
    wanted = ladder.rungs.order_by("-dips").values_list("dips", flat=True).first()
    if LadderDip.objects.filter(ladder=ladder).count() >= (wanted or 0):
        raise InputError(where="began_at", what=_("no strip wants a further dip"), right=_("add a strip first"))
