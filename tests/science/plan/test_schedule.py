"""Schedules of small seasons against every schedule tried one by one, and what each limit does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

from bluewright.science.plan.schedule_first import Search, first_values
from bluewright.science.plan.schedule_model import model
from bluewright.science.plan.schedule_problem import START, Drying, Problem, Schedule, Size, Want
from tests.science.plan.small import PRICES, WORK, best_worth, season, ways

BED = ways((START, 1, 8.0, 1.0), (START, 2, 9.0, 1.1), (START, 4, 11.0, 1.0), (1, 5, 7.0, 1.2), (2, 6, 7.0, 1.3))
OTHER = ways((START, 1, 6.0, 1.5), (START, 3, 8.0, 1.2), most_cuts=1)
THIRD = ways((START, 2, 14.0, 0.9), (START, 3, 15.0, 0.8))
FREE = np.array([2.0, 3.0, 2.5, 0.0, 3.0, 2.0, 4.0, 4.0, 2.0])


def solved(problem: Problem) -> Schedule:
    made = model(problem)
    return made.schedule(made.program.solved())


SMALL: dict[str, Callable[[], Problem]] = {
    "one bed": lambda: season(9, (BED,)),
    "two beds, one tub": lambda: season(9, (BED, OTHER)),
    "more leaf than the tub takes": lambda: season(8, (OTHER, THIRD)),
    "hours": lambda: season(9, (BED,), hours=WORK, free_h=FREE),
    "hours for two": lambda: season(9, (OTHER, THIRD), hours=WORK, free_h=FREE),
    "extra hours at a price": lambda: season(9, (BED,), hours=WORK, free_h=FREE, extra_h=np.where(FREE > 0, 0.5, 0.0)),
    "one place to dry": lambda: season(
        9, (BED, OTHER), drying=Drying(wash_d=1, dry_d=3, needed=(1.0,), room=np.ones(9))
    ),
    "a want in the middle": lambda: season(9, (BED, OTHER), wants=(Want(day=6, blue_g=9.0), Want(day=8, blue_g=4.0))),
    "a price for each tub": lambda: season(9, (BED, OTHER), prices=replace(PRICES, tub_g=0.7)),
    "a tub that rests": lambda: season(9, (BED, OTHER), sizes=(Size(count=1, leaf_kg=10.0, rest_d=2),)),
}


@pytest.mark.parametrize("name", SMALL)
def test_no_schedule_of_a_small_season_is_better(name: str) -> None:
    """Own hand: every chain of cuts with every filling, the amounts settled by SciPy's linear program."""
    problem = SMALL[name]()
    best = best_worth(problem)
    assert solved(problem).worth_g == pytest.approx(best, rel=1e-6)
    assert solved(problem).bound_g == pytest.approx(best, rel=1e-5)


@pytest.mark.parametrize("name", SMALL)
def test_another_solver_finds_the_same_worth(name: str) -> None:
    """SciPy's mixed-integer solver, given the same rows."""
    program = model(SMALL[name]()).program
    shape = (len(program.lower), len(program.worth))
    rows = coo_array((program.value, (program.row_of, program.col_of)), shape=shape)
    found = milp(
        -np.array(program.worth), integrality=np.array(program.whole, dtype=int),
        bounds=Bounds(program.least, program.most),
        constraints=LinearConstraint(rows.tocsr(), program.lower, program.upper),
    )  # fmt: skip
    assert -found.fun == pytest.approx(program.solved().worth, rel=1e-6)


@pytest.mark.parametrize("name", SMALL)
def test_the_first_schedule_is_possible_and_no_better_than_the_best(name: str) -> None:
    made = model(SMALL[name]())
    values, worth = first_values(made, rng=np.random.default_rng(1))
    fixed = model(SMALL[name]()).program
    for column, value in values.items():
        fixed.least[column] = fixed.most[column] = value
    begun = fixed.solved().worth
    assert begun == pytest.approx(worth, abs=0.5) or begun >= worth
    assert begun <= made.program.solved().worth + 1e-6


def test_a_single_bed_is_cut_at_its_best_at_once() -> None:
    """By hand: 9 kg at 1.1 and 7 kg at 1.3 give 19 g; 8 and 7 at 1.2 give 16.4; 11 alone 11 (the tub takes 10)."""
    found = solved(SMALL["one bed"]())
    assert found.worth_g == pytest.approx(9 * 1.1 + 7 * 1.3)
    assert Search(SMALL["one bed"]()).worth(Search(SMALL["one bed"]()).found(rng=np.random.default_rng(1))) == (
        pytest.approx(19.0)
    )


def test_leaf_that_no_tub_takes_stays_standing() -> None:
    """By hand: of 15 kg a tub of 10 kg takes 10."""
    found = solved(season(8, (ways((START, 2, 15.0, 1.0)),)))
    assert sum(found.standing_kg.values()) == pytest.approx(5.0)
    assert found.worth_g == pytest.approx(10.0)


def test_a_bed_in_two_parts_fills_the_tub_twice() -> None:
    """By hand: half of 16 kg on one day, the other half four days later, when the tub of 10 kg is free again."""
    bed = ways((START, 1, 16.0, 1.0), (START, 4, 16.0, 1.0), parts=2, most_cuts=1)
    assert solved(season(9, (bed,))).worth_g == pytest.approx(16.0)
    assert solved(season(9, (replace(bed, parts=1),))).worth_g == pytest.approx(10.0)


def test_leaf_waits_a_night_where_that_is_worth_more_than_leaving_it() -> None:
    """By hand: no steep begins on day 1, so 5 kg wait for day 2 and lose a tenth."""
    problem = season(8, (ways((START, 1, 5.0, 1.0)),))
    steep = problem.steeps[0]
    kept = steep.fill != 1
    fewer = replace(
        steep, fill=steep.fill[kept], strain=steep.strain[kept], busy_until=steep.busy_until[kept],
        kept_frac=steep.kept_frac[kept],
    )  # fmt: skip
    found = solved(replace(problem, steeps=(fewer,)))
    assert found.held_kg == {(0, 1): pytest.approx(5.0)}
    assert found.worth_g == pytest.approx(4.5)


def test_a_cut_planned_for_this_week_stays_unless_moving_it_pays() -> None:
    """By hand: day 2 would give 2 % more than day 1, and moving costs 2 % a day; 9 % more pays."""
    small, large = ways((START, 1, 5.0, 1.0), (START, 2, 5.0, 1.01)), ways((START, 1, 5.0, 1.0), (START, 2, 5.0, 1.09))
    for bed, day in ((small, 1), (large, 2)):
        found = solved(replace(season(8, (bed,)), kept_days={0: 1}))
        assert bed.on[found.cuts[0].way] == day
