"""What a trial says: the result, its range, what it is worth, and the guards."""

import math
from dataclasses import replace
from itertools import product
from typing import Any

import numpy as np
import pytest
from scipy import stats

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.learn.pairs_tests import regroup, sign_flip
from bluewright.science.learn.trial import trial
from bluewright.science.learn.trial_answer import TrialAnswer, WayAgainst
from bluewright.science.learn.trial_beliefs import flat, noise_after, noise_before
from bluewright.science.learn.trial_fit import fit_in_blocks
from bluewright.science.learn.trial_priors import LOOKS_CHANCE
from bluewright.science.learn.trial_record import TrialRecord
from tests.science.learn.worked import CLEAN, SPOTTED, cell, pairs

RNG = np.random.default_rng


def answered(record: TrialRecord) -> TrialAnswer:
    return trial(record, rng=RNG(record.seed))


def against(**more: Any) -> WayAgainst:
    return answered(pairs(**more)).against[0]


def codes(record: TrialRecord) -> set[str]:
    return {caution.code for caution in answered(record).cautions}


def test_pairs_worked_by_hand_come_out() -> None:
    """Log ratios -.1683 -.0755 -.2744 -.0791 -.3005: mean -.1796, sd .1060; the range is scipy's."""
    found = against()
    assert found.blocks == 5
    assert found.more_blocks == 0
    assert found.pair_sd == pytest.approx(0.106, abs=5e-4)
    assert found.flip_chance == 2 / 32 == found.least_flip_chance
    own = next(one for one in found.beliefs if one.belief == "own_tubs").ratio_factor
    low, high = stats.ttest_1samp(np.log(SPOTTED) - np.log(CLEAN), 0).confidence_interval(0.9)
    assert own.p50 == pytest.approx(math.exp(-0.1796), rel=2e-4)
    assert (own.p5, own.p95) == pytest.approx((math.exp(low), math.exp(high)), rel=1e-4)


def test_the_result_is_student_s_t_with_the_scatter_and_the_belief_pooled() -> None:
    """nu = 1 + 4, s^2 = (.25^2 + 4 * .106^2) / 5."""
    found = against().ratio_factor
    assert found is not None
    spread = math.sqrt((0.25**2 + 4 * 0.10600**2) / 5)
    reach = stats.t.ppf(0.95, 5) * spread / math.sqrt(5)
    assert found.p95 / found.p50 == pytest.approx(math.exp(reach), rel=3e-4)


@pytest.mark.parametrize("gain_frac", [0.1, 0.0, -0.1])
def test_where_less_is_better_a_gain_is_so_many_times_less(gain_frac: float) -> None:
    """The same trial turned upside down: what gave a tenth more of the blue leaves 1.1 times less of the loss."""
    plain = pairs(least_gain_frac=gain_frac)
    turned = tuple(replace(tub, value=1.0 / tub.value) for tub in plain.tubs if tub.value is not None)
    upside_down = answered(replace(plain, tubs=turned, less_is_better=True, outcome="other")).against[0]
    assert upside_down.worth_chance == pytest.approx(answered(plain).against[0].worth_chance, abs=2e-3)
    assert 0.001 < upside_down.worth_chance < 0.999


def test_a_belief_that_changes_do_little_draws_the_result_in() -> None:
    by_belief = {one.belief: one.ratio_factor.p50 for one in against().beliefs}
    assert by_belief["tubs_as_usual"] < by_belief["open_mind"] < by_belief["usual"] < by_belief["sceptic"] < 1


def test_own_earlier_pairs_take_the_place_of_the_guess() -> None:
    quiet = against(earlier={"pairs": 40, "pair_sd": 0.1}).ratio_factor
    usual = against().ratio_factor
    assert quiet is not None
    assert usual is not None
    assert quiet.p95 - quiet.p5 < 0.8 * (usual.p95 - usual.p5)


def test_one_pair_is_two_numbers_and_no_range() -> None:
    found = answered(pairs(CLEAN[:1], SPOTTED[:1]))
    assert found.against[0].ratio_factor is None
    assert found.against[0].by_block[0].ratio_factor == pytest.approx(1.20 / 1.42, rel=1e-3)
    assert found.against[0].decision == "open"
    assert "one-pair" in {caution.code for caution in found.cautions}


def test_an_error_that_all_tubs_of_a_way_share_is_not_in_their_scatter() -> None:
    """Assayed in two goes, 10 % each: the variance of the mean grows by 2 * .1^2, whatever the number of pairs."""
    tubs = [
        {"way": way, "block": f"p{k}", "value": value, "assay": way, "assay_sd_frac": 0.1}
        for k, both in enumerate(zip(CLEAN, SPOTTED, strict=True))
        for way, value in zip(("clean", "spotted"), both, strict=True)
    ]
    shared = against(tubs=tubs).ratio_factor
    alone = against(tubs=[one | {"assay": f"{one['way']} {one['block']}"} for one in tubs]).ratio_factor
    together = against(tubs=[one | {"assay": "one"} for one in tubs]).ratio_factor
    plain = against().ratio_factor
    assert None not in (shared, alone, together, plain)
    assert alone == plain == together, "an error of each tub is in the scatter; one of all cancels"
    spread = [(math.log(one.p95 / one.p5) / 2 / 1.645) ** 2 for one in (shared, plain) if one is not None]
    assert spread[0] - spread[1] == pytest.approx(2 * 0.1**2, rel=0.1)


def test_a_trial_of_which_a_pair_was_spoilt_is_not_before_its_end() -> None:
    tubs = [{"way": tub.way, "block": tub.block, "value": tub.value} for tub in pairs(planned_blocks=5).tubs]
    spoilt = [*tubs[:9], {"way": "spotted", "block": "p4", "spoilt": "it leaked"}]
    waited = [*tubs[:9], {"way": "spotted", "block": "p4"}]
    assert "before-the-end" not in codes(pairs(tubs=spoilt, planned_blocks=5))
    assert "before-the-end" in codes(pairs(tubs=waited, planned_blocks=5))


def test_a_spoilt_tub_takes_its_rival_along_and_stays_in_sight() -> None:
    record = pairs()
    tubs = [
        {"way": tub.way, "block": tub.block, "value": tub.value} | ({"spoilt": "it leaked"} if k == 3 else {})
        for k, tub in enumerate(record.tubs)
    ]
    found = answered(read(TrialRecord, {"ways": [{"name": "clean"}, {"name": "spotted"}], "tubs": tubs}))
    assert found.blocks == 4
    assert [way.spoilt for way in found.ways] == [0, 1]
    assert found.inputs.tubs[3].spoilt == "it leaked"
    assert {"spoilt-tubs", "without-rival"} <= {caution.code for caution in found.cautions}


def test_two_tubs_of_one_picking_are_no_two_results() -> None:
    doubled = [
        {"way": way, "block": f"p{k}", "value": value}
        for k, both in enumerate(zip(CLEAN, SPOTTED, strict=True))
        for way, value in zip(("clean", "spotted"), both, strict=True)
        for _ in range(3)
    ]
    assert against(tubs=doubled).ratio_factor == against().ratio_factor
    assert "tubs-of-one-picking" in codes(pairs(tubs=doubled))


def test_tubs_alone_are_told_by_the_pooled_t_and_every_split() -> None:
    tubs = [{"way": way, "value": v} for way, vs in (("clean", CLEAN), ("spotted", SPOTTED)) for v in vs]
    found = answered(pairs(tubs=tubs))
    assert found.kind == "alone"
    own = next(one for one in found.against[0].beliefs if one.belief == "own_tubs").ratio_factor
    low, high = stats.ttest_ind(np.log(SPOTTED), np.log(CLEAN)).confidence_interval(0.9)
    assert (own.p5, own.p95) == pytest.approx((math.exp(low), math.exp(high)), rel=5e-4)
    wanted = stats.permutation_test(
        (np.log(SPOTTED), np.log(CLEAN)), lambda x, y: np.mean(x) - np.mean(y), n_resamples=np.inf
    )
    assert found.against[0].flip_chance == pytest.approx(wanted.pvalue, rel=1e-3)


def test_many_pairs_and_many_tubs_are_tested_by_drawn_lots() -> None:
    differences = RNG(5).normal(0.1, 0.3, 36)
    chance, _least = sign_flip(list(differences), rng=RNG(1))
    assert chance == pytest.approx(stats.ttest_1samp(differences, 0).pvalue, abs=0.02)
    one, other = differences[:13] + 0.2, differences[13:]
    assert regroup(one, other, rng=RNG(1))[0] == pytest.approx(stats.ttest_ind(one, other).pvalue, abs=0.02)


def test_every_choice_of_signs_is_counted() -> None:
    """Against all of them written out."""
    differences = RNG(6).normal(0.15, 0.3, 11)
    signs = np.array(list(product((-1.0, 1.0), repeat=11)))
    wanted = np.mean(np.abs(signs @ differences) >= abs(differences.sum()) - 1e-9)
    assert sign_flip(list(differences), rng=RNG(1))[0] == pytest.approx(wanted)
    assert sign_flip([0.1, -0.1], rng=RNG(1))[0] == 1.0


def three_ways(**more: Any) -> TrialRecord:
    levels = {"ammonia": 1.0, "soda": 0.9, "lime": 1.3}
    rng = RNG(2)
    tubs = [
        {"way": way, "block": f"p{k}", "value": level * float(np.exp(rng.normal(0.1 * k, 0.06)))}
        for k in range(4)
        for way, level in levels.items()
    ]
    return read(TrialRecord, {"ways": [{"name": way} for way in levels], "tubs": tubs} | more)


def test_the_best_of_several_is_drawn_in_and_its_chance_told() -> None:
    found = answered(three_ways())
    assert found.kind == "blocks"
    assert sum(way.best_chance or 0.0 for way in found.ways) == pytest.approx(1.0, abs=0.01)
    assert max(found.ways, key=lambda way: way.best_chance or 0.0).way == "lime"
    lime = found.against[1]
    flat = next(one for one in lime.beliefs if one.belief == "tubs_as_usual")
    assert lime.ratio_factor is not None
    assert 1 < lime.ratio_factor.p50 < flat.ratio_factor.p50
    assert "many-comparisons" in {caution.code for caution in found.cautions}


def test_what_is_asked_in_grams_for_an_hour_decides() -> None:
    more = {
        "assigned": "leaf",
        "leaf_kg": 6.0,
        "ways": [{"name": "clean", "work_h": 3.0}, {"name": "spotted", "work_h": 3.0}],
    }
    assert against(**more, least_g_per_h=1.0).decision == "take"
    assert against(**more, least_g_per_h=5.0).decision == "leave"
    assert against(**more).decision == "leave", "without a bound, less is not worth it"
    found = against(**more, least_g_per_h=2.0)
    assert found.gain_g is not None
    assert found.gain_g.p5 < found.gain_g.p50 < 0


def test_hours_more_are_paid_by_what_they_bring_and_hours_less_by_what_they_cost() -> None:
    """Turned round, spotted to clean brings 1.4 g a tub of 6 kg more (between 0.6 and 3): for an hour more that is
    worth an hour at 0.3 g and not one at 6 g."""

    def turned(usual_h: float, other_h: float, least: float) -> WayAgainst:
        ways = [{"name": "clean", "work_h": usual_h}, {"name": "spotted", "work_h": other_h}]
        return answered(pairs(SPOTTED, CLEAN, ways=ways, leaf_kg=6.0, least_g_per_h=least)).against[0]

    found = turned(2.0, 3.0, 0.3)
    assert found.gain_g == found.g_per_more_h
    assert (found.decision, turned(2.0, 3.0, 6.0).decision) == ("take", "leave")
    saved = answered(
        pairs(
            ways=[{"name": "clean", "work_h": 3.0}, {"name": "spotted", "work_h": 2.5}], leaf_kg=6.0, least_g_per_h=9.0
        )
    ).against[0]
    assert saved.gain_g is not None
    assert saved.g_per_more_h is not None
    assert saved.g_per_more_h.p50 == pytest.approx(-saved.gain_g.p50 / 0.5, rel=1e-3), "what an hour saved costs"
    assert saved.decision == "take", "half an hour saved is worth 4.5 g to who asks 9 g for an hour"


@pytest.mark.parametrize("lost", [{"spoilt": "it leaked"}, {"value": None}])
def test_a_tub_spoilt_or_never_weighed_could_have_gone_badly_or_well(lost: dict[str, Any]) -> None:
    """The fourth spotted tub lost: its rival leads to expect the mean of the other four; halved or doubled it moves
    the mean of five by a fifth of log 2."""
    usual = [{"way": "clean", "block": f"p{k}", "value": value} for k, value in enumerate(CLEAN)]
    other = [{"way": "spotted", "block": f"p{k}", "value": value} for k, value in enumerate(SPOTTED)]
    other[3] = other[3] | lost
    found = against(tubs=usual + other)
    four = np.mean(np.log([SPOTTED[k] / CLEAN[k] for k in (0, 1, 2, 4)]))
    assert found.lost_low_factor == pytest.approx(math.exp(four - math.log(2) / 5), rel=1e-4)
    assert found.lost_high_factor == pytest.approx(math.exp(four + math.log(2) / 5), rel=1e-4)
    usual[3] = usual[3] | lost
    assert against(tubs=usual + other).lost_low_factor is None, "nothing of that picking tells what to expect"


def test_tubs_that_are_alike_within_a_tenth_are_said_to_be() -> None:
    rng = RNG(4)
    usual = tuple(map(float, np.exp(rng.normal(0.2, 0.3, 30))))
    other = tuple(value * float(np.exp(rng.normal(0, 0.03))) for value in usual)
    assert against(usual=usual, other=other, earlier={"pairs": 50, "pair_sd": 0.05}).decision == "alike"


@pytest.mark.parametrize(
    ("more", "code"),
    [
        ({"assigned": "leaf"}, "sorted-leaf"),
        ({"assigned": "choice"}, "chosen-tubs"),
        ({"planned_blocks": 8}, "before-the-end"),
        ({"planned_blocks": 3}, "beyond-the-end"),
        ({}, "not-laid-down"),
        ({"planned_blocks": 5, "looks": 3}, "looked-again"),
        ({"comparisons": 6}, "many-comparisons"),
        ({"earlier": {"pairs": 200, "pair_sd": 0.03}}, "noisy-tubs"),
    ],
)
def test_what_could_fool_one_is_said(more: dict[str, Any], code: str) -> None:
    assert code in codes(pairs(**more))


def test_an_honest_trial_carries_no_warning_of_layout_or_stopping() -> None:
    assert codes(pairs(planned_blocks=5)) == {"few-pairs"}


def test_ways_that_keep_to_their_days_or_their_tub_are_told_apart_from_them() -> None:
    tubs = [
        {"way": way, "value": value, "day": f"2026-0{7 + late}-0{k + 1}", "tub": "12"[late]}
        for late, (way, values) in enumerate((("clean", CLEAN), ("spotted", SPOTTED)))
        for k, value in enumerate(values)
    ]
    assert {"day-apart", "tub-apart", "no-rivals"} <= codes(pairs(tubs=tubs))


def test_looking_again_does_what_the_table_says() -> None:
    """Repeated tests of a walk at steps of equal size, known noise: published 8.3, 10.7, 12.6, 14.2 % at 2 to 5
    looks."""
    walks = np.cumsum(RNG(7).standard_normal((200_000, 10)), axis=1) / np.sqrt(np.arange(1, 11))
    for looks, known in LOOKS_CHANCE.items():
        met = float(np.mean(np.any(np.abs(walks[:, :looks]) > 1.959964, axis=1)))
        assert met == pytest.approx(known.value, abs=0.003)


@pytest.mark.parametrize("n", [2, 4])
def test_tubs_twice_as_unlike_as_believed_have_ranges_that_still_hold(n: int) -> None:
    """5,000 trials of pairs unlike by 0.5: at least 85 of 100 where 90 are named; Monte-Carlo error 0.5 points."""
    drawn = RNG(12).normal(0.0, 0.5, (5000, n))
    rss = np.sum((drawn - drawn.mean(axis=1, keepdims=True)) ** 2, axis=1)
    before = noise_before(in_blocks=True, earlier=None)
    spread_sd = np.sqrt((before.dof * 2 * before.tub_sd**2 + rss) / (before.dof + n - 1))
    half = stats.t.ppf(0.95, before.dof + n - 1) * spread_sd / math.sqrt(n)
    assert 0.85 < np.mean(np.abs(drawn.mean(axis=1)) < half) < 0.92


def test_the_range_holds_the_truth_as_often_as_it_says() -> None:
    """600 trials of 4 pairs, noise as believed (drawn from the prior): nine in ten; Monte-Carlo error 1.2 points."""
    rng, inside = RNG(11), 0
    for _ in range(600):
        tubs = rng.normal(0.0, 0.25 / math.sqrt(2 * rng.chisquare(1)), (4, 2)) + rng.normal(0.0, 0.35, (4, 1))
        cells = [cell(way, str(k), value - 0.2 * way) for k, both in enumerate(tubs) for way, value in enumerate(both)]
        fit = fit_in_blocks(cells, ways=2)
        known = flat(fit, noise_after(noise_before(in_blocks=True, earlier=None), fit), 0)
        inside += 0.05 < known.below(-0.2) < 0.95
    assert 0.86 < inside / 600 < 0.94


def test_a_way_without_a_counted_rival_is_refused() -> None:
    with pytest.raises(InputError, match="no tub of 'spotted' that counts"):
        answered(pairs(tubs=[{"way": "clean", "value": 1.0}, {"way": "clean", "value": 1.1}]))
    with pytest.raises(InputError, match=r"tubs\[0\]\.way"):
        pairs(tubs=[{"way": "rusty", "value": 1.0}])
