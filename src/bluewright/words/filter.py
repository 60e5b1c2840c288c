"""How long until the rest has run through."""

from __future__ import annotations

from typing import Final

from bluewright.science.settle.filtering_record import FilterAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import amount, litres
from bluewright.words.numbers import frac, hours
from bluewright.words.said import Said

QUESTION: Final = marked("How long until the rest has run through the cloth or paper?")


def said(found: FilterAnswer) -> Said:
    """The answer as a person at the filter reads it."""
    rest_l = found.inputs.total_l - found.inputs.readings[-1].filtrate_l
    told = {
        "rest": amount(rest_l, "volume_l"),
        "left": hours(found.left_h),
        "all": hours(found.total_h),
        "now": litres(found.rate_now_l_per_h),
        "end": litres(found.rate_end_l_per_h),
        "cake": frac(found.cake_share_frac),
    }
    lines = [
        _("The other %(rest)s take %(left)s more; %(all)s in all.") % told,
        _("It runs %(now)s an hour now, %(end)s an hour at the end.") % told,
        _("The cake makes %(cake)s of the resistance, the cloth or paper the rest.") % told,
    ]
    return Said(parts=tuple(lines), cautions=found.cautions)
