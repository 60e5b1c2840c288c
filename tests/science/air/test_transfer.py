"""How fast pouring, bubbling and whisking bring oxygen in."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.air.members import CAUSES, members
from bluewright.science.air.record import AirRecord
from bluewright.science.air.transfer import (
    AIR_OXYGEN_MG_PER_L,
    BUBBLES,
    POURS,
    Bubbling,
    Pouring,
    at_temperature_per_h,
    column_per_h,
    dealt,
    efficiency_frac,
    gameson_ratio,
    nakasone_ratio,
    uptake_per_h,
)
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from tests.published import Row, rows

ONE = np.ones(1)
SCORES = np.random.default_rng(1).standard_normal((20_000, len(CAUSES)))


def fall(height: float = 0.5, flow: float = 72.0, pool: float = 0.25, temp_c: float = 20.0, a: float = 0.65) -> Pouring:
    return Pouring(
        height_m=height * ONE, flow_m3_per_m_h=flow * ONE, pool_m=pool * ONE, temp_c=temp_c,
        pollution_factor=a * ONE, soapy_frac=ONE,
    )  # fmt: skip


def bubbles(air_l_per_min: float, liquor_l: float = 20.0, depth_m: float = 0.25) -> Bubbling:
    """In a bucket 30 cm wide."""
    return Bubbling(
        air_l_per_min=air_l_per_min, liquor_l=liquor_l, area_m2=np.pi * 0.15**2, depth_m=depth_m,
        uptake_per_m_frac=0.08 * ONE,
    )  # fmt: skip


def kla(**fields: object) -> np.ndarray:
    record = read(AirRecord, {"liquor_l": 20.0, "temp_c": 20.0} | fields)
    return members(record, SCORES).batch.kla_per_h


def test_gameson_as_worked() -> None:
    """Own hand, formula as printed in Delft3D: 1 + 0.38*0.65*0.5*(1 - 0.055)*(1 + 0.92) = 1.2241; dirtier: E 0.04."""
    assert gameson_ratio(fall())[0] == pytest.approx(1.2240, abs=2e-4)
    assert efficiency_frac(gameson_ratio(fall()))[0] == pytest.approx(0.183, abs=1e-3)
    assert efficiency_frac(gameson_ratio(fall(a=0.12)))[0] == pytest.approx(0.040, abs=1e-3)
    assert efficiency_frac(gameson_ratio(fall(height=1.0)))[0] == pytest.approx(0.30, abs=0.005)


def test_nakasone_as_worked() -> None:
    """Own hand, formula as printed in Delft3D: 0.0675 * 0.5^1.28 * 72^0.62 * 0.25^0.439 = 0.2143; e^0.2143 = 1.239."""
    assert nakasone_ratio(fall())[0] == pytest.approx(1.239, abs=5e-4)
    assert efficiency_frac(nakasone_ratio(fall()))[0] == pytest.approx(0.193, abs=1e-3)


@pytest.mark.parametrize("row", rows("raikar-kamatagi-2015", "efficiency"), ids=str)
def test_measured_weirs_lie_within_what_is_believed_of_a_pour(row: Row) -> None:
    """Published: three small structures in clean water; a pour of liquor is believed to gain about as much or less."""
    record = read(AirRecord, {"liquor_l": 10.0, "temp_c": 20.0, "pour": {}})
    low, high = np.quantile(members(record, SCORES).efficiency_frac, [0.05, 0.95])
    assert low < row.value < high


def test_the_rivals_are_dealt_evenly_and_their_disagreement_shows() -> None:
    given = fall(height=1.0, flow=20.0)
    found = dealt(POURS, given, z=np.random.default_rng(2).standard_normal(10_000))
    assert set(np.unique(found)) == {gameson_ratio(given)[0], nakasone_ratio(given)[0]}
    assert np.mean(found == gameson_ratio(given)[0]) == pytest.approx(0.5, abs=0.02)


def test_a_rival_says_what_it_was_not_studied_for() -> None:
    assert POURS["nakasone"].outside(fall(height=2.0, flow=500.0)) == ["height_m", "flow_m3_per_m_h"]
    assert POURS["gameson"].outside(fall(height=2.0)) == []
    assert BUBBLES["column"].outside(bubbles(3.0)) == ["speed_m_per_s"]
    assert BUBBLES["uptake"].outside(bubbles(3.0)) == []


@pytest.mark.parametrize(("air_l_per_min", "per_h"), [(1, 3.3), (3, 7.2), (5, 10.3), (10, 16.7)])
def test_bubble_column_as_worked(air_l_per_min: float, per_h: float) -> None:
    """Own hand, 30 cm bucket: 3600 * 0.32 * (Q / 60000 / 0.0707)^0.7."""
    assert column_per_h(bubbles(air_l_per_min)) == pytest.approx(per_h, abs=0.06)


def test_uptake_as_worked() -> None:
    """Own hand: 3 L/min hold 50.2 g/h of oxygen, 2 % of it is 1.00 g/h, in 20 L 50 mg/L/h, over 9.09 mg/L 5.5 1/h."""
    assert uptake_per_h(bubbles(3.0))[0] == pytest.approx(5.52, abs=0.03)


def test_oxygen_in_a_litre_of_air() -> None:
    """Own hand: 0.2095 * 101325 Pa * 31.998 g/mol / (8.314 * 293.15 K) = 278.7 g/m3."""
    assert AIR_OXYGEN_MG_PER_L.value == pytest.approx(0.2095 * 101325 * 31.998 / (8.314462618 * 293.15), rel=0.002)


def test_warmth_factor_as_worked() -> None:
    """Own hand: 1.024^10 = 1.268."""
    assert at_temperature_per_h(10 * ONE, temp_c=30.0)[0] == pytest.approx(12.68, abs=0.01)


@given(height=st.floats(0.05, 3.0), flow=st.floats(1.0, 300.0), pool=st.floats(0.01, 1.0), temp_c=st.floats(0.0, 40.0))
def test_a_gain_is_a_share_and_grows_with_height_and_warmth(
    height: float, flow: float, pool: float, temp_c: float
) -> None:
    for rival in POURS.values():
        here = efficiency_frac(rival.formula(fall(height, flow, pool, temp_c)))[0]
        assert 0 < here < 1
        assert here < efficiency_frac(rival.formula(fall(height * 1.1, flow, pool, temp_c)))[0]
        assert here <= efficiency_frac(rival.formula(fall(height, flow, pool, temp_c + 1)))[0]


def test_whisking_is_believed_to_lie_between_ten_and_sixty() -> None:
    """Own hand: the judgement that hand and powered whisk together were chosen for (no published figure found)."""
    low, high = np.quantile(kla(whisk={}), 0.05), np.quantile(kla(whisk={"tool": "powered"}), 0.95)
    assert 7 < low < 11
    assert 55 < high < 85


def test_the_same_arm_does_less_in_more_liquor() -> None:
    """Own hand: 80 L against 20 L: 4^-0.4 = 0.574."""
    assert np.median(kla(whisk={}, liquor_l=80.0)) == pytest.approx(0.574 * np.median(kla(whisk={})), rel=0.01)


def test_more_air_brings_more_oxygen() -> None:
    little, much = (kla(bubble={"air_l_per_min": flow}) for flow in (3.0, 6.0))
    assert np.all(much > little)
    fine, coarse = (np.median(kla(bubble={"air_l_per_min": 3.0, "bubbles": size})) for size in ("fine", "coarse"))
    assert fine > coarse
    slow, quick = (kla(pour={"pours_per_min": pace}) for pace in (3.0, 6.0))
    assert quick == pytest.approx(2 * slow)


def test_typed_figures_narrow_the_transfer() -> None:
    def width(**pour: float) -> float:
        return float(np.std(np.log(kla(pour=pour))))

    assert width(height_m=0.5, lip_width_m=0.1, flow_l_per_s=1.2, pours_per_min=4.0) < width(height_m=0.5) < width()


def test_pours_counted_against_minutes_give_the_pace() -> None:
    """Own hand: 40 pours in 10 minutes are 240 an hour."""
    record = read(
        AirRecord, {"liquor_l": 10.0, "temp_c": 20.0, "pour": {}, "done_min": 10.0, "done_pours": 40, "ph": 9.5}
    )
    assert np.all(members(record, SCORES).pours_per_h == 240.0)


def test_a_pour_cannot_be_taught_to_bring_more_than_is_missing() -> None:
    """Own hand: 240 pours an hour of all the liquor bring at most 240 1/h, if each left nothing missing."""
    pace = {"done_min": 10.0, "done_pours": 40, "pour": {}}
    taught = {"kla_per_h": 200.0, "kla_sd_frac": 0.3}
    gained = members(read(AirRecord, pace | {"liquor_l": 10.0, "temp_c": 20.0, "learned": taught}), SCORES)
    assert np.max(gained.efficiency_frac) <= 1.0
    assert np.all(gained.batch.kla_per_h <= 240.0 * (1 + 1e-12))
    with pytest.raises(InputError, match=r"learned.kla_per_h: 3e\+02 an hour is more .*; less than 240; was"):
        members(read(AirRecord, pace | {"liquor_l": 10.0, "temp_c": 20.0, "learned": {"kla_per_h": 300.0}}), SCORES)


def test_a_taught_transfer_replaces_the_formulas() -> None:
    taught = kla(bubble={"air_l_per_min": 3.0}, learned={"kla_per_h": 8.0, "kla_sd_frac": 0.1})
    assert np.median(taught) == pytest.approx(8.0, rel=0.01)
    assert np.std(np.log(taught)) == pytest.approx(0.1, rel=0.05)
