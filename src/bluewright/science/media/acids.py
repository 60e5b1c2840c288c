"""The weak acids and bases of a liquor: at which pH each gives up its hydrogen, and how that moves with temperature.

A family is an acid with all its steps (carbonic: CO2, bicarbonate, carbonate). Each step has its pK as a function
of temperature at no ionic strength. Not here: how much of each there is, nor the balance of charge (`charge`).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Grade, Sourced
from bluewright.science.base.units import GAS_CONSTANT_J_PER_MOL_K, KELVIN_OFFSET
from bluewright.science.base.validity import Studied
from bluewright.science.media.leuco import LEUCO_PKA_1, LEUCO_PKA_2
from bluewright.science.media.water import FloatOrArray, liquid

STUDIED_C: Final = Studied(low=0.0, high=60.0, unit="C", source="goldberg-2002")
"""Where the temperature formulas were measured."""

_AT_25_K: Final = 25.0 + KELVIN_OFFSET


@dataclass(frozen=True, slots=True, kw_only=True)
class PkCurve:
    """The pK of one step against temperature: pK = a/T + b + c T + d log10 T + e/T2, T in kelvin.

    `at_25` is the pK at 25 C with its range (what sources disagree by); `terms` are a, b, c, d, e.
    """

    at_25: Sourced
    terms: tuple[Sourced, ...]

    def pk(self, temp_c: FloatOrArray) -> FloatOrArray:
        """The pK at `temp_c` and no ionic strength; shapes: as `temp_c`."""
        absolute_k = temp_c + KELVIN_OFFSET
        a, b, c, d, e = (term.value for term in self.terms)
        found: FloatOrArray = a / absolute_k + b
        if c:
            found = found + c * absolute_k
        if d:
            found = found + d * np.log10(absolute_k)
        return found + e / absolute_k**2 if e else found


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """An acid with its steps, most acid first; `top_charge` is the charge with all its hydrogen on."""

    name: str
    top_charge: int
    steps: tuple[PkCurve, ...]


def _curve(
    pk25: float, *terms: float, source: str, grade: Grade = "memory", pk_range: float = 0.02, note: str = ""
) -> PkCurve:
    filled = (*terms, 0.0, 0.0, 0.0, 0.0, 0.0)[:5]
    units = ("K", "1", "1/K", "1", "K2")
    return PkCurve(
        at_25=Sourced(
            value=pk25, unit="1", source=source, low=pk25 - pk_range, high=pk25 + pk_range, grade=grade, note=note
        ),
        terms=tuple(
            Sourced(value=v, unit=u, source=source, low=v, high=v, grade=grade)
            for v, u in zip(filled, units, strict=True)
        ),
    )


def _lump(
    pk25: float, *, heat_kj_per_mol: float, source: str, grade: Grade, pk_range: float, note: str = ""
) -> PkCurve:
    """A step with a constant heat of dissociation: van 't Hoff, pK = pK25 + dH/(R ln 10) (1/T - 1/T25)."""
    a = heat_kj_per_mol * 1000.0 / (GAS_CONSTANT_J_PER_MOL_K * math.log(10.0))
    return _curve(pk25, a, pk25 - a / _AT_25_K, source=source, grade=grade, pk_range=pk_range, note=note)


FAMILIES: Final[dict[str, Family]] = {
    "ammonia": Family(
        name="ammonia", top_charge=1,
        steps=(_curve(9.244, 2835.76, -0.6322, 0.001225, source="bates-pinching-1949"),),
    ),
    "carbonic": Family(
        name="carbonic", top_charge=0,
        steps=(
            _curve(6.352, -21834.37, 356.3094, 0.06091964, -126.8339, 1684915.0, source="plummer-busenberg-1982"),
            _curve(10.329, -5151.79, 107.8871, 0.03252849, -38.92561, 563713.9, source="plummer-busenberg-1982"),
        ),
    ),
    "lactic": Family(
        name="lactic", top_charge=0, steps=(_curve(3.860, 1286.49, -4.8607, 0.014776, source="nims-smith-1936"),)
    ),
    "acetic": Family(
        name="acetic", top_charge=0, steps=(_curve(4.756, 1170.48, -3.1649, 0.013399, source="harned-ehlers-1933"),)
    ),
    "citric": Family(
        name="citric", top_charge=0,
        steps=(
            _curve(3.128, 1255.6, -4.5635, 0.011673, source="bates-pinching-1949b"),
            _curve(4.761, 1585.2, -5.4460, 0.016399, source="bates-pinching-1949b"),
            _curve(6.396, 1814.9, -6.3664, 0.022389, source="bates-pinching-1949b"),
        ),
    ),
    "malic": Family(
        name="malic", top_charge=0,
        steps=(
            _lump(3.459, heat_kj_per_mol=2.95, source="goldberg-2002", grade="memory", pk_range=0.02),
            _lump(5.097, heat_kj_per_mol=1.18, source="goldberg-2002", grade="memory", pk_range=0.06),
        ),
    ),
    "phosphate": Family(
        name="phosphate", top_charge=0,
        steps=(
            _curve(2.148, 799.31, -4.5535, 0.013486, source="bates-1951"),
            _curve(7.198, 2073.0, -5.9884, 0.020912, source="bates-acree-1945"),
            _lump(
                12.35, heat_kj_per_mol=14.7, source="goldberg-2002", grade="memory", pk_range=0.33,
                note="older sets print 12.67",
            ),
        ),
    ),
    "phosphate_middle": Family(
        name="phosphate_middle", top_charge=-1,
        steps=(_curve(7.198, 2073.0, -5.9884, 0.020912, source="bates-acree-1945"),),
    ),
    "phenolic_low": Family(
        name="phenolic_low", top_charge=0,
        steps=(
            _lump(
                9.0, heat_kj_per_mol=24.0, source="common-practice", grade="guess", pk_range=0.5,
                note="caffeic and catechol-like leaf phenolics, 8.5 to 9.5; heat as of phenol",
            ),
        ),
    ),
    "phenolic_high": Family(
        name="phenolic_high", top_charge=0,
        steps=(
            _lump(
                10.0, heat_kj_per_mol=23.6, source="goldberg-2002", grade="measured", pk_range=0.4,
                note="phenol, standing for simple phenolics and for amino acids",
            ),
        ),
    ),
    "sulphurous": Family(
        name="sulphurous", top_charge=0,
        steps=(
            _curve(1.85, 0.0, 1.85, source="goldberg-2002", pk_range=0.1, note="taken as the same at all temperatures"),
            _curve(7.20, 0.0, 7.20, source="goldberg-2002", pk_range=0.1, note="taken as the same at all temperatures"),
        ),
    ),
    "leuco_indigo": Family(
        name="leuco_indigo", top_charge=0,
        steps=tuple(
            _curve(pka.value, 0.0, pka.value, source=pka.source, pk_range=0.3, note=pka.note)
            for pka in (LEUCO_PKA_1, LEUCO_PKA_2)
        ),
    ),
}  # fmt: skip
"""The families by name, with the sources of their pK; `phosphate_middle` is the one step of phosphate in pH 4 to 11.
Those of leaf phenolics are judgements and matter above pH 10."""

WATER: Final = _curve(
    13.995, 4470.99, -6.0875, 0.01706, source="harned-owen-1958", pk_range=0.003,
    note="within 0.005 of the modern standard from 0 to 60 C",
)  # fmt: skip
"""The ion product of water, as -log10."""


def pkw(temp_c: FloatOrArray) -> FloatOrArray:
    """-log10 of the ion product of water (molal), at no ionic strength.

    Formula: 4470.99/T - 6.0875 + 0.01706 T. Shapes: as `temp_c`. Studied from 0 to 60 C.
    Raises InputError where water is not liquid. Source: Harned & Owen 1958.
    """
    return WATER.pk(liquid(temp_c))


def pk(name: str, *, step: int = 1, temp_c: FloatOrArray) -> FloatOrArray:
    """The pK of step `step` (1 is the most acid) of the family `name`, at no ionic strength.

    Formula: `PkCurve`. Shapes: as `temp_c`. Studied from 0 to 60 C. Raises InputError where water is not liquid.
    """
    return FAMILIES[name].steps[step - 1].pk(liquid(temp_c))
