"""How dry the paste is, how long it still takes, and what will be left."""

from __future__ import annotations

from typing import Final

from bluewright.science.settle.drying_record import DryAnswer
from bluewright.words.numbers import frac, hours, ranged, rough
from bluewright.words.said import Said

QUESTION: Final = "How dry is the paste, when is it dry, and how much pigment will be left?"


def said(found: DryAnswer) -> Said:
    """The answer as a person at the scale reads it."""
    lines = [f"Air-dry it will weigh {ranged(found.end_g, 'g')}; without any water {ranged(found.dry_g, 'g')}."]
    lines.append(f"Water in it now: {frac(found.moisture_now_frac)}.")
    lines.append(_when(found))
    if found.basis == "prior":
        lines.append("That is a guess from the air and the layer: three weighings some hours apart tell much more.")
    return Said(parts=tuple(lines), cautions=found.cautions)


def _when(found: DryAnswer) -> str:
    if found.rule_met:
        return "It is dry: a day takes less than a hundredth of it."
    if found.left_h.p50 < 1:
        return (
            "Perhaps dry already (a day takes less than a hundredth of it), at the latest "
            f"{rough(found.left_h.p95)} h after the last weighing; a weighing tells."
        )
    return f"Dry (a day takes less than a hundredth of it) {hours(found.left_h)} after the last weighing."
