"""What the strain call of a tub said when it was looked at before."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby
from typing import Any
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.models import CallSeen
from bluewright.words.numbers import moment, sentence
from bluewright.words.steep import advised, span


@dataclass(frozen=True, slots=True, kw_only=True)
class CallRow:
    """A call that was seen; of several that said the same one after the other, the last."""

    when: str
    advice: str
    window: str
    """When it was to be at its best."""


def calls_before(seen: Sequence[CallSeen], *, zone: ZoneInfo, hot: bool) -> tuple[CallRow, ...]:
    """The calls in words, the newest first; one that says what the one after it says is left out."""
    rows = (_row(call, zone, hot=hot) for call in seen)
    return tuple(next(same) for _said, same in groupby(rows, key=lambda row: (row.advice, row.window)))


def _row(call: CallSeen, zone: ZoneInfo, *, hot: bool) -> CallRow:
    said, window = _("It cannot be read by this version."), ""
    try:
        told: dict[str, Any] = call.answer
        strain_at, opens, closes = _times(told, zone)
        word, chance = str(told["advice"]), float(told["chance_past_peak"])
        said = sentence(advised(word, strain_at=strain_at, past_peak_chance=chance)) + "."
        window = _("Best %(span)s.") % {"span": span(opens, closes, hot=hot)}
    except (KeyError, TypeError, ValueError):
        pass
    return CallRow(when=moment(call.seen_at.astimezone(zone)), advice=said, window=window)


def _times(told: dict[str, Any], zone: ZoneInfo) -> Iterator[datetime]:
    times = (told["strain_at"], told["window"]["from"], told["window"]["to"])
    return (datetime.fromisoformat(time).astimezone(zone) for time in times)
