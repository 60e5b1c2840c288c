"""Where the liquor and the blue are after straining."""

from __future__ import annotations

from typing import Final

from bluewright.science.strain.record import StrainAnswer
from bluewright.words.measures import amount, litres
from bluewright.words.numbers import frac
from bluewright.words.said import Said

QUESTION: Final = (
    "How much liquor and blue run out, how much stays in the leaves, and is squeezing or a rinse worth it?"
)


def said(found: StrainAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    inputs = found.inputs
    lines = [
        f"Liquor out: {litres(found.liquor_out_l)}; kept by the leaves: {litres(found.kept_l)}.",
        f"Share of the blue in the liquor: {frac(found.blue_out_frac)}.",
        f"Wringing by hand instead of draining gains {frac(found.gain_by_hand_frac)} of all the blue; "
        f"a press {frac(found.gain_by_press_frac)}.",
    ]
    rinse_l = inputs.rinse_l or inputs.leaf_kg
    verb = "gains" if inputs.rinse_l else "would gain"
    lines.append(f"A rinse of {amount(rinse_l, 'volume_l')} {verb} {frac(found.gain_by_rinse_frac)}.")
    return Said(parts=tuple(lines), cautions=found.cautions)
