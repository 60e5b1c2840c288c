"""What the vats want: to be looked at, sharpened, fed, warmed, or cloth. By answers that are reckoned aside."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Final

from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.journal.models import Garden, Vat
from bluewright.science.vat.state_record import VatAnswer
from bluewright.web.pages.today.page import Matter, Step
from bluewright.web.pages.vats.kept import known_vats
from bluewright.words.numbers import moment
from bluewright.words.vat_state import ADVICE, stands

SOON_H: Final = 1.0
READY_H: Final = 6.0
"""A vat that can be dyed in comes after what spoils."""
QUIET: Final = frozenset({"wait", "rest"})
"""Advice that asks for nothing until the next look is due."""
NEAR: Final = timedelta(days=1)


def vat_matters(garden: Garden, now: datetime) -> Iterator[Matter]:
    """What each standing vat wants, as far as it is known; one that is left alone only when its look is near."""
    for vat, found in known_vats(garden, now):
        if isinstance(found, VatAnswer):
            due = found.look_again_at - now
            if found.advice not in QUIET or due <= NEAR:
                yield _matter(vat, found, due_h=due / timedelta(hours=1))


def _matter(vat: Vat, found: VatAnswer, *, due_h: float) -> Matter:
    if found.advice in QUIET:
        told = {"vat": vat.name, "when": moment(found.look_again_at)}
        what, urgency_h = _("%(vat)s: look again %(when)s") % told, max(due_h, SOON_H)
    else:
        what = _("%(vat)s: %(advice)s") % {"vat": vat.name, "advice": _(ADVICE[found.advice])}
        urgency_h = READY_H if found.advice == "dye" else SOON_H
    return Matter(
        urgency_h=urgency_h,
        key=str(vat.pk),
        what=what,
        why=stands(found),
        do=Step(says=_("Open the vat"), href=reverse("vats.show", kwargs={"key": vat.pk}), writes=False),
        also=Step(says=_("Quick look"), href=reverse("vats.look", kwargs={"key": vat.pk})),
    )
