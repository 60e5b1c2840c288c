"""What growers and laboratories got from a kilogram of leaf, to hold a potential against."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Sourced
from bluewright.science.media.basket import Plant

PUBLISHED_YIELDS: Final[dict[Plant, tuple[Sourced, ...]]] = {
    "woad": (
        Sourced(
            value=2.0, unit="g/kg", source="bluewright-leaf", low=1.0, high=2.5, grade="practice",
            note="trade in France and Britain, a tonne of leaf for 1 to 2.5 kg of pigment said to be pure",
        ),
        Sourced(
            value=0.16, unit="g/kg", source="bluewright-leaf", low=0.15, high=0.25, grade="practice",
            note="a German handbook, 0.12% of dry matter: the lowest found",
        ),
        Sourced(
            value=4.19, unit="g/kg", source="comlekcioglu-2015", low=2.53, high=4.19, grade="measured",
            note="in the laboratory, by spectrophotometer",
        ),
    ),
    "japanese_indigo": (
        Sourced(
            value=3.5, unit="g/kg", source="bluewright-leaf", low=3.0, high=4.0, grade="memory",
            note="an encyclopaedia's figure from leaf without stems",
        ),
        Sourced(
            value=0.7, unit="g/kg", source="hartl-vogl-2003", low=0.35, high=1.02, grade="measured",
            note="0.22 to 0.64% indigo in dry matter of whole herb, reckoned at 16% dry matter",
        ),
    ),
    "indigofera": (
        Sourced(
            value=0.66, unit="g/kg", source="hartl-2024", low=0.58, high=0.75, grade="measured",
            note="Indigofera tinctoria, boiled, limed, washed with acid; as pure indigotin",
        ),
    ),
}  # fmt: skip
"""Indigo for each kilogram of fresh leaf, as published; where it does not say pure, it may be crude."""
