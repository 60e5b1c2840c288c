"""How much pure blue a kilogram of a bed's leaf commonly gives: from priors, and from what was got of its own cuts."""

from __future__ import annotations

import math
from datetime import date

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.bed.growth_priors import BLUE_CUT_SD
from bluewright.science.bed.growth_record import GrowthRecord
from bluewright.science.media.air_temp import northern_day
from bluewright.science.media.basket import LeafState
from bluewright.science.media.own_yield import own_yield
from bluewright.science.media.precursor import DAMAGE, GOT_FRAC, draw_mmol_per_kg
from bluewright.science.media.stoichiometry import INDIGO_G_PER_MMOL_PRECURSOR


def blue_g_per_kg(record: GrowthRecord, *, on: date, rng: np.random.Generator, n: int) -> Floats:
    """`n` draws of grams of pure indigo from a kilogram of leaf cut on a day, shape (n,).

    Formula: log grams of the bed is normal, each cut scatters about it by `BLUE_CUT_SD`; own results are joined to
    the prior (precursor of the season, share commonly got) by the precision of each: a normal of known variance. Where
    the garden's memory has joined its batches, its normal is taken.
    """
    if record.blue is not None:
        log_sd = math.hypot(record.blue.garden_log_sd, record.blue.batch_log_sd)
        return record.blue.middle_g_per_kg * np.exp(log_sd * rng.standard_normal(n))
    of_year = northern_day(on, hemisphere=record.weather.hemisphere)
    mmol_per_kg = draw_mmol_per_kg(record.plant, leaf=LeafState(), day_of_year=of_year, held_temp_c=20.0, rng=rng, n=n)
    usual = np.log(INDIGO_G_PER_MMOL_PRECURSOR * mmol_per_kg * GOT_FRAC.draw(rng, n))
    own = [
        math.log(cut.blue_g / cut.leaf_kg)
        for cuts in (record.cuts, *(season.cuts for season in record.earlier))
        for cut in cuts
        if cut.blue_g is not None and cut.leaf_kg is not None
    ]
    if not own:
        return np.exp(usual)
    cut_sd = BLUE_CUT_SD.value
    of_bed = own_yield(
        prior_mean_log=float(usual.mean()), prior_sd=math.sqrt(max(float(usual.var()) - cut_sd**2, cut_sd**2)),
        own_log=own, batch_sd=cut_sd,
    )  # fmt: skip
    return np.exp(of_bed.mean_log + math.hypot(of_bed.garden_sd, cut_sd) * rng.standard_normal(n))


def spotted_factor(record: GrowthRecord, *, rng: np.random.Generator, n: int) -> Floats:
    """`n` draws of the factor by which spotted leaf holds more or less, shape (n,): 1 where nothing is spotted.

    Formula: exp(D s), D `media.precursor.DAMAGE`, which nobody has measured.
    """
    return np.exp(record.spotted_frac * DAMAGE.draw(rng, n)) if record.spotted_frac else np.ones(n)
