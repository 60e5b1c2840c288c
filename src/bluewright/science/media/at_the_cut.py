"""What to mind wherever leaf is picked: one's skin, the sun, the weight."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.cautions import caution
from bluewright.science.base.sourced import Sourced

HEAVY_KG = Sourced(
    value=25.0, unit="kg", source="common-practice", low=15.0, high=25.0, grade="practice",
    note="more than one person should lift at once",
)  # fmt: skip
SKIN: Final = caution(
    "leaf-skin",
    "Some skins redden from sap and hairs of these plants: gloves and long sleeves, and wash after the cut.",
)
SUN: Final = caution(
    "cut-sun",
    "Pick in the early morning: drink, cover head and neck, and rest in the shade; leaf in the sun heats too.",
)
LIFT: Final = caution(
    "cut-lift", f"Carry leaf in baskets of {HEAVY_KG.value:g} kg at most; wet from rain or dew it weighs more."
)
AT_THE_CUT: Final = (SKIN, SUN, LIFT)
