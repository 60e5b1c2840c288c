"""What is believed of a vat's course and of how it is read, before anything is. All of it is judgement, and wide."""

from __future__ import annotations

from typing import Final, Literal

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.vat.kinds import VatKind


def _guess(centre: float, spread: float, unit: str, note: str) -> Prior:
    return Prior(
        kind="lognormal", centre=centre, spread=spread, unit=unit, source="bluewright-vat", grade="guess", note=note
    )


def _shift(spread: float, unit: str, note: str) -> Prior:
    return Prior(kind="normal", centre=0.0, spread=spread, unit=unit, source="bluewright-vat", grade="guess", note=note)


HALF_LIFE_H: Final[dict[VatKind, Prior]] = {
    "dithionite": _guess(8.0, 0.8, "h", "of the reductant by itself, warm and covered: hours"),
    "thiourea_dioxide": _guess(12.0, 0.8, "h", "what it turns into when warm lives as long as dithionite"),
    "fructose": _guess(40.0, 0.9, "h", "sugar turns into acids that reduce no more"),
    "iron": _guess(600.0, 0.9, "h", "in the sludge it keeps for weeks; air is what ends it"),
    "ferment": _guess(12.0, 0.8, "h", "what the microbes make goes fast if they stop"),
}
"""At the warmth at which the vat is set; it doubles with each ten degrees less."""
MAKES_MMOL_PER_L_H: Final = _guess(
    0.25, 0.8, "mmol/(L h)", "electrons that a well-fed fermented vat makes once it goes; a gram of indigo takes 7.6"
)
FERMENTS_READY_H: Final = _guess(
    12.0,
    0.6,
    "h",
    "in which a fermented vat that goes reduces nine tenths of what it can; it is the going that takes days",
)
WAKES_H: Final = _guess(72.0, 0.5, "h", "until a new fermented vat goes: two to five days")
FED_H: Final = _guess(336.0, 0.5, "h", "for which a feeding lasts")
DRIFT_PH_PER_DAY: Final[dict[VatKind, Prior]] = {
    "dithionite": _guess(0.15, 0.7, "pH/day", "acids of the spent reductant, and carbon dioxide of the air"),
    "thiourea_dioxide": _guess(0.15, 0.7, "pH/day", "as dithionite"),
    "fructose": _guess(0.25, 0.7, "pH/day", "acids of the sugar"),
    "iron": _guess(0.02, 0.7, "pH/day", "lime lies on the bottom"),
    "ferment": _guess(0.07, 0.8, "pH/day", "acids of the bran"),
}
START_PH: Final = _shift(0.6, "pH", "how far off the wanted pH a new vat stands")
BUFFER_MMOL_PER_L: Final[dict[Literal["lime", "other"], Prior]] = {
    "lime": _guess(40.0, 0.6, "mmol/L", "hydroxide that moves the pH by one, with lime on the bottom"),
    "other": _guess(8.0, 0.6, "mmol/L", "the same with soda or lye"),
}
DIP_AIR_MMOL_PER_L: Final = _guess(
    0.12, 0.8, "mmol/L", "oxygen that a dip stirs in and that wet cloth brings, in a litre of 20 with 0.3 kg of cloth"
)
TAKE_L_PER_KG: Final[dict[Literal["wool", "silk", "cellulose"], Prior]] = {
    "wool": _guess(7.0, 0.7, "L/kg", "litres of vat that a kilogram clears in one dip: 0.5 % of it at 0.9 g/L"),
    "silk": _guess(4.5, 0.7, "L/kg", "0.4 % in a dip at 0.9 g/L"),
    "cellulose": _guess(2.0, 0.7, "L/kg", "0.2 % in a dip at 0.9 g/L, and as much again carried along"),
}
CARRIED_L_PER_KG: Final = Sourced(
    value=1.0, unit="L/kg", source="common-practice", low=0.8, high=1.5, grade="practice",
    note="vat in cloth squeezed by hand",
)  # fmt: skip
TAKEN_SD_FRAC: Final = Sourced(
    value=0.33, unit="1", source="bluewright-vat", low=0.1, high=0.6, grade="guess",
    note="how far what cloth is said to have taken may be off",
)  # fmt: skip
ACID_DISSOLVES_G_PER_L: Final = _guess(0.03, 0.8, "g/L", "leuco without charge that stays dissolved; the rest clouds")
TEMP_STEP_C: Final = Sourced(
    value=10.0, unit="C", source="bluewright-vat", low=8.0, high=15.0, grade="guess",
    note="warmer by so much, everything goes twice as fast",
)  # fmt: skip
COOLING_H: Final = Sourced(
    value=6.0, unit="h", source="bluewright-vat", low=3.0, high=12.0, grade="guess",
    note="in which a covered vat of 20 L loses two thirds of its warmth above the room; with the cube root of its "
    "litres",
)  # fmt: skip
THINNED_PH: Final = Sourced(
    value=0.5, unit="1", source="bluewright-vat", low=0.0, high=1.0, grade="guess",
    note="by how much of the logarithm of its thinning the pH falls: by none of it where something buffers, by all of "
    "it in plain lye",
)  # fmt: skip
GATE_PH: Final = Sourced(
    value=8.0, unit="pH", source="bluewright-vat", low=7.5, high=8.7, grade="guess",
    note="at which reduction goes at half its speed: below, leuco falls out and sugar and iron do nothing",
)  # fmt: skip
READY_FRAC: Final = Sourced(
    value=0.85, unit="1", source="common-practice", low=0.8, high=0.95, grade="guess",
    note="of what can be reduced, what must be before cloth goes in: the rest sits on it and washes off",
)  # fmt: skip
LEAST_ACTIVE_G_PER_L: Final = Sourced(
    value=0.1, unit="g/L", source="common-practice", low=0.05, high=0.2, grade="practice",
    note="below it a dip gives hardly a pale sky",
)  # fmt: skip

PH_BIAS: Final = _shift(0.12, "pH", "what all readings of one meter or roll of strips share")
PH_SD: Final = Sourced(
    value=0.2, unit="pH", source="common-practice", low=0.05, high=0.5, grade="practice", note="of one reading"
)
MV_BIAS: Final = _shift(50.0, "mV", "of the electrode, and of a model that is none of a poised cell")
MV_SD: Final = Sourced(
    value=40.0, unit="mV", source="bluewright-vat", low=20.0, high=80.0, grade="guess",
    note="wide: a mill dyer of long standing found pH and mV the least reliable of all signs",
)  # fmt: skip
STRIP_BIAS: Final = _shift(0.4, "1", "log of how long one dyer's strips take against another's")
STRIP_LOG_SD: Final = Sourced(
    value=0.35, unit="1", source="bluewright-vat", low=0.2, high=0.6, grade="guess", note="of one strip, as a logarithm"
)
OFFSET: Final = _shift(0.2, "1", "how one pair of eyes reads colour, skin and grains against another")
