"""A garden's wants, jars and way of working become the record of its plan."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from typing import Any

import numpy as np

from bluewright.journal.bridge.stock import pure_left_g
from bluewright.journal.bridge.watering import climate_of
from bluewright.journal.models import Garden, Jar, PlanBasis, Want
from bluewright.journal.queries import jars, plan
from bluewright.science.base.bands import significant
from bluewright.science.media.weather.record import Weather
from bluewright.science.plan.chain_record import (
    ClothPlanAnswer,
    ClothPlanRecord,
    ClothWant,
    JarAtHand,
    OwnFigures,
    PigmentWant,
    Vat,
)
from bluewright.science.thread import plan_cloth

NINETY_SD = 2 * 1.6449
LEAST_G = 0.001
"""A jar that holds less pure indigo counts as empty."""


def plan_record(garden: Garden, *, wants: Sequence[Want], basis: PlanBasis, today: date) -> ClothPlanRecord | None:
    """The record of a garden's open wants; None where nothing is wanted and no jar holds anything that is known."""
    open_ones = [want for want in wants if want.state == "open"][: plan.MOST_WANTS]
    at_hand = jars_at_hand(garden)
    if not open_ones and not at_hand:
        return None
    own = plan.own_blue_g_per_kg(garden, plant=basis.plant)
    return ClothPlanRecord(
        id=garden.name,
        plant=_word(basis.plant),
        cloth=tuple(_cloth(want, today) for want in open_ones if want.what == "cloth"),
        pigment=tuple(_pigment(want, today) for want in open_ones if want.what == "pigment"),
        jars=at_hand,
        vat=None if basis.vat_l is None else Vat(vat_l=basis.vat_l, in_it_g=basis.in_it_g),
        vat_kind=_word(basis.vat_kind),
        steep_kind=_word(basis.steep_kind),
        own=OwnFigures(blue_g_per_kg=tuple(own)) if own else None,
        tub_l=basis.tub_l,
        bed_width_m=basis.width_m,
        wanted_chance=basis.chance,
        now=today,
        weather=None
        if garden.latitude_deg is None
        else Weather(latitude_deg=garden.latitude_deg, altitude_m=garden.altitude_m or 0.0, normals=climate_of(garden)),
    )


@lru_cache(maxsize=32)
def planned(record: ClothPlanRecord) -> ClothPlanAnswer:
    """What a plan takes. Raises InputError and ModelError as the science does."""
    return plan_cloth(record, rng=np.random.default_rng(record.seed))


def jars_at_hand(garden: Garden) -> tuple[JarAtHand, ...]:
    """Jars that hold something whose pure indigo is known."""
    found = [(jar, pure_left_g(jar)) for jar in _holding(garden)]
    return tuple(
        JarAtHand(
            name=jar.name, pure_g=pure.p50, sd_frac=significant(_sd(pure.p5, pure.p95), 2), assayed=is_assayed(jar)
        )
        for jar, pure in found
        if pure is not None and pure.p50 >= LEAST_G
    )


def not_reckoned(garden: Garden) -> list[str]:
    """Names of jars that hold something of which nobody knows how much is indigo."""
    return [jar.name for jar in _holding(garden) if pure_left_g(jar) is None]


def is_assayed(jar: Jar) -> bool:
    """Whether what is said of a jar rests on an assay of one's own."""
    return any(True for _ in jar.assays.all())


def _holding(garden: Garden) -> list[Jar]:
    return jars.these(garden, jars.holding(garden))


def _sd(low: float, high: float) -> float:
    """The relative standard deviation of a log-normal with these 5 and 95 % points, at most 1."""
    log_sd = math.log(high / low) / NINETY_SD if low > 0 else 1.0
    return min(math.sqrt(math.expm1(log_sd**2)), 1.0)


def _due(want: Want, today: date) -> date | None:
    """The day on which it must be ready; what is overdue is due today."""
    return None if want.by_day is None else max(want.by_day, today)


def _cloth(want: Want, today: date) -> ClothWant:
    return ClothWant(
        name=want.name, fibre=_word(want.fibre), mass_kg=want.mass_g / 1000, basis=_word(want.basis),
        depth=None if want.fixed_frac else _word(want.depth), fixed_frac=want.fixed_frac, by=_due(want, today),
    )  # fmt: skip


def _pigment(want: Want, today: date) -> PigmentWant:
    return PigmentWant(name=want.name, mass_g=want.mass_g, purity_frac=want.purity_frac, by=_due(want, today))


def _word(stored: str) -> Any:
    """A choice as the database holds it, a string; the record refuses what is none of its own words."""
    return stored
