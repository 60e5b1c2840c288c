"""The liquor of a vat as a balance of charge: what its salts, sulphite, sugar acids and leuco indigo do to the pH.

Everything is for one litre and an array over members. What has been spent stands as its products; nothing else is in it
that takes part, so that the hydroxide a recipe needs is what closes the balance at the wanted pH.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.media.calcite import CALCITE_G_PER_MOL
from bluewright.science.media.charge import Liquid, constants
from bluewright.science.vat.redox import REDUCTANTS, SPECIES, Half, ReductantName

ROOM_C: Final = 25.0
"""The pH is that of a sample cooled to here: a warm meter reads up to half a unit lower."""
FAMILIES: Final = ("carbonic", "leuco_indigo", "sulphurous")
_COUNTER_CHARGE: Final[dict[ReductantName, int]] = {
    "dithionite": 2, "thiourea_dioxide": 0, "fructose": 0, "ferrous_sulphate": -2,
}  # fmt: skip
"""Charge of what is sold along with a molecule: two sodium ions, or one sulphate."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """What is in a litre, mol/L; each (members,)."""

    leuco_mol_per_l: Floats
    on_indigo_mol_per_l: Floats
    """Reductant spent on indigo."""
    on_air_mol_per_l: Floats
    """Reductant spent on oxygen, or that will be."""
    acids_mol_per_l: Floats
    """Other strong enough acids, of sugar or bran."""
    alkalinity_mg_caco3_l: Floats
    hardness_mg_caco3_l: Floats


def liquid(contents: Contents, *, reductant: ReductantName | None) -> Liquid:
    """The liquor without its alkali, ready for `dosing.mol_for_ph`.

    Formula: strong ions = 2 Na of dithionite or -SO4 of copperas, - sulphate, sugar acids and other acids + the
    water's own; sulphite, carbonate and leuco indigo find their charge by their acidity constants. Raises nothing.
    """
    nothing = np.zeros_like(contents.leuco_mol_per_l)
    strong, sulphite = -contents.acids_mol_per_l, nothing
    if reductant is not None:
        found = REDUCTANTS[reductant]
        for spent, half in ((contents.on_indigo_mol_per_l, found.to_indigo), (contents.on_air_mol_per_l, found.to_air)):
            strong = strong + spent * (_COUNTER_CHARGE[reductant] + _spectators(half))
            sulphite = sulphite + spent * half.makes.get("sulphite", 0)
    carbonate = contents.alkalinity_mg_caco3_l / (1000.0 * CALCITE_G_PER_MOL.value) * 2.0
    return Liquid(
        constants=constants(np.full_like(nothing, ROOM_C), families=FAMILIES),
        totals_mol_per_l={"carbonic": carbonate, "leuco_indigo": contents.leuco_mol_per_l, "sulphurous": sulphite},
        strong_mol_per_l=strong + carbonate,
        calcium_mol_per_l=contents.hardness_mg_caco3_l / (1000.0 * CALCITE_G_PER_MOL.value),
        calcite_frac=np.ones_like(nothing),
    )


def _spectators(half: Half) -> int:
    """Charge of the products that stays whatever the pH: sulphate and sugar acids."""
    return sum(count * SPECIES[name][1] for name, count in half.makes.items() if name in {"sulphate", "sugar_acid"})
