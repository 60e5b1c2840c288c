"""What the dip timer shows: where the piece is, since when, until when; in words, and in milliseconds for its clock."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import uuid4
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.models import Dip, Piece, Vat
from bluewright.journal.queries.pieces import came_out_at, dips_of, open_dip, stage_of
from bluewright.web.pages.cloth.next import AIRS_OUT, in_from, out_at
from bluewright.web.pages.cloth.page import dip_said, facts
from bluewright.words.numbers import clock, moment

HANGS: timedelta = timedelta(hours=12)
"""A piece that hangs for longer than this has no clock that runs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A vat to choose."""

    key: str
    name: str
    chosen: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Timer:
    """One piece at the vat."""

    key: str
    name: str
    said: str
    """Where it is, in a sentence."""
    vat: str
    """In which vat it is; empty while it is in none."""
    dip: str
    """Key of the dip that it is in; empty while it is in none."""
    new: str
    """Key for its next dip."""
    began_ms: int | None
    """When the dip that it is in began, by this machine's clock."""
    out_ms: int | None
    """When it came out last, if the air between dips is to be counted."""
    done: int
    """Dips that it has had."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DipRow:
    """One dip in the list."""

    key: str
    when: str
    said: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DipsPage:
    """The dip timer of a piece."""

    timer: Timer
    facts: str
    wanted: int | None
    dip_s: float
    """How long a dip is to be."""
    air_s: float
    """How long it is to hang between dips."""
    now_ms: int
    done: bool
    """Whether all dips that were wanted are done."""
    vats: tuple[Choice, ...]
    others: tuple[Timer, ...]
    """Pieces that are dyed in the same vat now."""
    dips: tuple[DipRow, ...]
    """The latest first."""
    known: tuple[str, ...]
    """Keys of the dips that are written down, and, with `:out`, of those that are over."""


def dips_page(row: Piece, *, vats: Sequence[Vat], others: Sequence[Piece], now: datetime) -> DipsPage:
    """The page of the timer."""
    zone, found = ZoneInfo(row.garden.time_zone), dips_of(row)
    last = found[-1].vat_id if found else None
    return DipsPage(
        timer=timer(row, now),
        facts=facts(row),
        wanted=row.wanted_dips,
        dip_s=60.0 * row.dip_min,
        air_s=60.0 * row.air_min,
        now_ms=_ms(now),
        done=stage_of(row) == "dipped",
        vats=tuple(
            Choice(key=str(vat.pk), name=vat.name, chosen=vat.pk == last or (last is None and vat is vats[0]))
            for vat in vats
        ),
        others=tuple(timer(other, now) for other in others),
        dips=tuple(_row(dip, number, zone) for number, dip in enumerate(found, start=1))[::-1],
        known=tuple(str(dip.pk) + ("" if dip.ended_at is None else ":out") for dip in found),
    )


def timer(row: Piece, now: datetime) -> Timer:
    """One piece at the vat."""
    dip, out = open_dip(row), came_out_at(row)
    hangs = out is not None and row.finished_at is None and now - out < HANGS
    return Timer(
        key=str(row.pk),
        name=row.name,
        said=_said(row, now),
        vat="" if dip is None else dip.vat.name,
        dip="" if dip is None else str(dip.pk),
        new=str(uuid4()),
        began_ms=None if dip is None else _ms(dip.began_at),
        out_ms=_ms(out) if hangs and out is not None else None,
        done=sum(one.ended_at is not None for one in dips_of(row)),
    )


def _said(row: Piece, now: datetime) -> str:
    zone, dip, due = ZoneInfo(row.garden.time_zone), open_dip(row), out_at(row)
    if dip is not None and due is not None:
        told = {
            "vat": dip.vat.name, "since": moment(dip.began_at.astimezone(zone)), "out": clock(due.astimezone(zone))
        }  # fmt: skip
        late = _("In %(vat)s since %(since)s: it was to come out at %(out)s.")
        return (late if due < now else _("In %(vat)s since %(since)s; out at %(out)s.")) % told
    out, due = came_out_at(row), in_from(row)
    if out is None or due is None:
        return _("It has not been in a vat yet.")
    told = {"since": moment(out.astimezone(zone)), "from": clock(due.astimezone(zone))}
    if row.finished_at is not None:
        return _("It is finished. It came out of its last dip %(since)s.") % told
    if stage_of(row) == "dipped":
        told["from"] = clock((out + AIRS_OUT).astimezone(zone))
        return _("It hangs in the air since %(since)s. All its dips are done: finish it from %(from)s on.") % told
    return _("It hangs in the air since %(since)s; next dip from %(from)s.") % told


def _row(dip: Dip, number: int, zone: ZoneInfo) -> DipRow:
    return DipRow(
        key=str(dip.pk), when=moment(dip.began_at.astimezone(zone)), said=dip_said(dip, number, zone), note=dip.note
    )


def _ms(when: datetime) -> int:
    return round(1000 * when.timestamp())
