"""A plan as a calendar file that phones and desks read (iCalendar, RFC 5545).

Each work is an event of a whole day, without a clock and therefore without a time zone. Its name in the file (UID) is
made of the plan, the bed and the number of the cut: brought in again, a cut that moved moves, and does not stand there
twice.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from typing import Final
from uuid import UUID, uuid5

from icalendar import Calendar, Event

from bluewright.science.season.answer import SeasonAnswer
from bluewright.words.language import gettext as _
from bluewright.words.measures import amount, measured
from bluewright.words.numbers import ranged
from bluewright.words.season import cut_said, tub_name, why_said

OURS: Final = UUID("5b0c8f6e-3f0e-5f57-9f4b-0d6c1f4f7a11")
"""The space of our own names."""
EPOCH: Final = datetime(2020, 1, 1, tzinfo=UTC)


def calendar(found: SeasonAnswer, *, made_at: datetime, name: str = "") -> bytes:
    """The plan as the bytes of a calendar file; `made_at` is when it was reckoned.

    A later file has later stamps and numbers (SEQUENCE: minutes), so that a program knows which of two is the newer.
    """
    made = Calendar()
    made.add("prodid", "-//Bluewright//season plan//EN")
    made.add("version", "2.0")
    made.add("method", "PUBLISH")
    made.add("x-wr-calname", name or found.id or _("Blue: the season"))
    for key, day, title, text in _events(found):
        made.add_component(_event(key, day, title, text, made_at=made_at))
    return bytes(made.to_ical())


def _event(key: str, day: date, title: str, text: str, *, made_at: datetime) -> Event:
    event = Event()
    event.add("uid", f"{uuid5(OURS, key)}@bluewright")
    event.add("dtstamp", made_at.astimezone(UTC))
    event.add("last-modified", made_at.astimezone(UTC))
    event.add("sequence", max(0, int((made_at - EPOCH) / timedelta(minutes=1))))
    event.add("dtstart", day)
    event.add("dtend", day + timedelta(days=1))
    event.add("summary", title)
    event.add("description", text)
    event.add("transp", "TRANSPARENT")
    return event


def _events(found: SeasonAnswer) -> Iterator[tuple[str, date, str, str]]:
    """Key, day, title and text of every work."""
    plan, done = found.id, {bed.id: len(bed.cuts) for bed in found.inputs.beds}
    numbers: Counter[str] = Counter(done)
    for cut in found.cuts:
        numbers[cut.bed] += 1
        text = _("Leaf %(leaf)s, pure blue %(blue)s. Why then: %(why)s.") % {
            "leaf": measured(cut.leaf_kg, "mass_kg"), "blue": ranged(cut.blue_g, "g"), "why": why_said(cut),
        }  # fmt: skip
        yield f"{plan}|cut|{cut.bed}|{numbers[cut.bed]}", cut.on, _("Cut %(bed)s") % {"bed": cut_said(cut)}, text
    filled: Counter[str] = Counter()
    for one in found.steeps:
        tub = tub_name(one)
        place = f"{one.volume_l:g}|{one.tub}"
        key = f"{plan}|{place}|{one.fill_on.isoformat()}" if not one.beds else f"{plan}|{place}|{filled[place]}"
        filled[place] += bool(one.beds)
        if one.beds:
            text = _("%(leaf)s of leaf from %(beds)s.") % {
                "leaf": amount(one.leaf_kg, "mass_kg"), "beds": ", ".join(one.beds),
            }  # fmt: skip
            yield f"{key}|fill", one.fill_on, _("Fill %(tub)s") % {"tub": tub}, text
        text = _("Look first: the strain call of the day goes before this plan.")
        yield f"{key}|strain", one.strain_on, _("Strain %(tub)s") % {"tub": tub}, text
        text = _("Its blue should be dry by now.")
        yield f"{key}|jar", one.ready_on, _("Weigh the blue of %(tub)s") % {"tub": tub}, text
