"""What a batch wants next of its airing."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.models import Batch
from bluewright.journal.queries.batches import stage_of
from bluewright.words.numbers import moment


def next_matter(batch: Batch, now: datetime) -> tuple[datetime, str, str] | None:
    """When, what and why: alkaline liquor waits for air, and an airing begun wants its end. None where neither is so.

    The batch must be whole (`queries.batches`).
    """
    stage = stage_of(batch)
    zone = ZoneInfo(batch.garden.time_zone)
    if stage == "alkali":
        since = max(part.added_at for part in batch.alkali_parts.all())
        at = moment(since.astimezone(zone))
        why = _("The alkali went in on %(at)s. Until it is aired the blue cannot form, and some is lost.") % {"at": at}
        return since, _("%(batch)s: air it") % {"batch": batch.name}, why
    if stage != "air" or batch.airings.all()[0].ended_at is not None:
        return None
    row = batch.airings.all()[0]
    at, pours = moment(row.started_at.astimezone(zone)), row.done_pours
    so_far = (
        _("%(pours)s pours so far.") % {"pours": pours}
        if pours
        else _("%(min).0f minutes so far.") % {"min": row.done_min or 0.0}
    )
    why = _("Begun on %(at)s, %(so_far)s") % {"at": at, "so_far": so_far}
    return now, _("%(batch)s: air it on, or say that it is done") % {"batch": batch.name}, why
