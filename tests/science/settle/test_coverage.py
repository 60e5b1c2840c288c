"""Honest ranges: truth drawn from the priors, read with the stated error, fitted again.

Each 90 % range must hold the truth in 85 to 95 of a hundred runs (300 runs: three standard errors are 5 %).
"""

from collections.abc import Callable

import numpy as np
import pytest

from bluewright.science.base.bands import Band
from bluewright.science.base.records import read
from bluewright.science.settle.drying import Curve, dry, dry_after_h, left_frac
from bluewright.science.settle.drying_record import DryRecord
from bluewright.science.settle.evaporation import evaporation_kg_per_m2_h
from bluewright.science.settle.filtering import CAKE_SHARE, filter_time, filtered_h, filtrate_l
from bluewright.science.settle.filtering_record import FilterRecord
from bluewright.science.settle.interface import Fall, interface_mm, ready_h, settle
from bluewright.science.settle.interface_record import SettleRecord
from bluewright.science.settle.priors import (
    DRYING_SLACK,
    FALL_MM_PER_H,
    MIXING,
    PACKING_FRAC,
    PAGE_EXPONENT,
    PASTE_FACTOR,
    SEDIMENT_FRAC,
    SOLIDS_FRAC,
)
from bluewright.science.settle.wash import plan, residue_after_one_frac
from bluewright.science.settle.wash_record import WashRecord

RUNS = 300
Run = Callable[[np.random.Generator], list[tuple[Band, float]]]


def settle_run(rng: np.random.Generator) -> list[tuple[Band, float]]:
    truth = Fall(
        depth_mm=300.0,
        fall_mm_per_h=FALL_MM_PER_H["carbonate"].draw(rng, 1),
        sediment_mm=300.0 * SEDIMENT_FRAC[False].draw(rng, 1),
        packing_mm=300.0 * PACKING_FRAC.draw(rng, 1),
    )
    times = np.array([1.0, 3.0, 6.0])
    seen = np.clip(interface_mm(truth, times) + 4.0 * rng.standard_normal(3), 0.0, 300.0)
    readings = [{"after_h": t, "interface_mm": h} for t, h in zip(times, np.minimum.accumulate(seen), strict=True)]
    record = read(SettleRecord, {"depth_mm": 300.0, "temp_c": 20.0, "alkali": "soda_ash", "readings": readings})
    found = settle(record, rng=rng)
    return [
        (found.decant_after_h, float(ready_h(truth)[0])),
        (found.fall_mm_per_h, float(truth.fall_mm_per_h[0])),
        (found.sediment_mm, float(truth.sediment_mm[0])),
    ]


def dry_run(rng: np.random.Generator) -> list[tuple[Band, float]]:
    """The time prior is written out by hand: layer 0.2, slack 0.4, paste 0.15 and room 0.3, one after the other."""
    open_water = evaporation_kg_per_m2_h(temp_c=20.0, humidity_frac=0.55, wind_m_per_s=0.0)
    layer = 5.0 * np.exp(0.2 * rng.standard_normal(1))
    rate = open_water * PASTE_FACTOR.draw(rng, 1) * np.exp(0.3 * rng.standard_normal(1))
    truth = Curve(
        start_g=np.array([120.0]),
        end_g=120.0 * SOLIDS_FRAC.draw(rng, 1),
        scale_h=DRYING_SLACK.draw(rng, 1) * layer * 0.85 / rate,
        exponent=PAGE_EXPONENT.draw(rng, 1),
    )
    times = np.array([0.0, 12.0, 24.0, 40.0, 60.0])
    mass = truth.end_g + (120.0 - truth.end_g) * left_frac(times, scale_h=truth.scale_h, exponent=truth.exponent)
    weather = 0.005 * 120.0 * rng.standard_normal(5) * (times > 0)
    total = 200.0 + mass + 0.5 * rng.standard_normal(5) + weather
    weighings = [{"after_h": t, "total_g": m} for t, m in zip(times, total, strict=True)]
    found = dry(read(DryRecord, {"dish_g": 200.0, "layer_mm": 5.0, "weighings": weighings}), rng=rng)
    left_h = float(dry_after_h(truth, stood_h=60.0)[0]) - 60.0
    return [
        (found.end_g, float(truth.end_g[0])),
        (found.exponent, float(truth.exponent[0])),
        (found.left_h, left_h),
    ]


def wash_run(rng: np.random.Generator) -> list[tuple[Band, float]]:
    sludge_l = 2.0 * np.exp(np.log1p(0.15) * rng.standard_normal(1))
    once = residue_after_one_frac(sludge_l=sludge_l, refill_l=6.0, mixing_frac=MIXING.draw(rng, 1))[0]
    true = 400.0 + 4000.0 * once ** np.arange(3)
    seen = true + 0.04 * np.hypot(true, 400.0) * rng.standard_normal(3)
    readings = [{"wash": n, "conductivity_us_per_cm": max(c, 1.0)} for n, c in enumerate(seen)]
    record = read(
        WashRecord, {"sludge_l": 2.0, "refill_l": 6.0, "tap_conductivity_us_per_cm": 400.0, "readings": readings}
    )
    found = plan(record, rng=rng)
    return [(found.residue_now_frac, once**2), (found.residues[0].residue_frac, once**3)]


def filter_run(rng: np.random.Generator) -> list[tuple[Band, float]]:
    share, slow = float(CAKE_SHARE.draw(rng, 1)[0]), 0.1 * float(np.exp(rng.standard_normal()))
    cake, cloth = np.array(share * slow / 2.0), np.array((1 - share) * slow)
    first_h = float(filtered_h(2.0, cake_h_per_l2=cake, cloth_h_per_l=cloth))
    times = first_h * np.array([1.0, 2.0, 3.5])
    run = filtrate_l(times, cake_h_per_l2=cake, cloth_h_per_l=cloth) * np.exp(0.04 * rng.standard_normal(3))
    readings = [{"after_min": 60 * t, "filtrate_l": v} for t, v in zip(times, np.maximum.accumulate(run), strict=True)]
    found = filter_time(read(FilterRecord, {"total_l": 20.0, "readings": readings}), rng=rng)
    return [(found.total_h, float(filtered_h(20.0, cake_h_per_l2=cake, cloth_h_per_l=cloth)))]


@pytest.mark.parametrize("run", [settle_run, dry_run, wash_run, filter_run], ids=lambda run: run.__name__)
def test_ninety_percent_ranges_hold_the_truth_in_about_ninety_runs(run: Run) -> None:
    """Simulation. Rounding of the ends to four digits is allowed for."""
    rng = np.random.default_rng(20_260_705)
    pairs = [run(rng) for _ in range(RUNS)]
    held = np.mean([[b.p5 * 0.9995 <= true <= b.p95 * 1.0005 for b, true in pair] for pair in pairs], axis=0)
    assert np.all((held >= 0.85) & (held <= 0.95)), held
