"""What a jar holds, worked out for a page and remembered as it was told."""

from __future__ import annotations

from bluewright.journal.bridge import stock
from bluewright.journal.models import Jar
from bluewright.science.base.errors import BluewrightError
from bluewright.science.pigment.yield_record import YieldAnswer
from bluewright.words.own_text import own_text


def reckoned(jar: Jar) -> tuple[YieldAnswer | None, str]:
    """What a whole jar holds; or why nobody can say."""
    try:
        found = stock.answer(jar)
    except BluewrightError as error:
        return None, own_text(str(error))
    stock.remember(jar, found)
    return found, ""
