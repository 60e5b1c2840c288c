"""A yield by one's own batches: a log-normal prior, joined to what was got, with a doubt that all assays share.

ln y of a batch is normal about that of the garden, with the scatter of batches; the garden's is normal about the
prior's middle. What one's assays are off together shifts every batch's figure alike: many batches do not take it away.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from bluewright.science.base.records import record


@record
class LearnedBlue:
    """What a garden's memory believes a kilogram of leaf gives, pure indigo in the jar: log-normal, in two parts."""

    middle_g_per_kg: Annotated[float, Field(ge=0.001, le=20)]
    """Its middle, of batches like the one asked for, strained as the garden's were."""
    garden_log_sd: Annotated[float, Field(ge=0, le=3)]
    """How far the garden's own may lie from that, as a standard deviation of the logarithm."""
    batch_log_sd: Annotated[float, Field(ge=0, le=3)]
    """How far one batch lies from the garden's own."""
    own_frac: Annotated[float, Field(ge=0, le=1)]
    """Share of the doubt in the garden's own that its batches took away."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnYield:
    """What is believed of the garden's own middle after its batches.

    ln y = mean_log + slope (e - assay_mean_log) + garden_sd z, with e normal about `assay_mean_log` by `assay_sd`:
    what all assays read too high, in logarithms.
    """

    mean_log: float
    garden_sd: float
    """Standard deviation that is left, were the assays' common error known."""
    slope: float
    """By how much it falls with that error: -1 where only own batches count, 0 where none do."""
    assay_mean_log: float
    assay_sd: float
    own_frac: float
    """How far own batches count against the prior, 0 to 1."""


def own_yield(
    *, prior_mean_log: float, prior_sd: float, own_log: Sequence[float], batch_sd: float, assay_sd: float = 0.0
) -> OwnYield:
    """The garden's ln y after `own_log` (logarithms of own batches), by the conjugate rule of normals, exactly.

    With V = s^2 + a^2 + b^2/n the variance of the mean of n batches: mean of ln y = m + s^2/V (mean - m), of e =
    a^2/V (mean - m), and their covariance -s^2 a^2 / V. `prior_sd` is s, `batch_sd` b, `assay_sd` a.
    """
    if not own_log:
        return OwnYield(
            mean_log=prior_mean_log, garden_sd=prior_sd, slope=0.0, assay_mean_log=0.0, assay_sd=assay_sd, own_frac=0.0
        )
    of_garden, of_assay = prior_sd**2, assay_sd**2
    whole = of_garden + of_assay + batch_sd**2 / len(own_log)
    off = sum(own_log) / len(own_log) - prior_mean_log
    left_assay = of_assay * (1 - of_assay / whole)
    covariance = -of_garden * of_assay / whole
    slope = covariance / left_assay if left_assay else 0.0
    left = of_garden * (1 - of_garden / whole) - slope * covariance
    return OwnYield(
        mean_log=prior_mean_log + of_garden / whole * off,
        garden_sd=math.sqrt(max(left, 0.0)),
        slope=slope,
        assay_mean_log=of_assay / whole * off,
        assay_sd=math.sqrt(left_assay),
        own_frac=of_garden / whole,
    )


def learned_yield(blue: LearnedBlue, *, assay_sd: float) -> OwnYield:
    """The same of a garden whose memory has joined all its batches already.

    The memory takes assays for right on the mean: what they are off together shifts it by as far as own batches count.
    """
    return OwnYield(
        mean_log=math.log(blue.middle_g_per_kg), garden_sd=blue.garden_log_sd, slope=-blue.own_frac,
        assay_mean_log=0.0, assay_sd=assay_sd, own_frac=blue.own_frac,
    )  # fmt: skip
