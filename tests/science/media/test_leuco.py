"""Forms of reduced indigo: the shares worked out by hand, and what algebra asks."""

import numpy as np
import pytest

from bluewright.science.media.leuco import LEUCO_PKA_1, LEUCO_PKA_2, leuco_forms
from tests.published import rows


@pytest.mark.parametrize("row", rows("leuco-forms"), ids=lambda row: f"{row.what} at pH {row.given['ph']}")
def test_the_shares_worked_out_by_hand_are_met(row):
    forms = leuco_forms(row.given["ph"])
    assert row.agrees(100 * float(getattr(forms, f"{row.what}_frac")))


def test_at_each_constant_two_neighbours_are_alike_and_half_way_the_single_charge_rules():
    first, second = leuco_forms(LEUCO_PKA_1.value), leuco_forms(LEUCO_PKA_2.value)
    assert float(first.acid_frac) == pytest.approx(float(first.mono_frac))
    assert float(second.mono_frac) == pytest.approx(float(second.di_frac))
    between = leuco_forms((LEUCO_PKA_1.value + LEUCO_PKA_2.value) / 2)
    assert float(between.mono_frac) == pytest.approx(1 / (1 + 2 * 10 ** ((7.97 - 12.68) / 2)))  # algebra: 0.991
    assert float(between.mono_frac) == pytest.approx(0.991, abs=0.0005)


def test_the_shares_add_up_and_charge_grows_with_ph():
    ph = np.linspace(0, 14, 57)
    forms = leuco_forms(ph)
    assert forms.acid_frac + forms.mono_frac + forms.di_frac == pytest.approx(np.ones(57))
    assert np.all(np.diff(forms.acid_frac) <= 0)
    assert np.all(np.diff(forms.di_frac) >= 0)
