"""What a ladder teaches: simulated ladders whose truth is known, honesty with few swatches, and the plan of rungs."""

import dataclasses

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump
from bluewright.science.dyeing.ladder import ladder
from bluewright.science.dyeing.ladder_plan import planned
from bluewright.science.dyeing.ladder_record import LadderAnswer
from bluewright.science.dyeing.scores import SIZE
from tests.science.dyeing.cloth import ladder_of, shaded, swatches, truth


def fitted(rungs: list, seed: int = 1, **parts: object) -> LadderAnswer:
    return ladder(ladder_of(rungs, **parts), rng=np.random.default_rng(seed))


def test_bands_after_four_swatches_hold_the_truth_nine_times_in_ten():
    """Four simulated ladders, twelve numbers of dips each: far from 0.9 only if something is wrong."""
    rng = np.random.default_rng(5)
    held, narrower = [], []
    for _ in range(4):
        world = truth(rng)
        found = ladder(ladder_of(swatches(world, rng)), rng=rng)
        held += [band.p5 <= world.lab(k)[0] <= band.p95 for k, band in enumerate(found.l_star_by_dips, start=1)]
        narrower.append(found.half_range_l_star / found.before_half_range_l_star)
    assert 0.75 <= np.mean(held) <= 1.0
    assert np.mean(narrower) < 0.25


def test_bands_before_any_swatch_hold_simulated_truths_nine_times_in_ten():
    rng = np.random.default_rng(8)
    believed = fitted([]).l_star_by_dips
    held = [
        believed[dips - 1].p5 <= world.lab(dips)[0] <= believed[dips - 1].p95
        for world in (truth(rng) for _ in range(300))
        for dips in (1, 4, 12)
    ]
    assert np.mean(held) == pytest.approx(0.9, abs=0.06)


def test_many_swatches_bring_the_truth_back():
    """By instrument, without scatter: what is told of colour comes back, uptake only as its product with the yield."""
    rng = np.random.default_rng(3)
    world = truth(rng)
    rungs = [{"dips": k, "lab": [float(v) for v in world.lab(k)], "lab_sd": [0.2] * 3} for k in (1, 2, 3, 4, 6, 8, 12)]
    found = fitted(rungs)
    told = {one.name: one.after for one in found.told}
    assert told["turn_nm"].p5 < float(world.held.turn_nm[0]) < told["turn_nm"].p95
    assert told["blue_frac"].p50 == pytest.approx(float(world.held.blue_frac[0]), rel=0.1)
    assert all(fit.off_de00 < 1.0 for fit in found.rungs)
    assert found.misfit_factor == 1.0


def test_weights_tell_uptake_apart_from_colour():
    """By hand: 4 g of indigo on a kilogram by the scale, whatever it looks like."""
    colours = [{"dips": 1, "k_over_s": 2.0}]
    weighed = [{"dips": 1, "k_over_s": 2.0, "gain_g": 0.4, "dry_g": 100.0}]
    by_colour, by_weight = fitted(colours), fitted(weighed)
    wide = [found.per_dip_pct.p95 / found.per_dip_pct.p5 for found in (by_colour, by_weight)]
    assert wide[1] < wide[0] / 1.5
    assert 0.30 < by_weight.per_dip_pct.p50 < 0.42
    depth = {one.name: one.after for one in by_weight.told}["yield"]
    assert depth.p50 == pytest.approx(2.0 / 4.0, rel=0.35)


def test_one_swatch_is_said_to_be_few_and_a_wrong_one_widens_the_errors():
    assert "few-rungs" in {c.code for c in fitted([{"dips": 4, "k_over_s": 5.0}]).cautions}
    rising = [{"dips": k, "k_over_s": depth, "k_over_s_sd_frac": 0.02} for k, depth in ((1, 8.0), (4, 1.0), (8, 9.0))]
    found = fitted(rising)
    assert found.misfit_factor > 1.5
    assert "ladder-misfit" in {c.code for c in found.cautions}


def test_what_was_learned_goes_on_into_the_forecast_and_into_a_second_ladder():
    rng = np.random.default_rng(4)
    world = truth(rng)
    first = ladder(ladder_of(swatches(world, rng)), rng=rng)
    learned = dump(first)["learned"]
    before, after = shaded(), shaded(learned=learned)
    assert after.colour.l_star.p95 - after.colour.l_star.p5 < (before.colour.l_star.p95 - before.colour.l_star.p5) / 2
    second = fitted(swatches(world, rng, dips=(3, 12)), learned=learned)
    assert second.learned.swatches == 6
    assert second.half_range_l_star < second.before_half_range_l_star < first.before_half_range_l_star / 2
    with pytest.raises(InputError, match="learned on cotton"):
        fitted([], learned=learned, cloth={"fibre": "wool", "mass_kg": 0.1})


def test_the_plan_spreads_the_rungs_and_each_teaches_less_than_the_one_before():
    found = fitted([])
    assert found.learned is None
    bits = [rung.bits for rung in found.next_rungs]
    assert bits == sorted(bits, reverse=True)
    ranges = [rung.half_range_l_star for rung in found.next_rungs]
    assert ranges == sorted(ranges, reverse=True)
    assert ranges[0] < found.half_range_l_star / 2
    assert max(r.dips for r in found.next_rungs) >= 8 > min(r.dips for r in found.next_rungs)


def test_information_is_that_of_normals_by_hand():
    """One lightness of spread 4 in error 1.5/sqrt(6) and scatter 13 x 0.1: log2 of the spreads' ratio, by hand."""
    rng = np.random.default_rng(2)
    lab = np.zeros((200_000, 1, 3))
    lab[:, 0, 0] = 4.0 * rng.standard_normal(200_000)
    (only,) = planned(lab, taken="same_card")
    noise = 1.5**2 / 6 + 1.3**2
    assert only.bits == pytest.approx(0.5 * np.log2(1 + 16 / noise), rel=0.01)
    left = (16 * noise / (16 + noise)) ** 0.5
    assert only.half_range_l_star == pytest.approx(1.6449 * left, rel=0.01)


def test_what_was_not_measured_is_refused():
    for rung, where in (({"dips": 2}, "rungs[0].lab"), ({"dips": 2, "gain_g": 0.3}, "rungs[0].dry_g")):
        with pytest.raises(InputError) as caught:
            ladder_of([rung])
        assert caught.value.where == where


def test_learned_is_plain_and_of_the_right_size():
    found = fitted([{"dips": 2, "k_over_s": 3.0}])
    assert len(found.learned.mean_z) == SIZE
    assert dataclasses.asdict(found.learned)["fibre"] == "cotton"
