"""The strain call of a tub as its page asks for it."""

from __future__ import annotations

from django.utils import timezone

from bluewright.journal.bridge import calls
from bluewright.journal.bridge.learned import taught
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.models import Steep
from bluewright.journal.queries import tubs
from bluewright.science.base.errors import BluewrightError
from bluewright.science.steep.answer import SteepAnswer
from bluewright.words.own_text import own_text


def strain_call(steep: Steep) -> tuple[SteepAnswer | None, str]:
    """The call of a tub that still steeps; or why there is none."""
    if steep.strains.all():
        return None, ""
    try:
        record = steep_record(
            steep, air=tubs.air(steep.garden, around=steep), logged=tubs.logged(steep), now=timezone.now()
        )
        answer = calls.strain_call(steep.pk, taught(record, steep))
    except BluewrightError as error:
        return None, own_text(str(error))
    calls.remember(steep, answer)
    return answer, ""
