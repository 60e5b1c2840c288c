"""Cloth and the blue on it: fibres, depths by name, water in cloth, and what of a vat's indigo ends fixed on the fibre.

Three quantities of indigo are kept apart, all pure: what is *fixed* on dry fibre after washing, what was *drawn* from
the vat for it (fixed, loose and rinsed away), and what *reduces* of what was put in. Powder is none of the three.
"""

from __future__ import annotations

import math
from typing import Final, Literal

from bluewright.science.base.sourced import Grade, Prior, Sourced

Fibre = Literal["wool", "silk", "cotton", "linen", "other_cellulose"]
"""wool and other hair; silk; cotton; linen and other bast fibres; other_cellulose: viscose, lyocell and their kin."""
Depth = Literal["pale_sky", "light", "medium", "deep", "navy"]
"""How dark, by name, palest first."""
Basis = Literal["conditioned", "dry"]
"""How cloth was weighed: `conditioned` as it hangs in the air of a room, or bone `dry` from the oven."""

PROTEIN: Final[frozenset[Fibre]] = frozenset({"wool", "silk"})
"""Fibres of animals, which strong alkali harms; the others are cellulose."""

REGAIN_FRAC: Final[dict[Fibre, Sourced]] = {
    "wool": Sourced(
        value=0.16, unit="1", source="common-practice", low=0.136, high=0.1825, grade="memory",
        note="commercial allowances run from 13.6 to 18.25 % by kind of yarn and country",
    ),
    "silk": Sourced(
        value=0.11, unit="1", source="common-practice", low=0.10, high=0.11, grade="memory", note="commercial allowance"
    ),
    "cotton": Sourced(
        value=0.085, unit="1", source="common-practice", low=0.07, high=0.085, grade="memory",
        note="commercial allowance; 7 % in America",
    ),
    "linen": Sourced(
        value=0.12, unit="1", source="common-practice", low=0.0875, high=0.12, grade="memory",
        note="commercial allowance, 12 % of flax and hemp, 8.75 % of linen yarn in America",
    ),
    "other_cellulose": Sourced(
        value=0.13, unit="1", source="common-practice", low=0.11, high=0.13, grade="memory",
        note="commercial allowance of viscose; 11 % in America",
    ),
}  # fmt: skip
"""Water in cloth that hangs in a room, as a share of its dry mass."""


def dry_kg(mass_kg: float, *, fibre: Fibre, basis: Basis = "conditioned") -> float:
    """Dry fibre in `mass_kg` of cloth: mass / (1 + regain) for conditioned cloth, the mass itself for dry cloth."""
    return mass_kg if basis == "dry" else mass_kg / (1.0 + REGAIN_FRAC[fibre].value)


def conditioned_kg(mass_kg: float, *, fibre: Fibre, basis: Basis) -> float:
    """What `mass_kg` of cloth weighs as it hangs in a room: mass (1 + regain) for dry cloth, else the mass itself."""
    return mass_kg * (1.0 + REGAIN_FRAC[fibre].value) if basis == "dry" else mass_kg


def _between(low: float, high: float, *, grade: Grade = "guess", note: str = "", unit: str = "1") -> Prior:
    """A log-normal whose middle two thirds lie between two printed bounds: median sqrt(low high), sd ln(high/low)/2.

    Two thirds, not nine tenths: sources disagree by two to three times on what a depth takes.
    """
    return Prior(
        kind="lognormal", centre=math.sqrt(low * high), spread=math.log(high / low) / 2, unit=unit,
        source="bluewright-cloth", grade=grade, note=note or f"{low:g} to {high:g}, the middle two thirds",
    )  # fmt: skip


_CELLULOSE: Final[dict[Depth, Prior]] = {
    "pale_sky": _between(0.001, 0.003),
    "light": _between(0.003, 0.007),
    "medium": _between(0.007, 0.015),
    "deep": _between(0.015, 0.025),
    "navy": _between(0.025, 0.04),
}
FIXED_FRAC: Final[dict[Fibre, dict[Depth, Prior]]] = {
    "wool": {
        "pale_sky": _between(0.002, 0.004),
        "light": _between(0.004, 0.008),
        "medium": _between(0.008, 0.018),
        "deep": _between(0.018, 0.03),
        "navy": _between(0.03, 0.05),
    },
    "silk": {
        "pale_sky": _between(0.0015, 0.004),
        "light": _between(0.004, 0.008),
        "medium": _between(0.008, 0.015),
        "deep": _between(0.015, 0.025),
        "navy": _between(0.025, 0.04),
    },
    "cotton": _CELLULOSE,
    "linen": _CELLULOSE,
    "other_cellulose": _CELLULOSE,
}
"""Pure indigo fixed on the fibre after washing, as a share of its dry mass. Linen and the other celluloses stand as
cotton does: no figure of their own was found."""
FIXED_TYPED_SD: Final = Sourced(
    value=0.095, unit="1", source="bluewright-cloth", low=0.05, high=0.2, grade="guess",
    note="log-sd of a share that was aimed at by one's own swatches: times or over 1.10",
)  # fmt: skip

POWDER_OFFERED_FRAC: Final[dict[Depth, Sourced]] = {
    "pale_sky": Sourced(value=0.01, unit="1", source="apple-oak-usage", low=0.01, high=0.01, grade="measured"),
    "light": Sourced(value=0.025, unit="1", source="common-practice", low=0.02, high=0.03, grade="practice"),
    "medium": Sourced(value=0.05, unit="1", source="apple-oak-usage", low=0.05, high=0.05, grade="measured"),
    "deep": Sourced(value=0.09, unit="1", source="common-practice", low=0.08, high=0.10, grade="practice"),
    "navy": Sourced(
        value=0.12, unit="1", source="apple-oak-usage", low=0.12, high=0.14, grade="measured", note="12 % and more"
    ),
}
"""Bought powder that recipes put into the vat, as a share of the cloth: only to hold one's own figures against."""
POWDER_PURE_FRAC: Final = Sourced(
    value=0.385, unit="1", source="apple-oak-usage", low=0.35, high=0.42, grade="measured",
    note="indigotin in the powder that those recipes mean",
)  # fmt: skip

DIPS: Final[dict[Depth, dict[Literal["wool", "silk", "cellulose"], tuple[int, int]]]] = {
    "pale_sky": {"cellulose": (1, 2), "wool": (1, 1), "silk": (1, 1)},
    "light": {"cellulose": (2, 3), "wool": (1, 2), "silk": (1, 2)},
    "medium": {"cellulose": (3, 6), "wool": (2, 3), "silk": (2, 4)},
    "deep": {"cellulose": (6, 10), "wool": (3, 5), "silk": (4, 6)},
    "navy": {"cellulose": (10, 20), "wool": (5, 8), "silk": (6, 10)},
}
"""Dips that a depth usually takes, fewest and most; a judgement, no source."""

WORKING_G_PER_L: Final[dict[Depth, Prior]] = {
    "pale_sky": _between(0.2, 0.5, unit="g/L"),
    "light": _between(0.3, 0.8, unit="g/L"),
    "medium": _between(0.5, 1.5, unit="g/L"),
    "deep": _between(1.5, 3.0, unit="g/L"),
    "navy": _between(3.0, 5.0, unit="g/L"),
}
"""Reduced, dissolved indigo in the vat at which a depth is usually dyed."""


def _share(centre: float, spread: float, *, note: str = "") -> Prior:
    return Prior(
        kind="logitnormal", centre=centre, spread=spread, unit="1", source="bluewright-cloth", grade="guess", note=note
    )


FIXED_OF_DRAWN_FRAC: Final[dict[Fibre, Prior]] = {
    "wool": _share(0.82, 0.5, note="0.6 to 0.95 over all fibres, wool high"),
    "silk": _share(0.80, 0.5),
    "cotton": _share(0.72, 0.5, note="cotton low; of vat dyes in mills 5 to 20 % is said to stay unfixed"),
    "linen": _share(0.70, 0.5),
    "other_cellulose": _share(0.70, 0.6),
}
"""Of what the cloth takes from the vat, the share that is fixed after washing: the rest is loose, or rinsed away."""
LOOSE_FRAC: Final[dict[Literal["well_run", "strong_dips"], Prior]] = {
    "well_run": _share(0.09, 0.35, note="5 to 15 %"),
    "strong_dips": _share(0.29, 0.28, note="20 to 40 %, cotton dipped in a strong vat"),
}
"""Of what cloth carries when it leaves the vat, the share that washes off: a part of what is not fixed above."""
REDUCES_FRAC: Final = _share(0.88, 0.7, note="0.70 to 0.98; coarse powder and a cold vat stand low")
"""Of the pure indigo put into a vat, the share that is really reduced; the rest lies in the sediment."""
