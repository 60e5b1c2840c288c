"""What is believed of a vat before anything is read. Hardly any of it was measured: your own vats are worth more."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Prior, Sourced


def _guess(centre: float, spread: float, unit: str, note: str) -> Prior:
    return Prior(
        kind="lognormal", centre=centre, spread=spread, unit=unit, source="bluewright-vat", grade="guess", note=note
    )


AIR_FILM_M_PER_H: Final = _guess(
    0.08,
    1.0,
    "m/h",
    "speed at which oxygen enters an open surface: 0.01 to 0.05 where water is still, several times that where leuco "
    "meets it at the surface, or somebody stirs",
)
COVERED_FRAC: Final = Sourced(
    value=0.25, unit="1", source="bluewright-vat", low=0.1, high=0.5, grade="guess",
    note="of the oxygen through an open surface, what passes a lid or a skin of foam",
)  # fmt: skip
SUGAR_ACIDS: Final = _guess(
    1.2, 0.35, "mol/mol", "acids that a mole of sugar becomes in hot alkali beside its work: at most two, of lactic"
)
BRAN_ACID_MOL_PER_KG: Final = _guess(3.0, 0.6, "mol/kg", "acids that bran gives in the first weeks; only the beginning")
LIME_RESERVE: Final = Sourced(
    value=1.25, unit="1", source="bluewright-vat", low=1.0, high=1.6, grade="guess",
    note="lime is coarse, and part of it stays in the sludge",
)  # fmt: skip
WATER_ALKALINITY_MG_CACO3_L: Final = _guess(110.0, 0.8, "mg/L", "tap, well or rain water nobody has a report of")
WATER_HARDNESS_MG_CACO3_L: Final = _guess(130.0, 0.8, "mg/L", "tap, well or rain water nobody has a report of")
FEED_G_PER_G: Final = Sourced(
    value=0.3, unit="g/g", source="mairet-1916", low=0.2, high=1.0, grade="measured",
    note="madder, and as much bran, to a gram of powder: 1.5 oz of each to 5 oz of indigo",
)  # fmt: skip
LOW_FEED_G_PER_L: Final = Sourced(
    value=2.0, unit="g/L", source="bluewright-vat", low=1.0, high=5.0, grade="guess",
    note="madder, and as much bran, in a litre at least: a pale vat must ferment too",
)  # fmt: skip
OVERPOWER: Final = Sourced(
    value=8.0, unit="g/L", source="bluewright-vat", low=6.0, high=10.0, grade="guess",
    note="pure indigo in a litre beyond which a vat is a stock to be thinned",
)  # fmt: skip
