"""What the clock of a dip timer runs by, in milliseconds of this machine: of a piece, or of the strips of a ladder."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final
from uuid import uuid4

from bluewright.journal.models import Dip, Ladder, LadderDip, Piece

HANGS: Final = timedelta(hours=12)
"""What hangs for longer than this has no clock that runs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Clock:
    """Where one thing is at the vat."""

    dip: str
    """Key of the dip that it is in; empty while it is in none."""
    new: str
    """Key for its next dip."""
    began_ms: int | None
    """When the dip that it is in began."""
    out_ms: int | None
    """When it came out last, if the air between dips is to be counted."""
    done: int
    """Dips that it has had."""
    dip_s: float
    """How long a dip is to be."""
    air_s: float
    """How long it is to hang between dips."""
    known: tuple[str, ...]
    """Keys of the dips that are written down, and, with `:out`, of those that are over."""


def clock_of(row: Piece | Ladder, dips: Sequence[Dip | LadderDip], *, out: datetime | None, now: datetime) -> Clock:
    """The clock of a thing; `out` is when it came out last, where it is to go in again."""
    inside = next((dip for dip in dips if dip.ended_at is None), None)
    return Clock(
        dip="" if inside is None else str(inside.pk),
        new=str(uuid4()),
        began_ms=None if inside is None else _ms(inside.began_at),
        out_ms=_ms(out) if out is not None and now - out < HANGS else None,
        done=sum(dip.ended_at is not None for dip in dips),
        dip_s=60.0 * row.dip_min,
        air_s=60.0 * row.air_min,
        known=tuple(str(dip.pk) + ("" if dip.ended_at is None else ":out") for dip in dips),
    )


def _ms(when: datetime) -> int:
    return round(1000 * when.timestamp())
