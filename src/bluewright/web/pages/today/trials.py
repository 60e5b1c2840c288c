"""Trials on Today: the next envelope of each that goes on."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Final

from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.journal.models import Garden
from bluewright.journal.queries.trials import running
from bluewright.web.pages.compare.page import next_lot, stands_said
from bluewright.web.pages.today.page import Matter, Step

A_SEASON: Final = timedelta(days=240)
"""A trial that was laid down longer ago is not asked after."""
NEXT_PICKING_H: Final = 30.0
"""It wants doing with the next picking: within the day and a half that Today looks ahead, after what is urgent."""


def trial_matters(garden: Garden, now: datetime) -> Iterator[Matter]:
    """The next tub of every trial that goes on."""
    for row in running(garden, since=now - A_SEASON):
        lot = next_lot(row)
        if lot is None:
            continue
        told = {"trial": row.name, "number": lot.number, "block": lot.block, "vessel": lot.vessel}
        yield Matter(
            urgency_h=NEXT_PICKING_H,
            key=str(row.pk),
            what=_("%(trial)s: the next tub is for envelope %(number)d") % told,
            why=_("Picking %(block)s, tub %(vessel)d. %(stands)s.") % {**told, "stands": stands_said(row).capitalize()},
            do=Step(says=_("Open the trial"), href=reverse("compare.show", kwargs={"key": row.pk}), writes=False),
        )
