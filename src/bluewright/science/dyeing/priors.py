"""What is believed of dyeing in a vat before any cloth of one's own, and the constants beside it.

Hardly one of these was read in a source: isotherms of leuco indigo on cotton and wool were not to be had. They are
judged so that usual strengths and dips give the depths that craft pages name for them, and are wide.
"""

from __future__ import annotations

from typing import Final, Literal

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.media.cloth import Fibre

AfterDip = Literal["rinsed", "squeezed", "aired"]
"""rinsed: wrung and rinsed before it blues; squeezed: wrung, then aired; aired: lifted out dripping and aired."""
Run = Literal["well_run", "over_reduced"]
"""Whether the vat carries no more reductant than it needs, or so much that it takes blue off again."""
Finish = Literal["none", "rinsed", "soaped"]
"""What the cloth gets once it is dry and blue: nothing, rinses until clear, or soap."""
_SOURCE: Final = "bluewright-dyeing"


def _wide(centre: float, spread: float, unit: str, note: str = "") -> Prior:
    return Prior(kind="lognormal", centre=centre, spread=spread, unit=unit, source=_SOURCE, grade="guess", note=note)


def _share(centre: float, spread: float, note: str = "") -> Prior:
    return Prior(kind="logitnormal", centre=centre, spread=spread, unit="1", source=_SOURCE, grade="guess", note=note)


def _power(centre: float, spread: float, note: str) -> Prior:
    return Prior(kind="normal", centre=centre, spread=spread, unit="1", source=_SOURCE, grade="guess", note=note)


def _guess(value: float, low: float, high: float, unit: str, note: str = "") -> Sourced:
    return Sourced(value=value, unit=unit, source=_SOURCE, low=low, high=high, grade="guess", note=note)


def _usual(value: float, low: float, high: float, unit: str) -> Sourced:
    return Sourced(value=value, unit=unit, source="common-practice", low=low, high=high, grade="practice")


AFFINITY_L_PER_KG: Final[dict[Fibre, Prior]] = {
    "cotton": _wide(4.5, 0.6, "L/kg", "indigo has little liking for cotton; 5 to 20 is guessed elsewhere"),
    "linen": _wide(4.5, 0.7, "L/kg", "as cotton: no figure of its own was found"),
    "other_cellulose": _wide(7.0, 0.7, "L/kg", "mercerised cotton took twice as much as raw"),
    "silk": _wide(25.0, 0.6, "L/kg", "20 to 80 is guessed elsewhere"),
    "wool": _wide(80.0, 0.6, "L/kg", "50 to 200 is guessed elsewhere"),
}
"""Grams on a kilogram of fibre over grams in a litre, at 1 g/L, once a dip has lasted long enough."""
POWER: Final[dict[Fibre, Prior]] = {
    "cotton": _power(0.60, 0.10, "0.5 to 1 (Freundlich), from memory"),
    "linen": _power(0.60, 0.12, "as cotton"),
    "other_cellulose": _power(0.60, 0.12, "as cotton"),
    "silk": _power(1.0, 0.0, "Langmuir: SILK_FULL_G_PER_KG bends it"),
    "wool": _power(0.95, 0.08, "straight (Nernst) fits natural indigo on wool best: 1 (Chemchame 2020)"),
}
"""Power of the strength that uptake goes with."""
SILK_FULL_G_PER_KG: Final = _guess(
    20.0, 8.0, 60.0, "g/kg", "most that a dip can put on silk: Langmuir's form is published, this figure is not"
)
HEAT_KCAL_PER_MOL: Final[dict[Fibre, Sourced]] = {
    "silk": Sourced(
        value=-9.43, unit="kcal/mol", source="kongkachuichay-2010", low=-9.5, high=-9.4, grade="measured",
        note="natural indigo, dithionite, 33 to 50 C",
    ),
    "wool": _guess(-4.0, -9.5, 0.0, "kcal/mol", "less than on silk"),
    "cotton": _guess(-4.0, -9.5, 0.0, "kcal/mol", "it is generally dyed cold"),
    "linen": _guess(-4.0, -9.5, 0.0, "kcal/mol", "as cotton"),
    "other_cellulose": _guess(-4.0, -9.5, 0.0, "kcal/mol", "as cotton"),
}  # fmt: skip
"""Heat of sorption: below 0, warm cloth takes less."""
USUAL_C: Final[dict[Fibre, Sourced]] = {
    "cotton": _usual(25.0, 15.0, 50.0, "C"),
    "linen": _usual(25.0, 15.0, 50.0, "C"),
    "other_cellulose": _usual(25.0, 15.0, 50.0, "C"),
    "silk": _usual(40.0, 30.0, 45.0, "C"),
    "wool": _usual(50.0, 45.0, 55.0, "C"),
}
"""Temperature that the affinities hold at."""
USUAL_PH: Final[dict[Fibre, Sourced]] = {
    "cotton": _usual(11.0, 10.5, 11.5, "1"),
    "linen": _usual(11.0, 10.5, 11.5, "1"),
    "other_cellulose": _usual(11.0, 10.5, 11.5, "1"),
    "silk": _usual(9.5, 9.0, 10.0, "1"),
    "wool": _usual(9.0, 8.5, 9.5, "1"),
}
"""pH that they hold at."""
DI_OF_MONO: Final = _guess(0.2, 0.1, 0.3, "1", "liking for fibre of the ion with two charges, over that with one")
ACID_OF_MONO: Final = _guess(0.5, 0.0, 1.0, "1", "the same of the acid form, which clouds rather than goes onto fibre")
PH_WEIGHT: Final = _share(
    0.7, 0.8, "how much of the pH's effect by the forms is believed: a study in mills did not find it (Holbert 2011)"
)

PORE_M2_PER_S: Final = _wide(
    1.5e-10, 0.7, "m2/s",
    "dye in the liquor between the fibres of a yarn; with silk's affinity it gives the 1e-12 that was measured on silk",
)  # fmt: skip
LIQUOR_IN_YARN_L_PER_KG: Final = _guess(0.8, 0.4, 1.5, "L/kg", "liquor held between its fibres")
YARN_MM: Final[dict[Fibre, Sourced]] = {
    "cotton": _guess(0.3, 0.1, 1.0, "mm"),
    "linen": _guess(0.3, 0.1, 1.0, "mm"),
    "other_cellulose": _guess(0.3, 0.1, 1.0, "mm"),
    "silk": _guess(0.15, 0.08, 0.5, "mm"),
    "wool": _guess(0.5, 0.2, 2.0, "mm"),
}
"""Thickness of a yarn of cloth."""
SEEN_MM: Final = _guess(
    0.03, 0.015, 0.06, "mm", "how deep into a dyed yarn the light goes that comes back: about two fibres"
)

PICKUP_L_PER_KG: Final[dict[AfterDip, Prior]] = {
    "rinsed": _wide(1.1, 0.2, "L/kg", "0.8 to 1.5, wrung by hand"),
    "squeezed": _wide(1.1, 0.2, "L/kg", "0.8 to 1.5, wrung by hand"),
    "aired": _wide(2.0, 0.25, "L/kg", "lifted out dripping"),
}
"""Liquor that a kilogram of dry cloth carries out."""
KEPT_FRAC: Final[dict[AfterDip, Prior]] = {
    "rinsed": _share(0.15, 0.6),
    "squeezed": _share(0.8, 0.6),
    "aired": _share(0.8, 0.6),
}
"""Of the indigo in that liquor, what stays with the cloth and does not drip or rinse off."""
LOOSE_FRAC: Final = _share(0.35, 0.6, "the rest still goes onto the fibre while the cloth hangs, before it blues")
"""Of what stays, the share that blues between the fibres: it is loose, and rubs off."""
STRIP_FRAC: Final[dict[Run, Prior]] = {
    "well_run": _share(0.05, 0.6, "0 to 0.05 and somewhat more"),
    "over_reduced": _share(0.16, 0.35, "0.1 to 0.25"),
}
"""Of the blue on the cloth, the share that a dip takes off again."""
OXIDISED_FRAC: Final = _share(0.02, 0.7, "air that the cloth brings in")
"""Of the reduced indigo in the vat, the share that each dip turns blue: it stays in the vat, to be reduced again."""
BLUES_MIN: Final = _guess(3.0, 1.0, 8.0, "min", "in which all but 37 % of the indigo in the cloth turns blue in air")
WASHED_FRAC: Final[dict[Literal["rinsed", "soaped"], Prior]] = {
    "rinsed": _share(0.4, 0.6),
    "soaped": _share(0.75, 0.6),
}
"""Of the loose blue, the share that finishing takes off."""

ACTIVE_SD: Final = _guess(0.15, 0.05, 0.4, "1", "log-sd of a strength that was judged by recipe or by eye")
LATER_POWER: Final = _power(
    0.0, 0.2, "of its number, by which a dip takes less: 0 as the isotherm says, 0.2 a third less by the eighth; fibre "
    "that is blue outside may take more slowly, or has opened and takes more readily",
)  # fmt: skip
REPEAT_SD: Final = _guess(0.10, 0.05, 0.2, "1", "log-sd of the depth of two pieces that were dyed alike")
