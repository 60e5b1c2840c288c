"""How much oxygen the liquor wants: what its indigo needs, and what everything else takes beside it."""

from __future__ import annotations

import numpy as np

from bluewright.science.air.priors import INDIGO_G_PER_L, INDIGO_SPREAD_FRAC
from bluewright.science.air.record import AirRecord
from bluewright.science.base.sourced import Floats
from bluewright.science.media.stoichiometry import oxygen_mg


def indigo_g_per_l(record: AirRecord, *, z: Floats) -> Floats:
    """Indigo to be made in a litre at standard-normal score `z` (shape kept): lognormal by its mean and deviation.

    Formula: s2 = ln(1 + (sd/mean)^2), exp(ln(mean) - s2/2 + s z). Without any figure: the prior.
    """
    if record.indigo_g is not None:
        mean, deviation = record.indigo_g / record.liquor_l, (record.indigo_sd_g or 0.0) / record.liquor_l
    elif record.indigo_g_per_l is not None:
        mean, deviation = record.indigo_g_per_l, record.indigo_sd_g_per_l or 0.0
    else:
        return INDIGO_G_PER_L.from_z(z)
    variance = np.log1p((deviation / mean or INDIGO_SPREAD_FRAC) ** 2)
    return np.asarray(mean * np.exp(np.sqrt(variance) * z - 0.5 * variance))


def indoxyl_demand_mg_per_l(indigo_g_per_l: Floats, *, peroxide_frac: Floats) -> Floats:
    """Oxygen that the indoxyl itself takes, mg/L: 122 mg for a gram of indigo, up to twice that with peroxide.

    Formula: 122.0 * indigo * (1 + peroxide). Shapes: those of the arguments together. Source: stoichiometry.
    """
    return oxygen_mg(1.0) * indigo_g_per_l * (1.0 + peroxide_frac)


def other_demand_mg_per_l(indigo_g_per_l: Floats, *, factor: Floats) -> Floats:
    """Oxygen that other matter takes, mg/L: `factor` times the 122 mg/g of the indigo (strong liquor, more of all)."""
    return oxygen_mg(1.0) * indigo_g_per_l * factor
