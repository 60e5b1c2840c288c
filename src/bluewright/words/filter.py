"""How long until the rest has run through."""

from __future__ import annotations

from typing import Final

from bluewright.science.settle.filtering_record import FilterAnswer
from bluewright.words.measures import amount, litres
from bluewright.words.numbers import frac, hours
from bluewright.words.said import Said

QUESTION: Final = "How long until the rest has run through the cloth or paper?"


def said(found: FilterAnswer) -> Said:
    """The answer as a person at the filter reads it."""
    rest_l = found.inputs.total_l - found.inputs.readings[-1].filtrate_l
    rest = amount(rest_l, "volume_l")
    lines = [
        f"The other {rest} take {hours(found.left_h)} more; {hours(found.total_h)} in all.",
        f"It runs {litres(found.rate_now_l_per_h)} an hour now, {litres(found.rate_end_l_per_h)} an hour at the end.",
        f"The cake makes {frac(found.cake_share_frac)} of the resistance, the cloth or paper the rest.",
    ]
    return Said(parts=tuple(lines), cautions=found.cautions)
