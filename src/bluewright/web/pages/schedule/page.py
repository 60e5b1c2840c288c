"""What the page of the schedule shows: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from django.utils.dates import WEEKDAYS_ABBR
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.charts.season_chart import season_chart
from bluewright.journal.bridge.scheduling import changed_kinds
from bluewright.journal.models import DaysAway, Garden, Limits, Schedule
from bluewright.science.season.answer import SeasonAnswer
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.why import main_why
from bluewright.web.ui.why_view import why_address
from bluewright.words import season
from bluewright.words.numbers import figure, moment, weekday
from bluewright.words.own_text import own_text

SOON_D: Final = 7
KINDS: Final = {
    "day": gettext_lazy("the day"), "weather": gettext_lazy("the weather"),
    "beds": gettext_lazy("beds"), "tubs": gettext_lazy("tubs"), "looks": gettext_lazy("looks at tubs"),
    "drying": gettext_lazy("what dries"), "jars": gettext_lazy("jars"), "wants": gettext_lazy("wants"),
    "limits": gettext_lazy("limits"),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Soon:
    """What is to be done on a day of the coming week."""

    day: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AwayRow:
    """Days away."""

    key: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SchedulePage:
    """The schedule of the season."""

    answer: Answered | None
    trouble: str
    reckoned: str
    """When it was reckoned."""
    seeking: bool
    """A better answer is sought beside the page."""
    because: str
    """What was changed since the one before, so that it was reckoned again by itself; empty where somebody asked."""
    changed: str
    """What has changed since; empty where nothing has."""
    follows: bool
    """It is looked at soon, and reckoned again if anything has changed."""
    soon: tuple[Soon, ...]
    limits: tuple[str, ...]
    """In words; empty where they are not written down."""
    away: tuple[AwayRow, ...]
    needs_place: bool


def schedule_page(
    garden: Garden, *, row: Schedule | None, answer: SeasonAnswer | None, limits: Limits | None,
    away: Sequence[DaysAway], marks: Mapping[str, str], today: date, seeking: bool,
    follows: bool,
) -> SchedulePage:  # fmt: skip
    """The page, given the latest schedule and its answer."""
    return SchedulePage(
        answer=None if answer is None else _answered(answer),
        trouble="" if row is None else own_text(row.trouble),
        reckoned="" if row is None else moment(row.reckoned_at.astimezone(ZoneInfo(garden.time_zone))),
        seeking=seeking,
        because="" if row is None else _kinds(row.because),
        changed="" if row is None else _kinds(changed_kinds(row, marks)),
        follows=follows,
        soon=() if answer is None else tuple(soon(answer, today=today)),
        limits=() if limits is None else _limits(limits),
        away=tuple(AwayRow(key=str(one.pk), said=_days(one)) for one in away),
        needs_place=garden.latitude_deg is None,
    )


def _answered(answer: SeasonAnswer) -> Answered:
    found = season.said(answer)
    why = main_why(answer, address=why_address("schedule.why"))
    return answered(found, chart=season_chart(answer, answer=found.first) if answer.steeps else "", why=why)


def _kinds(changed: Collection[str]) -> str:
    """Kinds of things that were changed."""
    return ", ".join(str(said) for kind, said in KINDS.items() if kind in changed)


def soon(answer: SeasonAnswer, *, today: date) -> list[Soon]:
    """What is planned within a week."""
    until = today + timedelta(days=SOON_D)
    return [Soon(day=weekday(day), what=what) for day, what in work_ahead(answer, today=today) if day < until]


def work_ahead(answer: SeasonAnswer, *, today: date) -> list[tuple[date, str]]:
    """All that is planned from today on, in order of days."""
    rows = list[tuple[date, str]]()
    rows += [(cut.on, _("cut %(bed)s") % {"bed": season.cut_said(cut)}) for cut in answer.cuts]
    for one in answer.steeps:
        told = {"tub": season.tub_name(one)}
        rows += [(one.fill_on, _("fill %(tub)s") % told)] if one.beds else []
        rows.append((one.strain_on, _("strain %(tub)s") % told))
    return [(day, what) for day, what in sorted(rows) if today <= day]


def _limits(limits: Limits) -> tuple[str, ...]:
    sizes = ", ".join(_("%(count)s of %(size)s") % {"count": one["count"], "size": one["typed"]} for one in limits.tubs)
    hours = ", ".join(
        _("%(day)s %(hours)s h") % {"day": WEEKDAYS_ABBR[day], "hours": figure(float(one))}
        for day, one in enumerate(limits.free_h)
        if one
    )
    told = [
        _("Tubs: %(sizes)s.") % {"sizes": sizes},
        _("Hours free: %(hours)s.") % {"hours": hours},
        _("Planned until %(day)s.") % {"day": weekday(limits.last_day)},
    ]
    if limits.places is not None:
        told.append(_("Tubs whose blue can dry at once: %(places)s.") % {"places": figure(limits.places)})
    return tuple(told)


def _days(row: DaysAway) -> str:
    if row.first == row.last:
        return weekday(row.first)
    return _("%(first)s to %(last)s") % {"first": weekday(row.first), "last": weekday(row.last)}
