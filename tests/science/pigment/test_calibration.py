"""Honest shares: jars drawn from the priors, weighed, answered; the truth's rank among the draws must be uniform."""

import numpy as np
import pytest
from scipy import stats

from bluewright.science.base.records import read
from bluewright.science.base.sourced import Floats
from bluewright.science.media.dry_pigment import moisture
from bluewright.science.pigment import beliefs
from bluewright.science.pigment.jar_yield import believed
from bluewright.science.pigment.yield_record import YieldRecord

RUNS = 400
TRUE_SCALE_G = 0.3
ASSAY_SD = 0.04


def run(rng: np.random.Generator, *, assayed: bool) -> tuple[Floats, Floats]:
    """Truths (shares, potential, purity) and 99 thinned draws of each, of one jar made and weighed."""
    fields = {
        "plant": "woad",
        "leaf_kg": 6.0,
        "scale_sd_g": TRUE_SCALE_G,
        "alkali": "ammonia",
        "conversion": {"ph": 9.6},
        "blue_out": {"mean_frac": 0.84, "sd_frac": 0.05},
    }
    blank = read(YieldRecord, fields | {"pigment_g": 20.0})
    kept = np.array([prior.draw(rng, 1)[0] for prior in beliefs.kept(blank).values()])
    potential = beliefs.potential_g(blank).draw(rng, 1)[0]
    purity = beliefs.purity(blank).draw(rng, 1)[0]
    weighed = potential * np.prod(kept) / purity / (1 - moisture(blank.moisture_frac).draw(rng, 1)[0])
    fields["pigment_g"] = float(weighed * np.exp(TRUE_SCALE_G / weighed * rng.standard_normal()))
    if assayed:
        seen = purity + ASSAY_SD * rng.standard_normal()
        fields["purity"] = {"mean_frac": float(np.clip(seen, 0.001, 0.999)), "sd_frac": ASSAY_SD}
    made, _ = believed(read(YieldRecord, fields), rng=rng, draws=1000)
    draws = np.column_stack([made.kept_frac, made.potential_g, made.purity_frac])
    return np.array([*kept, potential, purity]), draws[rng.choice(len(draws), 99, replace=False)]


@pytest.mark.parametrize("assayed", [False, True], ids=["purity-unknown", "purity-measured"])
def test_ranks_of_the_truth_are_uniform(assayed: bool) -> None:
    """Simulation (simulation-based calibration, Talts and others 2018): seven unknowns, 10 bins, 400 jars.

    Chi-square of each unknown; the smallest of seven p-values must not be below 0.001. Each 90 % range must hold the
    truth in 85 to 95 of a hundred jars.
    """
    rng = np.random.default_rng(77)
    pairs = [run(rng, assayed=assayed) for _ in range(RUNS)]
    ranks = np.array([np.sum(draws < truth, axis=0) for truth, draws in pairs])
    for column in ranks.T:
        counts = np.bincount(column // 10, minlength=10)
        assert stats.chisquare(counts).pvalue > 0.001, counts
    held = np.mean((ranks >= 5) & (ranks <= 94), axis=0)
    assert np.all((held >= 0.85) & (held <= 0.95)), held
