"""Drying: evaporation, the fitted curve, and the end."""

import numpy as np
import pytest
from CoolProp import CoolProp
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.settle.drying import Curve, dry, dry_after_h, dry_mass_g, left_frac
from bluewright.science.settle.drying_record import DryAnswer, DryRecord
from bluewright.science.settle.evaporation import LATENT_KJ_PER_KG, MOVING_AIR, STILL_AIR, evaporation_kg_per_m2_h
from tests.published import rows

BTU_PER_FT2_H_INHG = 3.154591 / 3386.389
"""W/m2/Pa in one Btu/h/ft2/inHg (exact units)."""
HOURS = np.array([0.0, 8.0, 16.0, 24.0, 36.0, 48.0, 72.0, 96.0])


def answer(weighings: list[tuple[float, float]], **fields: object) -> DryAnswer:
    made = [{"after_h": float(t), "total_g": float(m)} for t, m in weighings]
    record = read(DryRecord, {"dish_g": 200.0, "weighings": made} | fields)
    return dry(record, rng=np.random.default_rng(1))


def page(scale_h: float, exponent: float, end_g: float = 15.0, start_g: float = 100.0) -> list[tuple[float, float]]:
    """Exact weighings of a dish of 200 g that follows Page's law."""
    paste = end_g + (start_g - end_g) * np.exp(-((HOURS / scale_h) ** exponent))
    return list(zip(HOURS, 200.0 + paste, strict=True))


def test_the_evaporation_coefficients_are_those_published() -> None:
    """Published: 95 and 0.425 in Btu, feet and inches of mercury (0.425 for each ft/min, 0.00508 m/s)."""
    still = rows("carrier-evaporation", "still air, Btu/h/ft2/inHg")[0]
    moving = rows("carrier-evaporation", "moving air, Btu/h/ft2/inHg for each ft/min")[0]
    assert still.agrees(STILL_AIR.value / BTU_PER_FT2_H_INHG)
    assert moving.agrees(MOVING_AIR.value * 0.00508 / BTU_PER_FT2_H_INHG)


def test_the_latent_heat_is_that_of_water_at_20_c() -> None:
    """Reference library: CoolProp, vapour minus liquid enthalpy at 20 C."""
    vapour, liquid = (CoolProp.PropsSI("H", "T", 293.15, "Q", q, "Water") for q in (1, 0))
    assert LATENT_KJ_PER_KG.value == pytest.approx((vapour - liquid) / 1000, rel=1e-3)


@pytest.mark.parametrize(("wind_m_per_s", "value"), [(0.0, 0.1526), (1.0, 0.2867)])
def test_open_water_by_hand(wind_m_per_s: float, value: float) -> None:
    """Own hand: 20 C, 50 %: 3600 * 1.169 kPa * (0.089 + 0.0782 v) / 2454 = 0.1526 and 0.2867 kg/m2/h."""
    found = evaporation_kg_per_m2_h(temp_c=20.0, humidity_frac=0.5, wind_m_per_s=wind_m_per_s)
    assert found == pytest.approx(value, rel=2e-3)


@pytest.mark.parametrize(("scale_h", "exponent"), [(20.0, 1.0), (30.0, 1.3), (25.0, 1.6), (15.0, 0.9)])
def test_lewis_and_page_are_recovered(scale_h: float, exponent: float) -> None:
    """Published laws, own hand: weighings made by MR = exp(-(t/s)^n) give s, n and the end mass back."""
    found = answer(page(scale_h, exponent), scale_sd_g=0.05, layer_mm=5.0)
    assert found.rate_per_h.p5 <= 1 / scale_h <= found.rate_per_h.p95
    assert found.exponent.p5 <= exponent <= found.exponent.p95
    assert found.end_g.p5 <= 15.0 <= found.end_g.p95
    assert found.end_g.p50 == pytest.approx(15.0, abs=0.6)


def test_the_fit_agrees_with_another_least_squares() -> None:
    """Reference library: SciPy's curve_fit on the same noisy weighings; closer than its own standard errors."""
    noise = np.array([0.1, -0.3, 0.2, 0.1, -0.2, 0.3, -0.1, 0.0])
    weighings = [(t, m + e) for (t, m), e in zip(page(26.0, 1.2), noise, strict=True)]
    paste = np.array([m for _, m in weighings]) - 200.0

    def model(t: np.ndarray, end_g: float, scale_h: float, exponent: float) -> np.ndarray:
        return np.asarray(end_g + (paste[0] - end_g) * np.exp(-((t / scale_h) ** exponent)))

    best, cover = optimize.curve_fit(model, HOURS[1:], paste[1:], p0=(10.0, 20.0, 1.0), sigma=np.full(7, 0.6))
    found = answer(weighings, scale_sd_g=0.3, layer_mm=5.0)
    sd = np.sqrt(np.diag(cover))
    assert found.end_g.p50 == pytest.approx(best[0], abs=2 * sd[0])
    assert 1 / found.rate_per_h.p50 == pytest.approx(best[1], abs=2 * sd[1])
    assert found.exponent.p50 == pytest.approx(best[2], abs=2 * sd[2])


def test_the_end_is_where_a_day_takes_a_hundredth() -> None:
    """Reference library: SciPy's root of the same rule on one curve."""
    end, start, scale, exponent = 15.0, 100.0, 30.0, 1.3

    def mass(t: float) -> float:
        return float(end + (start - end) * np.exp(-((t / scale) ** exponent)))

    root = optimize.brentq(lambda t: mass(t) - mass(t + 24) - 0.01 * mass(t), 30.0, 400.0)
    curve = Curve(
        start_g=np.array([start]), end_g=np.array([end]), scale_h=np.array([scale]), exponent=np.array([exponent])
    )
    assert dry_after_h(curve, stood_h=0.0)[0] == pytest.approx(root, abs=0.01)
    assert dry_after_h(curve, stood_h=300.0)[0] == 300.0


def test_dry_mass_is_wet_mass_less_its_water() -> None:
    """Own hand: 21 g at 5 % are 19.95 g dry."""
    assert dry_mass_g(21.0, moisture_frac=0.05) == pytest.approx(19.95)
    found = answer(page(20.0, 1.2), end_moisture_frac=0.05)
    assert found.dry_g.p50 == pytest.approx(0.95 * found.end_g.p50, rel=1e-3)


@settings(max_examples=40)
@given(
    first=st.floats(5.0, 500.0),
    losses=st.lists(st.floats(0.02, 0.5), min_size=0, max_size=5),
    gap_h=st.floats(1.0, 30.0),
)
def test_dry_is_never_more_than_wet(first: float, losses: list[float], gap_h: float) -> None:
    paste = first * np.cumprod([1.0, *(1 - loss for loss in losses)])
    found = answer([(i * gap_h, 200.0 + m) for i, m in enumerate(paste)])
    assert 0 < found.dry_g.p50 < found.end_g.p50 < first
    assert 0 <= found.left_h.p5 <= found.left_h.p50 <= found.left_h.p95 < 1e5
    assert -0.1 < found.moisture_now_frac.p5 <= found.moisture_now_frac.p95 < 1


def test_the_curve_only_falls() -> None:
    ratio = left_frac(np.linspace(0.0, 200.0, 50), scale_h=np.array(30.0), exponent=1.3)
    assert ratio[0] == 1.0
    assert np.all(np.diff(ratio) < 0)


def test_a_thin_layer_dries_in_days() -> None:
    """Own hand: 5 mm hold 4.25 kg/m2 of water; 0.6 of 0.153 kg/m2/h takes 46 h for all of it at a constant rate.

    The slowing end about doubles that or more; practice says 3 to 10 days (common practice, no source).
    """
    found = answer([(0.0, 300.0)], layer_mm=5.0, temp_c=20.0, humidity_frac=0.5)
    assert found.basis == "prior"
    assert 3 * 24 < found.left_h.p50 < 10 * 24
    assert found.left_h.p5 < 100


def test_dry_or_moving_or_warm_air_is_quicker_and_a_thick_layer_slower() -> None:
    first = [(0.0, 300.0)]
    plain = answer(first, layer_mm=5.0).left_h.p50
    assert answer(first, layer_mm=5.0, humidity_frac=0.3).left_h.p50 < plain
    assert answer(first, layer_mm=5.0, wind_m_per_s=1.0).left_h.p50 < plain
    assert answer(first, layer_mm=5.0, temp_c=35.0).left_h.p50 < plain
    assert answer(first, layer_mm=15.0).left_h.p50 > plain


def test_three_weighings_are_read_and_narrow_the_answer() -> None:
    one, two, many = (answer(page(25.0, 1.2)[:n], layer_mm=5.0) for n in (1, 2, 6))
    assert [found.basis for found in (one, two, many)] == ["prior", "prior", "readings"]
    assert many.end_g.p95 - many.end_g.p5 < 0.5 * (one.end_g.p95 - one.end_g.p5)
    assert many.left_h.p95 - many.left_h.p5 < 0.5 * (one.left_h.p95 - one.left_h.p5)


def test_the_rule_is_judged_from_weighings_a_day_apart() -> None:
    """Own hand: 15.00 to 14.90 g in 24 h is 0.7 %; 15.6 to 14.9 g is 4.7 %."""
    head = [(0.0, 300.0), (48.0, 230.0)]
    assert answer([*head, (96.0, 215.0), (120.0, 214.9)], scale_sd_g=0.02).rule_met is True
    assert answer([*head, (96.0, 215.6), (120.0, 214.9)]).rule_met is False
    assert answer([(0.0, 300.0), (10.0, 290.0)]).rule_met is None


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"temp_c": 60.0}, "too-hot"),
        ({"layer_mm": 40.0}, "outside-range"),
        ({"scale_sd_g": 6.0}, "coarse-scale"),
    ],
)
def test_cautions_stand_beside_what_they_belong_to(fields: dict[str, object], code: str) -> None:
    assert code in {c.code for c in answer([(0.0, 300.0)], **fields).cautions}
    assert {c.code for c in answer([(0.0, 300.0)]).cautions} == {"dust"}


def test_weighings_off_any_curve_widen_and_are_said() -> None:
    odd = [(0.0, 300.0), (10.0, 220.0), (20.0, 219.0), (30.0, 218.0), (40.0, 205.0)]
    assert "poor-fit" in {c.code for c in answer(odd).cautions}
    assert "poor-fit" not in {c.code for c in answer(page(25.0, 1.2)).cautions}


@pytest.mark.parametrize(
    ("weighings", "fields", "message"),
    [
        ([(0.0, 190.0)], {}, r"weighings\[0\].total_g: 190 g is not more than the empty dish"),
        ([(5.0, 300.0), (4.0, 290.0)], {}, r"weighings\[1\].after_h: 4 h is not after 5 h"),
        ([(0.0, 250.0), (4.0, 290.0)], {}, r"weighings\[1\].total_g: it grew from 250 to 290 g"),
        ([], {}, r"weighings: .* at least 1"),
        ([(0.0, -5.0)], {}, r"weighings\[0\].total_g: .* more than 0"),
        ([(0.0, 300.0)], {"dish_g": -1.0}, r"dish_g: .* at least 0"),
        ([(0.0, 300.0)], {"humidity_frac": 55.0}, r"humidity_frac: .* at most 0.99"),
    ],
)
def test_what_cannot_be_is_refused_by_name(
    weighings: list[tuple[float, float]], fields: dict[str, object], message: str
) -> None:
    with pytest.raises(InputError, match=message):
        answer(weighings, **fields)
