"""What to be careful of in dyeing, with this case's figures."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.validity import Studied
from bluewright.science.dyeing.dips import Way
from bluewright.science.dyeing.priors import USUAL_C, USUAL_PH
from bluewright.science.media.cloth import PROTEIN

VAT: Final = caution(
    "vat-chemicals",
    "Vat liquor is alkaline and carries a reducing agent: gloves and goggles, out of doors or at an open window, "
    "and what the labels of both say. Lift wet cloth with help: it weighs three times as much.",
)
NO_ACID: Final = caution(
    "acid-on-reductant",
    "Never put vinegar or any acid to a vat or to cloth that still carries dithionite or thiourea dioxide: they "
    "give off choking sulfur gases. Rinse until the water smells of nothing, and sour the cloth out of doors.",
)
PROTEIN_PH: Final = 10.0
"""Above this wool and silk suffer, the longer the more (common practice)."""
STRENGTH: Final = Studied(low=0.05, high=8.0, unit="g/L", source="common-practice", grade="practice")
DIP_MIN: Final = Studied(low=0.3, high=120.0, unit="min", source="common-practice", grade="practice")


def dye_cautions(way: Way, *, active_g_per_l: float) -> Iterator[Caution]:
    """People first, then the cloth, then what the figures are not good for."""
    yield VAT
    yield NO_ACID
    if way.fibre in PROTEIN and way.ph > PROTEIN_PH:
        yield caution(
            "alkali-harms-fibre",
            f"pH {way.ph:.1f} makes {way.fibre} harsh and weak; stay at {USUAL_PH[way.fibre].value:.1f} or so, and dip "
            "briefly.",
        )
    if not STRENGTH.holds(active_g_per_l):
        yield caution(
            "outside-range",
            f"{active_g_per_l:.2g} g/L lies outside the {STRENGTH.low:g} to {STRENGTH.high:g} g/L that people dye in.",
        )
    if not DIP_MIN.holds(way.dip_min):
        yield caution(
            "outside-range",
            f"Dips of {way.dip_min:g} minutes lie outside the {DIP_MIN.low:g} to {DIP_MIN.high:g} this is meant for.",
        )
    if abs(way.temp_c - USUAL_C[way.fibre].value) > 15:
        yield caution(
            "outside-range",
            f"{way.temp_c:g} °C is far from the usual {USUAL_C[way.fibre].value:g} °C: how warmth changes uptake is "
            "known for silk only.",
        )


def only_guesses() -> Caution:
    """Nothing of one's own is in it."""
    return caution(
        "only-guesses",
        "All this rests on starting guesses, which differ two to three times between sources: dye a ladder of 1, 2, 4 "
        "and 8 dips and it learns your vat, your cloth and your hand.",
    )


def emptied(left_frac: float) -> Caution:
    """The vat is used up before the last dip."""
    return caution(
        "vat-emptied",
        f"After the last dip the vat has {100 * left_frac:.0f}% of its strength left: later dips give little. Put in "
        "new stock between dips, or dye less cloth in it.",
    )


def no_further() -> Caution:
    """More dips hardly darken."""
    return caution(
        "no-further",
        "The last dips hardly darken it: a dip takes off as much as it gives, or the light finds no more white. A "
        "stronger vat goes further than more dips.",
    )


def out_of_reach(nearest_de00: float) -> Caution:
    """A colour that indigo alone does not make here."""
    return caution(
        "out-of-reach",
        f"Even the likeliest nearest is {nearest_de00:.1f} CIEDE2000 away: this cloth and indigo hardly make that. "
        "Was the swatch on another ground, from another plant, or dyed over?",
    )


def few_rungs(swatches: int) -> Caution:
    """A ladder too short to be one."""
    return caution(
        "few-rungs",
        f"{swatches} swatch{'' if swatches == 1 else 'es'} cannot tell uptake, strip-back and colour apart: most "
        "of what is told is still the starting guess. See which rung would teach most.",
    )


def misfit(factor: float) -> Caution:
    """Swatches that do not follow the model."""
    return caution(
        "ladder-misfit",
        f"The swatches lie {factor:.1f} times as far from any course of dips as their errors allow: the errors were "
        "widened by that. Was one mixed up, or the vat fed or warmed between?",
    )
