"""A plan as a calendar file that phones and desks read (iCalendar, RFC 5545).

Each work is an event of a whole day, without a clock and therefore without a time zone. Its name in the file (UID) is
made of the plan, the bed and the number of the cut: brought in again, a cut that moved moves, and does not stand there
twice; one that the plan no longer has is called off under the same name (STATUS:CANCELLED).
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta
from typing import Final
from uuid import UUID, uuid5

from icalendar import Calendar, Event

from bluewright.science.season.answer import SeasonAnswer
from bluewright.words.language import gettext as _
from bluewright.words.works import works

OURS: Final = UUID("5b0c8f6e-3f0e-5f57-9f4b-0d6c1f4f7a11")
"""The space of our own names."""
EPOCH: Final = datetime(2020, 1, 1, tzinfo=UTC)


def calendar(
    found: SeasonAnswer, *, made_at: datetime, name: str = "", gone: Iterable[tuple[str, date, str]] = ()
) -> bytes:
    """The plan as the bytes of a calendar file; `made_at` is when it was reckoned.

    `gone` is work that earlier plans had: key, day, title. A later file has later stamps and numbers (SEQUENCE:
    seconds), so that a program knows which of two is the newer.
    """
    made = Calendar()
    made.add("prodid", "-//Bluewright//season plan//EN")
    made.add("version", "2.0")
    made.add("method", "PUBLISH")
    made.add("x-wr-calname", name or found.id or _("Blue: the season"))
    for one in works(found):
        made.add_component(_event(one.key, one.on, one.title, one.text, made_at=made_at))
    for key, day, title in gone:
        event = _event(key, day, title, _("The plan no longer has this."), made_at=made_at)
        event.add("status", "CANCELLED")
        made.add_component(event)
    return bytes(made.to_ical())


def _event(key: str, day: date, title: str, text: str, *, made_at: datetime) -> Event:
    event = Event()
    event.add("uid", f"{uuid5(OURS, key)}@bluewright")
    event.add("dtstamp", made_at.astimezone(UTC))
    event.add("last-modified", made_at.astimezone(UTC))
    event.add("sequence", max(0, int((made_at - EPOCH) / timedelta(seconds=1))))
    event.add("dtstart", day)
    event.add("dtend", day + timedelta(days=1))
    event.add("summary", title)
    event.add("description", text)
    event.add("transp", "TRANSPARENT")
    return event
