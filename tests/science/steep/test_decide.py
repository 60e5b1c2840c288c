"""The decision: which moment loses least."""

from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest

from bluewright.science.steep.decide import Outlook, decide, listed, moments_h, time_at, window_h
from tests.science.steep.simulate import START, record

HOURS = np.arange(0.0, 121.0, 1.0)


def view(peaks_h: list[float], *, width_h: float = 30.0) -> Outlook:
    """Members whose share of the best is a bell about their peak (invented, to decide upon)."""
    peak = np.array(peaks_h)
    share = np.exp(-0.5 * ((HOURS[:, None] - peak) / width_h) ** 2)
    n = len(peak)
    return Outlook(hours=HOURS, share_frac=share, best_mmol_per_l=np.ones(n), peak_h=peak, weights=np.full(n, 1 / n))


def at(hours: float, **fields: object):  # type: ignore[no-untyped-def]
    return replace(record(temps=[]), now=START + timedelta(hours=hours), **fields)


def test_the_chosen_moment_has_the_least_expected_loss_of_all() -> None:
    found = decide(at(20, can_strain=("08:00", "18:00")), view([50, 60, 70]))
    assert found.advice == "wait"
    assert found.expected_frac[found.chosen] >= found.expected_frac.max() - 0.005
    by_hand = view([50, 60, 70]).at(found.option_h[[found.chosen]])[0].mean()
    assert found.expected_frac[found.chosen] == pytest.approx(by_hand)


def test_the_advice_is_one_of_the_times_the_person_can_work() -> None:
    found = decide(at(20, can_strain=("07:30",)), view([55]))
    moment = time_at(record(), found.option_h[found.chosen])
    assert (moment.hour, moment.minute) == (7, 30)


def test_strain_now_at_the_peak_and_past_it() -> None:
    assert decide(at(60), view([60, 61, 59])).advice == "strain"
    past = decide(at(80), view([50, 55, 60]))
    assert past.advice == "strain_past_peak"
    assert past.past_peak_chance == 1.0


def test_of_moments_as_good_the_earlier_is_taken() -> None:
    flat = view([60], width_h=2000.0)
    assert decide(at(30), flat).chosen == 0


def test_look_again_comes_when_the_peak_may_be_past_and_never_after_the_advised_moment() -> None:
    early_and_late = decide(at(20, can_strain=("08:00", "18:00")), view([30, 80, 80, 80, 80]))
    assert early_and_late.look_again_h < early_and_late.option_h[early_and_late.chosen]
    sure = decide(at(20, can_strain=("08:00", "18:00")), view([60] * 5))
    assert sure.look_again_h <= sure.option_h[sure.chosen]


def test_the_default_hours_are_six_to_twenty_two_by_the_persons_clock() -> None:
    hours = moments_h(at(20), 68.0)
    clocks = {time_at(record(), h).hour for h in hours}
    assert clocks == set(range(6, 23))
    assert min(hours) > 20


def test_a_hot_steep_is_decided_by_the_minute() -> None:
    hours = moments_h(at(0, method="hot"), 0.5)
    assert len(hours) == 60
    assert max(np.diff(hours)) < 0.01


def test_the_window_is_where_half_the_members_keep_nine_tenths() -> None:
    """Own hand: a bell of 30 h keeps 90 % within 30 sqrt(-2 ln 0.9) = 13.8 h of its peak."""
    first, last = window_h(view([60]))
    assert first == pytest.approx(60 - 13.8, abs=1.0)
    assert last == pytest.approx(60 + 13.8, abs=1.0)


def test_now_and_the_advised_moment_are_always_listed() -> None:
    found = decide(at(5), view([100], width_h=10.0))
    rows = listed(found)
    assert {0, found.chosen} <= set(rows)
    assert len(rows) <= 18
