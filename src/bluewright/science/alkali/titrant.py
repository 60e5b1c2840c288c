"""An alkali as it is measured out: moles in a millilitre or a gram, and how sure that is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.alkali.record import Alkali
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.alkali_kind import Kind
from bluewright.science.media.alkalis import KINDS, SOLUTION_PURITY, UNLABELLED_AMMONIA, AlkaliKind
from bluewright.science.media.ammonia import STRENGTH, ammonia_mol_per_l
from bluewright.science.media.solutions import density_kg_per_l

ROOM_C: Final = 20.0
"""Temperature at which bottles and syringes are taken to be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Titrant:
    """An alkali ready to be added: `nominal_mol` in one unit of its measure, times a strength drawn from `purity`."""

    kind: AlkaliKind
    nominal_mol: float
    purity: Prior
    dissolved: bool

    def mol_per_unit(self, z: Floats) -> Floats:
        """Moles in a millilitre or gram at standard score `z` of the strength."""
        return self.nominal_mol * self.purity.from_z(z)


def titrant(alkali: Alkali) -> Titrant:
    """The alkali of the record as a titrant; an ammonia bottle without a label is taken as household ammonia."""
    kind = KINDS[alkali.kind]
    dissolved = alkali.unit == "ml"
    if alkali.mol_per_l is not None:
        purity = kind.purity if alkali.kind == "ash_lye" else SOLUTION_PURITY
        return Titrant(kind=kind, nominal_mol=alkali.mol_per_l / 1000.0, purity=purity, dissolved=True)
    if alkali.kind == "ammonia":
        percent = alkali.percent_w_w or UNLABELLED_AMMONIA.centre
        strength = ammonia_mol_per_l(percent, temp_c=ROOM_C, label_as=alkali.label_as)
        purity = STRENGTH["opened" if alkali.opened else "sealed"]
        if alkali.percent_w_w is None:
            purity = _wider(purity, UNLABELLED_AMMONIA.spread)
        return Titrant(kind=kind, nominal_mol=strength / 1000.0, purity=purity, dissolved=True)
    if alkali.percent_w_w is not None and kind.solute is not None:
        share = alkali.percent_w_w / 100.0
        strength = 1000.0 * share * density_kg_per_l(share, solute=kind.solute, temp_c=ROOM_C) / kind.molar.value
        return Titrant(kind=kind, nominal_mol=strength / 1000.0, purity=SOLUTION_PURITY, dissolved=True)
    return Titrant(kind=kind, nominal_mol=1.0 / kind.molar.value, purity=kind.purity, dissolved=dissolved)


def made_up_mol_per_l(dry_g: float, *, solution_l: float, kind: Kind) -> float:
    """Strength of a solution made up from the dry alkali, mol/L.

    Formula: g / L / g/mol * purity, the middle purity as sold (soda ash 0.98, potassium lye 0.87).
    Raises InputError for ammonia and ash lye, which nobody weighs out dry.
    """
    if kind in {"ammonia", "ash_lye"}:
        raise InputError(
            where="mol_per_l",
            what=f"{KINDS[kind].words} is not made up from a dry alkali",
            right="give the per cent on the label" if kind == "ammonia" else "titrate it with vinegar and give mol/L",
        )
    return dry_g / KINDS[kind].molar.value / solution_l * KINDS[kind].purity.centre


def _wider(prior: Prior, spread: float) -> Prior:
    return Prior(
        kind="lognormal", centre=prior.centre, spread=float(np.hypot(prior.spread, spread)), unit=prior.unit,
        source=prior.source, grade=prior.grade, note="no strength on the label",
    )  # fmt: skip
