"""What the trade calls dry: how much water pigment holds, by the trade or as it was told."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Prior
from bluewright.science.media.purity import Known, known_share

MOISTURE_FRAC: Final = Prior(
    kind="logitnormal", centre=0.05, spread=0.21, unit="1", source="trade-indigo-spec", grade="measured",
    note="trade specification of indigo powder 5 +- 1 % moisture",
)  # fmt: skip


def moisture(moisture_frac: float | None) -> Prior:
    """Water in pigment: the trade's, or as it was told, give or take a fifth of it and at most 0.01."""
    if moisture_frac is None:
        return MOISTURE_FRAC
    if moisture_frac == 0:
        return Prior(kind="normal", centre=0.0, spread=0.0, unit="1", source="common-practice", grade="guess")
    return known_share(Known(mean_frac=moisture_frac, sd_frac=max(min(0.2 * moisture_frac, 0.01), 0.001)))
