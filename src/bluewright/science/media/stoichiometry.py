"""How much indigo can a gram of each precursor become, and how much oxygen does that take?

Two molecules of indoxyl, each set free from one molecule of precursor, join to one of indigo:

    2 C8H7NO + O2 -> C16H10N2O2 + 2 H2O          (or 2 O2 -> 2 H2O2 where hydrogen peroxide is left over)

All is arithmetic on formulae. Not here: how much of it happens (`steep`, `air`).
"""

from __future__ import annotations

import re
from typing import Final, Literal

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Sourced

ATOMIC_WEIGHT: Final[dict[str, Sourced]] = {
    "H": Sourced(
        value=1.008, unit="g/mol", source="iupac-atomic-weights-2021", low=1.0078, high=1.0082, grade="measured"
    ),
    "C": Sourced(
        value=12.011, unit="g/mol", source="iupac-atomic-weights-2021", low=12.009, high=12.013, grade="measured"
    ),
    "N": Sourced(
        value=14.007, unit="g/mol", source="iupac-atomic-weights-2021", low=14.006, high=14.008, grade="measured"
    ),
    "O": Sourced(
        value=15.999, unit="g/mol", source="iupac-atomic-weights-2021", low=15.998, high=16.000, grade="measured"
    ),
    "Na": Sourced(
        value=22.990, unit="g/mol", source="iupac-atomic-weights-2021", low=22.989, high=22.991, grade="measured"
    ),
    "S": Sourced(
        value=32.06, unit="g/mol", source="iupac-atomic-weights-2021", low=32.04, high=32.08, grade="measured"
    ),
    "Ca": Sourced(
        value=40.078, unit="g/mol", source="iupac-atomic-weights-2021", low=40.074, high=40.082, grade="measured"
    ),
    "Fe": Sourced(
        value=55.845, unit="g/mol", source="iupac-atomic-weights-2021", low=55.843, high=55.847, grade="measured"
    ),
}
"""Abridged standard atomic weights (IUPAC 2021) with the uncertainty given there."""

Compound = Literal[
    "indoxyl", "indican", "isatan_a", "isatan_b", "isatan_b_gluconate",
    "indigo", "indirubin", "leuco_indigo", "isatin", "tryptanthrin", "oxygen", "hydrogen_peroxide",
]  # fmt: skip
Precursor = Literal["indoxyl", "indican", "isatan_a", "isatan_b", "isatan_b_gluconate"]

FORMULA: Final[dict[Compound, str]] = {
    "indoxyl": "C8H7NO",
    "indican": "C14H17NO6",
    "isatan_a": "C17H17NO9",
    "isatan_b": "C14H15NO6",
    "isatan_b_gluconate": "C14H15NO7",
    "indigo": "C16H10N2O2",
    "indirubin": "C16H10N2O2",
    "leuco_indigo": "C16H12N2O2",
    "isatin": "C8H5NO2",
    "tryptanthrin": "C15H8N2O2",
    "oxygen": "O2",
    "hydrogen_peroxide": "H2O2",
}
"""Molecular formulae. `indican` without crystal water. `isatan_b` is the indoxyl ribohex-3-ulopyranoside of today's
literature, `isatan_a` its malonyl ester; `isatan_b_gluconate` is the older structure (indoxyl 5-ketogluconate) on which
figures before about 2000 rest."""

_ATOM = re.compile(r"([A-Z][a-z]?)(\d*)")


def molar_mass_g_per_mol(formula: str) -> float:
    """The molar mass of a formula of the elements above such as `C16H10N2O2`: the sum of its atomic weights.

    Raises InputError for a formula that does not parse or holds another element.
    """
    atoms = atoms_of(formula)
    strange = [symbol for symbol in atoms if symbol not in ATOMIC_WEIGHT]
    if strange:
        known = ", ".join(ATOMIC_WEIGHT)
        raise InputError(where="formula", what=f"no atomic weight of {strange[0]} here", right=f"use {known}")
    return float(sum(ATOMIC_WEIGHT[symbol].value * count for symbol, count in atoms.items()))


def atoms_of(formula: str) -> dict[str, int]:
    """How many of each atom a formula such as `C16H10N2O2` has. Raises InputError for one that does not parse."""
    parts = _ATOM.findall(formula)
    if not formula or "".join(symbol + count for symbol, count in parts) != formula:
        raise InputError(where="formula", what=f"'{formula}' is not a formula", right="write it like C16H10N2O2")
    found: dict[str, int] = {}
    for symbol, count in parts:
        found[symbol] = found.get(symbol, 0) + int(count or 1)
    return found


MOLAR_MASS_G_PER_MOL: Final[dict[Compound, float]] = {
    name: molar_mass_g_per_mol(formula) for name, formula in FORMULA.items()
}
"""Molar mass of each compound of `FORMULA`, g/mol."""

PRECURSOR_PER_INDIGO: Final = 2
"""Molecules of precursor, each with one indoxyl, to one of indigo or indirubin (exact)."""

INDIGO_G_PER_MMOL_PRECURSOR: Final = MOLAR_MASS_G_PER_MOL["indigo"] / PRECURSOR_PER_INDIGO / 1000
"""Grams of indigo that one millimole of any precursor can become: 0.1311."""

OXYGEN_MG_PER_G_INDIGO: Final = 1000 * MOLAR_MASS_G_PER_MOL["oxygen"] / MOLAR_MASS_G_PER_MOL["indigo"]
"""Milligrams of oxygen for a gram of indigo if water is the by-product: 122; twice that if hydrogen peroxide is."""


def indigo_g_per_g(precursor: Precursor) -> float:
    """Grams of indigo that one gram of the precursor can become: `M(indigo) / (2 M(precursor))`."""
    return MOLAR_MASS_G_PER_MOL["indigo"] / (PRECURSOR_PER_INDIGO * MOLAR_MASS_G_PER_MOL[precursor])


def indigo_g(precursor_mmol: float) -> float:
    """Grams of indigo that so many millimoles of precursor can become, and no more."""
    return INDIGO_G_PER_MMOL_PRECURSOR * precursor_mmol


def precursor_mmol(indigo_g: float) -> float:
    """Millimoles of precursor that so many grams of indigo were made of, if nothing was lost."""
    return indigo_g / INDIGO_G_PER_MMOL_PRECURSOR


def oxygen_mg(indigo_g: float, *, peroxide_frac: float = 0.0) -> float:
    """Milligrams of oxygen to make so much indigo; `peroxide_frac` is the share that leaves as hydrogen peroxide.

    Formula: 122 mg/g times 1 + peroxide_frac: half a molecule of oxygen an indoxyl when it ends as water, one when
    it ends as peroxide.
    """
    return OXYGEN_MG_PER_G_INDIGO * indigo_g * (1.0 + peroxide_frac)
