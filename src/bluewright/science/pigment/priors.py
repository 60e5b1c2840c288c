"""What is believed of a jar before it is weighed: potential, shares kept at each step, purity, moisture."""

from __future__ import annotations

from dataclasses import replace
from typing import Final, Literal

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.media.basket import Plant
from bluewright.science.media.precursor import CONTENT
from bluewright.science.media.stoichiometry import INDIGO_G_PER_MMOL_PRECURSOR

Step = Literal["steep", "strain", "conversion", "wash", "dry"]
STEPS: Final[tuple[Step, ...]] = ("steep", "strain", "conversion", "wash", "dry")

POTENTIAL_G_PER_KG: Final[dict[Plant, Prior]] = {
    plant: replace(content, centre=content.centre * INDIGO_G_PER_MMOL_PRECURSOR, unit="g/kg")
    for plant, content in CONTENT.items()
}
"""Pure indigo that a kilogram of fresh leaf could give if nothing were lost (0.131 g for each mmol)."""


def _kept(centre: float, spread: float, note: str) -> Prior:
    return Prior(
        kind="logitnormal", centre=centre, spread=spread, unit="1", source="bluewright-yield", grade="guess", note=note
    )


STEEP: Final[dict[Plant, Prior]] = {
    "woad": _kept(0.72, 0.8, "0.4 to 0.9 at ordinary straining times"),
    "japanese_indigo": _kept(0.62, 0.8, "slower to give, and its unsplit indican is lost on alkali"),
    "indigofera": _kept(0.72, 0.8, "0.4 to 0.9 at ordinary straining times"),
}
"""Share of the potential that is dissolved, split and not yet lost when the leaf is taken out."""

STRAIN: Final = _kept(0.85, 0.5, "drained leaf keeps about 1.3 L/kg of the liquor")
WASH: Final = _kept(0.89, 0.7, "settle, decant, filter: 0.7 to 0.97")
DRY: Final = _kept(0.97, 0.6, "dry, grind, move from dish to jar: 0.93 to 0.99")
KEPT: Final = Prior(
    kind="logitnormal", centre=WASH.centre * DRY.centre, spread=0.7, unit="1", source=WASH.source, grade="guess",
    note="share kept in settling, washing, drying and moving to the jar, together",
)  # fmt: skip

WASH_BY_SIGN: Final[tuple[Prior, ...]] = (
    _kept(0.95, 0.5, "decanted clear"),
    _kept(0.89, 0.5, "a blue cast in the decant"),
    _kept(0.75, 0.5, "plainly blue decant"),
    _kept(0.55, 0.6, "dark blue decant"),
)
"""Share kept in settling and washing by how blue the decanted liquor was, 0 to 3."""

CONVERSION: Final = _kept(0.66, 0.6, "indoxyl to indigo, side products: 0.4 to 0.85")
CONVERSION_SPREAD: Final = 0.55
"""Standard deviation of the logit once the pH is known: 0.12 as a share."""

CONVERSION_BY_PH: Final[tuple[tuple[float, Sourced], ...]] = tuple(
    (ph, Sourced(value=share, unit="1", source="bluewright-yield", low=share - 0.12, high=share + 0.12, grade="guess"))
    for ph, share in ((5.5, 0.55), (7.0, 0.65), (9.0, 0.75), (10.0, 0.80), (11.0, 0.80), (12.0, 0.72), (13.0, 0.60))
)
"""Share of the indoxyl that becomes indigo, by the pH at which it met the air."""

HEAT_FROM: Final = Sourced(
    value=40.0, unit="C", source="bluewright-yield", low=30.0, high=50.0, grade="guess",
    note="up to here warmth while airing is not believed to cost blue",
)  # fmt: skip
HEAT_LOSS_PER_10_C: Final = Sourced(
    value=0.03, unit="1", source="bluewright-yield", low=0.0, high=0.06, grade="guess",
    note="less of it becomes indigo for each 10 C above 40 C",
)  # fmt: skip

UNAIRED: Final = Sourced(
    value=0.7, unit="1", source="bluewright-yield", low=0.3, high=0.95, grade="guess",
    note="share oxidised when the airing was broken off early; the rest goes off with the liquor",
)  # fmt: skip
