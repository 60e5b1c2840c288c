"""Filtering under its own head: cloth and cake resist in series, so each litre takes longer than the one before."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, band
from bluewright.science.base.cautions import Caution, those_that_hold
from bluewright.science.base.posterior import Posterior, fit
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.settle.filtering_record import FilterAnswer, FilterRecord

DRAWS = 2000
CAKE_SHARE: Final = Prior(
    kind="logitnormal", centre=0.5, spread=1.5, unit="1", source="common-practice", grade="guess",
    note="the cake's share of the resistance at the first reading: hardly anything is known of it",
)  # fmt: skip
RATE_ERROR: Final = Prior(
    kind="lognormal", centre=1.0, spread=1.0, unit="1", source="common-practice", grade="guess",
    note="wide room around the mean rate up to the first reading",
)  # fmt: skip


def filtered_h(filtrate_l: Floats | float, *, cake_h_per_l2: Floats, cloth_h_per_l: Floats) -> Floats:
    """Hours until `filtrate_l` has run through at a constant head (shapes broadcast).

    Formula: t = a V^2 + b V, that is t/V = a V + b (Ruth); a = mu alpha c / (2 A^2 dP) from the cake, and
    b = mu Rm / (A dP) from the cloth. Source: B. F. Ruth, Ind. Eng. Chem. 25 (1933) 157.
    """
    return np.asarray(cake_h_per_l2 * np.square(filtrate_l) + cloth_h_per_l * filtrate_l)


def filtrate_l(after_h: Floats, *, cake_h_per_l2: Floats, cloth_h_per_l: Floats) -> Floats:
    """Litres run through after `after_h` hours: the positive root of Ruth's equation, written so that a -> 0 holds."""
    return 2 * after_h / (cloth_h_per_l + np.sqrt(cloth_h_per_l**2 + 4 * cake_h_per_l2 * after_h))


def filter_time(record: FilterRecord, *, rng: np.random.Generator) -> FilterAnswer:
    """Hours left until all has run through, from what has run through so far.

    Fits a and b of Ruth's equation to the readings by least squares with wide priors scaled by the first reading.
    Raises InputError (from the record) and ModelError when no fit exists.
    """
    posterior = _posterior(record, rng)
    cake, cloth = _resistance(record, posterior.z)
    last = record.readings[-1]
    run_l = filtrate_l(np.asarray(last.after_min / 60), cake_h_per_l2=cake, cloth_h_per_l=cloth)
    total_h = filtered_h(record.total_l, cake_h_per_l2=cake, cloth_h_per_l=cloth)
    left = band(np.maximum(total_h - last.after_min / 60, 0.0))
    return FilterAnswer(
        id=record.id,
        left_h=left,
        total_h=band(np.maximum(total_h, last.after_min / 60)),
        rate_now_l_per_h=band(1 / (2 * cake * run_l + cloth)),
        rate_end_l_per_h=band(1 / (2 * cake * record.total_l + cloth)),
        cake_share_frac=band(2 * cake * run_l / (2 * cake * run_l + cloth)),
        ess=round(posterior.ess, 1),
        basis="readings",
        inputs=record,
        cautions=_cautions(record, left, posterior),
        sources=("ruth-1933", CAKE_SHARE.source),
    )


def _resistance(record: FilterRecord, z: Floats) -> tuple[Floats, Floats]:
    """Ruth's a (h/L2) and b (h/L) at scores of shape (n, 2): the cake's share at the first reading, and the rate."""
    first = record.readings[0]
    share = CAKE_SHARE.from_z(z[:, 0])
    hours_per_l = first.after_min / 60 / first.filtrate_l / RATE_ERROR.from_z(z[:, 1])
    return share * hours_per_l / first.filtrate_l, (1 - share) * hours_per_l


def _posterior(record: FilterRecord, rng: np.random.Generator) -> Posterior:
    after_h = np.array([r.after_min / 60 for r in record.readings])
    seen = np.log([r.filtrate_l for r in record.readings])

    def residuals(z: Floats) -> Floats:
        cake, cloth = _resistance(record, z)
        run = filtrate_l(after_h, cake_h_per_l2=cake[:, None], cloth_h_per_l=cloth[:, None])
        return (seen - np.log(run)) / record.volume_sd_frac

    return fit(residuals, size=2, rng=rng, draws=DRAWS)


def _cautions(record: FilterRecord, left: Band, posterior: Posterior) -> tuple[Caution, ...]:
    last = record.readings[-1]
    said = {
        (
            "blinding",
            "The finest blue blinds cloth and paper: if it slows more than this, let the rest settle, decant, and "
            "filter only the paste, or change the filter.",
        ): True,
        (
            "poor-fit",
            "What ran through does not follow one filter with a growing cake (blinding, a changed head, a new one?): "
            "the range is wider for it.",
        ): posterior.factor > 1,
        (
            "outside-range",
            f"This reaches from {last.filtrate_l:g} L read to {record.total_l:g} L, over ten times as far: read again.",
        ): record.total_l > 10 * last.filtrate_l,
        ("slow", f"More than a day (about {left.p50:.0f} h): settle and decant first."): left.p50 > 24,
    }
    return those_that_hold(said)
