"""Forward: what the beds that stand will probably give, in leaf and in pure blue.

All beds of a garden share its ground, its grower and the weather of the season: what their forecasts are off together
is drawn once, and only the scatter from cut to cut is each bed's own. Their sum is therefore nearly as doubtful as one.
"""

from __future__ import annotations

import math
from datetime import date, timedelta

import numpy as np

from bluewright.science.base.bands import NINETY_Z, band
from bluewright.science.base.sourced import Floats
from bluewright.science.plan.chain_crop import Crop
from bluewright.science.plan.chain_factors import Scores
from bluewright.science.plan.chain_priors import DRY_D, SECOND_YEAR_BLUE_FRAC, STEEP_D, WASH_D
from bluewright.science.plan.chain_record import ClothPlanRecord, Gives, StandingBed


def standing_kg(record: ClothPlanRecord, crop: Crop, at: Scores, *, by: date | None) -> Floats:
    """Leaf that all beds give in time for a day, None for some time, shape (n,)."""
    total = np.zeros(len(at.z["leaf"]))
    for k, bed in enumerate(record.beds):
        total = total + bed_kg(bed, crop, at, number=k, last=_last_cut(record, by))
    return total


def worth_kg(record: ClothPlanRecord, crop: Crop, at: Scores, *, by: date | None) -> Floats:
    """The same as leaf of the first year that would hold its blue, shape (n,)."""
    total = np.zeros(len(at.z["leaf"]))
    for k, bed in enumerate(record.beds):
        total = total + bed_kg(bed, crop, at, number=k, last=_last_cut(record, by)) * blue_frac(record, at, number=k)
    return total


def blue_frac(record: ClothPlanRecord, at: Scores, *, number: int) -> Floats:
    """Blue in a kilogram of a bed's leaf beside that of the first year, shape (n,): 1; less in the second year."""
    if not record.beds[number].second_year:
        return np.ones(len(at.z["leaf"]))
    place = len(record.beds) + sum(bed.second_year for bed in record.beds[:number])
    return SECOND_YEAR_BLUE_FRAC.from_z(at.beds_z[:, place])


def beds_scores(record: ClothPlanRecord) -> int:
    """How many scores of beds are wanted: one for each, and one more for each of the second year."""
    return len(record.beds) + sum(bed.second_year for bed in record.beds)


def bed_kg(bed: StandingBed, crop: Crop, at: Scores, *, number: int, last: date | None) -> Floats:
    """Leaf of a bed over its cuts until a day, shape (n,).

    Formula: middle * exp(g z_garden + u z_season + c z_bed / sqrt(cuts)) * cuts, with g^2 + u^2 + c^2 the square of the
    logarithm of what the forecast may be off, c the scatter of cuts and u that of seasons as far as it holds them.
    """
    whole = math.log(bed.spread_factor) ** 2
    own = min(crop.leaf_cut_sd**2, whole)
    season = min(crop.leaf_season_sd**2, whole - own)
    cuts = cuts_of(bed, at, last=last)
    scatter = 0.0 if "leaf_cut" in at.settled else math.sqrt(own) * at.beds_z[:, number] / np.sqrt(np.maximum(cuts, 1))
    log = math.sqrt(whole - own - season) * at.z["leaf"] + math.sqrt(season) * at.z["leaf_season"] + scatter
    return np.asarray(bed.leaf_kg * np.exp(log) * cuts)


def cuts_of(bed: StandingBed, at: Scores, *, last: date | None) -> Floats:
    """Cuts that a bed still gives until a day, shape (n,): about the middle, with the doubt that all beds share."""
    least = bed.cuts if bed.least_cuts is None else min(bed.least_cuts, bed.cuts)
    drawn = np.round(bed.cuts + (bed.cuts - least) / NINETY_Z * at.z["cuts"])
    cuts = np.clip(drawn, 0.0, 2.0 * bed.cuts - least)
    if last is None or bed.next_on is None:
        return np.asarray(cuts)
    in_time = 1 + math.floor((last - bed.next_on).days / bed.again_d) if last >= bed.next_on else 0
    return np.minimum(cuts, float(in_time))


def gives(
    record: ClothPlanRecord, crop: Crop, at: Scores, *, blue_g_per_kg: Floats, pure_frac: Floats
) -> tuple[Gives, ...]:
    """What each bed gives until its season ends."""
    return tuple(
        _gives(
            bed.name,
            bed_kg(bed, crop, at, number=k, last=None),
            blue_g_per_kg * blue_frac(record, at, number=k),
            pure_frac,
        )
        for k, bed in enumerate(record.beds)
    )


def all_give(
    record: ClothPlanRecord, crop: Crop, at: Scores, *, blue_g_per_kg: Floats, pure_frac: Floats
) -> Gives | None:
    """What all beds give together; None without one."""
    if not record.beds:
        return None
    leaf = standing_kg(record, crop, at, by=None)
    worth = worth_kg(record, crop, at, by=None) / np.maximum(leaf, 1e-12)
    return _gives("", leaf, blue_g_per_kg * worth, pure_frac)


def _gives(name: str, leaf_kg: Floats, blue_g_per_kg: Floats, pure_frac: Floats) -> Gives:
    blue = leaf_kg * blue_g_per_kg
    return Gives(name=name, leaf_kg=band(leaf_kg), blue_g=band(blue), pigment_g=band(blue / pure_frac))


def _last_cut(record: ClothPlanRecord, by: date | None) -> date | None:
    """The day until which leaf must be cut for a day wanted, by the middles of steeping, washing and drying."""
    if by is None:
        return None
    return by - timedelta(days=math.ceil(STEEP_D[record.steep_kind].centre + WASH_D.centre + DRY_D.centre))
