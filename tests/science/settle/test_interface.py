"""Settling: the edge, its fit, and when to decant."""

from datetime import datetime

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, special

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.settle.interface import Fall, fitted_fall, interface_mm, omega, reached_h, settle
from bluewright.science.settle.interface_record import SettleAnswer, SettleRecord
from tests.published import rows

READINGS = [
    {"after_h": 1.0, "interface_mm": 275.0},
    {"after_h": 3.0, "interface_mm": 221.0},
    {"after_h": 5.0, "interface_mm": 170.0},
]


def answer(**fields: object) -> SettleAnswer:
    return settle(read(SettleRecord, {"depth_mm": 300.0} | fields), rng=np.random.default_rng(1))


def fall(fall_mm_per_h: float, sediment_mm: float, packing_mm: float, depth_mm: float = 300.0) -> Fall:
    return Fall(
        depth_mm=depth_mm,
        fall_mm_per_h=np.array([fall_mm_per_h]),
        sediment_mm=np.array([sediment_mm]),
        packing_mm=np.array([packing_mm]),
    )


def test_omega_agrees_with_scipy() -> None:
    """Reference library: scipy.special.wrightomega."""
    y = np.array([-600.0, -40.0, -3.0, -1.0, -0.2, 0.0, 0.7, 1.0, 1.1, 4.0, 60.0, 1e4])
    assert omega(y) == pytest.approx(special.wrightomega(y), rel=1e-12)


def test_the_edge_follows_its_differential_equation() -> None:
    """Reference library: SciPy integrates dh/dt = -v (h - f)/(h - f + c)."""
    times = np.linspace(0.0, 30.0, 61)
    found = integrate.solve_ivp(
        lambda _, h: -25.0 * (h - 20.0) / (h - 20.0 + 18.0), (0, 30), [300.0], t_eval=times, rtol=1e-9, atol=1e-9
    )
    assert interface_mm(fall(25.0, 20.0, 18.0), times) == pytest.approx(found.y[0], abs=1e-5)


def test_the_time_of_a_height_is_the_height_of_that_time() -> None:
    made = fall(25.0, 20.0, 18.0)
    heights = np.array([299.0, 200.0, 100.0, 30.0, 20.5])
    assert interface_mm(made, reached_h(made, heights)) == pytest.approx(heights, abs=1e-8)


@given(
    v=st.floats(0.5, 500.0),
    sediment=st.floats(0.005, 0.8),
    packing=st.floats(0.003, 2.0),
    times=st.lists(st.floats(0.0, 500.0), min_size=2, max_size=8),
)
def test_the_edge_only_falls_and_stays_between_surface_and_sediment(
    v: float, sediment: float, packing: float, times: list[float]
) -> None:
    heights = interface_mm(fall(v, 300 * sediment, 300 * packing), np.sort(np.array(times)))
    assert np.all(np.diff(heights) <= 1e-9)
    assert np.all(heights <= 300 + 1e-6)
    assert np.all(heights >= 300 * sediment)


def slurry(n: int) -> dict[str, object]:
    """The published slurry, 36 cm deep, with its first `n` readings."""
    seen = rows("limestone-settling", "interface_mm")[:n]
    readings = [{"after_h": r.given["after_h"], "interface_mm": r.value} for r in seen]
    return {"depth_mm": 360.0, "temp_c": 20.0, "readings": readings, "height_sd_mm": 5.0}


def test_a_published_settling_curve_is_followed() -> None:
    """Published: a limestone slurry of 236 g/L read for 20 h; the fit stays within 5 % of the depth throughout.

    It packs to a quarter of its depth, far more than the blue does, so the priors are pulled far out.
    """
    made, _ = fitted_fall(read(SettleRecord, slurry(8)), rng=np.random.default_rng(1))
    for row in rows("limestone-settling", "interface_mm"):
        found = float(np.median(interface_mm(made, np.array(row.given["after_h"]))))
        assert found == pytest.approx(row.value, abs=18.0), row.given


def test_the_first_hours_of_the_published_curve_foretell_the_next() -> None:
    """Published: read for 1.75 h only, the edge of the same slurry at 3 h (123 mm) lies within the forecast's range."""
    made, _ = fitted_fall(read(SettleRecord, slurry(4)), rng=np.random.default_rng(1))
    low, high = np.quantile(interface_mm(made, np.array(3.0)), [0.05, 0.95])
    assert low <= 123.0 <= high


def test_lime_settles_a_deep_vat_in_about_ten_hours() -> None:
    """Published: an Okinawan maker's limed vats, about 1 m deep, are let settle for about 10 h."""
    found = answer(depth_mm=1000.0, alkali="slaked_lime", temp_c=25.0)
    assert found.decant_after_h.p5 < 10 < found.decant_after_h.p95


def test_overnight_is_the_norm_and_lime_is_quicker_than_ammonia() -> None:
    """Common practice, no source: a bucket overnight; lime flocculates; ammonia liquors are slower."""
    lime, soda, ammonia = (answer(alkali=a).decant_after_h for a in ("slaked_lime", "soda_ash", "ammonia"))
    assert lime.p50 < soda.p50 < ammonia.p50
    assert 8 < soda.p50 < 24
    assert answer(alkali="ammonia", hard_water=True).decant_after_h.p50 < ammonia.p50


def test_cold_liquor_waits_longer_by_its_viscosity() -> None:
    """Reference library by way of the water tests: viscosity at 5 C is 1.52 times that at 20 C."""
    warm, cold = answer(temp_c=20.0), answer(temp_c=5.0)
    assert warm.fall_mm_per_h.p50 / cold.fall_mm_per_h.p50 == pytest.approx(1.516, rel=0.01)
    assert cold.decant_after_h.p50 > warm.decant_after_h.p50


def test_readings_narrow_the_answer_and_set_its_basis() -> None:
    guess, found = answer(), answer(readings=READINGS)
    assert (guess.basis, found.basis) == ("prior", "readings")
    assert found.decant_after_h.p95 / found.decant_after_h.p5 < 0.3 * guess.decant_after_h.p95 / guess.decant_after_h.p5
    assert found.fall_mm_per_h.p50 == pytest.approx(28.0, abs=3.0)


def test_litres_and_clock_times_are_those_of_the_depth_and_the_hours() -> None:
    found = answer(readings=READINGS, liquor_l=38.0, started="2026-07-05T20:00+01:00")
    assert found.clear_l is not None and found.decant_from is not None
    assert found.clear_l.p50 == pytest.approx(38.0 * found.clear_frac.p50, rel=1e-3)
    late = (found.decant_from - datetime.fromisoformat("2026-07-05T20:00+01:00")).total_seconds() / 3600
    assert late == pytest.approx(found.decant_after_h.p5, abs=0.02)


def test_the_rule_is_judged_from_readings_two_hours_apart() -> None:
    done = [{"after_h": 12.0, "interface_mm": 31.0}, {"after_h": 14.5, "interface_mm": 30.0}]
    assert answer(readings=done).rule_met is True
    assert answer(readings=READINGS).rule_met is False
    assert answer(readings=READINGS[:1]).rule_met is None
    assert answer(readings=done).chance_ready_frac is not None


@settings(max_examples=40)
@given(depth=st.floats(30.0, 3000.0), alkali=st.sampled_from(["slaked_lime", "ammonia", "none", "lye", "unknown"]))
def test_every_depth_is_answered_with_ordered_bands(depth: float, alkali: str) -> None:
    found = answer(depth_mm=depth, alkali=alkali)
    assert 2 <= found.decant_after_h.p5 <= found.decant_after_h.p50 <= found.decant_after_h.p95 < 1e5
    assert 0 <= found.clear_frac.p5 <= found.clear_frac.p95 < 1


def test_a_deeper_vessel_takes_longer() -> None:
    assert answer(depth_mm=150.0).decant_after_h.p50 < answer(depth_mm=600.0).decant_after_h.p50


def test_readings_off_any_settling_curve_widen_and_are_said() -> None:
    odd = [
        {"after_h": 1.0, "interface_mm": 280.0},
        {"after_h": 3.0, "interface_mm": 100.0},
        {"after_h": 6.0, "interface_mm": 95.0},
        {"after_h": 9.0, "interface_mm": 20.0},
    ]
    assert "poor-fit" in {c.code for c in answer(readings=odd).cautions}
    assert "poor-fit" not in {c.code for c in answer(readings=READINGS).cautions}


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"depth_mm": 2000.0}, "outside-range"),
        ({"temp_c": 60.0}, "outside-range"),
        ({"alkali": "ammonia"}, "fine-blue"),
        ({"readings": [{"after_h": t, "interface_mm": 255.0} for t in (20.0, 40.0, 60.0)]}, "thick-sediment"),
    ],
)
def test_cautions_stand_beside_what_they_belong_to(fields: dict[str, object], code: str) -> None:
    assert code in {c.code for c in answer(**fields).cautions}
    assert code not in {c.code for c in answer(alkali="soda_ash").cautions}


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"readings": [READINGS[1], READINGS[0]]}, r"readings\[1\].after_h: 1 h is not after 3 h"),
        (
            {"readings": [{"after_h": 1.0, "interface_mm": 200.0}, {"after_h": 2.0, "interface_mm": 240.0}]},
            r"readings\[1\].interface_mm: the edge rises from 200 to 240 mm",
        ),
        ({"readings": [{"after_h": 1.0, "interface_mm": 310.0}]}, r"310 mm is above the surface"),
        ({"readings": READINGS, "now_h": 2.0}, r"now_h: 2 h is before the last reading"),
        ({"depth_mm": 0.0}, r"depth_mm: .* more than 0"),
        ({"temp_c": 120.0}, r"temp_c: .* at most 90"),
        ({"alkali": "bleach"}, r"alkali: 'bleach' is not possible here; use one of"),
        ({"started": "2026-07-05T20:00"}, r"started: .* offset"),
    ],
)
def test_what_cannot_be_is_refused_by_name(fields: dict[str, object], message: str) -> None:
    with pytest.raises(InputError, match=message):
        answer(**fields)
