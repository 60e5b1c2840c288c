"""What the pages of vats ask of the journal."""

from __future__ import annotations

from uuid import UUID

from django.utils import timezone

from bluewright.journal.bridge import vats as bridge
from bluewright.journal.models import Garden, Jar, Vat
from bluewright.journal.queries import kept, vats
from bluewright.science.base.errors import BluewrightError
from bluewright.science.vat.state_record import VatAnswer
from bluewright.web.ui.found import or_404
from bluewright.words.own_text import own_text


def the_vat(garden: Garden, key: UUID) -> Vat:
    """The whole vat of that key in this garden; raises Http404 where there is none."""
    return or_404(vats.vat(key, of=garden), "vat in this garden")


def answered_now(vat: Vat) -> tuple[VatAnswer | None, str]:
    """How a vat stands, by the garden's clock; or why nothing can be said of it."""
    try:
        return bridge.vat_answer(vat, timezone.now()), ""
    except BluewrightError as error:
        return None, own_text(str(error))


def jars_holding(garden: Garden) -> list[Jar]:
    """The jars of a garden that still hold powder, the oldest first."""
    return list(reversed(kept.held_jars(garden)))
