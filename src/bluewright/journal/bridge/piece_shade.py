"""What a piece is on its way to: its shade in the vat that it is dyed in, with what its further dips would give.

It takes some tenths of a second, and seconds where a ladder is read for the first time: no page waits for it. What was
found is kept until anything is written, for so long as a vat hardly changes by itself.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final
from uuid import UUID

from bluewright.journal.bridge import dyeing
from bluewright.journal.bridge.swatches import lab
from bluewright.journal.models import Piece, Swatch, Vat
from bluewright.journal.queries import ladders, swatches
from bluewright.journal.queries.pieces import dips_of
from bluewright.journal.written import UntilWritten
from bluewright.science.base.errors import BluewrightError
from bluewright.science.dyeing.shade import NEXT
from bluewright.science.dyeing.shade_record import MOST_DIPS, ShadeAnswer

FAR: Final = 12
"""Up to so many dips are looked at where a swatch's colour is wanted."""
STANDS_FOR: Final = timedelta(hours=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceShade:
    """What is likely of a piece."""

    vat: str
    """Name of the vat."""
    like: str
    """Name of the swatch whose colour it is to get; empty for none."""
    own: dyeing.Own
    """What of one's own it rests on."""
    answer: ShadeAnswer | None
    trouble: str
    """Why there is no answer; empty where there is one."""


_found: Final[UntilWritten[tuple[UUID, int], PieceShade]] = UntilWritten(200)


def vat_for(row: Piece) -> Vat | None:
    """The vat that it was dipped in last; before its first dip the newest that stands for its fibre, or at all."""
    dips = dips_of(row)
    if dips:
        return dips[-1].vat
    standing = ladders.vats_at_hand(row.garden)
    return next((vat for vat in standing if vat.fibre == row.fibre), standing[0] if standing else None)


def known(row: Piece, *, now: datetime) -> PieceShade | None:
    """What is known without reckoning."""
    return _found.known(_key(row, now))


def reckon(row: Piece, *, now: datetime) -> PieceShade | None:
    """What is likely of a piece; None while there is no vat to dye it in."""
    vat = vat_for(row)
    return None if vat is None else _found.made(_key(row, now), lambda: _reckoned(row, vat, now))


def like(row: Piece) -> Swatch | None:
    """The swatch whose colour it is to get; None where it was taken out or none was named."""
    return None if row.like_key is None else swatches.swatch(row.like_key, of=row.garden)


def _key(row: Piece, now: datetime) -> tuple[UUID, int]:
    return row.pk, int(now.timestamp() // STANDS_FOR.total_seconds())


def _reckoned(row: Piece, vat: Vat, now: datetime) -> PieceShade:
    swatch, own = like(row), dyeing.Own(learned=None, ladders=0, swatches=0)
    answer, trouble = None, ""
    try:
        own = dyeing.own(row.garden, row.fibre)
        answer = _answer(row, vat, swatch, own, now)
    except BluewrightError as error:
        trouble = f"{error}."
    return PieceShade(vat=vat.name, like="" if swatch is None else swatch.name, own=own, answer=answer, trouble=trouble)


def _answer(row: Piece, vat: Vat, swatch: Swatch | None, own: dyeing.Own, now: datetime) -> ShadeAnswer:
    """The whole course from its first dip on, in the vat as that found it."""
    dips = dips_of(row)
    done = min(len(dips), MOST_DIPS)
    first = next((dip.began_at for dip in dips if dip.vat_id == vat.pk), None)
    most = done if row.finished_at is not None else max(row.wanted_dips or 0, done + NEXT, FAR if swatch else 0)
    record = dyeing.shade_record(
        row, dyeing.dye_vat(vat, now=now, at=first), dips=min(max(most, 1), MOST_DIPS), done=done,
        wanted=None if swatch is None else lab(swatch), learned=own.learned,
    )  # fmt: skip
    return dyeing.shaded(record)
