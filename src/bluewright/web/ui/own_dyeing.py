"""What a forecast of dyeing rests on, in words: ladders of one's own, or guesses."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.journal.bridge.dyeing import Own
from bluewright.words.cloth import FIBRES


def rests_on(own: Own, fibre: str) -> str:
    """`It rests on your 2 ladders of wool, 8 strips.`"""
    name = _(FIBRES[fibre])  # type: ignore[index]  # a stored choice
    if own.learned is None:
        said = _("It rests on guesses from literature: of %(fibre)s you have no ladder of dips yet.")
        return said % {"fibre": name}
    told = {"ladders": own.ladders, "fibre": name, "strips": strips(own.swatches)}
    return (
        ngettext(
            "It rests on your %(ladders)d ladder of %(fibre)s, %(strips)s.",
            "It rests on your %(ladders)d ladders of %(fibre)s, %(strips)s.",
            own.ladders,
        )
        % told
    )


def began_with(own: Own, fibre: str) -> str:
    """What a ladder was begun with: other ladders, or guesses."""
    name = _(FIBRES[fibre])  # type: ignore[index]  # a stored choice
    if own.learned is None:
        return _("Before it there were only guesses from literature.")
    told = {"ladders": own.ladders, "fibre": name, "strips": strips(own.swatches)}
    return (
        ngettext(
            "Before it the figures rested on %(ladders)d other ladder of %(fibre)s, %(strips)s.",
            "Before it the figures rested on %(ladders)d other ladders of %(fibre)s, %(strips)s.",
            own.ladders,
        )
        % told
    )


def strips(number: int) -> str:
    """`8 strips`."""
    return ngettext("%(number)d strip", "%(number)d strips", number) % {"number": number}
