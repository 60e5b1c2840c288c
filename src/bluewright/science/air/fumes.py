"""How much ammonia the air carries off meanwhile.

Bubbles leave full of ammonia in balance with the liquor; from the surface it is carried off through the still air
above. Only free ammonia leaves, so that cold and a moderate pH keep it in.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.air.record import AirRecord
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.ammonia import GAS_FILM_MM_PER_S, air_water_ratio, free_frac

BROKEN_SURFACE_FACTOR: Final = Prior(
    kind="lognormal", centre=5.5, spread=0.37, unit="1", source="common-practice", grade="guess",
    note="pouring, whisking and beating against a still surface: 3 to 10 times as much",
)  # fmt: skip


def bubbled_off_per_h(*, air_l_per_min: float, liquor_l: float, temp_c: float, ph: Floats) -> Floats:
    """Share of all ammonia that air blown through carries off, 1/h.

    Formula: 60 Q K_aw f / V, the bubbles leaving in balance. Shapes: as `ph`.
    Source: Patoczka & Wilson 1984, Sep. Sci. Technol. 19, 77 (desorption is controlled by the equilibrium).
    """
    return np.asarray(60.0 * air_l_per_min / liquor_l * _in_air(temp_c, ph))


def surface_off_per_h(*, film_mm_per_s: Floats, area_m2: float, liquor_l: float, temp_c: float, ph: Floats) -> Floats:
    """Share of all ammonia that leaves through the surface, 1/h.

    Formula: 3600 kG K_aw f A / V, kG in m/s, V in m3. Shapes: those of the arguments together.
    Source: film model (Ni 1999, J. Agric. Eng. Res. 72, 1, reviews it).
    """
    per_m = area_m2 / (liquor_l / 1000.0)
    return np.asarray(3.6 * film_mm_per_s * per_m * _in_air(temp_c, ph))


def _in_air(temp_c: float, ph: Floats) -> Floats:
    """Ammonia in the air in balance over all ammonia in the liquor, mol/m3 each."""
    return air_water_ratio(temp_c) * free_frac(ph, temp_c=np.full_like(ph, temp_c))


def ammonia_off_per_h(record: AirRecord, *, area_m2: float, ph: Floats, rng: np.random.Generator) -> Floats:
    """Share of all ammonia that this way of airing carries off, 1/h, shape of `ph` (n,)."""
    film = GAS_FILM_MM_PER_S.draw(rng, len(ph))
    if record.bubble is None:
        film = film * BROKEN_SURFACE_FACTOR.draw(rng, len(ph))
    off = surface_off_per_h(film_mm_per_s=film, area_m2=area_m2, liquor_l=record.liquor_l, temp_c=record.temp_c, ph=ph)
    if record.bubble is not None:
        off = off + bubbled_off_per_h(
            air_l_per_min=record.bubble.air_l_per_min, liquor_l=record.liquor_l, temp_c=record.temp_c, ph=ph
        )
    return off
