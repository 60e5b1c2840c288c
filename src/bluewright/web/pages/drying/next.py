"""What a batch wants next of its drying, and when a dish wants the scale again."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.bridge import answers
from bluewright.journal.bridge.batches import dry_record
from bluewright.journal.models import Batch, Drying
from bluewright.journal.queries.batches import stage_of
from bluewright.science.base.errors import BluewrightError
from bluewright.science.settle.drying_record import DryAnswer
from bluewright.words.dry import said
from bluewright.words.numbers import about
from bluewright.words.own_text import own_text

SOONEST_H: Final = 6.0
LATEST_H: Final = 24.0
"""The rule asks what a day takes, so that a day later is always worth a weighing."""
SHARE: Final = 1 / 3
"""Of the hours left after which the next weighing tells most of the curve (a judgement)."""


def weigh_again_at(drying: Drying, answer: DryAnswer) -> datetime:
    """When the next weighing is worth while: a third of what is left, six hours at the least, a day at the most.

    Near the end a day after the last one, for then it shows what a day takes.
    """
    last = max(row.weighed_at for row in drying.weighings.all())
    left_h = answer.left_h.p50
    hours = LATEST_H if left_h <= SOONEST_H else min(max(SHARE * left_h, SOONEST_H), LATEST_H)
    return last + timedelta(hours=hours)


def next_matter(batch: Batch, now: datetime) -> tuple[datetime, str, str] | None:
    """When, what and why: the dish that wants the scale soonest; the jar once all is dry. None before and after."""
    if stage_of(batch) != "dry":
        return None
    wet = [_dish(batch, one, now) for one in batch.dryings.all() if one.ended_at is None]
    if wet:
        return min(wet, key=lambda one: one[0])
    ended = max(one.ended_at for one in batch.dryings.all() if one.ended_at is not None)
    return ended, _("%(batch)s: put it in a jar") % {"batch": batch.name}, _("It was taken for dry.")


def _dish(batch: Batch, drying: Drying, now: datetime) -> tuple[datetime, str, str]:
    drying.batch = batch
    try:
        answer = answers.dried(dry_record(drying))
    except BluewrightError as error:
        return now, _("%(batch)s: weigh the dish") % {"batch": batch.name}, own_text(str(error))
    if answer.rule_met:
        return now, _("%(batch)s: it is dry, put it in a jar") % {"batch": batch.name}, str(said(answer).parts[1])
    zone, last = ZoneInfo(batch.garden.time_zone), max(row.weighed_at for row in drying.weighings.all())
    by = about((last + timedelta(hours=answer.left_h.p95)).astimezone(zone))
    why = _("Dry by %(by)s at the latest, by what was weighed so far.") % {"by": by}
    return weigh_again_at(drying, answer), _("%(batch)s: weigh it again") % {"batch": batch.name}, why
