"""Is it as sure as it says? Batches drawn from the prior, their readings simulated, the answer held against the truth.

This tests the machinery (weights, moves, bands), not the priors: those are judgements until measured.
"""

import numpy as np

from bluewright.science.air.forecast import forecast
from bluewright.science.base.bands import quantiles
from tests.science.air.simulation import WAYS, batches, jars_of_another_kind

RUNS_PER_WAY = 76


def test_the_ninety_percent_band_for_minutes_left_holds_the_truth_nine_times_in_ten() -> None:
    """Own hand: of 304 runs the share held has a standard deviation of 1.7 %; 85 to 95 % is three of them either way.

    Where in the band the truth lies must be even too: each fifth of the belief holds a fifth of the truths (ties at 0
    minutes broken by lot), 2.3 % standard deviation, three allowed.
    """
    held, places, sizes = [], [], []
    for index, way in enumerate(WAYS):
        rng = np.random.default_rng([20, index])
        for record, left_min in batches(rng, RUNS_PER_WAY, way):
            found = forecast(record, rng=rng, draws=500)
            believed, weights = 60.0 * found.left_h, found.drawn.weights
            low, high = quantiles(believed, [0.05, 0.95], weights=weights)
            held.append(low <= left_min <= high)
            places.append(np.sum(weights[believed < left_min]) + rng.random() * np.sum(weights[believed == left_min]))
            sizes.append(found.drawn.ess)
    assert len(held) == 304
    assert 0.85 <= np.mean(held) <= 0.95
    shares = np.histogram(places, 5, (0.0, 1.0))[0] / len(places)
    assert np.all(np.abs(shares - 0.2) < 0.07), shares
    assert min(sizes) >= 100


def test_jars_whose_blue_fades_faster_than_is_believed_do_not_make_it_too_sure() -> None:
    """Blue that loses half its colour in 35 minutes (believed: 0.3 an hour, times or over 2.7) rests before it is done.

    Own hand: of 160 runs the share held has a standard deviation of 2.4 %; what is called done (chance of 90 % and
    more) must be done in most of its runs.
    """
    held, called = [], []
    for index, way in enumerate(WAYS):
        rng = np.random.default_rng([7, index])
        for record, left_min in jars_of_another_kind(rng, 40, way, fade_per_h=1.2):
            found = forecast(record, rng=rng, draws=500)
            low, high = quantiles(60.0 * found.left_h, [0.05, 0.95], weights=found.drawn.weights)
            held.append(low <= left_min <= high)
            if found.chance(found.left_h <= 0) >= 0.9:
                called.append(left_min <= 0)
    assert np.mean(held) >= 0.85
    assert called
    assert np.mean(called) >= 0.7
