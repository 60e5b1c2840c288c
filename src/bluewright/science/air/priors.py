"""What is believed of an airing before anything is read. Most are judgements: a batch's own readings replace them."""

from __future__ import annotations

from typing import Final, Literal

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.base.validity import Studied

# --- what the liquor wants -----------------------------------------------------------------------------------------

INDIGO_G_PER_L: Final = Prior(
    kind="lognormal", centre=0.12, spread=0.6, unit="g/L", source="common-practice", grade="guess",
    note="when nothing is said: a kilogram of leaf in 6 to 10 L, 1 g of indigo from each kilogram",
)  # fmt: skip
INDIGO_SPREAD_FRAC: Final = 0.4
"""Standard deviation of an expected indigo, as a share of it, when none is given (judgement)."""

PEROXIDE_FRAC: Final = Prior(
    kind="logitnormal", centre=0.5, spread=0.8, unit="1", source="kiernan-2007", grade="guess",
    note="share of the indoxyl's oxygen that ends as hydrogen peroxide (0: 122 mg per g of indigo; 1: twice that)",
)  # fmt: skip
OTHER_DEMAND_FACTOR: Final = Prior(
    kind="lognormal", centre=1.4, spread=1.1, unit="1", source="common-practice", grade="guess",
    note="oxygen for phenolics, sugars and microbes over the indigo's own 122 mg/g; no measured liquor was found. "
    "With the peroxide the whole demand is about 3 (1.5 to 10) times that of the indigo alone",
)  # fmt: skip
OTHER_SPEED_FACTOR: Final = Prior(
    kind="lognormal", centre=0.5, spread=0.9, unit="1", source="common-practice", grade="guess",
    note="how fast that other matter takes oxygen, over how fast indoxyl does",
)  # fmt: skip
START_OXYGEN_FRAC: Final = Prior(
    kind="logitnormal", centre=0.10, spread=1.0, unit="1", source="common-practice", grade="guess",
    note="dissolved oxygen when airing begins, as a share of saturation: straining splashes a little in",
)  # fmt: skip

# --- how fast indoxyl takes oxygen ---------------------------------------------------------------------------------

RATE_L_PER_MMOL_H: Final = Prior(
    kind="lognormal", centre=8.0, spread=0.8, unit="L/mmol/h", source="cotson-holt-1958", grade="memory",
    note="indoxyl times oxygen at pH 7 and 25 C; a judgement around oxidations seen to take minutes to hours",
)  # fmt: skip
RATE_SLOPE_PER_PH: Final = Prior(
    kind="normal", centre=0.35, spread=0.05, unit="1/pH", source="cotson-holt-1958", grade="memory",
    note="log10 of the rate for each unit of pH up to 11: the anion (pK about 10.5) is what reacts",
)  # fmt: skip
RATE_Q10: Final = Sourced(
    value=2.0, unit="1", source="common-practice", low=1.6, high=2.6, grade="guess", note="for each 10 C"
)
RATE_PH_TOP: Final = 11.0
"""Above this pH the rate is taken to rise no further: indoxyl is all anion."""
STUDIED_PH: Final = Studied(low=6.0, high=11.0, unit="1", source="cotson-holt-1958")

PH_UNKNOWN: Final = Prior(
    kind="normal", centre=9.5, spread=0.6, unit="1", source="common-practice", grade="practice",
    note="pH of a liquor with its alkali in, when none was read",
)  # fmt: skip
DONE_FRAC: Final = 0.95
"""Done means: this share of the indoxyl has become blue (or been lost beside it)."""

OVERRUN_PER_H: Final = Prior(
    kind="lognormal", centre=0.04, spread=1.0, unit="1/h", source="common-practice", grade="guess",
    note="share of the blue lost towards isatin in an hour of airing beyond the end; no measured rate was found",
)  # fmt: skip

# --- how fast air brings it ----------------------------------------------------------------------------------------

SOAPY_FRAC: Final = Prior(
    kind="logitnormal", centre=0.43, spread=0.45, unit="1", source="heijnen-vantriet-1984", grade="memory",
    note="transfer into liquor over transfer into clean water (alpha): 0.3 to 0.6 where soapy matter coats the bubbles",
)  # fmt: skip
POLLUTION_FACTOR: Final = Prior(
    kind="lognormal", centre=0.28, spread=0.5, unit="1", source="gameson-weirs", grade="memory",
    note="Gameson's water quality: 1.8 clean, 0.65 grossly polluted, 1.90/BOD^0.44 in general: 0.12 at 500 mg/L",
)  # fmt: skip
BUCKET_FACTOR: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.35, unit="1", source="common-practice", grade="guess",
    note="a bucket is not a weir, nor a tub a bubble column; hands differ",
)  # fmt: skip
UPTAKE_PER_M_FRAC: Final[dict[Literal["fine", "coarse"], Prior]] = {
    "fine": Prior(
        kind="lognormal", centre=0.07, spread=0.3, unit="1/m", source="diffuser-efficiency", grade="measured",
        note="about 8 % of the oxygen for each metre of depth in clean water, less at high flow",
    ),
    "coarse": Prior(
        kind="lognormal", centre=0.025, spread=0.4, unit="1/m", source="diffuser-efficiency", grade="memory",
        note="large bubbles from holes and hoses: about a third of fine ones",
    ),
}  # fmt: skip
KLA_PER_H: Final[dict[Literal["hand", "powered", "paddle"], Prior]] = {
    "hand": Prior(
        kind="lognormal", centre=18.0, spread=0.5, unit="1/h", source="common-practice", grade="guess",
        note="a hand whisk in 20 L at 20 C; nothing published was found",
    ),
    "powered": Prior(
        kind="lognormal", centre=35.0, spread=0.5, unit="1/h", source="common-practice", grade="guess",
        note="a stick blender or a paint mixer in 20 L at 20 C",
    ),
    "paddle": Prior(
        kind="lognormal", centre=10.0, spread=0.6, unit="1/h", source="common-practice", grade="guess",
        note="beating with a rake, a paddle or a plunger, 20 L at 20 C",
    ),
}  # fmt: skip
STIRRED_L: Final = 20.0
"""The volume that the priors of whisk and paddle are for."""
STIRRED_EXPONENT: Final = Sourced(
    value=0.4, unit="1", source="vantriet-1979", low=0.4, high=0.7, grade="memory",
    note="kLa rises with power per volume to this exponent: the same arm in twice the liquor gives 0.76 of it",
)  # fmt: skip
STUDIED_STIRRED_L: Final = Studied(low=2.0, high=100.0, unit="L", source="common-practice")

HEIGHT_M: Final = Prior(
    kind="lognormal", centre=0.5, spread=0.35, unit="m", source="common-practice", grade="practice",
    note="a bucket lifted over another",
)  # fmt: skip
LIP_WIDTH_M: Final = Prior(
    kind="lognormal", centre=0.10, spread=0.3, unit="m", source="common-practice", grade="practice",
    note="the sheet over a bucket's rim",
)  # fmt: skip
FLOW_L_PER_S: Final = Prior(
    kind="lognormal", centre=1.2, spread=0.35, unit="L/s", source="common-practice", grade="practice",
    note="a brisk pour",
)  # fmt: skip
BETWEEN_POURS_S: Final = Prior(
    kind="lognormal", centre=8.0, spread=0.4, unit="s", source="common-practice", grade="practice",
    note="setting down, lifting the other",
)  # fmt: skip
MEASURED_SPREAD: Final = 0.10
"""Standard deviation (of the logarithm) of a height, width or time that was typed (judgement)."""
LIFTED_L: Final = 15.0
"""The most that is lifted and poured at once; of more liquor a jug is taken."""
JUG_L: Final = 5.0
STONE_FRAC: Final = 0.9
"""Where air comes in if nothing is said: this share of the depth."""

WARMTH_FACTOR: Final = Sourced(
    value=1.024, unit="1", source="asce-2-06", low=1.01, high=1.05, grade="memory",
    note="kLa for each degree above 20 C",
)  # fmt: skip
