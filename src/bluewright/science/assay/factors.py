"""Indigo for a millilitre of titrant or a gram of nitrogen: arithmetic on formulae."""

from __future__ import annotations

from typing import Final, Literal

from bluewright.science.assay.priors import INDIGO_G_PER_MOL
from bluewright.science.base.sourced import Sourced
from bluewright.science.media.stoichiometry import ATOMIC_WEIGHT

Titrant = Literal["dithionite", "permanganate", "titanium"]

ELECTRONS: Final[dict[Titrant, tuple[int, int]]] = {
    "dithionite": (2, 2),
    "permanganate": (4, 5),
    "titanium": (2, 1),
}
"""Electrons that a molecule of indigo takes or gives, and one of titrant: to leuco indigo 2, to isatin 4."""

DITHIONITE_G_PER_MOL: Final = Sourced(
    value=174.10, unit="g/mol", source="iupac-atomic-weights-2021", low=174.0, high=174.2, grade="exact",
    note="sodium dithionite, Na2S2O4",
)  # fmt: skip
CALCIUM_G_PER_MOL: Final = Sourced(
    value=40.078, unit="g/mol", source="iupac-atomic-weights-2021", low=40.074, high=40.082, grade="measured"
)
NITROGEN_PER_PROTEIN: Final = Sourced(
    value=6.25, unit="1", source="common-practice", low=5.3, high=6.4, grade="practice",
    note="protein for its nitrogen by mass: protein holds 16 %",
)  # fmt: skip


def indigo_mg_per_ml(titrant: Titrant, *, titrant_mol_per_l: float) -> float:
    """Indigo that one millilitre of titrant stands for: M c (electrons of titrant) / (electrons of indigo)."""
    indigo, one = ELECTRONS[titrant]
    return INDIGO_G_PER_MOL * titrant_mol_per_l * one / indigo


def indigo_g_per_g_dithionite() -> float:
    """Indigo that one gram of pure sodium dithionite reduces: 1.506."""
    return INDIGO_G_PER_MOL / DITHIONITE_G_PER_MOL.value


def indigo_g_per_g_nitrogen() -> float:
    """Indigo for a gram of nitrogen, if all of it is indigo's: M / (2 x 14.007) = 9.362."""
    return INDIGO_G_PER_MOL / (2 * ATOMIC_WEIGHT["N"].value)
