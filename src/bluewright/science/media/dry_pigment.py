"""What the trade calls dry: how much water air-dry pigment still holds."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Prior

MOISTURE_FRAC: Final = Prior(
    kind="logitnormal", centre=0.05, spread=0.21, unit="1", source="trade-indigo-spec", grade="measured",
    note="trade specification of indigo powder 5 +- 1 % moisture",
)  # fmt: skip
