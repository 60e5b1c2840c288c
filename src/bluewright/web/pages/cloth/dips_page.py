"""What the dip timer shows: where the piece is, since when, until when."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.models import Dip, Piece, Vat
from bluewright.journal.queries.pieces import came_out_at, dips_of, open_dip, stage_of
from bluewright.web.pages.cloth.expected import Expected, expected
from bluewright.web.pages.cloth.next import AIRS_OUT, in_from, out_at
from bluewright.web.pages.cloth.page import dip_said, facts
from bluewright.web.ui.clock import Clock, clock_of
from bluewright.words.numbers import clock, moment


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
    clock: Clock


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
    expected: Expected | None
    """What its next dip is likely to give; None without a vat."""
    done: bool
    """Whether all dips that were wanted are done."""
    vats: tuple[Choice, ...]
    others: tuple[Timer, ...]
    """Pieces that are dyed in the same vat now."""
    dips: tuple[DipRow, ...]
    """The latest first."""


def dips_page(row: Piece, *, vats: Sequence[Vat], others: Sequence[Piece], now: datetime) -> DipsPage:
    """The page of the timer."""
    zone, found = ZoneInfo(row.garden.time_zone), dips_of(row)
    last = found[-1].vat_id if found else None
    return DipsPage(
        timer=timer(row, now),
        facts=facts(row),
        wanted=row.wanted_dips,
        expected=expected(row, now),
        done=stage_of(row) == "dipped",
        vats=tuple(
            Choice(key=str(vat.pk), name=vat.name, chosen=vat.pk == last or (last is None and vat is vats[0]))
            for vat in vats
        ),
        others=tuple(timer(other, now) for other in others),
        dips=tuple(_row(dip, number, zone) for number, dip in enumerate(found, start=1))[::-1],
    )


def timer(row: Piece, now: datetime) -> Timer:
    """One piece at the vat."""
    dip = open_dip(row)
    return Timer(
        key=str(row.pk), name=row.name, said=_said(row, now), vat="" if dip is None else dip.vat.name,
        clock=clock_of(row, dips_of(row), out=came_out_at(row) if row.finished_at is None else None, now=now),
    )  # fmt: skip


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
