"""What many batches say: against a second program, against the truth they were made with, and as a table."""

import math
from typing import Any

import numpy as np
import pytest
from scipy import stats

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.learn.mixed import batches
from bluewright.science.learn.mixed_record import BatchesAnswer, BatchesRecord, CauseFound
from bluewright.science.learn.mixed_text import batches_of
from bluewright.science.learn.mixed_work import half_normal_point
from tests.science.learn import mixed_reference as reference


def found_in(made: list[dict[str, Any]], **more: Any) -> BatchesAnswer:
    return batches(read(BatchesRecord, {"batches": made} | more), rng=np.random.default_rng(1))


@pytest.fixture(scope="module")
def large() -> BatchesAnswer:
    return found_in(reference.made_up(), usual="a")


def told(one: CauseFound) -> tuple[float, float]:
    """Middle and standard deviation on the logarithm."""
    band = one.ratio_factor
    return math.log(band.p50), math.log(band.p95 / band.p5) / 2 / 1.645


def test_causes_and_their_ranges_are_those_of_restricted_maximum_likelihood(large: BatchesAnswer) -> None:
    by_cause = {one.cause: told(one) for one in large.causes}
    for cause, (mean, error) in (("way", reference.WAY), ("temp_c", reference.WARMTH)):
        assert by_cause[cause][0] == pytest.approx(mean, abs=0.25 * error)
        assert by_cause[cause][1] == pytest.approx(error, rel=0.1)


def test_spreads_hold_those_of_restricted_maximum_likelihood(large: BatchesAnswer) -> None:
    by_luck = {one.of: one.log_sd for one in large.spreads}
    for luck, wanted in reference.SPREADS.items():
        assert by_luck[luck].p5 < wanted < by_luck[luck].p95  # type: ignore[index]
    assert large.ess > 100


def test_a_cause_that_goes_with_another_is_told_by_itself() -> None:
    """Way b was made in warm weeks only in part: bare means give it the warmth, the fit does not."""
    rng = np.random.default_rng(8)
    made = []
    for k in range(80):
        warm = k % 2
        way = "ab"[int(rng.random() < (0.85 if warm else 0.15))]
        temp_c = 14.0 + 8.0 * warm + float(rng.normal(0, 1))
        made.append({"way": way, "temp_c": temp_c, "value": float(np.exp(0.05 * (temp_c - 18) + rng.normal(0, 0.1)))})
    one = next(cause for cause in found_in(made, usual="a").causes if cause.cause == "way")
    assert one.plain_factor is not None
    assert one.plain_factor > 1.2
    assert one.ratio_factor.p5 < 1 < one.ratio_factor.p95 * 1.02


def test_a_way_that_kept_to_one_season_cannot_be_told_from_it() -> None:
    made = [
        {"way": way, "season": season, "value": 1.0 + 0.01 * k}
        for way, season in (("a", "1"), ("b", "2"))
        for k in range(4)
    ]
    assert "never-together" in {caution.code for caution in found_in(made).cautions}


def test_causes_that_never_came_apart_are_named() -> None:
    made = [
        {"way": "a", "plant": plant, "alkali": alkali, "temp_c": 12.0 + k, "value": 1.0 + 0.03 * k}
        for k, (plant, alkali) in enumerate([("woad", "soda"), ("japanese_indigo", "ammonia")] * 6)
    ]
    told_so = [caution.text for caution in found_in(made).cautions if caution.code == "never-apart"]
    assert len(told_so) == 1
    assert told_so[0].startswith("Always together in these batches: japanese indigo and ammonia.")


def test_what_was_noted_too_rarely_is_named_and_left_out() -> None:
    made = [
        {"way": "ab"[k % 2], "value": 1.0 + 0.1 * (k % 3)} | ({"held_h": 2.0 + k} if k < 3 else {}) for k in range(12)
    ]
    found = found_in(made)
    assert found.not_used == ("held_h",)
    assert [one.cause for one in found.causes] == ["way"]


def test_one_assay_for_all_of_a_way_widens_its_range() -> None:
    made = [{"way": "ab"[k % 2], "value": 1.0 + 0.02 * k} for k in range(20)]
    doubtful = [one | {"assay": one["way"], "assay_sd_frac": 0.15} for one in made]
    assert told(found_in(doubtful).causes[0])[1] > 1.5 * told(found_in(made).causes[0])[1]


def test_batches_in_which_nothing_differs_are_refused() -> None:
    with pytest.raises(InputError, match="nothing that was noted differs"):
        found_in([{"way": "a", "value": 1.0 + 0.1 * k} for k in range(6)])
    with pytest.raises(InputError, match="fewer than 4 have a value"):
        found_in([{"way": "a", "value": 1.0}] * 3 + [{"way": "b"}])


def test_scores_become_half_normal_spreads() -> None:
    chance = np.array([1e-6, 0.01, 0.3, 0.5, 0.9, 0.999, 1 - 1e-9])
    assert half_normal_point(chance) == pytest.approx(stats.halfnorm.ppf(chance), rel=1e-6, abs=1e-9)


def test_the_range_holds_the_truth_as_often_as_it_says() -> None:
    """20 gardens of 16 batches: nine in ten; Monte-Carlo error 7 points (400 of them in the method page)."""
    inside = 0
    for seed in range(20):
        one = found_in(reference.made_up(16, seed + 100), usual="a").causes[0].ratio_factor
        inside += one.p5 < math.exp(0.14) < one.p95
    assert 0.74 < inside / 20 <= 1.0


def test_a_table_is_read_and_a_fault_named_by_its_line() -> None:
    found = batches_of("way;value;day;temp_c\nammonia;1.2;2026-07-04;\nsoda ash;0.9;2026-07-04;17.5\n\n")
    assert [one.way for one in found] == ["ammonia", "soda ash"]
    assert found[0].temp_c is None
    assert found[1].temp_c == 17.5
    with pytest.raises(InputError, match=r"line 3.*'1,2' is not a number"):
        batches_of("way;value\na;1.0\nb;1,2\n")
    with pytest.raises(InputError, match="it must name way and value"):
        batches_of("way,colour\na,blue\n")
    with pytest.raises(InputError, match="line 2: it has 3 cells"):
        batches_of("way,value\na,1,2\n")


def test_every_kind_of_cause_comes_back_at_once() -> None:
    """240 batches of a garden with all that can be noted drawn at random, truth known: each of the causes within three
    of its own standard deviations, and most of them within one and a half."""
    rng = np.random.default_rng(21)
    truth = {
        "temp_c": 0.02 * 5, "steep_h": -0.004 * 12, "held_h": -0.03 * 2, "damaged_frac": -0.9 * 0.1, "plant": 0.3,
        "leaf_age": -0.2, "alkali": 0.1, "water": -0.15, "way": 0.12,
    }  # fmt: skip
    beds, made = rng.normal(0, 0.15, 5), []
    for _ in range(240):
        bed, kinds = int(rng.integers(5)), {name: int(rng.integers(2)) for name in ("p", "l", "a", "w", "way")}
        temp_c, steep_h = float(rng.uniform(12, 24)), float(rng.uniform(24, 90))
        held_h, damaged = float(rng.uniform(0, 10)), float(rng.uniform(0, 0.5))
        log_value = (
            0.02 * temp_c - 0.004 * steep_h - 0.03 * held_h - 0.9 * damaged + 0.3 * kinds["p"] - 0.2 * kinds["l"]
            + 0.1 * kinds["a"] - 0.15 * kinds["w"] + 0.12 * kinds["way"] + beds[bed] + rng.normal(0, 0.2)
        )  # fmt: skip
        made.append(
            {
                "way": "ab"[kinds["way"]], "value": float(np.exp(log_value)), "bed": f"bed {bed}", "temp_c": temp_c,
                "steep_h": steep_h, "held_h": held_h, "damaged_frac": damaged,
                "plant": ("indigofera", "woad")[kinds["p"]], "leaf_age": ("mixed", "old")[kinds["l"]],
                "alkali": ("ammonia", "soda")[kinds["a"]], "water": ("rain", "tap")[kinds["w"]],
            }
        )  # fmt: skip
    off = []
    for one in found_in(made, usual="a").causes:
        mean, sd = told(one)
        turned = -1.0 if one.beside and one.is_ < one.beside else 1.0
        off.append(abs(turned * mean - truth[one.cause]) / sd)
    assert len(off) == len(truth)
    assert max(off) < 3.0
    assert np.median(off) < 1.5
