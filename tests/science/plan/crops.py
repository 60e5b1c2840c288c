"""Crops for the tests of plans: every spread can be chosen."""

from dataclasses import replace
from typing import Any

from bluewright.science.base.sourced import Prior
from bluewright.science.plan.chain_crop import Crop, Growing


def lognormal(centre: float, spread: float, unit: str = "1") -> Prior:
    return Prior(kind="lognormal", centre=centre, spread=spread, unit=unit, source="common-practice", grade="guess")


def share(centre: float, spread: float) -> Prior:
    return Prior(kind="logitnormal", centre=centre, spread=spread, unit="1", source="common-practice", grade="guess")


WOAD = Crop(
    leaf_kg_per_m2=lognormal(0.7, 0.5, "kg/m2"),
    leaf_season_sd=0.25,
    leaf_cut_sd=0.25,
    blue_g_per_kg=lognormal(1.0, 0.6, "g/kg"),
    blue_batch_sd=0.35,
    purity=share(0.25, 0.6),
    moisture=share(0.05, 0.2),
    plants_per_m2=16.0,
    growing=Growing(
        base_c=5.0,
        first_degree_d=lognormal(790.0, 0.18, "C d"),
        first_factor=1.0,
        again_degree_d=lognormal(550.0, 0.18, "C d"),
        ends=Prior(kind="normal", centre=305.0, spread=12.0, unit="d", source="common-practice", grade="guess"),
    ),
)


def crop(**other: Any) -> Crop:
    return replace(WOAD, **other)


def exact(leaf_kg_per_m2: float, blue_g_per_kg: float) -> Crop:
    """A crop of which everything is known."""
    return crop(
        leaf_kg_per_m2=lognormal(leaf_kg_per_m2, 0.0), leaf_season_sd=0.0, leaf_cut_sd=0.0,
        blue_g_per_kg=lognormal(blue_g_per_kg, 0.0), blue_batch_sd=0.0,
    )  # fmt: skip
