"""The race of oxygen and indoxyl: against an independent solver, its closed form, and its laws."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from bluewright.science.air.oxidation import (
    Batch,
    State,
    done_frac,
    exposure_for,
    limits_h,
    onward,
    step,
    used_mmol_per_l,
)
from bluewright.science.base.errors import ModelError
from bluewright.science.media.oxygen import saturation_mmol_per_l

FULL = saturation_mmol_per_l(25.0)
GOAL = exposure_for(0.95)
ONE = np.ones(1)


def batch(kla: float, indoxyl: float = 0.9, other: float = 0.0, speed: float = 0.5) -> Batch:
    return Batch(
        indoxyl_mmol_per_l=indoxyl * ONE, other_mmol_per_l=other * ONE, other_speed_factor=speed * ONE,
        kla_per_h=kla * ONE, saturation_mmol_per_l=FULL,
    )  # fmt: skip


def start(oxygen_mmol_per_l: float = 0.0) -> State:
    return State(exposure=0.0 * ONE, oxygen_mmol_per_l=oxygen_mmol_per_l * ONE)


def rate(ph: float) -> float:
    """The working law at 25 C: 8 L/mmol/h at pH 7, ten times more for each 1/0.35 of pH."""
    return 8.0 * 10 ** (0.35 * (ph - 7.0))


def minutes(kla: float, ph: float, **fields: float) -> float:
    """Minutes until 95 % of the indoxyl has turned, from liquor without oxygen."""
    ahead = onward(batch(kla, **fields), start(), rate_l_per_mmol_h=rate(ph) * ONE, to_exposure=GOAL, least_h=0.01)
    return 60 * float(ahead.reaches_h(GOAL)[0])


def solved_h(kla: float, ph: float, other: float, speed: float, oxygen: float) -> float:
    """The same by SciPy's stiff solver on the three plain equations."""
    k = rate(ph)

    def slope(_: float, y: np.ndarray) -> list[float]:
        x, o2, rest = y
        return [-k * o2 * x, kla * (FULL - o2) - k * o2 * (x + speed * rest), -k * o2 * speed * rest]

    def nearly_done(_: float, y: np.ndarray) -> float:
        return float(y[0] - 0.05 * 0.9)

    nearly_done.terminal = True  # type: ignore[attr-defined]
    found = solve_ivp(slope, (0, 500), [0.9, oxygen, other], "LSODA", events=nearly_done, rtol=1e-8, atol=1e-10)
    return float(found.t[-1])


@pytest.mark.parametrize("kla", [0.5, 3.0, 10.0, 40.0])
@pytest.mark.parametrize("ph", [6.0, 8.0, 9.5, 11.0])
@pytest.mark.parametrize(("other", "oxygen"), [(0.0, 0.0), (1.5, 0.0), (1.5, FULL)])
def test_it_agrees_with_an_independent_solver(kla: float, ph: float, other: float, oxygen: float) -> None:
    """Reference library: scipy.integrate.solve_ivp (LSODA, rtol 1e-8); own steps within 1 %.

    The closed form takes the oxygen at the end as settled, so it is never shorter, and at most 6 % too long.
    """
    expected_h = solved_h(kla, ph, other, 0.5, oxygen)
    given = batch(kla, other=other)
    ahead = onward(given, start(oxygen), rate_l_per_mmol_h=rate(ph) * ONE, to_exposure=GOAL, least_h=0.01)
    assert ahead.reaches_h(GOAL)[0] == pytest.approx(expected_h, rel=0.01)
    by_air, by_reaction = limits_h(given, rate_l_per_mmol_h=rate(ph) * ONE, to_exposure=GOAL, since=start(oxygen))
    assert 0.995 < (by_air[0] + by_reaction[0]) / expected_h < 1.06


def test_slow_liquor_waits_for_alkali_and_airless_liquor_for_air() -> None:
    """Common practice, no source: alkali speeds the conversion; a whisk needs minutes, a trickle of air hours."""
    table = np.array([[minutes(kla, ph) for ph in (6, 7, 8, 9, 10, 11)] for kla in (0.5, 3, 10, 40)])
    assert np.all(np.diff(table, axis=1) < 0), "more alkaline is quicker at any supply"
    assert np.all(np.diff(table, axis=0) < 0), "more air is quicker at any pH"
    assert table[3, 0] / table[3, 5] > 15, "well whisked, the alkali decides"
    assert table[0, 0] / table[0, 5] < 2.5, "in a trickle of air, the alkali hardly matters"
    assert 5 < table[3, 4] < 30, "whisked with alkali: minutes"
    assert 240 < table[0, 1] < 660, "near neutral in a trickle: many hours"


def test_the_closed_form_as_worked() -> None:
    """Own hand: 0.9 mmol/L, 95 %, kLa 10 /h, C 0.2583, k 40.1: by air (0.855 + O)/2.583, by reaction 3.0/10.35 h.

    O, the oxygen there at the end, is 2.583 / (10 + 40.1 * 0.045) = 0.2188 mmol/L.
    """
    by_air, by_reaction = limits_h(batch(10.0), rate_l_per_mmol_h=rate(9.0) * ONE, to_exposure=GOAL)
    assert by_air[0] == pytest.approx((0.855 + 0.2188) / 2.583, rel=2e-3)
    assert by_reaction[0] == pytest.approx(2.996 / (40.1 * 0.2583), rel=2e-3)


@given(
    kla=st.floats(0.2, 100.0), ph=st.floats(5.0, 12.0), indoxyl=st.floats(0.01, 5.0), other=st.floats(0.0, 20.0),
    speed=st.floats(0.05, 5.0), oxygen_frac=st.floats(0.0, 1.0),
)  # fmt: skip
def test_oxygen_is_neither_made_nor_lost(
    kla: float, ph: float, indoxyl: float, other: float, speed: float, oxygen_frac: float
) -> None:
    """Own hand: what came in is what was used and what is there: a (C t - integral of O) = used + O - O0.

    The integral of O is the exposure over k, so the balance closes on the numbers themselves, here within 3 %.
    """
    given, here, k = batch(kla, indoxyl, other, speed), start(oxygen_frac * FULL), rate(ph)
    ahead = onward(given, here, rate_l_per_mmol_h=k * ONE, to_exposure=GOAL, least_h=0.05)
    hours, exposure = ahead.after_h[-1, 0], ahead.exposure[-1]
    brought = kla * (FULL * hours - exposure[0] / k)
    kept = ahead.oxygen_mmol_per_l[-1, 0] - here.oxygen_mmol_per_l[0]
    used = used_mmol_per_l(given, exposure)[0]
    assert brought == pytest.approx(used + kept, abs=0.03 * (used + FULL))
    assert np.all(np.diff(ahead.exposure[:, 0]) >= 0)
    assert np.all((ahead.oxygen_mmol_per_l >= 0) & (ahead.oxygen_mmol_per_l <= FULL * (1 + 1e-9)))


@given(kla=st.floats(0.5, 60.0), ph=st.floats(6.0, 11.0))
def test_more_air_more_alkali_and_less_demand_are_never_slower(kla: float, ph: float) -> None:
    here = minutes(kla, ph, other=1.0)
    assert minutes(kla * 1.2, ph, other=1.0) < here
    assert minutes(kla, ph + 0.5, other=1.0) < here
    assert minutes(kla, ph, other=1.2) > here
    assert minutes(kla, ph, indoxyl=1.0, other=1.0) > here


def test_oxygen_stays_low_while_the_demand_lasts_and_climbs_when_it_is_spent() -> None:
    ahead = onward(batch(10.0), start(), rate_l_per_mmol_h=rate(10.0) * ONE, to_exposure=GOAL, least_h=1.5)
    early, late = ahead.at_h(0.1), ahead.at_h(1.4)
    assert early.oxygen_mmol_per_l[0] < 0.25 * FULL
    assert late.oxygen_mmol_per_l[0] > 0.95 * FULL


def test_half_steps_agree_with_whole_ones() -> None:
    """Own hand: second order, so a tenfold step changes little."""
    given, k = batch(10.0, other=1.0), rate(9.5) * ONE
    coarse = fine = start()
    for _ in range(10):
        coarse = step(given, coarse, rate_l_per_mmol_h=k, dt_h=0.02)
    for _ in range(1000):
        fine = step(given, fine, rate_l_per_mmol_h=k, dt_h=0.0002)
    assert coarse.exposure[0] == pytest.approx(fine.exposure[0], rel=0.01)


def test_reaching_back_and_ahead() -> None:
    ahead = onward(batch(10.0), start(), rate_l_per_mmol_h=rate(9.5) * ONE, to_exposure=GOAL, least_h=0.1)
    reached_h = ahead.reaches_h(GOAL)
    assert done_frac(ahead.at_h(reached_h).exposure)[0] == pytest.approx(0.95, abs=1e-6)
    assert ahead.reaches_h(-1.0)[0] == 0.0, "what has been reached needs no more"


def test_a_vessel_that_gets_no_air_is_refused() -> None:
    with pytest.raises(ModelError, match="stands still"), np.errstate(all="ignore"):
        onward(batch(0.0), start(), rate_l_per_mmol_h=rate(9.5) * ONE, to_exposure=GOAL, least_h=0.1)
