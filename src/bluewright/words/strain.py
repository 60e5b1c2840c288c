"""Where the liquor and the blue are after straining."""

from __future__ import annotations

from typing import Final

from bluewright.science.strain.record import StrainAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import amount, litres
from bluewright.words.numbers import frac
from bluewright.words.said import Said

QUESTION: Final = marked(
    "How much liquor and blue run out, how much stays in the leaves, and is squeezing or a rinse worth it?"
)


def said(found: StrainAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    inputs = found.inputs
    told = {
        "out": litres(found.liquor_out_l),
        "kept": litres(found.kept_l),
        "share": frac(found.blue_out_frac),
        "hand": frac(found.gain_by_hand_frac),
        "press": frac(found.gain_by_press_frac),
        "rinse": amount(inputs.rinse_l or inputs.leaf_kg, "volume_l"),
        "gain": frac(found.gain_by_rinse_frac),
    }
    lines = [
        _("Liquor out: %(out)s; kept by the leaves: %(kept)s.") % told,
        _("Share of the blue in the liquor: %(share)s.") % told,
        _("Wringing by hand instead of draining gains %(hand)s of all the blue; a press %(press)s.") % told,
        (
            _("A rinse of %(rinse)s gains %(gain)s.")
            if inputs.rinse_l
            else _("A rinse of %(rinse)s would gain %(gain)s.")
        )
        % told,
    ]
    return Said(parts=tuple(lines), cautions=found.cautions)
