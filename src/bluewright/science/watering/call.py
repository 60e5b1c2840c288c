"""When to water and how much: the root zone day by day to the end of the forecast, and what that advises."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.cautions import Caution, those_that_hold
from bluewright.science.base.errors import ModelError
from bluewright.science.base.sourced import Floats
from bluewright.science.media.weather import days as weather_of
from bluewright.science.media.weather.filling import span, temps
from bluewright.science.media.weather.grass import grass
from bluewright.science.media.weather.rain import rain
from bluewright.science.watering.balance import next_depletion, store
from bluewright.science.watering.priors import (
    ARRIVES_FRAC,
    AT_ONCE_MM,
    AVAILABLE_FRAC,
    CARRIED_L,
    CUT_D,
    EASY_FRAC,
    FELT_FRAC,
    FULL_ROOTS,
    LIGHT_RAIN_MM,
    MORE_FACTOR,
    REGROWN_D,
    ROOTED_D,
    SMALL_ROOTS,
    START_FRAC,
    USE_FACTOR,
    Stage,
)
from bluewright.science.watering.record import BedWaterAnswer, BedWaterRecord

DRAWS = 1000
FEW_ESS = 50.0
"""Fewer draws than these that agree with what was felt are said to be few."""
LEAST_ESS = 5.0
FAR_LOG = 2.0
"""A handful two standard deviations off, in every draw, is far from what is believed."""
LAST_D = 7
"""Days that a watering is to last."""
SOON_D = 3
"""Days of rain ahead that are worth waiting for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RootZone:
    """Draws of a bed; shape (n,) where not said otherwise."""

    gone_mm: Floats
    """Missing each evening, shape (n, d)."""
    before_mm: Floats
    """Missing each morning, shape (n, d)."""
    store_mm: Floats
    """What the root zone holds each day, shape (n, d)."""
    easy_frac: Floats
    """Share taken without effort."""
    used_mm: Floats
    """What the bed would give to the air each day, shape (n, d)."""
    rain_mm: Floats
    """Rain, shape (n, d)."""
    gained_mm: Floats
    """Rain and watering that reach the roots, shape (n, d)."""
    arrives_frac: Floats
    """Share of watering that reaches the roots."""

    def kept(self, chosen: NDArray[np.intp]) -> RootZone:
        """The draws so numbered."""
        return RootZone(**{name: getattr(self, name)[chosen] for name in self.__slots__})

    def dry(self) -> weather_of.Bools:
        """Whether more than the easy share is missing on the morning of each day, shape (n, d)."""
        return np.asarray(self.before_mm > self.easy_frac[:, None] * self.store_mm)

    def to_last(self, at: int) -> Floats:
        """Water at the roots that keeps a bed from thirst for a week from day `at`, mm, shape (n,).

        At most what the root zone lacks that morning: more would run below the roots.
        """
        week = slice(at, at + LAST_D)
        lacking = self.before_mm[:, at, None] + np.cumsum(self.used_mm[:, week] - self.gained_mm[:, week], axis=1)
        beyond = (lacking - self.easy_frac[:, None] * self.store_mm[:, week]).max(axis=1)
        return np.asarray(np.clip(beyond, 0.0, self.before_mm[:, at]))


def bed_water(record: BedWaterRecord, *, rng: np.random.Generator) -> BedWaterAnswer:
    """When the bed wants water and how many litres on each square metre, from soil, weather, watering and handfuls.

    Model: `balance` day by day in each draw; handfuls weigh the draws. Sources: FAO-56 chapter 8; `watering.priors`.
    Raises ModelError where what was felt contradicts everything that is believed of the bed.
    """
    days = span(record.started, record.now + timedelta(days=record.ahead_d + LAST_D))
    zone, ess, agree = _believed(days, record, rng)
    today = (record.now - record.started).days
    until = today + record.ahead_d + 1
    dry = zone.dry()[:, today:until]
    on = next((k for k, chance in enumerate(dry.mean(axis=0)) if chance >= 0.5), None)
    wanted = None if on is None else zone.to_last(today + on) / zone.arrives_frac
    gone, held = zone.before_mm[:, today], zone.store_mm[:, today]
    litres = None if wanted is None else band(wanted * record.area_m2)
    return BedWaterAnswer(
        id=record.id,
        water_on=None if on is None else days[today + on],
        water_on_mm=None if wanted is None else band(wanted),
        water_on_l=litres,
        dry_now_chance=significant(float(dry[:, 0].mean())),
        dry_on=weather_of.first_day(days[today:until], dry),
        gone_mm=band(gone),
        gone_frac=band(gone / held),
        easy_mm=band(zone.easy_frac * held),
        store_mm=band(held),
        fill_mm=band(gone / zone.arrives_frac),
        use_mm=band(zone.used_mm[:, today:until].mean(axis=1)),
        rain_ahead_mm=band(zone.rain_mm[:, today : today + SOON_D].sum(axis=1)),
        gone_mm_by_day=weather_of.on_days(days[:until], zone.gone_mm[:, :until], digits=3),
        ess=round(ess, 1),
        basis=weather_of.basis(record.weather),
        inputs=record,
        cautions=(
            *_cautions(
                record, agree=agree and ess >= FEW_ESS, mm=None if wanted is None else band(wanted), litres=litres
            ),
            *weather_of.cautions(days[:until], record.weather, today=record.now - timedelta(days=1)),
        ),
        sources=("common-practice", "fao-56", "richardson-1981"),
    )


def _believed(days: Sequence[date], record: BedWaterRecord, rng: np.random.Generator) -> tuple[RootZone, float, bool]:
    """The draws that agree with what was felt, how many those are worth, and whether any agrees well."""
    zone = _run(days, record, rng)
    log_weights = np.zeros(DRAWS)
    for row in record.felt:
        at = (row.day - record.started).days
        if at >= 0:
            felt = FELT_FRAC[row.soil]
            share = zone.before_mm[:, at] / zone.store_mm[:, at]
            log_weights -= 0.5 * ((share - felt.centre) / felt.spread) ** 2
    weights = np.exp(log_weights - log_weights.max())
    weights /= weights.sum()
    ess = float(1 / np.sum(weights**2))
    if ess < LEAST_ESS:
        raise ModelError("what was felt cannot be joined with the weather and the watering: was a rain left out?")
    if not record.felt:
        return zone, ess, True
    agree = log_weights.max() > -FAR_LOG * len(record.felt)
    return zone.kept(rng.choice(DRAWS, size=DRAWS, p=weights)), ess, bool(agree)


def _run(days: Sequence[date], record: BedWaterRecord, rng: np.random.Generator) -> RootZone:
    """The root zone from the first day to the last, draw by draw."""
    known = temps(days, weather=record.weather, now=record.now, rng=rng, n=DRAWS)
    rain_mm = rain(days, weather=record.weather, now=record.now, rng=rng, n=DRAWS)
    eto_mm = grass(days, weather=record.weather, temps=known, formula=record.formula, rng=rng)
    used_mm = eto_mm * _use(days, record, rng)
    arrives = ARRIVES_FRAC[record.way].draw(rng, DRAWS)
    given_mm = _given_mm(days, record)
    gained_mm = np.where(rain_mm >= LIGHT_RAIN_MM.value, rain_mm, 0.0) + arrives[:, None] * given_mm
    store_mm = _store(days, record, rng)
    easy = EASY_FRAC[record.plant].draw(rng, DRAWS)
    began = START_FRAC[record.start].draw(rng, DRAWS)
    before, gone = np.empty_like(store_mm), np.empty_like(store_mm)
    missing = began * store_mm[:, 0]
    for k in range(len(days)):
        # Soil that roots newly reach is as dry as all of it was on the first day.
        missing = missing + began * (store_mm[:, k] - store_mm[:, k - 1]) if k else missing
        before[:, k] = missing
        missing = next_depletion(
            missing, wanted_mm=used_mm[:, k], gained_mm=gained_mm[:, k], store_mm=store_mm[:, k], easy_frac=easy
        )
        gone[:, k] = missing
    return RootZone(
        gone_mm=gone, before_mm=before, store_mm=store_mm, easy_frac=easy, used_mm=used_mm, rain_mm=rain_mm,
        gained_mm=gained_mm, arrives_frac=arrives,
    )  # fmt: skip


def _stages(days: Sequence[date], record: BedWaterRecord) -> list[tuple[Stage, int]]:
    """The stage of each day and how many days it has stood."""
    rows = record.stages
    held = [next((row for row in reversed(rows) if row.day <= day), rows[0]) for day in days]
    return [(row.stage, max(0, (day - row.day).days)) for row, day in zip(held, days, strict=True)]


def _use(days: Sequence[date], record: BedWaterRecord, rng: np.random.Generator) -> Floats:
    """Crop coefficient of each draw and day, shape (n, d); all stages of a draw are high or low together."""
    z = rng.standard_normal(DRAWS)
    by_stage = {stage: prior.from_z(z) * MORE_FACTOR[record.plant].value for stage, prior in USE_FACTOR.items()}
    columns = []
    for stage, stood_d in _stages(days, record):
        use = by_stage[stage]
        if stage == "cut":
            back_frac = min(max((stood_d - CUT_D.value) / (REGROWN_D.value - CUT_D.value), 0.0), 1.0)
            use = use + back_frac * (by_stage["full_cover"] - use)
        columns.append(use)
    return np.column_stack(columns)


def _store(days: Sequence[date], record: BedWaterRecord, rng: np.random.Generator) -> Floats:
    """What the root zone holds, mm, shape (n, d): roots go down from the first day that is not bare."""
    holds = AVAILABLE_FRAC[record.soil].draw(rng, DRAWS)
    if record.available_frac is not None:
        holds = np.full(DRAWS, record.available_frac)
    z = rng.standard_normal(DRAWS)
    if record.root_m is not None:
        return store(available_frac=holds[:, None], root_m=np.full(len(days), record.root_m))
    small, full = SMALL_ROOTS.from_z(z)[:, None], FULL_ROOTS[record.plant].from_z(z)[:, None]
    grown_d = np.array([(day - _rooted_from(record)).days for day in days], dtype=float)
    grown_frac = np.clip(grown_d / ROOTED_D.value, 0.0, 1.0)
    return store(available_frac=holds[:, None], root_m=small + grown_frac * (full - small))


def _rooted_from(record: BedWaterRecord) -> date:
    """The day on which roots begin to go down: the first that is not bare; long ago where it began full or cut."""
    first = next((row for row in record.stages if row.stage != "bare"), None)
    if first is None:
        return record.now + timedelta(days=record.ahead_d)
    grown = first.stage in {"full_cover", "cut"}
    return first.day - timedelta(days=int(ROOTED_D.value)) if grown else first.day


def _given_mm(days: Sequence[date], record: BedWaterRecord) -> Floats:
    """Water given on each day, mm, shape (d,)."""
    found = np.zeros(len(days))
    for row in record.waterings:
        at = (row.day - record.started).days
        if at >= 0:
            found[at] += row.water_l / record.area_m2
    return found


def _cautions(record: BedWaterRecord, *, agree: bool, mm: Band | None, litres: Band | None) -> tuple[Caution, ...]:
    wanted_mm, wanted_l = (0.0 if each is None else each.p50 for each in (mm, litres))
    evenings = math.ceil(wanted_mm / AT_ONCE_MM.value)
    said = {
        (
            "lifting",
            f"About {wanted_l:.0f} L is as many kilograms to carry: take half-full cans, or lay a hose.",
        ): record.way == "can" and wanted_l > CARRIED_L.value,
        (
            "at-once",
            f"More than {AT_ONCE_MM.value:g} L on a square metre at once runs off or below the roots: give it on "
            f"{evenings} evenings.",
        ): wanted_mm > AT_ONCE_MM.value,
        (
            "felt-differs",
            "What was felt is far from what weather and watering tell: was a rain or a watering left out, or is the "
            "soil another one?",
        ): not agree,
        ("water-rules", "Local rules on taking water, and hose bans, go first."): wanted_mm > 0,
    }
    return those_that_hold(said)
