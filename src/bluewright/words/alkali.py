"""How much alkali, in which parts, and what it does."""

from __future__ import annotations

from typing import Final

from bluewright.science.alkali.kinds import KINDS
from bluewright.science.alkali.record import DoseAnswer
from bluewright.science.base.bands import Band
from bluewright.words.measures import amount, dosed, dosed_band
from bluewright.words.numbers import ranged
from bluewright.words.said import Said

QUESTION: Final = "How much alkali brings this liquor to the wanted pH, in which parts, and what else does it do?"


def said(found: DoseAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    inputs, dose = found.inputs, found.dose
    of_what = f"of {KINDS[inputs.alkali.kind].words}"
    more = " more" if inputs.added_so_far else ""
    told = {caution.code for caution in found.cautions}
    if dose.p50 == 0.0:
        lines = [f"Add no more: the liquor stands at pH {ph_band(found.ph_after)} already."]
    else:
        likely = Band(p5=dose.p5, p50=dose.p50, p95=dose.p95)
        wanted = f"To bring {amount(inputs.liquor_l, 'volume_l')} to pH {inputs.target_ph:g}"
        doubled = f" If twice as much went in by mistake: {ph_band(found.ph_if_doubled)}."
        lines = [
            f"{wanted}: {dosed_band(likely, dose.unit)}{more} {of_what}.",
            _first(found),
            f"With all of it: pH {ph_band(found.ph_after)}.{doubled if 'overdose' not in told else ''}",
        ]
    if found.calcite_g.p95 and "chalk-in-pigment" not in told:
        lines.append(f"Chalk that may fall with the blue: {ranged(found.calcite_g, 'g')}.")
    if found.ammonia_room_ppm is not None and "ammonia-air" not in told:
        lines.append(f"Ammonia in the air of the room: {ranged(found.ammonia_room_ppm, 'ppm')}.")
    cautions = [caution for caution in found.cautions if caution.code != "past-target"]
    return Said(parts=tuple(lines), cautions=(*cautions, *found.limits))


def _first(found: DoseAnswer) -> str:
    if found.first_part == found.dose.p50:
        return "Add it, stir for two minutes, and read the pH once more."
    return (
        f"First add {dosed(found.first_part, found.dose.unit)}, stir for two minutes, read the pH, and ask again with "
        "what went in and that reading."
    )


def ph_band(band: Band) -> str:
    """`9.5 (9.2 to 9.8)`."""
    return f"{band.p50:.1f} ({band.p5:.1f} to {band.p95:.1f})"
