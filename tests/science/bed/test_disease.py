"""Damage: mean share of leaf area from scored leaves, and its cost."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.bed.disease import GRADE_TOPS, disease, grade_of, mean_draws, under_curve_frac_d
from bluewright.science.bed.disease_record import DiseaseAnswer, DiseaseRecord
from tests.published import rows


def answer(**fields: object) -> DiseaseAnswer:
    return disease(read(DiseaseRecord, {"plant": "woad"} | fields), rng=np.random.default_rng(1))


def test_percents_are_averaged_and_not_the_numbers_of_grades() -> None:
    """Worked case after Chiang 2017: leaves at midpoints; the mean is 4.8 %, the mean of the grades would be 15 %."""
    right, wrong = (row.value for row in rows("severity-grades"))
    scores = [0.0] * 4 + [1.5] * 6 + [4.5] * 5 + [9.0] * 3 + [18.5] * 2
    assert sum(scores) / len(scores) == pytest.approx(right)
    found = answer(spotted_pct=scores * 3).spotted_frac
    assert found is not None
    assert found.p5 < right / 100 < found.p95 < wrong / 100
    assert found.p50 == pytest.approx(right / 100, rel=0.1)


Law = Callable[[np.random.Generator, int], np.ndarray]


def beta(mean: float, precision: float) -> Law:
    """Not the model's own law."""
    return lambda rng, many: rng.beta(mean * precision, (1 - mean) * precision, many)


def exponential_of_normal(middle: float, log_sd: float) -> Law:
    """Not the model's own law either: mostly a trace, here and there a quarter."""
    return lambda rng, many: np.minimum(1.0, np.exp(rng.normal(math.log(middle), log_sd, many)))


@pytest.mark.parametrize("clean", [0.0, 0.6])
@pytest.mark.parametrize(
    ("law", "least"),
    [
        (beta(0.05, 4.0), 0.85), (beta(0.05, 20.0), 0.85), (beta(0.2, 4.0), 0.85), (beta(0.4, 10.0), 0.85),
        (exponential_of_normal(0.03, 0.8), 0.85), (exponential_of_normal(0.03, 1.2), 0.82),
        (exponential_of_normal(0.1, 1.2), 0.70),
    ],
)  # fmt: skip
def test_nine_ranges_in_ten_hold_the_true_mean(clean: float, law: Law, least: float) -> None:
    """300 beds each, 15 leaves, scored to a tenth of a percent; the Monte Carlo error of 0.90 is 0.017.

    Of leaves that are rarely but wholly ruined (the last law) fifteen say too little: there the range falls short.
    """
    rng, held = np.random.default_rng(5), 0
    truth = (1 - clean) * float(law(rng, 400_000).mean())
    for _ in range(300):
        scores = np.round(np.where(rng.random(15) < clean, 0.0, law(rng, 15)), 3)
        low, high = np.quantile(mean_draws(scores, n=500, rng=rng), [0.05, 0.95])
        held += bool(low <= truth <= high)
    assert held / 300 >= least


def test_the_cost_is_that_of_the_damaged_share() -> None:
    """Own hand: half the area spotted, D -0.1: 1 - exp(-0.05) = 4.9 % in the middle;
    0.3 * 0.5 * 1.645 = 0.25 to either side of it in the log.
    """
    found = answer(spotted_pct=[50.0] * 30, leaf_kg=6.0)
    assert found.cost_per_kg_frac.p50 == pytest.approx(0.049, abs=0.012)
    assert found.cost_per_kg_frac.p5 == pytest.approx(1 - math.exp(0.197), abs=0.03)
    assert found.cost_g is not None
    assert found.cost_g.p5 < 0 < found.cost_g.p95


def test_what_is_eaten_is_gone_from_the_bed_and_not_from_the_kilogram() -> None:
    found = answer(eaten_pct=[30.0] * 30)
    assert found.cost_per_m2_frac.p50 == pytest.approx(0.3, abs=0.02)
    assert found.cost_per_kg_frac.p5 == found.cost_per_kg_frac.p95 == 0


def test_an_eye_without_drawn_leaves_is_believed_less() -> None:
    scores = [0, 2, 5, 10, 3, 1] * 10
    with_key, without = (answer(spotted_pct=scores, with_key=key).spotted_frac for key in (True, False))
    assert with_key is not None
    assert without is not None
    assert without.p95 - without.p5 > 1.2 * (with_key.p95 - with_key.p5)


def test_each_leaf_falls_into_the_grade_of_its_share() -> None:
    shares = (0.0, 0.001, 0.01, 0.02, 0.05, 0.051, 0.10, 0.25, 0.26, 0.5, 0.51, 1.0)
    grades = [
        "clean",
        "touch",
        "touch",
        "light",
        "light",
        "clear",
        "clear",
        "heavy",
        "half",
        "half",
        "ruined",
        "ruined",
    ]
    assert [grade_of(share) for share in shares] == grades
    assert list(GRADE_TOPS.values()) == sorted(GRADE_TOPS.values())
    counted = answer(spotted_pct=[0, 1, 30], eaten_pct=[0, 0, 100]).grades
    assert {one.grade: (one.spotted, one.eaten) for one in counted if one.spotted or one.eaten} == {
        "clean": (1, 2), "touch": (1, 0), "half": (1, 0), "ruined": (0, 1),
    }  # fmt: skip


def test_no_leaf_at_all_is_refused() -> None:
    with pytest.raises(InputError, match="no leaf was scored"):
        answer()


def test_whatever_it_is_sprays_go_by_their_label() -> None:
    assert [one.code for one in answer(spotted_pct=[1] * 12, cause="clubroot").cautions] == ["spray-label", "cause"]
    assert [one.code for one in answer(spotted_pct=[1]).cautions] == ["spray-label", "few-leaves"]


@settings(max_examples=25, deadline=None)
@given(st.lists(st.floats(0.1, 60), min_size=5, max_size=20), st.floats(1.1, 1.6))
def test_more_damage_on_every_leaf_never_lowers_the_mean(scores: list[float], times: float) -> None:
    less, more = (answer(spotted_pct=[by * one for one in scores]).spotted_frac for by in (1.0, times))
    assert less is not None
    assert more is not None
    assert more.p50 > less.p50


def test_damage_over_a_season_is_summed_by_trapezoids() -> None:
    """Own hand: 0, 5, 20, 40 % at 0, 7, 14, 21 days: 17.5 + 87.5 + 210 = 315 %-days."""
    assert under_curve_frac_d([0, 7, 14, 21], [0.0, 0.05, 0.2, 0.4]) == pytest.approx(3.15)
    assert under_curve_frac_d([3], [0.4]) == 0.0
