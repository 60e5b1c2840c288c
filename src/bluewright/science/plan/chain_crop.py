"""What the garden gives: leaf of a square metre, blue of a kilogram, and by how much warmth."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from bluewright.science.base.sourced import Prior
from bluewright.science.media.own_yield import OwnYield, learned_yield, own_yield
from bluewright.science.plan.chain_record import OwnFigures


@dataclass(frozen=True, slots=True, kw_only=True)
class Growing:
    """By how much warmth cuts come, and when the season ends."""

    base_c: float
    """Degree-days are counted above this."""
    first_degree_d: Prior
    """From sowing to the first cut, C d."""
    first_factor: float
    """By which that is multiplied where it is planted out."""
    again_degree_d: Prior
    """From one cut to the next, C d."""
    ends: Prior
    """Northern day of the year on which leaf is no longer worth cutting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crop:
    """A plant in this garden: middles with what the garden is off, and scatters that average out."""

    leaf_kg_per_m2: Prior
    """Fresh leaf at a cut, log-normal: its spread is what is not known of the garden."""
    leaf_season_sd: float
    """Log-sd from season to season."""
    leaf_cut_sd: float
    """Log-sd from cut to cut."""
    blue_g_per_kg: Prior
    """Pure indigo of a kilogram of leaf, log-normal: its spread is what is not known of the garden."""
    blue_batch_sd: float
    """Log-sd from batch to batch."""
    purity: Prior
    """Pure indigo in the dry pigment."""
    moisture: Prior
    """Water in air-dry pigment."""
    plants_per_m2: float
    """Plants to aim at."""
    growing: Growing


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """A crop after own batches and cuts."""

    blue: OwnYield
    leaf: OwnYield


def crop_of(crop: Crop, own: OwnFigures) -> Crop:
    """The crop with its blue's scatter from batch to batch as the garden's memory knows it."""
    return crop if own.blue is None else replace(crop, blue_batch_sd=own.blue.batch_log_sd)


def learned(crop: Crop, own: OwnFigures) -> Learned:
    """What own batches and cuts teach of the garden; each cut is taken as of a season of its own."""
    return Learned(
        blue=learned_yield(own.blue, assay_sd=own.assay_sd_frac)
        if own.blue is not None
        else own_yield(
            prior_mean_log=math.log(crop.blue_g_per_kg.centre),
            prior_sd=crop.blue_g_per_kg.spread,
            own_log=[math.log(one) for one in own.blue_g_per_kg],
            batch_sd=crop.blue_batch_sd,
            assay_sd=own.assay_sd_frac,
        ),
        leaf=own_yield(
            prior_mean_log=math.log(crop.leaf_kg_per_m2.centre),
            prior_sd=crop.leaf_kg_per_m2.spread,
            own_log=[math.log(one) for one in own.leaf_kg_per_m2],
            batch_sd=math.hypot(crop.leaf_cut_sd, crop.leaf_season_sd),
        ),
    )
