"""Ammonia in the air of the room where a tub of alkaline liquor stands."""

from __future__ import annotations

from bluewright.science.alkali.record import Room
from bluewright.science.base.sourced import Floats
from bluewright.science.media.ammonia import GAS_FILM_MM_PER_S, air_water_ratio, free_frac, gas_ppm


def above_liquor_ppm(ammonia_mol_per_l: Floats, *, ph: Floats, temp_c: Floats) -> Floats:
    """Ammonia in the air that touches the liquor, parts per million.

    Formula: total ammonia * free share * K_aw, as a gas. Shapes: those of the arguments together.
    Source: Sander 2023 (`media.ammonia`).
    """
    free_mol_per_m3 = 1000.0 * ammonia_mol_per_l * free_frac(ph, temp_c=temp_c)
    return gas_ppm(free_mol_per_m3 * air_water_ratio(temp_c), temp_c=temp_c)


def room_ppm(surface_ppm: Floats, *, room: Room, surface_m2: float, z: Floats) -> Floats:
    """Ammonia in well-mixed room air once it is steady, parts per million.

    Formula: c = c_surface k A / (k A + Q), k the transfer through still air (m/s), Q the air renewed (m3/s): what the
    surface gives off is what the draught carries away. Close over the tub it is several times more.
    `z` are scores of k. Shapes: those of the arguments together. Source: mass balance; k is a judgement.
    """
    transfer = GAS_FILM_MM_PER_S.from_z(z) / 1000.0 * surface_m2
    renewed = room.volume_m3 * room.air_changes_per_h / 3600.0
    return surface_ppm * transfer / (transfer + renewed)
