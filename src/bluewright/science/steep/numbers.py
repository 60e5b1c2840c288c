"""What instruments say, given the state of the tub: normal models with the instrument's own bias.

Each channel has a mean from the state, a scatter from reading to reading, and a bias that all readings of a steep
share (part of what the ensemble learns, like the offsets of the signs).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.media.dye_index import INDIGO_G_PER_MMOL_INDOXYL, READING_SD_PER_CM, dye_index_per_cm
from bluewright.science.media.stoichiometry import MOLAR_MASS_G_PER_MOL
from bluewright.science.steep.kinetics import Course

NumberName = Literal["ph", "temp_c", "dissolved_oxygen_mg_l", "dye_index", "light_l", "light_a", "light_b"]

PIPETTED_FRAC: Final = 0.25
"""Scatter of a jar made blue from one to the next, as a share of it: alkali, shaking and rest are never quite alike
(judgement: a photo of a jar tells to a quarter)."""
OXYGEN_G_PER_MOL: Final = MOLAR_MASS_G_PER_MOL["oxygen"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """One instrument: `mean(course, bias)` (t, n) from the state and the standard-normal bias score (n,)."""

    mean: Callable[[Course, Floats], Floats]
    sd: float
    """Scatter from reading to reading, in the unit of the reading (judgement unless said otherwise)."""
    sd_frac: float = 0.0
    """Scatter in proportion to the mean, added in quadrature."""

    def scatter(self, mean: Floats, own_sd: float | None) -> Floats:
        """Standard deviation of a reading around `mean`; `own_sd` replaces `sd` when the record gives one."""
        return np.hypot(self.sd if own_sd is None else own_sd, self.sd_frac * np.abs(mean))


NUMBERS: Final[dict[NumberName, Number]] = {
    "ph": Number(mean=lambda c, z: c["ph"] + 0.2 * z, sd=0.25),
    "temp_c": Number(mean=lambda c, z: c.temp_c + 0.4 * z, sd=0.5),
    "dissolved_oxygen_mg_l": Number(
        mean=lambda c, z: OXYGEN_G_PER_MOL * c["oxygen"] * np.exp(0.15 * z), sd=0.4, sd_frac=0.1
    ),
    "dye_index": Number(
        mean=lambda c, z: dye_index_per_cm(
            INDIGO_G_PER_MMOL_INDOXYL * c.recoverable_mmol_per_l, gain_z=z, base_z=np.zeros_like(z)
        ),
        sd=READING_SD_PER_CM.value,
        sd_frac=PIPETTED_FRAC,
    ),
    "light_l": Number(mean=lambda c, z: 92 - 8 * c.dead_frac - 50 * c["brown"] + 5 * z, sd=6.0),
    "light_a": Number(mean=lambda c, z: -3 - 4 * c["indoxyl"] / (1 + c["indoxyl"]) + 12 * c["brown"] + 3 * z, sd=4.0),
    "light_b": Number(mean=lambda c, z: 8 + 20 * c.dead_frac + 25 * c["brown"] + 8 * z, sd=8.0),
}
"""ph: strips and cheap pens (bias 0.2, scatter 0.25 unless `ph_sd` is given). dye_index: of a jar made alkaline, shaken
and rested, its gain unknown to a factor of two or three (`media.dye_index`): its *course* tells, not its height.
light_l, light_a, light_b: CIELAB of the liquor against white; wide judgements until learned."""
