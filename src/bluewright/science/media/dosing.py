"""What moles of an alkali do to a liquor, and how many moles bring it to a pH: each of a thousand liquors at once."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.media.activity import STUDIED_IONIC_MOL_PER_L
from bluewright.science.media.alkalis import AlkaliKind
from bluewright.science.media.charge import LN10, Liquid, balance, gamma

FIRST_IONIC_MOL_PER_L: Final = 0.03
"""Ionic strength from which the passes for the activities start."""
LEAST_CHARGE: Final = 1e-9
"""Charge of a mole below which the alkali brings nothing at this pH."""
MOST_MOL_PER_L: Final = 50.0
"""More than the purest alkali holds in a litre: such a dose does not exist."""


def with_added(liquid: Liquid, *, kind: AlkaliKind, mol_per_l: Floats, growth: Floats | float) -> Liquid:
    """The liquor with `mol_per_l` of the alkali for each litre it was, and grown to `growth` litres by it."""
    totals = dict(liquid.totals_mol_per_l)
    if kind.family is not None:
        totals[kind.family] = totals.get(kind.family, np.zeros(1)) + mol_per_l
    return Liquid(
        constants=liquid.constants,
        totals_mol_per_l=totals,
        strong_mol_per_l=liquid.strong_mol_per_l + kind.charge * mol_per_l,
        calcium_mol_per_l=liquid.calcium_mol_per_l + kind.calcium * mol_per_l,
        calcite_frac=liquid.calcite_frac,
        spectator_mol_per_l=liquid.spectator_mol_per_l,
        growth=liquid.growth * growth,
    )


def mol_for_ph(liquid: Liquid, *, kind: AlkaliKind, ph: float, litres_per_mol: Floats | float) -> Floats:
    """Moles of the alkali, for each litre of the liquor, that bring it to `ph`; negative where it is above already.

    Formula: at the wanted pH every weak acid's charge is known, so that the balance of charge is linear in the moles:
    n = (-charge + chalk (2 + z)) / (e - L ([OH] - [H])), e = strong charge of a mole + charge of its own weak acid
    there, L the litres that a mole brings. The chalk obeys (Ca - x)(CO3 - x) = K' with the calcium and carbonate that
    n brings: a quadratic. Activities depend on n weakly: four passes. Infinite where the alkali cannot
    reach the pH, or only as a brine beyond what Davies was studied for.
    """
    shape = np.shape(liquid.strong_mol_per_l)
    at, reached = np.full(shape, ph), np.ones(shape, dtype=bool)
    mol: Floats = np.zeros(shape)
    ionic = np.full(shape, FIRST_IONIC_MOL_PER_L)
    for _ in range(4):
        grown = with_added(liquid, kind=kind, mol_per_l=mol, growth=1.0 + np.maximum(mol, 0.0) * litres_per_mol)
        activity = gamma(grown, ionic)
        found = balance(grown, ph=at, activity=activity)
        alkaline = grown.constants.ion_product / (10.0**-ph * activity) - 10.0**-ph / activity
        own = charge_of_mole(kind, grown, lacking_z=found.lacking_z, ph=at, activity=activity)
        own = own - litres_per_mol * alkaline
        reached &= own > LEAST_CHARGE
        own = np.where(reached, own, 1.0)
        without = mol - (found.charge_mol_per_l + found.calcite_mol_per_l * found.lacking_z) / own
        chalk = _chalk(grown, mol, without, own, kind, found.lacking_z, found.calcite_product)
        mol = without + liquid.calcite_frac * chalk * found.lacking_z / own
        ionic = found.ionic_mol_per_l
        reached &= (ionic <= STUDIED_IONIC_MOL_PER_L.high) & (mol <= MOST_MOL_PER_L)
        mol, ionic = np.where(reached, mol, 0.0), np.where(reached, ionic, FIRST_IONIC_MOL_PER_L)
    return np.where(reached, mol, np.inf)


def charge_of_mole(kind: AlkaliKind, liquid: Liquid, *, lacking_z: Floats, ph: Floats, activity: Floats) -> Floats:
    """Charge that a mole of the alkali brings at this pH, its own weak acid included (no unit).

    Formula: strong charge + (acid share of ammonia), or strong charge - 2 + `lacking_z` for a carbonate.
    Shapes: those of the arguments together.
    """
    if kind.family is None:
        return np.full(np.shape(lacking_z), float(kind.charge))
    if kind.family == "carbonic":
        return kind.charge - 2.0 + lacking_z
    share = liquid.constants.dissociation["ammonia"][0] * activity
    h = np.exp(-LN10 * ph)
    acid_frac: Floats = h / (h + share)
    return kind.charge + acid_frac


def _chalk(
    liquid: Liquid, mol: Floats, without: Floats, own: Floats, kind: AlkaliKind, left: Floats, product: Floats
) -> Floats:
    """Calcite to equilibrium when each mole of it calls for `left / own` more moles of alkali."""
    more = liquid.calcite_frac * left / own
    carbonate = 1 if kind.family == "carbonic" else 0
    pair = liquid.constants.pair_mol_per_l * liquid.growth
    calcium = liquid.calcium_mol_per_l + kind.calcium * (without - mol) - pair
    carbon = liquid.totals_mol_per_l["carbonic"] + carbonate * (without - mol) - pair
    calcium_slope, carbon_slope = 1.0 - kind.calcium * more, 1.0 - carbonate * more
    middle = calcium * carbon_slope + carbon * calcium_slope
    over = calcium * carbon - product
    root = np.sqrt(np.maximum(middle**2 - 4.0 * calcium_slope * carbon_slope * over, 0.0))
    return np.where((over > 0.0) & (middle > 0.0), 2.0 * over / np.maximum(middle + root, 1e-30), 0.0)
