"""What a piece wants next: its one next thing, when, and where that is done."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.journal.models import Piece
from bluewright.journal.queries.pieces import RUBS, came_out_at, dips_of, open_dip, stage_of
from bluewright.words.numbers import clock, moment

LONG_IN_AIR: Final = timedelta(days=1)
"""A piece with dips to come that hangs longer than this is asked after."""
AIRS_OUT: Final = timedelta(hours=1)
"""After its last dip it hangs so long before it is finished (common practice: 30 to 60 minutes and more)."""
RESTS: Final = timedelta(days=7)
"""It rests so long before it is rubbed (common practice: one to two weeks)."""
ASKED_FOR: Final = timedelta(days=60)
"""A rub test is asked for so long after the finish."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NextThing:
    """What comes next."""

    what: str
    why: str
    due: datetime
    says: str
    """What its button says."""
    href: str


def next_thing(row: Piece, now: datetime) -> NextThing | None:
    """What comes next for a piece; None where nothing does."""
    stage = stage_of(row)
    if stage in {"in_vat", "airing", "dipped"}:
        return _at_the_vat(row, now)
    if stage == "finished":
        return _finished(row)
    if stage == "begun":
        return _thing(
            row, "cloth.scour", what=_("scour it"), why=_("Grease and size keep the blue out."), due=row.begun_at,
            says=_("Write its scour down"),
        )  # fmt: skip
    return _thing(
        row, "cloth.dips", what=_("dip it"), why=_("Wet it out first: at least an hour in water, without bubbles."),
        due=row.scoured_at or row.begun_at, says=_("Open the dip timer"),
    )  # fmt: skip


def out_at(row: Piece) -> datetime | None:
    """When it is to come out; None while it is in no vat."""
    dip = open_dip(row)
    return None if dip is None else dip.began_at + timedelta(minutes=row.dip_min)


def in_from(row: Piece) -> datetime | None:
    """From when on its next dip may be; None while it is in a vat, and before its first."""
    out = came_out_at(row)
    return None if out is None else out + timedelta(minutes=row.air_min)


def _at_the_vat(row: Piece, now: datetime) -> NextThing:
    zone, dip, due = ZoneInfo(row.garden.time_zone), open_dip(row), out_at(row)
    timer = _("Open the dip timer")
    if dip is not None and due is not None:
        told = {"vat": dip.vat.name, "since": moment(dip.began_at.astimezone(zone)), "out": clock(due.astimezone(zone))}
        why = _("In %(vat)s since %(since)s.") % told
        return _thing(row, "cloth.dips", what=_("take it out at %(out)s") % told, why=why, due=due, says=timer)
    out = came_out_at(row) or dips_of(row)[-1].began_at
    hung = {"since": moment(out.astimezone(zone))}
    why = _("It hangs in the air since %(since)s.") % hung
    if stage_of(row) == "dipped":
        return _thing(
            row, "cloth.finish", what=_("rinse and finish it"), why=why, due=out + AIRS_OUT, says=_("Finish it")
        )
    due = out + timedelta(minutes=row.air_min)
    if now - out > LONG_IN_AIR:
        return _thing(row, "cloth.dips", what=_("dip it on, or finish it"), why=why, due=out + LONG_IN_AIR, says=timer)
    what = _("dip it again")
    if due > now:
        what = _("next dip from %(from)s") % {"from": clock(due.astimezone(zone))}
    return _thing(row, "cloth.dips", what=what, why=why, due=due, says=timer)


def _finished(row: Piece) -> NextThing | None:
    assert row.finished_at is not None  # its stage says so
    if row.after_g is None:
        why = _("Dry, and weighed as before: what it took up shows in it.")
        what, says = _("weigh it"), _("Write its mass down")
        return _thing(row, "cloth.finish", what=what, why=why, due=row.finished_at + timedelta(days=2), says=says)
    if not any(swatch.of == "cloth" for swatch in row.swatches.all()):
        why = _("Dry and flat, beside your card: then its blue can be met again.")
        href = reverse("photos.add", kwargs={"kind": "piece", "thing": row.pk})
        return NextThing(
            what=_("measure its colour"), why=why, due=row.finished_at + timedelta(days=2),
            says=_("Photograph it"), href=href,
        )  # fmt: skip
    if not any(test.kind in RUBS for test in row.home_tests.all()):
        why = _("It has rested: ten strokes with a white rag, dry and wet.")
        return _thing(
            row,
            "cloth.test",
            what=_("rub test"),
            why=why,
            due=row.finished_at + RESTS,
            says=_("Write a home test down"),
        )
    return None


def _thing(row: Piece, page: str, **told: object) -> NextThing:
    return NextThing(href=reverse(page, kwargs={"key": row.pk}), **told)  # type: ignore[arg-type]
