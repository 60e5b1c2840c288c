"""The edge of the sinking blue: its fall, fitted to what was seen, and when the clear liquor may go."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

import numpy as np

from bluewright.science.base.bands import BandAt, band, curve
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.posterior import Posterior, fit
from bluewright.science.base.sourced import Floats
from bluewright.science.base.validity import Studied
from bluewright.science.media.alkali_kind import FAMILY
from bluewright.science.settle.interface_record import SettleAnswer, SettleRecord
from bluewright.science.settle.priors import (
    FALL_MM_PER_H,
    HARD_WATER_FACTOR,
    PACKED_SOLIDS_FRAC,
    PACKING_FRAC,
    SEDIMENT_FRAC,
    SPARED_MM,
    VISIBLE_MM,
    WATCH_H,
)
from bluewright.science.settle.sinking import INDIGO_KG_PER_M3, cold_factor, crowding_factor, grain_um

STUDIED_MM: Final = Studied(low=0.0, high=1500.0, unit="mm", source="common-practice", grade="practice")
STUDIED_C: Final = Studied(low=3.0, high=50.0, unit="C", source="common-practice", grade="practice")
DRAWS = 2000
CURVE_POINTS = 40
FULL = 1 - 1e-6
"""Sediment over depth at which a vessel is nothing but sediment: the edge must have somewhere to start."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fall:
    """Draws of what governs the fall of the edge; every array has shape (n,) or broadcasts against times."""

    depth_mm: float
    """Height of the surface, where the edge starts."""
    fall_mm_per_h: Floats
    """Speed before it slows."""
    sediment_mm: Floats
    """Height that is approached and never passed."""
    packing_mm: Floats
    """Height above the sediment at which the speed has fallen to half."""


def interface_mm(fall: Fall, after_h: Floats) -> Floats:
    """Height of the edge after `after_h` hours, shapes broadcast.

    Formula: dh/dt = -v (h - f) / (h - f + c) from h = H, whose solution is v t = H - h + c ln((H - f) / (h - f)).
    With c -> 0 it is a straight fall to the sediment; with a large c Roberts' exponential compression. Source:
    H. S. Coe and G. H. Clevenger, Trans. AIME 55 (1916) 356; E. J. Roberts, Trans. AIME 184 (1949) 61; the joint
    form is this project's own.
    """
    start = (fall.depth_mm - fall.sediment_mm) / fall.packing_mm
    scaled = omega(start + np.log(start) - fall.fall_mm_per_h * after_h / fall.packing_mm)
    return fall.sediment_mm + fall.packing_mm * scaled


def reached_h(fall: Fall, height_mm: Floats) -> Floats:
    """Hours until the edge is at `height_mm` (above the sediment, at most the surface): the formula above, direct."""
    run = (fall.depth_mm - fall.sediment_mm) / (height_mm - fall.sediment_mm)
    return (fall.depth_mm - height_mm + fall.packing_mm * np.log(run)) / fall.fall_mm_per_h


def omega(value: Floats) -> Floats:
    """The solution w of w + ln w = value (the Wright omega function), any shape, by Newton's method."""
    y = np.maximum(np.asarray(value, dtype=float), -700.0)
    small = np.exp(np.minimum(y, 1.0))
    w = np.where(y > 1.0, y - np.log(np.maximum(y, 1.0)), small / (1 + small))
    for _ in range(4):
        w = w * (1 + y - np.log(w)) / (1 + w)
    return np.asarray(w)


def ready_h(fall: Fall) -> Floats:
    """Hours of standing until the rule is met: the top third clear, and less than a visible change in two hours.

    Where the sediment itself fills two thirds of the vessel, only the second half of the rule is asked.
    """
    third_mm = 2 / 3 * fall.depth_mm
    safe_mm = np.maximum(third_mm, fall.sediment_mm + 1e-3 * (fall.depth_mm - fall.sediment_mm))
    third_h = np.where(fall.sediment_mm < third_mm, reached_h(fall, safe_mm), 0.0)
    near_mm = np.minimum(fall.sediment_mm + VISIBLE_MM.value, fall.depth_mm)
    low, high = np.full_like(third_h, WATCH_H.value), reached_h(fall, near_mm) + WATCH_H.value
    for _ in range(30):
        middle = (low + high) / 2
        change = interface_mm(fall, middle - WATCH_H.value) - interface_mm(fall, middle)
        still = change < VISIBLE_MM.value
        low, high = np.where(still, low, middle), np.where(still, middle, high)
    return np.maximum(third_h, high)


def _edge_curve(fall: Fall, until_h: float) -> tuple[BandAt, ...]:
    """The band of the edge at even times to `until_h`."""
    hours = np.linspace(0.0, until_h, CURVE_POINTS)
    return curve(hours, interface_mm(_against_times(fall), hours))


def _against_times(fall: Fall) -> Fall:
    """The same draws as columns, to be set against times in rows."""
    return Fall(
        depth_mm=fall.depth_mm,
        fall_mm_per_h=fall.fall_mm_per_h[:, None],
        sediment_mm=fall.sediment_mm[:, None],
        packing_mm=fall.packing_mm[:, None],
    )


def fitted_fall(record: SettleRecord, *, rng: np.random.Generator) -> tuple[Fall, Posterior]:
    """2,000 draws of the fall given the readings (of the priors if there are none), and how the fit went.

    Raises ModelError when no fit exists.
    """
    after_h = np.array([r.after_h for r in record.readings])
    seen_mm = np.array([r.interface_mm for r in record.readings])

    def residuals(z: Floats) -> Floats:
        return np.asarray((seen_mm - interface_mm(_against_times(_fall(record, z)), after_h)) / record.height_sd_mm)

    if not record.readings:
        posterior = Posterior(z=rng.standard_normal((DRAWS, 3)), best_z=np.zeros(3), ess=float(DRAWS))
    else:
        posterior = fit(residuals, size=3, rng=rng, draws=DRAWS)
    return _fall(record, posterior.z), posterior


def settle(record: SettleRecord, *, rng: np.random.Generator) -> SettleAnswer:
    """When the blue has settled and how much clear liquor may be decanted.

    Fits speed, sediment and packing (`interface_mm`) to the edge readings by least squares with priors; without
    readings the priors answer. Raises InputError (from the record) and ModelError when no fit exists.
    """
    fall, posterior = fitted_fall(record, rng=rng)
    ready = ready_h(fall)
    now_h = record.now_h if record.now_h is not None or not record.readings else record.readings[-1].after_h
    clear = _clear_frac(fall, ready)
    packed = PACKED_SOLIDS_FRAC.value * np.minimum(fall.sediment_mm / record.depth_mm, 1.0)
    decant = band(ready)
    return SettleAnswer(
        id=record.id,
        decant_after_h=decant,
        wait_h=band(np.maximum(ready - (now_h or 0.0), 0.0)),
        decant_from=_clock(record.started, decant.p5),
        decant_by=_clock(record.started, decant.p95),
        chance_ready_frac=None if now_h is None else float(np.mean(ready <= now_h)),
        fall_mm_per_h=band(fall.fall_mm_per_h),
        sediment_mm=band(fall.sediment_mm),
        clear_frac=band(clear),
        edge_mm_by_h=_edge_curve(fall, 1.3 * max(decant.p95, now_h or 0.0)),
        clear_l=band(clear * record.liquor_l) if record.liquor_l else None,
        clear_now_l=band(_clear_frac(fall, now_h) * record.liquor_l) if record.liquor_l and now_h is not None else None,
        grain_um=band(grain_um(fall.fall_mm_per_h / crowding_factor(packed), temp_c=record.temp_c)),
        rule_met=_rule_met(record),
        ess=round(posterior.ess, 1),
        basis="readings" if record.readings else "prior",
        inputs=record,
        cautions=_cautions(record, fall, posterior),
        sources=(
            FALL_MM_PER_H[FAMILY[record.alkali]].source, PACKING_FRAC.source, "iapws-sr6-08", "richardson-zaki",
            "stokes-1851", INDIGO_KG_PER_M3.source,
        ),
    )  # fmt: skip


def _fall(record: SettleRecord, z: Floats) -> Fall:
    """Physical values at the scores `z` of speed, sediment and packing, shape (n, 3)."""
    limed = FAMILY[record.alkali] == "lime"
    helped = record.hard_water and not limed
    factor = cold_factor(record.temp_c) * (HARD_WATER_FACTOR.value if helped else 1.0)
    return Fall(
        depth_mm=record.depth_mm,
        fall_mm_per_h=FALL_MM_PER_H[FAMILY[record.alkali]].from_z(z[:, 0]) * factor,
        sediment_mm=np.minimum(SEDIMENT_FRAC[limed].from_z(z[:, 1]), FULL) * record.depth_mm,
        packing_mm=PACKING_FRAC.from_z(z[:, 2]) * record.depth_mm,
    )


def _clear_frac(fall: Fall, after_h: Floats | float) -> Floats:
    """Share of the liquor that stands clear above the edge, less what is spared over it; never below none."""
    spare_mm = fall.depth_mm - interface_mm(fall, np.asarray(after_h, dtype=float)) - SPARED_MM.value
    return np.maximum(spare_mm, 0.0) / fall.depth_mm


def _clock(started: datetime | None, after_h: float) -> datetime | None:
    """The clock time, to the minute."""
    return None if started is None else started + timedelta(minutes=round(60 * after_h))


def _rule_met(record: SettleRecord) -> bool | None:
    """What the readings alone say of the rule; None unless two of them stand two hours apart."""
    if not record.readings:
        return None
    last = record.readings[-1]
    earlier = [r for r in record.readings if last.after_h - r.after_h >= WATCH_H.value]
    if not earlier:
        return None
    unchanged = abs(earlier[-1].interface_mm - last.interface_mm) <= VISIBLE_MM.value
    return unchanged and last.interface_mm <= 2 / 3 * record.depth_mm


def _cautions(record: SettleRecord, fall: Fall, posterior: Posterior) -> tuple[Caution, ...]:
    stirred = caution(
        "poor-fit",
        "The readings do not lie on a settling curve (stirred, moved, or another edge read?): "
        f"their errors were taken {posterior.factor:.1f} times as large.",
    )
    thick = caution(
        "thick-sediment",
        "The sediment may fill two thirds of the vessel: nothing much to decant. "
        "Filter it, or thin it with water and let it stand again.",
    )
    outside = caution("outside-range", "These figures rest on tubs and buckets up to 1.5 m deep at 3 to 50 C.")
    fine = caution(
        "fine-blue",
        "Without calcium the finest blue may stay up for weeks. Keep the first decanted litre in a clear glass: "
        "if it is blue, let all stand longer.",
    )
    uncalcified = FAMILY[record.alkali] in {"ammonia", "none"} and not record.hard_water
    said = {
        stirred: posterior.factor > 1,
        thick: bool(np.mean(fall.sediment_mm > 2 / 3 * record.depth_mm) > 0.05),
        outside: not (STUDIED_MM.holds(record.depth_mm) and STUDIED_C.holds(record.temp_c)),
        fine: uncalcified,
    }
    return tuple(each for each, wanted in said.items() if wanted)
