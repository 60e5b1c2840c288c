"""The alkalis: what a mole of each brings, how pure it is as sold, and how much of it dissolves."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final, Literal

import numpy as np

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.media.alkali_kind import Kind
from bluewright.science.media.solutions import Solute


@dataclass(frozen=True, slots=True, kw_only=True)
class AlkaliKind:
    """One alkali as data.

    `charge` is the strong positive charge that a mole brings (2 for soda: two sodium); `family` the weak acid that
    comes with it; `calcium` moles of calcium; `purity` true strength over the nominal one; `solubility_by_c` grams in
    100 g of water by temperature (C); `runaway`: nothing holds the pH back when too much is added.
    """

    words: str
    molar: Sourced
    charge: int
    family: Literal["ammonia", "carbonic"] | None
    purity: Prior
    calcium: int = 0
    runaway: bool = False
    solute: Solute | None = None
    solubility_by_c: dict[float, Sourced] = field(default_factory=dict)

    def solubility_g_per_l(self, temp_c: float) -> float:
        """Grams that dissolve in a litre of water, by straight lines between the rows of `solubility_by_c`."""
        return 10.0 * float(
            np.interp(temp_c, list(self.solubility_by_c), [s.value for s in self.solubility_by_c.values()])
        )


def _molar(value: float, note: str = "") -> Sourced:
    return Sourced(
        value=value, unit="g/mol", source="iupac-atomic-weights-2021", low=value - 0.01, high=value + 0.01,
        grade="exact", note=note,
    )  # fmt: skip


def _purity(centre: float, spread: float, note: str) -> Prior:
    return Prior(
        kind="lognormal", centre=centre, spread=spread, unit="1", source="common-practice", grade="practice", note=note
    )


def _dissolves(*rows: tuple[float, float], rel_range: float = 0.05) -> dict[float, Sourced]:
    return {
        temp: Sourced(
            value=g, unit="g/100 g", source="seidell-1940", low=g * (1 - rel_range), high=g * (1 + rel_range),
            grade="memory",
        )
        for temp, g in rows
    }  # fmt: skip


_SODA = _dissolves((0.0, 7.0), (10.0, 12.5), (20.0, 21.5), (30.0, 39.7), (40.0, 49.0))
_POTASH = _dissolves((0.0, 105.0), (20.0, 111.0), (40.0, 117.0), (60.0, 127.0))

KINDS: Final[dict[Kind, AlkaliKind]] = {
    "ammonia": AlkaliKind(
        words="ammonia", molar=_molar(17.031), charge=0, family="ammonia", solute="ammonia",
        purity=_purity(1.0, 0.05, "a fresh bottle against its label; an opened one is in `media.ammonia`"),
    ),
    "soda_ash": AlkaliKind(
        words="soda ash", molar=_molar(105.99, "Na2CO3"), charge=2, family="carbonic", solubility_by_c=_SODA,
        purity=_purity(0.98, 0.02, "dry and closed; takes up water and CO2 from the air"),
    ),
    "washing_soda": AlkaliKind(
        words="washing soda crystals", molar=_molar(286.14, "Na2CO3 10 H2O"), charge=2, family="carbonic",
        solubility_by_c=_dissolves((0.0, 21.0), (10.0, 41.0), (20.0, 92.0), (30.0, 280.0)),
        purity=_purity(1.10, 0.12, "clear crystals; a white crust has lost water and is stronger, up to 2.7 times"),
    ),
    "potash": AlkaliKind(
        words="potash", molar=_molar(138.21, "K2CO3"), charge=2, family="carbonic", solubility_by_c=_POTASH,
        purity=_purity(0.95, 0.05, "draws water from the air"),
    ),
    "lye": AlkaliKind(
        words="lye (sodium hydroxide)", molar=_molar(40.00, "NaOH"), charge=1, family=None, runaway=True,
        solute="sodium_hydroxide",
        purity=_purity(0.97, 0.02, "beads or flakes from a closed tin"),
    ),
    "potassium_lye": AlkaliKind(
        words="potassium lye", molar=_molar(56.11, "KOH"), charge=1, family=None, runaway=True,
        solute="potassium_hydroxide",
        purity=_purity(0.87, 0.03, "sold as 85 to 90 per cent, the rest water"),
    ),
    "slaked_lime": AlkaliKind(
        words="slaked lime", molar=_molar(74.09, "Ca(OH)2"), charge=2, family=None, calcium=1, runaway=True,
        purity=_purity(0.90, 0.08, "old lime has turned partly to chalk; dolomitic lime is nearly half inert"),
    ),
    "ash_lye": AlkaliKind(
        words="wood-ash lye", molar=_molar(138.21, "counted as K2CO3"), charge=2, family="carbonic",
        purity=_purity(1.0, 0.10, "as titrated; some of it may be caustic"),
    ),
}  # fmt: skip
"""The alkalis by the names of the record. Solubilities by Seidell and later handbooks, from memory."""

SOLUTION_PURITY: Final = _purity(1.0, 0.03, "a solution of stated mol/L")
UNLABELLED_AMMONIA: Final = Prior(
    kind="lognormal", centre=5.0, spread=0.45, unit="% w/w", source="common-practice", grade="practice",
    note="household ammonia is 2 to 10 %",
)  # fmt: skip
