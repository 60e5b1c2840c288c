"""What holds for every schedule, whatever the season: random seasons, solved roughly."""

from __future__ import annotations

from collections import defaultdict

import numpy as np
import pytest

from bluewright.science.plan.schedule_first import Search, first_values
from bluewright.science.plan.schedule_model import model, without_needless
from bluewright.science.plan.schedule_problem import (
    START,
    Drying,
    Hours,
    Prices,
    Problem,
    Running,
    Schedule,
    Size,
    Want,
    Ways,
)
from bluewright.science.plan.schedule_tubs import into_tubs, room_by_day, singles
from tests.science.plan.small import steeps

DAYS, APART_D = 40, 9
SEASONS = range(12)


def random_season(number: int) -> Problem:
    """Two kinds of leaf, two sizes, hours on some days only, places, wants, a tub that steeps already."""
    rng = np.random.default_rng(number)
    free_h = np.where(rng.random(DAYS) < 0.6, rng.uniform(2, 8, DAYS), 0.0)
    works = free_h > 0
    beds = []
    for bed in range(int(rng.integers(2, 5))):
        days = [d for d in range(DAYS) if works[d]]
        rows = [(START, d, rng.uniform(3, 20), rng.uniform(0.5, 2)) for d in days if d < 15]
        rows += [(s, d, rng.uniform(3, 20), rng.uniform(0.5, 2)) for s in days for d in days if APART_D <= d - s < 16]
        since, on, leaf, grams = zip(*rows, strict=True)
        beds.append(
            Ways(
                kind=bed % 2, parts=int(rng.integers(1, 3)), most_cuts=3, since=np.array(since), on=np.array(on),
                leaf_kg=np.array(leaf), blue_g_per_kg=np.array(grams),
            )
        )  # fmt: skip
    every = []
    for kind in range(2):
        found = steeps(DAYS, long_d=2 + kind)
        able = works[found.fill] & works[found.strain]
        every.append(
            type(found)(
                fill=found.fill[able], strain=found.strain[able], busy_until=found.busy_until[able],
                kept_frac=found.kept_frac[able],
            )
        )  # fmt: skip
    first = int(np.flatnonzero(works & (free_h >= 2))[0])
    return Problem(
        days=DAYS, free_h=free_h, extra_h=np.where(works, 1.0, 0.0), beds=tuple(beds),
        sizes=(Size(count=2, leaf_kg=12.0, rest_d=1), Size(count=1, leaf_kg=6.0, rest_d=0)), steeps=tuple(every),
        hours=Hours(cut_h_per_kg=0.1, fill_h=0.3, look_h=0.1, strain_h=1.0, wash_h=1.0, wait_d=6),
        drying=Drying(wash_d=2, dry_d=4, needed=(1.0, 0.5), room=np.full(DAYS, 2.0)),
        prices=Prices(late_frac=0.5, extra_g_per_h=0.3, held_frac=(0.05, 0.2), move_frac_per_d=0.02),
        wants=(Want(day=25, blue_g=20.0), Want(day=39, blue_g=20.0)),
        running=(
            Running(
                size=0, leaf_kg=9.0, blue_g=8.0, strain=np.array([first]), busy_until=np.array([first]),
                kept_frac=np.array([1.0]),
            ),
        ),
    )  # fmt: skip


@pytest.fixture(scope="module", params=SEASONS)
def solved(request: pytest.FixtureRequest) -> tuple[Problem, Schedule]:
    problem = random_season(request.param)
    made = model(problem)
    start, _worth = first_values(made, rng=np.random.default_rng(1))
    found = without_needless(made, made.program.solved(gap_frac=0.2, start=start))
    return problem, made.schedule(found)


Solved = tuple[Problem, Schedule]


def test_no_tub_does_two_things_at_once(solved: Solved) -> None:
    problem, schedule = solved
    busy: dict[tuple[int, int, int], int] = defaultdict(int)
    for one in singles(problem, schedule, running_kinds=[0]):
        assert one.tub < problem.sizes[one.size].count
        for day in range(max(one.fill, 0), max(one.strain, one.fill + 1)):
            busy[one.size, one.tub, day] += 1
    assert max(busy.values()) == 1


def test_hours_and_places_are_never_over(solved: Solved) -> None:
    """Reckoned from the tubs one by one; washing as it is planned, each tub's done within the week."""
    problem, schedule = solved
    hours, drying = problem.hours, problem.drying
    spent, room = schedule.washed_h.copy(), np.zeros(DAYS + 20)
    for cut in schedule.cuts:
        ways = problem.beds[cut.bed]
        spent[ways.on[cut.way]] += hours.cut_h_per_kg * ways.leaf_kg[cut.way] * cut.parts / ways.parts
    for (_bed, day), kg in schedule.standing_kg.items():
        spent[day] -= hours.cut_h_per_kg * kg
    strained = np.zeros(DAYS)
    for one in singles(problem, schedule, running_kinds=[0]):
        if one.fill >= 0:
            spent[one.fill] += hours.fill_h
        spent[one.strain] += hours.strain_h
        strained[one.strain] += 1
        for day in range(one.fill + 1, one.strain):
            spent[day] += hours.look_h * (problem.free_h[day] > 0)
        room[one.strain + drying.wash_d : one.strain + drying.wash_d + drying.dry_d] += drying.needed[one.size]
    assert np.all(spent <= problem.free_h + schedule.extra_h + 1e-6)
    assert np.all(schedule.extra_h <= problem.extra_h + 1e-9)
    assert np.all(room[:DAYS] <= 2.0 + 1e-9)
    done, due = np.cumsum(schedule.washed_h), hours.wash_h * np.concatenate([[0], np.cumsum(strained)])
    assert np.all(done <= due[:DAYS] + 1e-6), "nothing is washed before it is strained"
    assert all(done[d] >= due[d - hours.wait_d] - 1e-6 for d in range(hours.wait_d, DAYS)), "nor later than the week"


def test_cuts_keep_their_order_their_number_and_their_parts(solved: Solved) -> None:
    problem, schedule = solved
    for number, bed in enumerate(problem.beds):
        mine = [cut for cut in schedule.cuts if cut.bed == number]
        assert sum(cut.parts for cut in mine) <= bed.most_cuts * bed.parts
        there: dict[int, int] = defaultdict(int)
        there[START] = bed.parts
        for cut in sorted(mine, key=lambda cut: int(bed.on[cut.way])):
            there[int(bed.since[cut.way])] -= cut.parts
            there[int(bed.on[cut.way])] += cut.parts
            assert bed.since[cut.way] == START or bed.on[cut.way] - bed.since[cut.way] >= APART_D
        assert min(there.values()) >= 0


def test_leaf_cut_is_leaf_in_tubs_and_leaf_left_standing(solved: Solved) -> None:
    problem, schedule = solved
    cut_kg = sum(float(problem.beds[c.bed].leaf_kg[c.way]) * c.parts / problem.beds[c.bed].parts for c in schedule.cuts)
    tubs = singles(problem, schedule, running_kinds=[0])
    in_tubs_kg = sum(one.leaf_kg for one in tubs if one.running is None)
    assert in_tubs_kg + sum(schedule.standing_kg.values()) == pytest.approx(cut_kg, abs=1e-5)
    room = room_by_day(problem, schedule)
    into = into_tubs(problem, schedule)
    assert all(kg <= room[key] + 1e-6 for key, kg in into.items())
    for one in schedule.fillings:
        key = (one.kind, int(problem.steeps[one.kind].fill[one.steep]))
        assert room[key] - problem.sizes[one.size].leaf_kg < into.get(key, 0.0), "no tub is filled that no leaf needs"


def test_the_bound_lies_above_and_the_first_plan_below(solved: Solved) -> None:
    problem, schedule = solved
    search = Search(problem)
    first = search.worth(search.found(rng=np.random.default_rng(1)))
    assert first <= schedule.bound_g + 1e-6
    assert schedule.worth_g <= schedule.bound_g + 1e-6
    assert schedule.gap_frac <= 0.2 + 1e-9
