"""What a batch wants next, and on which page it is done: for the start page and for the batch's own."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.journal.models import Batch
from bluewright.journal.queries.batches import stage_of
from bluewright.web.pages.airing import next as airing
from bluewright.web.pages.drying import next as drying
from bluewright.web.pages.settling import next as settling
from bluewright.words.language import marked

Tells = Callable[[Batch, datetime], tuple[datetime, str, str] | None]

PAGES: Final[tuple[tuple[str, str, Tells, bool], ...]] = (
    ("airing.show", marked("Open its air"), airing.next_matter, False),
    ("settling.show", marked("Open its settling"), settling.next_matter, True),
    ("drying.show", marked("Open its drying"), drying.next_matter, True),
)
"""The page on which a stage's next step is done, the words on the way there, what tells whether it is
due, and whether the stage keeps."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NextStep:
    """The one next action of a batch."""

    due: datetime
    what: str
    why: str
    href: str
    says: str
    """The words on the way there."""
    keeps: bool = False
    """Whether the batch takes no harm when it waits a little longer."""


def next_step(batch: Batch, now: datetime) -> NextStep | None:
    """The next step of a whole batch; None when nothing more is done with it here."""
    if stage_of(batch) == "liquor":
        return NextStep(
            due=batch.begun_at,
            what=_("%(batch)s: add the alkali") % {"batch": batch.name},
            why=_("The liquor loses blue while it stands."),
            href=reverse("alkali.dose", kwargs={"key": batch.pk}),
            says=_("Open its alkali"),
        )
    for page, says, tells, keeps in PAGES:
        found = tells(batch, now)
        if found is not None:
            due, what, why = found
            href = reverse(page, kwargs={"key": batch.pk})
            return NextStep(due=due, what=what, why=why, href=href, says=_(says), keeps=keeps)
    return None
