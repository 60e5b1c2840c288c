"""The acid that frees limed pigment of lime and calcite."""

from __future__ import annotations

from typing import Final

from bluewright.science.settle.acid_record import AcidAnswer
from bluewright.words.measures import dosed, dosed_band
from bluewright.words.numbers import frac, ranged
from bluewright.words.said import Said

QUESTION: Final = "How much vinegar or hydrochloric acid takes the lime and calcite out, and in which parts?"


def said(found: AcidAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    acid = found.inputs.acid
    name = "vinegar" if acid.kind == "vinegar" else f"{acid.percent_w_w:g}% hydrochloric acid"
    lines = [
        f"The lime and calcite use up {dosed_band(found.exact_ml, 'ml')} of {name}; it usually ends between "
        f"{dosed(found.total_low_ml, 'ml')} and {dosed(found.total_high_ml, 'ml')}.",
        f"First four parts of {dosed(found.parts[0].add_ml, 'ml')}: pour slowly, stir, wait until the fizz has gone.",
        "Then "
        + ", ".join(dosed(part.add_ml, "ml") for part in found.parts[4:])
        + ", one by one, only while it still fizzes or the pH climbs back.",
        f"Done when nothing fizzes and the pH stays below {found.done_below_ph:g} for ten minutes; then wash.",
    ]
    if found.pigment_after_g is not None:
        purity = "" if found.indigo_after_frac is None else f", {frac(found.indigo_after_frac)} indigo"
        lines.append(f"Pigment left: {ranged(found.pigment_after_g, 'g')} dry{purity}.")
    return Said(parts=tuple(lines), cautions=found.cautions)
