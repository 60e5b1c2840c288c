"""What pieces of cloth want: out of the vat, in again, a finish, and, a week later, a rub test."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.journal.models import Garden
from bluewright.journal.queries import pieces
from bluewright.web.pages.cloth.next import ASKED_FOR, next_thing
from bluewright.web.pages.today.page import Matter, Step


def cloth_matters(garden: Garden, now: datetime) -> Iterator[Matter]:
    """Pieces at the vat, those that hang and wait, and those that are finished and not tried yet."""
    for row in pieces.at_work(garden, since=now - ASKED_FOR):
        found = next_thing(row, now)
        if found is not None:
            yield Matter(
                urgency_h=(found.due - now) / timedelta(hours=1),
                key=str(row.pk),
                what=_("%(piece)s: %(what)s") % {"piece": row.name, "what": found.what},
                why=found.why,
                do=Step(says=found.says, href=found.href),
                also=Step(says=_("Open the piece"), href=reverse("cloth.show", kwargs={"key": row.pk}), writes=False),
                keeps=pieces.open_dip(row) is None,
            )
