"""What the season's schedule has for today and the next days: cuts and strainings."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date, datetime, timedelta
from typing import Final
from uuid import UUID
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.journal.bridge.scheduling import answer_of, planned_cuts
from bluewright.journal.models import Garden
from bluewright.journal.queries import schedules
from bluewright.science.season.answer import PlannedCut
from bluewright.web.pages.today.page import Matter, Step
from bluewright.words.measures import measured
from bluewright.words.numbers import ranged, weekday
from bluewright.words.season import cut_said, why_said

NEAR_D: Final = 7
HOLDS: Final = timedelta(days=30)
"""A schedule reckoned longer ago says nothing of today."""
MORNING_H: Final = 10.0
DAY_H: Final = 24.0


def planned(garden: Garden, now: datetime) -> tuple[Collection[UUID], list[Matter]]:
    """The beds whose next cut is planned within the week, and what is planned: it goes before what growth foretells."""
    row = schedules.latest_found(garden)
    if row is None or now - row.reckoned_at > HOLDS:
        return frozenset(), []
    today, answer = now.astimezone(ZoneInfo(garden.time_zone)).date(), answer_of(row)
    if answer is None:
        return frozenset(), []
    near = {
        UUID(key): cut
        for key, cut in planned_cuts(row, answer).items()
        if today <= cut.on < today + timedelta(days=NEAR_D)
    }
    return frozenset(near), list(_cuts(near, today))


def _cuts(near: dict[UUID, PlannedCut], today: date) -> Iterator[Matter]:
    for key, cut in near.items():
        told = {"bed": cut_said(cut), "day": weekday(cut.on)}
        why = {"leaf": measured(cut.leaf_kg, "mass_kg"), "blue": ranged(cut.blue_g, "g"), "why": why_said(cut)}
        what = _("%(bed)s: to be cut today, by the schedule")
        if cut.on > today:
            what = _("%(bed)s: cut on %(day)s, by the schedule")
        yield Matter(
            urgency_h=MORNING_H + DAY_H * (cut.on - today).days,
            key=str(key),
            what=what % told,
            why=_("About %(leaf)s of leaf and %(blue)s of pure blue. Why then: %(why)s.") % why,
            do=Step(says=_("Write down a picking"), href=f"{reverse('pickings.add')}?bed={key}"),
            also=Step(says=_("Open the schedule"), href=reverse("schedule.index"), writes=False),
        )
