"""The drying curve: fitted to weighings, forecast from evaporation until there are enough of them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base import bands
from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution, those_that_hold
from bluewright.science.base.posterior import Posterior, fit
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.media.dry_pigment import MOISTURE_FRAC
from bluewright.science.settle.drying_record import DryAnswer, DryRecord
from bluewright.science.settle.evaporation import evaporation_kg_per_m2_h
from bluewright.science.settle.priors import (
    DRYING_SLACK,
    LAYER_MM,
    PAGE_EXPONENT,
    PASTE_FACTOR,
    SOLIDS_FRAC,
)

DRAWS = 2000
CURVE_POINTS = 40
DAY_H = 24.0
DRY_LOSS: Final = Sourced(
    value=0.01, unit="1", source="common-practice", low=0.005, high=0.02, grade="practice",
    note="dry when a day takes less than this share of the mass",
)  # fmt: skip
WEATHER_SD: Final = Sourced(
    value=0.005, unit="1", source="common-practice", low=0.002, high=0.02, grade="guess",
    note="how far weather moves the mass off a smooth curve, as a share of the first mass",
)  # fmt: skip
ROOM_AIR_SPREAD: Final = Sourced(
    value=0.3, unit="1", source="common-practice", low=0.2, high=0.5, grade="guess",
    note="how far a room's or a day's air wanders from what was typed, in the log of the drying time",
)  # fmt: skip
LAYER_ERROR: Final = Sourced(
    value=0.2, unit="1", source="common-practice", low=0.1, high=0.3, grade="guess",
    note="how far a typed thickness is off, in its log: no paste lies even",
)  # fmt: skip
THICK_MM: Final = Sourced(
    value=20.0, unit="mm", source="common-practice", low=10.0, high=30.0, grade="practice",
    note="thicker, a paste crusts and cracks",
)  # fmt: skip
LONG_DRY: Final = 7.0
"""Beyond exp(7) time constants nothing of the water is left that a computer could count (exp(-1097) is 0)."""
CURVE_FROM = 3
"""Weighings from which the curve is read rather than guessed."""
HOT_C: Final = Sourced(
    value=50.0, unit="C", source="common-practice", low=40.0, high=50.0, grade="practice", note="keep pigment below",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """Draws of a drying curve; every array has shape (n,)."""

    start_g: Floats
    """Mass at the first weighing, without the dish."""
    end_g: Floats
    """Mass once air-dry."""
    scale_h: Floats
    """Time to lose 63 % of what will be lost, from the first weighing."""
    exponent: Floats
    """Page's exponent."""


def left_frac(after_h: Floats | float, *, scale_h: Floats, exponent: Floats | float) -> Floats:
    """Moisture ratio after `after_h` hours (shapes broadcast).

    Formula: MR = exp(-(t / s)^n) = exp(-(k t)^n); n = 1 is Lewis' law, other n Page's, whose own k is (1/s)^n.
    Source: W. K. Lewis, Ind. Eng. Chem. 13 (1921) 427; G. E. Page, thesis, Purdue University 1949.
    """
    elapsed = np.log(np.maximum(np.asarray(after_h), 1e-12) / scale_h)
    return np.asarray(np.exp(-np.exp(np.minimum(exponent * elapsed, LONG_DRY))))


def dry_mass_g(wet_g: Floats | float, *, moisture_frac: Floats | float) -> Floats:
    """Mass without water of a mass that holds `moisture_frac` of it: m (1 - w), shapes broadcast."""
    return np.asarray(wet_g * (1 - np.asarray(moisture_frac)))


def dry(record: DryRecord, *, rng: np.random.Generator) -> DryAnswer:
    """How dry the paste is, what will be left and when.

    Fits Page's law to the weighings by least squares with priors; before the third weighing the priors of time
    (open-water evaporation, layer) and of solids carry the answer. Raises InputError (from the record) and
    ModelError when no fit exists.
    """
    posterior = _posterior(record, rng)
    curve = _curve(record, posterior.z)
    stood_h = record.weighings[-1].after_h - record.weighings[0].after_h
    now_g = _mass_g(curve, np.array([stood_h]))[:, 0]
    moisture = MOISTURE_FRAC.draw(rng, DRAWS) if record.end_moisture_frac is None else record.end_moisture_frac
    dry_g = dry_mass_g(curve.end_g, moisture_frac=moisture)
    left_h = dry_after_h(curve, stood_h=stood_h) - stood_h
    hours = np.linspace(0.0, stood_h + 1.1 * max(float(np.quantile(left_h, 0.9)), DAY_H), CURVE_POINTS)
    return DryAnswer(
        id=record.id,
        end_g=band(curve.end_g),
        dry_g=band(dry_g),
        moisture_now_frac=band(1 - dry_g / now_g),
        left_h=band(left_h),
        mass_g_by_h=bands.curve(hours, _mass_g(curve, hours)),
        rate_per_h=band(1 / curve.scale_h),
        exponent=band(curve.exponent),
        rule_met=_rule_met(record),
        open_water_kg_per_m2_h=significant(_open_water(record)),
        ess=round(posterior.ess, 1),
        basis="readings" if len(record.weighings) >= CURVE_FROM else "prior",
        inputs=record,
        cautions=_cautions(record, posterior),
        sources=(
            "lewis-1921", PAGE_EXPONENT.source, "smith-1998", "wagner-pruss-1993", MOISTURE_FRAC.source,
            "common-practice",
        ),
    )  # fmt: skip


def dry_after_h(curve: Curve, *, stood_h: float) -> Floats:
    """Hours from the first weighing, at least `stood_h`, from which a day takes less than a hundredth of the mass.

    Looked for after the time of fastest loss, from which on the daily loss only falls.
    """

    def loses_too_much(after_h: Floats) -> NDArray[np.bool_]:
        now, then = (
            curve.end_g + (curve.start_g - curve.end_g) * left_frac(t, scale_h=curve.scale_h, exponent=curve.exponent)
            for t in (after_h, after_h + DAY_H)
        )
        return np.asarray(now - then > DRY_LOSS.value * now)

    fastest = curve.scale_h * np.maximum(1 - 1 / curve.exponent, 0.0) ** (1 / curve.exponent)
    low = np.maximum(fastest, stood_h)
    high = low + curve.scale_h * np.log(1e6) ** (1 / curve.exponent) + DAY_H
    done = ~loses_too_much(low)
    for _ in range(40):
        middle = (low + high) / 2
        wet = loses_too_much(middle)
        low, high = np.where(wet, middle, low), np.where(wet, high, middle)
    return np.where(done, np.maximum(fastest, stood_h), high)


def _mass_g(curve: Curve, after_h: Floats) -> Floats:
    """Mass of the paste in each draw at times (k,), shape (n, k)."""
    ratio = left_frac(after_h, scale_h=curve.scale_h[:, None], exponent=curve.exponent[:, None])
    return np.asarray(curve.end_g[:, None] + (curve.start_g - curve.end_g)[:, None] * ratio)


def _open_water(record: DryRecord) -> float:
    return evaporation_kg_per_m2_h(
        temp_c=record.temp_c, humidity_frac=record.humidity_frac, wind_m_per_s=record.wind_m_per_s
    )


def _curve(record: DryRecord, z: Floats) -> Curve:
    """The curve at scores of shape (n, 4): first mass, solids, exponent, time."""
    first_g = record.weighings[0].total_g - record.dish_g
    start_g = first_g * np.exp(min(record.scale_sd_g / first_g, 0.5) * z[:, 0])
    solids = SOLIDS_FRAC.from_z(z[:, 1])
    layer_mm, layer_spread = LAYER_MM.centre, LAYER_MM.spread
    if record.layer_mm is not None:
        layer_mm, layer_spread = record.layer_mm, LAYER_ERROR.value
    rate = _open_water(record) * PASTE_FACTOR.centre
    spread = math.hypot(layer_spread, DRYING_SLACK.spread, PASTE_FACTOR.spread, ROOM_AIR_SPREAD.value)
    return Curve(
        start_g=start_g,
        end_g=start_g * solids,
        scale_h=DRYING_SLACK.centre * layer_mm * (1 - SOLIDS_FRAC.centre) / rate * np.exp(spread * z[:, 3]),
        exponent=PAGE_EXPONENT.from_z(z[:, 2]),
    )


def _posterior(record: DryRecord, rng: np.random.Generator) -> Posterior:
    after_h = np.array([w.after_h for w in record.weighings]) - record.weighings[0].after_h
    seen_g = np.array([w.total_g for w in record.weighings]) - record.dish_g
    sd_g = np.hypot(record.scale_sd_g, WEATHER_SD.value * seen_g[0] * (after_h > 0))

    def residuals(z: Floats) -> Floats:
        curve = _curve(record, z)
        return np.asarray((seen_g - _mass_g(curve, after_h)) / sd_g)

    return fit(residuals, size=4, rng=rng, draws=DRAWS)


def _rule_met(record: DryRecord) -> bool | None:
    """What the weighings alone say; None unless two of them stand a day apart."""
    last = record.weighings[-1]
    earlier = [w for w in record.weighings if last.after_h - w.after_h >= DAY_H]
    if not earlier:
        return None
    lost_g = earlier[-1].total_g - last.total_g
    days = (last.after_h - earlier[-1].after_h) / DAY_H
    return lost_g / days < DRY_LOSS.value * (last.total_g - record.dish_g)


def _cautions(record: DryRecord, posterior: Posterior) -> tuple[Caution, ...]:
    paste_g = record.weighings[-1].total_g - record.dish_g
    said = {
        (
            "too-hot",
            f"{record.temp_c:g} C is more than the 50 C that pigment is kept under: it cakes hard and may lose colour.",
        ): record.temp_c > HOT_C.value,
        (
            "coarse-scale",
            f"The scale is only good to {record.scale_sd_g:g} g beside {paste_g:.3g} g: weigh on a finer one.",
        ): record.scale_sd_g > 0.05 * paste_g,
        (
            "poor-fit",
            "The weighings do not lie on a drying curve (scraped, wetted, another dish or scale?): "
            "the range is wider for it.",
        ): posterior.factor > 1,
        (
            "outside-range",
            "Thicker than 20 mm a paste crusts and cracks: these figures rest on thin layers.",
        ): (record.layer_mm or 0.0) > THICK_MM.value,
        ("dust", "Dry indigo dusts: wear a dust mask when you grind it, and keep the dish covered from wind."): True,
    }
    return those_that_hold(said)
