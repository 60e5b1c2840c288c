"""The alkalis by name, and as later stages need to know them: by what each leaves in the pigment."""

from __future__ import annotations

from typing import Final, Literal

Kind = Literal[
    "ammonia", "soda_ash", "washing_soda", "potash", "lye", "potassium_lye", "slaked_lime", "ash_lye"
]  # fmt: skip
"""The alkalis that can be dosed."""

UsedAlkali = Literal[Kind, "none", "unknown"]
"""The alkalis of the liquor record, and `none` or `unknown`."""

Family = Literal["lime", "carbonate", "lye", "ammonia", "none", "unknown"]

FAMILY: Final[dict[UsedAlkali, Family]] = {
    "ammonia": "ammonia",
    "soda_ash": "carbonate",
    "washing_soda": "carbonate",
    "potash": "carbonate",
    "ash_lye": "carbonate",
    "lye": "lye",
    "potassium_lye": "lye",
    "slaked_lime": "lime",
    "none": "none",
    "unknown": "unknown",
}
"""Alkalis that settle and weigh alike."""
