"""Records of dyeing for the tests: an invented scarf."""

from typing import Any

import numpy as np

from bluewright.science.base.records import read
from bluewright.science.dyeing.shade import shade
from bluewright.science.dyeing.shade_record import ShadeAnswer, ShadeRecord

SCARF: dict[str, Any] = {
    "cloth": {"fibre": "cotton", "mass_kg": 0.25},
    "vat": {"bath_l": 15, "active_g_per_l": 1.2},
    "dips": 6,
}


def scarf(**parts: Any) -> ShadeRecord:
    """The scarf with other parts: `vat={...}` is laid over what it has."""
    told = {name: {**SCARF.get(name, {}), **part} if isinstance(part, dict) else part for name, part in parts.items()}
    return read(ShadeRecord, SCARF | told)


def shaded(seed: int = 1, **parts: Any) -> ShadeAnswer:
    return shade(scarf(**parts), rng=np.random.default_rng(seed))
