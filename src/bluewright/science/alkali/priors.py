"""What is believed of a liquor before it is tested. No measured titration of woad liquor was found: all are guesses."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Prior, Sourced


def _guess(centre: float, spread: float, unit: str, note: str) -> Prior:
    return Prior(
        kind="lognormal", centre=centre, spread=spread, unit=unit, source="common-practice", grade="guess", note=note
    )


LEAF_ACIDS: Final[dict[str, Prior]] = {
    "lactic": _guess(7e-3, 0.65, "mol/L", "lactic acid of fermenting leaf; with acetic 5 to 40 mmol/L"),
    "acetic": _guess(7e-3, 0.65, "mol/L", "acetic acid, and the weaker half of the leaf's own acids"),
    "carbonic": _guess(3.0e-3, 0.70, "mol/L", "CO2 of fermenting; saturated at one atmosphere it would be 34 mmol/L"),
    "phosphate_middle": _guess(1.2e-3, 0.55, "mol/L", "phosphate, and what else turns near pH 7; 0.5 to 3 mmol/L"),
    "phenolic_low": _guess(1.5e-3, 0.80, "mol/L", "caffeic-like phenolics; all phenolics 1 to 10 mmol/L"),
    "phenolic_high": _guess(1.5e-3, 0.80, "mol/L", "simple phenolics and amino acids"),
}
"""What the leaf brings, for `USUAL_LEAF_KG_PER_L`."""

USUAL_LEAF_KG_PER_L: Final = Sourced(
    value=0.15, unit="kg/L", source="common-practice", low=0.1, high=0.25, grade="practice",
    note="fresh leaf to a litre of water",
)  # fmt: skip

ALKALINITY_MG_CACO3_L: Final = _guess(110.0, 0.80, "mg/L", "tap, well or rain water nobody has a report of")
HARDNESS_PER_ALKALINITY: Final = _guess(1.2, 0.25, "1", "total hardness over alkalinity; most of it is chalk hardness")
CALCIUM_SHARE: Final = Sourced(
    value=0.8, unit="1", source="common-practice", low=0.6, high=0.95, grade="practice",
    note="calcium of the total hardness, the rest is magnesium",
)  # fmt: skip
KEPT_CO2: Final = Prior(
    kind="logitnormal", centre=0.6, spread=0.7, unit="1", source="common-practice", grade="guess",
    note="share of the water's own carbonate still there, as CO2, when the steep has turned it sour",
)  # fmt: skip
CALCITE_SHARE: Final = Prior(
    kind="logitnormal", centre=0.5, spread=1.5, unit="1", source="common-practice", grade="guess",
    note="share of the chalk that could fall that does: lactate, phosphate and phenolics hold it up",
)  # fmt: skip
SPECTATOR_MOL_PER_L: Final = Sourced(
    value=0.005, unit="mol/L", source="common-practice", low=0.0, high=0.02, grade="guess",
    note="ionic strength of neutral salts from leaf and water",
)  # fmt: skip

START_PH: Final = Prior(
    kind="normal", centre=5.6, spread=0.5, unit="pH", source="common-practice", grade="practice",
    note="of steeped liquor that nobody has tested",
)  # fmt: skip
UNREAD_TEMP_C: Final = Prior(
    kind="normal", centre=18.0, spread=4.0, unit="C", source="common-practice", grade="practice",
    note="a tub outdoors or in a shed in summer",
)  # fmt: skip
THERMOMETER_SD_C: Final = Sourced(
    value=0.5, unit="C", source="common-practice", low=0.2, high=1.0, grade="practice", note="a kitchen thermometer"
)

BIAS_SHARE: Final = Sourced(
    value=0.8, unit="1", source="common-practice", low=0.6, high=0.95, grade="guess",
    note="of a reading's standard deviation, the part that all readings of one instrument share; squares add to 1",
)  # fmt: skip
MODEL_PH_SD: Final = Sourced(
    value=0.04, unit="pH", source="common-practice", low=0.02, high=0.08, grade="guess",
    note="what the balance of charge itself may miss between two readings",
)  # fmt: skip
TUB_VOLUME_SD: Final = Sourced(
    value=0.05, unit="1", source="common-practice", low=0.03, high=0.08, grade="practice",
    note="marks on a bucket or tub",
)  # fmt: skip
JAR_VOLUME_SD: Final = Sourced(
    value=0.03, unit="1", source="common-practice", low=0.02, high=0.05, grade="practice",
    note="measuring jug and syringe together",
)  # fmt: skip
BLUE_G_PER_L: Final = Sourced(
    value=0.1, unit="g/L", source="common-practice", low=0.03, high=0.2, grade="practice",
    note="blue that a litre of liquor commonly gives, only to compare chalk with",
)  # fmt: skip
