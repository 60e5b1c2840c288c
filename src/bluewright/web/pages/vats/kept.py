"""How the standing vats of a garden stand, as far as it is known: what is not is reckoned beside the pages."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from django.utils.translation import gettext as _

from bluewright.journal.bridge import vats as bridge
from bluewright.journal.models import Garden, Vat
from bluewright.journal.queries import kept
from bluewright.science.base.errors import BluewrightError
from bluewright.science.vat.state_record import VatAnswer
from bluewright.web.aside import ASIDE

Known = Sequence[tuple[Vat, VatAnswer | BluewrightError | None]]
"""Vats, each with its answer, why there is none, or None while it is being reckoned."""


def known_vats(garden: Garden, now: datetime, *, most: int | None = None) -> Known:
    """The standing vats of a garden, the newest first, with what is known of each; no page waits for the rest."""
    found = [(vat, bridge.kept_or_trouble(vat, now)) for vat in kept.standing_vats(garden)[:most]]
    if any(one is None for _vat, one in found):
        ASIDE.ask(("vats", garden.pk), lambda: bridge.reckon(garden, now=now))
    return found


def reckoned_soon(found: Known) -> str:
    """Which vats are still being reckoned; empty where all are known."""
    names = [vat.name for vat, one in found if one is None]
    return _("Being reckoned; look again in a moment: %(vats)s.") % {"vats": ", ".join(names)} if names else ""
