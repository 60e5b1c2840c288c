"""What a jar holds, worked out for a page and remembered as it was told."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from django.utils.translation import gettext as _

from bluewright.journal.bridge import stock
from bluewright.journal.models import Garden, Jar
from bluewright.science.base.errors import BluewrightError
from bluewright.science.pigment.yield_record import YieldAnswer
from bluewright.web.aside import ASIDE
from bluewright.words.own_text import own_text

FEW: Final = 12
"""So many jars are named where their blue is not counted."""


def reckoned(jar: Jar) -> tuple[YieldAnswer | None, str]:
    """What a whole jar holds; or why nobody can say."""
    try:
        found = stock.answer(jar)
    except BluewrightError as error:
        return None, own_text(str(error))
    stock.remember(jar, found)
    return found, ""


def unknown_said(garden: Garden, jars: Sequence[Jar]) -> str:
    """Of which of these jars it is not known what they hold; empty if of none.

    What can be worked out is asked for beside the pages, and there when a page is opened again.
    """
    missing = [jar.name for jar in jars if stock.pure_left_g(jar) is None]
    key = ("jars", garden.pk)
    if stock.unreckoned(jars):
        ASIDE.ask(key, lambda: stock.reckon(garden))
    if not missing:
        return ""
    told = {"jars": _few(missing)}
    if ASIDE.waits(key):
        return _("Being worked out: %(jars)s. Look again in some seconds.") % told
    return _("Not reckoned yet, or not to be known: %(jars)s. A jar's own page reckons it.") % told


def _few(names: Sequence[str]) -> str:
    """The first names, and how many more there are."""
    more = len(names) - FEW
    said = ", ".join(names[:FEW])
    return said if more <= 0 else _("%(names)s and %(n)d more") % {"names": said, "n": more}
