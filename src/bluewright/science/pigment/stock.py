"""Pure blue of a jar whose leaf is not known, and of several jars together."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, band, significant
from bluewright.science.media.dry_pigment import MOISTURE_FRAC
from bluewright.science.media.purity import Known, known_share

DRAWS: Final = 4000


def pure_of(pigment_g: float, *, purity: Known, scale_sd_g: float, rng: np.random.Generator) -> Band:
    """Pure indigo, g, in `pigment_g` of air-dry pigment by its purity alone, whatever leaf it came from.

    Formula: pure = mass (1 - moisture) purity, each drawn from what is believed of it.
    """
    mass_g = pigment_g * np.exp(min(scale_sd_g / pigment_g, 0.5) * rng.standard_normal(DRAWS))
    return band(mass_g * (1 - MOISTURE_FRAC.draw(rng, DRAWS)) * known_share(purity).draw(rng, DRAWS))


def part_of(pure_g: Band, *, share_frac: float) -> Band:
    """What a share of a well-mixed jar holds."""
    return Band(
        p5=significant(pure_g.p5 * share_frac),
        p50=significant(pure_g.p50 * share_frac),
        p95=significant(pure_g.p95 * share_frac),
    )


def together(pure_g: Sequence[Band]) -> Band:
    """What several jars of one garden hold: the bands add up end to end, as of one doubt.

    Their plant, their making and the way their purity was judged are the same, so what is wrong of one is mostly
    wrong of all. Were the doubts apart, the band would be narrower; this one is rather too wide than too narrow.
    """
    return Band(
        p5=significant(sum(one.p5 for one in pure_g)),
        p50=significant(sum(one.p50 for one in pure_g)),
        p95=significant(sum(one.p95 for one in pure_g)),
    )
