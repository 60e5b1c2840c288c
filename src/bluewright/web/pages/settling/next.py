"""What a batch wants next of its settling and washing."""

from __future__ import annotations

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.bridge import answers
from bluewright.journal.bridge.batches import settle_record, wash_record
from bluewright.journal.models import Batch, Standing
from bluewright.journal.queries.batches import stage_of
from bluewright.science.base.errors import BluewrightError
from bluewright.words.numbers import about
from bluewright.words.own_text import own_text
from bluewright.words.settle import RULE, worth_looking
from bluewright.words.wash import counted

Matter = tuple[datetime, str, str]


def next_matter(batch: Batch, now: datetime) -> Matter | None:
    """When, what and why: leave it to stand, look or decant, wash, or put it to dry. None before air and once it dries.

    The batch must be whole (`queries.batches`).
    """
    stage = stage_of(batch)
    if stage == "air":
        ended = batch.airings.all()[0].ended_at
        why = _("It is aired; the blue sinks only where nothing stirs it.")
        return None if ended is None else (ended, _("%(batch)s: let it stand") % {"batch": batch.name}, why)
    if stage != "settle":
        return None
    last = list(batch.standings.all())[-1]
    last.batch = batch
    return _standing(last, now) if last.decanted_at is None else _decanted(batch, last.decanted_at)


def _standing(last: Standing, now: datetime) -> Matter:
    """The clock times do not hang on now: the same record is asked until the next reading, and answered once."""
    name, zone = last.batch.name, ZoneInfo(last.batch.garden.time_zone)
    seen = max([last.started_at, *(edge.taken_at for edge in last.edges.all())])
    try:
        answer = answers.settled(settle_record(last, now=seen))
    except BluewrightError as error:
        return now, _("%(batch)s: look whether it has settled") % {"batch": name}, own_text(str(error))
    if answer.rule_met:
        return (
            seen,
            _("%(batch)s: decant it") % {"batch": name},
            _("By your own readings %(rule)s.") % {"rule": _(RULE)},
        )
    early, middle, late = (
        last.started_at + timedelta(hours=hours)
        for hours in (answer.decant_after_h.p5, answer.decant_after_h.p50, answer.decant_after_h.p95)
    )
    clock = {"early": about(early.astimezone(zone)), "late": about(late.astimezone(zone))}
    why = worth_looking(**clock, begun=now >= early, over=now >= late)
    return middle, _("%(batch)s: look whether it can be decanted") % {"batch": name}, why


def _decanted(batch: Batch, at: datetime) -> Matter:
    name = {"batch": batch.name}
    try:
        found = answers.washed(wash_record(batch))
    except BluewrightError:
        return at, _("%(batch)s: wash it, or put it to dry") % name, _("It is decanted, and no wash is planned yet.")
    if found.rule_met or (found.rule_met is None and found.washes_left.p50 == 0):
        return at, _("%(batch)s: washed enough, put it to dry") % name, found.rule or _("By the volumes it is clean.")
    left = counted(found.washes_left)
    return at, _("%(batch)s: wash it again") % name, _("Washes still to do: %(left)s.") % {"left": left}
